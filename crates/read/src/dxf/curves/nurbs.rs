//! Splines: rational B-splines, by de Boor's recursion on homogeneous coordinates (x w, y w, w).

use crate::drawing::FARTHEST;
use cintre_geometry::{Curve, Point, Vec2};

/// More control points than these are a scan, not a drawing.
const MOST_POINTS: usize = 2000;
/// Higher degrees than this no drawing program writes.
const HIGHEST_DEGREE: usize = 9;
/// Places in each span of knots where the curvature is looked at for its turning points.
const LOOKS: u32 = 16;
/// Golden sections that bring a turning point of the curvature to rounding.
const SECTIONS: u32 = 60;

/// A spline in the plane.
#[derive(Clone, Debug)]
pub(super) struct Spline {
    value: Homogeneous,
    first: Homogeneous,
    second: Homogeneous,
}

#[derive(Clone, Debug)]
struct Homogeneous {
    degree: usize,
    knots: Vec<f64>,
    points: Vec<[f64; 3]>,
}

impl Homogeneous {
    /// Its domain is `knots[degree]` to `knots[points]`, and `t` within it.
    fn at(&self, t: f64) -> [f64; 3] {
        let p = self.degree;
        let last = self.points.len() - 1;
        let span = (p..=last)
            .rev()
            .find(|&i| self.knots[i] <= t && self.knots[i] < self.knots[i + 1]);
        let span = span.unwrap_or(p);
        let mut d: Vec<[f64; 3]> = self.points[span - p..=span].to_vec();
        for r in 1..=p {
            for j in (r..=p).rev() {
                let (low, high) = (self.knots[j + span - p], self.knots[j + 1 + span - r]);
                let share = if high > low { (t - low) / (high - low) } else { 0.0 };
                d[j] = std::array::from_fn(|k| d[j - 1][k] * (1.0 - share) + d[j][k] * share);
            }
        }
        d[p]
    }

    /// The spline of its derivatives, one degree lower; of degree 0, nothing but zeros.
    fn derivative(&self) -> Self {
        let Some(degree) = self.degree.checked_sub(1) else {
            return Self {
                points: vec![[0.0; 3]; self.points.len()],
                ..self.clone()
            };
        };
        let slope = |i: usize| {
            let over = self.knots[i + self.degree + 1] - self.knots[i + 1];
            let by = if over > 0.0 {
                f64::from(u8::try_from(self.degree).unwrap_or(u8::MAX)) / over
            } else {
                0.0
            };
            std::array::from_fn(|k| (self.points[i + 1][k] - self.points[i][k]) * by)
        };
        Self {
            degree,
            knots: self.knots[1..self.knots.len() - 1].to_vec(),
            points: (0..self.points.len() - 1).map(slope).collect(),
        }
    }
}

impl Spline {
    pub(super) fn new(s: &dxf::entities::Spline) -> Result<Self, String> {
        let count = s.control_points.len();
        if count == 0 {
            return Err("a spline without control points".to_owned());
        }
        let degree = usize::try_from(s.degree_of_curve).unwrap_or(0);
        let weights = if s.weight_values.is_empty() {
            vec![1.0; count]
        } else {
            s.weight_values.clone()
        };
        let shaped = (1..=HIGHEST_DEGREE).contains(&degree)
            && (degree + 1..=MOST_POINTS).contains(&count)
            && s.knot_values.len() == count + degree + 1
            && weights.len() == count;
        let near = |n: f64| n.abs() < FARTHEST;
        let sound = shaped
            && s.control_points.iter().all(|p| near(p.x) && near(p.y))
            && weights.iter().all(|w| (1e-3..1e3).contains(w))
            && s.knot_values.iter().all(|&k| near(k))
            && s.knot_values.windows(2).all(|k| k[0] <= k[1])
            && s.knot_values[degree] < s.knot_values[count];
        if !sound {
            let (knots, n) = (s.knot_values.len(), weights.len());
            return Err(format!(
                "a spline of degree {} with {count} control points, {knots} knots and {n} weights that do not agree",
                s.degree_of_curve
            ));
        }
        let points = s
            .control_points
            .iter()
            .zip(&weights)
            .map(|(p, w)| [p.x * w, p.y * w, *w]);
        let value = Homogeneous {
            degree,
            knots: s.knot_values.clone(),
            points: points.collect(),
        };
        let first = value.derivative();
        let second = first.derivative();
        Ok(Self { value, first, second })
    }

    /// The corners of a spline of degree one.
    pub(super) fn straight(&self) -> Option<Vec<Point>> {
        (self.value.degree == 1).then(|| self.joints().iter().map(|&t| self.point(t)).collect())
    }

    /// The curve from one corner to the next.
    pub(super) fn smooth_runs(&self, tolerance: f64) -> Result<Vec<Run<'_>>, String> {
        let joints = self.joints();
        let repeats = |t: f64| {
            self.value
                .knots
                .iter()
                .filter(|k| k.to_bits() == t.to_bits())
                .count()
        };
        let mut runs = Vec::new();
        let mut from = joints[0];
        for (i, &to) in joints.iter().enumerate().skip(1) {
            if i + 1 == joints.len() || repeats(to) >= self.value.degree {
                runs.push(self.run(from, to, tolerance)?);
                from = to;
            }
        }
        Ok(runs)
    }

    /// Its different knots, from the start of the curve to its end.
    fn joints(&self) -> Vec<f64> {
        let mut joints = self.value.knots[self.value.degree..=self.value.points.len()].to_vec();
        joints.dedup();
        joints
    }

    fn run(&self, from: f64, to: f64, tolerance: f64) -> Result<Run<'_>, String> {
        let within = self.joints().into_iter().filter(|t| (from..=to).contains(t));
        let knots: Vec<f64> = within.collect();
        let mut looks: Vec<f64> = knots
            .windows(2)
            .flat_map(|k| (0..LOOKS).map(move |i| k[0] + (k[1] - k[0]) * f64::from(i) / f64::from(LOOKS)))
            .collect();
        looks.push(to);
        let mut run = Run {
            spline: self,
            from,
            to,
            stretches: Vec::new(),
        };
        let tight = |t: &f64| {
            let sound = run.derivative(*t).hypot() > tolerance * 1e-3 / (to - from)
                && run.curvature(*t).abs() * tolerance < 1.0;
            !sound
        };
        if looks.iter().any(tight) {
            return Err("a spline that comes to a stop or turns on the spot".to_owned());
        }
        let mut turns = knots;
        turns.extend(looks.windows(3).filter_map(|l| run.turning_point(l)));
        turns.sort_by(f64::total_cmp);
        let apart = (to - from) * 1e-9;
        turns.dedup_by(|b, a| *b - *a < apart);
        if let Some(last) = turns.last_mut() {
            *last = to;
        }
        run.stretches = turns;
        Ok(run)
    }

    fn point(&self, t: f64) -> Point {
        let [x, y, w] = self.value.at(t);
        Point::new(x / w, y / w)
    }
}

/// A spline between two of its corners.
#[derive(Debug)]
pub(super) struct Run<'s> {
    spline: &'s Spline,
    from: f64,
    to: f64,
    stretches: Vec<f64>,
}

impl Run<'_> {
    /// Where the curvature turns about, if it does between the first and last of three places in order.
    fn turning_point(&self, looks: &[f64]) -> Option<f64> {
        let k: Vec<f64> = looks.iter().map(|&t| self.curvature(t)).collect();
        let sign = if k[1] > k[0] && k[1] > k[2] {
            1.0
        } else if k[1] < k[0] && k[1] < k[2] {
            -1.0
        } else {
            return None;
        };
        let golden = (5.0f64.sqrt() - 1.0) / 2.0;
        let (mut low, mut high) = (looks[0], looks[2]);
        for _ in 0..SECTIONS {
            let (a, b) = (high - golden * (high - low), low + golden * (high - low));
            if sign * self.curvature(a) > sign * self.curvature(b) {
                high = b;
            } else {
                low = a;
            }
        }
        Some(f64::midpoint(low, high))
    }

    /// The first and second derivatives, by the quotient rule.
    fn derivatives(&self, t: f64) -> (Vec2, Vec2) {
        // At its end, a corner perhaps, what counts is the direction in which it comes.
        let t = t.min(self.to.next_down());
        let ([x, y, w], [x1, y1, w1], [x2, y2, w2]) = (
            self.spline.value.at(t),
            self.spline.first.at(t),
            self.spline.second.at(t),
        );
        let place = Vec2::new(x / w, y / w);
        let first = (Vec2::new(x1, y1) - place * w1) / w;
        let second = (Vec2::new(x2, y2) - place * w2 - first * (2.0 * w1)) / w;
        (first, second)
    }
}

impl Curve for Run<'_> {
    fn domain(&self) -> (f64, f64) {
        (self.from, self.to)
    }

    fn point(&self, t: f64) -> Point {
        self.spline.point(t)
    }

    fn derivative(&self, t: f64) -> Vec2 {
        self.derivatives(t).0
    }

    fn curvature(&self, t: f64) -> f64 {
        let (first, second) = self.derivatives(t);
        first.cross(second) / first.hypot().powi(3)
    }

    fn stretches(&self) -> Vec<f64> {
        self.stretches.clone()
    }
}
