//! What is laid on a rib's faces: a king post and struts where the frame is wide, plates over joints that nothing else covers.

use super::frame::{Face, Frame, Side};
use super::joints::Divided;
use super::member::{Layer, Member, chord};
use crate::Error;
use cintre_geometry::{Outline, Path, Point, Rect, Vec2};

/// A frame clear for more than this between its legs has a king post, mm.
pub const KING_POST: f64 = 1500.0;

/// And for more than this struts beside it, mm.
pub const STRUTS: f64 = 3000.0;

/// Boards on a rib's face end this far inside its back, mm, so that they never lift the lagging.
const UNDER_BACK: f64 = 5.0;

/// The plates over the joints of a solid frame reach this far past each side of them, mm.
const PLATE: f64 = 150.0;

/// A post has this much more wood round its bolts than it must.
const SLACK: f64 = 1.05;

/// Steps in which a place for a bolt is looked for, mm.
const STEP: f64 = 5.0;

/// A member with the bolts that it must have.
pub(crate) type Bolted = (Member, Vec<Point>);

/// The king post and the struts that a frame asks for.
pub(crate) fn truss(frame: &Frame, divided: &Divided, edge: f64) -> Vec<Bolted> {
    let Some((left, right)) = frame.tie_line() else {
        return Vec::new();
    };
    if frame.depth.is_none() || right - left <= KING_POST {
        return Vec::new();
    }
    let centre = f64::midpoint(left, right);
    let Some(post) = king_post(frame, divided, centre, edge) else {
        return Vec::new();
    };
    let mut all = vec![post];
    if right - left > STRUTS {
        all.extend(struts(frame, divided, centre, edge));
    }
    all
}

/// Whether a bolt may stand at a point: in the wood of the frame, and so far off all its edges.
fn may_bolt(divided: &Divided, p: Point, edge: f64) -> bool {
    divided.members.iter().any(|m| m.holds(p)) && divided.members.iter().all(|m| m.off_edges(p) >= edge)
}

/// A post from the bottom of the tie up over the band, with two bolts through each.
fn king_post(frame: &Frame, divided: &Divided, centre: f64, edge: f64) -> Option<Bolted> {
    let half = 2.0 * edge * SLACK;
    let heights = [-half, 0.0, half].map(|dx| frame.height_at(centre + dx));
    let top = heights.into_iter().collect::<Option<Vec<_>>>()?;
    let top = top.into_iter().fold(f64::INFINITY, f64::min) - UNDER_BACK;
    let row = |y: f64| [-half, half].map(|dx| Point::new(centre + dx / 2.0, y));
    let free = |y: f64| row(y).iter().all(|&p| may_bolt(divided, p, edge));
    let tie = f64::midpoint(frame.bottom, frame.tie_top);
    let steps = std::iter::successors(Some(top - edge * SLACK), |y| Some(y - STEP));
    let upper = steps.take_while(|&y| y > frame.tie_top).find(|&y| free(y))?;
    let outline = Outline::rectangle(Rect::new(centre - half, frame.bottom, centre + half, top));
    let bolts = row(tie).into_iter().chain(row(upper)).collect();
    let upright = std::f64::consts::FRAC_PI_2;
    Some((
        Member::new("king post".to_owned(), Layer::OnInner, outline, upright),
        bolts,
    ))
}

/// A strut to each side of the king post, from the tie up to the band at a quarter of its length.
fn struts(frame: &Frame, divided: &Divided, centre: f64, edge: f64) -> Vec<Bolted> {
    let half = 1.5 * edge;
    let found = frame.middle(0.0).and_then(|middle| frame.quarters(&middle));
    let Some(tops) = found else {
        return Vec::new();
    };
    let tie = f64::midpoint(frame.bottom, frame.tie_top);
    let mut struts = Vec::new();
    for (number, (top, side)) in (1..).zip(tops.into_iter().zip([-1.0, 1.0])) {
        // Clear of the post, whatever the slope.
        let foot = Point::new(centre + side * (3.0 * edge * SLACK + half), tie);
        let along = (top - foot).normalize();
        let across = Vec2::new(-along.y, along.x) * half;
        let (low, high) = (foot - along * edge * SLACK, top + along * edge * SLACK);
        let corners = [low - across, high - across, high + across, low + across];
        let inside = corners.iter().all(|c| {
            c.y >= frame.bottom && frame.height_at(c.x).is_some_and(|back| c.y <= back - UNDER_BACK)
        });
        let bolts = vec![foot, top];
        if inside && bolts.iter().all(|&p| may_bolt(divided, p, edge)) {
            let outline = Outline::polygon(&corners).oriented(true);
            let grain = chord(&Path::polyline(&[foot, top]));
            struts.push((
                Member::new(format!("strut {number}"), Layer::OnInner, outline, grain),
                bolts,
            ));
        }
    }
    struts
}

/// Plates on both faces over the joints of one layer, or over the key of a frame that comes apart.
pub(crate) struct Plates<'a> {
    pub(crate) frame: &'a Frame,
    pub(crate) divided: &'a Divided,
    pub(crate) key: Option<(f64, f64)>,
    /// Whether every joint has one, or the key's alone.
    pub(crate) every_joint: bool,
}

impl Plates<'_> {
    /// The plates; a joint without room for its plate is refused.
    pub(crate) fn members(&self) -> Result<Vec<Member>, Error> {
        let mut plates = Vec::new();
        let keyed = self.key_faces();
        let is_key = |face: &Face| keyed.is_some_and(|(a, b)| *face == a || *face == b);
        if self.every_joint {
            for face in self.divided.joints.iter().filter(|face| !is_key(face)) {
                plates.push(self.over(face, face)?);
            }
            plates.extend(self.tie_plates());
        }
        if let Some((a, b)) = keyed {
            if self.frame.depth.is_some() {
                plates.push(self.over(&a, &b)?);
            } else {
                plates.extend(self.upper_key_plate());
            }
            plates.extend(self.lower_key_plate());
        }
        let named = (1..).zip(plates).map(|(number, (outline, grain))| {
            Member::new(format!("gusset {number}"), Layer::OnBoth, outline, grain)
        });
        Ok(named.collect())
    }

    fn reach(&self) -> f64 {
        self.frame.depth.map_or(PLATE, |depth| depth.max(PLATE))
    }

    fn key_faces(&self) -> Option<(Face, Face)> {
        let (centre, half) = self.key?;
        Some((self.frame.plumb(centre - half)?, self.frame.plumb(centre + half)?))
    }

    /// The plate from so far before one face to so far past another.
    fn over(&self, from: &Face, to: &Face) -> Result<(Outline, f64), Error> {
        let frame = self.frame;
        let plate = || {
            let (a, b) = (
                frame.radial(from.outer - self.reach())?,
                frame.radial(to.outer + self.reach())?,
            );
            let grain = chord(&frame.outer.part(a.outer, b.outer));
            Some((frame.piece(&a, &b)?, grain))
        };
        plate().ok_or(Error::Plate {
            x: from.from.x,
            reach: self.reach(),
        })
    }

    fn tie_box(&self, from: f64, to: f64) -> (Outline, f64) {
        let frame = self.frame;
        (
            Outline::rectangle(Rect::new(from, frame.bottom, to, frame.tie_top)),
            0.0,
        )
    }

    /// Over the tie's own joints, and over its ends against the legs.
    fn tie_plates(&self) -> Vec<(Outline, f64)> {
        let frame = self.frame;
        let reach = self.reach();
        let mut plates = Vec::new();
        let ends = (
            frame.level(frame.bottom, Side::Left),
            frame.level(frame.bottom, Side::Right),
        );
        if frame.depth.is_some()
            && let (Some(left), Some(right)) = ends
        {
            plates.push(self.tie_box(left.from.x, left.to.x + reach));
            plates.push(self.tie_box(right.to.x - reach, right.from.x));
        }
        let in_key = |x: f64| {
            self.key
                .is_some_and(|(centre, half)| (x - centre).abs() <= half + 1e-6)
        };
        let joints = self.divided.tie_joints.iter().filter(|&&x| !in_key(x));
        plates.extend(joints.map(|&x| self.tie_box(x - reach, x + reach)));
        plates
    }

    /// Over the key at the level bottom.
    fn lower_key_plate(&self) -> Option<(Outline, f64)> {
        let (centre, half) = self.key?;
        let reach = half + self.reach();
        Some(self.tie_box(centre - reach, centre + reach))
    }

    /// Over the key of a plate, under its back.
    fn upper_key_plate(&self) -> Option<(Outline, f64)> {
        let (centre, half) = self.key?;
        let reach = half + self.reach();
        let heights = [centre - reach, centre, centre + reach].map(|x| self.frame.height_at(x));
        let top = heights.into_iter().collect::<Option<Vec<_>>>()?;
        let top = top.into_iter().fold(f64::INFINITY, f64::min) - UNDER_BACK;
        // Where both would meet, the lower holds alone.
        (top - PLATE > self.frame.tie_top).then(|| {
            let plate = Rect::new(centre - reach, top - PLATE, centre + reach, top);
            (Outline::rectangle(plate), 0.0)
        })
    }
}
