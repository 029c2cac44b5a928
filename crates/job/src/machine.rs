//! The shop's machines, and who takes a drawing.

use crate::fault::Places;
use crate::laser::LaserSpec;
use crate::pen::PenSpec;
use crate::record::{Datum, Record};
use cintre_measure::Unit;

/// A machine.
#[derive(Clone, Debug, PartialEq)]
pub enum MachineSpec {
    /// A router that runs programs.
    Router(Box<RouterSpec>),
    /// A laser.
    Laser(Box<LaserSpec>),
    /// A pen plotter.
    Pen(Box<PenSpec>),
    /// Someone, or a program, that takes a drawing.
    Drawing(DrawingSpec),
}

impl MachineSpec {
    /// Where its fields were written.
    pub const fn places(&self) -> &Places {
        match self {
            Self::Router(router) => &router.places,
            Self::Laser(laser) => &laser.places,
            Self::Pen(pen) => &pen.places,
            Self::Drawing(drawing) => &drawing.places,
        }
    }

    /// How far it reaches in x and y, mm; none for someone who takes a drawing.
    pub const fn bed(&self) -> Option<[f64; 2]> {
        match self {
            Self::Router(router) => Some(router.bed),
            Self::Laser(laser) => Some(laser.bed),
            Self::Pen(pen) => Some(pen.bed),
            Self::Drawing(_) => None,
        }
    }

    pub(crate) fn new(record: &Record) -> Self {
        match record.case {
            "router" => Self::Router(Box::new(RouterSpec::new(record))),
            "laser" => Self::Laser(Box::new(LaserSpec::new(record))),
            "pen" => Self::Pen(Box::new(PenSpec::new(record))),
            "drawing" => Self::Drawing(DrawingSpec::new(record)),
            other => unreachable!("{other} is refused by the table"),
        }
    }
}

/// A router and its habits. Lengths in mm.
#[derive(Clone, Debug, PartialEq)]
pub struct RouterSpec {
    /// What it reaches in x and y.
    pub bed: [f64; 2],
    /// What it reaches in height, if the shop says.
    pub travel_z: Option<f64>,
    /// The names of the bits that it has, in the order of preference.
    pub bits: Vec<String>,
    /// How bits are changed.
    pub bit_change: BitChange,
    /// The height above the stock's face at which the bit travels.
    pub safe_height: f64,
    /// Where on the sheet the program's zero is.
    pub zero_at: ZeroAt,
    /// What Z 0 is.
    pub zero_height: ZeroHeight,
    /// The unit of its programs.
    pub units: Unit,
    /// Decimals of its programs' lengths.
    pub decimals: u32,
    /// Whether it takes arcs.
    pub arcs: bool,
    /// Arcs of a longer radius go out as chords.
    pub longest_radius: f64,
    /// The most that one arc may turn, radians.
    pub longest_arc: f64,
    /// How its files are laid out.
    pub layout: FileLayout,
    /// The word that starts its dust extraction or coolant, if it has one.
    pub extraction: Option<String>,
    /// Where it stands when it is done, in the sheet's frame; over its last cut where the shop does not say.
    pub park: Option<[f64; 2]>,
    /// The slowest and the fastest that its spindle turns, turns a minute.
    pub speeds: [f64; 2],
    /// How long the spindle takes to come up to speed, s.
    pub spindle_delay: f64,
    /// How far below the underside a through cut goes.
    pub through: f64,
    /// Tabs that hold the parts, none where the shop wants none.
    pub tabs: Option<Tabs>,
    /// Which way round the bit runs.
    pub cut: Cut,
    /// How steeply a bit goes down along its road, radians.
    pub ramp: f64,
    /// What the passes leave on an edge for a last lap at full depth; 0 for no such lap.
    pub finish: f64,
    /// The web left under a through cut; 0 cuts through.
    pub leave_web: f64,
    /// How corners that must seat a square edge are relieved.
    pub relief: Relief,
    /// How deep marks are scribed; 0 where none are.
    pub mark_depth: f64,
    /// How fast it travels without cutting, mm/min.
    pub rapid: f64,
    /// How fast it gains speed, mm/s².
    pub acceleration: f64,
    /// How far it may cut a corner off to keep its speed.
    pub cornering: f64,
    /// Words that its controller wants before the first move.
    pub opening_lines: Vec<String>,
    /// And after the last.
    pub closing_lines: Vec<String>,
    /// Boxes on the bed, `[x0, y0, x1, y1]`, that the bit keeps out of.
    pub keep_outs: Vec<[f64; 4]>,
    /// Where its fields were written.
    pub places: Places,
}

/// How a router's files are laid out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct FileLayout {
    /// Whether their lines are numbered.
    pub numbered: bool,
    /// The longest line that the controller reads, in characters.
    pub longest_line: u32,
    /// Whether a % stands first and last.
    pub percent: bool,
}

/// How bits are changed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BitChange {
    /// One file for each bit.
    File,
    /// One file that stops for a change by hand.
    Pause,
    /// One file, changed by M6.
    M6,
}

/// Where on the sheet a program's zero is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ZeroAt {
    /// The corner near the operator, on the left.
    NearLeft,
    /// The middle of the sheet.
    Middle,
    /// The first bore of the part of this name.
    Bore(String),
}

/// What Z 0 is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ZeroHeight {
    /// The stock's upper face.
    StockFace,
    /// Its underside.
    StockBack,
}

/// Tabs that hold the parts, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tabs {
    /// The wood that is left along the edge.
    pub width: f64,
    /// Its height above the underside.
    pub height: f64,
    /// The longest edge between two tabs.
    pub every: f64,
    /// Whether the bit climbs up to a tab along its road, and not straight.
    pub ramped: bool,
}

/// How an inside corner is relieved so that a square edge seats in it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Relief {
    /// Not at all.
    None,
    /// Along the bisector.
    Bisector,
    /// Along the longer side.
    LongSide,
}

/// Which way round a bit runs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Cut {
    /// The edge moves with the feed.
    Climb,
    /// Against it.
    Conventional,
}

/// Someone who takes a drawing.
#[derive(Clone, Debug, PartialEq)]
pub struct DrawingSpec {
    /// The file that is wanted.
    pub format: DrawingFormat,
    /// The unit of its numbers.
    pub units: Unit,
    /// The width of the cut, half of which its lines are moved by; 0 where they stand on the finished edge.
    pub allowance: f64,
    /// Where its fields were written.
    pub places: Places,
}

/// A drawing's file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DrawingFormat {
    /// DXF AC1009, as of release 12.
    DxfR12,
    /// DXF AC1024.
    DxfR2010,
    /// SVG.
    Svg,
}

impl RouterSpec {
    fn new(record: &Record) -> Self {
        let zero = record.record("zero");
        Self {
            bed: record.numbers("bed"),
            travel_z: record.maybe_number("travel-z"),
            bits: texts(record, "bits"),
            bit_change: match record.word("bit-change") {
                "pause" => BitChange::Pause,
                "M6" => BitChange::M6,
                _ => BitChange::File,
            },
            safe_height: record.number("safe-height"),
            zero_at: ZeroAt::of(record),
            zero_height: match zero.word("height") {
                "stock-back" => ZeroHeight::StockBack,
                _ => ZeroHeight::StockFace,
            },
            units: record.unit("units"),
            decimals: record.maybe_whole("decimals").unwrap_or(4),
            arcs: record.yes_no("arcs"),
            longest_radius: record.number("longest-radius"),
            longest_arc: record.number("longest-arc"),
            layout: FileLayout {
                numbered: record.yes_no("line-numbers"),
                longest_line: record.whole("longest-line"),
                percent: record.yes_no("percent"),
            },
            extraction: record.maybe_text("extraction"),
            park: record.get("park").map(|_| record.numbers("park")),
            speeds: record.numbers("speeds"),
            spindle_delay: record.number("spindle-delay"),
            through: record.number("through"),
            tabs: record.maybe_record("tabs").map(|tabs| Tabs {
                width: tabs.number("width"),
                height: tabs.number("height"),
                every: tabs.number("every"),
                ramped: tabs.yes_no("ramped"),
            }),
            cut: match record.word("cut") {
                "conventional" => Cut::Conventional,
                _ => Cut::Climb,
            },
            ramp: record.number("ramp"),
            finish: record.number("finish"),
            leave_web: record.number("leave-web"),
            relief: match record.word("relief") {
                "bisector" => Relief::Bisector,
                "long-side" => Relief::LongSide,
                _ => Relief::None,
            },
            mark_depth: record.number("mark-depth"),
            rapid: record.number("rapid"),
            acceleration: record.number("acceleration"),
            cornering: record.number("cornering"),
            opening_lines: texts(record, "opening-lines"),
            closing_lines: texts(record, "closing-lines"),
            keep_outs: record.list("keep-outs").map(corners).collect(),
            places: record.places(),
        }
    }
}

impl DrawingSpec {
    fn new(record: &Record) -> Self {
        let format = match (record.word("format"), record.word("version")) {
            ("svg", _) => DrawingFormat::Svg,
            (_, "AC1024") => DrawingFormat::DxfR2010,
            _ => DrawingFormat::DxfR12,
        };
        Self {
            format,
            allowance: match record.get("allowance") {
                Some(Datum::Length(mm)) => *mm,
                _ => 0.0,
            },
            units: record.unit("units"),
            places: record.places(),
        }
    }
}

impl ZeroAt {
    /// Where a machine has its zero; anything else than a known word is refused by the check.
    pub(crate) fn of(machine: &Record) -> Self {
        Self::read(&machine.record("zero").text("at")).unwrap_or(Self::NearLeft)
    }

    /// The words of the field; none if they mean nothing.
    pub(crate) fn read(text: &str) -> Option<Self> {
        match text {
            "near-left" => Some(Self::NearLeft),
            "middle" => Some(Self::Middle),
            _ => {
                let part = text.strip_prefix("bore ")?.trim();
                (!part.is_empty()).then(|| Self::Bore(part.to_owned()))
            }
        }
    }
}

/// The texts of a list.
pub(crate) fn texts(record: &Record, field: &str) -> Vec<String> {
    record.list(field).map(Datum::text).collect()
}

pub(crate) fn corners(datum: &Datum) -> [f64; 4] {
    match datum {
        Datum::List(items) => std::array::from_fn(|i| items[i].datum.number()),
        _ => unreachable!("the table asks for four lengths"),
    }
}
