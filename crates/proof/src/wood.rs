//! What must be left standing: the parts of a sheet with their edges under an index.

use crate::lines::Lines;
use cintre_geometry::{Outline, Path, Point, Rect};
use cintre_work::design::{self, Chain, DesignBore, DesignPart, DesignSheet};

/// One part.
#[derive(Debug)]
pub(crate) struct Wood<'a> {
    pub(crate) name: &'a str,
    /// Its outer edge, counter-clockwise.
    pub(crate) outline: Outline,
    /// Openings and through bores, clockwise.
    pub(crate) holes: Vec<Outline>,
    pub(crate) blind: Vec<DesignBore>,
    pub(crate) marks: Vec<Path>,
    pub(crate) bounds: Rect,
    /// Every edge that goes through.
    pub(crate) edge: Lines,
}

impl<'a> Wood<'a> {
    fn new(part: &'a DesignPart) -> Result<Self, String> {
        let name = part.name.as_str();
        if !part.recesses.is_empty() {
            return Err(format!("{name}: a recess, which the proof cannot judge yet"));
        }
        let outline =
            closed(&part.outline, true).ok_or_else(|| format!("{name}: its outline is no outline"))?;
        let openings = part.openings.iter().map(|o| closed(o, false));
        let (through, blind): (Vec<_>, Vec<_>) = part.bores.iter().copied().partition(|b| b.depth.is_none());
        let bores = through.iter().map(bore);
        let holes: Option<Vec<Outline>> = openings.chain(bores).collect();
        let holes = holes.ok_or_else(|| format!("{name}: an opening or bore that is none"))?;
        if blind
            .iter()
            .any(|b| bore(b).is_none() || !b.depth.is_some_and(|d| d > 0.0))
        {
            return Err(format!("{name}: a bore without a size"));
        }
        let marks: Option<Vec<Path>> = part
            .marks
            .iter()
            .map(|m| sound(m).then(|| design::path(m))?)
            .collect();
        let edges = std::iter::once(&outline).chain(&holes);
        let edge = Lines::new(edges.flat_map(Outline::pieces));
        Ok(Self {
            name,
            bounds: outline.bounds(),
            outline,
            holes,
            blind,
            marks: marks.ok_or_else(|| format!("{name}: a mark that is none"))?,
            edge,
        })
    }

    /// Its edges that go through: the outline, then the holes; the wood is on their left.
    pub(crate) fn edges(&self) -> impl Iterator<Item = &Outline> {
        std::iter::once(&self.outline).chain(&self.holes)
    }

    pub(crate) fn contains(&self, p: Point) -> bool {
        self.bounds.contains(p) && self.outline.contains(p) && !self.holes.iter().any(|h| h.contains(p))
    }
}

/// The parts of a sheet, or why one of them cannot be judged.
pub(crate) fn parts(sheet: &DesignSheet) -> Result<Vec<Wood<'_>>, String> {
    if sheet.parts.is_empty() {
        return Err("a sheet without parts, against which nothing can be proven".to_owned());
    }
    sheet.parts.iter().map(Wood::new).collect()
}

/// A bore as an edge of the wood, none where it has no size.
pub(crate) fn bore(bore: &DesignBore) -> Option<Outline> {
    let centre = Point::new(bore.centre[0], bore.centre[1]);
    let sound = bore.diameter > 0.0 && bore.diameter.is_finite() && centre.is_finite();
    sound.then(|| Outline::circle(centre, bore.diameter / 2.0).reversed())
}

/// A chain as an outline run so that the wood is on its left.
pub(crate) fn closed(chain: &Chain, outer: bool) -> Option<Outline> {
    let outline = sound(chain).then(|| design::outline(chain))??;
    (outline.area().abs() > 0.0).then(|| outline.oriented(outer))
}

fn sound(chain: &Chain) -> bool {
    chain.iter().flatten().all(|v| v.is_finite() && v.abs() < 1e6)
}

/// Every mark of a sheet.
pub(crate) fn marks(parts: &[Wood<'_>]) -> Lines {
    Lines::new(parts.iter().flat_map(|p| &p.marks).flat_map(Path::pieces))
}
