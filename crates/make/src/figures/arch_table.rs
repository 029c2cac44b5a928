//! The rows of one arch: its sizes, its ring, how it is set out, its heights.

use super::rows::Rows;
use super::voussoir_table::voussoir_rows;
use super::{Shown, by_hand, heading, measured, ways};
use crate::arches::NamedArch;
use cintre_geometry::arch::Figures;
use cintre_geometry::casing::Casing;
use cintre_geometry::setting_out::SingleArc;
use cintre_geometry::{Path, Point};

/// Heights of two sides that differ by less than this are shown once, mm.
const EVEN: f64 = 1e-6;

/// A line of more arcs than this was laid along another curve, and nobody strikes it from centres.
const MOST_RADII: usize = 5;

pub(crate) fn arch_rows(named: &NamedArch, shown: Shown) -> Rows {
    let figures = named.arch.figures();
    let mut rows = Rows::under(heading(named));
    sizes(&mut rows, named, &figures, shown);
    if named.arch.level_back.is_none()
        && let Some(arc) = SingleArc::of(&named.fit.path)
    {
        single_arc(&mut rows, arc, shown);
    }
    by_hand::rows(&mut rows, named, &figures, shown);
    ways::rows(&mut rows, named, shown);
    if let Some(survey) = &named.survey {
        measured::rows(&mut rows, survey, named.reading, shown);
    }
    if let Some(back) = &named.arch.level_back {
        rows.put("level back, over the springing", &shown.length(back.depth));
        rows.put(
            "  its skewbacks",
            &format!("{} from the horizontal", degrees(back.skewback)),
        );
        rows.put(
            "  its joints meet below springing",
            &shown.length(back.joints_meet),
        );
    }
    ring(&mut rows, named, shown);
    if let Some(voussoirs) = &named.voussoirs {
        voussoir_rows(&mut rows, voussoirs, shown);
    }
    heights(&mut rows, named, shown);
    for note in &named.arch.notes {
        rows.note(note);
    }
    rows
}

fn sizes(rows: &mut Rows, named: &NamedArch, figures: &Figures, shown: Shown) {
    let arch = &named.arch;
    let length = |mm| shown.length(mm);
    rows.put("span", &length(arch.span));
    rows.put("rise", &length(arch.rise));
    if arch.drawn_as_curve {
        rows.put("its line", "a curve, struck from no centres");
    }
    for (i, centre) in figures.centres.iter().enumerate() {
        rows.put(&format!("radius {}", i + 1), &length(centre.radius));
        readings(rows, &[centre.radius], shown);
        rows.put("  its centre, across", &length(centre.at.x));
        rows.put("  its centre, above the springing", &length(centre.at.y));
    }
    let (left, right) = (arch.soffit.start(), arch.soffit.end());
    for (i, pair) in figures.centres.windows(2).enumerate() {
        let at = pair[0].arc.end;
        rows.put(
            &format!("join {}, from the left springing", i + 1),
            &length(at.distance(left)),
        );
        rows.put("  from the right springing", &length(at.distance(right)));
    }
    rows.put("length along the soffit", &length(figures.developed_length));
    rows.put("springing to crown, straight", &length(figures.crown_chord));
    rows.put("diagonal of span and rise", &length(arch.span.hypot(arch.rise)));
    rows.put("height at a quarter of the span", &length(figures.quarter_height));
    rows.put(
        "lean at the springing",
        &format!("{} from plumb", degrees(figures.springing_lean)),
    );
    if named.fit.worst_error > 0.0 {
        let count = named.fit.path.pieces().len();
        let off = named.fit.worst_error;
        rows.put(
            "cut as tangent arcs",
            &format!("{count} arcs, at most {off:.4} mm off the curve"),
        );
    }
}

fn single_arc(rows: &mut Rows, arc: SingleArc, shown: Shown) {
    rows.put(
        "skewback",
        &format!("{} from the horizontal", degrees(arc.skewback())),
    );
    rows.put(
        "middle of each half, off its chord",
        &shown.length(arc.half_arc_rise()),
    );
    rows.put(
        "frame on pins at both springings",
        &format!("{} between its arms", degrees(arc.frame_angle())),
    );
    rows.put("  each arm, at least", &shown.length(2.0 * arc.half_span));
    rows.put(
        "  its radius on pins half as far apart",
        &shown.length(arc.radius() / 2.0),
    );
    rows.put("radius, for 1 more of rise", &change(arc.radius_sensitivity()));
    rows.put(
        "quarter height, for 1 more of rise",
        &change(arc.quarter_sensitivity()),
    );
}

fn change(by: f64) -> String {
    format!("{:.2} {}", by.abs(), if by < 0.0 { "less" } else { "more" })
}

fn ring(rows: &mut Rows, named: &NamedArch, shown: Shown) {
    let length = |mm| shown.length(mm);
    if let Some((reveal, line)) = &named.reveal {
        rows.put("reveal", &length(*reveal));
        radii(rows, line, shown);
        rows.put("  length along its line", &length(line.length()));
    }
    if let Some((depth, back)) = &named.ring {
        rows.put("ring", &length(*depth));
        rows.put(
            "  its back at the crown, above it",
            &length(back.bounds().y1 - named.arch.rise),
        );
        radii(rows, back, shown);
        rows.put("  length along its back", &length(back.length()));
    }
    if let Some(casing) = casing(named) {
        casing_rows(rows, casing, shown);
    }
}

/// The radii of a parallel's arcs from the left, all from the soffit's own centres.
fn radii(rows: &mut Rows, line: &Path, shown: Shown) {
    let radii: Vec<_> = line
        .pieces()
        .filter_map(|arc| arc.circle())
        .map(|c| c.radius)
        .collect();
    if (1..=MOST_RADII).contains(&radii.len()) {
        let lengths: Vec<_> = radii.iter().map(|&radius| shown.length(radius)).collect();
        rows.put("  its radii, from the same centres", &lengths.join("; "));
        readings(rows, &radii, shown);
    }
}

/// What the measure is set to for the radii just told, where its zero lies off its pivot.
pub(super) fn readings(rows: &mut Rows, radii: &[f64], shown: Shown) {
    if let Some(readings) = shown.readings(radii) {
        rows.put("  reading on the measure", &readings);
    }
}

/// The casing that a ring with a reveal is, round a single arc.
pub(super) fn casing(named: &NamedArch) -> Option<Casing> {
    let (reveal, _) = named.reveal.as_ref()?;
    Some(Casing {
        arc: SingleArc::of(&named.fit.path)?,
        reveal: *reveal,
        width: named.ring.as_ref().map(|(width, _)| *width)?,
    })
}

fn casing_rows(rows: &mut Rows, casing: Casing, shown: Shown) {
    let length = |mm| shown.length(mm);
    rows.put("casing, inner radius", &length(casing.inner_radius()));
    readings(rows, &[casing.inner_radius()], shown);
    rows.put("  outer radius, same centre", &length(casing.outer_radius()));
    readings(rows, &[casing.outer_radius()], shown);
    rows.put("  inner corner with its leg, up", &length(casing.inner_corner()));
    rows.put("  outer corner with its leg, up", &length(casing.outer_corner()));
    rows.put(
        "  straight mitre, corner to corner",
        &format!("{} from the horizontal", degrees(casing.straight_mitre())),
    );
    rows.put("  mitre by the tangents", &degrees(casing.tangent_mitre()));
    rows.put(
        "  true mitre over the straight one",
        &format!("{:.2} mm half way across", casing.mitre_bow()),
    );
    rows.note("cut the head first and mark the legs from it: the true mitre is a curve");
    let anew = casing.radius_worked_anew();
    if shown.length(anew) != shown.length(casing.outer_radius()) {
        let inside = if anew < casing.inner_radius() {
            ", less even than the inner radius"
        } else {
            ""
        };
        rows.note(&format!(
            "do not work the outer radius anew from outside width and height: it comes to {}{inside}, and the casing \
             is then not of one width",
            length(anew)
        ));
    }
}

fn heights(rows: &mut Rows, named: &NamedArch, shown: Shown) {
    let crown = named.arch.rise;
    let points = &named.ordinates;
    let line = |p: &Point| vec![shown.length(p.x), shown.length(p.y), shown.length(crown - p.y)];
    let even = points
        .iter()
        .zip(points.iter().rev())
        .all(|(a, b)| (a.x + b.x).abs() < EVEN && (a.y - b.y).abs() < EVEN);
    // Both halves of an arch that stands even read alike: the middle and one side are enough to set it out.
    let (title, first) = if even {
        ("heights of the soffit, either side of the middle", -EVEN)
    } else {
        (
            "heights of the soffit, from the left (-) to the right of the middle",
            f64::NEG_INFINITY,
        )
    };
    let lines: Vec<_> = points.iter().filter(|p| p.x > first).map(line).collect();
    rows.columns(
        title,
        &["from the middle", "over springing", "below crown"],
        &lines,
    );
}

pub(super) fn degrees(radians: f64) -> String {
    /// What rounds to nothing has no side, degrees.
    const NOTHING: f64 = 0.005;
    let degrees = radians.to_degrees();
    format!("{:.2}°", if degrees.abs() < NOTHING { 0.0 } else { degrees })
}
