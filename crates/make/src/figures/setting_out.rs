//! What an arch is set out by, as JSON: its arc, its reveal and casing, its voussoirs.

use super::arch_table::casing;
use super::json::{path, point};
use super::{by_hand, ways};
use crate::arches::NamedArch;
use cintre_geometry::Outline;
use cintre_geometry::setting_out::{SingleArc, trammel_is_practical};
use cintre_geometry::voussoirs::{Crown, Voussoirs};
use serde_json::{Value, json};

/// Adds to the figures of an arch what it is set out by.
pub(super) fn add(value: &mut Value, named: &NamedArch, room: Option<[f64; 2]>) {
    by_hand::add(value, named);
    ways::add(value, named, room);
    value["ordinates"] = named.ordinates.iter().map(|&p| point(p)).collect();
    value["diagonal"] = json!(named.arch.span.hypot(named.arch.rise));
    value["joins"] = joins(named);
    if let Some(arc) = SingleArc::of(&named.fit.path) {
        value["arc"] = json!({
            "radius": arc.radius(),
            "trammel_practical": trammel_is_practical(arc.radius()),
            "frame_angle_deg": arc.frame_angle().to_degrees(),
            "frame_arms_at_least": 2.0 * arc.half_span,
            "frame_on_half_the_span": arc.radius() / 2.0,
            "half_arc_rise": arc.half_arc_rise(),
            "bent_strip_low_at_quarter": arc.strip_falls_short(),
            "skewback_deg": arc.skewback().to_degrees(),
            "radius_per_rise": arc.radius_sensitivity(),
            "quarter_height_per_rise": arc.quarter_sensitivity(),
        });
    }
    if let Some((distance, line)) = &named.reveal {
        value["reveal"] =
            json!({ "distance": distance, "pieces": path(line), "developed_length": line.length() });
    }
    if let Some(casing) = casing(named) {
        value["casing"] = json!({
            "inner_radius": casing.inner_radius(),
            "outer_radius": casing.outer_radius(),
            "inner_corner": casing.inner_corner(),
            "outer_corner": casing.outer_corner(),
            "straight_mitre_deg": casing.straight_mitre().to_degrees(),
            "tangent_mitre_deg": casing.tangent_mitre().to_degrees(),
            "mitre_bow": casing.mitre_bow(),
            "wrong_radius_worked_anew": casing.radius_worked_anew(),
        });
    }
    if let Some(ring) = &named.voussoirs {
        value["voussoirs"] = voussoirs(ring);
    }
}

/// Where arcs join, and how far off both springings: a check by two tapes.
fn joins(named: &NamedArch) -> Value {
    let (left, right) = (named.arch.soffit.start(), named.arch.soffit.end());
    let centres = named.arch.figures().centres;
    let ends = centres.windows(2).map(|pair| pair[0].arc.end);
    ends.map(
        |at| json!({ "at": point(at), "from_left": at.distance(left), "from_right": at.distance(right) }),
    )
    .collect()
}

fn voussoirs(ring: &Voussoirs) -> Value {
    let ends = |line: &cintre_geometry::Path| json!([point(line.start()), point(line.end())]);
    let units = ring
        .units
        .iter()
        .map(|unit| json!({ "width": unit.width, "width_at_back": unit.width_at_back, "outline": outline(&unit.outline) }));
    let tallies = ring.tallies.iter().map(
        |t| json!({ "count": t.count, "joint": t.joint, "joint_at_back": t.joint_at_back, "fits": t.fits }),
    );
    let mut value = json!({
        "count": ring.count,
        "pointed": ring.crown == Crown::Point,
        "joint_count": ring.joints.len(),
        "width": ring.width,
        "joint": ring.joint,
        "joint_at_back": ring.joint_at_back,
        "joints": ring.joints.iter().map(ends).collect::<Vec<_>>(),
        "units": units.collect::<Vec<_>>(),
    });
    if let Some(steps) = ring.steps {
        value["stepping_chord"] = json!(steps.chord);
        value["share_deg"] = json!(steps.share.to_degrees());
        value["share_chord"] = json!(steps.share_chord);
    }
    if let Some(radius) = ring.least_radius {
        value["least_radius"] = json!(radius);
        value["other_counts"] = tallies.collect();
    }
    value
}

/// Corners with the bulge of the edge that each begins.
fn outline(outline: &Outline) -> Value {
    outline
        .vertices()
        .iter()
        .map(|v| json!([v.point.x, v.point.y, v.bulge]))
        .collect()
}
