//! A body divided: in layers whose joints lie between the clamps and never over one another, or in segments.

use super::body::Maker;
use super::lines::Place;
use super::{BendingError, tried, whole};
use crate::Error;
use crate::centering::{Layer, as_length};
use std::f64::consts::FRAC_PI_4;

/// More pieces than this to a layer are not a form, but firewood.
pub(super) const MOST: usize = 40;

/// The least distance of one layer's joints from the other's, mm.
const STAGGER: f64 = 100.0;

/// The widest that a segment of a female turns: at its ends a push along its middle is then within 22.5° of square.
const SQUARE: f64 = FRAC_PI_4;

/// A piece of a layer, between two places.
#[derive(Clone, Debug)]
pub(super) struct Section {
    pub(super) name: String,
    pub(super) layer: Layer,
    pub(super) from: Place,
    pub(super) to: Place,
    /// Its clamps.
    pub(super) clamps: Vec<Place>,
    /// Whether it stands a little off its neighbour before it, and off the one behind it.
    pub(super) open_at_start: bool,
    pub(super) open_at_end: bool,
}

/// The pieces of a body.
pub(super) struct Division {
    pub(super) sections: Vec<Section>,
    pub(super) dowels: Vec<Place>,
    pub(super) stagger: Option<f64>,
}

impl Division {
    /// The fewest pieces that fit the stock: one to a layer, or more with the joints of one layer clear of the next one's.
    pub(super) fn layers(maker: &Maker<'_>, fits: &dyn Fn(&Section) -> bool) -> Result<Self, Error> {
        (1..=MOST)
            .find_map(|n| Self::in_layers(maker, n).filter(|d| d.sections.iter().all(fits)))
            .ok_or_else(|| maker.no_pieces())
    }

    fn in_layers(maker: &Maker<'_>, n: usize) -> Option<Self> {
        let bays = maker.clamping.clamps.len();
        let at = |share: f64| whole(as_length(bays) * share / as_length(n) + 0.5);
        let a: Vec<usize> = (1..n).map(|i| at(as_length(i))).collect();
        let b: Vec<usize> = if n > 1 && maker.layers > 1 {
            (0..n).map(|i| at(as_length(i) + 0.5)).collect()
        } else {
            Vec::new()
        };
        let mut joints = [a.as_slice(), &b, &[0, bays]].concat();
        joints.sort_unstable();
        let gaps = &maker.clamping.gaps;
        let mut dowels = Vec::new();
        for pair in joints.windows(2) {
            // A bay on either side of every joint, and a dowel's place between.
            if pair[1] < pair[0] + 2 {
                return None;
            }
            dowels.push(gaps[pair[0] + 1]);
            if pair[1] > pair[0] + 2 {
                dowels.push(gaps[pair[1] - 1]);
            }
        }
        let inner = &joints[1..joints.len() - 1];
        let lap = inner
            .windows(2)
            .map(|pair| maker.apart(gaps[pair[0]], gaps[pair[1]]))
            .reduce(f64::min);
        if lap.is_some_and(|lap| lap < STAGGER) {
            return None;
        }
        let mut sections = sections_between(maker, &a, Layer::A);
        if !b.is_empty() {
            sections.extend(sections_between(maker, &b, Layer::B));
        }
        Some(Self {
            sections,
            dowels,
            stagger: lap,
        })
    }

    /// The fewest segments that fit the stock and keep the pressure square, or as many as are asked for.
    pub(super) fn segments(maker: &Maker<'_>, fits: &dyn Fn(&Section) -> bool) -> Result<Self, Error> {
        let most = maker.clamping.clamps.len() / 2;
        let of = |n: usize| Self::in_segments(maker, n).filter(|d| d.sections.iter().all(fits));
        let square = whole((maker.lines.turn.abs() / SQUARE).ceil()).max(1);
        let Some(given) = maker.input.body.segments else {
            return (square.min(most.max(1))..=MOST)
                .find_map(of)
                .ok_or_else(|| maker.no_pieces());
        };
        of(given).ok_or_else(|| {
            let least = (1..=most).find(|&n| of(n).is_some()).unwrap_or(most);
            tried(BendingError::Segments { given, least, most })
        })
    }

    fn in_segments(maker: &Maker<'_>, n: usize) -> Option<Self> {
        let bays = maker.clamping.clamps.len();
        let joints: Vec<usize> = (1..n)
            .map(|i| whole(as_length(bays * i) / as_length(n) + 0.5))
            .collect();
        let sections = sections_between(maker, &joints, Layer::A);
        // Two clamps to each, or it tips; its dowels stand on their lines.
        if sections.len() != n || sections.iter().any(|s| s.clamps.len() < 2) {
            return None;
        }
        let ends = |s: &Section| [s.clamps.first().copied(), s.clamps.last().copied()];
        let dowels = sections.iter().flat_map(ends).flatten().collect();
        Some(Self {
            sections,
            dowels,
            stagger: None,
        })
    }
}

/// The pieces between joints, each with the clamps on it.
fn sections_between(maker: &Maker<'_>, joints: &[usize], layer: Layer) -> Vec<Section> {
    let (gaps, clamps) = (&maker.clamping.gaps, &maker.clamping.clamps);
    let ends = [&[0], joints, &[clamps.len()]].concat();
    let segmented = maker.is_segmented();
    let pairs = (1..).zip(ends.windows(2));
    pairs
        .map(|(number, pair): (usize, &[usize])| Section {
            name: match (segmented, ends.len()) {
                (true, _) => number.to_string(),
                (false, 2) => String::new(),
                _ => format!("{layer:?}{number}"),
            },
            layer,
            from: gaps[pair[0]],
            to: gaps[pair[1]],
            clamps: clamps[pair[0]..pair[1]].to_vec(),
            open_at_start: segmented && pair[0] > 0,
            open_at_end: segmented && pair[1] < clamps.len(),
        })
        .collect()
}
