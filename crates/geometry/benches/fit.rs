//! How many arcs the fit takes beside the least that any smooth chain needs, and how long it takes for them.

#![expect(clippy::print_stdout, reason = "a table is what this is run for")]

#[path = "common/curves.rs"]
mod curves;

use cintre_geometry::fit;
use divan::Bencher;

fn main() {
    println!(
        "{:28}{:>12}{:>18}{:>18}",
        "arcs, and arcs / least", "0.1 mm", "0.02 mm", "0.001 mm"
    );
    for (name, curve) in curves::ten() {
        let cells = TOLERANCES.map(|tolerance| {
            let arcs = fit(curve.as_ref(), tolerance).path.pieces().len();
            let least = curves::least_arcs(curve.as_ref(), tolerance);
            #[expect(clippy::cast_precision_loss, reason = "a few hundred arcs")]
            let share = arcs as f64 / least;
            format!("{arcs} ({share:.2})")
        });
        println!("{name:28}{:>12}{:>18}{:>18}", cells[0], cells[1], cells[2]);
    }
    divan::main();
}

const TOLERANCES: [f64; 3] = [0.1, 0.02, 0.001];

#[divan::bench(args = TOLERANCES, sample_count = 3, sample_size = 1)]
fn ten_curves(bencher: Bencher<'_, '_>, tolerance: f64) {
    let curves = curves::ten();
    bencher.bench_local(|| {
        curves
            .iter()
            .map(|(_, curve)| fit(curve.as_ref(), tolerance))
            .collect::<Vec<_>>()
    });
}
