//! Figures read from the tool's JSON, held against what was worked apart.

use crate::Bench;
use serde_json::Value;

impl Bench {
    /// The figures of the first form of `job.yaml`.
    #[track_caller]
    pub fn form_figures(&self) -> Value {
        self.run(&["figures", "job.yaml", "--json"]).ended(0).json()["forms"][0].clone()
    }
}

/// That a number is what it should be.
///
/// # Panics
/// If it is no number, or farther off than `within`.
#[track_caller]
pub fn near(value: &Value, wanted: f64, within: f64) {
    let given = value.as_f64().unwrap_or_else(|| panic!("{value} is no number"));
    assert!((given - wanted).abs() <= within, "{given} is not {wanted}");
}
