//! What must be left standing: the parts of a sheet, at every depth, with their edges under an index.

use crate::level::Level;
use crate::reliefs::Relief;
use cintre_geometry::{Outline, Path, Piece, Point, Rect};
use cintre_work::design::{self, Chain, DesignBore, DesignPart, DesignRecess, DesignSheet};

/// Floors whose depths differ by less are one floor, mm.
const SAME_DEPTH: f64 = 1e-6;

/// One part.
#[derive(Debug)]
pub(crate) struct Wood<'a> {
    pub(crate) name: &'a str,
    /// Its outer edge, counter-clockwise.
    pub(crate) outline: Outline,
    /// Openings and through bores, clockwise.
    pub(crate) holes: Vec<Outline>,
    /// What is hollowed out of it part of the way down.
    pub(crate) hollows: Vec<Hollow>,
    /// Lines scribed on its face.
    pub(crate) marks: Vec<Path>,
    /// Arrises that a pointed bit takes off, each with how deep its point goes, mm.
    pub(crate) arrises: Vec<(Path, f64)>,
    pub(crate) reliefs: Vec<Relief>,
    pub(crate) bounds: Rect,
    /// From the face down: each stands below the floor of the one before.
    pub(crate) levels: Vec<Level>,
}

/// A recess or a blind bore.
#[derive(Clone, Debug)]
pub(crate) struct Hollow {
    /// What it is called: `bore` or `recess`.
    pub(crate) word: &'static str,
    /// Its wall, clockwise.
    pub(crate) outline: Outline,
    /// What stands up inside it, counter-clockwise.
    pub(crate) islands: Vec<Outline>,
    pub(crate) depth: f64,
    pub(crate) bounds: Rect,
}

impl<'a> Wood<'a> {
    fn new(part: &'a DesignPart) -> Result<Self, String> {
        let name = part.name.as_str();
        let outline =
            closed(&part.outline, true).ok_or_else(|| format!("{name}: its outline is no outline"))?;
        let openings = part.openings.iter().map(|o| closed(o, false));
        let bores = part.bores.iter().filter(|b| b.depth.is_none()).map(bore);
        let holes: Option<Vec<Outline>> = openings.chain(bores).collect();
        let holes = holes.ok_or_else(|| format!("{name}: an opening or bore that is none"))?;
        let blind = part.bores.iter().filter(|b| b.depth.is_some()).map(Hollow::bore);
        let hollows: Option<Vec<Hollow>> = blind.chain(part.recesses.iter().map(Hollow::recess)).collect();
        let hollows = hollows.ok_or_else(|| format!("{name}: a bore or recess without a size"))?;
        let marks: Option<Vec<Path>> = part
            .marks
            .iter()
            .map(|m| sound(m).then(|| design::path(m))?)
            .collect();
        let marks = marks.ok_or_else(|| format!("{name}: a mark that is none"))?;
        let arrises: Option<Vec<(Path, f64)>> = part
            .arrises
            .iter()
            .map(|a| Some((marks.get(a.mark)?.clone(), a.depth)))
            .collect();
        let scribed = |(k, path): (usize, Path)| part.arrises.iter().all(|a| a.mark != k).then_some(path);
        let reliefs: Option<Vec<Relief>> = part.reliefs.iter().map(|r| Relief::new(r, &hollows)).collect();
        Ok(Self {
            name,
            bounds: outline.bounds(),
            levels: levels(&outline, &holes, &hollows),
            outline,
            holes,
            hollows,
            marks: marks.into_iter().enumerate().filter_map(scribed).collect(),
            arrises: arrises.ok_or_else(|| format!("{name}: an arris that is none"))?,
            reliefs: reliefs.ok_or_else(|| format!("{name}: a relief that is none"))?,
        })
    }

    /// Its edges that go through: the outline, then the holes; the wood is on their left.
    pub(crate) fn edges(&self) -> impl Iterator<Item = &Outline> {
        std::iter::once(&self.outline).chain(&self.holes)
    }

    /// The part below all its hollows.
    pub(crate) fn whole(&self) -> &Level {
        &self.levels[self.levels.len() - 1]
    }

    /// The part just above the floor of a hollow.
    pub(crate) fn above(&self, hollow: &Hollow) -> &Level {
        let above = |level: &&Level| level.over < hollow.depth - SAME_DEPTH;
        self.levels.iter().rev().find(above).unwrap_or(&self.levels[0])
    }
}

impl Hollow {
    fn bore(of: &DesignBore) -> Option<Self> {
        let outline = bore(of)?;
        Self::new("bore", outline, Vec::new(), of.depth?)
    }

    fn recess(of: &DesignRecess) -> Option<Self> {
        let islands: Option<Vec<Outline>> = of.islands.iter().map(|i| closed(i, true)).collect();
        Self::new("recess", closed(&of.outline, false)?, islands?, of.depth)
    }

    fn new(word: &'static str, outline: Outline, islands: Vec<Outline>, depth: f64) -> Option<Self> {
        (depth > 0.0 && depth.is_finite()).then(|| Self {
            word,
            bounds: outline.bounds(),
            outline,
            islands,
            depth,
        })
    }

    pub(crate) fn contains(&self, p: Point) -> bool {
        self.bounds.contains(p) && self.outline.contains(p) && !self.islands.iter().any(|i| i.contains(p))
    }

    /// Its walls and its islands'.
    pub(crate) fn walls(&self) -> impl Iterator<Item = Piece> + '_ {
        std::iter::once(&self.outline)
            .chain(&self.islands)
            .flat_map(Outline::pieces)
    }

    pub(crate) fn middle(&self) -> Option<[f64; 2]> {
        let middle = self.bounds.center();
        Some([middle.x, middle.y])
    }
}

/// The parts of a sheet, or why one of them cannot be judged.
pub(crate) fn parts(sheet: &DesignSheet) -> Result<Vec<Wood<'_>>, String> {
    if sheet.parts.is_empty() {
        return Err("a sheet without parts, against which nothing can be proven".to_owned());
    }
    sheet.parts.iter().map(Wood::new).collect()
}

fn levels(outline: &Outline, holes: &[Outline], hollows: &[Hollow]) -> Vec<Level> {
    let mut floors: Vec<f64> = hollows.iter().map(|h| h.depth).collect();
    floors.sort_by(f64::total_cmp);
    floors.dedup_by(|b, a| *b - *a < SAME_DEPTH);
    let at = |over: f64| {
        let open = hollows.iter().filter(|h| h.depth > over + SAME_DEPTH).cloned();
        Level::new(over, outline.clone(), holes.to_vec(), open.collect())
    };
    std::iter::once(0.0).chain(floors).map(at).collect()
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
