//! What is said: results on standard output, talk and progress on standard error.

use crate::args::{Colour, Common, Units};
use crate::outcome::Failure;
use cintre_make::{Plan, Shown};
use cintre_measure::Unit;
use std::cell::RefCell;
use std::env;
use std::io::{self, IsTerminal, Write};
use std::time::Duration;

const RED: &str = "\x1b[31;1m";
const PLAIN: &str = "\x1b[0m";

/// Where the command speaks.
#[derive(Debug)]
pub(crate) struct Terminal {
    /// Whether results are printed as JSON.
    pub(crate) json: bool,
    /// How long whoever sits there waits for the search of a layout, if they said.
    pub(crate) waits: Option<Duration>,
    talk: Talk,
    coloured: bool,
    units: Option<Units>,
    /// The progress line that stands there, to be rubbed out.
    progress: RefCell<String>,
}

/// How much is said besides results and faults.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Talk {
    /// Nothing.
    None,
    /// What is worth knowing.
    Plain,
    /// That, and a progress line, which is rubbed out again: somebody watches.
    Watched,
}

impl Terminal {
    pub(crate) fn new(common: &Common) -> Self {
        let watched = io::stderr().is_terminal();
        Self {
            json: common.json,
            waits: common.search_at_most.map(|s| Duration::from_secs(s.into())),
            talk: match (common.quiet, watched) {
                (true, _) => Talk::None,
                (false, true) => Talk::Watched,
                (false, false) => Talk::Plain,
            },
            coloured: match common.colour {
                Colour::Always => true,
                Colour::Never => false,
                Colour::Auto => watched && env::var_os("NO_COLOR").is_none(),
            },
            units: common.units,
            progress: RefCell::default(),
        }
    }

    /// How figures of a plan are shown: in the job's unit, or in the one asked for.
    pub(crate) fn shown(&self, plan: &Plan) -> Shown {
        let units = match self.units {
            None => plan.units,
            Some(Units::Mm) => Unit::Millimetre,
            Some(Units::In) => Unit::Inch,
        };
        Shown::new(plan, units)
    }

    /// A result.
    pub(crate) fn print(&self, text: &str) -> Result<(), Failure> {
        self.rub_out();
        let mut out = io::stdout().lock();
        out.write_all(text.as_bytes())
            .and_then(|()| out.flush())
            .map_err(|error| match error.kind() {
                io::ErrorKind::BrokenPipe => Failure::ClosedPipe,
                _ => Failure::io("standard output".as_ref(), "written")(error),
            })
    }

    /// A result as JSON.
    pub(crate) fn print_json(&self, value: &serde_json::Value) -> Result<(), Failure> {
        self.print(&format!("{value:#}\n"))
    }

    /// Something to know that is no result.
    pub(crate) fn say(&self, text: &str) {
        if self.talk != Talk::None {
            self.tell(text);
        }
    }

    /// What is going on, on a line that the next one takes the place of.
    pub(crate) fn progress(&self, text: &str) {
        // One that says the same stays, and does not flicker.
        if self.talk == Talk::Watched && *self.progress.borrow() != text {
            self.rub_out();
            self.put(text);
            self.progress.replace(text.to_owned());
        }
    }

    /// Why the command failed.
    pub(crate) fn fail(&self, failure: &Failure) {
        let faults = failure.faults();
        if self.json && !faults.is_empty() {
            // A failure to print is a lesser one than that which is being told.
            let told = self.print_json(&serde_json::json!({ "faults": faults }));
            drop(told);
        }
        for fault in faults {
            self.tell(&fault.to_string());
        }
        let (red, plain) = if self.coloured { (RED, PLAIN) } else { ("", "") };
        let many = if faults.len() > 1 {
            format!(" ({} of them)", faults.len())
        } else {
            String::new()
        };
        self.tell(&format!("{red}cintre: {failure}{many}{plain}"));
    }

    fn tell(&self, text: &str) {
        self.rub_out();
        self.put(&format!("{text}\n"));
    }

    fn rub_out(&self) {
        let shown = self.progress.take().chars().count();
        if shown > 0 {
            self.put(&format!("\r{}\r", " ".repeat(shown)));
        }
    }

    /// Standard error is where trouble is told; if it is gone there is nobody left to tell.
    fn put(&self, text: &str) {
        let mut err = io::stderr().lock();
        let told = err.write_all(text.as_bytes()).and_then(|()| err.flush());
        drop(told);
    }
}
