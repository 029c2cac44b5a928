//! Setting-out figures: to read, and as JSON.

mod arch_table;
mod by_hand;
mod json;
mod measured;
mod not_reached;
mod readings;
mod rows;
mod setting_out;
mod table;
mod voussoir_table;
mod ways;

pub(crate) use arch_table::arch_rows;
pub(crate) use table::{form_figures, item_size};

use crate::Plan;
use crate::arches::NamedArch;
use cintre_forms::Form;
use cintre_measure::{Rule, Unit};
use cintre_write::{MM_PER_INCH, trimmed};

/// How lengths are shown: on a rule's marks with what is left over.
#[derive(Clone, Copy, Debug)]
pub struct Shown {
    /// The rule.
    pub rule: Rule,
    /// What the measure that radii are set with reads at its pivot, mm; none where its zero lies there.
    pub zero_offset: Option<f64>,
    /// Whether a foot and more is shown in feet and inches.
    pub feet: bool,
    /// The length and the width of the floor that arches are set out on, mm, where the shop says.
    pub room: Option<[f64; 2]>,
}

impl Shown {
    /// Lengths in `units`, on a plan's own rule where that has marks of the unit, else on the unit's usual one.
    pub fn new(plan: &Plan, units: Unit) -> Self {
        let rule = match (units, unit_of(plan.rule)) {
            (Unit::Millimetre, Unit::Inch) => Rule::HalfMillimetre,
            (Unit::Inch, Unit::Millimetre) => Rule::ThirtySecond,
            _ => plan.rule,
        };
        Self {
            rule,
            zero_offset: plan.zero_offset,
            feet: false,
            room: plan.room,
        }
    }

    /// The unit of the marks.
    pub(crate) const fn unit(self) -> Unit {
        unit_of(self.rule)
    }

    /// A length as it is read off the rule.
    pub fn length(self, mm: f64) -> String {
        let reading = self.rule.read(mm);
        if self.feet {
            reading.in_feet().to_string()
        } else {
            reading.to_string()
        }
    }

    /// A length to the nearest mark alone.
    pub(crate) fn mark(self, mm: f64) -> String {
        let reading = self.rule.read(mm);
        if self.feet {
            reading.in_feet().mark_text()
        } else {
            reading.mark_text()
        }
    }

    /// A length that was measured finer than a rule reads: a thickness, a bit, a place on a sheet.
    pub(crate) fn measured(self, mm: f64) -> String {
        let (value, decimals, unit) = match self.unit() {
            Unit::Millimetre => (mm, 3, "mm"),
            Unit::Inch => (mm / MM_PER_INCH, 4, "in"),
        };
        let figure = trimmed(value, decimals).expect("what was planned is finite");
        format!("{figure} {unit}")
    }

    /// Radii as they are set on the measure, where its zero lies off its pivot.
    pub(crate) fn readings(self, radii: &[f64]) -> Option<String> {
        let zero = self.zero_offset?;
        let readings: Vec<_> = radii.iter().map(|radius| self.length(radius + zero)).collect();
        Some(readings.join("; "))
    }
}

const fn unit_of(rule: Rule) -> Unit {
    match rule {
        Rule::Millimetre | Rule::HalfMillimetre => Unit::Millimetre,
        _ => Unit::Inch,
    }
}

impl Plan {
    /// The figures as a table of at most 80 columns, cautions first.
    pub fn figures_table(&self, shown: Shown) -> String {
        table::table(self, shown)
    }

    /// The figures in full precision, millimetres and degrees.
    pub fn figures_json(&self) -> serde_json::Value {
        let mut figures = json::json(self);
        if let Some(zero) = self.zero_offset {
            readings::add(&mut figures, zero);
        }
        figures
    }
}

/// What stands over an arch's figures: `gate: segmental arch`.
pub(crate) fn heading(arch: &NamedArch) -> String {
    format!("{}: {} arch", arch.name, arch.arch.shape)
}

/// What stands over a form's figures: `gate: centering`.
pub(crate) fn form_heading(form: &Form) -> String {
    format!("{}: {}", form.arch, form.kind)
}
