//! How long a thousand arches of every shape take: their soffits, their rings, their voussoirs.

mod common;
mod shapes;

use cintre_geometry::voussoirs::{Division, Voussoirs, voussoirs};
use cintre_geometry::{Path, parallel_line};
use common::Sizes;
use divan::counter::ItemsCount;
use divan::{Bencher, black_box};
use shapes::{SHAPES, Shape};

/// How many arches.
const NUMBER: usize = 1_000;

/// How far tangent arcs may stand off a curve that is not circular, mm: what a job takes if it does not say.
const TOLERANCE: f64 = 0.02;

fn main() {
    divan::main();
}

/// Every arch worked out from its sizes, its soffit as arcs.
#[divan::bench(sample_count = 3, sample_size = 1)]
fn soffits(bencher: Bencher<'_, '_>) {
    let orders = orders();
    bencher
        .counter(ItemsCount::new(orders.len()))
        .bench_local(|| black_box(&orders).iter().map(Order::soffit).collect::<Vec<_>>());
}

/// The backs of those that can have a ring, over soffits that are there already.
#[divan::bench(sample_count = 3, sample_size = 1)]
fn rings(bencher: Bencher<'_, '_>) {
    let mut orders = orders();
    orders.retain(|order| order.shape.has_ring());
    let beds: Vec<_> = orders.iter().map(|order| (order, order.soffit())).collect();
    bencher.counter(ItemsCount::new(beds.len())).bench_local(|| {
        let beds = black_box(&beds).iter();
        beds.map(|(order, soffit)| order.back(soffit)).collect::<Vec<_>>()
    });
}

/// The voussoirs of those that are divided, between soffits and backs that are there already.
#[divan::bench(sample_count = 3, sample_size = 1)]
fn divisions(bencher: Bencher<'_, '_>) {
    let mut orders = orders();
    orders.retain(|order| order.shape.is_divided());
    let rings: Vec<_> = orders
        .iter()
        .map(|order| {
            let soffit = order.soffit();
            let back = order.back(&soffit);
            (order, soffit, back)
        })
        .collect();
    bencher.counter(ItemsCount::new(rings.len())).bench_local(|| {
        let rings = black_box(&rings).iter();
        rings
            .map(|(order, soffit, back)| order.divided(soffit, back))
            .collect::<Vec<_>>()
    });
}

/// All of it, from the sizes to the voussoirs.
#[divan::bench(sample_count = 3, sample_size = 1)]
fn whole(bencher: Bencher<'_, '_>) {
    let orders = orders();
    bencher.counter(ItemsCount::new(orders.len())).bench_local(|| {
        for order in black_box(&orders) {
            let soffit = order.soffit();
            let back = order.shape.has_ring().then(|| order.back(&soffit));
            let back = back.filter(|_| order.shape.is_divided());
            black_box(back.map(|back| order.divided(&soffit, &back)));
        }
    });
}

/// An arch as it is asked for.
struct Order {
    shape: Shape,
    span: f64,
    /// From 0 to 1: where its rise lies among those of its shape.
    share: f64,
    depth: f64,
    pairs: u32,
    joint: f64,
}

fn orders() -> Vec<Order> {
    let mut sizes = Sizes::new();
    let order = |(number, shape): (u32, &Shape)| Order {
        shape: *shape,
        span: sizes.within(900.0..3000.0),
        share: sizes.within(0.0..1.0),
        depth: sizes.within(100.0..230.0),
        pairs: 5 + number % 8,
        joint: sizes.within(3.0..10.0),
    };
    (0..).zip(SHAPES.iter().cycle().take(NUMBER)).map(order).collect()
}

impl Order {
    fn soffit(&self) -> Path {
        let arch = self
            .shape
            .arch(self.span, self.share)
            .expect("sizes that such an arch can have");
        arch.soffit.fit(TOLERANCE).path
    }

    fn back(&self, soffit: &Path) -> Path {
        parallel_line(soffit, -self.depth).expect("outside, every ring asked for can be")
    }

    fn divided(&self, soffit: &Path, back: &Path) -> Voussoirs {
        let division = Division::Cut {
            count: 2 * self.pairs + u32::from(!self.shape.is_pointed()),
            joint: self.joint,
        };
        voussoirs(soffit, back, division).expect("the units are wide enough")
    }
}
