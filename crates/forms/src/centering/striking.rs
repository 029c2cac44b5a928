//! How a centre is eased and drawn: folding wedges, what they must drop, and whether the shape lets it out. Shape only.

use super::bolts::edge_distance;
use super::{BOLT, Input, Wedges};
use crate::Error;
use crate::line::overhang;

/// A form that stands over its opening by less than this besides its fit is only rounded so, mm.
const STANDS_OVER: f64 = 1e-6;

/// The drop that wedges are made for, unless the lip asks for more or the job says otherwise, mm.
const DROP: f64 = 20.0;

/// What is dropped past the lip and its clearance where the drive was left open, mm.
const SPARE: f64 = 5.0;

/// How much of a wedge stays on its fellow after it was driven back, mm.
const BEARING: f64 = 100.0;

/// The thin end of a wedge, mm.
const THIN: f64 = 12.0;

/// A key is as wide as takes a bolt in its middle, in edge distances.
const KEY: f64 = 2.1;

/// How a centre comes out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Striking {
    /// How far the wedges are driven back, mm.
    pub(crate) drive: f64,
    /// How far that lowers the centre, mm: drive times slope.
    pub(crate) drop: f64,
    /// What the drop must be more than: the lip and the clearance, mm.
    pub(crate) needed: f64,
    /// How far the soffit stands over the opening below it, mm.
    pub(crate) beyond: f64,
    /// The width of the key that a split centre comes apart by, mm.
    pub(crate) key: Option<f64>,
    /// The length of a wedge, its thin and its thick end, mm.
    pub(crate) wedge: (f64, f64, f64),
}

impl Striking {
    pub(crate) fn new(input: &Input) -> Result<Self, Error> {
        let Wedges {
            slope,
            drive,
            lip,
            clearance,
        } = input.wedges;
        let needed = lip + clearance;
        let drive = drive.unwrap_or_else(|| DROP.max(needed + SPARE) / slope);
        let drop = drive * slope;
        if drop <= needed {
            return Err(Error::Drop {
                drop,
                lip,
                clearance,
                limit: needed / slope,
            });
        }
        let bolt = input.bolt.unwrap_or(BOLT);
        let beyond = overhang(&input.soffit);
        let trapped = beyond > input.fit_error + STANDS_OVER;
        if trapped && !input.split {
            return Err(Error::Trapped { beyond });
        }
        let length = drive + BEARING;
        Ok(Self {
            drive,
            drop,
            needed,
            beyond: if trapped { beyond } else { 0.0 },
            key: input.split.then(|| {
                (2.0 * (beyond + input.clear.jambs))
                    .max(KEY * edge_distance(bolt))
                    .ceil()
            }),
            wedge: (length, THIN, THIN + length * slope),
        })
    }

    /// The height of a pair of wedges set full, mm.
    pub(crate) fn pair(&self) -> f64 {
        self.wedge.1 + self.wedge.2
    }

    /// What to say of it.
    pub(crate) fn notes(&self, halves: bool) -> Vec<String> {
        let mut notes = Vec::new();
        match self.key {
            Some(key) if self.beyond > 0.0 => notes.push(format!(
                "striking, shape only: it stands {:.2} mm beyond each jamb and cannot be lowered whole; take off the plates over \
                 the middle, draw the key of {key:.0} mm, and each half moves in by {:.1} mm before it is lowered",
                self.beyond,
                key / 2.0
            )),
            Some(key) => notes.push(format!(
                "striking, shape only: it comes apart by a key of {key:.0} mm in the middle, though its shape would let it down whole"
            )),
            None if halves => notes.push(
                "striking, shape only: the upper half drops on its wedges towards the lower and is drawn out along the wall; \
                 the lower half is lifted out after it"
                    .to_owned(),
            ),
            None => notes.push(
                "striking, shape only: it is nowhere wider above than between the jambs, so that it can be lowered and drawn"
                    .to_owned(),
            ),
        }
        notes.push(format!(
            "a pair of wedges driven back by {:.0} mm drops {:.1} mm; lip and clearance need more than {:.1} mm",
            self.drive, self.drop, self.needed
        ));
        notes.push(
            "when to ease and to strike is for local code, the mason and a licensed engineer to say"
                .to_owned(),
        );
        notes
    }
}
