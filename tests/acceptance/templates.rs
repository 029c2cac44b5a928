//! Router templates and trammels through the command: their figures, and what cannot be made.

use cintre_tests::{Bench, Ran, near};

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
