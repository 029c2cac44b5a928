//! `design.json`: what every sheet must come out as, for the proof. Every length in mm, in each sheet's own frame, Z 0 on
//! the stock's face.

use cintre_geometry::{Outline, Path, Point, Vertex};
use serde::{Deserialize, Serialize};

/// The whole of `design.json`.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Design {
    /// One for each sheet of the job.
    pub sheets: Vec<DesignSheet>,
    /// One for each drawing that is printed at full size.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub papers: Vec<DesignPaper>,
}

/// A drawing that is printed at full size, over pages that join.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct DesignPaper {
    /// Its file's path in the folder, with `/`.
    pub path: String,
    /// What all on its pages is multiplied by, across and up, for a printer that does not print true.
    pub stretch: [f64; 2],
    /// Its pages in order.
    pub pages: Vec<DesignPage>,
    /// Its lines, as they lie on the pages.
    pub lines: Vec<DesignLine>,
}

/// One page.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct DesignPage {
    /// Its width and height in the file.
    pub size: [f64; 2],
    /// Where its lower left corner lies on the drawing, printed true; none where it shows no part of it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub corner: Option<[f64; 2]>,
}

/// A line of a drawing: an open chain.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct DesignLine {
    /// What it is: `outline`, `mark`.
    pub layer: String,
    /// The line.
    pub chain: Chain,
}

/// What one sheet must come out as.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct DesignSheet {
    /// `sheet-1` and so on.
    pub id: String,
    /// Length and width of the stock.
    pub size: [f64; 2],
    /// Its real thickness.
    pub thickness: f64,
    /// The parts on it.
    pub parts: Vec<DesignPart>,
    /// The tabs that hold them.
    pub tabs: Vec<DesignTab>,
    /// The bits that cut it.
    pub bits: Vec<DesignBit>,
    /// The router that cuts it; none where no program for a bit is made.
    pub router: Option<DesignRouter>,
    /// The laser or the pen that cuts or draws it, if one does.
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub beam: Option<DesignBeam>,
}

/// One part. A chain is a list of `[x, y, bulge]`; outlines counter-clockwise, openings and recesses clockwise.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct DesignPart {
    /// Its name, unique on the sheet.
    pub name: String,
    /// Its outer edge.
    pub outline: Chain,
    /// Openings through it.
    pub openings: Vec<Chain>,
    /// Round holes.
    pub bores: Vec<DesignBore>,
    /// Recesses.
    pub recesses: Vec<DesignRecess>,
    /// Lines scribed on it, open chains.
    pub marks: Vec<Chain>,
    /// Which of them are arrises that a pointed bit takes off.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub arrises: Vec<DesignArris>,
    /// Where a bit may stand beyond an inner corner, so that a square edge seats in it.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub reliefs: Vec<DesignRelief>,
    /// How far its arcs stand off the curve they were fitted to at worst; 0 where the curve was arcs already.
    pub fit_error: f64,
}

/// Vertices `[x, y, bulge]`; in a closed chain the last bulge is that of the closing piece.
pub type Chain = Vec<[f64; 3]>;

/// A round hole.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct DesignBore {
    /// Its centre.
    pub centre: [f64; 2],
    /// Its diameter.
    pub diameter: f64,
    /// Its depth below the face; none where it goes through.
    pub depth: Option<f64>,
}

/// A recess.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct DesignRecess {
    /// Its edge.
    pub outline: Chain,
    /// What stands up inside it.
    pub islands: Vec<Chain>,
    /// How deep its floor lies below the face.
    pub depth: f64,
}

/// An arris taken off by a pointed bit whose point runs below the edge.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct DesignArris {
    /// Which of the part's marks runs along it, counted from 0.
    pub mark: usize,
    /// How deep the bit's point goes below the face.
    pub depth: f64,
}

/// A corner relieved: the bit's middle may go from the one place to the other.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct DesignRelief {
    /// Where it leaves the road along the edge.
    pub from: [f64; 2],
    /// How far into the corner it goes.
    pub to: [f64; 2],
    /// The bit's diameter.
    pub diameter: f64,
}

/// A tab.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct DesignTab {
    /// The part it holds.
    pub part: String,
    /// Its middle, on the part's edge.
    pub at: [f64; 2],
    /// The least width of wood left along the edge.
    pub width: f64,
    /// Its height above the underside.
    pub height: f64,
    /// How far along the edge each of its sides slopes, 0 where they are upright.
    #[serde(default)]
    pub flank: f64,
}

/// A bit.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct DesignBit {
    /// The shop's name for it.
    pub name: String,
    /// Its diameter.
    pub diameter: f64,
    /// How much of its length cuts.
    pub cutting_length: f64,
    /// `true` for a drill, which may only go straight down.
    pub drill: bool,
    /// The included angle of a pointed bit, degrees; none for one that cuts with upright sides.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub angle: Option<f64>,
    /// What holds it, where the shop said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub holder: Option<DesignHolder>,
}

/// What holds a bit: a collet's nut, or the spindle's nose.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct DesignHolder {
    /// Its diameter.
    pub diameter: f64,
    /// How far above the bit's tip it begins.
    pub above: f64,
}

/// What the proof must know of the router.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct DesignRouter {
    /// The shop's name for it.
    pub machine: String,
    /// What it reaches in x and y.
    pub bed: [f64; 2],
    /// The height above the face at which the bit travels.
    pub safe_height: f64,
    /// How far below the underside a through cut goes.
    pub through: f64,
    /// How thick a web every through cut leaves above the underside instead, 0 where it goes through.
    #[serde(default)]
    pub leave_web: f64,
    /// How deep marks are scribed; none where this router scribes none.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub mark_depth: Option<f64>,
    /// Lines of its programs that its controller wants besides the standard's words.
    pub own_lines: Vec<String>,
    /// Boxes `[x0, y0, x1, y1]` that the bit keeps out of.
    pub keep_outs: Vec<[f64; 4]>,
}

/// What the proof must know of a laser or a pen.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct DesignBeam {
    /// The shop's name for it.
    pub machine: String,
    /// What it reaches in x and y.
    pub bed: [f64; 2],
    /// The whole width of a laser's cut; 0 for a pen.
    pub kerf: f64,
    /// The whole width of a pen's line; 0 for a laser.
    pub line: f64,
    /// The words of a laser's program; none for a pen.
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub light: Option<DesignLight>,
    /// How a pen's program lifts it; none for a laser or for HP-GL.
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub lift: Option<DesignLift>,
    /// HP-GL units to the millimetre; none where no HP-GL is written.
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub steps_per_mm: Option<f64>,
    /// Lines of its programs that its controller wants besides the standard's words.
    pub own_lines: Vec<String>,
}

/// The words of a laser's program.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct DesignLight {
    /// The line's word that lights the beam.
    pub on: String,
    /// The line's word that puts it out.
    pub off: String,
    /// The S word that cuts.
    pub cut: f64,
    /// The S word that marks.
    pub mark: f64,
}

/// How a pen's program lifts it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum DesignLift {
    /// Up and down, Z in mm.
    Height([f64; 2]),
    /// The lines that lift and lower it.
    Words([String; 2]),
}

/// An outline as a chain.
pub fn closed_chain(outline: &Outline) -> Chain {
    chain(outline.vertices())
}

/// A path as a chain.
pub fn open_chain(path: &Path) -> Chain {
    chain(path.vertices())
}

/// A chain as an outline, none with fewer than two vertices.
pub fn outline(chain: &Chain) -> Option<Outline> {
    (chain.len() >= 2).then(|| Outline::new(vertices(chain)))
}

/// A chain as an open path, none with fewer than two vertices.
pub fn path(chain: &Chain) -> Option<Path> {
    (chain.len() >= 2).then(|| Path::new(vertices(chain)))
}

fn chain(vertices: &[Vertex]) -> Chain {
    vertices.iter().map(|v| [v.point.x, v.point.y, v.bulge]).collect()
}

fn vertices(chain: &Chain) -> Vec<Vertex> {
    chain
        .iter()
        .map(|&[x, y, bulge]| Vertex {
            point: Point::new(x, y),
            bulge,
        })
        .collect()
}
