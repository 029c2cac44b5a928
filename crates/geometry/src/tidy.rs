//! Edges made fit for the offset library, and its results fit for a machine.

use crate::{Circle, Outline, Piece, Point, Vec2, Vertex};

/// A piece shorter than this is smaller than the last figure of any file: its neighbours are run together, mm.
pub(crate) const SHORT: f64 = 1e-4;

/// Beyond this radius the intersections of arcs lose too many digits, mm.
const FLAT: f64 = 3e5;

/// How far the chords of so flat an arc may stand off it, mm.
const FLAT_CHORD: f64 = 5e-7;

/// Two neighbours are run together at their crossing only if it lies this near the piece between them, mm.
const CROSSING_REACH: f64 = 1e-3;

/// The edge without repeated points, without arcs too flat to cross and without pieces too short to cut.
pub(crate) fn sanitised(outline: &Outline) -> Option<Outline> {
    let pieces: Vec<Piece> = outline.pieces().flat_map(|p| in_chords_if_flat(&p)).collect();
    without_short(pieces)
}

fn in_chords_if_flat(piece: &Piece) -> Vec<Piece> {
    let Some(circle) = piece.circle().filter(|c| c.radius > FLAT) else {
        return vec![*piece];
    };
    let step = (8.0 * FLAT_CHORD / circle.radius).sqrt();
    let count = (piece.sweep().abs() / step).ceil().max(1.0);
    let mut chords = Vec::new();
    let mut k = 0.0;
    while k < count {
        chords.push(Piece::line(
            piece.point_at(k / count),
            piece.point_at((k + 1.0) / count),
        ));
        k += 1.0;
    }
    chords
}

/// The closed chain without pieces shorter than [`SHORT`]; the pieces beside one are carried on, along their own line or
/// circle, to where they meet. None where nothing is left.
pub(crate) fn without_short(mut pieces: Vec<Piece>) -> Option<Outline> {
    while let Some(i) = pieces.iter().position(|p| p.length() < SHORT) {
        let n = pieces.len();
        if n <= 2 {
            return None;
        }
        let (before, after) = ((i + n - 1) % n, (i + 1) % n);
        let meeting = meeting(
            &pieces[before],
            &pieces[after],
            pieces[i].start.midpoint(pieces[i].end),
        );
        pieces[before] = between(&pieces[before], pieces[before].start, meeting);
        pieces[after] = between(&pieces[after], meeting, pieces[after].end);
        pieces.remove(i);
    }
    let vertices = pieces.iter().map(|p| Vertex {
        point: p.start,
        bulge: p.bulge,
    });
    (pieces.len() >= 2).then(|| Outline::new(vertices.collect()))
}

/// `piece` between other ends near its own, about its own centre. Where the ends have slid past one another, the line between
/// them: the arc would run the long way round.
pub(crate) fn between(piece: &Piece, start: Point, end: Point) -> Piece {
    let line = Piece::line(start, end);
    piece.circle().map_or(line, |circle| {
        let arc = Piece::arc_between(circle.centre, start, end, piece.bulge > 0.0);
        let grown = arc.sweep().abs() - piece.sweep().abs();
        if grown > std::f64::consts::PI { line } else { arc }
    })
}

/// Where two lines or circles meet near `about`; where they only touch, the point of the first beside `about`.
fn meeting(a: &Piece, b: &Piece, about: Point) -> Point {
    let mut p = about;
    // Newton's method on both distances at once; a line and a circle need few steps from so near.
    for _ in 0..6 {
        let ((da, na), (db, nb)) = (off(a, p), off(b, p));
        let across = na.cross(nb);
        if across.abs() < 0.05 {
            break;
        }
        p += Vec2::new(db * na.y - da * nb.y, da * nb.x - db * na.x) / across;
    }
    if p.distance(about) < CROSSING_REACH && off(a, p).0.abs() + off(b, p).0.abs() < 1e-9 {
        return p;
    }
    let (distance, normal) = off(a, about);
    about - normal * distance
}

/// How far `p` stands off the whole line or circle of a piece, and the direction in which that grows.
fn off(piece: &Piece, p: Point) -> (f64, Vec2) {
    match piece.circle() {
        Some(Circle { centre, radius }) => {
            let out = p - centre;
            (out.hypot() - radius, out / out.hypot())
        }
        None => {
            let t = piece.tangent_at(0.0);
            let normal = Vec2::new(-t.y, t.x);
            ((p - piece.start).dot(normal), normal)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_hair_of_a_chamfer_becomes_the_corner() {
        let points = [
            (0.0, 0.0),
            (10.0 - 5e-5, 0.0),
            (10.0, 5e-5),
            (10.0, 8.0),
            (0.0, 8.0),
            (0.0, 8.0),
        ];
        let outline = Outline::polygon(&points.map(Point::from));
        let tidy = sanitised(&outline).unwrap();
        assert_eq!(tidy.vertices().len(), 4);
        assert!((tidy.area() - 80.0).abs() < 1e-9);
    }

    #[test]
    fn an_arc_whose_ends_slide_past_one_another_does_not_run_the_long_way_round() {
        let sliver = Piece::arc(Point::ZERO, Point::new(30.0, 0.0), 2e-6);
        let past = Piece::arc(Point::ZERO, Point::new(30.0, 0.0), 5e-6).end;
        assert!(between(&sliver, past, sliver.end).length() < SHORT);
        let most = Piece::arc(Point::ZERO, Point::new(30.0, 0.0), 6.0);
        let less = between(&most, sliver.end, most.end);
        assert!((less.length() - (180.0 - 6e-5)).abs() < 1e-9);
    }

    #[test]
    fn a_very_flat_arc_goes_as_chords_that_hardly_leave_it() {
        let a = Piece::arc(Point::new(0.0, -1e6), Point::ZERO, -1e-3);
        let chords = in_chords_if_flat(&a);
        assert!(chords.len() > 100 && chords[0].start == a.start);
        let worst = chords
            .iter()
            .map(|c| a.nearest(c.point_at(0.5)).distance)
            .fold(0.0, f64::max);
        assert!(worst <= 6e-7 && worst > 1e-7, "{worst}");
    }
}
