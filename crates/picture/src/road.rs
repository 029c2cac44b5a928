//! The bit's road over a sheet.

use cintre_geometry::{Piece, Point};
use cintre_work::{Program, To};
use std::collections::BTreeSet;

/// Two places nearer than this on the sheet are one, mm.
const SAME: f64 = 1.0;

/// What a program draws over a sheet, each line once however many passes run along it.
#[derive(Clone, Debug, Default)]
pub(crate) struct Road {
    pub(crate) cuts: Vec<Piece>,
    pub(crate) rapids: Vec<Piece>,
    /// Where the bit enters the wood, in order, each place once.
    pub(crate) starts: Vec<Point>,
}

/// The road of one program.
pub(crate) fn road(program: &Program) -> Road {
    let mut road = Road::default();
    let mut seen = BTreeSet::new();
    let mut from: Option<Point> = None;
    let mut in_air = true;
    for step in &program.moves {
        let cutting = !matches!(step.to, To::Rapid);
        if let Some(start) = from {
            if cutting && in_air && road.starts.iter().all(|s| s.distance(start) > SAME) {
                road.starts.push(start);
            }
            let bulge = match step.to {
                To::Arc { bulge, .. } => bulge,
                _ => 0.0,
            };
            let piece = Piece {
                start,
                end: step.end,
                bulge,
            };
            if start.distance(step.end) > 1e-6 && seen.insert(key(&piece, cutting)) {
                let lines = if cutting { &mut road.cuts } else { &mut road.rapids };
                lines.push(piece);
            }
        }
        in_air = !cutting;
        from = Some(step.end);
    }
    road
}

/// The same for the same line run either way.
fn key(piece: &Piece, cutting: bool) -> (bool, [i64; 2], [i64; 2], [i64; 2]) {
    let (a, b) = (cell(piece.start), cell(piece.end));
    let middle = cell(piece.point_at(0.5));
    (cutting, a.min(b), a.max(b), middle)
}

#[expect(
    clippy::cast_possible_truncation,
    reason = "a place on a sheet is far inside the range"
)]
fn cell(p: Point) -> [i64; 2] {
    [p.x, p.y].map(|v| (v * 100.0).round() as i64)
}

#[cfg(test)]
mod tests {
    use super::*;
    use cintre_work::Move;

    #[test]
    fn passes_along_one_line_are_drawn_once_and_entered_once() {
        let step = |x: f64, y: f64, z: f64, to: To| Move {
            end: Point::new(x, y),
            z,
            to,
        };
        let feed = To::Straight { feed: 1000.0 };
        let moves = vec![
            step(0.0, 0.0, 12.0, To::Rapid),
            step(0.0, 0.0, -5.0, feed),
            step(90.0, 0.0, -5.0, feed),
            step(0.0, 0.0, -10.0, feed),
            step(0.0, 0.0, 12.0, To::Rapid),
            step(50.0, 40.0, 12.0, To::Rapid),
            step(50.0, 40.0, -10.0, feed),
            step(50.0, 40.0, 12.0, To::Rapid),
        ];
        let road = road(&Program {
            sheet: "sheet-1".into(),
            bit: "straight-6".into(),
            diameter: 6.35,
            number: None,
            speed: 16000.0,
            moves,
        });
        assert_eq!((road.cuts.len(), road.rapids.len()), (1, 1));
        assert_eq!(road.starts, [Point::ZERO, Point::new(50.0, 40.0)]);
    }
}
