//! Figures as a table to read at the bench, at most 80 columns wide.

use super::{Shown, form_heading, heading};
use crate::Plan;
use crate::arches::NamedArch;
use cintre_forms::{Figure, Form, Unit};
use cintre_geometry::Point;
use cintre_write::wrapped;

/// As wide as a terminal that nobody has widened.
const WIDTH: usize = 80;

/// Where the values begin.
const NAMES: usize = 40;

pub(super) fn table(plan: &Plan, shown: Shown) -> String {
    let mut lines = vec![plan.title.clone(), String::new(), "Cautions".to_owned()];
    for caution in &plan.cautions {
        lines.extend(hung("  - ", caution));
    }
    for arch in &plan.arches {
        lines.push(String::new());
        lines.extend(arch_lines(arch, shown));
    }
    for form in &plan.forms {
        lines.push(String::new());
        lines.extend(form_lines(form, shown));
    }
    lines.iter().flat_map(|line| [line.trim_end(), "\n"]).collect()
}

fn arch_lines(named: &NamedArch, shown: Shown) -> Vec<String> {
    let (arch, figures) = (&named.arch, named.arch.figures());
    let length = |mm| shown.length(mm);
    let mut lines = vec![heading(named)];
    let mut put = |name: &str, value: String| lines.extend(row(name, &value));
    put("span", length(arch.span));
    put("rise", length(arch.rise));
    for (i, centre) in figures.centres.iter().enumerate() {
        put(&format!("radius {}", i + 1), length(centre.radius));
        put("  its centre, across", length(centre.at.x));
        put("  its centre, above the springing", length(centre.at.y));
    }
    put("length along the soffit", length(figures.developed_length));
    put("springing to crown, straight", length(figures.crown_chord));
    put("height at a quarter of the span", length(figures.quarter_height));
    put(
        "lean at the springing",
        format!("{:.2}° from plumb", figures.springing_lean.to_degrees()),
    );
    if let Some((depth, back)) = &named.ring {
        let top = back.bounds().y1;
        put("ring", length(*depth));
        put("  its back at the crown, above it", length(top - arch.rise));
        put("  length along its back", length(back.length()));
    }
    for (name, value) in named
        .survey
        .iter()
        .flat_map(|survey| super::measured::rows(survey, shown))
    {
        put(&name, value);
    }
    if named.fit.worst_error > 0.0 {
        let count = named.fit.path.pieces().len();
        put(
            "cut as tangent arcs",
            format!(
                "{count} arcs, at most {:.4} mm off the curve",
                named.fit.worst_error
            ),
        );
    }
    lines.push("  heights of the soffit over the springing line".to_owned());
    // Both halves of an arch that stands even read alike: the middle and one side are enough to set it out.
    let even = stands_even(&figures.ordinates);
    for p in figures.ordinates.iter().filter(|p| !even || p.x > -1e-9) {
        let side = match p.x {
            _ if even => "from the middle",
            x if x < 0.0 => "left of the middle",
            _ => "right of the middle",
        };
        lines.extend(row(&format!("  {} {side}", length(p.x.abs())), &length(p.y)));
    }
    lines
}

/// Whether heights read alike to both sides of the middle, as far as any rule tells.
fn stands_even(ordinates: &[Point]) -> bool {
    const TOLD: f64 = 1e-3;
    let pairs = ordinates.iter().zip(ordinates.iter().rev());
    pairs
        .into_iter()
        .all(|(left, right)| (left.y - right.y).abs() < TOLD)
}

fn form_lines(form: &Form, shown: Shown) -> Vec<String> {
    let mut lines = vec![form_heading(form)];
    for part in &form.parts {
        let size = part.outline.bounds();
        let across = format!("{} x {}", shown.length(size.width()), shown.length(size.height()));
        lines.extend(row(&format!("{} of {}", part.count, part.name), &across));
    }
    for figure in &form.figures {
        lines.extend(row(figure.name, &value(figure, shown)));
    }
    for note in &form.notes {
        lines.extend(hung("  - ", note));
    }
    lines
}

fn value(figure: &Figure, shown: Shown) -> String {
    let one = |value: &f64| match figure.unit {
        Unit::Count => format!("{value:.0}"),
        Unit::Millimetre => shown.length(*value),
        Unit::Fine => format!("{value:.4} mm"),
    };
    figure.values.iter().map(one).collect::<Vec<_>>().join("; ")
}

/// `  name      value`, the value run on under itself where it is long.
fn row(name: &str, value: &str) -> Vec<String> {
    let mut lines = Vec::new();
    let mut label = format!("  {name}");
    if label.chars().count() >= NAMES {
        lines.push(std::mem::take(&mut label));
    }
    for part in wrapped(value, WIDTH - NAMES) {
        let pad = " ".repeat(NAMES - label.chars().count());
        lines.push(format!("{label}{pad}{part}"));
        label.clear();
    }
    lines
}

/// A sentence with a mark before its first line and room before the others.
fn hung(mark: &str, sentence: &str) -> Vec<String> {
    let room = mark.chars().count();
    wrapped(sentence, WIDTH - room)
        .iter()
        .enumerate()
        .map(|(i, line)| {
            if i == 0 {
                format!("{mark}{line}")
            } else {
                format!("{}{line}", " ".repeat(room))
            }
        })
        .collect()
}
