//! How long a program runs, and how long the lines of a beam or a pen.
//!
//! Each move gains speed and loses it again at the machine's acceleration. Where two meet, the bit may keep the speed at
//! which it would cut the corner off by no more than the machine's `cornering`: with the corner rounded by an arc that
//! stands off so far, v² = a d sin(t / 2) / (1 - sin(t / 2)), where t is the angle between the two. On an arc of radius r
//! it keeps to v² = a r. The speeds at the ends are brought into reach of one another backwards and then forwards.

use cintre_geometry::{Piece, Point, Vec2};
use cintre_work::{Drawing, Layer, Program, Router, To};

/// How fast a machine travels and gains speed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pace {
    /// How fast it travels without cutting, mm/min.
    pub rapid: f64,
    /// How fast it gains speed, mm/s².
    pub acceleration: f64,
    /// How far it may cut a corner off to keep its speed, mm.
    pub cornering: f64,
}

/// One move as the machine makes it.
#[derive(Clone, Copy)]
struct Leg {
    /// mm.
    length: f64,
    /// The speed it is told to keep or may keep on its bend, mm/s.
    speed: f64,
    /// Directions at its ends, of length 1.
    start: [f64; 3],
    end: [f64; 3],
}

/// The seconds of a program's moves, from where it comes down to its first place.
pub(crate) fn seconds(program: &Program, router: &Router) -> f64 {
    let pace = Pace {
        rapid: router.rapid,
        acceleration: router.acceleration,
        cornering: router.cornering,
    };
    run(&legs(program, router), pace)
}

/// The seconds of a drawing's lines, each at the `feed` of its layer in mm/min, and of the travel between them. The machine stands
/// at both ends of each, and waits `delay` seconds there for its pen.
pub fn lines_seconds(drawing: &Drawing, pace: Pace, feed: &dyn Fn(Layer) -> f64, delay: f64) -> f64 {
    let (mut here, mut total) = (None, 0.0);
    let leg = |piece: &Piece, feed| leg(piece, 0.0, feed, pace.acceleration);
    for stroke in drawing.strokes() {
        let travel = here.map(|from| Piece::line(from, stroke.start()));
        let over: Vec<Leg> = travel.iter().filter_map(|way| leg(way, pace.rapid)).collect();
        let line = stroke.pieces.iter();
        let line: Vec<Leg> = line.filter_map(|piece| leg(piece, feed(stroke.layer))).collect();
        total += run(&over, pace) + run(&line, pace) + 2.0 * delay;
        here = Some(stroke.end());
    }
    total
}

/// The seconds of legs that follow one another, from a stand to a stand.
fn run(legs: &[Leg], pace: Pace) -> f64 {
    let a = pace.acceleration;
    let mut joints = vec![0.0; legs.len() + 1];
    for (k, pair) in legs.windows(2).enumerate() {
        joints[k + 1] = corner(&pair[0], &pair[1], pace);
    }
    for k in (0..legs.len()).rev() {
        joints[k] = joints[k].min(reached(joints[k + 1], a, legs[k].length));
    }
    for k in 0..legs.len() {
        joints[k + 1] = joints[k + 1].min(reached(joints[k], a, legs[k].length));
    }
    let each = legs.iter().zip(joints.windows(2));
    each.map(|(leg, ends)| leg.seconds(ends[0], ends[1], a)).sum()
}

/// The speed at the end of a length when it is gained all along.
fn reached(from: f64, acceleration: f64, length: f64) -> f64 {
    (from * from + 2.0 * acceleration * length).sqrt()
}

/// The speed at which one move may go over into the next, mm/s.
fn corner(one: &Leg, two: &Leg, pace: Pace) -> f64 {
    let most = one.speed.min(two.speed);
    // The cosine of the angle between going back and going on: a half turn where the way runs straight on.
    let cos = -(0..3).map(|k| one.end[k] * two.start[k]).sum::<f64>();
    let half = ((1.0 - cos) / 2.0).max(0.0).sqrt();
    if half > 1.0 - 1e-9 {
        return most;
    }
    most.min((pace.acceleration * pace.cornering * half / (1.0 - half)).sqrt())
}

fn legs(program: &Program, router: &Router) -> Vec<Leg> {
    let first = program.moves.first().map_or(Point::ZERO, |m| m.end);
    let mut here = (first, router.safe_height);
    let mut legs = Vec::with_capacity(program.moves.len());
    for step in &program.moves {
        let (bulge, feed) = match step.to {
            To::Rapid => (0.0, router.rapid),
            To::Straight { feed } => (0.0, feed),
            To::Arc { bulge, feed } => (bulge, feed),
        };
        let piece = Piece {
            start: here.0,
            end: step.end,
            bulge,
        };
        legs.extend(leg(&piece, step.z - here.1, feed, router.acceleration));
        here = (step.end, step.z);
    }
    legs
}

fn leg(piece: &Piece, rise: f64, feed: f64, acceleration: f64) -> Option<Leg> {
    let flat = piece.length();
    let length = flat.hypot(rise);
    let along = |t: Vec2| [t.x * flat / length, t.y * flat / length, rise / length];
    let tangent = |fraction: f64| {
        if flat > 0.0 {
            piece.tangent_at(fraction)
        } else {
            Vec2::ZERO
        }
    };
    let bend = piece.curvature().abs();
    let keeps = if bend > 0.0 {
        (acceleration / bend).sqrt()
    } else {
        f64::INFINITY
    };
    (length > 0.0).then(|| Leg {
        length,
        speed: (feed / 60.0).min(keeps),
        start: along(tangent(0.0)),
        end: along(tangent(1.0)),
    })
}

impl Leg {
    /// From one speed to another over its length: gaining, keeping its own speed if it is long enough, and losing.
    fn seconds(&self, from: f64, to: f64, a: f64) -> f64 {
        let (v, s) = (self.speed, self.length);
        let needed = (2.0 * v * v - from * from - to * to) / (2.0 * a);
        if needed <= s {
            return (2.0 * v - from - to) / a + (s - needed) / v;
        }
        let peak = ((2.0 * a * s + from * from + to * to) / 2.0).sqrt();
        (2.0 * peak - from - to) / a
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::tests::router;
    use cintre_work::Move;

    fn takes(ends: &[(f64, f64)], feed: f64, router: &Router) -> f64 {
        let mut moves = vec![Move {
            end: Point::ZERO,
            z: router.safe_height,
            to: To::Rapid,
        }];
        moves.extend(ends.iter().map(|&end| Move {
            end: end.into(),
            z: router.safe_height,
            to: To::Straight { feed },
        }));
        let program = Program {
            sheet: String::new(),
            bit: String::new(),
            diameter: 6.0,
            number: None,
            speed: 1e4,
            moves,
        };
        seconds(&program, router)
    }

    #[test]
    fn a_straight_move_gains_keeps_and_loses_its_speed() {
        // 50 mm/s at 500 mm/s²: 0.1 s and 2.5 mm at either end, 95 mm between.
        let t = takes(&[(100.0, 0.0)], 3000.0, &router());
        assert!((t - (0.2 + 95.0 / 50.0)).abs() < 1e-9);
        // Too short to reach it: 1 mm in 2 √(1 / 500) s.
        let t = takes(&[(1.0, 0.0)], 3000.0, &router());
        assert!((t - 2.0 * (1.0_f64 / 500.0).sqrt()).abs() < 1e-9);
    }

    #[test]
    fn lines_of_a_beam_count_with_the_travel_between_them() {
        use cintre_geometry::{Path, Rect};
        use cintre_work::{Figure, Shape};
        let line = |x: f64, layer| Shape {
            layer,
            figure: Figure::Open(Path::polyline(&[Point::new(x, 0.0), Point::new(x, 100.0)])),
        };
        let drawing = Drawing {
            title: String::new(),
            notes: Vec::new(),
            area: Rect::ZERO,
            shapes: vec![line(0.0, Layer::Mark), line(100.0, Layer::Outline)],
        };
        let pace = Pace {
            rapid: 6000.0,
            acceleration: 500.0,
            cornering: 0.05,
        };
        let feed = |layer| if layer == Layer::Mark { 3000.0 } else { 600.0 };
        // 100 mm at 50 and at 10 mm/s, the way back over 100√2 mm at 100 mm/s, and the pen's four waits.
        let expected =
            (100.0 / 50.0 + 0.1) + (100.0 / 10.0 + 0.02) + (100.0 * 2_f64.sqrt() / 100.0 + 0.2) + 4.0 * 0.3;
        let found = lines_seconds(&drawing, pace, &feed, 0.3);
        assert!((found - expected).abs() < 1e-9, "{found} {expected}");
    }

    #[test]
    fn a_joint_in_a_straight_costs_nothing_and_a_corner_does() {
        let whole = takes(&[(100.0, 0.0)], 3000.0, &router());
        let parted = takes(&[(30.0, 0.0), (100.0, 0.0)], 3000.0, &router());
        assert!((whole - parted).abs() < 1e-6);
        let cornered = takes(&[(50.0, 0.0), (50.0, 50.0)], 3000.0, &router());
        // Through a square corner: v² = a d s / (1 - s) with s = √½.
        let s = 0.5_f64.sqrt();
        let v = (500.0 * 0.05 * s / (1.0 - s)).sqrt();
        let half = (2.0 * 50.0 - v) / 500.0 + (50.0 - (2.0 * 2500.0 - v * v) / 1000.0) / 50.0;
        assert!((cornered - 2.0 * half).abs() < 1e-9, "{cornered} {half}");
        let back = takes(&[(50.0, 0.0), (0.0, 0.0)], 3000.0, &router());
        assert!(back > cornered, "turning round stops");
    }
}
