//! The least distance between lines and arcs, exact.

use crate::{Circle, Piece, Point, Vec2};

/// Shorter than this a piece is a point, mm.
const POINT: f64 = 1e-9;

impl Piece {
    /// Its point nearest to `p`: as [`Self::nearest`] finds it, without asking how far along it lies, which takes angles.
    pub fn foot(&self, p: Point) -> Point {
        let Some(c) = self.circle() else {
            return self.start.lerp(self.end, self.fraction_of_chord(p));
        };
        let (chord, out) = (self.end - self.start, p - c.centre);
        // From the centre to the middle of the arc; half of the sweep has the tangent 2 b / (1 - b²).
        let towards = Vec2::new(chord.y, -chord.x) * self.bulge.signum();
        let b = self.bulge.abs();
        let (across, along) = (towards.cross(out).abs(), towards.dot(out));
        if across * (1.0 - b * b) <= along * 2.0 * b && out.hypot2() > 0.0 {
            c.centre + out * (c.radius / out.hypot2().sqrt())
        } else if p.distance_squared(self.start) <= p.distance_squared(self.end) {
            self.start
        } else {
            self.end
        }
    }

    /// How far `p` is from it.
    pub fn distance_from(&self, p: Point) -> f64 {
        self.foot(p).distance_squared(p).sqrt()
    }

    /// The least distance to another piece, and the point of this one where it is.
    ///
    /// It lies at an end of either, where they cross, or where a common normal meets both. Each such place is tried by its
    /// true distance, so that one too many does no harm.
    pub fn distance_to(&self, other: &Self) -> (f64, Point) {
        let mut best = (f64::INFINITY, self.start);
        let mut try_at = |here: Point| {
            let distance = other.distance_from(here);
            if distance < best.0 {
                best = (distance, here);
            }
        };
        try_at(self.start);
        try_at(self.end);
        for p in [other.start, other.end]
            .into_iter()
            .chain(self.closest_places(other))
        {
            try_at(self.foot(p));
        }
        best
    }

    /// Where two pieces, drawn out to whole lines and circles, cross, and where they have a common normal.
    pub fn closest_places(&self, other: &Self) -> Vec<Point> {
        match (self.circle(), other.circle()) {
            (None, None) => line_line(self, other).into_iter().collect(),
            (None, Some(c)) => line_circle(self, c),
            (Some(c), None) => line_circle(other, c),
            (Some(c), Some(d)) => circle_circle(c, d),
        }
    }
}

fn line_line(a: &Piece, b: &Piece) -> Option<Point> {
    let (u, v) = (a.end - a.start, b.end - b.start);
    let turn = u.cross(v);
    (turn.abs() > f64::MIN_POSITIVE).then(|| a.start + u * ((b.start - a.start).cross(v) / turn))
}

fn line_circle(line: &Piece, c: Circle) -> Vec<Point> {
    let along = line.end - line.start;
    if along.hypot() < POINT {
        return Vec::new();
    }
    let u = along.normalize();
    let foot = line.start + u * (c.centre - line.start).dot(u);
    let off = foot - c.centre;
    let half = (c.radius * c.radius - off.hypot2()).max(0.0).sqrt();
    let mut places = vec![foot, foot + u * half, foot - u * half];
    if off.hypot() > POINT {
        places.push(c.centre + off.normalize() * c.radius);
    }
    places
}

fn circle_circle(a: Circle, b: Circle) -> Vec<Point> {
    let between = b.centre - a.centre;
    let distance = between.hypot();
    if distance < POINT {
        return Vec::new();
    }
    let u = between / distance;
    // The chord that two crossing circles share stands square to the line of centres, this far from the first centre.
    let along = (distance * distance + a.radius * a.radius - b.radius * b.radius) / (2.0 * distance);
    let half = (a.radius * a.radius - along * along).max(0.0).sqrt();
    let across = Vec2::new(-u.y, u.x) * half;
    let foot = a.centre + u * along;
    vec![
        a.centre + u * a.radius,
        a.centre - u * a.radius,
        foot + across,
        foot - across,
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn piece() -> impl Strategy<Value = Piece> {
        let numbers = (
            -50.0..50.0f64,
            -50.0..50.0f64,
            0.0..6.2f64,
            5.0..60.0f64,
            -6.0..6.0f64,
            any::<bool>(),
        );
        numbers.prop_map(|(x, y, first, r, sweep, straight)| {
            let centre = Point::new(x, y);
            if straight {
                Piece::line(centre, centre + Vec2::from_angle(first) * r)
            } else {
                Piece::arc(centre, centre + Vec2::from_angle(first) * r, sweep)
            }
        })
    }

    fn sampled(a: &Piece) -> impl Iterator<Item = Point> + '_ {
        (0..=2000).map(|i| a.point_at(f64::from(i) / 2000.0))
    }

    proptest! {
        #[test]
        fn a_foot_is_the_nearest_point(a in piece(), x in -120.0..120.0f64, y in -120.0..120.0f64) {
            let p = Point::new(x, y);
            prop_assert!((a.distance_from(p) - a.nearest(p).distance).abs() < 1e-9);
            prop_assert!(a.nearest(a.foot(p)).distance < 1e-9);
        }

        #[test]
        fn the_least_distance_agrees_with_sampling(a in piece(), b in piece()) {
            let (found, at) = a.distance_to(&b);
            let least = sampled(&a).map(|p| b.nearest(p).distance).fold(f64::INFINITY, f64::min);
            prop_assert!(found <= least + 1e-9, "{found} where {least} is sampled");
            prop_assert!(found >= least - a.length() / 4000.0 - 1e-9, "{found} where {least} is sampled");
            prop_assert!(a.nearest(at).distance < 1e-6 && (b.nearest(at).distance - found).abs() < 1e-9);
        }
    }
}
