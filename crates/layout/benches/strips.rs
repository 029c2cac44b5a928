//! Strip packing: how short a strip of fixed width the pieces of the classic instances go on.
//!
//! Reads the instances from the folder `packing` of the one named in `CINTRE_BENCH_DATA`. Name instances, and after them how
//! many processor seconds each may take (120) and a seed (1), as in `-- swim fu 60 2`. Published: the means of the tables in
//! Gardeyn, Vanden Berghe and Wauters, 'An open-source heuristic to reboot 2D nesting research' (2025), 3600 core seconds a
//! run.

#![expect(clippy::print_stdout, reason = "a table is what this is run for")]

mod common;

use cintre_geometry::{Affine, Outline, Point, Rect};
use cintre_layout::{Effort, Settings, Turns};
use cintre_work::{Grain, Part};
use common::{part, stock, timed};
use serde_json::Value;

/// The published means, per cent.
const PUBLISHED: [(&str, f64); 10] = [
    ("swim", 78.3),
    ("shirts", 89.7),
    ("trousers", 91.7),
    ("albano", 89.5),
    ("dagli", 89.3),
    ("marques", 90.9),
    ("mao", 86.1),
    ("fu", 92.2),
    ("jakobs1", 89.1),
    ("blaz1", 84.7),
];

/// The width that every strip is scaled to, mm: the engine's allowances are lengths.
const WIDTH: f64 = 4000.0;

fn main() {
    #[expect(
        clippy::disallowed_methods,
        reason = "the folder of the data is told in the environment"
    )]
    let Ok(folder) = std::env::var("CINTRE_BENCH_DATA") else {
        println!("CINTRE_BENCH_DATA is not set: it names the folder with the instances");
        return;
    };
    let words: Vec<String> = std::env::args().skip(1).filter(|a| a != "--bench").collect();
    let mut numbers = words.iter().filter_map(|w| w.parse::<u32>().ok());
    let budget = f64::from(numbers.next().unwrap_or(120));
    let seed = u64::from(numbers.next().unwrap_or(1));
    let named: Vec<&str> = words
        .iter()
        .map(String::as_str)
        .filter(|w| w.parse::<u32>().is_err())
        .collect();
    println!(
        "{:<12}{:>8}{:>12}{:>12}{:>10}{:>10}",
        "instance", "pieces", "published", "density", "short", "s"
    );
    for (name, published) in PUBLISHED {
        if !named.is_empty() && !named.contains(&name) {
            continue;
        }
        let (parts, width) = instance(&folder, name);
        let area: f64 = parts.iter().map(|p| p.outline.area() * p.count as f64).sum();
        // Long enough for any layout: the first placement fills a half at least.
        let long = stock((2.5 * area / width, width), 0.0);
        let settings = Settings {
            spacing: 0.0,
            effort: Effort {
                questions: 1 << 40,
                stubborn: true,
            },
            turns: Turns::Quarter,
            openings: false,
            seed,
        };
        let (laid, s) = timed(&parts, &long, settings, budget);
        let boxes = laid
            .sheets
            .iter()
            .flat_map(|s| &s.parts)
            .map(|p| p.part.outline.bounds());
        let used = boxes.reduce(|a, b| a.union(b)).unwrap_or(Rect::ZERO);
        let density = 100.0 * area / (used.x1 * width);
        let count: usize = parts.iter().map(|p| p.count).sum();
        println!(
            "{name:<12}{count:>8}{published:>11.1}%{density:>11.2}%{:>10.2}{s:>10.1}",
            published - density
        );
    }
}

/// The pieces of an instance and the width of its strip, all scaled to [`WIDTH`].
fn instance(folder: &str, name: &str) -> (Vec<Part>, f64) {
    let path = format!("{folder}/packing/{name}.json");
    #[expect(clippy::disallowed_methods, reason = "the data of a bench")]
    let text = std::fs::read_to_string(&path).unwrap_or_else(|error| panic!("{path}: {error}"));
    let data: Value = serde_json::from_str(&text).unwrap_or_else(|error| panic!("{path}: {error}"));
    let number = |v: &Value| v.as_f64().unwrap_or_else(|| panic!("{path}: {v} is no number"));
    let scale = WIDTH / number(&data["strip_height"]);
    let list = |v: &Value| v.as_array().cloned().unwrap_or_default();
    let items = list(&data["items"]);
    let parts = items.iter().enumerate().map(|(i, item)| {
        let mut points: Vec<Point> = list(&item["shape"]["data"])
            .iter()
            .map(|p| Point::new(number(&p[0]), number(&p[1])))
            .collect();
        if points.first() == points.last() {
            points.pop();
        }
        // Half turns alone are a grain.
        let grain = match list(&item["allowed_orientations"]).len() {
            2 => Grain::Along(0.0),
            _ => Grain::Free,
        };
        let outline = Outline::polygon(&points).transformed(Affine::scale(scale));
        let count = item["demand"].as_u64().and_then(|n| usize::try_from(n).ok());
        part(&format!("piece {i}."), outline, grain, count.unwrap_or(1))
    });
    (parts.collect(), WIDTH)
}
