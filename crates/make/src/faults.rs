//! Pictures of the sheets on which a proof finds something wrong.

use crate::Picture;
use cintre_geometry::{Outline, Point, Rect};
use cintre_picture::{Fault, Lengths, SheetDrawing};
use cintre_proof::FolderVerdict;
use cintre_work::design::{self, Chain, Design, DesignPart, DesignSheet};
use cintre_work::manifest::{Manifest, ManifestSheet};
use cintre_work::{
    Bore, Depth, Grain, Mark, MarkKind, Part, Placed, Recess, Sheet, Stock, StockGrain, Tab, Trim, Unit,
};

/// A picture of every sheet of a made folder on which something is wrong at a known place, each such place marked and numbered.
/// `manifest` and `design` are the texts of those two files.
pub fn fault_pictures(
    manifest: &str,
    design: &str,
    verdict: &FolderVerdict,
) -> Result<Vec<Picture>, serde_json::Error> {
    let manifest: Manifest = serde_json::from_str(manifest)?;
    let design: Design = serde_json::from_str(design)?;
    let pictures = manifest.sheets.iter().filter_map(|sheet| {
        let plan = design.sheets.iter().find(|plan| plan.id == sheet.id)?;
        let faults = faults(sheet, verdict);
        (!faults.is_empty()).then(|| picture(&manifest.title, sheet, plan, &faults))
    });
    Ok(pictures.collect())
}

/// What is wrong with the sheet's files, once each: what concerns a sheet stands in the verdict of all its programs.
fn faults(sheet: &ManifestSheet, verdict: &FolderVerdict) -> Vec<Fault> {
    let mut faults: Vec<Fault> = Vec::new();
    for file in &sheet.files {
        let found = verdict.files.iter().filter(|found| found.path == file.path);
        for finding in found.flat_map(|found| &found.verdict.findings) {
            let Some([x, y]) = finding.at else { continue };
            let place = match finding.line {
                Some(line) => format!(" ({}, line {line})", file.path),
                None => String::new(),
            };
            let fault = Fault {
                at: Point::new(x, y),
                what: format!("{}{place}", finding.what),
            };
            if !faults.contains(&fault) {
                faults.push(fault);
            }
        }
    }
    faults
}

fn picture(title: &str, sheet: &ManifestSheet, plan: &DesignSheet, faults: &[Fault]) -> Picture {
    let drawn = Sheet {
        id: sheet.id.clone(),
        stock: stock(sheet),
        parts: plan.parts.iter().filter_map(|part| placed(part, sheet)).collect(),
    };
    let tabs: Vec<Tab> = plan
        .tabs
        .iter()
        .map(|tab| Tab {
            part: tab.part.clone(),
            at: Point::new(tab.at[0], tab.at[1]),
            width: tab.width,
            height: tab.height,
            flank: tab.flank,
        })
        .collect();
    let kept_out = plan.router.iter().flat_map(|router| &router.keep_outs);
    let kept_out: Vec<Outline> = kept_out
        .map(|&[x0, y0, x1, y1]| Outline::rectangle(Rect::from_points((x0, y0), (x1, y1))))
        .collect();
    let drawing = SheetDrawing {
        title: &cintre_lettering::spell(&format!("{title}: what the proof finds wrong")),
        sheet: &drawn,
        programs: &[],
        tabs: &tabs,
        zero: None,
        kept_out: &kept_out,
        faults,
        notes: &[],
        lengths: Lengths {
            unit: Unit::Millimetre,
            write: &|mm| format!("{mm:.1} mm"),
        },
    };
    Picture {
        name: sheet.id.clone(),
        svg: cintre_picture::sheet(&drawing),
    }
}

fn stock(sheet: &ManifestSheet) -> Stock {
    Stock {
        name: sheet.stock.clone(),
        // The manifest does not say what it is.
        material: "stock".to_owned(),
        size: (sheet.size[0], sheet.size[1]),
        thickness: sheet.thickness,
        grain: StockGrain::None,
        sheets: None,
        trim: Trim::even(0.0),
        outline: None,
        keep_outs: Vec::new(),
        alike: false,
    }
}

/// A part as the design has it; none where its outline is none.
fn placed(part: &DesignPart, sheet: &ManifestSheet) -> Option<Placed> {
    let all = |chains: &[Chain]| chains.iter().filter_map(design::outline).collect::<Vec<_>>();
    let bores = part.bores.iter().map(|bore| Bore {
        centre: Point::new(bore.centre[0], bore.centre[1]),
        diameter: bore.diameter,
        depth: bore.depth.map_or(Depth::Through, Depth::Blind),
    });
    let recesses = part.recesses.iter().filter_map(|recess| {
        Some(Recess {
            outline: design::outline(&recess.outline)?,
            islands: all(&recess.islands),
            depth: recess.depth,
        })
    });
    let marks = part.marks.iter().filter_map(design::path).map(|path| Mark {
        path,
        kind: MarkKind::Line,
    });
    Some(Placed {
        name: part.name.clone(),
        part: Part {
            name: part.name.clone(),
            outline: design::outline(&part.outline)?,
            openings: all(&part.openings),
            bores: bores.collect(),
            recesses: recesses.collect(),
            marks: marks.collect(),
            clean: Vec::new(),
            stock: sheet.stock.clone(),
            thickness: sheet.thickness,
            grain: Grain::Free,
            count: 1,
            fit_error: part.fit_error,
        },
    })
}
