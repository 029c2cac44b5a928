//! Figures as a table to read at the bench, at most 80 columns wide.

use super::arch_table::{arch_rows, readings};
use super::rows::{Rows, hung};
use super::{Shown, form_heading, not_reached};
use crate::Plan;
use cintre_forms::{Figure, Form, Item, Unit};
use cintre_paper::Row;

/// m/s².
const STANDARD_GRAVITY: f64 = 9.80665;

/// By definition.
const KILOGRAMS_IN_POUND: f64 = 0.453_592_37;

pub(super) fn table(plan: &Plan, shown: Shown) -> String {
    let mut lines = vec![plan.title.clone(), String::new()];
    if !plan.cautions.is_empty() {
        lines.push("Cautions".to_owned());
        for caution in &plan.cautions {
            lines.extend(hung("  - ", caution));
        }
        lines.push(String::new());
    }
    lines.extend(hung(
        "",
        &format!(
            "Lengths are read on a rule of {}; what is left over follows.",
            shown.rule
        ),
    ));
    let arches = plan.arches.iter().map(|arch| arch_rows(arch, shown));
    let forms = plan.forms.iter().map(|form| form_rows(plan, form, shown));
    for rows in arches.chain(forms) {
        lines.push(String::new());
        lines.extend(rows.lines());
    }
    lines.iter().flat_map(|line| [line.trim_end(), "\n"]).collect()
}

fn form_rows(plan: &Plan, form: &Form, shown: Shown) -> Rows {
    let mut rows = Rows::under(form_heading(form));
    for part in &form.parts {
        let size = part.outline.bounds();
        let across = format!("{} × {}", shown.length(size.width()), shown.length(size.height()));
        rows.put(&format!("{} of {}", part.count, part.name), &across);
    }
    put_figures(&mut rows, form, shown);
    if !form.list.is_empty() {
        let pieces: usize = form.list.iter().map(|item| item.count).sum();
        rows.put("cutting list, besides the sheets", &format!("{pieces} pieces"));
        for item in &form.list {
            rows.put(
                &format!("  {} of {}", item.count, item.name),
                &item_size(item, shown),
            );
        }
    }
    for note in form
        .notes
        .iter()
        .cloned()
        .chain(not_reached::sentences(plan, form))
    {
        rows.note(&note);
    }
    rows
}

fn put_figures(rows: &mut Rows, form: &Form, shown: Shown) {
    for figure in &form.figures {
        rows.put(figure.name, &value(figure, shown));
        if figure.unit == Unit::Radius {
            readings(rows, &figure.values, shown);
        }
    }
}

/// The figures of a form, each with its name.
pub(crate) fn form_figures(form: &Form, shown: Shown) -> Vec<Row> {
    let mut rows = Rows::under(form_heading(form));
    put_figures(&mut rows, form, shown);
    rows.rows
}

/// The length of an item of a cutting list, and its section where it has one.
pub(crate) fn item_size(item: &Item, shown: Shown) -> String {
    let length = shown.length(item.length);
    item.section.map_or_else(
        || length.clone(),
        |(width, thickness)| format!("{length} × {} × {}", shown.length(width), shown.length(thickness)),
    )
}

/// A weight in kN, and as the scales say it.
fn weight(kilonewtons: f64, shown: Shown) -> String {
    let kilograms = kilonewtons * 1000.0 / STANDARD_GRAVITY;
    match shown.unit() {
        cintre_measure::Unit::Millimetre => format!("{kilonewtons:.3} kN ({kilograms:.1} kg)"),
        cintre_measure::Unit::Inch => {
            format!("{kilonewtons:.3} kN ({:.0} lb)", kilograms / KILOGRAMS_IN_POUND)
        }
    }
}

fn value(figure: &Figure, shown: Shown) -> String {
    let one = |value: &f64| match figure.unit {
        Unit::Count => format!("{value:.0}"),
        Unit::Millimetre | Unit::Radius => shown.length(*value),
        Unit::Point => shown.mark(*value),
        Unit::Fine => format!("{value:.4} mm"),
        Unit::Kilonewton => weight(*value, shown),
        Unit::Degree => format!("{value:.2} deg"),
        Unit::Number => format!("{value:.4}"),
        Unit::PerCent => format!("{value:.1} per cent"),
    };
    let each: Vec<String> = figure.values.iter().map(one).collect();
    if figure.unit == Unit::Point {
        let points = each.chunks(2).map(|point| format!("({})", point.join(", ")));
        return points.collect::<Vec<_>>().join(" ");
    }
    each.join("; ")
}
