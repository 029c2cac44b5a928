//! The forms that a job makes.

use crate::bending::{BENDING_FORM, BendingForm, check_bending_form};
use crate::centering::{CENTERING, Centering};
use crate::curved_head::{CURVED_HEAD, CurvedHead, check_head};
use crate::fault::{Fault, Places};
use crate::model::{MODEL, Model};
use crate::record::{Datum, Record};
use crate::table::{Case, Cases, Kind, LENGTH, Of, default, optional, required, word};
use crate::template::{TEMPLATE, Template, check_template};
use crate::trammel::{TRAMMEL, Trammel};

/// One form to make.
#[derive(Clone, Debug, PartialEq)]
pub struct FormSpec {
    /// The name of its arch.
    pub arch: String,
    /// The name of the stock that it is cut from.
    pub stock: String,
    /// The name of the machine that cuts it.
    pub machine: String,
    /// How many are wanted.
    pub copies: u32,
    /// The kit that it is of, where it shares one with other forms.
    pub kit: Option<String>,
    /// How the grain of its parts lies.
    pub grain: GrainRule,
    /// What it is, with its own fields.
    pub form: Form,
    /// Where its fields were written.
    pub places: Places,
}

/// How the grain of a form's parts lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum GrainRule {
    /// As each part of the form asks for.
    ByForm,
    /// Any way: they may be turned.
    Free,
    /// As drawn, never turned end for end.
    Fixed,
}

/// What a form is.
#[derive(Clone, Debug, PartialEq)]
pub enum Form {
    /// Ribs and lagging that masonry is turned on.
    Centering(Box<Centering>),
    /// A kit of the arch and its centre at a scale.
    Model(Model),
    /// A full-size piece to hold against the work.
    Pattern(Pattern),
    /// What a hand-held router follows.
    Template(Template),
    /// What a hand-held router is swung on.
    Trammel(Trammel),
    /// A form that strips are bent round.
    BendingForm(Box<BendingForm>),
    /// A head or casing from straight boards.
    CurvedHead(CurvedHead),
}

impl Form {
    /// Its name in a job.
    pub const fn name(&self) -> &'static str {
        match self {
            Self::Centering(_) => "centering",
            Self::Model(_) => "model",
            Self::Pattern(_) => "pattern",
            Self::Template(_) => "template",
            Self::Trammel(_) => "trammel",
            Self::BendingForm(_) => "bending-form",
            Self::CurvedHead(_) => "curved-head",
        }
    }
}

/// A pattern.
#[derive(Clone, Debug, PartialEq)]
pub struct Pattern {
    /// Which piece it is of.
    pub piece: PatternPiece,
    /// What a leaf stands clear of soffit and jambs, mm; only with [`PatternPiece::Inside`], none where it fills the opening.
    pub gap: Option<f64>,
    /// How wide the arris of every edge is taken off, mm.
    pub chamfer: Option<f64>,
}

/// The piece that a pattern is of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PatternPiece {
    /// The ring, or casing, between soffit and back.
    Ring,
    /// What fills the opening below the soffit.
    Inside,
}

impl FormSpec {
    pub(crate) fn new(record: &Record) -> Self {
        let form = match record.case {
            "centering" => Form::Centering(Box::new(Centering::new(record))),
            "model" => Form::Model(Model::new(record)),
            "pattern" => Form::Pattern(Pattern {
                piece: match record.word("piece") {
                    "ring" => PatternPiece::Ring,
                    _ => PatternPiece::Inside,
                },
                gap: record.maybe_number("gap"),
                chamfer: record.maybe_number("chamfer"),
            }),
            "template" => Form::Template(Template::new(record)),
            "trammel" => Form::Trammel(Trammel::new(record)),
            "bending-form" => Form::BendingForm(Box::new(BendingForm::new(record))),
            "curved-head" => Form::CurvedHead(CurvedHead::new(record)),
            other => unreachable!("{other} is refused by the table"),
        };
        Self {
            arch: record.text("arch"),
            stock: record.text("stock"),
            machine: record.text("machine"),
            copies: record.whole("copies"),
            kit: record.maybe_text("kit"),
            grain: match record.word("grain") {
                "free" => GrainRule::Free,
                "fixed" => GrainRule::Fixed,
                _ => GrainRule::ByForm,
            },
            form,
            places: record.places(),
        }
    }
}

/// The forms of a list.
pub(crate) fn forms(record: &Record, field: &str) -> Vec<FormSpec> {
    let items = record.list(field);
    items
        .filter_map(|item| match item {
            Datum::Record(record) => Some(FormSpec::new(record)),
            _ => None,
        })
        .collect()
}

/// What no single field of a form can tell.
pub(crate) fn check_forms(record: &Record, faults: &mut Vec<Fault>) {
    for item in record.list("make") {
        let Datum::Record(form) = item else { continue };
        match form.case {
            "template" => check_template(form, faults),
            "bending-form" => check_bending_form(form, faults),
            "curved-head" => check_head(form, faults),
            _ => {}
        }
        if form.get("piece") == Some(&Datum::Word("ring"))
            && let Some(gap) = form.fields.get("gap")
        {
            let help = "leave it out, or take `piece: inside`, which it makes a leaf of".to_owned();
            faults.push(gap.place.fault("a ring has no gap", Some(help)));
        }
    }
}

/// Every form of the trade.
pub(crate) static FORMS: Cases = Cases {
    tag: "form",
    default: None,
    help: "what is made",
    common: &[
        required("arch", Kind::Name(Of::Arch), "the arch that it is for"),
        required("stock", Kind::Name(Of::Stock), "the stock that it is cut from"),
        required(
            "machine",
            Kind::Name(Of::Machine),
            "the machine that cuts it, or who takes the drawing",
        ),
        default(
            "copies",
            Kind::Whole { least: 1, most: 1000 },
            "1",
            "how many are wanted",
        ),
        optional(
            "kit",
            Kind::Text,
            "a name that forms share which go to the bench together; without it, each form is a kit of its own",
        ),
        default(
            "grain",
            Kind::Word(&[
                word("by-form", "along each part as its form asks, either end up"),
                word("free", "any way: its parts may be turned"),
                word("fixed", "along each part, never turned end for end"),
            ]),
            "by-form",
            "how the grain of the stock lies in its parts",
        ),
    ],
    cases: &[
        Case::made(
            "centering",
            "ribs and lagging that masonry is turned on",
            CENTERING,
        ),
        Case::made(
            "pattern",
            "a full-size piece to hold against the work",
            &[
                required(
                    "piece",
                    Kind::Word(&[
                        word("ring", "the ring, or casing, between soffit and back"),
                        word("inside", "what fills the opening below the soffit"),
                    ]),
                    "which piece it is of",
                ),
                optional(
                    "gap",
                    LENGTH,
                    "what a leaf stands clear of soffit and jambs, only for the inside; it fills the opening if left out",
                ),
                optional(
                    "chamfer",
                    LENGTH,
                    "how wide the arris of every edge is taken off by a vee bit, on the face; square if left out",
                ),
            ],
        ),
        Case::made("template", "what a hand-held router follows", TEMPLATE),
        Case::made("trammel", "what a hand-held router is swung on", TRAMMEL),
        Case::made("bending-form", "a form that strips are bent round", BENDING_FORM)
            .exactly(1, &["laminations", "total", "thicknesses"]),
        Case::made(
            "model",
            "a kit of the arch and its centre at a scale, for the laser",
            MODEL,
        ),
        Case::made(
            "curved-head",
            "a head, a jamb head or a casing from straight boards",
            CURVED_HEAD,
        ),
    ],
};
