//! What full-size drawings are printed on.

use crate::fault::Fault;
use crate::record::{Datum, Record};
use crate::table::{Field, Kind, LENGTH, default, optional, required, word};

/// What full-size drawings are printed on, mm.
#[derive(Clone, Debug, PartialEq)]
pub struct PaperSpec {
    /// The sheet that the shop's printer takes: `A4`, or `none`; none where the shop does not say.
    pub sheet: Option<&'static str>,
    /// The width of the roll that it prints on besides.
    pub roll: Option<f64>,
    /// What is drawn at full size: `arches`, `parts`, `sheets`.
    pub drawn: Vec<&'static str>,
    /// What it makes of 100 mm across and along the paper, where it does not print true.
    pub printer: Option<[f64; 2]>,
}

impl PaperSpec {
    pub(crate) fn new(house: &Record) -> Self {
        Self {
            sheet: house.get("paper").map(|_| house.word("paper")),
            roll: house.maybe_number("roll"),
            drawn: house.list("on-paper").map(Datum::word).collect(),
            printer: house
                .maybe_record("printer")
                .map(|printer| [printer.number("across"), printer.number("along")]),
        }
    }
}

/// What a bar of 100 mm may measure, mm: a printer farther out has been told to scale.
const BAR: std::ops::RangeInclusive<f64> = 80.0..=125.0;

/// A fault where a bar was measured that no printer prints.
pub(crate) fn check_printer(house: &Record, faults: &mut Vec<Fault>) {
    let Some(printer) = house.maybe_record("printer") else {
        return;
    };
    for field in ["across", "along"] {
        if let Some(placed) = printer.fields.get(field)
            && !BAR.contains(&placed.datum.number())
        {
            let (least, most) = BAR.into_inner();
            let what =
                format!("a bar of 100 mm measures {least} to {most} mm on a printer that does not scale");
            let help = "print at full size without scaling, with no `printer` in the shop file, and measure the bar \
                        marked 100 mm";
            faults.push(placed.place.fault(what, Some(help.to_owned())));
        }
    }
}

/// The sheet of paper.
pub(crate) const PAPER: Field = optional(
    "paper",
    Kind::Word(&[
        word("A4", "210 × 297 mm"),
        word("A3", "297 × 420 mm"),
        word("A2", "420 × 594 mm"),
        word("A1", "594 × 841 mm"),
        word("A0", "841 × 1189 mm"),
        word("Letter", "8 1/2 × 11 in"),
        word("Legal", "8 1/2 × 14 in"),
        word("Tabloid", "11 × 17 in"),
        word("C", "17 × 22 in"),
        word("D", "22 × 34 in"),
        word("E", "34 × 44 in"),
        word("Arch-C", "18 × 24 in"),
        word("Arch-D", "24 × 36 in"),
        word("none", "nothing is drawn at full size on sheets of paper"),
    ]),
    "the paper that full-size drawings are printed on: A4 if left out, or Letter where the job is in inches",
);

/// The roll.
pub(crate) const ROLL: Field = optional(
    "roll",
    LENGTH,
    "the width of a roll of paper that full-size drawings are printed on besides, 200 to 2000 mm",
);

/// What is drawn.
pub(crate) const ON_PAPER: Field = default(
    "on-paper",
    Kind::List(&Kind::Word(&[
        word("arches", "every arch: its soffit, its ring, its joints"),
        word("parts", "every part of every form"),
        word("sheets", "the parts of every sheet as they lie on it"),
    ])),
    "[arches, parts]",
    "what is drawn at full size on paper",
);

/// What the printer makes of the bars.
pub(crate) const PRINTER: Field = optional(
    "printer",
    Kind::Group(&[
        required(
            "across",
            LENGTH,
            "what the bar measures that is marked 100 mm across, on a print made without this field",
        ),
        required("along", LENGTH, "and the bar marked 100 mm along"),
    ]),
    "what a printer that does not print true makes of 100 mm both ways; full-size drawings are then drawn larger or smaller \
     to come out right",
);
