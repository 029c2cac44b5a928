//! Line kinds and colours.
//!
//! The colours keep apart for eyes that lack one of the three kinds of cone, as a test holds. Each kind of line has its
//! own dashes or weight besides.

/// Near black, a little blue: edges and lettering.
pub(crate) const INK: &str = "#1f2a36";
/// For what is only there to measure by.
pub(crate) const GREY: &str = "#6b7680";
/// The first bit's road.
pub(crate) const BLUE: &str = "#1c5d99";
/// Centres, and the second bit's road.
pub(crate) const RUST: &str = "#b34a1c";
/// The third bit's road, and boring.
pub(crate) const UMBER: &str = "#602010";
/// Wood that is kept.
pub(crate) const WOOD: &str = "#f1e2c4";
/// Wood cut part of the way down.
pub(crate) const SUNK: &str = "#dcc499";
/// Stock.
pub(crate) const STOCK: &str = "#fbf7ee";
/// Paper.
pub(crate) const PAPER: &str = "#ffffff";

/// How a line is drawn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Pen {
    pub(crate) colour: &'static str,
    /// Weight, mm of paper.
    pub(crate) weight: f64,
    /// Dash and gap lengths, mm of paper; empty for a full line.
    pub(crate) dashes: &'static [f64],
}

const fn pen(colour: &'static str, weight: f64, dashes: &'static [f64]) -> Pen {
    Pen {
        colour,
        weight,
        dashes,
    }
}

/// The line that the drawing is about.
pub(crate) const STRONG: Pen = pen(INK, 0.7, &[]);
/// Edges of parts.
pub(crate) const EDGE: Pen = pen(INK, 0.32, &[]);
/// Joints, openings' crosses, scribed lines.
pub(crate) const FINE: Pen = pen(INK, 0.2, &[]);
/// Dimension lines.
pub(crate) const MEASURE: Pen = pen(GREY, 0.2, &[]);
/// Centre lines and springing lines.
pub(crate) const CHAIN: Pen = pen(GREY, 0.25, &[7.0, 1.3, 0.9, 1.3]);
/// Radius lines.
pub(crate) const RADIUS: Pen = pen(RUST, 0.25, &[3.0, 1.4]);
/// Centres, which are small and stand clear.
pub(crate) const CROSS: Pen = pen(RUST, 0.4, &[]);
/// Points that were taken on site.
pub(crate) const POINT: Pen = pen(BLUE, 0.4, &[]);
/// Recesses.
pub(crate) const HIDDEN: Pen = pen(INK, 0.25, &[1.8, 0.9]);
/// The margin that is trimmed off.
pub(crate) const TRIM: Pen = pen(GREY, 0.2, &[1.2, 1.2]);
/// Places that are kept free.
pub(crate) const KEPT_OUT: Pen = pen(UMBER, 0.3, &[2.4, 1.0, 0.6, 1.0]);
/// The bit in the air.
pub(crate) const RAPID: Pen = pen(GREY, 0.22, &[0.3, 1.3]);
/// The bit on its way to an edge and off it.
pub(crate) const LEAD: Pen = pen(RUST, 0.3, &[0.9, 0.5]);
/// The bit going down along an edge.
pub(crate) const RAMP: Pen = pen(RUST, 0.7, &[0.3, 0.9]);
/// Tabs, as thick as they are short.
pub(crate) const TAB: Pen = pen(INK, 1.3, &[]);
/// What a proof finds wrong.
pub(crate) const FAULT: Pen = pen(RUST, 0.9, &[]);
/// Frame of the page.
pub(crate) const FRAME: Pen = pen(INK, 0.3, &[]);

/// The road of one bit after another; the fourth begins again.
pub(crate) const ROADS: [Pen; 3] = [
    pen(BLUE, 0.26, &[]),
    pen(RUST, 0.32, &[4.0, 0.8]),
    pen(UMBER, 0.32, &[1.6, 0.8]),
];

/// A bit that only bores.
pub(crate) const BORING: Pen = pen(UMBER, 0.3, &[]);

#[cfg(test)]
mod tests;
