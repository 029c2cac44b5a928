//! What a measure reads when it is set to a radius, where its zero lies off its pivot: the radius and that offset.

use serde_json::Value;

/// Every radius that is struck, by its key, and the key of its reading.
const READINGS: &[(&str, &str)] = &[
    ("radius", "trammel_reading"),
    ("inner_radius", "inner_trammel_reading"),
    ("outer_radius", "outer_trammel_reading"),
    ("rib_radii", "rib_trammel_readings"),
    ("leaf_radii", "leaf_trammel_readings"),
];

/// Adds to every radius of the figures, wherever it stands, its reading in mm.
pub(super) fn add(figures: &mut Value, zero: f64) {
    match figures {
        Value::Array(items) => items.iter_mut().for_each(|item| add(item, zero)),
        Value::Object(fields) => {
            fields.values_mut().for_each(|field| add(field, zero));
            for (radius, reading) in READINGS {
                if let Some(value) = fields.get(*radius).and_then(|radius| moved(radius, zero)) {
                    fields.insert((*reading).to_owned(), value);
                }
            }
        }
        _ => {}
    }
}

/// A number, or each of several, moved by the offset.
fn moved(radius: &Value, zero: f64) -> Option<Value> {
    match radius {
        Value::Array(radii) => radii.iter().map(|radius| moved(radius, zero)).collect(),
        _ => radius.as_f64().map(|radius| Value::from(radius + zero)),
    }
}
