//! What is scribed on the members of a rib: its centre line, the springing line, the joints of the voussoirs, the points that the
//! soffit is struck from, and what each member is.

use super::Input;
use super::member::Member;
use super::rib::Rib;
use crate::Error;
use crate::line::at_level;
use crate::marks::{self, centre_line, from_edge};
use cintre_geometry::{Path, Point, Vec2};
use cintre_work::{Mark, MarkKind};

/// How far letters keep from an edge or a hole, mm.
const CLEAR: f64 = 3.0;

/// How far lines keep from one, mm: they begin a little inside an edge, which may be aslant to them.
const LINE_CLEAR: f64 = 0.2;

/// And from a hole, mm.
const HOLE_CLEAR: f64 = 1.5;

/// Half a stroke of the cross at a striking point, mm.
const CROSS: f64 = 6.0;

/// Centres nearer than this are one, mm.
const SAME: f64 = 1e-6;

/// Steps each way in which a place for letters is looked for.
const STEPS: u32 = 6;

/// The lines of a rib, in the arch's frame. A springing that lies above the rib's back has none.
pub(crate) fn lines(rib: &Rib, input: &Input) -> Vec<Mark> {
    let soffit = &input.soffit;
    let mut marks = centre_line(rib.centre(), rib.bottom, &rib.back);
    let edge = rib.back_and_sides(rib.bottom);
    let (left, right) = (at_level(&edge, soffit.start().y), at_level(&edge, soffit.end().y));
    if let (Some(from), Some(to)) = (left.first(), right.last()) {
        let room = to.point.x - from.point.x;
        marks.push(from_edge(from.point, Vec2::new(1.0, 0.0), room));
        marks.push(from_edge(to.point, Vec2::new(-1.0, 0.0), room));
    }
    marks.extend(joints(rib, input));
    marks.extend(striking_points(soffit));
    marks
}

/// The voussoirs' joints run on inwards through the boards to the rib's back.
fn joints(rib: &Rib, input: &Input) -> Vec<Mark> {
    let Some(ring) = &input.ring else {
        return Vec::new();
    };
    let room = rib.outline.bounds().height();
    let lines = ring.joints.iter().map(|joint| {
        let inwards = (joint.start() - joint.end()).normalize();
        let near = rib.back.nearest(joint.start() + inwards * input.lagging.depth());
        from_edge(near.point, inwards, room)
    });
    lines.collect()
}

/// A cross at each centre that the soffit is struck from.
fn striking_points(soffit: &Path) -> Vec<Mark> {
    let mut centres: Vec<Point> = Vec::new();
    for circle in soffit.pieces().filter_map(|piece| piece.circle()) {
        if centres.iter().all(|c| c.distance(circle.centre) > SAME) {
            centres.push(circle.centre);
        }
    }
    let arms = [Vec2::new(CROSS, 0.0), Vec2::new(0.0, CROSS)];
    let strokes = centres
        .iter()
        .flat_map(|&c| arms.map(|arm| Path::polyline(&[c - arm, c + arm])));
    strokes
        .map(|path| Mark {
            path,
            kind: MarkKind::Line,
        })
        .collect()
}

/// Those of the lines that lie on a member, where they are whole.
pub(crate) fn on(member: &Member, lines: &[Mark]) -> Vec<Mark> {
    let whole = |mark: &&Mark| {
        let piece = mark.path.pieces().next();
        (0..=4).all(|i| {
            piece.is_some_and(|p| is_clear(member, p.point_at(f64::from(i) / 4.0), LINE_CLEAR, HOLE_CLEAR))
        })
    };
    lines.iter().filter(whole).cloned().collect()
}

fn is_clear(member: &Member, p: Point, by: f64, of_holes: f64) -> bool {
    let holes = &member.bores;
    member.outline.signed_distance(p) < -by
        && member
            .openings
            .iter()
            .all(|o| o.signed_distance(p) > by.max(of_holes))
        && holes
            .iter()
            .all(|b| b.centre.distance(p) > b.diameter / 2.0 + of_holes)
}

/// The first of several wordings that has room on a member as it lies, clear of the lines on it; none where none has. Places that
/// are `likely` are tried before any other.
pub(crate) fn letters(
    member: &Member,
    lines: &[Mark],
    wordings: &[String],
    likely: &[Point],
) -> Result<Option<Vec<Mark>>, Error> {
    let bounds = member.outline.bounds();
    let mut middles: Vec<Point> = (1..STEPS)
        .flat_map(|i| {
            (1..STEPS).map(move |j| (f64::from(i) / f64::from(STEPS), f64::from(j) / f64::from(STEPS)))
        })
        .map(|(u, v)| Point::new(bounds.x0 + u * bounds.width(), bounds.y0 + v * bounds.height()))
        .collect();
    // Between the first two bolts of the tie's row, then nearest to the middle.
    middles.sort_by(|a, b| {
        a.distance(bounds.center())
            .total_cmp(&b.distance(bounds.center()))
    });
    if let [first, second, ..] = member.bores[..] {
        middles.insert(0, first.centre.midpoint(second.centre));
    }
    middles.splice(0..0, likely.iter().copied());
    middles.retain(|&p| is_clear(member, p, CLEAR, CLEAR));
    let clear = |p: Point| {
        is_clear(member, p, CLEAR, CLEAR) && lines.iter().all(|line| line.path.nearest(p).distance > CLEAR)
    };
    // What lies wholly inside a box of letters is not met on its border.
    let holes = member.bores.iter().map(|b| b.centre);
    let holes = holes.chain(member.openings.iter().map(|o| o.bounds().center()));
    let inside: Vec<Point> = holes.chain(lines.iter().map(|line| line.path.start())).collect();
    let free = |wide: f64, height: f64| {
        let mut places = middles.clone();
        places.retain(|middle| {
            let outside = |p: &Point| {
                (p.x - middle.x).abs() > wide / 2.0 + CLEAR || (p.y - middle.y).abs() > height + CLEAR
            };
            inside.iter().all(outside)
        });
        places
    };
    for text in wordings {
        let found = marks::name(text, free, clear)?;
        if found.is_some() {
            return Ok(found);
        }
    }
    Ok(None)
}
