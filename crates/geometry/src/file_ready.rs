//! Chains made ready for a file: no arc near half a turn or over, no piece too short to be seen.
//!
//! A file holds a place only to its last figure, so a short piece simply goes into its neighbour. A parallel is held to far
//! less than that, so there (`tidy`) the neighbours of a short piece are carried on to where they meet.

use crate::tidy::between;
use crate::{Outline, Path, Piece};

/// The longest sweep of an arc in a file, rad (170°): nearer to half a turn, rounding can make a chord longer than the
/// diameter, and a reader that takes the centre from radius and chord finds it badly.
const LONGEST_SWEEP: f64 = 170.0 * std::f64::consts::PI / 180.0;

impl Outline {
    /// The same outline with its arcs split below half a turn, and pieces with a chord under `least` merged into the
    /// next piece, which keeps its centre. None where nothing is left.
    pub fn tidied(&self, least: f64) -> Option<Self> {
        let mut pieces = without_short(self.pieces().flat_map(Piece::split_below_half_turn), least);
        if let (Some(tail), Some(first)) = (pieces.rest, pieces.kept.first_mut()) {
            *first = between(first, tail.start, first.end);
        }
        (pieces.kept.len() >= 2).then(|| Self::closing(&Path::from_pieces(&pieces.kept)))
    }
}

impl Path {
    /// The same path with its arcs split below half a turn, and pieces with a chord under `least` merged into a
    /// neighbour, which keeps its centre. None where nothing is left.
    pub fn tidied(&self, least: f64) -> Option<Self> {
        let mut pieces = without_short(self.pieces().flat_map(Piece::split_below_half_turn), least);
        if let (Some(tail), Some(last)) = (pieces.rest, pieces.kept.last_mut()) {
            *last = between(last, last.start, tail.end);
        }
        (!pieces.kept.is_empty()).then(|| Self::from_pieces(&pieces.kept))
    }
}

impl Piece {
    /// The same piece, in equal parts where it turns by half a turn (less 10°) or more, so that a file can hold it.
    pub fn split_below_half_turn(self) -> impl ExactSizeIterator<Item = Self> {
        // An arc turns by less than a full turn: three parts are always enough.
        let n: u8 = match self.sweep().abs() {
            sweep if sweep > 2.0 * LONGEST_SWEEP => 3,
            sweep if sweep > LONGEST_SWEEP => 2,
            _ => 1,
        };
        let at = move |i: u8| f64::from(i) / f64::from(n);
        (0..n).map(move |i| if n == 1 { self } else { self.part(at(i), at(i + 1)) })
    }
}

/// Pieces that are long enough, and what was too short at the end.
struct Kept {
    kept: Vec<Piece>,
    rest: Option<Piece>,
}

fn without_short(pieces: impl Iterator<Item = Piece>, least: f64) -> Kept {
    let mut kept = Vec::new();
    let mut rest: Option<Piece> = None;
    for piece in pieces {
        let piece = rest.map_or(piece, |short| between(&piece, short.start, piece.end));
        if piece.start.distance(piece.end) < least {
            rest = Some(piece);
        } else {
            kept.push(piece);
            rest = None;
        }
    }
    Kept { kept, rest }
}

#[cfg(test)]
mod tests {
    use crate::{Outline, Path, Piece, Point, Vertex};
    use proptest::prelude::*;

    fn vertex(x: f64, y: f64, bulge: f64) -> Vertex {
        Vertex {
            point: Point::new(x, y),
            bulge,
        }
    }

    #[test]
    fn half_turns_are_split_and_stay_on_their_circle() {
        let circle = Outline::circle((10.0, 20.0).into(), 5.0).tidied(1e-4).unwrap();
        assert_eq!(circle.pieces().len(), 4);
        for piece in circle.pieces() {
            let on = piece.circle().unwrap();
            assert!((on.radius - 5.0).abs() < 1e-12 && on.centre.distance((10.0, 20.0).into()) < 1e-12);
        }
        let most = Path::from_pieces(&[Piece::arc((0.0, 0.0).into(), (5.0, 0.0).into(), 6.2)]);
        let most = most.tidied(1e-4).unwrap();
        assert!(most.pieces().len() == 3 && (most.length() - 31.0).abs() < 1e-9);
    }

    #[test]
    fn a_short_piece_goes_into_the_next_wherever_it_stands() {
        for turn in 0..4 {
            let mut corners = [(0.0, 0.0), (100.0, 0.0), (100.0, 5e-5), (0.0, 80.0)];
            corners.rotate_left(turn);
            let corners = corners.map(|(x, y)| vertex(x, y, 0.0));
            let tidy = Outline::new(corners.to_vec()).tidied(1e-4).unwrap();
            assert_eq!(tidy.vertices().len(), 3, "rotated by {turn}");
            assert!((tidy.area() - 4000.0).abs() < 0.01);
        }
    }

    #[test]
    fn an_open_path_keeps_its_ends() {
        let path = Path::new(vec![
            vertex(0.0, 0.0, 0.0),
            vertex(2e-5, 0.0, 0.3),
            vertex(50.0, 0.0, 0.0),
            vertex(50.0, 3e-5, 0.0),
        ]);
        let tidy = path.tidied(1e-4).unwrap();
        assert_eq!((tidy.start(), tidy.end()), (path.start(), path.end()));
        assert_eq!(tidy.pieces().len(), 1);
        assert!(
            Path::polyline(&[(0.0, 0.0).into(), (1e-5, 0.0).into()])
                .tidied(1e-4)
                .is_none()
        );
    }

    proptest! {
        #[test]
        fn the_circle_of_the_neighbour_is_kept(radius in 20.0..50_000.0f64, sweep in 0.01..2.9f64, slip in -1.0..1.0f64) {
            let arc = Piece::arc((0.0, 0.0).into(), (radius, 0.0).into(), sweep);
            let path = Path::new(vec![
                vertex(radius + 7e-5 * slip, 6e-5, 0.0),
                vertex(radius, 0.0, arc.bulge),
                vertex(arc.end.x, arc.end.y, 0.0),
            ]);
            let tidy = path.tidied(1e-4).unwrap();
            prop_assert_eq!(tidy.pieces().len(), 1);
            let kept = tidy.pieces().next().unwrap();
            // No point of the arc moves by more than the piece that was merged was long, and a little for the turn.
            for i in 0..=10u8 {
                prop_assert!((kept.point_at(f64::from(i) / 10.0).to_vec2().hypot() - radius).abs() < 2e-4);
            }
        }
    }
}
