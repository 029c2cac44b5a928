//! What a part asks of the bits, one cut at a time, and how far a bit answers it.

use crate::bore::{by_drill, least_bore};
use crate::choose::Tool;
use crate::{BitError, Edge, Error};
use cintre_geometry::{Outline, Path, leftovers, parallel, parallel_in_room};
use cintre_work::{Bit, Bore, Depth, MarkKind, Part, Recess};

/// A bit cuts a groove in one line when it meets the groove's width within this, mm: what a hand feels as play.
const GROOVE_FIT: f64 = 0.02;

/// A place that a bit leaves deeper than this many of its own diameters is a room or a neck that it does not enter, and no
/// corner: a corner of 40 degrees keeps one diameter.
const CORNER: f64 = 1.0;

/// One cut that a straight bit must make.
#[derive(Clone, Debug)]
pub(crate) struct Demand<'a> {
    pub(crate) part: &'a str,
    pub(crate) edge: Edge,
    pub(crate) shape: Shape<'a>,
    /// How deep it goes below the face, mm.
    pub(crate) depth: f64,
}

/// What is cut.
#[derive(Clone, Debug)]
pub(crate) enum Shape<'a> {
    /// Along an edge, the wood on its left.
    Edge(Outline),
    /// A round hole.
    Bore(&'a Bore),
    /// A floor within a wall.
    Recess(Recess),
    /// A line cut by a bit as wide as the groove, or its edge as a recess.
    Groove {
        line: &'a Path,
        width: f64,
        room: Recess,
    },
}

/// How far a bit gets.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Reach {
    /// Everywhere but into corners.
    Whole,
    /// Not into every room.
    Partly,
}

impl<'a> Demand<'a> {
    /// Everything that straight bits must cut of a part in stock where a through cut goes `needed` mm deep.
    pub(crate) fn all(
        part: &'a Part,
        name: &'a str,
        needed: f64,
        drills: &[Tool<'_>],
    ) -> Result<Vec<Self>, Error> {
        let demand = |edge, shape, depth| Self {
            part: name,
            edge,
            shape,
            depth,
        };
        let mut all = Vec::new();
        for (k, bore) in part.bores.iter().enumerate() {
            if by_drill(bore, drills, needed).is_none() {
                all.push(demand(Edge::Bore(k), Shape::Bore(bore), depth_of(bore, needed)));
            }
        }
        for (k, recess) in part.recesses.iter().enumerate() {
            let depth = recess.depth;
            all.push(demand(Edge::Recess(k), Shape::Recess(recess.clone()), depth));
        }
        for (k, mark) in part.marks.iter().enumerate() {
            if let MarkKind::Groove { width, depth } = mark.kind {
                let room = groove(name, Edge::Groove(k), mark)?;
                let line = &mark.path;
                all.push(demand(
                    Edge::Groove(k),
                    Shape::Groove { line, width, room },
                    depth,
                ));
            }
        }
        for (k, opening) in part.openings.iter().enumerate() {
            let edge = opening.oriented(false);
            all.push(demand(Edge::Opening(k), Shape::Edge(edge), needed));
        }
        let edge = part.outline.oriented(true);
        all.push(demand(Edge::Outline, Shape::Edge(edge), needed));
        Ok(all)
    }

    /// Whether a bit is as wide as the groove that is asked for.
    pub(crate) fn is_as_wide(&self, bit: &Bit) -> bool {
        matches!(self.shape, Shape::Groove { width, .. } if (bit.diameter - width).abs() <= GROOVE_FIT)
    }

    /// How far a bit gets with it, or why it does not even begin.
    pub(crate) fn answered_by(&self, bit: &Bit) -> Result<Reach, Error> {
        if bit.reach() < self.depth {
            let too_short = BitError::TooShort {
                bit: bit.name.clone(),
                part: self.part.to_owned(),
                length: bit.reach(),
                needed: self.depth,
            };
            return Err(too_short.into());
        }
        match &self.shape {
            Shape::Bore(bore) => self.bored_by(bore, bit),
            Shape::Edge(edge) => {
                let centres = parallels(self.part, self.edge, edge, bit.diameter / 2.0)?;
                self.entered(edge, &centres, bit)
            }
            Shape::Groove { .. } if self.is_as_wide(bit) => Ok(Reach::Whole),
            Shape::Recess(room) | Shape::Groove { room, .. } => {
                let centres = room_parallels(self.part, self.edge, room, bit.diameter / 2.0)?;
                self.entered(&room.outline.oriented(false), &centres, bit)
            }
        }
    }

    fn bored_by(&self, bore: &Bore, bit: &Bit) -> Result<Reach, Error> {
        if bore.diameter >= least_bore(bit.diameter) {
            return Ok(Reach::Whole);
        }
        Err(Error::NoBitForBore {
            part: self.part.to_owned(),
            diameter: bore.diameter,
            widest: bore.diameter / least_bore(1.0),
        })
    }

    fn entered(&self, edge: &Outline, centres: &[Outline], bit: &Bit) -> Result<Reach, Error> {
        if centres.is_empty() {
            return Err(Error::TooNarrow {
                part: self.part.to_owned(),
                edge: self.edge,
                bit: bit.name.clone(),
                diameter: bit.diameter,
                widest: self.widest(bit.diameter),
            });
        }
        let left = leftovers(edge, centres, bit.diameter / 2.0);
        let deep = left.first().is_some_and(|l| l.depth > CORNER * bit.diameter);
        Ok(if deep { Reach::Partly } else { Reach::Whole })
    }

    /// The widest bit that goes in, below one that does not, rounded down to a hundredth, mm.
    fn widest(&self, too_wide: f64) -> f64 {
        let goes_in = |d: f64| {
            let found = match &self.shape {
                Shape::Edge(edge) => parallels(self.part, self.edge, edge, d / 2.0),
                Shape::Recess(room) | Shape::Groove { room, .. } => {
                    room_parallels(self.part, self.edge, room, d / 2.0)
                }
                Shape::Bore(_) => return false,
            };
            found.is_ok_and(|found| !found.is_empty())
        };
        let (mut low, mut high) = (0.0, too_wide);
        while high - low > 1e-3 {
            let middle = f64::midpoint(low, high);
            if goes_in(middle) {
                low = middle;
            } else {
                high = middle;
            }
        }
        // A groove's own width is a bound that the halving only comes near to.
        (low * 100.0 + 0.1).floor() / 100.0
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

/// The roads of a bit's centre `off` mm inside a recess.
pub(crate) fn room_parallels(part: &str, edge: Edge, room: &Recess, off: f64) -> Result<Vec<Outline>, Error> {
    let islands: Vec<Outline> = room.islands.iter().map(|i| i.oriented(true)).collect();
    parallel_in_room(&room.outline.oriented(false), &islands, off).map_err(|source| Error::Parallel {
        part: part.to_owned(),
        edge,
        source,
    })
}

fn groove(part: &str, edge: Edge, mark: &cintre_work::Mark) -> Result<Recess, Error> {
    let broken = |why: String| Error::Groove {
        part: part.to_owned(),
        edge,
        why,
    };
    match mark.groove() {
        Some(Ok(room)) => Ok(room),
        Some(Err(error)) => Err(broken(error.to_string())),
        None => Err(broken("it has no width".to_owned())),
    }
}

/// The depth of a bore in stock cut `needed` mm deep.
pub(crate) fn depth_of(bore: &Bore, needed: f64) -> f64 {
    match bore.depth {
        Depth::Through => needed,
        Depth::Blind(depth) => depth,
    }
}
