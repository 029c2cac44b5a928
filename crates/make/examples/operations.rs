//! Makes folders of a board that asks for every operation of a router, over a matrix of machines, so that readers which
//! share nothing with the tool can judge the programs: `cargo run -p cintre-make --example operations DIR [BOARD…]`.

#![expect(clippy::print_stdout, reason = "what became of each folder is told")]
#![expect(clippy::disallowed_methods, reason = "it writes folders for readers outside")]

use cintre_geometry::{Affine, Outline, Path, Piece, Point, Rect};
use cintre_job::{ShopAt, read_job};
use cintre_make::{Conduct, Plan, Shown, plan};
use cintre_proof::{DESIGN, prove_folder};
use cintre_toolpath::{choose_bits, plan as cuts};
use cintre_work::{Bore, Depth, Holder, Machine, Mark, MarkKind, Part, Recess};
use std::error::Error;
use std::fmt::Write as _;
use std::path::{Path as FilePath, PathBuf};
use std::{env, fs};

const JOB: &str = "\
title: Almshouse, proving board
arches: { niche: { shape: segmental, span: 1200, rise: 260, ring: 340 } }
make:
  - pattern: { arch: niche, piece: ring, EASEDstock: mdf18, machine: table }
shop:
  units: mm
  stock: { mdf18: { material: mdf, sheet: [2440, 1220], thickness: 18, grain: none } }
  bits:
BITS  machines:
    table: { kind: router, bed: [2500, 1300], bits: [NAMES], tabs: { width: 8, height: 5, every: 300 }, MACHINE }
  house: { paper: none }
";

fn main() -> Result<(), Box<dyn Error>> {
    let out = PathBuf::from(env::args().nth(1).ok_or("where to?")?);
    let only: Vec<String> = env::args().skip(2).collect();
    let bits = [
        (
            "one",
            vec![("s6", "straight", 6.35, true), ("vee", "vee", 12.7, true)],
        ),
        (
            "two",
            vec![
                ("s12", "straight", 12.0, false),
                ("s3", "straight", 3.0, true),
                ("d8", "drill", 8.0, true),
            ],
        ),
        (
            "ramped",
            vec![
                ("s6", "straight", 6.0, false),
                ("vee", "vee", 12.0, false),
                ("d8", "drill", 8.0, true),
            ],
        ),
    ];
    let machines = [
        ("mm", "units: mm, decimals: 4"),
        (
            "mm3",
            "units: mm, decimals: 3, zero: { at: middle, height: stock-back }, relief: bisector",
        ),
        (
            "inch",
            "units: in, decimals: 4, relief: long-side, cut: conventional",
        ),
        (
            "chords",
            "units: mm, arcs: false, finish: 0.4, relief: bisector, leave-web: 0",
        ),
    ];
    let mut failed = 0;
    for (bit_name, bits) in &bits {
        for (machine_name, machine) in &machines {
            let board = format!("{bit_name}-{machine_name}");
            if !only.is_empty() && !only.contains(&board) {
                continue;
            }
            let made = made(bits, machine)?;
            let dir = out.join(board);
            let passed = written(&made, &dir)?;
            println!("{} {}", if passed { "passed" } else { "FAILED" }, dir.display());
            failed += u32::from(!passed);
        }
    }
    if failed == 0 {
        Ok(())
    } else {
        Err(format!("{failed} folders failed").into())
    }
}

fn made(bits: &[(&str, &str, f64, bool)], machine: &str) -> Result<Plan, Box<dyn Error>> {
    let (mut rows, mut names) = (String::new(), Vec::new());
    for (name, kind, diameter, plunges) in bits {
        let angle = if *kind == "vee" { ", angle: 60" } else { "" };
        let plunges = if *kind == "drill" {
            String::new()
        } else {
            format!(", plunges: {plunges}")
        };
        writeln!(
            rows,
            "    {name}: {{ kind: {kind}, diameter: {diameter}, cutting-length: 25{angle}{plunges}, \
             feeds: {{ mdf: {{ speed: 16000, feed: 3000, plunge: 900, depth: 3 }} }} }}"
        )?;
        names.push(*name);
    }
    let text = JOB
        .replace("BITS", &rows)
        .replace("NAMES", &names.join(", "))
        .replace("MACHINE", machine)
        .replace(
            "EASED",
            if rows.contains("kind: vee") {
                "chamfer: 2, "
            } else {
                ""
            },
        );
    let job = read_job("job.yaml", &text).map_err(|faults| format!("{faults}"))?;
    let ShopAt::Inline(shop) = &job.shop else {
        return Err("the shop is in the job".into());
    };
    let conduct = Conduct {
        say: &|_| (),
        stop: &|| false,
        read: &|name| Err(format!("{name} is not there")),
    };
    let mut made = plan(&job, shop, conduct).map_err(|trouble| format!("{trouble:?}"))?;
    let held = bits_of(shop);
    for planned in &mut made.sheets {
        let Machine::Router(router) = &planned.machine else {
            continue;
        };
        for placed in &mut planned.sheet.parts {
            carve(&mut placed.part);
        }
        let parts: Vec<Part> = planned.sheet.parts.iter().map(|p| p.part.clone()).collect();
        planned.bits = choose_bits(&parts, &planned.sheet.stock, router, &held)?;
        planned.road = Some(cuts(&planned.sheet, router, &planned.bits)?);
    }
    Ok(made)
}

fn bits_of(shop: &cintre_job::Shop) -> Vec<cintre_work::Bit> {
    use cintre_job::BitKind as Job;
    use cintre_work::{Bit, BitKind, Feeds};
    let feeds = |f: &cintre_job::Feeds| Feeds {
        speed: f.speed,
        feed: f.feed,
        plunge: f.plunge,
        depth: f.depth,
    };
    shop.bits
        .iter()
        .map(|(name, spec)| Bit {
            name: name.clone(),
            kind: match spec.kind {
                Job::Straight => BitKind::Straight,
                Job::Drill => BitKind::Drill,
                Job::Vee(angle) => BitKind::Vee(angle),
                Job::Bearing(diameter) => BitKind::Bearing(diameter),
            },
            diameter: spec.diameter,
            flutes: spec.flutes,
            cutting_length: spec.cutting_length,
            plunges: spec.plunges,
            number: spec.number,
            holder: spec.holder.map(|h| Holder {
                diameter: h.diameter,
                above: h.above,
            }),
            feeds: spec.feeds.iter().map(|(m, f)| (m.clone(), feeds(f))).collect(),
        })
        .collect()
}

/// A recess with islands, a groove as wide as a bit and one wider, an opening, bores: all about the middle of the part.
fn carve(part: &mut Part) {
    let b = part.outline.bounds();
    let to = Affine::translate((b.center().x, b.y1 - 170.0));
    let boxed = |x0, y0, x1, y1| Outline::rectangle(Rect::new(x0, y0, x1, y1)).transformed(to);
    let at = |x, y| to * Point::new(x, y);
    part.recesses.push(Recess {
        outline: boxed(-120.0, -60.0, 20.0, 40.0).reversed(),
        islands: vec![
            Outline::circle(at(-80.0, 10.0), 9.0),
            boxed(-40.0, -25.0, -18.0, -8.0),
        ],
        depth: 6.5,
    });
    part.recesses.push(Recess {
        outline: Outline::circle(at(60.0, 60.0), 17.0).reversed(),
        islands: Vec::new(),
        depth: 9.0,
    });
    part.openings.push(boxed(60.0, -60.0, 130.0, 10.0).reversed());
    for (x, diameter, depth) in [
        (160.0, 8.0, Depth::Through),
        (190.0, 14.0, Depth::Blind(7.0)),
        (230.0, 40.0, Depth::Through),
    ] {
        part.bores.push(Bore {
            centre: at(x, -20.0),
            diameter,
            depth,
        });
    }
    let bend = Piece::arc(at(-250.0, -200.0), at(-250.0, 0.0), 0.35);
    for (path, width) in [
        (Path::from_pieces(&[bend]), 12.0),
        (Path::polyline(&[at(-160.0, 60.0), at(-20.0, 70.0)]), 14.2),
    ] {
        part.marks.push(Mark {
            path,
            kind: MarkKind::Groove { width, depth: 5.0 },
        });
    }
}

/// Writes and proves a folder; whether it passes.
fn written(plan: &Plan, dir: &FilePath) -> Result<bool, Box<dyn Error>> {
    let shown = Shown::new(plan, cintre_measure::Unit::Millimetre);
    let draft = plan.draft(shown).map_err(|t| format!("{t:?}"))?;
    let manifest = draft.manifest().map_err(|t| format!("{t:?}"))?;
    let files = draft.files.clone();
    let file = |path: &str| files.iter().find(|f| f.path == path).map(|f| f.bytes.clone());
    let design = String::from_utf8(file(DESIGN).ok_or("no design")?)?;
    let present: Vec<&str> = files.iter().map(|f| f.path.as_str()).collect();
    let verdict = prove_folder(&manifest, &design, &present, &file)?;
    for proven in verdict.files.iter().filter(|f| !f.verdict.passed) {
        println!("{}: {:?}", proven.path, proven.verdict.findings);
    }
    let passed = verdict.files.iter().all(|f| f.verdict.passed);
    let rest = draft
        .completed(plan, shown, &verdict.files)
        .map_err(|t| format!("{t:?}"))?;
    for made in files.iter().chain(&rest) {
        let path = dir.join(&made.path);
        fs::create_dir_all(path.parent().ok_or("no folder")?)?;
        fs::write(path, &made.bytes)?;
    }
    Ok(passed)
}
