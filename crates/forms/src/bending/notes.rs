//! What whoever bends on a form should know, in plain sentences.

use super::figures::Shown;
use super::{Grade, Side, Springback};
use crate::Error;

/// Sentences without a final stop.
pub(super) fn notes(shown: &Shown<'_>) -> Result<Vec<String>, Error> {
    let input = shown.input;
    let mut notes = vec![springback(shown), opens(shown)?, bends(shown)];
    match input.side {
        Side::Pair => notes.push(format!(
            "the faces stand {:.2} mm apart, strips and liners: one saw line between them is not enough, and a slot routed for them \
             is as wide; the female is in {} segments, each drawn up square to its own part of the curve",
            2.0 * shown.lines.off,
            shown.bodies.iter().map(|body| body.segments).max().unwrap_or(1)
        )),
        Side::Male | Side::Female => notes.push(format!(
            "start the clamps in the middle and work towards both ends: {} of them, no farther apart than {:.0} mm",
            shown.clamping.clamps.len(),
            shown.clamping.spacing
        )),
    }
    notes.push(
        "across the face one line is the crown or a springing, two lines are an end where the piece is trimmed; wax or tape the face, \
         and bend once dry before any glue"
            .to_owned(),
    );
    notes.push(
        "x and y of a face stand at twelve even steps between its springings, in the arch's own frame"
            .to_owned(),
    );
    if shown.bodies.iter().any(|body| body.stagger.is_some()) {
        notes.push(
            "layers 1 3 5 are pieces A, layers 2 4 6 are pieces B: no joint lies over another, and dowels go through all layers"
                .to_owned(),
        );
    }
    Ok(notes)
}

fn springback(shown: &Shown<'_>) -> String {
    let (input, kept) = (shown.input, shown.lines.kept);
    if input.measured_back.is_some() {
        return format!(
            "springback from the test piece, which kept {kept:.4} of its bend: the form is worked from that alone"
        );
    }
    match input.springback {
        Springback::Layers => format!(
            "springback by the layers, 1 - sum of t^3 / (sum of t)^3: {kept:.4} of the bend is kept, worked along the middle of the \
             strips; glue that creeps and damp wood change it: bend a test piece, measure it, and give `measured-back`"
        ),
        Springback::Measured(_) => format!("springback as the shop measured it: {kept:.4} of the bend is kept"),
        Springback::None => {
            "no springback is allowed for: the form is the finished shape, and a glued stack opens by what its layers give"
                .to_owned()
        }
    }
}

fn opens(shown: &Shown<'_>) -> Result<String, Error> {
    let open = shown.open()?;
    let meant = shown.input.line.start().distance(shown.input.line.end());
    let wide = open.start().distance(open.end());
    Ok(format!(
        "from a form of the finished shape it would open to {wide:.1} mm across its springings, {:.1} mm too wide",
        wide - meant
    ))
}

/// How the strip that bears the most goes round.
fn bends(shown: &Shown<'_>) -> String {
    let worst = shown
        .strains
        .iter()
        .enumerate()
        .min_by(|a, b| a.1.ratio.total_cmp(&b.1.ratio));
    let Some((number, strain)) = worst else {
        return String::new();
    };
    let how = match strain.grade {
        Grade::Easy => "easy: bends dry without trouble",
        Grade::Marginal => {
            "marginal: clear straight-grained wood, and a dry trial; where a strip wants hard clamping to lie down it is too thick"
        }
        Grade::Steamed => {
            "bends out of the steam without a strap, with care: air-dried, straight-grained wood"
        }
        Grade::Strapped => "bends out of the steam in a strap with end stops, and not without",
        Grade::Ply => "plywood of this thickness goes round it",
    };
    format!(
        "lamination {} bears the most: radius {:.1} times its thickness, strain {:.2} per cent, {how}",
        number + 1,
        strain.ratio,
        100.0 * strain.strain
    )
}
