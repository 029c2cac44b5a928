//! How long a job of 200 parts on a dozen sheets takes from its plan to files that are written and proven, and the memory; and
//! what a block of its programs costs the proof as the job grows: `cargo bench -p cintre-make --bench job`.

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
arches: { walk: { shape: segmental, span: SPAN, rise: RISE, ring: RING } }
make:
  - pattern: { arch: walk, piece: ring, copies: COPIES, stock: mdf18, machine: table }
shop:
  units: mm
  stock: { mdf18: { material: mdf, sheet: [2440, 1220], thickness: 18, grain: none } }
  bits:
    s6: { kind: straight, diameter: 6.35, cutting-length: 25, plunges: true, feeds: { mdf: { speed: 16000, feed: 3000, plunge: 900, depth: 3 } } }
  machines:
    table: { kind: router, bed: [2500, 1300], bits: [s6], tabs: { width: 8, height: 5, every: 300 } }
  house: { paper: none, spacing: margin 30 }
";

/// A job of so many parts, `small` ones a quarter as large, of which a sheet holds sixteen times as many.
fn job(copies: usize, small: bool) -> String {
    let [span, rise, ring] = if small {
        ["160", "37.5", "22.5"]
    } else {
        ["640", "150", "90"]
    };
    let copies = copies.to_string();
    [
        ("SPAN", span),
        ("RISE", rise),
        ("RING", ring),
        ("COPIES", &copies),
    ]
    .iter()
    .fold(JOB.to_owned(), |text, (word, value)| text.replace(word, value))
}

fn main() -> Result<(), Box<dyn Error>> {
    run(&job(200, false), true)?;
    for small in [false, true] {
        let what = if small { "a quarter as large" } else { "as large" };
        println!("\nproof of parts {what}\n parts  sheets   blocks      s  s of processors  µs a block");
        for copies in [25, 50, 100, 200] {
            let proof = run(&job(copies, small), false)?;
            let each = proof.processors * 1e6 / proof.blocks as f64;
            let Proof {
                sheets,
                blocks,
                seconds,
                processors,
            } = proof;
            println!("{copies:6} {sheets:7} {blocks:8} {seconds:6.2} {processors:16.2} {each:11.1}");
        }
    }
    Ok(())
}

/// What a proof was of, and what it took.
struct Proof {
    sheets: usize,
    blocks: usize,
    seconds: f64,
    processors: f64,
}

/// Makes and proves a job; each step is told if it is to be.
fn run(job: &str, telling: bool) -> Result<Proof, Box<dyn Error>> {
    let told = |what: &str, since: Instant| {
        if telling {
            told(what, since);
        }
    };
    let job = read_job("job.yaml", job).map_err(|faults| format!("{faults}"))?;
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
    let sheets = made.sheets.len();
    told(&format!("{sheets} sheets laid out and planned"), begun);
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
    let (begun, before) = (Instant::now(), processors());
    let verdict = prove_folder(&manifest, &design, &present, &file)?;
    let proof = Proof {
        sheets,
        blocks: present
            .iter()
            .filter(|path| path.ends_with(".nc"))
            .filter_map(|path| file(path))
            .map(|program| program.iter().filter(|byte| **byte == b'\n').count())
            .sum(),
        seconds: begun.elapsed().as_secs_f64(),
        processors: processors() - before,
    };
    let passed = verdict.files.iter().filter(|f| f.verdict.passed).count();
    let all = verdict.files.len();
    if passed < all {
        return Err(format!("{passed} of {all} files pass").into());
    }
    told(
        &format!(
            "{all} cut files proven by {:.2} s of the processors",
            proof.processors
        ),
        begun,
    );
    Ok(proof)
}

/// Seconds that all threads of this program have run so far; 0 where the system does not tell.
fn processors() -> f64 {
    let told = std::fs::read_to_string("/proc/self/stat").unwrap_or_default();
    // In hundredths: the 12th and 13th word behind the program's name.
    let words = told.rsplit(')').next().unwrap_or_default().split_whitespace();
    let ticks: f64 = words
        .skip(11)
        .take(2)
        .filter_map(|word| word.parse::<f64>().ok())
        .sum();
    ticks / 100.0
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
