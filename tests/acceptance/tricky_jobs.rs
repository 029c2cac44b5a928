//! Whole jobs that once went wrong, or nearly.

use cintre_tests::Bench;

/// A job with its shop, with a machine's own fields and one arch with a pattern of what is inside it.
fn job(machine: &str, arch: &str) -> String {
    format!(
        "title: Trial piece
units: mm
shop:
  stock:
    mdf18: {{ material: mdf, sheet: [2440, 1220], thickness: 18, grain: none, sheets: 4, trim: 8 }}
  bits:
    straight-6:
      {{ kind: straight, diameter: 6.35, flutes: 2, cutting-length: 25, plunges: false,
        feeds: {{ mdf: {{ speed: 16000, feed: 3600, plunge: 900, depth: 5 }} }} }}
  machines:
    table: {{ kind: router, bed: [2500, 1300], bits: [straight-6], speeds: [6000, 24000],
             tabs: {{ width: 8, height: 5, every: 300 }}, {machine} }}
arches:
  trial: {{ {arch} }}
make:
  - pattern: {{ arch: trial, piece: inside, stock: mdf18, machine: table }}
"
    )
}

#[track_caller]
fn makes_and_proves(machine: &str, arch: &str) {
    proves(&job(machine, arch));
}

#[track_caller]
fn proves(job: &str) {
    let bench = Bench::default();
    bench.write("job.yaml", job);
    bench.run(&["make", "job.yaml", "--out", "out"]).ended(0);
    bench.run(&["prove", "out"]).ended(0);
}

#[test]
fn tabs_near_the_sharp_tips_of_a_thin_piece_are_whole() {
    makes_and_proves("safe-height: 12", "shape: camber, span: 900, depth: 215");
}

#[test]
fn a_tab_in_a_narrow_cusp_is_not_cut_off_from_the_other_side() {
    for ring in [80, 60] {
        let arch = format!("shape: ogee, span: 800, rise: 900, lower-radius: 500, ring: {ring}");
        proves(&job("safe-height: 12", &arch).replace("piece: inside", "piece: ring"));
    }
}

#[test]
fn holes_go_through_the_web_that_holds_the_parts() {
    let job = job(
        "safe-height: 12, leave-web: 1",
        "shape: segmental, span: 800, rise: 150, ring: 100",
    );
    let centre = "centering: { arch: trial, wall: 225, lagging: 18,";
    proves(&job.replace("pattern: { arch: trial, piece: inside,", centre));
}

#[test]
fn a_safe_height_that_no_printed_inch_meets_is_safe() {
    let inches = "safe-height: 12, units: in, decimals: 4, zero: { at: middle, height: stock-back }";
    makes_and_proves(inches, "shape: elliptical, span: 1000, rise: 300");
}

#[test]
fn a_controllers_own_harmless_lines_pass() {
    let own = "safe-height: 12, opening-lines: [\"G64 P0.01\"], closing-lines: [\"M9\"]";
    makes_and_proves(own, "shape: segmental, span: 800, rise: 150");
}

#[test]
fn chords_in_place_of_arcs_cut_the_same_shape() {
    makes_and_proves(
        "safe-height: 12, arcs: false, cut: conventional",
        "shape: pointed, span: 600, rise: 700",
    );
}

#[test]
fn a_controllers_line_that_moves_the_bit_is_refused_at_its_field() {
    let bench = Bench::default();
    bench.write(
        "job.yaml",
        job(
            "safe-height: 12, opening-lines: [\"G91\"]",
            "shape: segmental, span: 800, rise: 150",
        ),
    );
    bench
        .run(&["check", "job.yaml"])
        .ended(3)
        .said(&["opening-lines", "G91"]);
}

#[test]
fn tabs_beside_round_corners_are_as_wide_as_planned() {
    // A flat head with its corners rounded off, tabs so close that some stand where straight and curve meet.
    for radius in [32, 41] {
        let (foot, far) = (radius, 640 - radius);
        let d = format!(
            "M 0 {foot} A {radius} {radius} 0 0 1 {radius} 0 L {far} 0 A {radius} {radius} 0 0 1 640 {foot}"
        );
        let head = format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"640mm\" height=\"100mm\" viewBox=\"0 0 640 100\"><path d=\"{d}\"/></svg>"
        );
        let traced = job("safe-height: 12", "shape: traced, file: head.svg, ring: 60")
            .replace("every: 300", "every: 45");
        let ring = "  - pattern: { arch: trial, piece: ring, stock: mdf18, machine: table }\n";
        let bench = Bench::default();
        bench.write("head.svg", head);
        bench.write("job.yaml", traced + ring);
        bench.run(&["make", "job.yaml", "--out", "out"]).ended(0);
    }
}
