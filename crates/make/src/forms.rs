//! The job's forms, designed.

use crate::arches::NamedArch;
use crate::shop::{UNKNOWN_CUTTER, bits};
use crate::trouble::{Trouble, gathered};
use cintre_forms::{Error, Form, centering, pattern};
use cintre_job::{Fault, Form as JobForm, FormSpec, Job, PatternPiece, Shop};
use cintre_work::{BitKind, Caution};
use std::collections::BTreeSet;

/// Designs every form of a job, in its order, or says everything that is wrong with them.
pub(crate) fn forms(job: &Job, shop: &Shop, arches: &[NamedArch]) -> Result<Vec<Form>, Trouble> {
    let attempts = job.make.iter().map(|spec| {
        let arch = arches.iter().find(|arch| arch.name == spec.arch);
        let arch = arch.ok_or_else(|| spec.places.at("arch").fault("no such arch", None))?;
        form(spec, job, shop, arch)
    });
    let mut forms = gathered(attempts).map_err(Trouble::Impossible)?;
    tell_apart(&mut forms);
    Ok(forms)
}

fn form(spec: &FormSpec, job: &Job, shop: &Shop, arch: &NamedArch) -> Result<Form, Fault> {
    let stock = shop.stock.get(&spec.stock);
    let stock = stock.ok_or_else(|| spec.places.at("stock").fault("the shop has no such stock", None))?;
    let designed = match &spec.form {
        JobForm::Centering(c) => centering::centering(&centering::Input {
            arch: arch.name.clone(),
            soffit: arch.fit.path.clone(),
            fit_error: arch.fit.worst_error,
            wall: c.wall,
            lagging: c.lagging,
            skin: c.skin,
            tie: c.tie,
            rib_depth: c.rib_depth,
            bolt: Some(c.bolt),
            ribs: c.ribs.map(|n| n as usize),
            stock: spec.stock.clone(),
            thickness: stock.thickness,
            least_corner: widest_cutter(spec, shop) / 2.0,
        }),
        JobForm::Pattern(p) => pattern::pattern(&pattern::Input {
            arch: arch.name.clone(),
            soffit: match p.piece {
                PatternPiece::Inside => arch.fit.path.clone(),
                PatternPiece::Ring => arch.edge().clone(),
            },
            least_radius: arch.arch.soffit.least_radius(),
            fit_error: arch.fit.worst_error,
            piece: match p.piece {
                PatternPiece::Inside => pattern::Piece::Inside { gap: p.gap },
                PatternPiece::Ring => pattern::Piece::Ring {
                    depth: ring_depth(spec, arch)?,
                },
            },
            stock: spec.stock.clone(),
            thickness: stock.thickness,
        }),
    };
    let mut form = designed.map_err(|error| fault(spec, job, &error))?;
    if arch.survey.is_some() {
        form.cautions.push(Caution::Measured);
    }
    for part in &mut form.parts {
        part.count = part.count.saturating_mul(spec.copies as usize);
    }
    Ok(form)
}

fn ring_depth(spec: &FormSpec, arch: &NamedArch) -> Result<f64, Fault> {
    arch.ring.as_ref().map(|&(depth, _)| depth).ok_or_else(|| {
        let help = format!("give the arch {} its `ring`, the depth of the ring", arch.name);
        spec.places
            .at("piece")
            .fault("a ring is asked for, and its arch has none", Some(help))
    })
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

/// A form's refusal, at the field of the job that it speaks of.
fn fault(spec: &FormSpec, job: &Job, error: &Error) -> Fault {
    let written = |field: &str| spec.places.at(field).given.is_some();
    let place = match (error.field(), job.arch(&spec.arch)) {
        // The tie was left to its usual depth, and it is the bolts that the user chose.
        ("tie", _) if !written("tie") && written("bolt") => spec.places.at("bolt"),
        ("ring", Some(arch)) => arch.places.at("ring"),
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
