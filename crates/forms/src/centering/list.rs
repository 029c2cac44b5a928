//! What a centre is made of besides its ribs: boards, spacers, braces, head and sill pieces, wedges, bolts.

use super::boards::Boards;
use super::rib::Rib;
use super::spacing::Spacing;
use super::striking::Striking;
use super::{Build, Input};
use crate::form::Item;

/// Under a wall deeper than this a head has a pair of wedges near each end, mm.
const TWO_PAIRS: f64 = 150.0;

/// Places for spacers between two ribs: both feet, the crown, both haunches.
const PLACES: usize = 5;

/// And one more in the middle of a tie longer than this, mm.
const LONG_TIE: f64 = 1000.0;

/// Braces run from the ribs' feet to this share of their height.
const BRACED: f64 = 0.7;

/// What the list is made from.
pub(crate) struct Whole<'a> {
    pub(crate) input: &'a Input,
    pub(crate) rib: &'a Rib,
    pub(crate) spacing: &'a Spacing,
    pub(crate) boards: Option<&'a Boards>,
    pub(crate) striking: &'a Striking,
    pub(crate) build: Build,
    /// How many thicknesses of the stock a rib takes.
    pub(crate) layers: u32,
    /// Bolts in one rib.
    pub(crate) bolts: usize,
    /// Whether it is half of a closed arch.
    pub(crate) half: bool,
    /// Whether a king post asks for a head under the middle.
    pub(crate) king_post: bool,
}

impl Whole<'_> {
    pub(crate) fn list(&self) -> Vec<Item> {
        let mut items = Vec::new();
        let input = self.input;
        let inside = input.wall - 2.0 * input.clear.faces;
        if let Some(boards) = self.boards {
            let name = if boards.gap > 0.0 {
                "batten"
            } else {
                "lagging board"
            };
            let section = (boards.width, input.lagging.thickness);
            items.push(Item::of(name, boards.count, boards.length, Some(section)));
        }
        if input.lagging.skin > 0.0 {
            let length = self
                .boards
                .map_or_else(|| self.rib.back.length(), |b| b.stretch.1 - b.stretch.0);
            items.push(Item::of("skin", 1, length, Some((inside, input.lagging.skin))));
        }
        if self.build != Build::TurningPiece {
            items.extend(self.between_ribs(inside));
        }
        if !self.half {
            items.extend(self.under(inside));
        }
        items.extend(self.wedges_and_bolts(inside));
        items
    }

    fn bays(&self) -> usize {
        self.spacing.ribs.saturating_sub(1)
    }

    fn between_ribs(&self, inside: f64) -> Vec<Item> {
        let long = usize::from(self.rib.width() > LONG_TIE);
        let spacers = (PLACES + long) * self.bays();
        let height = self.rib.outline.bounds().height() * BRACED;
        vec![
            Item::of("spacer", spacers, self.spacing.clear, Some(self.input.spacer)),
            Item::of("diagonal brace across the ribs", 4, inside.hypot(height), None),
        ]
    }

    /// Head and sill pieces: how many and how long; how strong is not for this program.
    fn under(&self, inside: f64) -> Vec<Item> {
        vec![
            Item::of("head piece across the ribs", self.heads(), inside, None),
            Item::of("sill piece", self.heads(), inside, None),
        ]
    }

    fn heads(&self) -> usize {
        2 + usize::from(self.king_post)
    }

    fn wedges_and_bolts(&self, inside: f64) -> Vec<Item> {
        let pairs = self.heads() * if self.input.wall > TWO_PAIRS { 2 } else { 1 };
        let (length, _, thick) = self.striking.wedge;
        let width = self.input.spacer.0.max(self.input.spacer.1);
        let mut items = vec![Item::of(
            "folding wedge, one of a pair",
            2 * pairs,
            length,
            Some((width, thick)),
        )];
        if self.bolts > 0 {
            let (count, grip) = if self.layers > 1 {
                (self.bolts * self.spacing.ribs, self.spacing.thickness)
            } else {
                (self.bolts, inside)
            };
            items.push(Item::of("bolt, length through the wood", count, grip, None));
        }
        items
    }
}
