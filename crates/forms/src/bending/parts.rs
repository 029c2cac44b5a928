//! The pieces of a form as parts on their stock, with their lines and their names.

use super::base::Plate;
use super::body::Body;
use super::lines::{Lines, along, crown};
use super::{Input, Side};
use crate::Error;
use crate::centering::{Layer, Member, letters, marks_on};
use crate::marks::{NO_ROOM, from_edge};
use cintre_geometry::Vec2;
use cintre_work::{Grain, Mark, Part};

/// Half of how far the two lines of a trimmed end stand apart, mm.
const TRIM: f64 = 2.0;

/// Springing and trimmed end nearer than this are one, mm.
const SAME: f64 = 5.0;

/// All parts, and what to say of those that bear no name.
pub(super) fn parts(
    input: &Input,
    lines: &Lines,
    bodies: &[Body],
    plates: &[Plate],
    layers: usize,
) -> Result<(Vec<Part>, Option<String>), Error> {
    let mut all = Vec::new();
    let mut unnamed = None;
    for body in bodies {
        let scribed = scribed(input, lines, body);
        let layered = body.members.iter().any(|member| member.layer == Layer::B);
        for member in &body.members {
            let here = numbers(member, layers, layered);
            let side = if body.side == Side::Female {
                "female"
            } else {
                "male"
            };
            let name = [&input.arch, side, &member.name].join(" ").trim_end().to_owned();
            let marks = marks_on(member, &scribed);
            let wording = format!("{name}, layer {}, this face up", here.join(" "));
            let (part, named) = part(input, lines, member, &name, marks, &wording)?;
            unnamed = unnamed.or(named);
            all.push(Part {
                count: here.len(),
                ..part
            });
        }
    }
    for plate in plates {
        let name = format!("{} {}", input.arch, plate.member.name);
        let wording = format!("{name}, this face up");
        let (part, named) = part(input, lines, &plate.member, &name, plate.marks.clone(), &wording)?;
        unnamed = unnamed.or(named);
        all.push(part);
    }
    Ok((all, unnamed))
}

/// The layers that a member is cut for, from the base up.
fn numbers(member: &Member, layers: usize, layered: bool) -> Vec<String> {
    let wanted = |n: &usize| !layered || (n % 2 == 1) == (member.layer == Layer::A);
    (1..=layers).filter(wanted).map(|n| n.to_string()).collect()
}

/// A member as it lies on its stock, and what to say where it bears no name.
fn part(
    input: &Input,
    lines: &Lines,
    member: &Member,
    name: &str,
    marks: Vec<Mark>,
    wording: &str,
) -> Result<(Part, Option<String>), Error> {
    let mut part = Part {
        name: name.to_owned(),
        outline: member.outline.clone(),
        openings: member.openings.clone(),
        bores: member.bores.clone(),
        recesses: Vec::new(),
        marks,
        stock: input.stock.clone(),
        thickness: input.thickness,
        grain: Grain::Along(member.grain),
        count: 1,
        fit_error: lines.fit_error,
    }
    .transformed(member.lying());
    part.grain = Grain::Along(0.0);
    let flat = Member {
        outline: part.outline.clone(),
        openings: part.openings.clone(),
        bores: part.bores.clone(),
        ..member.clone()
    };
    let wordings = [
        wording.to_owned(),
        format!("{name}, this face up"),
        name.to_owned(),
    ];
    let named = letters(&flat, &part.marks, &wordings)?;
    let unnamed = named.is_none().then(|| NO_ROOM.to_owned());
    part.marks.extend(named.into_iter().flatten());
    Ok((part, unnamed))
}

/// The lines across a body's face: one at the crown and at each springing, two at each end where the piece is trimmed.
fn scribed(input: &Input, lines: &Lines, body: &Body) -> Vec<Mark> {
    let face = &body.face;
    let inwards = if body.side == Side::Female { 1.0 } else { -1.0 };
    let line = |length: f64| {
        let (point, along) = face.station(length);
        let left = Vec2::new(-along.y, along.x);
        from_edge(point, left * inwards, input.clamps.ligament)
    };
    let springings = lines.springings().map(|at| along(face, at));
    let trims = lines.trims().map(|at| along(face, at));
    let mut marks: Vec<Mark> = crown(face).map(|at| line(along(face, at))).into_iter().collect();
    for (springing, trim) in springings.into_iter().zip(trims) {
        marks.push(line(springing));
        if (springing - trim).abs() > SAME {
            marks.extend([trim - TRIM, trim + TRIM].map(&line));
        }
    }
    marks
}
