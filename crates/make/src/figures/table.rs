//! Figures as a table to read at the bench, at most 80 columns wide.

use super::arch_table::{arch_rows, readings};
use super::rows::{Rows, hung};
use super::{Shown, form_heading, not_reached};
use crate::Plan;
use cintre_forms::{Figure, Form, Unit};

pub(super) fn table(plan: &Plan, shown: Shown) -> String {
    let mut lines = vec![plan.title.clone(), String::new(), "Cautions".to_owned()];
    for caution in &plan.cautions {
        lines.extend(hung("  - ", caution));
    }
    lines.push(String::new());
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
        let across = format!("{} x {}", shown.length(size.width()), shown.length(size.height()));
        rows.put(&format!("{} of {}", part.count, part.name), &across);
    }
    for figure in &form.figures {
        rows.put(figure.name, &value(figure, shown));
        if figure.unit == Unit::Radius {
            readings(&mut rows, &figure.values, shown);
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

fn value(figure: &Figure, shown: Shown) -> String {
    let one = |value: &f64| match figure.unit {
        Unit::Count => format!("{value:.0}"),
        Unit::Millimetre | Unit::Radius => shown.length(*value),
        Unit::Fine => format!("{value:.4} mm"),
    };
    figure.values.iter().map(one).collect::<Vec<_>>().join("; ")
}
