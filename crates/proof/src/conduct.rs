//! How a program behaves apart from the shape it cuts: depths, rapids, the bed, what the bit can do.

use crate::cuts::{Run, Step};
use crate::limits::{PAST_EDGE, past};
use crate::report::{Report, spot};
use crate::{DEPTH, GOUGE, ProgramRecord};
use cintre_geometry::{Outline, Point, Rect};
use cintre_work::Finding;
use cintre_work::design::{DesignBit, DesignBore, DesignRouter, DesignSheet};
use cintre_work::manifest::FileBit;

/// A drill that goes sideways by no more than this stands still, mm: the rounding of the program.
const STANDING: f64 = 0.002;

/// Judges every move of a program; of each kind of trouble the worst is told.
pub(crate) fn judge(
    run: &Run,
    bit: &DesignBit,
    sheet: &DesignSheet,
    router: &DesignRouter,
    report: &mut Report,
) {
    depths(run, sheet, router, report);
    reach(run, bit, report);
    worst(run, report, plunged, |s| {
        format!("a rapid down to {:.2} mm below the face", -s.z.1)
    });
    if bit.drill {
        worst(run, report, drilled_aside, |_| {
            "a drill moves sideways in the wood".to_owned()
        });
    }
    let bed = Rect::new(0.0, 0.0, router.bed[0], router.bed[1]);
    worst(
        run,
        report,
        |s| past(s.bounds, bed) - PAST_EDGE,
        |s| format!("it leaves the bed by {:.2} mm", past(s.bounds, bed)),
    );
    let stock = Rect::new(0.0, 0.0, sheet.size[0], sheet.size[1]);
    let outside = |s: &Step| {
        if s.lowest() < -GOUGE {
            past(s.bounds, stock) - run.widest
        } else {
            0.0
        }
    };
    worst(
        run,
        report,
        |s| outside(s) - PAST_EDGE,
        |s| format!("it cuts {:.2} mm beyond the stock", outside(s)),
    );
    for keep_out in &router.keep_outs {
        let [x0, y0, x1, y1] = *keep_out;
        let barred = Outline::rectangle(Rect::from_points((x0, y0), (x1, y1)));
        worst(
            run,
            report,
            |s| entered(s, &barred, run.widest) - PAST_EDGE,
            |_| format!("it comes into the place kept out of, from {x0:.1}, {y0:.1} to {x1:.1}, {y1:.1}"),
        );
    }
}

/// No cut goes deeper than the machine allows, or than the web that is to be left: but bores go through it.
fn depths(run: &Run, sheet: &DesignSheet, router: &DesignRouter, report: &mut Report) {
    let web = router.leave_web;
    let bored = |s: &Step| {
        let bit = s.piece.bounds().inflate(run.widest, run.widest);
        let bores = sheet.parts.iter().flat_map(|part| &part.bores);
        let mut through = bores.filter(|bore| bore.depth.is_none());
        through.any(|bore| around(bore).contains_rect(bit))
    };
    // Which bore it is in is asked of the few that go so deep alone.
    let deep = |s: &Step| -s.lowest() > sheet.thickness - web + DEPTH;
    let kept = |s: &Step| web > 0.0 && !(deep(s) && bored(s));
    let deepest = |s: &Step| sheet.thickness + if kept(s) { -web } else { router.through };
    worst(
        run,
        report,
        |s| -s.lowest() - deepest(s) - DEPTH,
        |s| {
            let below = -s.lowest() - sheet.thickness;
            if kept(s) {
                format!(
                    "it leaves {:.2} mm of wood below it, where a web of {web:.2} mm is to stay",
                    -below
                )
            } else {
                let through = router.through;
                format!(
                    "it cuts {below:.2} mm below the underside; {through:.2} mm is what the machine allows"
                )
            }
        },
    );
}

/// The box round a bore, with what a gouge may be.
fn around(bore: &DesignBore) -> Rect {
    let radius = bore.diameter / 2.0 + GOUGE;
    Rect::from_center_size((bore.centre[0], bore.centre[1]), (2.0 * radius, 2.0 * radius))
}

/// No cut goes deeper than the bit's flutes, nor so deep that what holds the bit comes down to the stock: what stands beside a
/// cut is as high as the face, and a cut is as narrow as its bit.
fn reach(run: &Run, bit: &DesignBit, report: &mut Report) {
    let length = bit.cutting_length;
    worst(
        run,
        report,
        |s| -s.lowest() - length - GOUGE,
        |s| {
            format!(
                "it goes {:.2} mm deep with a bit that cuts {length:.2} mm",
                -s.lowest()
            )
        },
    );
    if let Some(holder) = bit.holder.filter(|holder| holder.diameter > bit.diameter) {
        worst(
            run,
            report,
            |s| -s.lowest() - holder.above - GOUGE,
            |s| {
                format!(
                    "it goes {:.2} mm deep, and what holds its bit begins {:.2} mm above the tip: that strikes the stock",
                    -s.lowest(),
                    holder.above
                )
            },
        );
    }
}

/// The bit of a program as the design has it; none where the design does not know it.
pub(crate) fn bit<'a>(file: &FileBit, sheet: &'a DesignSheet, report: &mut Report) -> Option<&'a DesignBit> {
    let name = &file.name;
    let Some(bit) = sheet.bits.iter().find(|b| b.name == *name) else {
        report.refuse(format!("its bit {name} is none of the sheet's"));
        return None;
    };
    if (bit.diameter - file.diameter).abs() > 1e-6 {
        let (file, design) = (file.diameter, bit.diameter);
        report.refuse(format!(
            "its bit {name} is said to be {file} mm, and {design} mm in the design"
        ));
    }
    Some(bit)
}

/// The face and the underside of a program must be as far apart as the stock is thick.
pub(crate) fn stock(record: &ProgramRecord, sheet: &DesignSheet, report: &mut Report) {
    let thickness = record.top - record.floor;
    if (thickness - sheet.thickness).abs() > 1e-3 {
        let design = sheet.thickness;
        report.refuse(format!(
            "its face and underside are {thickness:.3} mm apart; the stock is {design:.3} mm"
        ));
    }
}

/// Tells of the move by which `excess` is greatest, if it is over 0 for any.
fn worst(run: &Run, report: &mut Report, excess: impl Fn(&Step) -> f64, what: impl Fn(&Step) -> String) {
    let each = run.steps.iter().map(|s| (excess(s), s));
    if let Some((size, step)) = each
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .filter(|(size, _)| *size > 0.0)
    {
        let finding: &mut Finding = report.find(size, what(step));
        finding.line = Some(step.line);
        finding.at = spot(step.piece.end);
    }
}

/// How far below the face a rapid goes down.
fn plunged(s: &Step) -> f64 {
    let down = s.rapid && s.z.1 < s.z.0;
    if down { -s.z.1 } else { 0.0 }
}

fn drilled_aside(s: &Step) -> f64 {
    if s.below(-GOUGE).is_some_and(|p| p.length() > STANDING) {
        s.sideways()
    } else {
        0.0
    }
}

/// How far the bit comes into a box.
fn entered(s: &Step, barred: &Outline, radius: f64) -> f64 {
    let inside = |p: Point| barred.contains(p);
    if inside(s.piece.start) {
        return radius + barred.nearest(s.piece.start).distance;
    }
    let near = barred.pieces().map(|side| s.piece.distance_to(&side).0);
    radius - near.fold(f64::INFINITY, f64::min)
}
