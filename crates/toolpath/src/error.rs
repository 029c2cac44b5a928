//! Why a sheet cannot be cut.

use crate::Edge;
use cintre_geometry::{ParallelError, Point};

pub use bit::BitError;

mod bit;

/// Why a sheet cannot be cut as it stands.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum Error {
    /// A bit cannot be used here at all.
    #[error(transparent)]
    Bit(#[from] BitError),
    /// The bit does not go into an opening.
    #[error(
        "{bit} ({diameter:.2} mm) does not go into {edge} of {part}; the widest bit that does is {widest:.2} mm"
    )]
    TooNarrow {
        /// The part.
        part: String,
        /// Which edge.
        edge: Edge,
        /// The bit's name.
        bit: String,
        /// Its diameter, mm.
        diameter: f64,
        /// The widest that goes in, rounded down, mm.
        widest: f64,
    },
    /// No bit makes a hole.
    #[error(
        "no bit makes the {diameter:.2} mm bore of {part}: a drill of that size would, or a straight bit of at most {widest:.2} mm, long enough and with feeds for the material"
    )]
    NoBitForBore {
        /// The part.
        part: String,
        /// The bore's diameter, mm.
        diameter: f64,
        /// The widest straight bit that would make it, mm.
        widest: f64,
    },
    /// A bore without size or depth.
    #[error("{part} has a bore of {diameter:.2} mm, {depth:.2} mm deep, in stock {thickness:.2} mm thick")]
    Bore {
        /// The part.
        part: String,
        /// The bore's diameter, mm.
        diameter: f64,
        /// Its depth, mm.
        depth: f64,
        /// The stock's thickness, mm.
        thickness: f64,
    },
    /// A recess or a groove without depth, or as deep as the stock.
    #[error(
        "{edge} of {part} is {depth:.2} mm deep in stock {thickness:.2} mm thick: a floor lies between the two faces, and what goes through is an opening"
    )]
    Floor {
        /// The part.
        part: String,
        /// Which recess or groove.
        edge: Edge,
        /// Its depth, mm.
        depth: f64,
        /// The stock's thickness, mm.
        thickness: f64,
    },
    /// A groove along a line that bears none of its width.
    #[error("{edge} of {part}: {why}")]
    Groove {
        /// The part.
        part: String,
        /// Which groove.
        edge: Edge,
        /// Why.
        why: String,
    },
    /// A bit that must not plunge has no room to wind down in a recess.
    #[error(
        "{bit} finds no way down into {edge} of {part}: it must not plunge, and there is no room to ramp; a bit that plunges would do, or a finer one"
    )]
    NoWayDown {
        /// The part.
        part: String,
        /// Which recess or groove.
        edge: Edge,
        /// The bit's name.
        bit: String,
    },
    /// A chamfer wider than the bit takes off, or without width.
    #[error("{edge} of {part} is {width:.2} mm wide, and {bit} takes off up to {most:.2} mm")]
    Chamfer {
        /// The part.
        part: String,
        /// Which chamfer.
        edge: Edge,
        /// The bit's name.
        bit: String,
        /// Its width, mm.
        width: f64,
        /// The widest that the bit makes here, mm.
        most: f64,
    },
    /// No pointed bit for a chamfer.
    #[error("{edge} of {part} needs a vee bit with feeds for {material}, and {router} has none")]
    NoVee {
        /// The part.
        part: String,
        /// Which chamfer.
        edge: Edge,
        /// The material.
        material: String,
        /// The router's name.
        router: String,
    },
    /// A beam only cuts through.
    #[error("{part} has a recess or a blind bore, and a beam only cuts through")]
    NotThrough {
        /// The part.
        part: String,
    },
    /// The beam takes away all of an opening, or closes its line.
    #[error("{edge} of {part}, {width:.2} mm wide, is too narrow for a beam that cuts {kerf:.3} mm wide")]
    Swallowed {
        /// The part.
        part: String,
        /// Which edge.
        edge: Edge,
        /// The whole width of the cut, mm.
        kerf: f64,
        /// The edge's width, mm.
        width: f64,
    },
    /// Wood between two cuts too thin to hold.
    #[error(
        "{part}: the bridge between {} and {} is {width:.2} mm at ({:.1}, {:.1}), and {least:.2} mm is the least that holds",
        edges.0, edges.1, at.x, at.y
    )]
    ThinBridge {
        /// The part.
        part: String,
        /// The edges.
        edges: (Edge, Edge),
        /// What is left, mm.
        width: f64,
        /// What must be, mm.
        least: f64,
        /// Where, in the sheet's frame.
        at: Point,
    },
    /// A part on whose edge two tabs find no room.
    #[error(
        "{part} is too small to be held: two tabs of {width:.2} mm find no room on its straight or gently curved edges; {}", narrower(*.widest)
    )]
    CannotHold {
        /// The part.
        part: String,
        /// The tabs' width, mm.
        width: f64,
        /// The widest tabs that find room; none where none does.
        widest: Option<f64>,
    },
    /// A material that a laser has no settings for.
    #[error("{machine} has no {field} for {material}; it has it for {}", listed(known))]
    NoBeam {
        /// The machine's name.
        machine: String,
        /// `kerf` or `power`.
        field: &'static str,
        /// The material wanted.
        material: String,
        /// The materials that it knows.
        known: Vec<String>,
    },
    /// A line off the bed of a beam or a pen.
    #[error("a line goes {by:.2} mm off the bed of {machine}, {} × {} mm", bed.0, bed.1)]
    BeamOffBed {
        /// The machine's name.
        machine: String,
        /// How far, mm.
        by: f64,
        /// Its bed, mm.
        bed: (f64, f64),
    },
    /// An edge has no parallel.
    #[error("{edge} of {part}: {source}")]
    Parallel {
        /// The part.
        part: String,
        /// Which edge.
        edge: Edge,
        /// Why.
        source: ParallelError,
    },
    /// A tab as high as the stock holds nothing back from being cut.
    #[error("tabs {height:.2} mm high leave nothing to cut in stock {thickness:.2} mm thick")]
    TabHeight {
        /// The tabs' height, mm.
        height: f64,
        /// The stock's thickness, mm.
        thickness: f64,
    },
    /// A tab wider than the part that it is to hold.
    #[error(
        "{part}: tabs {width:.1} mm wide are wider than the part, and would leave more of it uncut than they hold; {most:.1} mm is the most (the machine's `tabs`)"
    )]
    TabWidth {
        /// The part.
        part: String,
        /// The tabs' width, mm.
        width: f64,
        /// The widest that is not wider than the part, mm.
        most: f64,
    },
    /// A web that leaves nothing to cut.
    #[error(
        "a web of {web:.2} mm leaves nothing to cut in stock {thickness:.2} mm thick (the machine's `leave-web`)"
    )]
    Web {
        /// The web, mm.
        web: f64,
        /// The stock's thickness, mm.
        thickness: f64,
    },
    /// An allowance for the last lap that is no light cut.
    #[error(
        "a finishing lap of {finish:.2} mm is too much for {bit}: leave at most half its radius, {most:.2} mm (the machine's `finish`)"
    )]
    Finish {
        /// The bit's name.
        bit: String,
        /// The allowance, mm.
        finish: f64,
        /// The most that there may be, mm.
        most: f64,
    },
    /// Every tab of a part would hold on to wood that the cuts of its neighbours take away.
    #[error(
        "no tab of {part} has wood to hold on to beside its neighbours' cuts: parts must stand at least {needed:.2} mm apart (the shop's `house: spacing`)"
    )]
    NoTabs {
        /// The part.
        part: String,
        /// The distance from part to part that lets a tab stand, mm.
        needed: f64,
    },
    /// A part lies over the edge of its stock.
    #[error("{part} lies {by:.2} mm over the edge of {sheet}")]
    OffStock {
        /// The part.
        part: String,
        /// The sheet's id.
        sheet: String,
        /// How far, mm.
        by: f64,
    },
    /// A cut lies off the bed.
    #[error("to cut {part} the bit goes {by:.2} mm off the bed of {router}, {} × {} mm", bed.0, bed.1)]
    OffBed {
        /// The part.
        part: String,
        /// The router's name.
        router: String,
        /// How far, mm.
        by: f64,
        /// Its size, mm.
        bed: (f64, f64),
    },
    /// A cut runs into a place that the bit keeps out of.
    #[error("to cut {part} the bit runs into a place to keep out of, near ({:.1}, {:.1})", at.x, at.y)]
    KeptOut {
        /// The part.
        part: String,
        /// Where, in the sheet's frame.
        at: Point,
    },
}

fn narrower(widest: Option<f64>) -> String {
    widest.map_or_else(
        || "make it larger".to_owned(),
        |width| format!("tabs of {width:.2} mm would (the machine's `tabs`), or a larger part"),
    )
}

fn listed(names: &[String]) -> String {
    if names.is_empty() {
        "no material".to_owned()
    } else {
        names.join(", ")
    }
}
