//! What comes off a sheet.

use cintre_geometry::{Affine, LineError, Outline, Path, Point, Vec2, band};

/// One kind of piece to cut, in its own frame, as often as `count` says.
#[derive(Clone, Debug, PartialEq)]
pub struct Part {
    /// Its name, unique in the job: `gate rib`.
    pub name: String,
    /// Its outer edge, counter-clockwise.
    pub outline: Outline,
    /// Openings through it, clockwise.
    pub openings: Vec<Outline>,
    /// Round holes.
    pub bores: Vec<Bore>,
    /// Recesses cut part of the way down.
    pub recesses: Vec<Recess>,
    /// Lines and letters scribed on its face.
    pub marks: Vec<Mark>,
    /// Stretches of its edges on which no tab may stand, for what is left of one would be in the way: a bearing or a bush runs
    /// along them, or another part is joined to them.
    pub clean: Vec<Path>,
    /// The name of the stock it is cut from.
    pub stock: String,
    /// The real thickness of that stock, mm.
    pub thickness: f64,
    /// Which way its grain must run.
    pub grain: Grain,
    /// How many are wanted.
    pub count: usize,
    /// How far its tangent arcs stand off the curve they were fitted to at worst, mm; 0 where the curve was arcs already.
    pub fit_error: f64,
}

/// A round hole.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bore {
    /// Its centre.
    pub centre: Point,
    /// Its diameter, mm.
    pub diameter: f64,
    /// How deep it goes.
    pub depth: Depth,
}

/// How deep a cut goes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Depth {
    /// All the way through.
    Through,
    /// This far below the face, mm.
    Blind(f64),
}

/// A pocket with a flat floor.
#[derive(Clone, Debug, PartialEq)]
pub struct Recess {
    /// Its edge, clockwise as an opening's.
    pub outline: Outline,
    /// What stands up inside it, counter-clockwise.
    pub islands: Vec<Outline>,
    /// How deep its floor lies below the face, mm.
    pub depth: f64,
}

/// A line scribed on the face.
#[derive(Clone, Debug, PartialEq)]
pub struct Mark {
    /// The line.
    pub path: Path,
    /// What it says.
    pub kind: MarkKind,
}

/// What a mark says.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum MarkKind {
    /// A working line: centre, springing, joint, lagging.
    Line,
    /// A stroke of lettering.
    Text,
    /// A groove with a flat floor, centred on the line and round at its ends.
    Groove {
        /// From wall to wall, mm.
        width: f64,
        /// How deep its floor lies below the face, mm.
        depth: f64,
    },
    /// An edge whose arris a pointed bit takes off, at the bit's own angle; the line runs along the edge.
    Chamfer {
        /// How wide it is on the face, mm.
        width: f64,
    },
}

/// Which way the grain of a part runs.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Grain {
    /// Any way will do: the part may be turned freely.
    Free,
    /// Along this direction of the part's own frame, radians from its x axis; it may be turned end for end.
    Along(f64),
    /// Along this direction, and never turned end for end: a figure that has an upper end. Where the stock has no grain, along
    /// its first size.
    Fixed(f64),
}

impl Mark {
    /// The groove that it asks for as a recess, none where it asks for none; an error where its line bends more tightly than the
    /// groove is wide.
    pub fn groove(&self) -> Option<Result<Recess, LineError>> {
        let MarkKind::Groove { width, depth } = self.kind else {
            return None;
        };
        Some(band(&self.path, width).map(|outline| Recess {
            outline,
            islands: Vec::new(),
            depth,
        }))
    }
}

impl Part {
    /// Whether it may be cut with its other face up where the stock's faces are alike: nothing of it is cut part of the way
    /// down, and no letters would be read backwards.
    pub fn may_be_flipped(&self) -> bool {
        let through = |b: &Bore| b.depth == Depth::Through;
        self.recesses.is_empty()
            && self.bores.iter().all(through)
            && self.marks.iter().all(|m| m.kind == MarkKind::Line)
    }

    /// The part turned over about its y axis, its edges running the way they should.
    #[must_use]
    pub fn flipped(&self) -> Self {
        let over = self.transformed(Affine::FLIP_X);
        let all = |outlines: &[Outline]| outlines.iter().map(Outline::reversed).collect();
        Self {
            outline: over.outline.reversed(),
            openings: all(&over.openings),
            recesses: over
                .recesses
                .iter()
                .map(|r| Recess {
                    outline: r.outline.reversed(),
                    islands: all(&r.islands),
                    depth: r.depth,
                })
                .collect(),
            ..over
        }
    }

    /// The part moved by a similarity without mirroring: a shift and a turn.
    #[must_use]
    pub fn transformed(&self, by: Affine) -> Self {
        let outline = |o: &Outline| o.transformed(by);
        let along = |angle: f64| {
            let turned = by * Vec2::from_angle(angle).to_point() - by * Point::ZERO;
            turned.atan2()
        };
        Self {
            outline: outline(&self.outline),
            openings: self.openings.iter().map(outline).collect(),
            bores: self
                .bores
                .iter()
                .map(|b| Bore {
                    centre: by * b.centre,
                    ..*b
                })
                .collect(),
            recesses: self
                .recesses
                .iter()
                .map(|r| Recess {
                    outline: outline(&r.outline),
                    islands: r.islands.iter().map(outline).collect(),
                    depth: r.depth,
                })
                .collect(),
            marks: self
                .marks
                .iter()
                .map(|m| Mark {
                    path: m.path.transformed(by),
                    kind: m.kind,
                })
                .collect(),
            clean: self.clean.iter().map(|path| path.transformed(by)).collect(),
            grain: match self.grain {
                Grain::Free => Grain::Free,
                Grain::Along(angle) => Grain::Along(along(angle)),
                Grain::Fixed(angle) => Grain::Fixed(along(angle)),
            },
            ..self.clone()
        }
    }
}
