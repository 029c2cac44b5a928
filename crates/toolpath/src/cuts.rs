//! A sheet taken apart into single cuts.

use crate::bore::{by_drill, pecks, winding_start, windings};
use crate::choose::{Chosen, Tool};
use crate::corners::{Swept, stretches};
use crate::demand::{Demand, Shape, depth_of, room_parallels};
use crate::lap::{Cutting, laps};
use crate::line::Line;
use crate::passes::{Passes, ramp_length};
use crate::plan::APPROACH;
use crate::recess::{Pocket, STEP_OVER};
use crate::relief::{Spur, relieved};
use crate::road::Road;
use crate::{Edge, Error, Note, scribe, tabs};
use cintre_geometry::{Outline, Path, Point, leftovers, parallel};
use cintre_work::{Bore, Cut, Depth, MarkKind, Move, Placed, Recess, Relieved, Router, Stock, Tab};

/// One cut: from over its start, at [`APPROACH`], to its foot.
#[derive(Debug)]
pub(crate) struct OneCut {
    pub(crate) part: String,
    pub(crate) start: Point,
    pub(crate) moves: Vec<Move>,
}

/// What comes before what, whatever lies nearest.
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
    /// Openings.
    Opening,
    /// Outlines.
    Outline,
}

impl Stage {
    pub(crate) const ALL: [Self; 7] = [
        Self::Mark,
        Self::Chamfer,
        Self::Bore,
        Self::Recess,
        Self::Corner,
        Self::Opening,
        Self::Outline,
    ];
}

/// The cuts of a sheet.
#[derive(Debug, Default)]
pub(crate) struct Cuts {
    /// Each with the name of its bit and its stage.
    made: Vec<(String, Stage, OneCut)>,
    pub(crate) tabs: Vec<Tab>,
    pub(crate) reliefs: Vec<Relieved>,
    pub(crate) notes: Vec<Note>,
}

/// What one cut is made with.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Setup<'a> {
    pub(crate) stock: &'a Stock,
    pub(crate) router: &'a Router,
    pub(crate) chosen: &'a Chosen<'a>,
    /// The bit at work.
    pub(crate) tool: Tool<'a>,
}

impl<'a> Setup<'a> {
    /// The same with another bit.
    pub(crate) const fn with(self, tool: Tool<'a>) -> Self {
        Self { tool, ..self }
    }

    /// How deep a through cut goes below the face, mm.
    fn needed(&self) -> f64 {
        self.stock.thickness + self.router.through
    }
}

impl Cuts {
    pub(crate) fn of(parts: &[Placed], setup: &Setup<'_>) -> Result<Self, Error> {
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
    fn cut(&mut self, owner: &Owner<'_>, demand: &Demand<'_>, setup: &Setup<'_>) -> Result<(), Error> {
        match &demand.shape {
            Shape::Bore(bore) => self.bore(owner, demand.edge, bore, setup),
            Shape::Edge(edge) => self.profile(owner, demand.edge, edge, setup),
            Shape::Groove { line, .. } if demand.is_as_wide(setup.tool.bit) => {
                self.groove(owner, demand, line, setup)
            }
            Shape::Recess(room) | Shape::Groove { room, .. } => self.recess(owner, demand.edge, room, setup),
        }
    }

    fn bore(&mut self, owner: &Owner<'_>, edge: Edge, bore: &Bore, setup: &Setup<'_>) -> Result<(), Error> {
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

    fn recess(
        &mut self,
        owner: &Owner<'_>,
        edge: Edge,
        room: &Recess,
        setup: &Setup<'_>,
    ) -> Result<(), Error> {
        let pocket = Pocket {
            part: owner.name,
            edge,
            room,
            others: &owner.edges,
            setup: *setup,
        };
        let cleared = pocket.cleared()?;
        self.relieve(owner, &cleared.spurs, setup);
        for finer in finer(setup) {
            // The floor of a corner wider than the finer bit takes several stretches beside one another.
            let radius = finer.radius();
            let swept = Swept {
                roads: &cleared.walls,
                radius: setup.tool.radius(),
                filled: true,
            };
            let mut off = radius;
            loop {
                let roads = room_parallels(owner.name, edge, room, off)?;
                let found = stretches(&roads, radius, &swept);
                if found.is_empty() || finer.bit.cutting_length < room.depth {
                    break;
                }
                let with = setup.with(finer);
                let cut = |line: &Path| line_cut(owner.name, line, room.depth, &with);
                self.add(finer, Stage::Corner, found.iter().map(cut));
                off += STEP_OVER * radius;
            }
        }
        self.add(setup.tool, Stage::Recess, [cleared.cut]);
        self.notes.extend(corner_notes(cleared.notes, setup));
        Ok(())
    }

    fn relieve(&mut self, owner: &Owner<'_>, spurs: &[Spur], setup: &Setup<'_>) {
        self.reliefs.extend(spurs.iter().map(|spur| Relieved {
            part: owner.name.to_owned(),
            from: spur.from,
            to: spur.to,
            diameter: setup.tool.bit.diameter,
        }));
    }

    /// The cuts along one edge with the wood on its left: one, or several where the bit's road falls apart; and before them
    /// what only a finer bit gets out of its corners.
    fn profile(
        &mut self,
        owner: &Owner<'_>,
        edge: Edge,
        outline: &Outline,
        setup: &Setup<'_>,
    ) -> Result<(), Error> {
        let part = owner.name;
        let radius = setup.tool.radius();
        let edges = std::slice::from_ref(outline);
        let centres = parallels(part, edge, outline, radius)?;
        let rule = setup.router.relief;
        let made = relieved(edges, centres, (radius, radius), rule, &owner.edges);
        let centres = made.roads;
        self.relieve(owner, &made.spurs, setup);
        let left = leftovers(outline, &centres, radius);
        let mut notes: Vec<Note> = made
            .left
            .iter()
            .map(|at| Note::NoRelief {
                part: part.to_owned(),
                edge,
                at: *at,
            })
            .collect();
        notes.extend(left.first().map(|most| Note::Leftover {
            part: part.to_owned(),
            edge,
            bit: setup.tool.bit.name.clone(),
            places: left.len(),
            depth: most.depth,
            at: most.at,
        }));
        if !left.is_empty() {
            self.corners(owner, edge, outline, &centres, setup)?;
        }
        self.notes.extend(corner_notes(notes, setup));
        let stage = if edge == Edge::Outline {
            Stage::Outline
        } else {
            Stage::Opening
        };
        for centre in centres {
            let cut = self.lap(owner, edge, (outline, centre), setup)?;
            self.add(setup.tool, stage, [cut]);
        }
        Ok(())
    }

    /// What finer bits get out of the corners of an edge that goes through.
    fn corners(
        &mut self,
        owner: &Owner<'_>,
        edge: Edge,
        outline: &Outline,
        roads: &[Outline],
        setup: &Setup<'_>,
    ) -> Result<(), Error> {
        let swept = Swept {
            roads,
            radius: setup.tool.radius(),
            filled: false,
        };
        for finer in finer(setup) {
            if finer.bit.cutting_length < setup.needed() {
                continue;
            }
            let fine = parallels(owner.name, edge, outline, finer.radius())?;
            let with = setup.with(finer);
            let cuts: Vec<OneCut> = stretches(&fine, finer.radius(), &swept)
                .iter()
                .map(|line| line_cut(owner.name, line, setup.needed(), &with))
                .collect();
            self.add(finer, Stage::Corner, cuts);
        }
        Ok(())
    }

    /// The passes along one road.
    fn lap(
        &mut self,
        owner: &Owner<'_>,
        edge: Edge,
        (outline, centre): (&Outline, Outline),
        setup: &Setup<'_>,
    ) -> Result<OneCut, Error> {
        let passes = Passes::of(setup.needed(), setup.tool.feeds.depth);
        let ramp = ramp_length(APPROACH + passes.step);
        let run = match setup.router.cut {
            Cut::Conventional => centre,
            Cut::Climb => centre.reversed(),
        };
        let road = Road::starting_well(&run, ramp);
        let tabs = self.tabs(owner, edge, (outline, &road), ramp, setup)?;
        let cutting = Cutting {
            feeds: setup.tool.feeds,
            plunges: setup.tool.bit.plunges,
            tabs: &tabs,
            top: setup
                .router
                .tabs
                .map_or(0.0, |rule| rule.height - setup.stock.thickness),
        };
        let moves = laps(&road, passes, &cutting);
        Ok(OneCut {
            part: owner.name.to_owned(),
            start: road.start(),
            moves,
        })
    }

    /// The tabs of one road; none where the shop wants none, or where nothing but chips comes out of an opening.
    fn tabs(
        &mut self,
        owner: &Owner<'_>,
        edge: Edge,
        (outline, road): (&Outline, &Road),
        ramp: f64,
        setup: &Setup<'_>,
    ) -> Result<Vec<crate::lap::Span>, Error> {
        let Some(rule) = setup.router.tabs else {
            return Ok(Vec::new());
        };
        let part = owner.name;
        let diameter = setup.tool.bit.diameter;
        if edge != Edge::Outline && !has_slug(part, edge, outline, diameter)? {
            return Ok(Vec::new());
        }
        let thickness = setup.stock.thickness;
        if rule.height >= thickness {
            return Err(Error::TabHeight {
                height: rule.height,
                thickness,
            });
        }
        let neighbours = if edge == Edge::Outline {
            &owner.neighbours[..]
        } else {
            &[]
        };
        let clearance = tabs::clearance(&rule, diameter);
        let clear = |p: Point| neighbours.iter().all(|n| n.nearest(p).distance >= clearance);
        let placed = tabs::place(road, (&rule, diameter), ramp, &clear);
        if placed.spans.is_empty() && !neighbours.is_empty() {
            // From edge to edge: this cut's own half and the room that the tab's middle needs.
            let needed = clearance + diameter / 2.0;
            return Err(Error::NoTabs {
                part: part.to_owned(),
                needed,
            });
        }
        if placed.spans.len() < placed.wanted {
            self.notes.push(Note::FewTabs {
                part: part.to_owned(),
                edge,
                wanted: placed.wanted,
                placed: placed.spans.len(),
            });
        }
        if placed.near_corners {
            self.notes.push(Note::TabsNearCorners {
                part: part.to_owned(),
                edge,
            });
        }
        self.tabs.extend(placed.spans.iter().map(|s| Tab {
            part: part.to_owned(),
            at: outline.nearest(road.point_at(s.from.midpoint(s.to))).point,
            width: rule.width,
            height: rule.height,
        }));
        Ok(placed.spans)
    }
}

/// The bits that are finer than the setup's, the finest first.
fn finer<'a>(setup: &Setup<'a>) -> Vec<Tool<'a>> {
    let all = &setup.chosen.straights;
    // One finer bit is enough for corners: it leaves least.
    all.first()
        .filter(|t| t.bit.diameter < setup.tool.bit.diameter)
        .copied()
        .into_iter()
        .collect()
}

/// Notes of corners left, but for those that a finer bit cuts afterwards: of these its own leftover is what stays.
fn corner_notes(notes: Vec<Note>, setup: &Setup<'_>) -> impl Iterator<Item = Note> + use<> {
    let finest = finer(setup)
        .first()
        .map(|t| (t.bit.name.clone(), t.bit.diameter / setup.tool.bit.diameter));
    notes.into_iter().map(move |note| match (note, &finest) {
        (
            Note::Leftover {
                part,
                edge,
                places,
                depth,
                at,
                ..
            },
            Some((bit, share)),
        ) => Note::Leftover {
            part,
            edge,
            bit: bit.clone(),
            places,
            // In one and the same corner the depth left goes with the radius.
            depth: depth * share,
            at,
        },
        (note, _) => note,
    })
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

/// The part whose edges are cut, and the outlines of others that stand so near that their cuts could take its tabs away.
struct Owner<'a> {
    name: &'a str,
    neighbours: Vec<&'a Outline>,
    /// Its own edges.
    edges: Vec<&'a Outline>,
}

impl<'a> Owner<'a> {
    fn of(placed: &'a Placed, parts: &'a [Placed], setup: &Setup<'_>) -> Self {
        let diameter = setup.chosen.widest().bit.diameter;
        let near = setup
            .router
            .tabs
            .map_or(0.0, |rule| tabs::clearance(&rule, diameter) + diameter);
        let bounds = placed.part.outline.bounds().inflate(near, near);
        let others = parts
            .iter()
            .filter(|other| other.name != placed.name)
            .map(|other| &other.part.outline);
        let recesses = placed.part.recesses.iter().map(|r| &r.outline);
        let own = std::iter::once(&placed.part.outline)
            .chain(&placed.part.openings)
            .chain(recesses);
        Self {
            name: &placed.name,
            neighbours: others.filter(|o| o.bounds().overlaps(bounds)).collect(),
            edges: own.collect(),
        }
    }
}

/// Whether wood is left standing inside an opening when the bit has gone round it.
fn has_slug(part: &str, edge: Edge, opening: &Outline, diameter: f64) -> Result<bool, Error> {
    Ok(!parallels(part, edge, opening, diameter)?.is_empty())
}

/// The parallels of an edge on the right of its travel.
pub(crate) fn parallels(
    part: &str,
    edge: Edge,
    outline: &Outline,
    distance: f64,
) -> Result<Vec<Outline>, Error> {
    parallel(outline, distance).map_err(|source| Error::Parallel {
        part: part.to_owned(),
        edge,
        source,
    })
}
