//! A drawing of a sheet against its design, both ways: every edge is drawn, and nothing else is.

use crate::lines::Lines;
use crate::report::{Report, spot};
use crate::{DRAWN, wood};
use cintre_geometry::{Affine, Outline, Piece, Point, Vec2};
use cintre_read::{Chain, DrawingRead, LengthUnit, dxf, svg};
use cintre_work::design::{self, DesignPart, DesignSheet};
use cintre_work::manifest::{CutFile, Format};
use cintre_work::{Layer, Verdict};

mod beside;

/// What must be known of a drawing besides its bytes.
#[derive(Clone, Debug, PartialEq)]
pub struct DrawingRecord {
    /// What kind of file it is.
    pub format: Format,
    /// The unit of its numbers.
    pub unit: LengthUnit,
    /// Its zero in the sheet's frame, mm.
    pub origin: [f64; 2],
    /// What its lines have been moved by: `none` or `kerf`.
    pub allowance: String,
    /// The whole width of the cut that is allowed for, mm.
    pub kerf: f64,
}

impl DrawingRecord {
    /// The record of a drawing in a manifest; none where its unit is unknown.
    pub fn of(file: &CutFile) -> Option<Self> {
        Some(Self {
            format: file.format,
            unit: LengthUnit::named(&file.units)?,
            origin: file.origin,
            allowance: file.allowance.clone(),
            kerf: file.kerf,
        })
    }
}

/// The words for what the lines have been moved by.
const NONE: &str = "none";
const KERF: &str = "kerf";

/// The layers that something is cut on, which hold closed lines only.
const CUT: [Layer; 4] = [Layer::Outline, Layer::Opening, Layer::Bore, Layer::Recess];

/// Proves a drawing of one sheet. In the verdict `gouge` is how far a drawn line stands off the design at worst, and
/// `leftover` how far an edge of the design stands off what is drawn.
pub fn prove_drawing(design: &DesignSheet, record: &DrawingRecord, bytes: &[u8]) -> Verdict {
    let mut report = Report::default();
    if [NONE, KERF].contains(&record.allowance.as_str()) {
        match read(record, bytes) {
            Ok(drawing) => compare(design, record, drawing, &mut report),
            Err(what) => {
                report.refuse(what);
            }
        }
    } else {
        let allowance = &record.allowance;
        report.refuse(format!(
            "a drawing with an allowance for the {allowance} cannot be proven"
        ));
    }
    report.verdict()
}

fn read(record: &DrawingRecord, bytes: &[u8]) -> Result<DrawingRead, String> {
    match record.format {
        Format::Dxf => dxf::read(bytes, record.unit).map_err(|e| e.to_string()),
        Format::Svg => svg::read(bytes).map_err(|e| e.to_string()),
        Format::Gcode | Format::Hpgl => Err("a program is no drawing".to_owned()),
    }
}

fn compare(design: &DesignSheet, record: &DrawingRecord, mut drawing: DrawingRead, report: &mut Report) {
    let faults: Vec<String> = drawing
        .faults
        .iter()
        .map(|f| format!("layer {:?}: {}", f.layer, f.what))
        .collect();
    report.faults(faults.iter().map(|what| (0, what.as_str())));
    if drawing.unit.is_some_and(|unit| unit != record.unit) {
        report.refuse(format!("its numbers are not in {}", record.unit.name()));
    }
    let home = Affine::translate(Vec2::new(record.origin[0], record.origin[1]));
    for v in drawing.chains.iter_mut().flat_map(|c| &mut c.vertices) {
        v.point = home * v.point;
    }
    for chain in drawing.chains.iter().filter(|c| layer(c).is_none()) {
        report.refuse(format!(
            "something on the layer {:?}, which means nothing",
            chain.layer
        ));
    }
    if record.allowance == KERF {
        beside::judge(design, record, &drawing, report);
        return;
    }
    for on in CUT {
        edges(design, on, &drawing, report);
    }
    marks(design, &drawing, report);
}

/// Lines that a pen draws against all lines of the design, edges and marks alike, within `off` mm both ways.
pub(crate) fn lines(design: &DesignSheet, drawn: &[Piece], off: f64, report: &mut Report) {
    let mut wanted: Vec<(&str, Piece)> = Vec::new();
    for part in &design.parts {
        for own in CUT.into_iter().map(|on| outlines(part, on)) {
            match own {
                Some(own) => wanted.extend(
                    own.iter()
                        .flat_map(Outline::pieces)
                        .map(|p| (part.name.as_str(), p)),
                ),
                None => report.refuse("an edge of the design is no line").part = Some(part.name.clone()),
            }
        }
        wanted.extend(marks_of(part));
    }
    missing("line", &wanted, drawn, off, report);
    extra("line", &wanted, drawn, off, report);
}

fn layer(chain: &Chain) -> Option<Layer> {
    Layer::ALL
        .into_iter()
        .find(|l| l.name().eq_ignore_ascii_case(&chain.layer))
}

fn drawn(drawing: &DrawingRead, on: Layer) -> impl Iterator<Item = &Chain> {
    drawing.chains.iter().filter(move |c| layer(c) == Some(on))
}

/// Compares one layer of closed lines.
fn edges(design: &DesignSheet, on: Layer, drawing: &DrawingRead, report: &mut Report) {
    let name = on.name();
    for open in drawn(drawing, on).filter(|c| !c.closed) {
        let finding = report.refuse(format!("a line on the layer {name} that is not closed"));
        finding.at = spot(open.vertices[0].point);
    }
    let mut wanted: Vec<(&str, Outline)> = Vec::new();
    for part in &design.parts {
        match outlines(part, on) {
            Some(own) => wanted.extend(own.into_iter().map(|o| (part.name.as_str(), o))),
            None => {
                report.refuse(format!("the design's {name} is no line")).part = Some(part.name.clone());
            }
        }
    }
    let count = drawn(drawing, on).count();
    if count != wanted.len() {
        let planned = wanted.len();
        report.refuse(format!(
            "{count} lines on the layer {name} where the design has {planned}"
        ));
    }
    let wanted: Vec<(&str, Piece)> = wanted
        .iter()
        .flat_map(|(part, o)| o.pieces().map(move |p| (*part, p)))
        .collect();
    let found: Vec<Piece> = drawn(drawing, on).flat_map(Chain::pieces).collect();
    missing(name, &wanted, &found, DRAWN, report);
    extra(name, &wanted, &found, DRAWN, report);
}

/// The edges of a part on a layer, none if one of them is no outline.
fn outlines(part: &DesignPart, on: Layer) -> Option<Vec<Outline>> {
    match on {
        Layer::Outline => Some(vec![wood::closed(&part.outline, true)?]),
        Layer::Opening => part.openings.iter().map(|o| wood::closed(o, false)).collect(),
        Layer::Bore => part.bores.iter().map(wood::bore).collect(),
        Layer::Recess => {
            let chains = part
                .recesses
                .iter()
                .flat_map(|r| r.islands.iter().chain([&r.outline]));
            chains.map(|c| wood::closed(c, false)).collect()
        }
        _ => Some(Vec::new()),
    }
}

/// Every piece of a part's marks, with the part's name.
fn marks_of(part: &DesignPart) -> impl Iterator<Item = (&str, Piece)> {
    let paths = part.marks.iter().filter_map(design::path);
    let pieces = paths.flat_map(|path| path.pieces().collect::<Vec<_>>());
    pieces.map(|piece| (part.name.as_str(), piece))
}

/// Marks are compared as lines; lettering may stand on the text layer, which is otherwise free.
fn marks(design: &DesignSheet, drawing: &DrawingRead, report: &mut Report) {
    let wanted: Vec<(&str, Piece)> = design.parts.iter().flat_map(marks_of).collect();
    let scribed: Vec<Piece> = drawn(drawing, Layer::Mark).flat_map(Chain::pieces).collect();
    extra("mark", &wanted, &scribed, DRAWN, report);
    let text = drawn(drawing, Layer::Text).flat_map(Chain::pieces);
    let all: Vec<Piece> = scribed.iter().copied().chain(text).collect();
    missing("mark", &wanted, &all, DRAWN, report);
}

/// Edges of the design that are not drawn; the worst for each part.
fn missing(layer: &str, wanted: &[(&str, Piece)], found: &[Piece], most: f64, report: &mut Report) {
    let lines = Lines::new(found.iter().copied());
    let mut parts: Vec<&str> = wanted.iter().map(|(part, _)| *part).collect();
    parts.dedup();
    for part in parts {
        let own = wanted.iter().filter(|(p, _)| *p == part).map(|(_, piece)| piece);
        let (off, at) = farthest(own, &lines);
        report.leftover = report.leftover.max(off);
        if off > most {
            let what = if off.is_infinite() {
                format!("the layer {layer} is empty")
            } else {
                format!("its {layer} is drawn {off:.4} mm off or not at all")
            };
            let finding = report.find(off.min(1e9), what);
            finding.part = Some(part.to_owned());
            finding.at = spot(at);
        }
    }
}

/// Lines drawn that the design does not have; the worst of the layer.
fn extra(layer: &str, wanted: &[(&str, Piece)], found: &[Piece], most: f64, report: &mut Report) {
    let lines = Lines::new(wanted.iter().map(|(_, piece)| *piece));
    let (off, at) = farthest(found.iter(), &lines);
    report.gouge = report.gouge.max(off);
    if off > most {
        let what = if off.is_infinite() {
            format!("a line on the layer {layer}, where the design has none")
        } else {
            format!("a line on the layer {layer} that the design does not have, {off:.4} mm off it")
        };
        report.find(off.min(1e9), what).at = spot(at);
    }
}

fn farthest<'a>(pieces: impl Iterator<Item = &'a Piece>, lines: &Lines) -> (f64, Point) {
    pieces
        .map(|piece| lines.greatest(piece))
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .unwrap_or((0.0, Point::ZERO))
}
