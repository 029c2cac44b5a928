//! `cintre check`: the whole way to the end of planning, writing nothing.

use crate::args::Job;
use crate::commands::planned;
use crate::outcome::Failure;
use crate::terminal::Terminal;
use serde_json::json;

pub(crate) fn run(args: &Job, terminal: &Terminal) -> Result<(), Failure> {
    let plan = planned(&args.job, terminal)?;
    let parts: usize = plan.sheets.iter().map(|sheet| sheet.sheet.parts.len()).sum();
    let notes: Vec<String> = plan.notes();
    if terminal.json {
        return terminal.print_json(
            &json!({ "faults": [], "sheets": plan.sheets.len(), "pieces": parts, "notes": notes }),
        );
    }
    for note in notes {
        terminal.say(&format!("note: {note}"));
    }
    let (pieces, sheets) = (counted(parts, "piece"), counted(plan.sheets.len(), "sheet"));
    terminal.print(&format!(
        "{}: it can be made: {pieces} on {sheets}\n",
        args.job.display()
    ))
}

fn counted(count: usize, thing: &str) -> String {
    let ending = if count == 1 { "" } else { "s" };
    format!("{count} {thing}{ending}")
}
