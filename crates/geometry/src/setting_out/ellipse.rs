//! How an ellipse is drawn by hand, and what is taken for one and is not.

use crate::{Point, Vec2};
use std::f64::consts::{FRAC_1_SQRT_2, FRAC_PI_2};

/// An ellipse about the origin with level axes. mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EllipseByHand {
    /// Its half axis along the springing.
    pub half_span: f64,
    /// Its plumb half axis.
    pub rise: f64,
}

/// An ellipse whose half axes were both made longer by one width, held against a parallel of that width. mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Grown {
    /// The least width between both ellipses, square to the inner one.
    pub least: f64,
    /// Where that is, on the inner one and on the right.
    pub at: Point,
}

impl EllipseByHand {
    /// How far each pin for a string stands from the middle along the longer axis, mm: √(a² - b²).
    pub fn focus(self) -> f64 {
        let Self { half_span, rise } = self;
        ((half_span - rise) * (half_span + rise)).abs().sqrt()
    }

    /// The string between both pins, mm: the longer axis.
    pub const fn string(self) -> f64 {
        2.0 * self.half_span.max(self.rise)
    }

    /// How far apart the two marks stand on a rod whose sliders lie both on one side of the pencil, mm: the difference of the half axes.
    pub const fn short_rod(self) -> f64 {
        (self.half_span - self.rise).abs()
    }

    /// How far apart they stand where the pencil lies between them, mm: the half axes together. Truer where these are nearly alike.
    pub const fn long_rod(self) -> f64 {
        self.half_span + self.rise
    }

    /// How far the curve that is drawn by joining equal divisions of half the span and of the rise, which is a parabola, stands
    /// outside the ellipse on the line from the middle to the corner, mm: (3/4 - 1/√2) √(a² + b²).
    pub fn equal_divisions_off(self) -> f64 {
        (0.75 - FRAC_1_SQRT_2) * self.half_span.hypot(self.rise)
    }

    /// The ellipse with both half axes longer by `width`: everywhere but at its axes it comes nearer than a true parallel.
    pub fn grown(self, width: f64) -> Grown {
        /// Steps of the first search between springing and crown.
        const STEPS: u32 = 64;
        /// Halvings of the second: enough for every digit that a flat least has.
        const HALVINGS: u32 = 60;
        let at = |step: u32| FRAC_PI_2 * f64::from(step) / f64::from(STEPS);
        let nearest = (1..STEPS).min_by(|a, b| {
            self.width_at(at(*a), width)
                .total_cmp(&self.width_at(at(*b), width))
        });
        let nearest = nearest.unwrap_or(1);
        let (mut from, mut to) = (at(nearest - 1), at(nearest + 1));
        for _ in 0..HALVINGS {
            let third = (to - from) / 3.0;
            if self.width_at(from + third, width) < self.width_at(to - third, width) {
                to -= third;
            } else {
                from += third;
            }
        }
        let t = f64::midpoint(from, to);
        Grown {
            least: self.width_at(t, width),
            at: self.point(t),
        }
    }

    fn point(self, t: f64) -> Point {
        Point::new(self.half_span * t.cos(), self.rise * t.sin())
    }

    /// How far out the grown ellipse lies, square to this one at a parameter.
    fn width_at(self, t: f64, width: f64) -> f64 {
        let normal = Vec2::new(self.rise * t.cos(), self.half_span * t.sin()).normalize();
        let scaled = |v: Vec2| Vec2::new(v.x / (self.half_span + width), v.y / (self.rise + width));
        let (foot, out) = (scaled(self.point(t).to_vec2()), scaled(normal));
        // |foot + w out|² = 1 for the greater w.
        let (a, half_b, c) = (out.hypot2(), foot.dot(out), foot.hypot2() - 1.0);
        ((half_b * half_b - a * c).sqrt() - half_b) / a
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{HalfEllipse, Soffit, parallel_line};
    use std::sync::Arc;

    fn near(found: f64, wanted: f64, within: f64) {
        assert!((found - wanted).abs() <= within, "{found} is not {wanted}");
    }

    #[test]
    fn a_casing_cut_as_a_grown_ellipse_is_narrow_at_its_haunch() {
        let window = EllipseByHand {
            half_span: 640.0,
            rise: 380.0,
        };
        let grown = window.grown(100.0);
        near(grown.least, 97.25, 5e-3);
        near(grown.at.x, 511.1, 0.5);
        near(grown.at.y, 228.7, 0.5);
        // The true parallel is as wide there as everywhere.
        let half = HalfEllipse {
            half_span: 640.0,
            rise: 380.0,
        };
        let soffit = Soffit::Curve(Arc::new(half)).fit(0.02).path;
        let back = parallel_line(&soffit, -100.0).unwrap();
        near(back.nearest(grown.at).distance, 100.0, 0.03);
        // On a circle it is one.
        let circle = EllipseByHand {
            half_span: 400.0,
            rise: 400.0,
        };
        near(circle.grown(90.0).least, 90.0, 1e-9);
    }

    #[test]
    fn joining_equal_divisions_draws_no_ellipse() {
        let half = EllipseByHand {
            half_span: 600.0,
            rise: 400.0,
        };
        near(half.equal_divisions_off(), 30.93, 5e-3);
        // The envelope on the line to the corner, and the ellipse there.
        let (envelope, ellipse) = (Point::new(450.0, 300.0), half.point(std::f64::consts::FRAC_PI_4));
        near(ellipse.x, 424.26, 5e-3);
        near(envelope.distance(ellipse), half.equal_divisions_off(), 1e-9);
    }

    #[test]
    fn pins_and_rods_draw_it() {
        let half = EllipseByHand {
            half_span: 700.0,
            rise: 400.0,
        };
        for t in [0.2, 0.9, 1.5] {
            let p = half.point(t);
            let pins = [-1.0, 1.0].map(|side| p.distance(Point::new(side * half.focus(), 0.0)));
            near(pins[0] + pins[1], half.string(), 1e-9);
            // A rod through p that meets both axes, its marks a and b from the pencil.
            let (on_level, on_plumb) = (
                Point::new(p.x * (1.0 - 400.0 / 700.0), 0.0),
                Point::new(0.0, p.y * (1.0 - 700.0 / 400.0)),
            );
            near(p.distance(on_level), 400.0, 1e-9);
            near(p.distance(on_plumb), 700.0, 1e-9);
            near(on_level.distance(on_plumb), half.short_rod(), 1e-9);
        }
        near(half.long_rod(), 1100.0, 1e-12);
    }
}
