//! An exact curve bent, kept exact.

use super::Bend;
use crate::{Curve, Point, Vec2};
use kurbo::common::GAUSS_LEGENDRE_COEFFS_16;
use std::sync::Arc;

/// Panels to a stretch of the curve: sixteen points on each leave nothing of a half ellipse twenty times as wide as high.
const PANELS: u32 = 32;

/// Halvings that bring the crown to the last digit of its parameter.
const HALVINGS: u32 = 80;

/// A parallel of a curve whose middle line keeps its length and is bent more, or less.
#[derive(Debug)]
pub struct BentCurve {
    source: Arc<dyn Curve>,
    bend: Bend,
    panels: Vec<Panel>,
    /// The direction of the source's crown, which stays.
    crown: f64,
    /// Brings the middle line, run from its start, to where its crown stays.
    shift: Vec2,
}

/// Where a part of the curve begins.
#[derive(Clone, Copy, Debug)]
struct Panel {
    from: f64,
    /// The source's direction of travel, radians, without jumps.
    direction: f64,
    /// The bent middle line's point, run from the start of the curve.
    at: Vec2,
}

impl BentCurve {
    pub(super) fn new(source: Arc<dyn Curve>, bend: Bend) -> Self {
        let mut curve = Self {
            panels: Vec::new(),
            crown: 0.0,
            shift: Vec2::ZERO,
            source,
            bend,
        };
        curve.lay_panels();
        let at = curve.crown_parameter();
        curve.crown = curve.direction(at);
        curve.lay_panels();
        let left = Vec2::from_angle(curve.crown + std::f64::consts::FRAC_PI_2);
        let stays = curve.source.point(at) + left * bend.middle;
        curve.shift = stays.to_vec2() - curve.middle(at);
        curve
    }

    /// The length of the middle line, mm: length along the source less its turn times how far off the middle line is.
    pub(super) fn middle_length(&self) -> f64 {
        self.source.length() - self.bend.middle * self.source_turn()
    }

    /// The angle that it turns through, radians.
    pub(super) fn turn(&self) -> f64 {
        self.source_turn() / self.bend.kept
    }

    fn source_turn(&self) -> f64 {
        let (from, to) = self.source.domain();
        self.direction(to) - self.direction(from)
    }

    fn lay_panels(&mut self) {
        let stretches = self.source.stretches();
        let (mut direction, mut at) = (self.source.derivative(stretches[0]).atan2(), Vec2::ZERO);
        let mut panels: Vec<Panel> = Vec::new();
        for stretch in stretches.windows(2) {
            for number in 0..PANELS {
                let share = f64::from(number) / f64::from(PANELS);
                let from = stretch[0] + (stretch[1] - stretch[0]) * share;
                if let Some(last) = panels.last().copied() {
                    direction = self.direction_in(&last, from);
                    at = self.middle_in(&last, from);
                }
                panels.push(Panel { from, direction, at });
            }
        }
        self.panels = panels;
    }

    fn panel(&self, t: f64) -> &Panel {
        let after = self.panels.partition_point(|panel| panel.from <= t);
        &self.panels[after.saturating_sub(1)]
    }

    fn direction_in(&self, panel: &Panel, t: f64) -> f64 {
        let (then, now) = (self.source.derivative(panel.from), self.source.derivative(t));
        panel.direction + then.cross(now).atan2(then.dot(now))
    }

    /// The source's direction of travel, radians, without jumps.
    fn direction(&self, t: f64) -> f64 {
        self.direction_in(self.panel(t), t)
    }

    /// The bent line's direction where the source has `direction`.
    fn on_form(&self, direction: f64) -> f64 {
        self.crown + (direction - self.crown) / self.bend.kept
    }

    /// How fast the middle line runs by the parameter.
    fn speed(&self, t: f64) -> f64 {
        self.source.derivative(t).hypot() * (1.0 - self.bend.middle * self.source.curvature(t))
    }

    /// How fast the bent line turns by the parameter.
    fn turning(&self, t: f64) -> f64 {
        self.source.derivative(t).hypot() * self.source.curvature(t) / self.bend.kept
    }

    fn middle_in(&self, panel: &Panel, t: f64) -> Vec2 {
        let (middle, half) = (f64::midpoint(panel.from, t), (t - panel.from) / 2.0);
        let mut sum = Vec2::ZERO;
        for &(weight, node) in GAUSS_LEGENDRE_COEFFS_16 {
            let u = middle + half * node;
            let along = Vec2::from_angle(self.on_form(self.direction_in(panel, u)));
            sum += along * (weight * self.speed(u));
        }
        panel.at + sum * half
    }

    fn middle(&self, t: f64) -> Vec2 {
        self.middle_in(self.panel(t), t)
    }

    /// The parameter at which the source stands highest, or its middle where it only rises or falls.
    fn crown_parameter(&self) -> f64 {
        let (from, to) = self.source.domain();
        let rises = |t: f64| self.source.derivative(t).y > 0.0;
        let ends = self.panels.iter().map(|panel| panel.from).chain([to]);
        let places: Vec<f64> = ends.collect();
        let tops = places.windows(2).filter(|pair| rises(pair[0]) && !rises(pair[1]));
        let highest = tops
            .map(|pair| {
                let (mut low, mut high) = (pair[0], pair[1]);
                for _ in 0..HALVINGS {
                    let middle = f64::midpoint(low, high);
                    if rises(middle) {
                        low = middle;
                    } else {
                        high = middle;
                    }
                }
                high
            })
            .max_by(|&a, &b| self.source.point(a).y.total_cmp(&self.source.point(b).y));
        highest.unwrap_or_else(|| f64::midpoint(from, to))
    }
}

impl Curve for BentCurve {
    fn domain(&self) -> (f64, f64) {
        self.source.domain()
    }

    fn point(&self, t: f64) -> Point {
        let panel = self.panel(t);
        let direction = self.on_form(self.direction_in(panel, t));
        let left = Vec2::new(-direction.sin(), direction.cos());
        (self.middle_in(panel, t) + self.shift + left * self.bend.wanted).to_point()
    }

    fn derivative(&self, t: f64) -> Vec2 {
        let along = self.speed(t) - self.bend.wanted * self.turning(t);
        Vec2::from_angle(self.on_form(self.direction(t))) * along
    }

    fn curvature(&self, t: f64) -> f64 {
        let turning = self.turning(t);
        turning / (self.speed(t) - self.bend.wanted * turning)
    }

    fn stretches(&self) -> Vec<f64> {
        // The curvature is a fraction of two sums of the source's, which grows or falls as that does.
        self.source.stretches()
    }
}
