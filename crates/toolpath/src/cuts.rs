//! A sheet taken apart into single cuts.

use crate::bore::{by_drill, pecks, winding_start, windings};
use crate::choose::{Chosen, depth_of};
use crate::contour::Contour;
use crate::profile::Profile;
use crate::{Edge, Error, Note, tabs};
use cintre_geometry::{Outline, Point, leftovers, parallel};
use cintre_work::{Bore, Depth, Feeds, Move, Placed, Router, Stock, Tab, TabRule};

/// One cut: from over its start, at [`APPROACH`], to its foot.
#[derive(Debug)]
pub(crate) struct OneCut {
    pub(crate) part: String,
    pub(crate) start: Point,
    pub(crate) moves: Vec<Move>,
}

/// The cuts of a sheet, by the bit that makes them and in the order in which their kinds are made.
#[derive(Debug, Default)]
pub(crate) struct Cuts<'a> {
    /// By drill, in the order of the drills chosen.
    pub(crate) drilled: Vec<Vec<OneCut>>,
    pub(crate) wound: Vec<OneCut>,
    /// Openings and outlines.
    pub(crate) contours: Vec<Contour<'a>>,
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

impl<'a> Setup<'a> {
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

    /// How far the bit stays from the edges of other parts where it is not cutting its own, mm.
    pub(crate) fn clearance(&self) -> f64 {
        let diameter = self.chosen.straight.diameter;
        self.tabs()
            .map_or(diameter, |rule| tabs::clearance(&rule, diameter))
    }
}

impl<'a> Cuts<'a> {
    pub(crate) fn of(parts: &[Placed], setup: &Setup<'a>) -> Result<Self, Error> {
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
                cuts.profile(&owner, Edge::Opening(k), &opening.oriented(false), setup)?;
            }
            cuts.profile(&owner, Edge::Outline, &placed.part.outline.oriented(true), setup)?;
        }
        Ok(cuts)
    }

    fn bore(&mut self, owner: &Owner<'_>, edge: Edge, bore: &Bore, setup: &Setup<'a>) -> Result<(), Error> {
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
            self.profile(owner, edge, &circle, setup)?;
        } else {
            let moves = windings(bore, depth, bit, setup.feeds, setup.router);
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
        setup: &Setup<'a>,
    ) -> Result<(), Error> {
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
        let profile = Profile {
            owner,
            edge,
            outline,
            setup,
        };
        for centre in &centres {
            let made = profile.made(centre)?;
            self.contours.push(made.contour);
            self.tabs.extend(made.tabs);
            self.notes.extend(made.notes);
        }
        Ok(())
    }
}

/// The part whose edges are cut, and what stands near it.
pub(crate) struct Owner<'a> {
    pub(crate) name: &'a str,
    /// The outlines of others that stand so near that their cuts could take its tabs away.
    pub(crate) neighbours: Vec<&'a Outline>,
    /// Every edge of theirs.
    pub(crate) edges: Vec<&'a Outline>,
}

impl<'a> Owner<'a> {
    fn of(placed: &'a Placed, parts: &'a [Placed], setup: &Setup<'_>) -> Self {
        // Two diameters: as far as a way in or out reaches.
        let near = setup.clearance() + 2.0 * setup.chosen.straight.diameter;
        let bounds = placed.part.outline.bounds().inflate(near, near);
        let others: Vec<&Placed> = parts
            .iter()
            .filter(|other| other.name != placed.name && other.part.outline.bounds().overlaps(bounds))
            .collect();
        let edges = others
            .iter()
            .flat_map(|o| std::iter::once(&o.part.outline).chain(&o.part.openings));
        Self {
            name: &placed.name,
            neighbours: others.iter().map(|o| &o.part.outline).collect(),
            edges: edges.collect(),
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
