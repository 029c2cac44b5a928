//! What the layout of one stock came to.

use crate::PlannedSheet;
use crate::figures::Shown;
use cintre_geometry::Outline;
use cintre_layout::Report;

/// What the layout of one stock came to, for one machine.
#[derive(Clone, Debug, PartialEq)]
pub struct LaidStock {
    /// The stock.
    pub stock: String,
    /// Who cuts it.
    pub machine: String,
    /// How many sheets it takes.
    pub sheets: usize,
    /// No layout takes fewer, going by area alone.
    pub bound: usize,
    /// The share of the sheets that is parts.
    pub density: f64,
    /// How far parts are to stand apart at least, mm.
    pub spacing: f64,
    /// How near two of them come to each other, as measured, mm; none where no two lie on one sheet.
    pub least_gap: Option<f64>,
    /// The sheet of which most stays whole, and that.
    pub left: Option<(String, Outline)>,
    stopped: bool,
    rounded: Vec<String>,
}

impl LaidStock {
    pub(crate) fn new(
        stock: &str,
        machine: &str,
        spacing: f64,
        report: &Report,
        planned: &[PlannedSheet],
    ) -> Self {
        let left = planned
            .iter()
            .find_map(|p| Some((p.sheet.id.clone(), p.left_over.clone()?)));
        Self {
            stock: stock.to_owned(),
            machine: machine.to_owned(),
            sheets: planned.len(),
            bound: report.stocks.iter().map(|s| s.bound).sum(),
            density: report.stocks.first().map_or(0.0, |s| s.density),
            spacing,
            least_gap: report.least_gap,
            left,
            stopped: report.stopped,
            rounded: report.rounded.clone(),
        }
    }

    /// What it came to in one sentence.
    pub fn sentence(&self, shown: Shown) -> String {
        let Self { stock, machine, .. } = self;
        let plural = if self.sheets == 1 { "" } else { "s" };
        let sheets = format!(
            "{stock} for {machine}: {} sheet{plural}, {} at least by area alone",
            self.sheets, self.bound
        );
        let parts = format!("{:.0} % of it is parts", 100.0 * self.density);
        let gap = self.least_gap.map(|gap| {
            format!(
                "the least gap between two is {gap:.3} mm as measured, {:.3} mm as asked for",
                self.spacing
            )
        });
        let left = self.left.as_ref().map(|(sheet, outline)| {
            let (size, corners) = (outline.bounds(), outline.vertices().len());
            let less = if corners == 4 {
                ""
            } else {
                " less what is cut out of it"
            };
            let (length, width) = (shown.length(size.width()), shown.length(size.height()));
            format!("{length} × {width}{less} stays whole of {sheet}")
        });
        let all: Vec<String> = [sheets, parts].into_iter().chain(gap).chain(left).collect();
        all.join("; ")
    }

    /// What ought to be known of it.
    pub(crate) fn notes(&self) -> Vec<String> {
        let Self { stock, .. } = self;
        let stopped = self.stopped.then(|| {
            format!("{stock}: the search of the layout was ended early; the same job may be laid out otherwise another time")
        });
        let rounded = self.rounded.iter().map(|part| {
            format!(
                "{stock}: {part} is laid by the convex outline round it, and may take more room than it needs"
            )
        });
        stopped.into_iter().chain(rounded).collect()
    }
}
