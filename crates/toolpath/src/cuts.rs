//! A sheet taken apart into single cuts.

use crate::bore::{by_drill, pecks, winding_start, windings};
use crate::choose::{Chosen, depth_of};
use crate::lap::{Cutting, laps};
use crate::passes::{Passes, ramp_length};
use crate::plan::APPROACH;
use crate::road::Road;
use crate::{Edge, Error, Note, tabs};
use cintre_geometry::{Outline, Point, leftovers, parallel};
use cintre_work::{Bit, Bore, Cut, Depth, Feeds, Move, Placed, Router, Stock, Tab};

/// One cut: from over its start, at [`APPROACH`], to its foot.
#[derive(Debug)]
pub(crate) struct OneCut {
    pub(crate) part: String,
    pub(crate) start: Point,
    pub(crate) moves: Vec<Move>,
}

/// The cuts of a sheet, by the bit that makes them and in the order in which their kinds are made.
#[derive(Debug, Default)]
pub(crate) struct Cuts {
    /// By drill, in the order of the drills chosen.
    pub(crate) drilled: Vec<Vec<OneCut>>,
    pub(crate) wound: Vec<OneCut>,
    pub(crate) openings: Vec<OneCut>,
    pub(crate) outlines: Vec<OneCut>,
    pub(crate) tabs: Vec<Tab>,
    pub(crate) notes: Vec<Note>,
}

/// What one edge is cut with.
pub(crate) struct Setup<'a> {
    pub(crate) stock: &'a Stock,
    pub(crate) router: &'a Router,
    pub(crate) chosen: &'a Chosen<'a>,
    pub(crate) drill_feeds: Vec<&'a Feeds>,
    pub(crate) feeds: &'a Feeds,
}

impl Setup<'_> {
    /// How deep a through cut goes below the face, mm.
    fn needed(&self) -> f64 {
        self.stock.thickness + self.router.through
    }
}

impl Cuts {
    pub(crate) fn of(parts: &[Placed], setup: &Setup<'_>) -> Result<Self, Error> {
        let mut cuts = Self {
            drilled: setup.chosen.drills.iter().map(|_| Vec::new()).collect(),
            ..Self::default()
        };
        for placed in parts {
            let owner = Owner::of(placed, parts, setup);
            if !placed.part.recesses.is_empty() {
                return Err(Error::Recess {
                    part: placed.name.clone(),
                });
            }
            for (k, bore) in placed.part.bores.iter().enumerate() {
                cuts.bore(&owner, Edge::Bore(k), bore, setup)?;
            }
            for (k, opening) in placed.part.openings.iter().enumerate() {
                let made = cuts.profile(&owner, Edge::Opening(k), &opening.oriented(false), setup)?;
                cuts.openings.extend(made);
            }
            let made = cuts.profile(&owner, Edge::Outline, &placed.part.outline.oriented(true), setup)?;
            cuts.outlines.extend(made);
        }
        Ok(cuts)
    }

    fn bore(&mut self, owner: &Owner<'_>, edge: Edge, bore: &Bore, setup: &Setup<'_>) -> Result<(), Error> {
        let part = owner.name;
        let depth = depth_of(bore, setup.needed());
        let thickness = setup.stock.thickness;
        if !(bore.diameter > 0.0 && depth > 0.0) || matches!(bore.depth, Depth::Blind(d) if d > thickness) {
            return Err(Error::Bore {
                part: part.to_owned(),
                diameter: bore.diameter,
                depth,
                thickness,
            });
        }
        let drills = &setup.chosen.drills;
        let bit = setup.chosen.straight;
        if let Some(drill) = by_drill(bore, drills, setup.needed()) {
            let k = drills.iter().position(|d| d.name == drill.name).unwrap_or(0);
            let moves = pecks(bore.centre, depth, setup.drill_feeds[k]);
            self.drilled[k].push(OneCut {
                part: part.to_owned(),
                start: bore.centre,
                moves,
            });
            let note = Note::DrillPoint {
                bit: drill.name.clone(),
                through: setup.router.through,
            };
            if bore.depth == Depth::Through && !self.notes.contains(&note) {
                self.notes.push(note);
            }
        } else if bore.depth == Depth::Through && bore.diameter > 2.0 * bit.diameter {
            // A core would come loose: it is held by tabs as an opening's is.
            let circle = Outline::circle(bore.centre, bore.diameter / 2.0).reversed();
            let made = self.profile(owner, edge, &circle, setup)?;
            self.openings.extend(made);
        } else {
            let moves = windings(bore, depth, bit, setup.feeds, setup.router.cut);
            self.wound.push(OneCut {
                part: part.to_owned(),
                start: winding_start(bore, bit),
                moves,
            });
        }
        Ok(())
    }

    /// The cuts along one edge with the wood on its left: one, or several where the bit's road falls apart.
    fn profile(
        &mut self,
        owner: &Owner<'_>,
        edge: Edge,
        outline: &Outline,
        setup: &Setup<'_>,
    ) -> Result<Vec<OneCut>, Error> {
        let part = owner.name;
        let bit = setup.chosen.straight;
        let radius = bit.diameter / 2.0;
        let centres = parallels(part, edge, outline, radius)?;
        let left = leftovers(outline, &centres, radius);
        self.notes.extend(left.first().map(|most| Note::Leftover {
            part: part.to_owned(),
            edge,
            bit: bit.name.clone(),
            places: left.len(),
            depth: most.depth,
            at: most.at,
        }));
        let passes = Passes::of(setup.needed(), setup.feeds.depth);
        let ramp = ramp_length(APPROACH + passes.step);
        let mut made = Vec::new();
        for centre in centres {
            let run = match setup.router.cut {
                Cut::Conventional => centre,
                Cut::Climb => centre.reversed(),
            };
            let road = Road::starting_well(&run, ramp);
            let tabs = self.tabs(owner, edge, (outline, &road), ramp, setup)?;
            let cutting = Cutting {
                feeds: setup.feeds,
                plunges: bit.plunges,
                tabs: &tabs,
                top: setup
                    .router
                    .tabs
                    .map_or(0.0, |rule| rule.height - setup.stock.thickness),
            };
            let moves = laps(&road, passes, &cutting);
            made.push(OneCut {
                part: part.to_owned(),
                start: road.start(),
                moves,
            });
        }
        Ok(made)
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
        if edge != Edge::Outline && !has_slug(part, edge, outline, setup.chosen.straight)? {
            return Ok(Vec::new());
        }
        let thickness = setup.stock.thickness;
        if rule.height >= thickness {
            return Err(Error::TabHeight {
                height: rule.height,
                thickness,
            });
        }
        let diameter = setup.chosen.straight.diameter;
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

/// The part whose edges are cut, and the outlines of others that stand so near that their cuts could take its tabs away.
struct Owner<'a> {
    name: &'a str,
    neighbours: Vec<&'a Outline>,
}

impl<'a> Owner<'a> {
    fn of(placed: &'a Placed, parts: &'a [Placed], setup: &Setup<'_>) -> Self {
        let diameter = setup.chosen.straight.diameter;
        let near = setup
            .router
            .tabs
            .map_or(0.0, |rule| tabs::clearance(&rule, diameter) + diameter);
        let bounds = placed.part.outline.bounds().inflate(near, near);
        let others = parts
            .iter()
            .filter(|other| other.name != placed.name)
            .map(|other| &other.part.outline);
        Self {
            name: &placed.name,
            neighbours: others.filter(|o| o.bounds().overlaps(bounds)).collect(),
        }
    }
}

/// Whether wood is left standing inside an opening when the bit has gone round it.
fn has_slug(part: &str, edge: Edge, opening: &Outline, bit: &Bit) -> Result<bool, Error> {
    Ok(!parallels(part, edge, opening, bit.diameter)?.is_empty())
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
