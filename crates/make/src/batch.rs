//! Parts of one stock that one machine cuts, laid on their sheets.

use crate::plan::{PlannedSheet, Planner, cutter};
use crate::shop::{sheets_of, spacing};
use crate::trouble::Trouble;
use cintre_geometry::{Outline, Rect};
use cintre_job::{Effort as JobEffort, MachineSpec};
use cintre_layout::{Conduct, Effort, LaidOut, Settings, Turns, lay_out};
use cintre_work::{Sheet, Stock};
use std::collections::BTreeMap;

/// Where chance begins in every layout: the same job is laid out the same way.
const SEED: u64 = 1;

/// How many sheets of each entry of the shop are spoken for.
pub(crate) type Taken = BTreeMap<String, usize>;

impl Planner<'_> {
    /// The sheets of one stock that one machine cuts; `before` is how many sheets the job has so far.
    pub(crate) fn batch(
        &self,
        machine_name: &str,
        stock_name: &str,
        taken: &mut Taken,
        before: usize,
    ) -> Result<Vec<PlannedSheet>, Trouble> {
        let broken = || {
            Trouble::Broken(format!(
                "{machine_name} or {stock_name} went missing after the check"
            ))
        };
        let machine_spec = self.shop.machines.get(machine_name).ok_or_else(broken)?;
        let (names, stocks): (Vec<&str>, Vec<Stock>) = sheets_of(self.shop, stock_name)
            .into_iter()
            .map(|(own, mut stock)| {
                let spoken_for = taken.get(own).copied().unwrap_or(0);
                stock.sheets = stock.sheets.map(|n| n.saturating_sub(spoken_for));
                stock.keep_outs.extend(off_the_bed(machine_spec, stock.size));
                (own, stock)
            })
            .unzip();
        let stock = stocks.last().ok_or_else(broken)?;
        let parts = self.parts(machine_name, stock_name);
        let bits = self.bits(machine_name, machine_spec, &parts, stock)?;
        (self.conduct.say)(&format!("laying out {stock_name}"));
        let settings = Settings {
            spacing: own_spacing(machine_spec)
                .unwrap_or_else(|| spacing(self.shop.house.spacing, cutter(machine_spec, stock, &bits))),
            effort: match self.job.effort {
                JobEffort::Quick => Effort::QUICK,
                JobEffort::Usual => Effort::USUAL,
                JobEffort::Patient => Effort::PATIENT,
            },
            turns: Turns::Quarter,
            openings: holds_waste(machine_spec),
            seed: SEED,
        };
        let conduct = Conduct {
            say: self.conduct.say,
            stop: self.conduct.stop,
        };
        let laid = lay_out(&parts, &stocks, settings, conduct)
            .map_err(|error| self.layout_trouble(&error, &parts))?;
        let mut planned = Vec::new();
        for (number, mut sheet) in laid.sheets.iter().cloned().enumerate() {
            let left = left_over(&laid, &sheet);
            // A sheet is called what the shop calls it, so that it is the right one that is fetched.
            if let Some(own) = stocks.iter().position(|s| *s == sheet.stock) {
                names[own].clone_into(&mut sheet.stock.name);
                *taken.entry(names[own].to_owned()).or_default() += 1;
            }
            sheet.id = format!("sheet-{}", before + number + 1);
            let mut made = self.planned(sheet, machine_name, machine_spec, &bits)?;
            made.left_over = left;
            planned.push(made);
        }
        Ok(planned)
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
    let MachineSpec::Laser(laser) = machine else {
        return Vec::new();
    };
    let [across, up] = laser.bed;
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
fn left_over(laid: &LaidOut, sheet: &Sheet) -> Option<Rect> {
    let offcuts = laid.report.stocks.iter().filter_map(|s| s.offcut.as_ref());
    offcuts.filter(|o| o.sheet == sheet.id).map(|o| o.area).next()
}
