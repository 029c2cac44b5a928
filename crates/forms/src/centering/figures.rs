//! The figures of a centering.

use super::boards::Boards;
use super::member::Member;
use super::rib::Rib;
use super::spacing::Spacing;
use super::striking::Striking;
use super::weight::Weight;
use super::{Build, Input};
use crate::Figure;
use crate::line::{at_level, length_to};

/// Springings nearer in height than this are level, mm.
const LEVEL: f64 = 1e-6;

/// How far the edges of a flat batten `width` wide stand proud of a round rib: w² / 8R. Lengths in mm.
pub fn proud(width: f64, radius: f64) -> f64 {
    width * width / (8.0 * radius)
}

/// A number of things as a length of so many.
#[expect(clippy::cast_precision_loss, reason = "numbers of ribs and boards are small")]
pub(crate) const fn as_length(number: usize) -> f64 {
    number as f64
}

/// What the figures are of.
pub(crate) struct Shown<'a> {
    pub(crate) input: &'a Input,
    pub(crate) rib: &'a Rib,
    pub(crate) build: Build,
    pub(crate) depth: Option<f64>,
    pub(crate) lap: Option<f64>,
    pub(crate) members: &'a [Member],
    pub(crate) spacing: &'a Spacing,
    pub(crate) boards: Option<&'a Boards>,
    pub(crate) striking: &'a Striking,
    pub(crate) weight: Option<&'a Weight>,
    pub(crate) bolts: usize,
}

impl Shown<'_> {
    pub(crate) fn figures(&self) -> Vec<Figure> {
        let mut figures = self.line();
        figures.extend(self.built());
        figures.extend(self.laid());
        figures.extend(self.struck());
        figures.extend(self.weights());
        figures
    }

    fn line(&self) -> Vec<Figure> {
        let Self { input, rib, .. } = self;
        let bounds = rib.outline.bounds();
        let (left, right) = (rib.back.start(), rib.back.end());
        let mut figures = vec![
            Figure::length("wall", input.wall),
            Figure::length("lagging", input.lagging.thickness),
            Figure::length("skin", input.lagging.skin),
            Figure::radii("rib radii", self.radii()),
            Figure::lengths("left foot", vec![left.x, left.y]),
            Figure::lengths("right foot", vec![right.x, right.y]),
            Figure::length("rib rise", rib.back.bounds().y1 - input.soffit.start().y),
        ];
        let half = self.half_width();
        figures.extend(half.map(|half| Figure::length("rib half width at springing line", half)));
        if input.fit_error > 0.0 {
            figures.push(Figure::fine("fit error", input.fit_error));
        }
        figures.extend([
            Figure::length("rib line length", rib.back.length()),
            Figure::length("rib length", bounds.width()),
            Figure::length("rib height", bounds.height()),
            Figure::length("tie", rib.tie_top - rib.bottom),
            Figure::length("clear of each jamb", input.soffit.end().x - right.x),
            Figure::length("clear of each wall face", input.clear.faces),
        ]);
        figures
    }

    fn built(&self) -> Vec<Figure> {
        let spacing = self.spacing;
        let mut figures = vec![
            Figure::count("ribs", spacing.ribs),
            Figure::length("rib thickness", spacing.thickness),
            Figure::length("rib centres", spacing.centres),
            Figure::length("clear between ribs", spacing.clear),
        ];
        figures.extend(self.depth.map(|depth| Figure::length("rib depth", depth)));
        figures.extend(self.lap.map(|lap| Figure::length("joints lap by", lap)));
        figures.push(Figure::count("pieces in a rib", self.members.len()));
        let name = if self.build == Build::Single || self.build == Build::TurningPiece {
            "bolts"
        } else {
            "bolts in a rib"
        };
        figures.push(Figure::count(name, self.bolts));
        figures
    }

    fn laid(&self) -> Vec<Figure> {
        let mut figures = Vec::new();
        if let Some(boards) = self.boards {
            figures.extend([
                Figure::count("lagging boards", boards.count),
                Figure::length("board width", boards.width),
                Figure::length("gap between boards", boards.gap),
                Figure::length("board length", boards.length),
            ]);
            figures.extend(
                self.tightest()
                    .map(|radius| Figure::fine("flat board stands proud", proud(boards.width, radius))),
            );
        }
        if let Some(ring) = &self.input.ring
            && !ring.joints.is_empty()
        {
            let soffit = &self.input.soffit;
            let along =
                |joint: &cintre_geometry::Path| length_to(soffit, &soffit.nearest(joint.start()).into());
            let stations = ring.joints.iter().map(along).collect();
            figures.push(Figure::lengths("joints along the soffit", stations));
        }
        figures
    }

    fn struck(&self) -> Vec<Figure> {
        let striking = self.striking;
        let mut figures = vec![
            Figure::length("wedge drive", striking.drive),
            Figure::length("wedge drop", striking.drop),
            Figure::length("lip and clearance", striking.needed),
            Figure::length("wedge length", striking.wedge.0),
            Figure::length("wedge thick end", striking.wedge.2),
            Figure::length("pair of wedges set full", striking.pair()),
        ];
        if striking.beyond > 0.0 {
            figures.push(Figure::length("stands beyond each jamb", striking.beyond));
        }
        figures.extend(striking.key.map(|key| Figure::length("key", key)));
        figures
    }

    fn weights(&self) -> Vec<Figure> {
        let Some(weight) = self.weight else {
            return Vec::new();
        };
        let (outer, inner) = weight.by_rib(self.spacing.ribs);
        let mut figures = vec![
            Figure::weight("ring weight", weight.whole),
            Figure::weight("ring weight on an outer rib", outer),
        ];
        figures.extend(inner.map(|inner| Figure::weight("ring weight on an inner rib", inner)));
        let [quarter, half, three] = weight.stages;
        figures.extend([
            Figure::weight("laid a quarter up both sides", quarter),
            Figure::weight("laid half up both sides", half),
            Figure::weight("laid three quarters up both sides", three),
            Figure::weight("one side laid to the crown", weight.one_sided),
            Figure::weight("downward push by friction alone", weight.by_friction),
        ]);
        figures
    }

    /// The radius of every arc of the rib's line, from left to right.
    fn radii(&self) -> Vec<f64> {
        let circles = self.rib.back.pieces().filter_map(|p| p.circle());
        circles.map(|c| c.radius).collect()
    }

    /// The least radius over which a board is laid: of the arcs that turn over the opening.
    fn tightest(&self) -> Option<f64> {
        self.rib
            .back
            .pieces()
            .filter(|p| p.bulge < 0.0)
            .filter_map(|p| p.circle())
            .map(|c| c.radius)
            .reduce(f64::min)
    }

    /// Half the rib's width at a level springing line; none where the springings are not level or the rib ends below them.
    fn half_width(&self) -> Option<f64> {
        let (left, right) = (self.input.soffit.start(), self.input.soffit.end());
        if (left.y - right.y).abs() > LEVEL {
            return None;
        }
        let crossings = at_level(&self.rib.back_and_sides(self.rib.bottom), left.y);
        Some((crossings.last()?.point.x - crossings.first()?.point.x) / 2.0)
    }
}
