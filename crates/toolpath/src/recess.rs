//! A recess cleared: rings from the inside out, pass by pass, and a finishing lap at its wall.
//!
//! A ring is a parallel of the wall and the islands. Neighbours stand less than the bit's radius apart, so that every point
//! of the floor lies within one step of a ring: nothing is left, corners out of reach but for. Rings are cut in chains, each
//! from the innermost that is left out to the wall or to what is cut already.

use crate::cuts::OneCut;
use crate::demand::room_parallels;
use crate::line::SKIM;
use crate::passes::Passes;
use crate::plan::APPROACH;
use crate::recess::ring::{Pen, Ring};
use crate::relief::{Relieved, Spur, relieved};
use crate::scribe::over;
use crate::setup::Setup;
use crate::{Edge, Error, Note};
use cintre_geometry::{Outline, Point, leftovers};
use cintre_work::{Cut, Recess};

mod ring;

/// How far neighbouring rings stand apart, in radii of the bit: less than one leaves nothing between them.
pub(crate) const STEP_OVER: f64 = 0.9;

/// Rings are neighbours where they come this near to one step apart, mm: every point of a ring lies exactly one step from the
/// rings of the level below, and so the straight way there keeps off the wall.
const NEARLY: f64 = 1e-3;

/// A road that leaves the finishing allowance stays this many allowances off the finished one at most, as in a corner of 40
/// degrees; where it stays farther, the last lap would have more to take than it ought.
const ALLOWANCES: f64 = 3.0;

/// A recess to be cleared by the setup's bit.
#[derive(Debug)]
pub(crate) struct Pocket<'a> {
    pub(crate) part: &'a str,
    pub(crate) edge: Edge,
    pub(crate) room: &'a Recess,
    /// The part's edges that a relief must not break into.
    pub(crate) others: &'a [&'a Outline],
    pub(crate) setup: Setup<'a>,
}

/// What comes of clearing it.
#[derive(Debug)]
pub(crate) struct Cleared {
    pub(crate) cut: OneCut,
    pub(crate) spurs: Vec<Spur>,
    pub(crate) notes: Vec<Note>,
    /// The roads along its walls.
    pub(crate) walls: Vec<Outline>,
}

impl Pocket<'_> {
    pub(crate) fn cleared(&self) -> Result<Cleared, Error> {
        self.sound()?;
        let radius = self.setup.tool.radius();
        let edges = self.edges();
        let at_wall = room_parallels(self.part, self.edge, self.room, radius)?;
        let made = self.relieved(at_wall, radius);
        let mut notes = self.notes(&edges, &made.roads);
        notes.extend(made.left.iter().map(|at| Note::NoRelief {
            part: self.part.to_owned(),
            edge: self.edge,
            at: *at,
        }));
        let rough = self.rough(&made.roads)?;
        if rough.is_none() && self.setup.router.finish > 0.0 {
            notes.push(Note::NoFinish {
                part: self.part.to_owned(),
                edge: self.edge,
            });
        }
        let (levels, finish) = match rough {
            Some(levels) => (levels, &made.roads[..]),
            None => (self.levels(made.roads.clone(), radius)?, &[][..]),
        };
        let cut = self.cut(&levels, finish)?;
        Ok(Cleared {
            cut,
            spurs: made.spurs,
            notes,
            walls: made.roads,
        })
    }

    fn sound(&self) -> Result<(), Error> {
        let (depth, thickness) = (self.room.depth, self.setup.stock.thickness);
        if depth > 0.0 && depth < thickness {
            return Ok(());
        }
        Err(Error::Floor {
            part: self.part.to_owned(),
            edge: self.edge,
            depth,
            thickness,
        })
    }

    /// Its wall and its islands, the wood on the left of each.
    fn edges(&self) -> Vec<Outline> {
        let islands = self.room.islands.iter().map(|i| i.oriented(true));
        std::iter::once(self.room.outline.oriented(false))
            .chain(islands)
            .collect()
    }

    fn notes(&self, edges: &[Outline], roads: &[Outline]) -> Vec<Note> {
        let left = edges
            .iter()
            .flat_map(|edge| leftovers(edge, roads, self.setup.tool.radius()));
        let left: Vec<_> = left.collect();
        let most = left.iter().max_by(|a, b| a.depth.total_cmp(&b.depth));
        most.map(|most| Note::Leftover {
            part: self.part.to_owned(),
            edge: self.edge,
            bit: self.setup.tool.bit.name.clone(),
            places: left.len(),
            depth: most.depth,
            at: most.at,
        })
        .into_iter()
        .collect()
    }

    /// Roads `off` mm inside the walls with a spur into each corner that is relieved.
    fn relieved(&self, roads: Vec<Outline>, off: f64) -> Relieved {
        let bit = (off, self.setup.tool.radius());
        relieved(&self.edges(), roads, bit, self.setup.router.relief, self.others)
    }

    /// Rings from `off` mm inside the wall, which are `first`, to where there is no more room.
    fn levels(&self, first: Vec<Outline>, off: f64) -> Result<Vec<Vec<Ring>>, Error> {
        let step = self.step();
        let (mut levels, mut off, mut next) = (Vec::new(), off, first);
        while !next.is_empty() {
            levels.push(next.iter().map(|o| self.ring(o)).collect());
            off += step;
            next = room_parallels(self.part, self.edge, self.room, off)?;
        }
        Ok(levels)
    }

    /// The rings that leave the finishing allowance; none where it is not asked for, or where they do not follow the wall
    /// everywhere.
    fn rough(&self, walls: &[Outline]) -> Result<Option<Vec<Vec<Ring>>>, Error> {
        let finish = self.setup.router.finish;
        if finish <= 0.0 {
            return Ok(None);
        }
        let off = self.setup.tool.radius() + finish;
        let first = room_parallels(self.part, self.edge, self.room, off)?;
        let far = |p: Point| first.iter().all(|o| o.nearest(p).distance > ALLOWANCES * finish);
        let spur = |p: Point| {
            let wall = self
                .edges()
                .iter()
                .map(|e| e.nearest(p).distance)
                .fold(f64::INFINITY, f64::min);
            wall < self.setup.tool.radius() - 1e-4
        };
        let strays = walls.iter().flat_map(Outline::pieces).any(|p| {
            [0.0, 0.25, 0.5, 0.75]
                .iter()
                .any(|f| far(p.point_at(*f)) && !spur(p.point_at(*f)))
        });
        if first.is_empty() || strays {
            return Ok(None);
        }
        self.levels(self.relieved(first, off).roads, off).map(Some)
    }

    fn step(&self) -> f64 {
        STEP_OVER * self.setup.tool.radius()
    }

    fn ring(&self, road: &Outline) -> Ring {
        Ring::new(match self.setup.router.cut {
            Cut::Conventional => road.clone(),
            Cut::Climb => road.reversed(),
        })
    }

    /// Chain after chain from above, then the finishing laps.
    fn cut(&self, levels: &[Vec<Ring>], finish: &[Outline]) -> Result<OneCut, Error> {
        let (depth, safe) = (self.room.depth, self.setup.router.safe_height);
        let passes = Passes::of(depth, self.setup.tool.feeds.depth);
        let mut cut: Option<OneCut> = None;
        let mut add = |start: Point, moves: Vec<cintre_work::Move>| match &mut cut {
            Some(cut) => {
                let here = crate::order::end(cut);
                cut.moves.extend(over(here, start, safe));
                cut.moves.extend(moves);
            }
            None => {
                cut = Some(OneCut {
                    part: self.part.to_owned(),
                    start,
                    moves,
                });
            }
        };
        for chain in chains(levels, self.step() + NEARLY) {
            let (start, moves) = self.chain(levels, &chain, passes)?;
            add(start, moves);
        }
        for lap in finish {
            let (start, moves) = self.lap(&self.ring(lap), &levels[0]);
            add(start, moves);
        }
        cut.ok_or_else(|| Error::NoWayDown {
            part: self.part.to_owned(),
            edge: self.edge,
            bit: self.setup.tool.bit.name.clone(),
        })
    }

    /// One chain of rings, (level, number) from the inside out, at every pass.
    fn chain(
        &self,
        levels: &[Vec<Ring>],
        chain: &[(usize, usize)],
        passes: Passes,
    ) -> Result<(Point, Vec<cintre_work::Move>), Error> {
        let rings: Vec<&Ring> = chain.iter().map(|&(level, k)| &levels[level][k]).collect();
        let start = rings[0].start();
        // Round a point of a ring there is as much room as the ring stands off the first.
        let room = f64::from(u32::try_from(chain[0].0).unwrap_or(u32::MAX)) * self.step();
        let mut pen = Pen::new(start, self.setup);
        let mut above = APPROACH;
        for floor in passes.floors() {
            if above < APPROACH && rings.len() == 1 {
                // On the ring already: further down along it.
            } else if above < APPROACH {
                pen.lift_over(start, self.setup.router.safe_height);
                pen.down(above + SKIM);
            } else {
                pen.down(SKIM);
            }
            if !pen.enter(rings[0], room, floor) {
                return Err(Error::NoWayDown {
                    part: self.part.to_owned(),
                    edge: self.edge,
                    bit: self.setup.tool.bit.name.clone(),
                });
            }
            pen.outward(&rings, self.step() + NEARLY);
            above = floor;
        }
        if let [.., before, _] = rings[..] {
            pen.aside(&[before], self.step() + NEARLY);
        }
        Ok((start, pen.moves))
    }

    /// The finishing lap along a wall, come to from what is cleared beside it.
    fn lap(&self, wall: &Ring, beside: &[Ring]) -> (Point, Vec<cintre_work::Move>) {
        let beside: Vec<&Ring> = beside.iter().collect();
        let from = wall.nearest_start(&beside);
        let mut pen = Pen::new(from.0, self.setup);
        pen.down(-self.room.depth);
        pen.straight(wall.point_at(from.1));
        pen.round(
            wall,
            from.1,
            wall.length() + self.setup.tool.radius().min(wall.length()),
        );
        pen.aside(&beside, f64::INFINITY);
        (from.0, pen.moves)
    }
}

/// Every ring once, in chains of neighbours from the inside out: (level, number).
fn chains(levels: &[Vec<Ring>], near: f64) -> Vec<Vec<(usize, usize)>> {
    let mut open: Vec<Vec<bool>> = levels.iter().map(|l| vec![true; l.len()]).collect();
    let mut found = Vec::new();
    for level in (0..levels.len()).rev() {
        for k in 0..levels[level].len() {
            if !open[level][k] {
                continue;
            }
            open[level][k] = false;
            let mut chain = vec![(level, k)];
            let mut here = (level, k);
            while here.0 > 0 {
                let below = here.0 - 1;
                let ring = &levels[here.0][here.1];
                let next =
                    (0..levels[below].len()).find(|&n| open[below][n] && ring.gap(&levels[below][n]) <= near);
                let Some(n) = next else { break };
                open[below][n] = false;
                here = (below, n);
                chain.push(here);
            }
            found.push(chain);
        }
    }
    found
}
