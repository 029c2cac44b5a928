//! What is drawn by hand other than from centres, and what is often taken for a curve and is not it.

use super::Shown;
use super::arch_table::degrees;
use super::rows::Rows;
use crate::arches::NamedArch;
use cintre_geometry::arch::{Figures, of_span_and_rise};
use cintre_geometry::setting_out::{EllipseByHand, Grown, SingleArc};
use serde_json::{Value, json};
use std::f64::consts::PI;

/// Shapes that are often ordered by span and rise alone, and come back as one another.
const MISTAKEN: [&str; 6] = [
    "segmental",
    "elliptical",
    "three-centred",
    "five-centred",
    "parabolic",
    "catenary",
];

fn ellipse(named: &NamedArch) -> Option<EllipseByHand> {
    matches!(named.arch.shape, "elliptical" | "oval").then(|| EllipseByHand {
        half_span: named.arch.span / 2.0,
        rise: named.arch.rise,
    })
}

/// How far its casing, or ring, would be short if its outer edge were cut as an ellipse grown by its width.
fn grown(named: &NamedArch) -> Option<(EllipseByHand, f64, Grown)> {
    let (ellipse, (depth, _)) = (ellipse(named)?, named.ring.as_ref()?);
    let width = depth + named.reveal.as_ref().map_or(0.0, |(reveal, _)| *reveal);
    Some((ellipse, width, ellipse.grown(width)))
}

/// The heights at a quarter of the span of the shapes that this one is mistaken for.
fn quarters(named: &NamedArch) -> Vec<(&'static str, f64)> {
    let arch = &named.arch;
    if !MISTAKEN.contains(&arch.shape) {
        return Vec::new();
    }
    let others = of_span_and_rise(arch.span, arch.rise);
    let others = others
        .iter()
        .filter(|other| MISTAKEN.contains(&other.shape) && other.shape != arch.shape);
    others
        .map(|other| (other.shape, other.figures().quarter_height))
        .collect()
}

pub(super) fn add(value: &mut Value, named: &NamedArch) {
    let figures = named.arch.figures();
    if let Some(slope) = figures.apex_slope {
        value["apex"] = json!({
            "slope_deg": slope.to_degrees(),
            "included_deg": (PI - 2.0 * slope).to_degrees(),
        });
    }
    if let Some(ellipse) = ellipse(named) {
        value["ellipse"] = json!({
            "pins_from_middle": ellipse.focus(),
            "string": ellipse.string(),
            "short_rod": ellipse.short_rod(),
            "long_rod": ellipse.long_rod(),
            "equal_divisions_off": ellipse.equal_divisions_off(),
        });
    }
    if let Some((ellipse, width, grown)) = grown(named) {
        value["grown_ellipse"] = json!({
            "half_axes": [ellipse.half_span + width, ellipse.rise + width],
            "least_width": grown.least,
            "short": width - grown.least,
            "at": [grown.at.x, grown.at.y],
        });
    }
    let quarters = quarters(named);
    if !quarters.is_empty() {
        value["quarter_height_of"] = quarters
            .into_iter()
            .map(|(shape, height)| (shape.to_owned(), json!(height)))
            .collect();
    }
}

pub(super) fn rows(rows: &mut Rows, named: &NamedArch, figures: &Figures, shown: Shown) {
    if let Some(slope) = figures.apex_slope {
        rows.put("at its point", &format!("{} from the horizontal", degrees(slope)));
        rows.put("  between both sides", &degrees(PI - 2.0 * slope));
    }
    if let Some(ellipse) = ellipse(named) {
        rows.put(
            "pins for a string, from the middle",
            &shown.length(ellipse.focus()),
        );
        rows.put("  the string between them", &shown.length(ellipse.string()));
        rows.put(
            "rod, pencil to its two marks",
            &format!(
                "{}; {}",
                shown.length(ellipse.half_span),
                shown.length(ellipse.rise)
            ),
        );
        rows.put(
            "  marks apart, both on one side",
            &shown.length(ellipse.short_rod()),
        );
        rows.put("  marks apart, pencil between", &shown.length(ellipse.long_rod()));
        rows.note(&format!(
            "joining equal divisions of rise and half span draws a parabola, up to {:.1} mm outside this ellipse",
            ellipse.equal_divisions_off()
        ));
    }
    if let Some((ellipse, width, grown)) = grown(named) {
        rows.note(&format!(
            "do not cut the outer edge as an ellipse of half axes {} and {}: {} from the middle and {} up it comes {:.2} mm short of \
             its width; the true edge is a parallel",
            shown.length(ellipse.half_span + width),
            shown.length(ellipse.rise + width),
            shown.length(grown.at.x),
            shown.length(grown.at.y),
            width - grown.least,
        ));
    }
    if named.arch.level_back.is_none()
        && let Some(low) = SingleArc::of(&named.fit.path).and_then(SingleArc::strip_falls_short)
    {
        rows.note(&format!(
            "a strip bent round pins at springings and crown is no arc: at a quarter of the span it lies {low:.1} mm low"
        ));
    }
    let quarters = quarters(named);
    if !quarters.is_empty() {
        let heights = quarters
            .iter()
            .map(|(shape, height)| format!("{shape} {}", shown.length(*height)));
        rows.note(&format!(
            "ordered by span and rise alone it may come back as another shape: say the height at a quarter of the span, here {}; {}",
            shown.length(figures.quarter_height),
            heights.collect::<Vec<_>>().join(", "),
        ));
    }
}
