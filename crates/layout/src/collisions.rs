//! What lies on what: the few questions that the search asks, and the library that answers them.
//!
//! Everything here is f32 and quick. What is too close to call counts as touching; how much that may be out by is far
//! below [`crate::ALLOWANCE`], and the last word on a layout is spoken elsewhere, from its outlines.

use crate::poles::Poles;
use cintre_geometry::{Affine, Point, Rect};
use jagua_rs::collision_detection::hazards::collector::BasicHazardCollector;
use jagua_rs::collision_detection::hazards::filter::HazardFilter;
use jagua_rs::collision_detection::hazards::{HazKey, Hazard, HazardEntity};
use jagua_rs::collision_detection::{CDEConfig, CDEngine};
use jagua_rs::geometry::DTransformation;
use jagua_rs::geometry::fail_fast::SPSurrogateConfig;
use jagua_rs::geometry::geo_enums::GeoPosition;
use jagua_rs::geometry::geo_traits::TransformableFrom;
use jagua_rs::geometry::primitives::{self as engine, SPolygon};
use std::sync::Arc;

/// Round holes inside a shape that stand for it where overlap is measured: while they cover less than the share, as many.
const POLES: [(usize, f32); 3] = [(64, 0.0), (16, 0.8), (8, 0.9)];

/// The share of a shape that its largest poles cover which are asked first whether they touch anything.
const FIRST_ASKED: f32 = 0.7;

/// How finely a sheet is parted to find what lies where.
const DEPTH: u8 = 4;

/// A box with fewer things in it than this is not parted.
const CROWD: u8 = 8;

/// How a piece lies: turned about the middle of its shape, mirrored before that or not, and moved.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Pose {
    /// Radians.
    pub(crate) turn: f64,
    /// Whether its other face is up.
    pub(crate) flipped: bool,
    /// Where its middle lies, mm.
    pub(crate) x: f32,
    pub(crate) y: f32,
}

/// A shape that can be laid.
#[derive(Clone, Debug)]
pub(crate) struct Shape {
    polygon: Arc<SPolygon>,
}

/// A shape as it lies somewhere.
#[derive(Clone, Debug)]
pub(crate) struct Laid {
    polygon: SPolygon,
}

/// What a laid shape meets.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub(crate) enum Met {
    /// The edge of the room.
    Outside,
    /// A place kept free, by its number.
    Kept(usize),
    /// A piece, by its number.
    Piece(usize),
}

/// One sheet's room with what lies in it.
pub(crate) trait Collisions: Sized {
    /// An empty room: a box with places in it that are kept free.
    fn new(room: Rect, kept: &[Shape]) -> Option<Self>;
    /// Notes that a piece lies there; it may lie on anything.
    fn put(&mut self, piece: usize, laid: &Laid);
    /// Takes a piece away again.
    fn lift(&mut self, piece: usize);
    /// Whether a shape there touches nothing but the piece excepted.
    fn is_clear(&mut self, laid: &Laid, except: Option<usize>) -> bool;
    /// Tells each thing once that a shape there touches, but for the piece excepted, until told that it is enough. `false`
    /// where it was.
    fn meet(&mut self, laid: &Laid, except: Option<usize>, enough: impl FnMut(Met) -> bool) -> bool;
}

/// The room as the library knows it.
#[derive(Clone, Debug)]
pub(crate) struct Ground {
    engine: CDEngine<Met>,
    found: BasicHazardCollector<Met>,
}

impl HazardEntity for Met {
    fn scope(&self) -> GeoPosition {
        match self {
            Self::Outside => GeoPosition::Exterior,
            Self::Kept(_) | Self::Piece(_) => GeoPosition::Interior,
        }
    }

    fn is_dynamic(&self) -> bool {
        matches!(self, Self::Piece(_))
    }
}

/// Passes over one piece.
struct Except(Option<usize>);

impl HazardFilter<Met> for Except {
    fn is_irrelevant(&self, _: HazKey, met: &Met) -> bool {
        matches!((met, self.0), (Met::Piece(p), Some(except)) if *p == except)
    }
}

const fn surrogate() -> SPSurrogateConfig {
    SPSurrogateConfig {
        n_pole_limits: POLES,
        ff_pole_area_ratio: FIRST_ASKED,
        n_ff_piers: 0,
    }
}

#[expect(clippy::cast_possible_truncation, reason = "the engine's numbers are f32")]
const fn single(p: Point) -> engine::Point {
    engine::Point(p.x as f32, p.y as f32)
}

impl Shape {
    /// None where the corners enclose nothing, or cross.
    pub(crate) fn new(corners: &[Point]) -> Option<Self> {
        let mut polygon = SPolygon::new(corners.iter().map(|&p| single(p)).collect()).ok()?;
        polygon.generate_surrogate(surrogate()).ok()?;
        Some(Self {
            polygon: Arc::new(polygon),
        })
    }

    /// Something to lay it with, again and again.
    pub(crate) fn laid(&self) -> Laid {
        Laid {
            polygon: SPolygon::clone(&self.polygon),
        }
    }

    /// Its area, mm².
    pub(crate) fn area(&self) -> f32 {
        self.polygon.area()
    }

    /// The area of what a band round it would hold, mm².
    pub(crate) fn hull_area(&self) -> f32 {
        self.polygon.surrogate().convex_hull_area
    }

    /// Its greatest length in any direction, mm.
    pub(crate) fn length(&self) -> f32 {
        self.polygon.diameter()
    }
}

impl Pose {
    /// The same move, in full digits.
    pub(crate) fn affine(self) -> Affine {
        let shift = Affine::translate((f64::from(self.x), f64::from(self.y)));
        let mirror = if self.flipped {
            Affine::FLIP_X
        } else {
            Affine::IDENTITY
        };
        shift * crate::pieces::turn(self.turn) * mirror
    }
}

impl Laid {
    /// Lays the shape that it was made for.
    pub(crate) fn lay(&mut self, shape: &Shape, pose: Pose) {
        #[expect(clippy::cast_possible_truncation, reason = "the engine's numbers are f32")]
        let [a, b, ..] = crate::pieces::turn(pose.turn).as_coeffs().map(|c| c as f32);
        // The library mirrors about the x axis, and then turns: a mirror about the y axis is that and half a turn.
        let turn = b.atan2(a) + if pose.flipped { std::f32::consts::PI } else { 0.0 };
        let by = DTransformation::new(turn, (pose.x, pose.y)).with_reflection(pose.flipped);
        self.polygon.transform_from(&shape.polygon, &by.compose());
    }

    /// The box round it: least x and y, greatest x and y, mm.
    pub(crate) fn bounds(&self) -> [f32; 4] {
        let b = self.polygon.bbox();
        [b.x_min, b.y_min, b.x_max, b.y_max]
    }

    /// The round holes that stand for it.
    pub(crate) fn poles(&self, into: &mut Poles) {
        let poles = &self.polygon.surrogate().poles;
        into.fill(poles.iter().map(|c| [c.center.0, c.center.1, c.radius]));
    }
}

impl Collisions for Ground {
    fn new(room: Rect, kept: &[Shape]) -> Option<Self> {
        let corners = [
            (room.x0, room.y0),
            (room.x1, room.y0),
            (room.x1, room.y1),
            (room.x0, room.y1),
        ];
        let edge = SPolygon::new(corners.iter().map(|&c| single(c.into())).collect()).ok()?;
        let bounds = edge.bbox().inflate_to_square();
        let mut hazards = vec![Hazard::new(Met::Outside, Arc::new(edge))];
        for (number, shape) in kept.iter().enumerate() {
            hazards.push(Hazard::new(Met::Kept(number), Arc::clone(&shape.polygon)));
        }
        let config = CDEConfig {
            quadtree_depth: DEPTH,
            cd_threshold: CROWD,
            item_surrogate_config: surrogate(),
        };
        Some(Self {
            engine: CDEngine::new(bounds, hazards, config),
            found: BasicHazardCollector::new(),
        })
    }

    fn put(&mut self, piece: usize, laid: &Laid) {
        self.engine
            .register_hazard(Hazard::new(Met::Piece(piece), Arc::new(laid.polygon.clone())));
    }

    fn lift(&mut self, piece: usize) {
        self.engine.deregister_hazard_by_entity(Met::Piece(piece));
    }

    fn is_clear(&mut self, laid: &Laid, except: Option<usize>) -> bool {
        let filter = Except(except);
        self.found.clear();
        let quick =
            self.engine
                .collect_surrogate_collisions_until(&laid.polygon, &filter, &mut self.found, |_| true);
        !quick && !self.engine.detect_poly_collision(&laid.polygon, &filter)
    }

    fn meet(&mut self, laid: &Laid, except: Option<usize>, mut enough: impl FnMut(Met) -> bool) -> bool {
        let filter = Except(except);
        let found: &mut BasicHazardCollector<Met> = &mut self.found;
        found.clear();
        self.engine
            .collect_surrogate_collisions_until(&laid.polygon, &filter, found, &mut enough)
            || self
                .engine
                .collect_poly_collisions_until(&laid.polygon, &filter, found, &mut enough)
    }
}
