//! The frame of a built-up rib: an arched band on a tie, or a solid plate where the arch is too flat to leave anything open.
//!
//! A band runs from the level bottom up one leg, along the lagging line and down the other. It is divided at faces, which
//! go from its outer edge to its inner one: radial, along the normal; or level, at its feet; or plumb, where it is to come
//! apart.

use super::rib::Rib;
use crate::line::{Crossing, at_level, at_plumb, length_to, point_along};
use cintre_geometry::{Outline, Path, Piece, Point, Vec2, parallel_line};

/// A face this near to a corner of the line goes through the corner, mm: it comes from a division that meant it.
const CORNER: f64 = 1e-3;

/// No piece is shorter on either edge than this, mm.
const SHORTEST: f64 = 20.0;

/// What rounding may put a meeting beside a line, mm.
const BESIDE: f64 = 1e-7;

/// An open frame leaves this share of its depth open at the crown at least: less is not worth the joints.
const OPEN: f64 = 0.5;

/// A level end may be so many times as long as the band is deep, which it is at 30 degrees: a more slender point breaks off.
const FEATHER: f64 = 2.0;

/// The edges of a built-up rib, in the arch's frame.
#[derive(Clone, Debug)]
pub(crate) struct Frame {
    /// The rib's back with its sides, run on below the bottom.
    pub(crate) outer: Path,
    /// The band's inner edge, run the same way; the level bottom where the frame is solid.
    pub(crate) inner: Path,
    /// The height of the level bottom.
    pub(crate) bottom: f64,
    /// The height of the tie's upper line.
    pub(crate) tie_top: f64,
    /// How deep the band is; none where the frame is solid.
    pub(crate) depth: Option<f64>,
}

/// A face across the band.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Face {
    /// How far along the outer edge it begins, mm.
    pub(crate) outer: f64,
    /// How far along the inner edge it ends, mm.
    pub(crate) inner: f64,
    /// Where it begins.
    pub(crate) from: Point,
    /// Where it ends.
    pub(crate) to: Point,
}

/// One side of the frame.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Side {
    Left,
    Right,
}

impl Frame {
    /// The open frame of a rib; none where the band would fold, or leaves nothing open.
    pub(crate) fn open(rib: &Rib, depth: f64) -> Option<Self> {
        let outer = rib.back_and_sides(rib.bottom - 2.0 * depth);
        let inner = parallel_line(&outer, depth).ok()?;
        let crown = inner.bounds().y1;
        let frame = Self {
            outer,
            inner,
            bottom: rib.bottom,
            tie_top: rib.tie_top,
            depth: Some(depth),
        };
        let crosses = |y: f64| at_level(&frame.inner, y).len() == 2;
        let stands = crown - rib.tie_top >= OPEN * depth && crosses(rib.tie_top) && crosses(rib.bottom);
        // The far layer of the band ends on the tie's upper line.
        let blunt = |side| {
            let end = frame.level(frame.tie_top, side);
            end.is_some_and(|face| face.from.distance(face.to) <= FEATHER * depth)
        };
        (stands && blunt(Side::Left) && blunt(Side::Right)).then_some(frame)
    }

    /// The deepest band that leaves an open frame, no deeper than `most`; none where one of `least` does not.
    pub(crate) fn deepest(rib: &Rib, least: f64, most: f64) -> Option<f64> {
        Self::open(rib, least)?;
        let (mut works, mut fails) = (least, most);
        // Enough halvings to bring any depth below a micrometre.
        for _ in 0..40 {
            let middle = f64::midpoint(works, fails);
            if Self::open(rib, middle).is_some() {
                works = middle;
            } else {
                fails = middle;
            }
        }
        Some(works)
    }

    /// The rib as a plate.
    pub(crate) fn solid(rib: &Rib) -> Self {
        let outer = rib.back_and_sides(rib.bottom - rib.outline.bounds().height());
        let corners = at_level(&outer, rib.bottom);
        let corner =
            |c: Option<&Crossing>, foot: Point| c.map_or(Point::new(foot.x, rib.bottom), |c| c.point);
        let (left, right) = (
            corner(corners.first(), rib.back.start()),
            corner(corners.last(), rib.back.end()),
        );
        Self {
            outer,
            inner: Path::polyline(&[left, right]),
            bottom: rib.bottom,
            tie_top: rib.tie_top,
            depth: None,
        }
    }

    /// The level face at a height on one side; a solid frame has none there, and ends at its corner.
    pub(crate) fn level(&self, y: f64, side: Side) -> Option<Face> {
        let pick = |crossings: Vec<Crossing>| match side {
            Side::Left => crossings.first().copied(),
            Side::Right => crossings.last().copied(),
        };
        let outer = pick(at_level(&self.outer, y))?;
        let (inner, to) = if self.depth.is_some() {
            let inner = pick(at_level(&self.inner, y))?;
            (length_to(&self.inner, &inner), inner.point)
        } else {
            match side {
                Side::Left => (0.0, self.inner.start()),
                Side::Right => (self.inner.length(), self.inner.end()),
            }
        };
        Some(Face {
            outer: length_to(&self.outer, &outer),
            inner,
            from: outer.point,
            to,
        })
    }

    /// The plumb face at `x` through the upper part of the band.
    pub(crate) fn plumb(&self, x: f64) -> Option<Face> {
        let highest = |path: &Path| {
            let crossings = at_plumb(path, x);
            crossings
                .into_iter()
                .max_by(|a, b| a.point.y.total_cmp(&b.point.y))
        };
        let (outer, inner) = (highest(&self.outer)?, highest(&self.inner)?);
        Some(Face {
            outer: length_to(&self.outer, &outer),
            inner: length_to(&self.inner, &inner),
            from: outer.point,
            to: inner.point,
        })
    }

    /// The radial face `along` mm from the start of the outer edge; at a corner it halves the corner.
    pub(crate) fn radial(&self, along: f64) -> Option<Face> {
        let (outer, from, inwards) = self.normal(along);
        let far = self.outer.bounds();
        let ray = Piece::line(from, from + inwards * (far.width() + far.height()));
        let hits = self.inner.pieces().flat_map(|piece| piece.meetings(&ray, BESIDE));
        let to = hits.min_by(|a, b| a.distance(from).total_cmp(&b.distance(from)))?;
        let near = self.inner.nearest(to);
        Some(Face {
            outer,
            inner: length_to(&self.inner, &near.into()),
            from,
            to,
        })
    }

    /// A point of the outer edge with its inward normal, drawn to a corner that is near.
    fn normal(&self, along: f64) -> (f64, Point, Vec2) {
        let right = |t: Vec2| Vec2::new(t.y, -t.x);
        let mut passed = 0.0;
        let pieces: Vec<Piece> = self.outer.pieces().collect();
        for pair in pieces.windows(2) {
            passed += pair[0].length();
            if (passed - along).abs() < CORNER {
                let both = right(pair[0].tangent_at(1.0)) + right(pair[1].tangent_at(0.0));
                // A cusp's two normals face one another.
                let inwards = if both.hypot() > CORNER {
                    both.normalize()
                } else {
                    Vec2::new(0.0, -1.0)
                };
                return (passed, pair[1].start, inwards);
            }
        }
        let (point, tangent) = self.outer.station(along);
        (along, point, right(tangent))
    }

    /// What lies between two faces, counter-clockwise; none where they cross or leave next to nothing.
    pub(crate) fn piece(&self, from: &Face, to: &Face) -> Option<Outline> {
        if to.outer - from.outer < SHORTEST || to.inner - from.inner < SHORTEST / 2.0 {
            return None;
        }
        let outer = self.outer.part(from.outer, to.outer);
        let inner = self.inner.part(from.inner, to.inner).reversed();
        let across = |a: Point, b: Point| Path::polyline(&[a, b]);
        let mut line = outer;
        if line.end().distance(inner.start()) > BESIDE {
            line = line.then(&across(line.end(), inner.start()));
        }
        Some(Outline::closing(&line.then(&inner)).reversed())
    }

    /// The tie between two heights: along the inner edge (`within`) or the outer one, from `left` to `right` where it is cut.
    pub(crate) fn tie(&self, within: bool, left: Option<f64>, right: Option<f64>) -> Option<Outline> {
        let edge = if within { &self.inner } else { &self.outer };
        let (low, high) = (at_level(edge, self.bottom), at_level(edge, self.tie_top));
        let reach = |a: Option<&Crossing>, b: Option<&Crossing>| {
            a.zip(b).map(|(a, b)| (length_to(edge, a), length_to(edge, b)))
        };
        let upright = |x: f64| Path::polyline(&[Point::new(x, self.bottom), Point::new(x, self.tie_top)]);
        let (from_left, to_right) = (reach(low.first(), high.first())?, reach(high.last(), low.last())?);
        let up = left.map_or_else(|| edge.part(from_left.0, from_left.1), upright);
        let down = right.map_or_else(|| edge.part(to_right.0, to_right.1), |x| upright(x).reversed());
        (down.start().x - up.end().x > SHORTEST).then(|| {
            Outline::closing(&up.then(&Path::polyline(&[up.end(), down.start()])).then(&down)).reversed()
        })
    }

    /// Where the tie's level upper line begins and ends between the inner edges.
    pub(crate) fn tie_line(&self) -> Option<(f64, f64)> {
        let crossings = at_level(&self.inner, self.tie_top);
        Some((crossings.first()?.point.x, crossings.last()?.point.x))
    }

    /// The x of its sides at the bottom.
    pub(crate) fn sides(&self) -> Option<(f64, f64)> {
        let crossings = at_level(&self.outer, self.bottom);
        Some((crossings.first()?.point.x, crossings.last()?.point.x))
    }

    /// The line half way between its edges, where bolts stand; along the back of a solid frame, `in_by` mm in.
    pub(crate) fn middle(&self, in_by: f64) -> Option<Path> {
        parallel_line(&self.outer, self.depth.map_or(in_by, |depth| depth / 2.0)).ok()
    }

    /// Where a face crosses [`Self::middle`], as a length along that.
    pub(crate) fn station_on(&self, middle: &Path, face: &Face) -> f64 {
        let at = if self.depth.is_some() {
            face.from.midpoint(face.to)
        } else {
            face.from
        };
        length_to(middle, &middle.nearest(at).into())
    }

    /// The height of the outer edge over `x`.
    pub(crate) fn height_at(&self, x: f64) -> Option<f64> {
        let crossings = at_plumb(&self.outer, x);
        crossings.iter().map(|c| c.point.y).max_by(f64::total_cmp)
    }

    /// The point of the outer edge half way along it between the tie's ends, and those at a quarter from each.
    pub(crate) fn quarters(&self, middle: &Path) -> Option<[Point; 2]> {
        let crossings = at_level(middle, self.tie_top);
        let (a, b) = (
            length_to(middle, crossings.first()?),
            length_to(middle, crossings.last()?),
        );
        Some([0.25, 0.75].map(|share| point_along(middle, a + (b - a) * share)))
    }
}
