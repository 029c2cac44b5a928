//! The pieces of a form as parts on their stock, with their lines and their names.

use super::base::Plate;
use super::body::Body;
use super::lines::{Lines, along, crown};
use super::{Input, Side};
use crate::Error;
use crate::centering::{Layer, Member, letters, marks_on};
use crate::marks::{NO_ROOM, from_edge};
use cintre_geometry::{Point, Vec2};
use cintre_work::{Grain, Mark, Part};

/// Half of how far the two lines of a trimmed end stand apart, mm.
const TRIM: f64 = 2.0;

/// Springing and trimmed end nearer than this are one, mm.
const SAME: f64 = 5.0;

/// Steps along a face at which a place for letters is looked for.
const PLACES: u32 = 60;

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
            let named = Named {
                member,
                name,
                marks,
                wording,
                likely: likely(body, member, input.clamps.ligament),
            };
            let (part, silent) = named.part(input, lines)?;
            unnamed = unnamed.or(silent);
            all.push(Part {
                count: here.len(),
                ..part
            });
        }
    }
    for plate in plates {
        let name = format!("{} {}", input.arch, plate.member.name);
        let wording = format!("{name}, this face up");
        let named = Named {
            member: &plate.member,
            name,
            marks: plate.marks.clone(),
            wording,
            likely: Vec::new(),
        };
        let (part, silent) = named.part(input, lines)?;
        unnamed = unnamed.or(silent);
        all.push(part);
    }
    Ok((all, unnamed))
}

/// The layers that a member is cut for, from the base up.
fn numbers(member: &Member, layers: usize, layered: bool) -> Vec<String> {
    let wanted = |n: &usize| !layered || (n % 2 == 1) == (member.layer == Layer::A);
    (1..=layers).filter(wanted).map(|n| n.to_string()).collect()
}

/// Places for letters in the middle of the ligament, where the face runs along the grain first.
fn likely(body: &Body, member: &Member, ligament: f64) -> Vec<Point> {
    let inwards = if body.side == Side::Female { 0.5 } else { -0.5 };
    let grain = Vec2::from_angle(member.grain);
    let length = body.face.length();
    let mut places: Vec<(f64, Point)> = (0..=PLACES)
        .map(|i| body.face.station(length * f64::from(i) / f64::from(PLACES)))
        .map(|(p, along)| {
            let left = Vec2::new(-along.y, along.x);
            (along.cross(grain).abs(), p + left * (inwards * ligament))
        })
        .filter(|(_, p)| member.outline.contains(*p))
        .collect();
    places.sort_by(|a, b| a.0.total_cmp(&b.0));
    places.into_iter().map(|(_, p)| p).collect()
}

/// A member with what is written on it.
struct Named<'a> {
    member: &'a Member,
    name: String,
    marks: Vec<Mark>,
    /// What is lettered, where there is room for so much.
    wording: String,
    /// Where the letters may stand, in the arch's frame.
    likely: Vec<Point>,
}

impl Named<'_> {
    /// It as it lies on its stock, and what to say where it bears no name.
    fn part(self, input: &Input, lines: &Lines) -> Result<(Part, Option<String>), Error> {
        let member = self.member;
        let lying = member.lying();
        let mut part = Part {
            name: self.name.clone(),
            outline: member.outline.clone(),
            openings: member.openings.clone(),
            bores: member.bores.clone(),
            recesses: Vec::new(),
            marks: self.marks,
            clean: Vec::new(),
            stock: input.stock.clone(),
            thickness: input.thickness,
            grain: Grain::Along(member.grain),
            count: 1,
            fit_error: lines.fit_error,
        }
        .transformed(lying);
        part.grain = Grain::Along(0.0);
        let flat = Member {
            outline: part.outline.clone(),
            openings: part.openings.clone(),
            bores: part.bores.clone(),
            ..member.clone()
        };
        let likely: Vec<Point> = self.likely.iter().map(|&p| lying * p).collect();
        let wordings = [self.wording, format!("{}, this face up", self.name), self.name];
        let letters = letters(&flat, &part.marks, &wordings, &likely)?;
        let silent = letters.is_none().then(|| NO_ROOM.to_owned());
        part.marks.extend(letters.into_iter().flatten());
        Ok((part, silent))
    }
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
