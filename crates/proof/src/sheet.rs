//! The programs of one sheet against its design.

use crate::cuts::Run;
use crate::leftover::{self, Tabs, Through};
use crate::marks::Marks;
use crate::report::Report;
use crate::wood::{self, Wood};
use crate::{DEPTH, ProgramRecord, conduct, freed, gouge, hollows, marks, reliefs, tabs};
use cintre_read::LengthUnit;
use cintre_read::gcode::{self, ProgramRead};
use cintre_work::Verdict;
use cintre_work::design::{DesignRouter, DesignSheet};

/// Proves the programs that cut one sheet, in the order in which they are run: one verdict for each, in the same order.
///
/// Gouges, depths, rapids and the bed are each program's own. What is left standing, tabs and bores are judged over all
/// of them, and so stand in the verdict of each: a sheet's programs pass or fail on them together.
pub fn prove_sheet(design: &DesignSheet, programs: &[(ProgramRecord, &[u8])]) -> Vec<Verdict> {
    let mut reports = vec![Report::default(); programs.len()];
    let Some(router) = &design.router else {
        return refused(reports, "no router is designed for this sheet");
    };
    let parts = match wood::parts(design) {
        Ok(parts) => parts,
        Err(what) => return refused(reports, &what),
    };
    let marks = Marks::new(&parts, router.mark_depth);
    let mut runs = Vec::new();
    for ((record, bytes), report) in programs.iter().zip(&mut reports) {
        let safe = record.top + router.safe_height;
        let read = gcode::read(bytes, safe, &router.own_lines);
        faults(&read, record.unit, report);
        changes(&read, record, report);
        conduct::stock(record, design, report);
        for (number, file) in record.bits().enumerate() {
            let bit = conduct::bit(file, design, report);
            let run = Run::new(record, number, bit, &read.moves);
            if let Some(bit) = bit {
                conduct::judge(&run, bit, design, router, report);
            }
            gouge::judge(&run, &parts, &marks, report);
            runs.push(run);
        }
    }
    let whole = together(design, router, &parts, &runs);
    for report in &mut reports {
        report.leftover = whole.leftover;
        report.uncut_edge = whole.uncut_edge;
        report.join(&whole);
    }
    reports.into_iter().map(Report::verdict).collect()
}

fn refused(reports: Vec<Report>, what: &str) -> Vec<Verdict> {
    let with = |mut report: Report| {
        report.refuse(what);
        report.verdict()
    };
    reports.into_iter().map(with).collect()
}

/// The program must stop for every bit that it is said to run, and for no other.
fn changes(read: &ProgramRead, record: &ProgramRecord, report: &mut Report) {
    let (found, planned) = (
        read.moves.iter().map(|m| m.bit).max().unwrap_or(0),
        record.later_bits.len(),
    );
    if found != planned {
        report.refuse(format!(
            "it moves on after {found} changes of bit, where {planned} are planned"
        ));
    }
}

/// The faults of reading, and numbers in another unit.
pub(crate) fn faults(read: &ProgramRead, unit: LengthUnit, report: &mut Report) {
    report.faults(read.faults.iter().map(|f| (f.line, f.what.as_str())));
    if read.unit.is_some_and(|stated| stated != unit) {
        report.refuse(format!("its numbers are not in {}", unit.name()));
    }
    if read.moves.is_empty() {
        report.refuse("it moves nowhere");
    }
}

/// What concerns all programs of the sheet.
fn together(design: &DesignSheet, router: &DesignRouter, parts: &[Wood<'_>], runs: &[Run]) -> Report {
    let mut report = Report::default();
    let foot = foot(design.thickness, router);
    let through = Through::below(foot, runs);
    let tops = tops(design, runs);
    tabs::of_no_part(design, parts, &mut report);
    for part in parts {
        let held = tabs::of(design, part, &mut report);
        let grouped: Vec<Tabs<'_>> = tops
            .iter()
            .map(|(height, over)| Tabs {
                held: held.iter().filter(|h| same(h.tab.height, *height)).collect(),
                over: Some(over),
            })
            .collect();
        leftover::judge(part, &through, &grouped, &mut report);
        for tab in &held {
            tab.judge(runs, design.thickness, &mut report);
            tab.judge_width(runs, foot, &mut report);
        }
        hollows::judge(part, runs, &mut report);
        reliefs::judge(part, runs, &through, &mut report);
        if router.leave_web <= 0.0 {
            freed::judge(part, runs, design.thickness, &held, &mut report);
        }
    }
    if let Some(depth) = router.mark_depth {
        marks::judge(parts, runs, depth, &mut report);
    }
    marks::arrises(parts, runs, &mut report);
    report
}

/// The heights of the sheet's tabs, each with where the bits have been at or below it.
fn tops(design: &DesignSheet, runs: &[Run]) -> Vec<(f64, Through)> {
    let mut heights: Vec<f64> = design.tabs.iter().map(|tab| tab.height).collect();
    heights.sort_by(f64::total_cmp);
    heights.dedup_by(|b, a| same(*a, *b));
    let top = |height: f64| Through::below(height - design.thickness + DEPTH, runs);
    heights.into_iter().map(|height| (height, top(height))).collect()
}

fn same(a: f64, b: f64) -> bool {
    (a - b).abs() < 1e-9
}

/// The height that every edge must be cut down to: the underside, or the face of the web that is left.
fn foot(thickness: f64, router: &DesignRouter) -> f64 {
    if router.leave_web > 0.0 {
        router.leave_web - thickness + DEPTH
    } else {
        -thickness + ProgramRecord::rounding()
    }
}
