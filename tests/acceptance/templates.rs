//! Router templates and trammels through the command: their figures, and what cannot be made.

use cintre_geometry::Point;
use cintre_tests::{Bench, Ran, near, spoilt};
use cintre_work::design::{Design, outline};

const SHOP: &str = "\
units: mm
stock:
  mdf12: { material: mdf, sheet: [2440, 1220], thickness: 12 }
bits:
  straight-12: { kind: straight, diameter: 12.7, cutting-length: 40 }
  straight-10: { kind: straight, diameter: 10, cutting-length: 40 }
  even-12: { kind: straight, diameter: 12, cutting-length: 40 }
  bearing-19: { kind: bearing, diameter: 19, bearing: 19, cutting-length: 30 }
bushes: [16, 17, 20, 30, 40]
router-base: { diameter: 150 }
machines:
  drawn: { kind: drawing }
";

const ARCHES: &str = "\
title: Almshouse, templates
units: mm
shop: shop.yaml
arches:
  door: { shape: segmental, span: 915, rise: 152, ring: 95 }
  light: { shape: elliptical, span: 1200, rise: 210 }
  long: { shape: segmental, span: 1800, rise: 9 }
  wide: { shape: semicircular, span: 2600 }
make:
";

fn run(command: &str, form: &str) -> Ran {
    let job = format!("{ARCHES}  - {form}, stock: mdf12, machine: drawn }}\n");
    Bench::of(&job, SHOP).run(&[command, "job.yaml", "--json"])
}

#[test]
fn the_figures_of_a_template_and_of_a_trammel_are_those_worked_apart() {
    let template =
        "template: { arch: door, edge: soffit, run: inside, guide: bush, bush: 30, bit: straight-12";
    let figures = run("figures", template).ended(0).json();
    let form = &figures["forms"][0];
    near(&form["template_edge_inside_the_work's"], 8.65, 1e-9);
    near(&form["least_inside_radius_followed"], 15.0, 1e-9);
    let trammel = "trammel: { arch: light, radii: [745.5], mount: opening, bit: even-12";
    let figures = run("figures", trammel).ended(0).json();
    let pivots = &figures["forms"][0]["pivot_to_bit_centre"];
    near(&pivots[0], 739.5, 1e-9);
    near(&pivots[1], 751.5, 1e-9);
    let pair = "template: { arch: door, edge: soffit, guide: bush, pair: true, bit: straight-10";
    let figures = run("figures", pair).ended(0).json();
    near(&figures["forms"][0]["recess_bush"], 40.0, 1e-9);
    near(&figures["forms"][0]["insert_bush"], 20.0, 1e-9);
}

#[test]
fn what_cannot_be_made_is_refused_with_what_would_do() {
    let template = |more: &str| format!("template: {{ arch: door, edge: soffit, {more}");
    let refusals = [
        (
            template("guide: bush, bush: 15, bit: straight-12"),
            "15.7 mm is the least",
        ),
        (
            template("guide: bush, bush: 24, bit: straight-12"),
            "it has 16, 17, 20, 30, 40 mm",
        ),
        (
            template("guide: bush, bush: 17, pair: true, bit: straight-10"),
            "20 and 40 mm fit it",
        ),
        (
            template("guide: bearing, bit: straight-12"),
            "the shop has: bearing-19",
        ),
        (
            "template: { arch: light, edge: leaf, gap: 80, guide: bush, bit: straight-12".to_owned(),
            "73.50 mm is the most",
        ),
        (
            "template: { arch: wide, edge: soffit, guide: bush, bit: straight-12".to_owned(),
            "`margin` and `clamps`",
        ),
        (
            "trammel: { arch: long, mount: opening, bit: straight-12".to_owned(),
            "by ordinates",
        ),
        (
            "trammel: { arch: light, mount: opening, bit: straight-12".to_owned(),
            "struck from a centre",
        ),
        (
            "trammel: { arch: door, bit: straight-12".to_owned(),
            "`mount: opening`",
        ),
    ];
    for (form, words) in refusals {
        let ran = run("check", &form).ended(4);
        let told = format!("{}{}", ran.out, ran.err);
        assert!(told.contains(words), "`{words}` is missing for {form}:\n{told}");
    }
}

#[test]
fn tabs_of_a_template_keep_off_what_its_bush_runs_along() {
    let shop = spoilt(
        SHOP,
        "straight-12: { kind: straight, diameter: 12.7, cutting-length: 40 }",
        "straight-12: { kind: straight, diameter: 12.7, cutting-length: 40, plunges: true, \
         feeds: { mdf: { speed: 16000, feed: 3000, plunge: 900, depth: 6 } } }",
    );
    let shop = spoilt(
        &shop,
        "drawn: { kind: drawing }",
        "table: { kind: router, bed: [2500, 1300], bits: [straight-12], tabs: { width: 8, height: 4, every: 150 } }",
    );
    for run in ["inside", "outside"] {
        let form = format!(
            "template: {{ arch: door, edge: soffit, run: {run}, guide: bush, bush: 30, bit: straight-12, hanging-hole: 0"
        );
        let job = format!("{ARCHES}  - {form}, stock: mdf12, machine: table }}\n");
        let bench = Bench::of(&job, &shop);
        bench.run(&["make", "job.yaml", "--out", "made"]).ended(0);
        let design: Design = serde_json::from_str(&bench.text("made/design.json")).unwrap();
        let sheet = &design.sheets[0];
        let edge = outline(&sheet.parts[0].outline).unwrap();
        let runs = |radius: f64| (radius - 764.5).abs() < 10.0;
        let guided: Vec<_> = edge
            .pieces()
            .filter(|p| p.circle().is_some_and(|c| runs(c.radius)))
            .collect();
        assert!(
            !guided.is_empty() && sheet.tabs.len() >= 4,
            "{} tabs",
            sheet.tabs.len()
        );
        for tab in &sheet.tabs {
            let at = Point::from((tab.at[0], tab.at[1]));
            let off = guided
                .iter()
                .map(|piece| piece.nearest(at).distance)
                .fold(f64::INFINITY, f64::min);
            assert!(
                off >= tab.width / 2.0,
                "{run}: a tab {off:.1} mm off the bush's run"
            );
        }
    }
}
