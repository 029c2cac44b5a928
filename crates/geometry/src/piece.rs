//! One line or circular arc.

use crate::{Affine, Point, Rect, Vec2};
use std::f64::consts::{FRAC_PI_2, PI, TAU};

/// Below this bulge a piece of any length met in building stands less than 1e-9 mm off its chord: it is a line.
const STRAIGHT: f64 = 1e-14;

/// A line that leans by less than this over its whole height is plumb, mm.
const PLUMB: f64 = 1e-9;

/// A plumb line this near to an end of an arc goes through it, mm.
const AT_END: f64 = 1e-12;

/// Where an arc stands plumb at its end, the height worked from its circle may be out by this much: a root of rounding, mm.
const ROOT_LOSS: f64 = 1e-3;

/// An arc is taken to reach this much past its ends, radians, so that rounding opens no gap between two that join.
const END: f64 = 1e-12;

/// A line or a circular arc from `start` to `end`.
///
/// `bulge` is tan(sweep / 4): 0 for a line, positive when the arc runs counter-clockwise, ±1 for a half circle. A full
/// circle is two pieces.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Piece {
    /// Where the piece begins.
    pub start: Point,
    /// Where it ends.
    pub end: Point,
    /// tan(sweep / 4), counter-clockwise positive.
    pub bulge: f64,
}

/// The circle that an arc lies on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Circle {
    /// Its centre.
    pub centre: Point,
    /// Its radius, mm.
    pub radius: f64,
}

/// The point of a line that lies nearest to another.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Nearest {
    /// The point on the line.
    pub point: Point,
    /// How far off it is, mm.
    pub distance: f64,
    /// Which piece it lies on, counted from 0.
    pub piece: usize,
    /// How far along that piece, 0 at its start to 1 at its end.
    pub fraction: f64,
}

impl Piece {
    /// A straight line.
    pub const fn line(start: Point, end: Point) -> Self {
        Self {
            start,
            end,
            bulge: 0.0,
        }
    }

    /// The arc about `centre` from `start`, turning by `sweep` radians (less than a full turn either way).
    pub fn arc(centre: Point, start: Point, sweep: f64) -> Self {
        let end = centre + rotated(start - centre, sweep);
        Self {
            start,
            end,
            bulge: (sweep / 4.0).tan(),
        }
    }

    /// The arc about `centre` between two points that both lie on its circle; `counter_clockwise` picks the way round.
    pub fn arc_between(centre: Point, start: Point, end: Point, counter_clockwise: bool) -> Self {
        let turn = (end - centre).atan2() - (start - centre).atan2();
        let sweep = if counter_clockwise {
            turn.rem_euclid(TAU)
        } else {
            -(-turn).rem_euclid(TAU)
        };
        Self {
            start,
            end,
            bulge: (sweep / 4.0).tan(),
        }
    }

    /// Whether the piece is straight.
    pub fn is_line(&self) -> bool {
        self.bulge.abs() < STRAIGHT
    }

    /// The circle it lies on, none for a line. R = c (1 + b²) / 4b, of chord c and bulge b.
    pub fn circle(&self) -> Option<Circle> {
        if self.is_line() {
            return None;
        }
        let b = self.bulge;
        let chord = self.end - self.start;
        // From the middle of the chord the centre lies this share of the chord to the left.
        let left = (1.0 - b * b) / (4.0 * b);
        let centre = self.start.midpoint(self.end) + Vec2::new(-chord.y, chord.x) * left;
        Some(Circle {
            centre,
            radius: chord.hypot() * (1.0 + b * b) / (4.0 * b.abs()),
        })
    }

    /// The angle it turns through, counter-clockwise positive; 0 for a line.
    pub fn sweep(&self) -> f64 {
        if self.is_line() {
            0.0
        } else {
            4.0 * self.bulge.atan()
        }
    }

    /// Its length, mm.
    pub fn length(&self) -> f64 {
        self.circle().map_or_else(
            || self.start.distance(self.end),
            |c| c.radius * self.sweep().abs(),
        )
    }

    /// The point at a fraction of its length, 0 to 1.
    pub fn point_at(&self, fraction: f64) -> Point {
        match self.circle() {
            None => self.start.lerp(self.end, fraction),
            // Counted from the nearer end, so that both ends are met exactly.
            Some(c) if fraction <= 0.5 => c.centre + rotated(self.start - c.centre, self.sweep() * fraction),
            Some(c) => c.centre + rotated(self.end - c.centre, self.sweep() * (fraction - 1.0)),
        }
    }

    /// The direction of travel at a fraction of its length, of length 1.
    pub fn tangent_at(&self, fraction: f64) -> Vec2 {
        let chord = self.end - self.start;
        rotated(chord, self.sweep() * (fraction - 0.5)) / chord.hypot()
    }

    /// Signed curvature, 1/mm: positive when it turns to the left, 0 for a line.
    pub fn curvature(&self) -> f64 {
        self.circle().map_or(0.0, |c| self.bulge.signum() / c.radius)
    }

    /// The part of the piece between two fractions of its length (`from` < `to`).
    #[must_use]
    pub fn part(&self, from: f64, to: f64) -> Self {
        Self {
            start: self.point_at(from),
            end: self.point_at(to),
            bulge: (self.sweep() * (to - from) / 4.0).tan(),
        }
    }

    /// The same piece run the other way.
    #[must_use]
    pub const fn reversed(&self) -> Self {
        Self {
            start: self.end,
            end: self.start,
            bulge: -self.bulge,
        }
    }

    /// The piece moved by a similarity (shift, turn, mirror, even scale), which keeps an arc an arc.
    #[must_use]
    pub fn transformed(&self, by: Affine) -> Self {
        let bulge = if by.determinant() < 0.0 {
            -self.bulge
        } else {
            self.bulge
        };
        Self {
            start: by * self.start,
            end: by * self.end,
            bulge,
        }
    }

    /// Its two halves.
    #[must_use]
    pub fn halves(&self) -> [Self; 2] {
        let (chord, b) = (self.end - self.start, self.bulge);
        // The arc's middle stands half the bulge times the chord to its right; and tan(x / 2) = tan x / (1 + sqrt(1 + tan² x)).
        let middle = self.start.midpoint(self.end) + Vec2::new(chord.y, -chord.x) * (b / 2.0);
        let bulge = b / (1.0 + b.hypot(1.0));
        [(self.start, middle), (middle, self.end)].map(|(start, end)| Self { start, end, bulge })
    }

    /// The least box that holds it.
    pub fn bounds(&self) -> Rect {
        let mut bounds = Rect::from_points(self.start, self.end);
        if let Some(c) = self.circle() {
            for out in [(1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0)] {
                bounds = bounds.union_pt(self.foot(c.centre + Vec2::from(out) * c.radius));
            }
        }
        bounds
    }

    /// Its point nearest to `p`.
    pub fn nearest(&self, p: Point) -> Nearest {
        let at = |fraction: f64| {
            let point = self.point_at(fraction);
            Nearest {
                point,
                distance: point.distance(p),
                piece: 0,
                fraction,
            }
        };
        match self.circle() {
            None => at(self.fraction_of_chord(p)),
            Some(c) => match self.fraction_at_angle((p - c.centre).atan2()) {
                Some(fraction) => Nearest {
                    distance: (p.distance(c.centre) - c.radius).abs(),
                    ..at(fraction)
                },
                None if p.distance_squared(self.start) <= p.distance_squared(self.end) => at(0.0),
                None => at(1.0),
            },
        }
    }

    /// The height of its highest point over `x`, if it reaches there.
    pub fn highest_at(&self, x: f64) -> Option<f64> {
        let Some(c) = self.circle() else {
            let (from, to) = (self.start, self.end);
            let run = to.x - from.x;
            if run.abs() < PLUMB {
                return ((x - from.x).abs() < PLUMB).then(|| from.y.max(to.y));
            }
            let fraction = (x - from.x) / run;
            return (0.0..=1.0).contains(&fraction).then(|| from.lerp(to, fraction).y);
        };
        let across = x - c.centre.x;
        let up = ((c.radius - across) * (c.radius + across)).sqrt();
        let over_ends = [self.start, self.end]
            .into_iter()
            .filter(|end| (end.x - x).abs() < AT_END)
            .map(|end| end.y);
        let on_circle = [up, -up]
            .into_iter()
            .filter(|dy| dy.is_finite() && self.fraction_at_angle(dy.atan2(across)).is_some())
            .map(|dy| c.centre.y + dy)
            .filter(|y| over_ends.clone().all(|end| (y - end).abs() > ROOT_LOSS));
        over_ends.clone().chain(on_circle).max_by(f64::total_cmp)
    }

    /// How far along its chord the point of it nearest to `p` lies.
    pub(crate) fn fraction_of_chord(&self, p: Point) -> f64 {
        let along = self.end - self.start;
        let square = along.hypot2();
        if square > 0.0 {
            ((p - self.start).dot(along) / square).clamp(0.0, 1.0)
        } else {
            0.0
        }
    }

    /// The fraction of the arc's length at which it stands in the direction `angle` from its centre, if it reaches there.
    fn fraction_at_angle(&self, angle: f64) -> Option<f64> {
        // Measured from the middle of the arc, where no wrap can come near the ends.
        let middle = (self.end - self.start).atan2() - self.bulge.signum() * FRAC_PI_2;
        let off = wrapped(angle - middle);
        let sweep = self.sweep();
        (off.abs() <= sweep.abs() / 2.0 + END).then(|| (0.5 + off / sweep).clamp(0.0, 1.0))
    }

    /// Twice the signed area between the piece and the origin: summed round a closed chain it is twice the area inside.
    pub(crate) fn double_area(&self) -> f64 {
        let chord = self.start.to_vec2().cross(self.end.to_vec2());
        let segment = self
            .circle()
            .map_or(0.0, |c| segment_double_area(c.radius, self.sweep()));
        chord + segment
    }
}

/// `v` turned by `angle`.
pub(crate) fn rotated(v: Vec2, angle: f64) -> Vec2 {
    let (sin, cos) = angle.sin_cos();
    Vec2::new(v.x * cos - v.y * sin, v.x * sin + v.y * cos)
}

/// An angle brought into -π..=π.
pub(crate) fn wrapped(angle: f64) -> f64 {
    let turned = angle.rem_euclid(TAU);
    if turned > PI { turned - TAU } else { turned }
}

/// Twice the area between an arc and its chord, R² (φ - sin φ); by series where the difference would lose its digits.
fn segment_double_area(radius: f64, sweep: f64) -> f64 {
    let difference = if sweep.abs() < 0.1 {
        let s2 = sweep * sweep;
        sweep * s2 / 6.0 * (1.0 - s2 / 20.0 * (1.0 - s2 / 42.0 * (1.0 - s2 / 72.0)))
    } else {
        sweep - sweep.sin()
    };
    radius * radius * difference
}

#[cfg(test)]
mod tests;
