//! The places of a form that the bit of its machine does not reach, and by how much.

use crate::Plan;
use crate::blame::is_copy;
use cintre_forms::Form;
use cintre_toolpath::Note;
use serde_json::{Value, json};

/// The notes of a form's parts that tell of wood left, each with the sheet that it is on; of copies alike, the first.
fn found<'p>(plan: &'p Plan, form: &Form) -> Vec<(&'p str, &'p Note)> {
    let mut found: Vec<(&str, &Note)> = Vec::new();
    let mut told = Vec::new();
    for sheet in &plan.sheets {
        for note in sheet.road.iter().flat_map(|road| &road.notes) {
            let Note::Leftover { part, edge, bit, .. } = note else {
                continue;
            };
            let Some(own) = form.parts.iter().find(|own| is_copy(part, &own.name)) else {
                continue;
            };
            let place = (own.name.clone(), *edge, bit.clone());
            if !told.contains(&place) {
                told.push(place);
                found.push((&sheet.sheet.id, note));
            }
        }
    }
    found
}

pub(super) fn sentences(plan: &Plan, form: &Form) -> Vec<String> {
    let found = found(plan, form);
    found
        .iter()
        .map(|(sheet, note)| format!("{note}, on {sheet}"))
        .collect()
}

pub(super) fn json(plan: &Plan, form: &Form) -> Value {
    let one = |(sheet, note): &(&str, &Note)| match note {
        Note::Leftover {
            part,
            edge,
            bit,
            places,
            depth,
            at,
        } => Some(json!({
            "part": part,
            "edge": edge.to_string(),
            "bit": bit,
            "places": places,
            "depth": depth,
            "sheet": sheet,
            "at": [at.x, at.y],
        })),
        _ => None,
    };
    found(plan, form).iter().filter_map(one).collect()
}
