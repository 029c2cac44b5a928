//! What is written on a template, and what else the person at the bench must know.

use super::body::{Body, Lies};
use super::corners::Corners;
use super::{GuideKind, Input};

/// Bits as near in size as this are mistaken for one another, mm.
const MISTAKEN: f64 = 1.0;

/// Bits nearer than this are the same, mm.
const SAME: f64 = 1e-6;

/// The lines of lettering on a template.
pub(super) fn lettering(input: &Input, name: &str, lies: Lies) -> Vec<String> {
    let guide = match input.pair {
        Some(pair) => format!("recess: bush {} mm, insert: bush {} mm", pair.recess, pair.insert),
        None => format!("{} {} mm", input.guide.name(), input.guide.diameter),
    };
    vec![
        name.to_owned(),
        format!("{guide}, bit {} mm", input.guide.bit),
        format!("run {}", way(lies)),
        "this face up".to_owned(),
    ]
}

/// Which side to run along, and which way: against the turning of the bit, so that it draws to the template.
const fn way(lies: Lies) -> &'static str {
    match lies {
        Lies::Under | Lies::Within => "outside, anticlockwise",
        Lies::Over | Lies::Round => "inside, clockwise",
        Lies::Between => "outside anticlockwise, inside clockwise",
    }
}

/// What the person at the bench must know.
pub(super) fn notes(input: &Input, body: &Body, corners: &Corners, stops: bool) -> Vec<String> {
    let mut notes = vec![
        offset(input),
        format!("run {}, against the turning of the bit", way(body.lies)),
    ];
    notes.extend(holding(body));
    if stops {
        notes.push(
            "screw the stops under it along their lines: the work's square ends stand against them at the springings".to_owned(),
        );
    }
    notes.extend(mistaken(input));
    notes.extend(pair(input));
    notes.extend(corners.left.iter().map(|(corner, _)| {
        format!(
            "the bit leaves {:.2} mm of wood in the corner at ({:.1}, {:.1}), for the chisel: the picture shows its shape",
            corner.depth, corner.at.x, corner.at.y
        )
    }));
    notes.extend(corners.rounded.iter().map(|corner| {
        format!(
            "the point at ({:.1}, {:.1}) comes out round to {:.2} mm and loses {:.2} mm: stop short of it and finish it by hand, or take a \
             bit whose bearing is as wide as it cuts",
            corner.at.x,
            corner.at.y,
            input.guide.setback(),
            corner.depth
        )
    }));
    notes
}

fn offset(input: &Input) -> String {
    let setback = input.guide.setback();
    let (kind, diameter, bit) = (input.guide.name(), input.guide.diameter, input.guide.bit);
    let lies = match setback {
        s if s > SAME => format!("{s:.3} mm inside the work's"),
        s if s < -SAME => format!("{:.3} mm outside the work's", -s),
        _ => "on the work's".to_owned(),
    };
    let follows = match input.guide.kind {
        GuideKind::Bush => format!(
            "; the bush runs true about the bit, and its collar is shorter than the template is thick ({} mm)",
            input.thickness
        ),
        GuideKind::Bearing => "; the bearing bears on the template over its whole width".to_owned(),
    };
    format!("with a {kind} of {diameter} mm and a bit of {bit} mm the template's edge lies {lies}{follows}")
}

/// How template and work are held.
fn holding(body: &Body) -> Vec<String> {
    let mut notes = vec![
        "no tab stands on its guided edges but where there is no room elsewhere: pare such a one flush, for what follows them copies every bump"
            .to_owned(),
        "saw the work to within 2 or 3 mm of its line first".to_owned(),
    ];
    let held = match body.lies {
        Lies::Between if body.springings.is_some() => {
            "screws through its tails hold it to the work's overlength; a strip of the same stock beside it carries the router's base"
        }
        Lies::Between | Lies::Within => {
            "hold it from inside its edges; a strip of the same stock beside it carries the router's base"
        }
        Lies::Under | Lies::Over | Lies::Round => "clamp it beyond where the router's base goes",
    };
    notes.push(held.to_owned());
    notes
}

/// What a bit of nearly the same size would do.
fn mistaken(input: &Input) -> Option<String> {
    let bit = input.guide.bit;
    let off = |other: f64| (other - bit).abs();
    let near = input
        .other_bits
        .iter()
        .copied()
        .filter(|other| (SAME..=MISTAKEN).contains(&off(*other)));
    near.min_by(|a, b| off(*a).total_cmp(&off(*b))).map(|other| {
        let way = if other < bit { "leaves" } else { "takes" };
        format!(
            "a bit of {other} mm in place of {bit} mm {way} {:.2} mm too much along the edge: measure the bit",
            off(other) / 2.0
        )
    })
}

fn pair(input: &Input) -> Option<String> {
    let pair = input.pair?;
    Some(format!(
        "the recess with the bush of {} mm, the insert with that of {} mm, the same bit and the same opening: the insert stands {:.3} mm \
         clear all round",
        pair.recess, pair.insert, pair.clearance
    ))
}
