//! What the programs of a sheet, taken together, leave standing at the edges of its parts.

use crate::LEFTOVER;
use crate::cuts::Run;
use crate::level::Level;
use crate::lines::Lines;
use crate::reach::{self, CORNER_SLACK};
use crate::report::{Report, spot};
use crate::tabs::Held;
use crate::wood::Wood;
use cintre_geometry::{Piece, Point};

/// How finely the leftover is found, mm.
const FINE: f64 = 0.001;
/// And as a share of itself, where a whole cut is missing and only its size matters.
const COARSE: f64 = 0.02;
/// The longest stretch of uncut edge that is judged by its middle, mm: the fineness of `uncut_edge` at its ends.
const STRETCH: f64 = 0.1;

/// Where the bits of a sheet have been below its underside, by radius.
#[derive(Debug)]
pub(crate) struct Through {
    pub(crate) swept: Vec<(f64, Lines)>,
    /// The radius of the smallest bit that cuts sideways; none where there are only drills.
    pub(crate) smallest: Option<f64>,
}

impl Through {
    /// Of pieces of road, each with its bit's radius and whether that is a drill.
    pub(crate) fn of(cuts: impl IntoIterator<Item = (Piece, f64, bool)>) -> Self {
        let mut by_radius: Vec<(f64, Vec<Piece>)> = Vec::new();
        let mut smallest: Option<f64> = None;
        for (piece, radius, drill) in cuts {
            match by_radius.iter_mut().find(|(r, _)| r.total_cmp(&radius).is_eq()) {
                Some((_, pieces)) => pieces.push(piece),
                None => by_radius.push((radius, vec![piece])),
            }
            if !drill {
                smallest = Some(smallest.map_or(radius, |r| r.min(radius)));
            }
        }
        let swept = by_radius.into_iter().map(|(r, pieces)| (r, Lines::new(pieces)));
        Self {
            swept: swept.collect(),
            smallest,
        }
    }

    /// Where each bit has been at or below a height.
    pub(crate) fn below(height: f64, runs: &[Run]) -> Self {
        let upright = runs.iter().filter(|run| run.taper.is_none());
        Self::of(upright.flat_map(|run| {
            let cuts = run.below(height);
            cuts.map(|cut| (cut.piece, run.widest, run.drill))
        }))
    }

    /// How far `p` stays from what has been cut, negative inside it; infinite where nothing has.
    pub(crate) fn left(&self, p: Point) -> f64 {
        let each = self.swept.iter().map(|(r, lines)| lines.distance(p) - r);
        each.fold(f64::INFINITY, f64::min)
    }

    /// The radius of the bit that comes nearest to `p`.
    fn radius_at(&self, p: Point) -> f64 {
        let each = self.swept.iter().map(|(r, lines)| (lines.distance(p) - r, *r));
        each.min_by(|a, b| a.0.total_cmp(&b.0)).map_or(0.0, |(_, r)| r)
    }

    /// That of the middle of `s`, which has this length, and a bound on that of any point of it.
    fn along(&self, s: &Piece, middle: Point, length: f64) -> (f64, f64) {
        let mut least = (f64::INFINITY, f64::INFINITY);
        for (r, lines) in &self.swept {
            let (here, most) = lines.along(s, middle, length);
            least = (least.0.min(here - r), least.1.min(most - r));
        }
        least
    }

    /// The least of it anywhere along `s`, whose middle has `here`.
    fn least(&self, s: &Piece, here: f64) -> f64 {
        let each = self
            .swept
            .iter()
            .map(|(r, lines)| lines.least(s, here + r + s.length()) - r);
        each.fold(f64::INFINITY, f64::min)
    }
}

/// The tabs of one height, and where the bits have been at or below their tops; none where they are as high as the stock, and
/// nothing was ever over them.
pub(crate) struct Tabs<'a> {
    pub(crate) held: Vec<&'a Held<'a>>,
    pub(crate) over: Option<&'a Through>,
}

/// Judges every through edge of a part.
pub(crate) fn judge(part: &Wood<'_>, through: &Through, tabs: &[Tabs<'_>], report: &mut Report) {
    let mut edge = Edge {
        tabs,
        ..Edge::new(part.whole(), through)
    };
    for piece in part.edges().flat_map(|e| e.pieces()) {
        edge.walk(&piece);
    }
    report.uncut_edge += edge.uncut;
    report.leftover = report.leftover.max(edge.worst);
    if edge.worst > LEFTOVER {
        let name = part.name;
        let what = if edge.worst.is_infinite() {
            format!("nothing is cut through along {name}")
        } else {
            format!("{:.3} mm is left standing at an edge of {name}", edge.worst)
        };
        let finding = report.find(edge.worst.min(1e9), what);
        finding.part = Some(name.to_owned());
        finding.at = spot(edge.at);
    }
    if let Some((over, at)) = edge.high {
        let name = part.name;
        let finding = report.find(
            over.min(1e9),
            format!("a tab of {name} stands higher than planned"),
        );
        finding.part = Some(name.to_owned());
        finding.at = spot(at);
    }
}

/// An edge walked along.
pub(crate) struct Edge<'a> {
    wood: &'a Level,
    through: &'a Through,
    tabs: &'a [Tabs<'a>],
    /// How far it stays from what was cut at worst, tabs and corners apart, and where.
    pub(crate) worst: f64,
    pub(crate) at: Point,
    /// What is left uncut at tabs and in corners.
    pub(crate) uncut: f64,
    /// How far the edge of a tab stays at worst from what was cut down to its top, and where.
    high: Option<(f64, Point)>,
}

impl<'a> Edge<'a> {
    pub(crate) fn new(wood: &'a Level, through: &'a Through) -> Self {
        Self {
            wood,
            through,
            tabs: &[],
            worst: 0.0,
            at: Point::ZERO,
            uncut: 0.0,
            high: None,
        }
    }

    /// Halves an edge piece until each stretch is cut all along or uncut all along.
    pub(crate) fn walk(&mut self, on: &Piece) {
        let mut open = vec![*on];
        while let Some(s) = open.pop() {
            let (halves, length) = (s.halves(), s.length());
            let (middle, half) = (halves[0].end, length / 2.0);
            let (here, most) = self.through.along(&s, middle, length);
            if here.is_infinite() {
                self.raise(here, middle);
                return;
            }
            let done = if most <= LEFTOVER {
                self.cut(middle, half, here, most)
            } else if half <= FINE / 2.0 || (half <= STRETCH / 2.0 && self.through.least(&s, here) > LEFTOVER)
            {
                self.uncut(&s, middle, here);
                true
            } else {
                // A stretch that is left whole and no worse than what was found before changes nothing.
                self.worst > LEFTOVER && most <= self.worst * (1.0 + COARSE)
            };
            if !done {
                open.extend(halves.into_iter().rev());
            }
        }
    }

    /// A stretch that is cut all along; whether its worst point has been found. The last hundredths before a tab or a
    /// corner are no fault of the cut and do not count.
    fn cut(&mut self, middle: Point, half: f64, here: f64, most: f64) -> bool {
        if most <= self.worst + FINE {
            return true;
        }
        let excused = here > FINE && (self.at_tab(middle) || self.beyond(middle, here) < here);
        if !excused {
            self.raise(here, middle);
        }
        most <= self.worst + FINE || half <= FINE / 2.0 || (excused && half <= STRETCH / 2.0)
    }

    fn raise(&mut self, left: f64, at: Point) {
        if left > self.worst {
            (self.worst, self.at) = (left, at);
        }
    }

    /// A short uncut stretch: at a tab, in a corner, or left over.
    fn uncut(&mut self, s: &Piece, middle: Point, here: f64) {
        if here <= LEFTOVER {
            self.cut(middle, 0.0, here, here);
            return;
        }
        let beyond = self.beyond(middle, here);
        let in_corner = beyond < here && beyond <= LEFTOVER + CORNER_SLACK;
        let tab = self.tab_at(middle);
        if in_corner || tab.is_some() {
            self.uncut += s.length();
            let over = tab
                .and_then(|tabs| tabs.over)
                .map_or(0.0, |over| over.left(middle));
            if over > LEFTOVER && !in_corner && self.high.is_none_or(|(worst, _)| over > worst) {
                self.high = Some((over, middle));
            }
        } else {
            self.raise(beyond, middle);
        }
    }

    fn at_tab(&self, p: Point) -> bool {
        self.tab_at(p).is_some()
    }

    /// The tabs of which one stands here.
    fn tab_at(&self, p: Point) -> Option<&'a Tabs<'a>> {
        let here = |t: &&Held<'_>| t.at.distance(p) <= t.reach(self.through.radius_at(t.at));
        self.tabs.iter().find(|tabs| tabs.held.iter().any(&here))
    }

    /// How much of what is left at `p` a bit could have taken: all of it, but in a corner out of its reach.
    fn beyond(&self, p: Point, here: f64) -> f64 {
        let least = self
            .through
            .smallest
            .and_then(|r| reach::least_leftover(self.wood, p, r));
        here - least.unwrap_or(0.0)
    }
}
