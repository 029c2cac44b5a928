//! A router template's own fields.

use crate::fault::Fault;
use crate::record::{Datum, Record};
use crate::table::{Field, Kind, LENGTH, LENGTH_OR_0, Of, default, optional, required, word};

/// A router template. Lengths in mm.
#[derive(Clone, Debug, PartialEq)]
pub struct Template {
    /// The edge of the work that it is for.
    pub edge: TemplateEdge,
    /// What follows it.
    pub guide: TemplateGuide,
    /// The shop's name of the bit.
    pub bit: String,
    /// The side of the template that the guide runs on.
    pub run: Run,
    /// Whether it is for a recess and the insert that fills it.
    pub pair: bool,
    /// Wood beside the guided edge that the router's base rests on; none where the base decides.
    pub margin: Option<f64>,
    /// Wood beyond that for clamps.
    pub clamps: f64,
    /// Whether stops are fixed under it.
    pub stops: bool,
    /// The diameter of the hole to hang it by; 0 for none.
    pub hanging_hole: f64,
    /// The deepest that the bit may leave wood in a corner.
    pub chisel: f64,
}

/// The edge of the work that a template is for. mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum TemplateEdge {
    /// The soffit.
    Soffit,
    /// The back of the ring.
    Back,
    /// Both edges of the ring.
    Ring,
    /// A leaf this far inside soffit and jambs.
    Leaf(f64),
    /// A panel this far outside the edge of the rail and stiles that hold it.
    Panel(f64),
}

/// What follows a template.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum TemplateGuide {
    /// A guide bush of this diameter, mm; none where the shop's narrowest will do.
    Bush(Option<f64>),
    /// The bearing of the bit.
    Bearing,
}

/// The side of a template that its guide runs on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Run {
    /// Round its outside.
    Outside,
    /// Round an opening in it.
    Inside,
}

impl Template {
    pub(crate) fn new(record: &Record) -> Self {
        let pair = record.yes_no("pair");
        Self {
            edge: match record.word("edge") {
                "soffit" => TemplateEdge::Soffit,
                "back" => TemplateEdge::Back,
                "ring" => TemplateEdge::Ring,
                "leaf" => TemplateEdge::Leaf(record.number("gap")),
                _ => TemplateEdge::Panel(record.number("groove") - record.number("clearance")),
            },
            guide: match record.word("guide") {
                "bush" => TemplateGuide::Bush(record.maybe_number("bush")),
                _ => TemplateGuide::Bearing,
            },
            bit: record.text("bit"),
            run: match record.get("run") {
                Some(Datum::Word("inside")) => Run::Inside,
                _ if pair => Run::Inside,
                _ => Run::Outside,
            },
            pair,
            margin: record.maybe_number("margin"),
            clamps: record.number("clamps"),
            stops: record.yes_no("stops"),
            hanging_hole: record.number("hanging-hole"),
            chisel: record.number("chisel"),
        }
    }
}

/// What no single field of a template can tell.
pub(crate) fn check_template(form: &Record, faults: &mut Vec<Fault>) {
    let is = |field: &str, word: &'static str| form.get(field) == Some(&Datum::Word(word));
    let mut unwanted = |field: &str, what: &str, help: &str| {
        if let Some(placed) = form.fields.get(field) {
            faults.push(placed.place.fault(what, Some(help.to_owned())));
        }
    };
    let pair = form.get("pair") == Some(&Datum::YesNo(true));
    if is("edge", "ring") {
        unwanted("run", "a ring is run along both its edges", "leave it out");
    }
    if is("guide", "bearing") {
        let help = "leave it out, or take `guide: bush`";
        unwanted("bush", "a bearing bit is guided without a bush", help);
    }
    if pair && is("run", "outside") {
        let help = "leave it out, or take `run: inside`";
        unwanted("run", "a recess and its insert are both run inside", help);
    }
    if pair && (is("guide", "bearing") || is("edge", "ring")) {
        let help = "take `guide: bush` and one edge: soffit, back, leaf or panel";
        unwanted(
            "pair",
            "a recess and its insert are cut by two bushes in one opening",
            help,
        );
    }
    for (field, edge) in [("gap", "leaf"), ("groove", "panel")] {
        match form.fields.get(field) {
            None if is("edge", edge) => {
                let what = format!("a {edge} has its `{field}`, and none is given");
                faults.push(form.place.fault(what, None));
            }
            Some(placed) if form.get("edge").is_some() && !is("edge", edge) => {
                let what = format!("only a {edge} has a {field}");
                let help = format!("leave it out, or take `edge: {edge}`");
                faults.push(placed.place.fault(what, Some(help)));
            }
            _ => {}
        }
    }
    check_groove(form, faults);
}

/// A panel reaches into its groove.
fn check_groove(form: &Record, faults: &mut Vec<Fault>) {
    if let (Some(groove), Some(clearance)) = (form.maybe_number("groove"), form.fields.get("clearance"))
        && clearance.datum.number() >= groove
    {
        let help = format!("less than {groove} mm, the depth of the groove");
        let what = "it leaves nothing of the panel in its groove";
        faults.push(clearance.place.fault(what, Some(help)));
    }
}

/// The fields of a template.
pub(crate) const TEMPLATE: &[Field] = &[
    required(
        "edge",
        Kind::Word(&[
            word("soffit", "the soffit"),
            word("back", "the back of the ring"),
            word("ring", "both edges of the ring, or casing"),
            word("leaf", "a leaf, its gap inside soffit and jambs"),
            word(
                "panel",
                "a panel that stands in a groove of the rail round the opening",
            ),
        ]),
        "the edge of the work that it is for",
    ),
    required(
        "guide",
        Kind::Word(&[
            word("bush", "a guide bush round the bit"),
            word("bearing", "the bearing of a bearing bit"),
        ]),
        "what follows it",
    ),
    required("bit", Kind::Name(Of::Bit), "the bit that cuts the work along it"),
    optional(
        "bush",
        LENGTH,
        "the bush's outer diameter, of a pair either of the two; what the shop has and the bit needs if it is left out",
    ),
    optional(
        "run",
        Kind::Word(&[
            word("outside", "round the outside: the work is kept inside its line"),
            word("inside", "round an opening: the work is kept outside its line"),
        ]),
        "the side of the template that bush or bearing run on: outside if it is left out; a ring has both",
    ),
    default(
        "pair",
        Kind::YesNo,
        "false",
        "whether one opening serves a recess and the insert that fills it, by two bushes",
    ),
    optional("gap", LENGTH, "what a leaf stands clear of soffit and jambs"),
    optional("groove", LENGTH, "how deep the groove is that a panel stands in"),
    default(
        "clearance",
        LENGTH_OR_0,
        "2 mm",
        "what a panel stands clear of the groove's bottom",
    ),
    optional(
        "margin",
        LENGTH,
        "the wood beside the guided edge that the router's base rests on: half its diameter if it is left out",
    ),
    default("clamps", LENGTH_OR_0, "45 mm", "the wood beyond it for clamps"),
    default(
        "stops",
        Kind::YesNo,
        "true",
        "whether stops are fixed under it, against which the work's square ends stand at the springings",
    ),
    default(
        "hanging-hole",
        LENGTH_OR_0,
        "20 mm",
        "the diameter of the hole to hang it by, 0 for none",
    ),
    default(
        "chisel",
        LENGTH_OR_0,
        "25 mm",
        "the deepest that the bit may leave wood in an inside corner, for the chisel",
    ),
];
