//! A curved head from straight boards: a door or window head, the lining of its soffit, a casing round it.
//!
//! The head is a band between two parallels of the soffit, parted by lines square to it. The boards decide how many segments: each lies
//! in its board so that the grain halves the turn between its ends, so both mitres are alike and the grain runs as little
//! across as it can. In layers the joints of one lie half way between those of the other.

pub use error::HeadError;
pub use input::{Boards, GlueUp, Input, Joint, Piece};

use crate::error::at_least;
use crate::line::refuse_backwards;
use crate::{Error, Form, Item};
use band::Band;
use cintre_work::Caution;
use divide::{Divided, Divider};
use pieces::Pieces;

mod band;
mod casing;
mod divide;
mod error;
mod figures;
mod fingers;
mod glue_up;
mod input;
mod joint;
mod pieces;
mod room;
mod segment;
mod stops;
#[cfg(test)]
mod tests;

/// Makes a curved head.
pub fn curved_head(input: &Input) -> Result<Form, Error> {
    let made = Made::new(input)?;
    made.form(input)
}

/// A head divided, its segments as parts.
struct Made {
    band: Band,
    divided: Divided,
    pieces: Pieces,
    joint: Joint,
    layers: usize,
}

impl Made {
    fn new(input: &Input) -> Result<Self, Error> {
        check(input)?;
        let layers = input.layers();
        let joint = joint(input, layers)?;
        joint::check(input, joint)?;
        let band = Band::new(input)?;
        let divided = Divider {
            input,
            band: &band,
            joint,
            lapped: layers > 1,
        }
        .divided()?;
        let pieces = pieces::pieces(input, &divided, joint, layers)?;
        Ok(Self {
            band,
            divided,
            pieces,
            joint,
            layers,
        })
    }

    fn form(self, input: &Input) -> Result<Form, Error> {
        let Self {
            band,
            divided,
            pieces,
            joint,
            layers,
        } = self;
        let (boards, waste) = figures::boards(input, &pieces);
        let needed = boards.iter().map(|item| item.count).sum();
        let mut figures = figures::figures(input, &band, &divided, layers);
        let mut notes = pieces.notes.clone();
        let mut list = pieces.blanks(input.boards.thickness);
        list.extend(boards);
        list.extend(joint::items(&divided.layers[0], joint, input)?);
        if let Piece::Casing { .. } = input.piece {
            figures.extend(casing::figures(input, &band)?);
            list.extend(casing::legs(input, &band));
            notes.extend(casing::notes(input, &band)?);
        }
        if let Piece::JambHead { depth } = input.piece {
            figures.push(crate::Figure::length("depth", depth));
            figures.push(crate::Figure::length("layers come to", built_up(input, layers)));
        }
        figures.extend(waste);
        notes.push(joint::note(joint, input));
        notes.extend(lapping(&band, layers));
        notes.extend(figures::notes(input, &divided, needed));
        notes.push(scribed_face(&band).to_owned());
        let mut parts = pieces.parts.clone();
        if let Some(glue_up) = &input.glue_up {
            let board = glue_up::board(input, glue_up, &band, &pieces)?;
            let pin = Some((glue_up.stop, glue_up.stop));
            list.push(Item::of(
                "pin for the glue-up board",
                board.pins,
                2.0 * input.boards.thickness + glue_up.thickness,
                pin,
            ));
            parts.push(board.part);
            notes.push(glue_up::note(band.closed).to_owned());
        }
        Ok(Form {
            kind: "curved-head",
            arch: input.arch.clone(),
            parts,
            list,
            figures,
            cautions: vec![Caution::Heads],
            notes,
            assembly: None,
            left: Vec::new(),
        })
    }
}

impl Piece {
    /// Its name.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Head => "head",
            Self::JambHead { .. } => "jamb head",
            Self::Casing { .. } => "casing",
        }
    }
}

impl Input {
    /// How many thicknesses lie on one another.
    fn layers(&self) -> usize {
        if let Piece::JambHead { depth } = self.piece {
            /// A depth this little over whole layers takes no more of them, mm: it is planed off boards anyhow.
            const OVER: f64 = 0.05;
            #[expect(
                clippy::cast_possible_truncation,
                clippy::cast_sign_loss,
                reason = "a small whole number, not negative"
            )]
            let layers = ((depth - OVER) / self.boards.thickness).ceil().max(1.0) as usize;
            return layers;
        }
        self.layers.unwrap_or(1)
    }
}

/// What so many layers come to.
fn built_up(input: &Input, layers: usize) -> f64 {
    crate::centering::as_length(layers) * input.boards.thickness
}

fn check(input: &Input) -> Result<(), Error> {
    if input.soffit.start().distance(input.soffit.end()) >= band::MEET {
        refuse_backwards(&input.soffit)?;
    }
    at_least("arch", input.fit_error, 0.0)?;
    at_least("ring", input.width, f64::MIN_POSITIVE)?;
    at_least("reveal", input.reveal, 0.0)?;
    at_least("stock", input.boards.thickness, f64::MIN_POSITIVE)?;
    at_least("machine", input.least_corner, 0.0)?;
    if let Piece::JambHead { depth } = input.piece {
        at_least("depth", depth, f64::MIN_POSITIVE)?;
    }
    if let Some(glue_up) = &input.glue_up {
        at_least("stop", glue_up.stop, f64::MIN_POSITIVE)?;
    }
    let given = input.cross_grain.to_degrees();
    if !(1.0..=90.0).contains(&given) {
        return Err(HeadError::Angle { given }.into());
    }
    if matches!(input.piece, Piece::Casing { .. }) && input.reveal >= input.width {
        return Err(HeadError::Reveal {
            given: input.reveal,
            width: input.width,
        }
        .into());
    }
    Ok(())
}

/// The joint asked for, or the usual one: a loose tongue in one thickness, butts where layers lap.
fn joint(input: &Input, layers: usize) -> Result<Joint, Error> {
    match (input.joint, layers) {
        (None, 1) => Ok(Joint::Spline),
        (None | Some(Joint::Butt), _) => Ok(Joint::Butt),
        (Some(joint), 1) => Ok(joint),
        (Some(joint), _) => Err(HeadError::Lapped { given: joint.name() }.into()),
    }
}

fn lapping(band: &Band, layers: usize) -> Option<String> {
    if layers < 2 {
        return None;
    }
    let corners = if band.corners.is_empty() {
        ""
    } else {
        "; at the point of the arch the joints of all layers lie on one another: let a key or a screw across it hold it"
    };
    Some(format!(
        "layers are glued face to face, each turned so that its joints lie half way between those of the layer before{corners}"
    ))
}

/// Which face of the segments bears the lines.
fn scribed_face(band: &Band) -> &'static str {
    if band.is_mirrored() {
        "letters and lines are scribed on the face that is drawn: the head is alike left and right, so that face may go to the back"
    } else {
        "letters and lines are scribed on the face that is drawn, which is the front: the head is not alike left and right, so it \
         cannot be turned over"
    }
}
