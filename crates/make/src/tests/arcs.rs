//! Arcs of whole programs, from a radius of 5 mm to one of 50 m.

use super::planned_from;
use crate::{Plan, Shown};
use cintre_measure::Unit;

/// How far the radii at both ends of an arc may differ, mm.
const AGREE: f64 = 0.001;

/// Rings whose inner edge is cut along the radii of [`RADII`] by a bit of 6 mm.
fn planned(decimals: u32, longest: f64) -> Plan {
    let rows = RADII.iter().enumerate().map(|(k, radius)| {
        let radius = radius + 3.0;
        let span = (1.9 * radius).min(1100.0);
        let ring = (0.9 * span).min(30.0);
        (
            format!("  a{k}: {{ shape: segmental, span: {span}, radius: {radius}, ring: {ring}, size-meant: true }}\n"),
            format!("  - pattern: {{ arch: a{k}, piece: ring, stock: mdf, machine: table }}\n"),
        )
    });
    let (arches, make): (String, String) = rows.unzip();
    let job = format!(
        "title: Almshouse, arcs\nunits: mm\neffort: quick\narches:\n{arches}make:\n{make}shop:\n  units: mm\n  \
         stock: {{ mdf: {{ material: mdf, sheet: [2440, 1220], thickness: 12 }} }}\n  \
         bits: {{ s6: {{ kind: straight, diameter: 6, cutting-length: 20, plunges: true, \
         feeds: {{ mdf: {{ speed: 16000, feed: 3000, plunge: 900, depth: 5 }} }} }} }}\n  \
         machines: {{ table: {{ kind: router, bed: [2500, 1300], bits: [s6], decimals: {decimals}, \
         longest-radius: {longest} mm, tabs: {{ width: 5, height: 3, every: 300 }} }} }}\n  house: {{ paper: none }}\n"
    );
    planned_from(&job).unwrap_or_else(|trouble| panic!("{trouble:?}"))
}

const RADII: [f64; 8] = [5.0, 17.3, 120.0, 1234.5, 9_990.0, 10_010.0, 23_456.7, 50_000.0];

/// The radii at the beginning and the end of every arc of a program.
fn arcs(text: &str) -> Vec<(f64, f64)> {
    let (mut found, mut at) = (Vec::new(), [0.0, 0.0]);
    for line in text.lines().filter(|line| !line.starts_with('(')) {
        let word = |letter: char| -> Option<f64> {
            let mut words = line.split(' ');
            words.find_map(|word| word.strip_prefix(letter)?.parse().ok())
        };
        let to = [word('X').unwrap_or(at[0]), word('Y').unwrap_or(at[1])];
        if let (Some(i), Some(j)) = (word('I'), word('J')) {
            let end = (to[0] - at[0] - i).hypot(to[1] - at[1] - j);
            found.push((i.hypot(j), end));
        }
        at = to;
    }
    found
}

#[test]
fn both_ends_of_every_arc_lie_on_one_circle_at_three_and_at_four_decimals() {
    for (decimals, longest) in [(3, 60_000.0), (4, 60_000.0), (4, 10_000.0)] {
        let plan = planned(decimals, longest);
        let draft = plan.draft(Shown::new(&plan, Unit::Millimetre)).unwrap();
        let text = |suffix: &str| -> String {
            let files = draft.files.iter().filter(|file| file.path.ends_with(suffix));
            files
                .map(|file| String::from_utf8_lossy(&file.bytes).into_owned())
                .collect()
        };
        let arcs = arcs(&text(".nc"));
        for (from, to) in &arcs {
            assert!((from - to).abs() <= AGREE, "{decimals} decimals: {from} and {to}");
        }
        let near = |radius: f64| {
            arcs.iter()
                .any(|(from, _)| (from - radius).abs() < radius * 1e-3 + 0.01)
        };
        for radius in RADII {
            assert_eq!(
                near(radius),
                radius < longest,
                "an arc of {radius} mm, {longest} at most"
            );
        }
        // A drawing keeps what a program has as chords: a bulge for each long edge.
        let bulges = text(".dxf").lines().filter(|line| line.trim() == "42").count();
        assert!(bulges >= 2 * RADII.len(), "{bulges} bulges");
    }
}
