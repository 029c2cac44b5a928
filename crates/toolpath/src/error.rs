//! Why a sheet cannot be cut.

use crate::Edge;
use crate::plan::APPROACH;
use cintre_geometry::{ParallelError, Point};

/// Why a sheet cannot be cut as it stands.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum Error {
    /// The router has no bit that cuts profiles.
    #[error("{router} has no straight bit to cut outlines with")]
    NoStraightBit {
        /// The router's name.
        router: String,
    },
    /// The shop gave no feeds for the material.
    #[error("{bit} has no feeds for {material}; it has them for {}", listed(known))]
    NoFeeds {
        /// The bit's name.
        bit: String,
        /// The material wanted.
        material: String,
        /// The materials that it has feeds for.
        known: Vec<String>,
    },
    /// A speed, feed or depth that cuts nothing.
    #[error(
        "{bit} for {material} feeds {feed} mm/min along and {plunge} down, {depth} mm deep a pass: each must be over zero"
    )]
    NoMotion {
        /// The bit's name.
        bit: String,
        /// The material.
        material: String,
        /// The feed along the cut, mm/min.
        feed: f64,
        /// The feed straight down, mm/min.
        plunge: f64,
        /// The deepest pass, mm.
        depth: f64,
    },
    /// The spindle cannot turn as the feeds ask.
    #[error(
        "{bit} asks for {speed} turns a minute, and {router} turns from {slowest} to {fastest}: give it a speed between them that its maker allows, or take another bit"
    )]
    Speed {
        /// The bit's name.
        bit: String,
        /// The router's name.
        router: String,
        /// The speed asked for.
        speed: f64,
        /// The spindle's slowest.
        slowest: f64,
        /// The spindle's fastest.
        fastest: f64,
    },
    /// The cut is deeper than the bit is long.
    #[error(
        "{bit} cuts {length:.2} mm deep, by its cutting length or by what stands out of its holder, and {part} needs {needed:.2} mm: a bit that cuts as deep as that would do"
    )]
    TooShort {
        /// The bit's name.
        bit: String,
        /// The part.
        part: String,
        /// How deep it cuts, mm: its cutting length, or what stands out of its holder.
        length: f64,
        /// The depth of the cut, mm.
        needed: f64,
    },
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
    /// A bit so long that its tip does not come up to the safe height.
    #[error(
        "{bit} stands {out:.2} mm out of its collet, which {router} raises {travel:.2} mm above the bed: over stock {thickness:.2} mm thick its tip does not come up to the safe height of {safe_height:.2} mm; {}",
        shorter(travel - thickness - safe_height, travel - thickness - out)
    )]
    TooLong {
        /// The bit's name.
        bit: String,
        /// How far it stands out, mm.
        out: f64,
        /// The router's name.
        router: String,
        /// How high it raises the collet above the bed, mm.
        travel: f64,
        /// The stock's thickness, mm.
        thickness: f64,
        /// The safe height above the stock's face, mm.
        safe_height: f64,
    },
}

/// What would do instead of a bit that is too long: the longest that is not, or the safe height that it comes up to.
fn shorter(longest: f64, height: f64) -> String {
    let bit = (longest > 0.0).then(|| format!("a bit that stands {longest:.2} mm out would do"));
    let lower = (height > APPROACH)
        .then(|| format!("a safe height of {height:.2} mm would, if that clears the clamps"));
    let ways: Vec<String> = bit.into_iter().chain(lower).collect();
    if ways.is_empty() {
        "no bit would do".to_owned()
    } else {
        ways.join(", or ")
    }
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
