//! Parts of one stock that one machine cuts, laid on their sheets.

use crate::kits;
use crate::laid_stock::LaidStock;
use crate::plan::{PlannedSheet, Planner, cutter};
use crate::shop::{sheets_of, spacing};
use crate::trouble::Trouble;
use cintre_geometry::{Outline, Rect};
use cintre_job::{Effort as JobEffort, GrainRule, MachineSpec};
use cintre_layout::{Conduct, Effort, LaidOut, Settings, Turns, lay_out};
use cintre_work::{Grain, Part, Sheet, Stock};
use std::collections::BTreeMap;

/// Where chance begins in every layout: the same job is laid out the same way.
const SEED: u64 = 1;

/// How many sheets of each entry of the shop are spoken for.
pub(crate) type Taken = BTreeMap<String, usize>;

/// What is laid out together.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Batch<'a> {
    /// The one kit that it is of, where kits lie apart.
    pub(crate) kit: Option<usize>,
    pub(crate) machine: &'a str,
    pub(crate) stock: &'a str,
}

impl Planner<'_> {
    /// The sheets of a batch, and what they come to; `before` is how many sheets the job has so far.
    pub(crate) fn batch(
        &self,
        batch: Batch<'_>,
        taken: &mut Taken,
        before: usize,
    ) -> Result<(Vec<PlannedSheet>, LaidStock), Trouble> {
        let Batch { machine, stock, .. } = batch;
        let broken = || Trouble::Broken(format!("{machine} or {stock} went missing after the check"));
        let spec = self.shop.machines.get(machine).ok_or_else(broken)?;
        let (names, stocks): (Vec<&str>, Vec<Stock>) = sheets_of(self.shop, stock)
            .into_iter()
            .map(|(own, mut stock)| {
                let spoken_for = taken.get(own).copied().unwrap_or(0);
                stock.sheets = stock.sheets.map(|n| n.saturating_sub(spoken_for));
                stock.keep_outs.extend(off_the_bed(spec, stock.size));
                (own, stock)
            })
            .unzip();
        let whole = stocks.last().ok_or_else(broken)?;
        let parts = self.parts(batch);
        let bits = self.bits(machine, spec, &parts, whole)?;
        (self.conduct.say)(&format!("laying out {stock}"));
        let spacing =
            own_spacing(spec).unwrap_or_else(|| spacing(self.shop.house.spacing, cutter(spec, whole, &bits)));
        let conduct = Conduct {
            say: self.conduct.say,
            stop: self.conduct.stop,
        };
        let laid = lay_out(&parts, &stocks, self.settings(spacing, spec), conduct)
            .map_err(|error| self.layout_trouble(&error, &parts))?;
        let kit_of = |name: &str| {
            self.number_of(name)
                .map(|number| kits::of(&self.job.make, number))
        };
        let mut planned = Vec::new();
        for (number, at) in kits::order(&laid.sheets, kit_of).into_iter().enumerate() {
            let mut sheet = laid.sheets[at].clone();
            let left = left_over(&laid, &sheet);
            // A sheet is called what the shop calls it, so that it is the right one that is fetched.
            if let Some(own) = stocks.iter().position(|s| *s == sheet.stock) {
                names[own].clone_into(&mut sheet.stock.name);
                *taken.entry(names[own].to_owned()).or_default() += 1;
            }
            sheet.id = format!("sheet-{}", before + number + 1);
            let mut made = self.planned(sheet, machine, spec, &bits)?;
            made.left_over = left;
            planned.push(made);
        }
        let report = LaidStock::new(stock, machine, spacing, &laid.report, &planned);
        Ok((planned, report))
    }

    /// The parts of a batch, their grain as the job wants it.
    pub(crate) fn parts(&self, batch: Batch<'_>) -> Vec<Part> {
        let forms = self.job.make.iter().zip(self.forms).enumerate();
        let wanted = forms.filter(|(number, (spec, _))| {
            let of_kit = |kit| kits::of(&self.job.make, *number) == kit;
            spec.machine == batch.machine && batch.kit.is_none_or(of_kit)
        });
        let parts = wanted.flat_map(|(_, (spec, form))| {
            let of_stock = form.parts.iter().filter(|part| part.stock == batch.stock);
            of_stock.map(|part| Part {
                grain: grain(spec.grain, part.grain),
                ..part.clone()
            })
        });
        parts.collect()
    }

    fn settings(&self, spacing: f64, machine: &MachineSpec) -> Settings {
        Settings {
            spacing,
            effort: match self.job.effort {
                JobEffort::Quick => Effort::QUICK,
                JobEffort::Usual => Effort::USUAL,
                JobEffort::Patient => Effort::PATIENT,
            },
            turns: Turns::Quarter,
            openings: holds_waste(machine),
            seed: SEED,
        }
    }
}

/// A part's grain as the form that it is of wants it to lie.
const fn grain(wanted: GrainRule, own: Grain) -> Grain {
    match (wanted, own) {
        (GrainRule::ByForm, own) => own,
        (GrainRule::Free, _) => Grain::Free,
        (GrainRule::Fixed, Grain::Along(angle) | Grain::Fixed(angle)) => Grain::Fixed(angle),
        (GrainRule::Fixed, Grain::Free) => Grain::Fixed(0.0),
    }
}

/// How far parts stand apart on a machine that has a rule of its own, mm.
const fn own_spacing(machine: &MachineSpec) -> Option<f64> {
    match machine {
        MachineSpec::Laser(laser) => laser.spacing,
        _ => None,
    }
}

/// Places of a sheet that lie off a bed smaller than it: the sheet is pushed into the bed's near left corner.
fn off_the_bed(machine: &MachineSpec, (length, width): (f64, f64)) -> Vec<Outline> {
    let Some([across, up]) = machine.bed() else {
        return Vec::new();
    };
    let beyond = [
        Rect::new(across, 0.0, length, width),
        Rect::new(0.0, up, across.min(length), width),
    ];
    let places = beyond.iter().filter(|r| r.width() > 0.0 && r.height() > 0.0);
    places.map(|r| Outline::rectangle(*r)).collect()
}

/// Whether the waste of an opening stays where it is until everything is cut: then a part may lie in it.
fn holds_waste(machine: &MachineSpec) -> bool {
    matches!(machine, MachineSpec::Router(router) if router.tabs.is_some())
}

/// What stays whole of this sheet, if it is the one that the layout kept it on.
fn left_over(laid: &LaidOut, sheet: &Sheet) -> Option<Outline> {
    let mut offcuts = laid.report.stocks.iter().filter_map(|s| s.offcut.as_ref());
    offcuts.find(|o| o.sheet == sheet.id).map(|o| o.outline.clone())
}
