//! The colours of the lines.

use cintre_work::Layer;
use std::collections::BTreeMap;

/// A colour for each layer, told apart by eyes that confuse red and green too.
///
/// A cutter's program often tells its operations apart by colour, and each wants its own: [`Palette::with`] sets them.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Palette(BTreeMap<Layer, String>);

impl Palette {
    /// The same palette with another colour for one layer, written as SVG takes it: `#0072b2`.
    #[must_use]
    pub fn with(mut self, layer: Layer, colour: &str) -> Self {
        self.0.insert(layer, colour.to_owned());
        self
    }

    /// The colour of a layer's lines.
    pub fn colour(&self, layer: Layer) -> &str {
        self.0.get(&layer).map_or(own(layer), String::as_str)
    }
}

impl Default for Palette {
    fn default() -> Self {
        Self(
            Layer::ALL
                .into_iter()
                .map(|layer| (layer, own(layer).to_owned()))
                .collect(),
        )
    }
}

/// Dark to light in the order of cutting, blue against orange, so that lightness tells what hue does not.
const fn own(layer: Layer) -> &'static str {
    match layer {
        Layer::Stock => "#b4b4b4",
        Layer::Text => "#6e6e6e",
        Layer::Mark => "#7b5ea7",
        Layer::Bore => "#00796b",
        Layer::Recess => "#e08a1e",
        Layer::Opening => "#1f5fbf",
        Layer::Outline => "#101828",
    }
}
