//! How long the roads of a bit's centre take: the parallels of ribs, outside and inside, and that the time grows as
//! their number does.

mod common;

use cintre_geometry::arch::Segmental;
use cintre_geometry::{Outline, Path, Piece, parallel, parallel_line};
use common::Sizes;
use divan::counter::ItemsCount;
use divan::{Bencher, black_box};

/// The radius of the bit, mm: one of 1/4 in.
const BIT_RADIUS: f64 = 3.175;

fn main() {
    divan::main();
}

/// The road outside each rib, on the side away from the wood.
#[divan::bench(args = [1_000, 10_000], sample_count = 3, sample_size = 1)]
fn outside(bencher: Bencher<'_, '_>, number: u32) {
    roads(bencher, number, BIT_RADIUS);
}

/// The road inside each rib, as of a pocket of its shape.
#[divan::bench(args = [1_000, 10_000], sample_count = 3, sample_size = 1)]
fn inside(bencher: Bencher<'_, '_>, number: u32) {
    roads(bencher, number, -BIT_RADIUS);
}

fn roads(bencher: Bencher<'_, '_>, number: u32, to_right: f64) {
    let ribs = ribs(number);
    bencher.counter(ItemsCount::new(number)).bench_local(|| {
        for rib in &ribs {
            let road = parallel(black_box(rib), to_right).expect("a rib has a parallel");
            assert_eq!(black_box(road).len(), 1, "a rib has one road round it");
        }
    });
}

/// Ribs between a segmental soffit and its true parallel, counter-clockwise.
fn ribs(number: u32) -> Vec<Outline> {
    let mut sizes = Sizes::new();
    (0..number).map(|_| rib(&mut sizes)).collect()
}

fn rib(sizes: &mut Sizes) -> Outline {
    let span = sizes.within(600.0..3000.0);
    let (rise, depth) = (span * sizes.within(0.05..0.5), sizes.within(60.0..250.0));
    let arch = Segmental {
        span: Some(span),
        rise: Some(rise),
        radius: None,
    }
    .arch()
    .expect("it rises under half its span");
    let soffit = arch.soffit.fit(0.0).path;
    let back = parallel_line(&soffit, -depth).expect("one arc has every outer parallel");
    let up = Path::from_pieces(&[Piece::line(soffit.end(), back.end())]);
    Outline::closing(&soffit.then(&up).then(&back.reversed()))
}
