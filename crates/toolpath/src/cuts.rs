//! A sheet taken apart into single cuts.

use crate::bore::{by_drill, pecks, winding_start, windings};
use crate::choose::{Chosen, Tool};
use crate::contour::Contour;
use crate::corners::{Swept, stretches};
use crate::demand::{Demand, Shape, depth_of, room_parallels};
use crate::line::Line;
use crate::profile::Profile;
use crate::recess::{Pocket, STEP_OVER};
use crate::relief::{Spur, relieved};
use crate::{Edge, Error, Note, scribe, tabs};
use cintre_geometry::{Outline, Path, Point, Rect, leftovers, parallel};
use cintre_work::{Bore, Depth, MarkKind, Move, Placed, Recess, Relieved, Router, Stock, Tab, TabRule};

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

    /// How deep openings and outlines are cut below the face, mm: through, or to the web.
    pub(crate) fn profile_depth(&self) -> f64 {
        if self.router.leave_web > 0.0 {
            self.stock.thickness - self.router.leave_web
        } else {
            self.needed()
        }
    }

    /// The rule for tabs; none where the shop wants none, or a web holds everything.
    pub(crate) fn tabs(&self) -> Option<TabRule> {
        self.router.tabs.filter(|_| self.router.leave_web <= 0.0)
    }

    /// How far the middle of a bit on its way in or out stays from the edges of other parts, mm.
    pub(crate) fn passing(&self) -> f64 {
        let diameter = self.tool.bit.diameter;
        self.tabs()
            .map_or(diameter, |rule| tabs::passing(&rule, diameter))
    }

    /// How far a tab stands from the outlines of other parts, mm.
    pub(crate) fn clearance(&self) -> f64 {
        let diameter = self.tool.bit.diameter;
        self.tabs()
            .map_or(diameter, |rule| tabs::clearance(&rule, diameter))
    }

    /// Whether a bit with its centre there leaves wood between its cut and the edge of the stock, for a tab to hold on to.
    pub(crate) fn leaves_wood_beyond(&self, p: Point) -> bool {
        let from_edge = self.tool.radius() + tabs::STRIP;
        let (length, width) = self.stock.size;
        let inside = Rect::new(0.0, 0.0, length, width).inset(-from_edge).contains(p);
        let outline = self.stock.outline.as_ref();
        inside && outline.is_none_or(|edge| edge.nearest(p).distance >= from_edge)
    }
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
            others: &owner.own,
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
                if found.is_empty() || finer.bit.reach() < room.depth {
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
        setup: &Setup<'a>,
    ) -> Result<(), Error> {
        let part = owner.name;
        let radius = setup.tool.radius();
        let edges = std::slice::from_ref(outline);
        let plain = parallels(part, edge, outline, radius)?;
        let rule = setup.router.relief;
        let made = relieved(edges, plain.clone(), (radius, radius), rule, &owner.own);
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
        let profile = Profile {
            owner,
            edge,
            outline,
            setup,
        };
        for (centre, plain) in centres.iter().zip(&plain) {
            let made = profile.made(centre, plain)?;
            self.contours.push((setup.tool.bit.name.clone(), made.contour));
            self.tabs.extend(made.tabs);
            self.notes.extend(made.notes);
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
            if finer.bit.reach() < setup.profile_depth() {
                continue;
            }
            let fine = parallels(owner.name, edge, outline, finer.radius())?;
            let with = setup.with(finer);
            let cuts: Vec<OneCut> = stretches(&fine, finer.radius(), &swept)
                .iter()
                .map(|line| line_cut(owner.name, line, setup.profile_depth(), &with))
                .collect();
            self.add(finer, Stage::Corner, cuts);
        }
        Ok(())
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

/// The part whose edges are cut, and what stands near it.
pub(crate) struct Owner<'a> {
    pub(crate) name: &'a str,
    /// The outlines of others that stand so near that their cuts could take its tabs away.
    pub(crate) neighbours: Vec<&'a Outline>,
    /// Every edge of theirs.
    pub(crate) edges: Vec<&'a Outline>,
    /// Its own edges.
    pub(crate) own: Vec<&'a Outline>,
    /// Stretches of them on which no tab may stand.
    pub(crate) clean: &'a [Path],
}

impl<'a> Owner<'a> {
    fn of(placed: &'a Placed, parts: &'a [Placed], setup: &Setup<'_>) -> Self {
        // Two diameters: as far as a way in or out reaches.
        let near = setup.passing() + 2.0 * setup.tool.bit.diameter;
        let bounds = placed.part.outline.bounds().inflate(near, near);
        let others: Vec<&Placed> = parts
            .iter()
            .filter(|other| other.name != placed.name && other.part.outline.bounds().overlaps(bounds))
            .collect();
        let through = |o: &'a Placed| std::iter::once(&o.part.outline).chain(&o.part.openings);
        let recesses = placed.part.recesses.iter().map(|r| &r.outline);
        Self {
            name: &placed.name,
            neighbours: others.iter().map(|o| &o.part.outline).collect(),
            edges: others.into_iter().flat_map(through).collect(),
            own: through(placed).chain(recesses).collect(),
            clean: &placed.part.clean,
        }
    }
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
