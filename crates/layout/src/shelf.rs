//! The room left on one sheet, and where a box goes best.
//!
//! The room is kept as every largest empty box; they may overlap one another. A box is set into the corner of the one
//! where its shorter side leaves the least over. Spacing is had by making each box larger by it to the right and up, and
//! the sheet as well.

use crate::ROUNDING;
use cintre_geometry::{Point, Rect};
use cintre_work::Stock;

/// One sheet's room.
#[derive(Debug)]
pub(crate) struct Shelf {
    empty: Vec<Rect>,
    spacing: f64,
}

/// Where a piece goes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Spot {
    /// Which of its ways it lies, counted from 0.
    pub(crate) way: usize,
    /// The lower left corner of its box.
    pub(crate) at: Point,
}

impl Shelf {
    /// A whole sheet inside its trim.
    pub(crate) fn new(stock: &Stock, spacing: f64) -> Self {
        let inside = stock.usable();
        let room = Rect {
            x1: inside.x1 + spacing,
            y1: inside.y1 + spacing,
            ..inside
        };
        let usable = room.x1 > room.x0 && room.y1 > room.y0;
        Self {
            empty: if usable { vec![room] } else { Vec::new() },
            spacing,
        }
    }

    /// Takes the best spot for a box of one of `sizes`, none where there is no room.
    pub(crate) fn put(&mut self, sizes: &[(f64, f64)]) -> Option<Spot> {
        let mut best: Option<([f64; 4], Spot)> = None;
        for (way, &(w, h)) in sizes.iter().enumerate() {
            for room in &self.empty {
                let over = (room.width() - w - self.spacing, room.height() - h - self.spacing);
                if over.0 < -ROUNDING || over.1 < -ROUNDING {
                    continue;
                }
                // Equal fits go lowest, then leftmost, so that the order of the rooms does not matter.
                let rank = [over.0.min(over.1), over.0.max(over.1), room.y0, room.x0];
                if best.is_none_or(|(so_far, _)| rank < so_far) {
                    best = Some((
                        rank,
                        Spot {
                            way,
                            at: room.origin(),
                        },
                    ));
                }
            }
        }
        let (_, spot) = best?;
        let (w, h) = sizes[spot.way];
        self.take(Rect::from_origin_size(
            spot.at,
            (w + self.spacing, h + self.spacing),
        ));
        Some(spot)
    }

    /// Cuts a box out of the room.
    fn take(&mut self, taken: Rect) {
        let (cut, whole): (Vec<_>, Vec<_>) = self.empty.iter().partition(|room| meet(**room, taken));
        let rests: Vec<Rect> = cut.iter().flat_map(|room| rests(*room, taken)).collect();
        let inside = |a: Rect, b: Rect| a.x0 >= b.x0 && a.y0 >= b.y0 && a.x1 <= b.x1 && a.y1 <= b.y1;
        let kept: Vec<Rect> = rests
            .iter()
            .enumerate()
            .filter(|&(i, &rest)| {
                let in_whole = whole.iter().any(|room| inside(rest, *room));
                // Of two alike, the first stays.
                let in_rest = rests
                    .iter()
                    .enumerate()
                    .any(|(j, other)| i != j && inside(rest, *other) && (j < i || !inside(*other, rest)));
                !in_whole && !in_rest
            })
            .map(|(_, &rest)| rest)
            .collect();
        self.empty = [whole, kept].concat();
    }
}

fn meet(a: Rect, b: Rect) -> bool {
    a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1
}

/// The largest boxes of `room` beside, above and below `taken`.
fn rests(room: Rect, taken: Rect) -> impl Iterator<Item = Rect> {
    [
        Rect { x1: taken.x0, ..room },
        Rect { x0: taken.x1, ..room },
        Rect { y1: taken.y0, ..room },
        Rect { y0: taken.y1, ..room },
    ]
    .into_iter()
    .filter(|rest| rest.width().min(rest.height()) > ROUNDING)
}
