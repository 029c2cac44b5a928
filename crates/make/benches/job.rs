//! How long a job of 200 parts on a dozen sheets takes from its plan to files that are written and proven, and the memory:
//! `cargo bench -p cintre-make --bench job`.

#![expect(clippy::print_stdout, reason = "a table is what this is run for")]
#![expect(clippy::disallowed_methods, reason = "a bench is timed")]

use cintre_job::{ShopAt, read_job};
use cintre_make::{Conduct, Shown, plan};
use cintre_proof::{DESIGN, prove_folder};
use std::error::Error;
use std::time::Instant;

const JOB: &str = "\
title: Almshouse, every rib of the walk
effort: quick
arches: { walk: { shape: segmental, span: 640, rise: 150, ring: 90 } }
make:
  - pattern: { arch: walk, piece: ring, copies: 200, stock: mdf18, machine: table }
shop:
  units: mm
  stock: { mdf18: { material: mdf, sheet: [2440, 1220], thickness: 18, grain: none } }
  bits:
    s6: { kind: straight, diameter: 6.35, cutting-length: 25, plunges: true, feeds: { mdf: { speed: 16000, feed: 3000, plunge: 900, depth: 3 } } }
  machines:
    table: { kind: router, bed: [2500, 1300], bits: [s6], tabs: { width: 8, height: 5, every: 300 } }
  house: { paper: none, spacing: margin 30 }
";

fn main() -> Result<(), Box<dyn Error>> {
    let job = read_job("job.yaml", JOB).map_err(|faults| format!("{faults}"))?;
    let ShopAt::Inline(shop) = &job.shop else {
        return Err("the shop is in the job".into());
    };
    let conduct = Conduct {
        say: &|_| (),
        stop: &|| false,
        read: &|name| Err(format!("{name} is not there")),
    };
    let begun = Instant::now();
    let made = plan(&job, shop, conduct).map_err(|trouble| format!("{trouble:?}"))?;
    told(
        &format!("{} sheets laid out and planned", made.sheets.len()),
        begun,
    );
    let begun = Instant::now();
    let shown = Shown::new(&made, cintre_measure::Unit::Millimetre);
    let draft = made.draft(shown).map_err(|t| format!("{t:?}"))?;
    let manifest = draft.manifest().map_err(|t| format!("{t:?}"))?;
    told(
        &format!("{} files drafted, with their pictures", draft.files.len()),
        begun,
    );
    let file = |path: &str| {
        draft
            .files
            .iter()
            .find(|f| f.path == path)
            .map(|f| f.bytes.clone())
    };
    let design = String::from_utf8(file(DESIGN).ok_or("no design")?)?;
    let present: Vec<&str> = draft.files.iter().map(|f| f.path.as_str()).collect();
    let begun = Instant::now();
    let verdict = prove_folder(&manifest, &design, &present, &file)?;
    let passed = verdict.files.iter().filter(|f| f.verdict.passed).count();
    told(
        &format!("{passed} of {} cut files proven", verdict.files.len()),
        begun,
    );
    Ok(())
}

/// What was done, how long it took, and the most memory that has been held so far.
fn told(what: &str, begun: Instant) {
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    let most = status.lines().find_map(|line| line.strip_prefix("VmHWM:"));
    let memory = most.map_or("an unknown amount", str::trim);
    println!(
        "{what} in {:.2} s, at most {memory} held",
        begun.elapsed().as_secs_f64()
    );
}
