//! A sheet taken apart into single cuts.

use crate::bore::{by_drill, pecks, winding_start, windings};
use crate::choose::Tool;
use crate::contour::Contour;
use crate::demand::{Demand, Shape, depth_of};
use crate::line::Line;
use crate::owner::Owner;
use crate::setup::Setup;
use crate::{Edge, Error, Note, scribe};
use cintre_geometry::{Outline, Path, Point};
use cintre_work::{Bore, Depth, MarkKind, Move, Placed, Relieved, Tab};

mod edges;

/// One cut: from over its start, at [`APPROACH`], to its foot.
#[derive(Debug)]
pub(crate) struct OneCut {
    pub(crate) part: String,
    pub(crate) start: Point,
    pub(crate) moves: Vec<Move>,
}

/// What comes before what, whatever lies nearest, and before all openings and outlines.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Stage {
    /// Marks and lettering.
    Mark,
    /// Arrises.
    Chamfer,
    /// Holes.
    Bore,
    /// Recesses and grooves.
    Recess,
    /// Inside corners that the next bit does not get into.
    Corner,
}

impl Stage {
    pub(crate) const ALL: [Self; 5] = [Self::Mark, Self::Chamfer, Self::Bore, Self::Recess, Self::Corner];
}

/// The cuts of a sheet.
#[derive(Debug, Default)]
pub(crate) struct Cuts<'a> {
    /// Each with the name of its bit and its stage.
    made: Vec<(String, Stage, OneCut)>,
    /// Openings and outlines, each with the name of its bit.
    contours: Vec<(String, Contour<'a>)>,
    pub(crate) tabs: Vec<Tab>,
    pub(crate) reliefs: Vec<Relieved>,
    pub(crate) notes: Vec<Note>,
}

impl<'a> Cuts<'a> {
    pub(crate) fn of(parts: &[Placed], setup: &Setup<'a>) -> Result<Self, Error> {
        let mut cuts = Self::default();
        for placed in parts {
            let owner = Owner::of(placed, parts, setup);
            cuts.marks(placed, setup)?;
            for bore in &placed.part.bores {
                cuts.drilled(&owner, bore, setup)?;
            }
            for demand in Demand::all(&placed.part, &placed.name, setup.needed(), &setup.chosen.drills)? {
                let tool = setup.chosen.for_demand(&demand)?;
                cuts.cut(&owner, &demand, &setup.with(tool))?;
            }
        }
        Ok(cuts)
    }

    /// The openings and outlines that a bit cuts.
    pub(crate) fn contours(&self, bit: &str) -> impl Iterator<Item = &Contour<'a>> {
        self.contours
            .iter()
            .filter(move |(b, _)| b == bit)
            .map(|(_, c)| c)
    }

    /// The cuts that a bit makes at a stage.
    pub(crate) fn take(&mut self, bit: &str, stage: Stage) -> Vec<OneCut> {
        let (taken, left) = std::mem::take(&mut self.made)
            .into_iter()
            .partition(|(b, s, _)| b == bit && *s == stage);
        self.made = left;
        taken.into_iter().map(|(_, _, cut)| cut).collect()
    }

    fn add(&mut self, tool: Tool<'_>, stage: Stage, cuts: impl IntoIterator<Item = OneCut>) {
        let name = &tool.bit.name;
        self.made
            .extend(cuts.into_iter().map(|cut| (name.clone(), stage, cut)));
    }

    fn note(&mut self, note: Note) {
        if !self.notes.contains(&note) {
            self.notes.push(note);
        }
    }

    fn marks(&mut self, placed: &Placed, setup: &Setup<'_>) -> Result<(), Error> {
        if let Some(tool) = setup.chosen.scribe {
            self.add(tool, Stage::Mark, scribe::marks(placed, &setup.with(tool)));
        }
        let chamfer = |k: &MarkKind| matches!(k, MarkKind::Chamfer { .. });
        match (
            setup.chosen.vee,
            placed.part.marks.iter().position(|m| chamfer(&m.kind)),
        ) {
            (_, None) => {}
            (Some(tool), Some(_)) => {
                let made = scribe::chamfers(placed, &setup.with(tool))?;
                self.add(tool, Stage::Chamfer, made);
            }
            (None, Some(k)) => {
                return Err(Error::NoVee {
                    part: placed.name.clone(),
                    edge: Edge::Chamfer(k),
                    material: setup.stock.material.clone(),
                    router: setup.router.name.clone(),
                });
            }
        }
        Ok(())
    }

    /// A bore by the drill that makes it, if there is one; any bore must have a size that can be.
    fn drilled(&mut self, owner: &Owner<'_>, bore: &Bore, setup: &Setup<'_>) -> Result<(), Error> {
        let depth = depth_of(bore, setup.needed());
        let thickness = setup.stock.thickness;
        if !(bore.diameter > 0.0 && depth > 0.0) || matches!(bore.depth, Depth::Blind(d) if d > thickness) {
            return Err(Error::Bore {
                part: owner.name.to_owned(),
                diameter: bore.diameter,
                depth,
                thickness,
            });
        }
        let Some(drill) = by_drill(bore, &setup.chosen.drills, setup.needed()) else {
            return Ok(());
        };
        let cut = OneCut {
            part: owner.name.to_owned(),
            start: bore.centre,
            moves: pecks(bore.centre, depth, drill.feeds),
        };
        self.add(drill, Stage::Bore, [cut]);
        if bore.depth == Depth::Through {
            self.note(Note::DrillPoint {
                bit: drill.bit.name.clone(),
                through: setup.router.through,
            });
        }
        Ok(())
    }

    /// What a straight bit is asked for.
    fn cut(&mut self, owner: &Owner<'_>, demand: &Demand<'_>, setup: &Setup<'a>) -> Result<(), Error> {
        match &demand.shape {
            Shape::Bore(bore) => self.bore(owner, demand.edge, bore, setup),
            Shape::Edge(edge) => self.profile(owner, demand.edge, edge, setup),
            Shape::Groove { line, .. } if demand.is_as_wide(setup.tool.bit) => {
                self.groove(owner, demand, line, setup)
            }
            Shape::Recess(room) | Shape::Groove { room, .. } => self.recess(owner, demand.edge, room, setup),
        }
    }

    fn bore(&mut self, owner: &Owner<'_>, edge: Edge, bore: &Bore, setup: &Setup<'a>) -> Result<(), Error> {
        if bore.depth == Depth::Through && bore.diameter > 2.0 * setup.tool.bit.diameter {
            // A core would come loose: it is held by tabs as an opening's is.
            let circle = Outline::circle(bore.centre, bore.diameter / 2.0).reversed();
            return self.profile(owner, edge, &circle, setup);
        }
        let depth = depth_of(bore, setup.needed());
        let cut = OneCut {
            part: owner.name.to_owned(),
            start: winding_start(bore, setup.tool.bit),
            moves: windings(bore, depth, setup.tool, setup.router),
        };
        self.add(setup.tool, Stage::Bore, [cut]);
        Ok(())
    }

    /// A groove by a bit of its own width.
    fn groove(
        &mut self,
        owner: &Owner<'_>,
        demand: &Demand<'_>,
        line: &Path,
        setup: &Setup<'_>,
    ) -> Result<(), Error> {
        let thickness = setup.stock.thickness;
        if !(demand.depth > 0.0 && demand.depth < thickness) {
            return Err(Error::Floor {
                part: owner.name.to_owned(),
                edge: demand.edge,
                depth: demand.depth,
                thickness,
            });
        }
        let cut = line_cut(owner.name, line, demand.depth, setup);
        self.add(setup.tool, Stage::Recess, [cut]);
        Ok(())
    }
}

/// A line cut with the setup's bit, which goes down along it.
fn line_cut(part: &str, line: &Path, depth: f64, setup: &Setup<'_>) -> OneCut {
    let cut = Line {
        depth,
        feeds: setup.tool.feeds,
        ramp: Some(setup.router.ramp),
    };
    OneCut {
        part: part.to_owned(),
        start: line.start(),
        moves: cut.moves(line),
    }
}
