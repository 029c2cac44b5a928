//! A job planned to the last move, before a byte of it is written.

use crate::arches::{NamedArch, arches};
use crate::batch::{Batch, Taken};
use crate::forms::forms;
use crate::kits;
use crate::laid_stock::LaidStock;
use crate::own_lines::check_own_lines;
use crate::paper::Printing;
use crate::shop::{UNKNOWN_CUTTER, bits, machine, machine_at, zero};
use crate::trouble::Trouble;
use cintre_forms::Form;
use cintre_geometry::Outline;
use cintre_job::{Job, MachineSpec, Shop};
use cintre_measure::{Rule, Unit};
use cintre_toolpath::{Beamed, Lines, beamed, choose_bits, penned};
use cintre_work::{Bit, BitKind, Caution, Machine, Part, Sheet, Stock, Tab, cautions};

/// A job planned: what is made, on which sheets, by which moves.
#[derive(Debug)]
pub struct Plan {
    /// The job's title.
    pub title: String,
    /// The unit that its figures are shown in.
    pub units: Unit,
    /// The rule that figures are read on, where it is one of that unit.
    pub rule: Rule,
    /// What the measure that radii are set with reads at its pivot, mm; none where its zero lies there.
    pub zero_offset: Option<f64>,
    /// The length and the width of the floor that arches are set out on, mm; none where the shop does not say.
    pub room: Option<[f64; 2]>,
    /// Its arches.
    pub arches: Vec<NamedArch>,
    /// Its forms.
    pub forms: Vec<Form>,
    /// Its sheets.
    pub sheets: Vec<PlannedSheet>,
    /// What their layouts come to.
    pub layouts: Vec<LaidStock>,
    /// What its full-size drawings are printed on.
    pub(crate) printing: Printing,
    /// What hurts, of everything in the job.
    pub cautions: Vec<String>,
}

/// A sheet, who cuts it, and how.
#[derive(Debug)]
pub struct PlannedSheet {
    /// The sheet with its parts.
    pub sheet: Sheet,
    /// Who cuts it.
    pub machine: Machine,
    /// The bits that cut it; none for a drawing.
    pub bits: Vec<Bit>,
    /// What the bits do; none for a drawing.
    pub road: Option<cintre_toolpath::Plan>,
    /// The lines that a beam or a pen follows; none for other machines.
    pub lines: Option<Lines>,
    /// The cautions of what is on it and of who cuts it.
    pub cautions: Vec<String>,
    /// What stays whole of it, if it is the sheet of its stock with the most left, mm.
    pub left_over: Option<Outline>,
}

impl PlannedSheet {
    /// The tabs that hold its parts, whatever cuts them.
    pub(crate) fn tabs(&self) -> &[Tab] {
        match (&self.road, &self.lines) {
            (Some(road), _) => &road.tabs,
            (None, Some(lines)) => &lines.tabs,
            (None, None) => &[],
        }
    }
}

/// What long work tells while it goes on, and how it is stopped.
#[derive(Clone, Copy)]
#[expect(
    missing_debug_implementations,
    reason = "three questions to the caller, with nothing in them to show"
)]
pub struct Conduct<'a> {
    /// Told what is being done.
    pub say: &'a dyn Fn(&str),
    /// Asked whether to make do with the layouts found so far.
    pub stop: &'a dyn Fn() -> bool,
    /// Reads a file that the job names, beside the job file; or says why it cannot.
    pub read: &'a dyn Fn(&str) -> Result<Vec<u8>, String>,
}

/// Plans a job.
pub fn plan(job: &Job, shop: &Shop, conduct: Conduct<'_>) -> Result<Plan, Trouble> {
    job.check_shop(shop)?;
    check_own_lines(job, shop)?;
    let printing = Printing::of(job, shop)?;
    (conduct.say)("working out the arches");
    let arches = arches(job, conduct.read)?;
    (conduct.say)("designing the forms");
    let forms = forms(job, shop, &arches)?;
    let (sheets, layouts) = Planner {
        job,
        shop,
        forms: &forms,
        conduct,
    }
    .sheets()?;
    let surveys = arches.iter().filter(|arch| arch.survey.is_some());
    let kinds: Vec<Caution> = forms
        .iter()
        .flat_map(|f| f.cautions.iter().copied())
        .chain(sheets.iter().map(caution))
        .chain(surveys.map(|_| Caution::Measured))
        .chain((!printing.papers.is_empty()).then_some(Caution::Saws))
        .collect();
    Ok(Plan {
        title: job.title.clone(),
        units: job.units,
        rule: job.rule_in(shop),
        zero_offset: shop.house.zero_offset,
        printing,
        room: shop.house.room,
        arches,
        cautions: cautions(&kinds),
        forms,
        sheets,
        layouts,
    })
}

/// The width of what cuts the parts of a stock, which sets how far they stand apart, mm.
pub(crate) fn cutter(machine: &MachineSpec, stock: &Stock, bits: &[Bit]) -> f64 {
    match machine {
        MachineSpec::Router(_) => bits
            .iter()
            .filter(|bit| bit.kind == BitKind::Straight)
            .map(|bit| bit.diameter)
            .fold(0.0, f64::max),
        MachineSpec::Laser(laser) => laser.kerf.get(&stock.material).copied().unwrap_or(0.0),
        MachineSpec::Pen(pen) => pen.pen,
        MachineSpec::Drawing(_) => UNKNOWN_CUTTER,
    }
}

const fn caution(sheet: &PlannedSheet) -> Caution {
    match sheet.machine {
        Machine::Router(_) => Caution::Router,
        Machine::Laser(_) => Caution::Laser,
        Machine::Pen(_) => Caution::Pen,
        Machine::Drawing(_) => Caution::Drawing,
    }
}

pub(crate) struct Planner<'a> {
    pub(crate) job: &'a Job,
    pub(crate) shop: &'a Shop,
    pub(crate) forms: &'a [Form],
    pub(crate) conduct: Conduct<'a>,
}

impl Planner<'_> {
    /// Every sheet of the job, and what its layouts come to: for each kit, if they lie apart, each machine and each stock in
    /// the order of first use.
    fn sheets(&self) -> Result<(Vec<PlannedSheet>, Vec<LaidStock>), Trouble> {
        let mut batches: Vec<Batch<'_>> = Vec::new();
        for (number, (spec, form)) in self.job.make.iter().zip(self.forms).enumerate() {
            for part in &form.parts {
                let batch = Batch {
                    kit: self.job.kits_apart.then(|| kits::of(&self.job.make, number)),
                    machine: &spec.machine,
                    stock: &part.stock,
                };
                if !batches.contains(&batch) {
                    batches.push(batch);
                }
            }
        }
        // Kits one after the other, each in the order of its first use.
        batches.sort_by_key(|batch| batch.kit);
        let mut taken = Taken::new();
        let (mut sheets, mut layouts) = (Vec::new(), Vec::new());
        for batch in batches {
            let (more, laid) = self.batch(batch, &mut taken, sheets.len())?;
            sheets.extend(more);
            layouts.push(laid);
        }
        Ok((sheets, layouts))
    }

    pub(crate) fn bits(
        &self,
        name: &str,
        spec: &MachineSpec,
        parts: &[Part],
        stock: &Stock,
    ) -> Result<Vec<Bit>, Trouble> {
        // Which bits cut them does not depend on where the zero will be.
        match machine(name, spec, (0.0, 0.0)) {
            Machine::Drawing(_) | Machine::Laser(_) | Machine::Pen(_) => Ok(Vec::new()),
            Machine::Router(router) => choose_bits(parts, stock, &router, &bits(self.shop, spec))
                .map_err(|error| self.toolpath_trouble(&error, name)),
        }
    }

    /// The lines that a beam or a pen follows over a sheet.
    fn lines(&self, sheet: &Sheet, machine: &Machine) -> Result<Option<Lines>, Trouble> {
        let lines = match machine {
            Machine::Router(_) | Machine::Drawing(_) => return Ok(None),
            Machine::Laser(laser) => {
                cintre_toolpath::beam_of(laser, &sheet.stock.material).and_then(|(kerf, _)| {
                    let beam = Beamed {
                        machine: &laser.name,
                        bed: laser.bed,
                        kerf,
                        least_bridge: laser.least_bridge,
                        tabs: laser.tabs,
                    };
                    beamed(sheet, &beam)
                })
            }
            Machine::Pen(pen) => penned(sheet, &pen.name, pen.bed),
        };
        lines
            .map(Some)
            .map_err(|error| self.toolpath_trouble(&error, machine.name()))
    }

    pub(crate) fn planned(
        &self,
        sheet: Sheet,
        name: &str,
        spec: &MachineSpec,
        bits: &[Bit],
    ) -> Result<PlannedSheet, Trouble> {
        let zero = zero(spec, &sheet).map_err(|fault| Trouble::Impossible(vec![*fault]))?;
        let machine = machine_at(name, spec, zero, &sheet.stock);
        let lines = self.lines(&sheet, &machine)?;
        let road = match &machine {
            Machine::Drawing(_) | Machine::Laser(_) | Machine::Pen(_) => None,
            Machine::Router(router) => {
                (self.conduct.say)(&format!("planning the cuts of {}", sheet.id));
                let road = cintre_toolpath::plan(&sheet, router, bits);
                Some(road.map_err(|error| self.toolpath_trouble(&error, name))?)
            }
        };
        let mut planned = PlannedSheet {
            sheet,
            machine,
            bits: bits.to_vec(),
            road,
            lines,
            cautions: Vec::new(),
            left_over: None,
        };
        let mut kinds = vec![caution(&planned)];
        for placed in &planned.sheet.parts {
            kinds.extend(
                self.owner(&placed.name)
                    .into_iter()
                    .flat_map(|(_, form)| form.cautions.iter().copied()),
            );
        }
        planned.cautions = cautions(&kinds);
        Ok(planned)
    }
}
