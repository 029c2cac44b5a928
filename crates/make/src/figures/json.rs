//! Figures as JSON: millimetres and degrees, full precision.

use super::setting_out;
use crate::Plan;
use crate::arches::NamedArch;
use cintre_forms::{Figure, Form, Item, Unit};
use cintre_geometry::arch::Arch;
use cintre_geometry::{Path, Piece, Point, Soffit};
use serde_json::{Map, Value, json};

pub(super) fn json(plan: &Plan) -> Value {
    let arches: Map<String, Value> = plan
        .arches
        .iter()
        .map(|arch| (arch.name.clone(), arch_json(arch, plan.room)))
        .collect();
    json!({
        "units": "mm",
        "cautions": plan.cautions,
        "arches": arches,
        "forms": plan.forms.iter().map(|one| form(plan, one)).collect::<Vec<_>>(),
    })
}

fn arch_json(named: &NamedArch, room: Option<[f64; 2]>) -> Value {
    let arch = &named.arch;
    let figures = arch.figures();
    let mut value = json!({
        "shape": arch.shape,
        "span": arch.span,
        "rise": arch.rise,
        "pieces": pieces(arch),
        "developed_length": figures.developed_length,
        "area_above_springing": figures.area,
        "quarter_height": figures.quarter_height,
        "crown_chord": figures.crown_chord,
        "springing_lean_deg": figures.springing_lean.to_degrees(),
        "notes": arch.notes,
    });
    setting_out::add(&mut value, named, room);
    if let Some((depth, back)) = &named.ring {
        value["ring"] = json!({
            "depth": depth,
            "pieces": path(back),
            "developed_length": back.length(),
        });
    }
    if let Some(back) = &arch.level_back {
        value["level_back"] = json!({
            "depth": back.depth,
            "skewback_deg": back.skewback.to_degrees(),
            "joints_meet_below": back.joints_meet,
        });
    }
    if let Some(survey) = &named.survey {
        value["measured"] = super::measured::json(survey, named.reading);
    }
    if named.fit.worst_error > 0.0 {
        value["tangent_arcs"] = json!({
            "count": named.fit.path.pieces().len(),
            "worst_error": named.fit.worst_error,
            "pieces": path(&named.fit.path),
        });
    }
    value
}

fn pieces(arch: &Arch) -> Value {
    match &arch.soffit {
        Soffit::Path(line) if !arch.drawn_as_curve => path(line),
        soffit => json!([{ "kind": "curve", "start": point(soffit.start()), "end": point(soffit.end()) }]),
    }
}

pub(super) fn path(path: &Path) -> Value {
    path.pieces().map(|p| piece(&p)).collect()
}

fn piece(piece: &Piece) -> Value {
    let (start, end) = (point(piece.start), point(piece.end));
    match piece.circle() {
        None => json!({ "kind": "line", "start": start, "end": end }),
        Some(circle) => json!({
            "kind": "arc",
            "centre": point(circle.centre),
            "radius": circle.radius,
            "start": start,
            "end": end,
            "sweep_deg": piece.sweep().to_degrees(),
        }),
    }
}

pub(super) fn point(p: Point) -> Value {
    json!([p.x, p.y])
}

fn form(plan: &Plan, form: &Form) -> Value {
    let mut value = json!({ "form": form.kind, "arch": form.arch, "notes": form.notes });
    for figure in &form.figures {
        let unit = match figure.unit {
            Unit::Kilonewton => "_kn",
            Unit::Degree => "_deg",
            Unit::PerCent => "_per_cent",
            Unit::Millimetre | Unit::Radius | Unit::Fine | Unit::Count | Unit::Point | Unit::Number => "",
        };
        let name: Vec<&str> = figure
            .name
            .split([' ', '-', ','])
            .filter(|word| !word.is_empty())
            .collect();
        value[name.join("_") + unit] = figure_value(figure);
    }
    if !form.list.is_empty() {
        value["cutting_list"] = form.list.iter().map(item).collect();
    }
    let parts = form
        .parts
        .iter()
        .map(|part| json!({ "name": part.name, "count": part.count, "fit_error": part.fit_error }));
    value["parts"] = parts.collect();
    value["not_reached"] = super::not_reached::json(plan, form);
    value
}

fn item(item: &Item) -> Value {
    let section = item.section.map(|(width, thickness)| json!([width, thickness]));
    json!({ "name": item.name, "count": item.count, "length": item.length, "section": section })
}

fn figure_value(figure: &Figure) -> Value {
    match (figure.values.as_slice(), figure.unit) {
        (several, Unit::Point) => several.chunks(2).map(|point| json!(point)).collect(),
        (&[one], Unit::Count) => {
            #[expect(
                clippy::cast_possible_truncation,
                clippy::cast_sign_loss,
                reason = "a count of things"
            )]
            let count = one as u64;
            json!(count)
        }
        (&[one], _) => json!(one),
        (several, _) => json!(several),
    }
}
