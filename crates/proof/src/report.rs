//! Gathers what is found and brings it into a verdict.

use cintre_geometry::Point;
use cintre_work::{Finding, Verdict};

/// More faults of reading than this say nothing new.
const FAULTS_SHOWN: usize = 20;

/// The figure, in mm, where there is nothing at all to measure to: a kilometre, since JSON has no infinity.
pub const NOTHING: f64 = 1e6;

/// What has been found in one file so far.
#[derive(Clone, Debug, Default)]
pub(crate) struct Report {
    pub(crate) gouge: f64,
    pub(crate) leftover: f64,
    pub(crate) uncut_edge: f64,
    found: Vec<(f64, Finding)>,
}

impl Report {
    /// A finding that counts by its size in mm.
    pub(crate) fn find(&mut self, size: f64, what: String) -> &mut Finding {
        let finding = Finding {
            what,
            part: None,
            at: None,
            line: None,
        };
        self.found.push((size, finding));
        let last = self.found.len() - 1;
        &mut self.found[last].1
    }

    /// A finding before all others: the file cannot be taken at its word.
    pub(crate) fn refuse(&mut self, what: impl Into<String>) -> &mut Finding {
        self.find(f64::INFINITY, what.into())
    }

    /// The faults of a reader, each with its line (0 for the whole file).
    pub(crate) fn faults<'a>(&mut self, faults: impl ExactSizeIterator<Item = (usize, &'a str)>) {
        let count = faults.len();
        for (line, what) in faults.take(FAULTS_SHOWN) {
            self.refuse(what).line = (line > 0).then_some(line);
        }
        if count > FAULTS_SHOWN {
            self.refuse(format!("and {} faults more", count - FAULTS_SHOWN));
        }
    }

    /// Takes over another report's findings.
    pub(crate) fn join(&mut self, other: &Self) {
        self.found.extend(other.found.iter().cloned());
    }

    pub(crate) fn verdict(mut self) -> Verdict {
        self.found.sort_by(|a, b| b.0.total_cmp(&a.0));
        Verdict {
            gouge: self.gouge.min(NOTHING),
            leftover: self.leftover.min(NOTHING),
            uncut_edge: self.uncut_edge,
            passed: self.found.is_empty(),
            findings: self.found.into_iter().map(|(_, finding)| finding).collect(),
        }
    }
}

pub(crate) const fn spot(p: Point) -> Option<[f64; 2]> {
    Some([p.x, p.y])
}
