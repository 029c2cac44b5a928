//! How many sheets an arch job takes, and how long that is found out.
//!
//! The job: 24 ribs, 40 crescents, 60 gussets on sheets of 2440 × 1220. Name an effort (`quick`, `usual`, `patient`, or a
//! number of questions for each piece) and seeds after `--`; without, a quick and a usual layout of seed 1.

#![expect(clippy::print_stdout, reason = "a table is what this is run for")]

mod common;

use cintre_geometry::{Outline, Piece, Point, Vec2};
use cintre_layout::{Effort, Settings, Turns};
use cintre_work::{Grain, Part};
use common::{part, stock, timed};

/// Between parts, and along the edges, mm.
const SPACING: f64 = 10.0;

fn main() {
    let asked: Vec<String> = std::env::args().skip(1).filter(|a| a != "--bench").collect();
    let (mut efforts, mut seeds) = (Vec::new(), Vec::new());
    for word in &asked {
        match word.as_str() {
            "quick" => efforts.push(Effort::QUICK),
            "usual" => efforts.push(Effort::USUAL),
            "patient" => efforts.push(Effort::PATIENT),
            number => match number.parse::<u64>() {
                Ok(seed) if seed < 100 => seeds.push(seed),
                Ok(questions) => efforts.push(Effort {
                    questions,
                    stubborn: true,
                }),
                Err(_) => (),
            },
        }
    }
    if efforts.is_empty() {
        efforts = vec![Effort::QUICK, Effort::USUAL];
    }
    if seeds.is_empty() {
        seeds = vec![1];
    }
    println!(
        "{:<28}{:>10}{:>6}{:>8}{:>8}{:>10}{:>16}{:>10}{:>9}",
        "job", "effort", "seed", "sheets", "bound", "density", "offcut", "gap", "s"
    );
    for (name, parts) in [("ribs, crescents, gussets", arch_job()), ("500 parts", many())] {
        for &effort in &efforts {
            if name == "500 parts" && effort != Effort::QUICK {
                continue;
            }
            for &seed in &seeds {
                let settings = Settings {
                    spacing: SPACING,
                    effort,
                    turns: Turns::Quarter,
                    openings: false,
                    seed,
                };
                let (laid, s) = timed(&parts, &stock((2440.0, 1220.0), SPACING), settings, f64::INFINITY);
                let of = &laid.report.stocks[0];
                let offcut = of
                    .offcut
                    .as_ref()
                    .map_or_else(|| "-".to_owned(), |o| format!("{:.2} m2", o.outline.area() / 1e6));
                println!(
                    "{name:<28}{:>10}{seed:>6}{:>8}{:>8}{:>9.1}%{offcut:>16}{:>10.4}{s:>9.2}",
                    effort.questions,
                    of.sheets,
                    of.bound,
                    100.0 * of.density,
                    laid.report.least_gap.unwrap_or(f64::NAN),
                );
            }
        }
    }
}

/// 24 ribs (span 1400, rise 360, 150 deep), 40 crescents (chord 900, rises 260 and 140, tips cut where 20 thick), 60 gussets.
fn arch_job() -> Vec<Part> {
    vec![
        part("rib", rib(1400.0, 360.0, 150.0), Grain::Along(0.0), 24),
        part("crescent", crescent(), Grain::Along(0.0), 40),
        part("gusset", gusset(180.0), Grain::Free, 60),
    ]
}

/// Such parts in several sizes, 500 of them: about 30 sheets.
fn many() -> Vec<Part> {
    let mut parts = Vec::new();
    for (number, span) in [1500.0, 1350.0, 1200.0, 1000.0, 800.0].into_iter().enumerate() {
        let name = |what: &str| format!("{what} {}.", number + 1);
        parts.push(part(
            &name("rib"),
            rib(span, span / 4.0, 190.0),
            Grain::Along(0.0),
            40,
        ));
        parts.push(part(&name("gusset"), gusset(span / 4.0), Grain::Free, 60));
    }
    parts
}

/// An annular sector with radial ends; `span` and `rise` are its outer arc's.
fn rib(span: f64, rise: f64, depth: f64) -> Outline {
    let radius = (span * span / 4.0 + rise * rise) / (2.0 * rise);
    let half = (span / 2.0 / radius).asin();
    let at = |r: f64, angle: f64| Point::ZERO + Vec2::new(angle.sin(), angle.cos()) * r;
    let inner = radius - depth;
    let outer_arc = Piece::arc_between(Point::ZERO, at(radius, half), at(radius, -half), true);
    let inner_arc = Piece::arc_between(Point::ZERO, at(inner, -half), at(inner, half), false);
    chain(&[
        outer_arc,
        Piece::line(outer_arc.end, inner_arc.start),
        inner_arc,
        Piece::line(inner_arc.end, outer_arc.start),
    ])
}

/// Between two arcs over one chord of 900, rises 260 and 140, its tips cut plumb where it is 20 thick.
fn crescent() -> Outline {
    let arc = |rise: f64| {
        let radius = (450.0 * 450.0 + rise * rise) / (2.0 * rise);
        (radius, rise - radius)
    };
    let ((outer, outer_y), (inner, inner_y)) = (arc(260.0), arc(140.0));
    let height = |x: f64, radius: f64, y: f64| y + (radius * radius - x * x).sqrt();
    let (mut thin, mut thick) = (450.0, 0.0);
    for _ in 0..60 {
        let x = (thin + thick) / 2.0;
        if height(x, outer, outer_y) - height(x, inner, inner_y) > 20.0 {
            thick = x;
        } else {
            thin = x;
        }
    }
    let x: f64 = thick;
    let at = |x: f64, radius: f64, y: f64| Point::new(x, height(x.abs(), radius, y));
    let (outer_centre, inner_centre) = (Point::new(0.0, outer_y), Point::new(0.0, inner_y));
    let upper = Piece::arc_between(outer_centre, at(x, outer, outer_y), at(-x, outer, outer_y), true);
    let lower = Piece::arc_between(inner_centre, at(-x, inner, inner_y), at(x, inner, inner_y), false);
    chain(&[
        upper,
        Piece::line(upper.end, lower.start),
        lower,
        Piece::line(lower.end, upper.start),
    ])
}

fn gusset(side: f64) -> Outline {
    Outline::polygon(&[(0.0, 0.0).into(), (side, 0.0).into(), (0.0, side).into()])
}

fn chain(pieces: &[Piece]) -> Outline {
    Outline::closing(&cintre_geometry::Path::from_pieces(pieces))
}
