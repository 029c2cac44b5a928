//! The job's forms, designed: a file for each kind, which turns the job's words into the form's own plain input.

use crate::arches::NamedArch;
use crate::shop::{UNKNOWN_CUTTER, bits};
use crate::trouble::{Trouble, gathered};
use cintre_forms::centering::Usable;
use cintre_forms::{Error, Form};
use cintre_geometry::Path;
use cintre_job::{Fault, Form as JobForm, FormSpec, Grain, Job, Shape, Shop, StockSpec};
use cintre_work::{BitKind, Caution};
use std::collections::BTreeSet;

mod bending;
mod centering;
mod curved_head;
mod model;
mod pattern;
mod template;
mod trammel;

/// Designs every form of a job, in its order, or says everything that is wrong with them.
pub(crate) fn forms(job: &Job, shop: &Shop, arches: &[NamedArch]) -> Result<Vec<Form>, Trouble> {
    let attempts = job.make.iter().map(|spec| {
        let arch = arches.iter().find(|arch| arch.name == spec.arch);
        let arch = arch.ok_or_else(|| spec.places.at("arch").fault("no such arch", None))?;
        form(spec, job, shop, (arch, arches))
    });
    let mut forms = gathered(attempts).map_err(Trouble::Impossible)?;
    tell_apart(&mut forms);
    Ok(forms)
}

/// What a form is designed from: what the job asks for, and what the shop and its arch are.
#[derive(Clone, Copy)]
struct Asked<'a> {
    spec: &'a FormSpec,
    job: &'a Job,
    shop: &'a Shop,
    arch: &'a NamedArch,
    stock: &'a StockSpec,
}

fn form(
    spec: &FormSpec,
    job: &Job,
    shop: &Shop,
    (arch, arches): (&NamedArch, &[NamedArch]),
) -> Result<Form, Fault> {
    let stock = shop.stock.get(&spec.stock);
    let stock = stock.ok_or_else(|| spec.places.at("stock").fault("the shop has no such stock", None))?;
    let asked = Asked {
        spec,
        job,
        shop,
        arch,
        stock,
    };
    let mut form = match &spec.form {
        JobForm::Centering(c) => centering::form(asked, c),
        JobForm::Model(m) => model::form(asked, m),
        JobForm::Pattern(p) => pattern::form(asked, p),
        JobForm::Template(t) => template::form(asked, t),
        JobForm::Trammel(t) => trammel::form(asked, t, arches),
        JobForm::BendingForm(b) => bending::form(asked, b),
        JobForm::CurvedHead(c) => curved_head::form(asked, c),
    }?;
    if arch.survey.is_some() {
        form.cautions.push(Caution::Measured);
    }
    for part in &mut form.parts {
        part.count = part.count.saturating_mul(spec.copies as usize);
    }
    for item in &mut form.list {
        item.count = item.count.saturating_mul(spec.copies as usize);
    }
    Ok(form)
}

/// The depth of the arch's ring and its back; `field` is the one that asks for it.
fn ring(asked: Asked<'_>, field: &str) -> Result<(f64, Path), Fault> {
    let Asked { spec, arch, .. } = asked;
    arch.ring.clone().ok_or_else(|| {
        let level = asked
            .job
            .arch(&arch.name)
            .is_some_and(|spec| spec.shape == Shape::Camber);
        let help = if level {
            "a camber arch has a level back and no ring: ask for its soffit or what is inside it".to_owned()
        } else {
            format!("give the arch {} its `ring`, the depth of the ring", arch.name)
        };
        spec.places
            .at(field)
            .fault("a ring is asked for, and its arch has none", Some(help))
    })
}

/// A centre carries a ring that begins at the soffit, and no casing that stands back from it.
fn no_reveal(asked: Asked<'_>) -> Result<(), Fault> {
    let Some((reveal, _)) = asked.arch.reveal.as_ref().filter(|(reveal, _)| *reveal > 0.0) else {
        return Ok(());
    };
    let places = asked
        .job
        .arch(&asked.spec.arch)
        .map_or(&asked.spec.places, |arch| &arch.places);
    let what = format!(
        "a ring that stands back from its soffit by {reveal:.1} mm is a casing, and no centre carries it"
    );
    let help = "give the centre an arch of its own without a `reveal`".to_owned();
    Err(places.at("reveal").fault(what, Some(help)))
}

/// A hole that takes a screw, mm, on a machine that makes any hole.
const SCREW: f64 = 5.0;

/// The narrowest hole that takes a screw and that the form's machine makes, mm.
fn least_screw(spec: &FormSpec, shop: &Shop) -> f64 {
    let held = shop
        .machines
        .get(&spec.machine)
        .map(|machine| bits(shop, machine));
    let made = held.iter().flatten().filter_map(|bit| match bit.kind {
        BitKind::Drill => Some(bit.diameter),
        BitKind::Straight => Some(cintre_toolpath::least_bore(bit.diameter)),
        BitKind::Vee(_) | BitKind::Bearing(_) => None,
    });
    let narrowest = made.filter(|hole| *hole >= SCREW).min_by(f64::total_cmp);
    narrowest.unwrap_or(SCREW)
}

/// The widest bit that the form's machine might run, mm.
fn widest_cutter(spec: &FormSpec, shop: &Shop) -> f64 {
    let held = shop
        .machines
        .get(&spec.machine)
        .map(|machine| bits(shop, machine))
        .unwrap_or_default();
    let straight = held
        .iter()
        .filter(|bit| bit.kind == BitKind::Straight)
        .map(|bit| bit.diameter);
    straight.max_by(f64::total_cmp).unwrap_or(UNKNOWN_CUTTER)
}

/// The room on a sheet inside its trim, along its grain and across.
fn usable(stock: &StockSpec) -> Usable {
    let taken = stock.trim.taken();
    let [first, second] = [0, 1].map(|axis| (stock.sheet[axis] - taken[axis]).max(0.0));
    let (along, across) = match stock.grain {
        Grain::Short => (second, first),
        Grain::Long | Grain::None => (first, second),
    };
    Usable {
        along,
        across,
        either_way: stock.grain == Grain::None,
    }
}

/// A form's refusal, at the field of the job that it speaks of.
fn fault(spec: &FormSpec, job: &Job, error: &Error) -> Fault {
    let written = |field: &str| spec.places.at(field).given.is_some();
    let place = match (error.field(), job.arch(&spec.arch)) {
        // The tie was left to its usual depth, and it is the bolts that the user chose.
        ("tie", _) if !written("tie") && written("bolt") => spec.places.at("bolt"),
        (field @ ("ring" | "reveal"), Some(arch)) => arch.places.at(field),
        (field, _) => spec.places.at(field),
    };
    place.fault(error.to_string(), None)
}

/// Numbers the parts of forms that would bear the same name: `gate rib`, `gate rib, form 2`.
fn tell_apart(forms: &mut [Form]) {
    let mut taken = BTreeSet::new();
    for (number, form) in forms.iter_mut().enumerate() {
        for part in &mut form.parts {
            if !taken.insert(part.name.clone()) {
                part.name = format!("{}, form {}", part.name, number + 1);
                taken.insert(part.name.clone());
            }
        }
    }
}
