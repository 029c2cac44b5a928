//! The rows of a ring's voussoirs.

use super::Shown;
use super::rows::Rows;
use cintre_geometry::voussoirs::{Crown, Tally, Voussoir, Voussoirs};

/// Widths that differ by less than this are one, mm.
const ALIKE: f64 = 1e-3;

pub(super) fn voussoir_rows(rows: &mut Rows, ring: &Voussoirs, shown: Shown) {
    let length = |mm| shown.length(mm);
    let count = ring.count;
    let crown = match ring.crown {
        Crown::Point => format!(
            "{count}: {} in each half, a joint over the point, no key",
            count / 2
        ),
        Crown::Key => format!("{count}, one of them on the crown"),
        Crown::Closed => format!("{count} round the ring, one of them on the crown"),
    };
    rows.put("voussoirs", &crown);
    let widths = |width: &dyn Fn(&Voussoir) -> f64| {
        let all = ring.units.iter().map(width);
        let (least, most) = all.fold((f64::INFINITY, 0.0_f64), |(a, b), w| (a.min(w), b.max(w)));
        if most - least < ALIKE {
            length(most)
        } else {
            format!("{} to {}", length(least), length(most))
        }
    };
    rows.put("  width of each at the soffit", &widths(&|unit| unit.width));
    rows.put("  width of each at the back", &widths(&|unit| unit.width_at_back));
    let joints = match ring.crown {
        Crown::Closed => "  joints",
        Crown::Key | Crown::Point => "  joints, both skewbacks bedded",
    };
    rows.put(joints, &ring.joints.len().to_string());
    rows.put("  joint at the soffit", &length(ring.joint));
    rows.put("  joint at the back", &length(ring.joint_at_back));
    if let Some(steps) = ring.steps {
        rows.put("  stepping chord, joint and all", &length(steps.chord));
        rows.put(
            "  angle of each, evenly shared",
            &format!("{:.3}°", steps.share.to_degrees()),
        );
        rows.put("  chord of that angle", &length(steps.share_chord));
    }
    if let Some(radius) = ring.least_radius {
        rows.put("  least soffit radius for uncut units", &length(radius));
    }
    if !ring.tallies.is_empty() {
        let lines: Vec<_> = ring.tallies.iter().map(|t| tally(t, ring, shown)).collect();
        let heads = ["units", "joint at soffit", "joint at back", ""];
        rows.columns("other numbers of these units", &heads, &lines);
    }
}

fn tally(tally: &Tally, ring: &Voussoirs, shown: Shown) -> Vec<String> {
    let verdict = if tally.count == ring.count {
        "taken"
    } else if tally.joint < 0.0 {
        "too many"
    } else if ring.crown != Crown::Closed && tally.count % 2 != ring.count % 2 {
        if ring.crown == Crown::Point { "odd" } else { "even" }
    } else if tally.fits {
        "would do"
    } else {
        "out of bounds"
    };
    let joint = |mm| shown.length(mm);
    vec![
        tally.count.to_string(),
        joint(tally.joint),
        joint(tally.joint_at_back),
        verdict.to_owned(),
    ]
}
