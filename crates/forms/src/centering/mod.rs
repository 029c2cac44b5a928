//! A centering: the ribs on which an arch is turned, two or more alike, set up side by side and lagged over.
//!
//! The rib's line is the soffit's parallel inwards by the lagging and the skin on it, never an arc struck anew from a
//! smaller rise: where the soffit leaves the springing at a slope, its foot lies below the springing line. From the feet the
//! sides go plumb down to a level bottom. A rib is one plate where the stock has one so large, else a frame in two layers of
//! pieces. A closed arch has two halves, the upper on wedges over the lower. Geometry only: nothing here speaks of strength.

pub use assembly::{Assembly, Half};
pub use bolts::edge_distance;
pub use figures::proud;
pub use input::{Build, Clear, Input, Lagging, Load, Ring, Usable, Wedges};
pub use member::{Layer, Member};
pub use spacing::{DEEP_WALL, RIB_CENTRES};
pub use stiffening::{KING_POST, STRUTS};

use crate::error::at_least;
use crate::line::{at_level, length_to, refuse_backwards};
use crate::{Error, Form};
use boards::Boards;
use built::{Builder, Built};
use cintre_geometry::{Affine, Path};
use cintre_work::{Caution, Grain, Part};
use figures::Shown;
use list::Whole;
use spacing::Spacing;
use std::f64::consts::PI;
use striking::Striking;
use weight::Weight;

mod assembly;
mod boards;
mod bolting;
mod bolts;
mod built;
mod figures;
mod frame;
mod input;
mod joints;
mod list;
mod marks;
mod member;
mod notch;
mod opening;
mod rib;
mod spacing;
mod stiffening;
mod striking;
#[cfg(test)]
mod tests;
mod weight;

/// The tie of a plate whose job says nothing of it, mm: room for a row of bolts of [`BOLT`] and a line of lettering.
pub const TIE: f64 = 100.0;

/// The bolt holes of a centering whose job says nothing of them, mm: 10 mm bolts, with room to be put together.
pub const BOLT: f64 = 11.0;

/// A span over this is work for an engineer, mm.
pub const LARGE_SPAN: f64 = 2000.0;

/// The shallowest tie there is, bolts or none, mm: less is a splinter.
const LEAST_TIE: f64 = 20.0;

/// Ends nearer than this meet, mm.
const MEET: f64 = 1e-6;

/// Makes the centering of an arch.
pub fn centering(input: &Input) -> Result<Form, Error> {
    check(input)?;
    if input.soffit.start().distance(input.soffit.end()) < MEET {
        return in_halves(input);
    }
    refuse_backwards(&input.soffit)?;
    let centre = Centre::new(input, "", None)?;
    let half = centre.half.clone();
    Ok(form(input, vec![centre], vec![half]))
}

/// One centre, or half of that of a closed arch.
struct Centre {
    parts: Vec<Part>,
    list: Vec<crate::Item>,
    figures: Vec<crate::Figure>,
    notes: Vec<String>,
    half: Half,
    weight: Option<f64>,
}

fn form(input: &Input, centres: Vec<Centre>, halves: Vec<Half>) -> Form {
    let heaviest = input.load.heaviest;
    let weight: f64 = centres.iter().filter_map(|c| c.weight).sum();
    let wide = input.soffit.bounds().width() > LARGE_SPAN;
    let mut cautions = vec![Caution::Centering];
    if wide || heaviest.is_some_and(|most| weight > most) {
        cautions.push(Caution::LargeCentering);
    }
    let mut whole = Form {
        kind: "centering",
        arch: input.arch.clone(),
        parts: Vec::new(),
        list: Vec::new(),
        figures: Vec::new(),
        cautions,
        notes: Vec::new(),
        assembly: Some(Box::new(Assembly {
            halves,
            wall: input.wall,
            inside_faces: input.clear.faces,
        })),
    };
    for (number, centre) in centres.into_iter().enumerate() {
        whole.parts.extend(centre.parts);
        whole.list.extend(centre.list);
        // Both halves of a closed arch have the same figures, or so nearly that the upper's stand for both.
        if number == 0 {
            whole.figures = centre.figures;
        }
        for note in centre.notes {
            if !whole.notes.contains(&note) {
                whole.notes.push(note);
            }
        }
    }
    whole
}

/// The halves of a closed arch: the lower is made as an upper one, upside down.
fn in_halves(input: &Input) -> Result<Form, Error> {
    let pair = Striking::new(&Input {
        split: false,
        soffit: upper_and_lower(&input.soffit).0,
        ..input.clone()
    })?
    .pair();
    let rings = input.ring.as_ref().map(|ring| {
        let (upper, lower) = upper_and_lower(&ring.back);
        [upper, lower].map(|back| Ring { back, ..ring.clone() })
    });
    let (upper, lower) = upper_and_lower(&input.soffit);
    let mut centres = Vec::new();
    let mut halves = Vec::new();
    let turn = Affine::rotate(PI);
    for (number, (soffit, which)) in [(upper, "upper "), (lower, "lower ")].into_iter().enumerate() {
        let ring = rings.as_ref().map(|rings| {
            let over = |joint: &&Path| (joint.start().y >= 0.0) == (number == 0);
            let joints = rings[number].joints.iter().filter(over).cloned();
            let placed = joints.map(|joint| {
                if number == 0 {
                    joint
                } else {
                    joint.transformed(turn)
                }
            });
            Ring {
                joints: placed.collect(),
                ..rings[number].clone()
            }
        });
        let half = Input {
            soffit,
            ring,
            ..input.clone()
        };
        let mut centre = Centre::new(&half, which, Some(pair / 2.0))?;
        if number == 1 {
            centre.half = turned(&centre.half, turn);
            // The wedges between the halves are the upper's.
            centre.list.retain(|item| !item.name.starts_with("folding"));
        }
        halves.push(centre.half.clone());
        centres.push(centre);
    }
    let mut form = form(input, centres, halves);
    form.notes.insert(
        0,
        format!(
            "made in two halves: the lower gives the lower ring its line; the upper stands on wedges over it, {pair:.1} mm \
             from level bottom to level top"
        ),
    );
    Ok(form)
}

/// A closed line from its left end over the top to the right, and from there back underneath, turned over.
fn upper_and_lower(closed: &Path) -> (Path, Path) {
    let level = at_level(closed, closed.start().y);
    let middle = level
        .get(1)
        .map_or(closed.length() / 2.0, |right| length_to(closed, right));
    (
        closed.part(0.0, middle),
        closed
            .part(middle, closed.length())
            .transformed(Affine::rotate(PI)),
    )
}

fn turned(half: &Half, turn: Affine) -> Half {
    let mut over = half.clone();
    over.soffit = half.soffit.transformed(turn);
    over.back = half.back.transformed(turn);
    over.boards = half.boards.iter().map(|board| board.transformed(turn)).collect();
    for member in &mut over.members {
        member.outline = member.outline.transformed(turn);
        member.openings = member.openings.iter().map(|o| o.transformed(turn)).collect();
        for bore in &mut member.bores {
            bore.centre = turn * bore.centre;
        }
    }
    over.bottom = -half.bottom;
    over
}

impl Centre {
    fn new(input: &Input, which: &str, raised: Option<f64>) -> Result<Self, Error> {
        let striking = Striking::new(input)?;
        let built = Builder {
            input,
            striking: &striking,
            raised,
        }
        .built()?;
        let spacing = Spacing::new(input, built.build, built.layers)?;
        let boards = Boards::new(&built.rib, input);
        let weight = Weight::new(input);
        let (parts, unnamed) = parts(input, &built, &spacing, which)?;
        let mut notes = vec![format!("each rib: {}", built.build.name())];
        notes.extend(built.notes.clone());
        notes.extend(spacing.notes(input));
        notes.extend(unnamed);
        notes.extend(striking.notes(raised.is_some()));
        notes.extend(load_notes(input, &spacing, boards.as_ref()));
        if !built.members.iter().all(|member| is_cut(input, member)) {
            notes.push(
                "posts and struts longer than a sheet are straight boards of the list, bored through the rib's own holes".to_owned(),
            );
        }
        let king_post = built.members.iter().any(|m| m.name == "king post");
        let list = Whole {
            input,
            rib: &built.rib,
            spacing: &spacing,
            boards: boards.as_ref(),
            striking: &striking,
            build: built.build,
            layers: built.layers,
            bolts: built.bolts,
            half: raised.is_some(),
            king_post,
        }
        .list()
        .into_iter()
        .chain(boards_for(input, &built, &spacing))
        .collect();
        let shown = Shown {
            input,
            rib: &built.rib,
            build: built.build,
            depth: built.depth,
            lap: built.lap,
            members: &built.members,
            spacing: &spacing,
            boards: boards.as_ref(),
            striking: &striking,
            weight: weight.as_ref(),
            bolts: built.bolts,
        };
        Ok(Self {
            figures: shown.figures(),
            parts,
            list,
            notes,
            half: Half {
                soffit: input.soffit.clone(),
                back: built.rib.back.clone(),
                boards: boards.map_or_else(Vec::new, |b| b.ends(&built.rib.back, input.lagging.thickness)),
                lagging: input.lagging.depth(),
                ribs: spacing.places(input),
                bottom: built.rib.bottom,
                wedges: striking.pair(),
                members: built.members,
            },
            weight: weight.map(|w| w.whole),
        })
    }
}

fn load_notes(input: &Input, spacing: &Spacing, boards: Option<&Boards>) -> Vec<String> {
    let mut notes = Vec::new();
    match (&input.ring, boards) {
        (None, _) => notes.push("give the arch its `ring` to be told what it weighs".to_owned()),
        (Some(_), boards) => {
            notes.push(format!(
                "weights, information for whoever designs the props: ring x wall x {} kN/m3, nothing added for people, mortar or walling; \
                 the whole ring counts, whatever friction holds",
                input.load.density
            ));
            notes.extend(
                boards
                    .and_then(|b| b.bending(input, spacing.centres))
                    .into_iter()
                    .flatten(),
            );
        }
    }
    notes
}

/// The parts of all ribs, each as it lies on its stock, and what to say of those that bear no name.
fn parts(
    input: &Input,
    built: &Built,
    spacing: &Spacing,
    which: &str,
) -> Result<(Vec<Part>, Option<String>), Error> {
    let lines = marks::lines(&built.rib, input);
    let mut unnamed = None;
    let numbers: Vec<String> = (1..=spacing.ribs).map(|n| n.to_string()).collect();
    let mut all = Vec::new();
    for member in built.members.iter().filter(|member| is_cut(input, member)) {
        let name = format!("{} {which}{}", input.arch, member.name);
        let lying = member.lying();
        let mut part = Part {
            name: name.clone(),
            outline: member.outline.clone(),
            openings: member.openings.clone(),
            bores: member.bores.clone(),
            recesses: Vec::new(),
            marks: marks::on(member, &lines),
            stock: input.stock.clone(),
            thickness: input.thickness,
            grain: Grain::Along(member.grain),
            count: spacing.ribs * if member.layer == Layer::OnBoth { 2 } else { 1 },
            fit_error: input.fit_error,
        }
        .transformed(lying);
        part.grain = Grain::Along(0.0);
        let mut wordings = vec![format!("{name}, this face up"), name];
        if built.build != Build::TurningPiece && spacing.ribs > 1 {
            wordings.insert(0, format!("{}, rib {}", wordings[0], numbers.join(" ")));
        }
        let flat = Member {
            outline: part.outline.clone(),
            openings: part.openings.clone(),
            bores: part.bores.clone(),
            ..member.clone()
        };
        match marks::letters(&flat, &part.marks, &wordings)? {
            Some(letters) => part.marks.extend(letters),
            None => unnamed = Some(crate::marks::NO_ROOM.to_owned()),
        }
        all.push(part);
    }
    Ok((all, unnamed))
}

/// The members that are too long for the stock, as boards.
fn boards_for(input: &Input, built: &Built, spacing: &Spacing) -> Vec<crate::Item> {
    let long = built.members.iter().filter(|member| !is_cut(input, member));
    long.map(|member| {
        let (length, width) = member.size();
        crate::Item::of(&member.name, spacing.ribs, length, Some((width, input.thickness)))
    })
    .collect()
}

/// Whether a member is cut from the stock: all are, but for posts and struts longer than a sheet, which are straight boards.
fn is_cut(input: &Input, member: &Member) -> bool {
    let (length, width) = member.size();
    member.layer != Layer::OnInner || input.sheet.is_none_or(|sheet| sheet.takes(length, width))
}

fn check(input: &Input) -> Result<(), Error> {
    at_least("arch", input.fit_error, 0.0)?;
    at_least("stock", input.thickness, f64::MIN_POSITIVE)?;
    at_least("wall", input.wall, f64::MIN_POSITIVE)?;
    at_least("lagging", input.lagging.thickness, 0.0)?;
    at_least("skin", input.lagging.skin, 0.0)?;
    at_least("batten", input.lagging.width, f64::MIN_POSITIVE)?;
    at_least("gap", input.lagging.gap, 0.0)?;
    at_least("jamb-clearance", input.clear.jambs, 0.0)?;
    at_least("face-clearance", input.clear.faces, 0.0)?;
    at_least("machine", input.least_corner, 0.0)?;
    at_least("wedge-slope", input.wedges.slope, f64::MIN_POSITIVE)?;
    if let Some(tie) = input.tie {
        at_least("tie", tie, LEAST_TIE)?;
    }
    if let Some(bolt) = input.bolt {
        at_least("bolt", bolt, f64::MIN_POSITIVE)?;
        let (given, limit) = (input.tie.unwrap_or(TIE), 2.0 * edge_distance(bolt));
        if given < limit {
            return Err(Error::Tie { given, bolt, limit });
        }
    }
    let limit = input.soffit.bounds().height() - input.lagging.skin;
    if input.lagging.thickness >= limit {
        return Err(Error::Crown {
            given: input.lagging.thickness,
            skin: input.lagging.skin,
            limit,
        });
    }
    Ok(())
}
