//! `cintre figures`: setting-out figures, as a table or as JSON.

use crate::args::Job;
use crate::commands::planned;
use crate::outcome::Failure;
use crate::terminal::Terminal;

pub(crate) fn run(args: &Job, terminal: &Terminal) -> Result<(), Failure> {
    let plan = planned(&args.job, terminal)?;
    if terminal.json {
        terminal.print_json(&plan.figures_json())
    } else {
        terminal.print(&plan.figures_table(terminal.shown(&plan)))
    }
}
