//! How short the ways are that the order of cuts takes.
//!
//! First plain tours, on drilling and other instances of TSPLIB (Reinelt 1991) in the folder `tours` of the one named in
//! `CINTRE_BENCH_DATA`, against their known optimum; then sheets of ribs with bolt holes, against a bound that no way beats.

#![expect(clippy::print_stdout, reason = "a table is what this is run for")]
#![expect(
    clippy::disallowed_methods,
    reason = "a bench is timed, and told in the environment where its data is"
)]

mod bound;

use bound::lower_bound;
use cintre_geometry::{Point, Vec2};
use cintre_toolpath::tour;
use std::time::Instant;

/// The best lengths there are.
const OPTIMA: [(&str, f64); 6] = [
    ("berlin52", 7542.0),
    ("d198", 15780.0),
    ("a280", 2579.0),
    ("fl417", 11861.0),
    ("pcb442", 50778.0),
    ("pr1002", 259_045.0),
];

fn main() {
    match std::env::var("CINTRE_BENCH_DATA") {
        Ok(folder) => plain(&folder),
        Err(_) => println!("CINTRE_BENCH_DATA is not set: it names the folder with the instances"),
    }
    println!(
        "\n{:<12}{:>10}{:>14}{:>14}{:>12}{:>10}{:>8}",
        "sheet", "contours", "as listed, m", "way, m", "bound, m", "over it", "s"
    );
    (1..=6).for_each(sheet);
}

fn plain(folder: &str) {
    println!(
        "{:<12}{:>8}{:>12}{:>12}{:>10}{:>8}",
        "instance", "stops", "optimum", "way", "over it", "s"
    );
    for (name, optimum) in OPTIMA {
        let Ok(text) = std::fs::read_to_string(format!("{folder}/tours/{name}.tsp")) else {
            println!("{name:<12} is not in the folder");
            continue;
        };
        let cities = cities(&text);
        let stops: Vec<Vec<Point>> = cities[1..].iter().map(|&p| vec![p]).collect();
        let begun = Instant::now();
        let way = tour(&stops, &[], (cities[0], true), shuffles_in_a_second(stops.len()));
        let took = begun.elapsed().as_secs_f64();
        let route: Vec<Point> = std::iter::once(cities[0])
            .chain(way.iter().map(|&(s, _)| stops[s][0]))
            .chain([cities[0]])
            .collect();
        // As the instances count: each distance rounded to a whole number.
        let length: f64 = route.windows(2).map(|w| w[0].distance(w[1]).round()).sum();
        let over = 100.0 * (length / optimum - 1.0);
        println!(
            "{name:<12}{:>8}{optimum:>12.0}{length:>12.0}{over:>8.1} %{took:>8.2}",
            cities.len()
        );
    }
}

/// About as many as are made in a second.
fn shuffles_in_a_second(stops: usize) -> usize {
    9_000_000 / (stops + 300)
}

fn cities(text: &str) -> Vec<Point> {
    let lines = text
        .lines()
        .skip_while(|l| !l.starts_with("NODE_COORD_SECTION"))
        .skip(1);
    let city = |line: &str| {
        let mut words = line.split_whitespace().skip(1).map(|w| w.parse::<f64>().ok());
        Some(Point::new(words.next()??, words.next()??))
    };
    lines.map_while(city).collect()
}

/// Ribs side by side, each with its places to go in, and bolt holes in them.
fn sheet(number: u32) {
    let mut random = number;
    let mut share = || {
        random = random.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
        f64::from(random) / 2.0_f64.powi(32)
    };
    let (mut stops, mut before) = (Vec::new(), Vec::new());
    for k in 0..16 + 2 * number {
        let middle = Vec2::new(200.0 + 2000.0 * share(), 200.0 + 800.0 * share());
        let (radius, turn) = (150.0 + 250.0 * share(), 6.3 * share());
        let on = |r: f64, a: f64| middle.to_point() + Vec2::from_angle(turn + a) * r;
        let rib = stops.len();
        stops.push(vec![
            on(radius, 0.0),
            on(radius, 0.6),
            on(radius, 1.2),
            on(radius + 120.0, 0.0),
            on(radius + 120.0, 0.6),
            on(radius + 120.0, 1.2),
            on(radius + 60.0, -0.1),
            on(radius + 60.0, 1.3),
        ]);
        if k % 2 == 0 {
            for a in [0.3, 0.9] {
                before.push((stops.len(), rib));
                stops.push(vec![on(radius + 60.0, a)]);
            }
        }
    }
    let listed: f64 = {
        let firsts: Vec<Point> = std::iter::once(Point::ZERO)
            .chain(stops.iter().map(|s| s[0]))
            .collect();
        firsts.windows(2).map(|w| w[0].distance(w[1])).sum::<f64>()
            + firsts[firsts.len() - 1].distance(Point::ZERO)
    };
    let begun = Instant::now();
    let way = tour(&stops, &before, (Point::ZERO, true), 100 * stops.len());
    let took = begun.elapsed().as_secs_f64();
    let route: Vec<Point> = std::iter::once(Point::ZERO)
        .chain(way.iter().map(|&(s, k)| stops[s][k]))
        .chain([Point::ZERO])
        .collect();
    let length: f64 = route.windows(2).map(|w| w[0].distance(w[1])).sum();
    let mut contours = stops.clone();
    contours.push(vec![Point::ZERO]);
    let least = lower_bound(&contours, length, 600);
    println!(
        "{:<12}{:>10}{:>14.2}{:>14.2}{:>12.2}{:>8.1} %{took:>8.2}",
        format!("sheet-{number}"),
        stops.len(),
        listed / 1e3,
        length / 1e3,
        least / 1e3,
        100.0 * (length / least - 1.0)
    );
}
