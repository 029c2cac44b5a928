//! How a sheet is set up on its machine: its zero, what holds it, where nothing may stand.

use super::html::{Html, text};
use super::sheet::kind;
use super::time::time;
use crate::PlannedSheet;
use crate::figures::Shown;
use cintre_geometry::{Outline, Piece, Point, Rect};
use cintre_work::manifest::ManifestSheet;
use cintre_work::{
    BitChange, DrawingMachine, Laser, Machine, Pen, Program, Router, Sheet, Stock, Tab, To, Zero, ZeroHeight,
};

/// Two places nearer than this are one, mm.
const SAME: f64 = 1e-6;

/// What is to be known of one thing: its name, and sentences.
type Fact = (&'static str, Vec<Html>);

/// The facts of a sheet on its machine, in the order in which they are wanted.
pub(super) fn setup(planned: &PlannedSheet, sheet: &ManifestSheet, shown: Shown) -> Vec<Fact> {
    let machine = &planned.machine;
    let origin = sheet.files.first().map_or([0.0; 2], |file| file.origin);
    let zero = text(&zero_at(origin, &planned.sheet, shown));
    let mut facts = vec![(
        "machine",
        vec![text(&format!("{}, {}", machine.name(), kind(machine)))],
    )];
    facts.extend(match machine {
        Machine::Router(router) => routed(planned, router, zero, shown),
        Machine::Laser(laser) => beamed(planned, laser, zero, shown),
        Machine::Pen(pen) => penned(pen, zero, shown),
        Machine::Drawing(drawing) => drawn(drawing, zero, shown),
    });
    let on_bed = match machine {
        Machine::Router(router) => router.keep_outs.as_slice(),
        _ => &[],
    };
    facts.push(("keep out", kept_out(planned, on_bed, shown)));
    facts.push(("time", vec![text(&time(planned))]));
    facts
}

fn routed(planned: &PlannedSheet, router: &Router, zero: Html, shown: Shown) -> Vec<Fact> {
    vec![
        ("bits", vec![text(change(router.bit_change))]),
        ("zero", vec![zero, text(height(router.zero))]),
        ("hold down", held(planned, router, shown)),
    ]
}

fn beamed(planned: &PlannedSheet, laser: &Laser, zero: Html, shown: Shown) -> Vec<Fact> {
    let kerf = laser
        .kerf
        .get(&planned.sheet.stock.material)
        .copied()
        .unwrap_or(0.0);
    let beam = format!(
        "Its kerf of {} is allowed for: the lines stand off the finished edge by half of it.",
        shown.measured(kerf)
    );
    let flat =
        "Flat and pinned outside the lines: where a sheet bows, the beam is out of focus and off its line.";
    let tabs = planned.tabs();
    let loose = match tabs.first() {
        None => "Parts and waste come loose as they are cut free.".to_owned(),
        Some(tab) => format!(
            "{} tabs {} wide hold the small parts, where the picture shows them: cut them through with a knife and dress them off. \
             Larger parts and waste come loose as they are cut free.",
            tabs.len(),
            shown.measured(tab.width)
        ),
    };
    vec![
        ("zero", vec![zero]),
        ("hold down", vec![text(flat), text(&loose)]),
        ("beam", vec![text(&beam)]),
    ]
}

fn penned(pen: &Pen, zero: Html, shown: Shown) -> Vec<Fact> {
    let line = format!(
        "A line {} wide; its middle is the edge.",
        shown.measured(pen.width)
    );
    vec![
        ("zero", vec![zero]),
        (
            "hold down",
            vec![text("Flat, along all edges, outside the lines.")],
        ),
        ("pen", vec![text(&line)]),
    ]
}

fn drawn(drawing: &DrawingMachine, zero: Html, shown: Shown) -> Vec<Fact> {
    let lines = if drawing.allowance > 0.0 {
        format!(
            "Lines stand off the finished edge by {}, half of the cut.",
            shown.measured(drawing.allowance / 2.0)
        )
    } else {
        "Lines stand on the finished edge; whoever cuts it allows for bit, beam or blade.".to_owned()
    };
    vec![
        ("lines", vec![text(&lines)]),
        ("zero", vec![zero]),
        ("hold down", vec![text("By the rules of whoever cuts it.")]),
    ]
}

const fn change(change: BitChange) -> &'static str {
    match change {
        BitChange::File => {
            "A program for each bit: put the next one in, set its height anew, and run the next file."
        }
        BitChange::Pause => "The program stops for each bit: put it in, set its height anew, and go on.",
        BitChange::M6 => {
            "The machine changes them; make sure that each stands at its number, its length measured."
        }
    }
}

const fn height(zero: Zero) -> &'static str {
    match zero.height {
        ZeroHeight::StockFace => "Z 0 is the upper face of the stock.",
        ZeroHeight::StockBack => "Z 0 is the underside of the stock, on the spoilboard.",
    }
}

fn zero_at([x, y]: [f64; 2], sheet: &Sheet, shown: Shown) -> String {
    let (length, width) = sheet.stock.size;
    let is = |at: (f64, f64)| (x - at.0).abs() < SAME && (y - at.1).abs() < SAME;
    let lies = "The length of the sheet lies along x.";
    if is((0.0, 0.0)) && sheet.stock.near_left() == Point::ZERO {
        return format!("X 0, Y 0 is the near left corner of the sheet. {lies}");
    }
    let place = format!(
        "{} along and {} across from the {}{}",
        shown.measured(x),
        shown.measured(y),
        corner(&sheet.stock),
        in_the_air(&sheet.stock, Point::new(x, y))
    );
    if is(sheet.stock.near_left().into()) {
        return format!("X 0, Y 0 is the leftmost corner of the near edge, {place}. {lies}");
    }
    if is((length / 2.0, width / 2.0)) {
        return format!("X 0, Y 0 is the middle of the sheet, {place}. {lies}");
    }
    let bored = sheet.parts.iter().find(|placed| {
        let bore = placed.part.bores.first();
        bore.is_some_and(|bore| is((bore.centre.x, bore.centre.y)))
    });
    let bore = bored.map_or_else(String::new, |placed| {
        format!("the first bore of {}, ", placed.name)
    });
    format!("X 0, Y 0 is {bore}{place}. {lies}")
}

/// Where places on a sheet are measured from.
const fn corner(stock: &Stock) -> &'static str {
    if stock.outline.is_some() {
        "near left corner of the box round the offcut"
    } else {
        "near left corner of the sheet"
    }
}

/// What is to be said of a zero where an offcut has no wood.
fn in_the_air(stock: &Stock, at: Point) -> &'static str {
    let off = |edge: &Outline| edge.signed_distance(at) > SAME;
    if stock.outline.as_ref().is_some_and(off) {
        ", where there is no wood: set its height on the face of the offcut"
    } else {
        ""
    }
}

/// What holds the sheet and its parts while the bits run.
fn held(planned: &PlannedSheet, router: &Router, shown: Shown) -> Vec<Html> {
    let measured = |mm| shown.measured(mm);
    let mut held = vec![text(&format!(
        "Lay it with the {} on that of the bed, flat all over.",
        corner(&planned.sheet.stock)
    ))];
    let Some(road) = &planned.road else { return held };
    if let Some(reach) = reach(&road.programs) {
        held.push(text(&format!(
            "Fasten it outside the way of the bits, which is x {} to {} and y {} to {} of the sheet; they travel {} above its face.",
            measured(reach.x0),
            measured(reach.x1),
            measured(reach.y0),
            measured(reach.y1),
            measured(router.safe_height)
        )));
    }
    held.push(text(&tabs(&road.tabs, router, shown)));
    if router.leave_web <= 0.0 && router.through > 0.0 {
        held.push(text(&format!(
            "Cuts go {} below the underside: lay it on a board that may be cut into.",
            measured(router.through)
        )));
    }
    held
}

fn tabs(tabs: &[Tab], router: &Router, shown: Shown) -> String {
    if router.leave_web > 0.0 {
        let web = shown.measured(router.leave_web);
        return format!("A web of {web} under every cut holds the parts.");
    }
    let (Some(width), Some(height)) = (
        tabs.iter().map(|tab| tab.width).reduce(f64::min),
        tabs.iter().map(|tab| tab.height).reduce(f64::min),
    ) else {
        return "Nothing but what you put there holds the parts: no tabs are left.".to_owned();
    };
    format!(
        "{} tabs hold the parts, each at least {} wide and {} high; where they stand is on the picture.",
        tabs.len(),
        shown.measured(width),
        shown.measured(height)
    )
}

/// All that the bits sweep in travelling and cutting.
fn reach(programs: &[Program]) -> Option<Rect> {
    let boxes = programs.iter().filter_map(|program| {
        let radius = program.diameter / 2.0;
        let ends = program.moves.windows(2).map(|pair| {
            let bulge = match pair[1].to {
                To::Arc { bulge, .. } => bulge,
                To::Rapid | To::Straight { .. } => 0.0,
            };
            let piece = Piece {
                start: pair[0].end,
                end: pair[1].end,
                bulge,
            };
            piece.bounds()
        });
        Some(ends.reduce(|a, b| a.union(b))?.inflate(radius, radius))
    });
    boxes.reduce(|a, b| a.union(b))
}

/// The places on the bed and on the sheet that are kept free.
fn kept_out(planned: &PlannedSheet, on_bed: &[Rect], shown: Shown) -> Vec<Html> {
    let measured = |mm| shown.measured(mm);
    let place = |whose: &str, r: Rect| {
        text(&format!(
            "{whose} x {} to {}, y {} to {}",
            measured(r.x0),
            measured(r.x1),
            measured(r.y0),
            measured(r.y1)
        ))
    };
    let bed = on_bed.iter().map(|&r| place("On the bed:", r));
    let on_sheet = planned.sheet.stock.keep_outs.iter();
    let on_sheet = on_sheet.map(|outline| place("On the sheet, no part lies there:", outline.bounds()));
    let mut places: Vec<Html> = bed.chain(on_sheet).collect();
    if places.is_empty() {
        places.push(text("The shop file states no place to keep out of."));
    }
    places
}
