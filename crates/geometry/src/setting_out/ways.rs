//! Which ways of setting an arch out by hand work, on the floor that there is.

use super::{EllipseByHand, LONGEST_TRAMMEL, SingleArc};
use crate::arch::Arch;
use crate::{Path, Rect};

/// A longer arm than this of a frame on two pins is seldom found straight, mm: it is about as long as boards come.
pub const LONGEST_ARM: f64 = 4800.0;

/// A way of setting out by hand.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Way {
    /// Arcs are swung from their centres.
    Trammel,
    /// The corner of a frame is slid along pins at both springings.
    Frame,
    /// An ellipse is drawn by a rod on two crossed lines, or by pins and string.
    Rod,
    /// Heights are set up from the springing or down from a level crown line.
    Heights,
}

impl Way {
    /// It in words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Trammel => "a trammel",
            Self::Frame => "the frame on two pins",
            Self::Rod => "a rod on crossed lines",
            Self::Heights => "heights",
        }
    }
}

/// Why a way does not work.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fails {
    /// Its arm is longer than such arms are true.
    Arm,
    /// The room is smaller than the floor that it takes.
    Room,
}

/// A way, what it takes, and whether it works. Lengths in mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Verdict {
    /// The way.
    pub way: Way,
    /// The length of its longest arm, and the longest that is true; none for heights.
    pub arm: Option<(f64, f64)>,
    /// The floor that it takes, across and upwards; of heights, one half at a time where the whole has no room.
    pub floor: [f64; 2],
    /// Why it does not work; none where it does.
    pub fails: Option<Fails>,
}

/// What every way that suits an arch takes, and which work in a `room` of a length and a width, mm; in a room of any size if none
/// is given. `fitted` is the soffit in arcs, `back` the ring's.
pub fn ways(arch: &Arch, fitted: &Path, back: Option<&Path>, room: Option<[f64; 2]>) -> Vec<Verdict> {
    let lines = back.map_or(fitted.bounds(), |back| fitted.bounds().union(back.bounds()));
    let mut all = Vec::new();
    let mut offer = |way, arm: Option<(f64, f64)>, floor| {
        let long = arm.is_some_and(|(arm, most)| arm > most);
        let fails = match (long, fits(floor, room)) {
            (true, _) => Some(Fails::Arm),
            (false, false) => Some(Fails::Room),
            (false, true) => None,
        };
        all.push(Verdict {
            way,
            arm,
            floor,
            fails,
        });
    };
    let centres = arch.figures().centres;
    if !centres.is_empty() {
        let back = back.iter().flat_map(|back| back.pieces());
        let radii = back.filter_map(|arc| arc.circle()).map(|c| c.radius);
        let longest = radii.chain(centres.iter().map(|c| c.radius)).fold(0.0, f64::max);
        let floor = centres.iter().fold(lines, |floor, c| floor.union_pt(c.at));
        offer(Way::Trammel, Some((longest, LONGEST_TRAMMEL)), size(floor));
    }
    if let (Some(arc), None) = (SingleArc::of(fitted), arch.level_back) {
        offer(
            Way::Frame,
            Some((2.0 * arc.half_span, LONGEST_ARM)),
            frame_floor(arc),
        );
    }
    if matches!(arch.shape, "elliptical" | "oval") {
        let ellipse = EllipseByHand {
            half_span: arch.span / 2.0,
            rise: arch.rise,
        };
        let (across, up) = (lines.width(), lines.height());
        let floor = [across, up + if arch.closed { 0.0 } else { ellipse.short_rod() }];
        let arm = ellipse.half_span.max(ellipse.rise);
        offer(Way::Rod, Some((arm, LONGEST_TRAMMEL)), floor);
    }
    let whole = size(lines);
    let half = [whole[0] / 2.0, whole[1]];
    offer(Way::Heights, None, if fits(whole, room) { whole } else { half });
    all
}

const fn size(area: Rect) -> [f64; 2] {
    [area.x1 - area.x0, area.y1 - area.y0]
}

/// The floor that a frame takes on its way from one pin to the other. With its corner on a pin, one arm lies along the span and
/// the other, as long, runs on beyond it, down by half the arc's angle.
fn frame_floor(arc: SingleArc) -> [f64; 2] {
    let span = 2.0 * arc.half_span;
    let (sin, cos) = arc.half_angle().sin_cos();
    [span * (1.0 + 2.0 * cos.max(0.0)), arc.rise + span * sin]
}

/// Whether a floor fits in the room, turned as it may be.
fn fits([across, up]: [f64; 2], room: Option<[f64; 2]>) -> bool {
    room.is_none_or(|[a, b]| across.max(up) <= a.max(b) && across.min(up) <= a.min(b))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::arch::{Elliptical, Segmental};
    use crate::parallel_line;

    fn verdicts(span: f64, rise: f64, room: Option<[f64; 2]>) -> Vec<(Way, Option<Fails>)> {
        let sizes = Segmental {
            span: Some(span),
            rise: Some(rise),
            radius: None,
        };
        let arch = sizes.arch().unwrap();
        let path = arch.soffit.fit(0.02).path;
        let found = ways(&arch, &path, None, room);
        found.iter().map(|v| (v.way, v.fails)).collect()
    }

    #[test]
    fn a_very_flat_head_has_no_trammel_and_a_small_room_no_frame() {
        let flat = |room| verdicts(1800.0, 9.0, room);
        assert_eq!(
            flat(None),
            [
                (Way::Trammel, Some(Fails::Arm)),
                (Way::Frame, None),
                (Way::Heights, None)
            ]
        );
        // On its way from pin to pin the frame takes nearly three spans.
        assert_eq!(flat(Some([5390.0, 3000.0]))[1], (Way::Frame, Some(Fails::Room)));
        assert_eq!(flat(Some([3000.0, 5405.0]))[1], (Way::Frame, None));
        // Half at a time, heights have room in a passage.
        assert_eq!(flat(Some([950.0, 100.0]))[2], (Way::Heights, None));
        assert_eq!(flat(Some([850.0, 100.0]))[2], (Way::Heights, Some(Fails::Room)));
        assert_eq!(verdicts(5000.0, 200.0, None)[1], (Way::Frame, Some(Fails::Arm)));
    }

    #[test]
    fn a_trammel_needs_room_down_to_its_centre() {
        let swung = |room| verdicts(1220.0, 260.0, Some(room))[0];
        // Radius 845.6, all of which lies below the crown.
        assert_eq!(swung([1230.0, 850.0]), (Way::Trammel, None));
        assert_eq!(swung([1230.0, 840.0]), (Way::Trammel, Some(Fails::Room)));
    }

    #[test]
    fn an_ellipse_is_drawn_by_a_rod_and_its_ring_counts() {
        let arch = Elliptical {
            span: 1400.0,
            rise: 400.0,
        };
        let arch = arch.arch().unwrap();
        let path = arch.soffit.fit(0.02).path;
        let back = parallel_line(&path, -110.0).unwrap();
        let found = ways(&arch, &path, Some(&back), Some([1700.0, 900.0]));
        assert_eq!(
            found.iter().map(|v| v.way).collect::<Vec<_>>(),
            [Way::Rod, Way::Heights]
        );
        assert!((found[0].floor[0] - 1620.0).abs() < 0.01 && (found[0].floor[1] - 810.0).abs() < 0.05);
        assert!(found.iter().all(|v| v.fails.is_none()));
    }
}
