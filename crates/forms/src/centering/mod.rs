//! A centering: the ribs on which an arch is turned, two or more alike, set up side by side and lagged over.
//!
//! The rib's line is the soffit's parallel inwards by the lagging and the skin on it, never an arc struck anew from a
//! smaller rise: where the soffit leaves the springing at a slope, its foot lies below the springing line. From the feet the
//! sides go plumb down to a level bottom. A rib is one plate where the stock has one so large, else a frame in two layers of
//! pieces. A closed arch has two halves, the upper on wedges over the lower. Geometry only: nothing here speaks of strength.

pub use assembly::{Assembly, Half, Standing};
pub use bolts::edge_distance;
pub use figures::proud;
pub use input::{Build, Clear, Input, Lagging, Load, Ring, Usable, Wedges};
pub use member::{Layer, Member};
pub use spacing::{DEEP_WALL, RIB_CENTRES};
pub use stiffening::{KING_POST, STRUTS};

pub(crate) use boards::{Boards, stretch};
pub(crate) use figures::as_length;
pub(crate) use marks::{letters, on as marks_on};
pub(crate) use member::chord;
pub(crate) use rib::{clear_of_jambs, sides};

use crate::error::at_least;
use crate::line::refuse_backwards;
use crate::{Assembled, Error, Form};
use built::Builder;
use cintre_work::{Caution, Part};
use figures::Shown;
use list::Whole;
use parts::{boards_for, is_cut, parts};
use spacing::Spacing;
use striking::Striking;
use weight::Weight;

mod assembly;
mod boards;
mod bolting;
mod bolts;
mod built;
mod figures;
mod frame;
mod halves;
mod input;
mod joints;
mod list;
mod marks;
mod member;
mod notch;
mod opening;
mod parts;
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
        return halves::in_halves(input);
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
        left: Vec::new(),
        figures: Vec::new(),
        cautions,
        notes: Vec::new(),
        assembly: Some(Assembled::Centre(Box::new(Assembly {
            halves,
            wall: input.wall,
            inside_faces: input.clear.faces,
        }))),
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
                "weights, information for whoever designs the props: ring × wall × {} kN/m³, nothing added for people, mortar or walling; \
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
    Ok(())
}
