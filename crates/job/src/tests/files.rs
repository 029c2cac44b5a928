use super::JOB;
use crate::*;
use cintre_measure::{Rule, Unit};
use proptest::prelude::*;

const SEED_JOB: &str = include_str!("../../../../seeds/job.yaml");
const SEED_SHOP: &str = include_str!("../../../../seeds/shop.yaml");
const GARDEN_SHOP: &str = include_str!("../../../../examples/almshouse/garden-shop.yaml");
const EXAMPLES: [(&str, &str); 4] = [
    (
        "garden-gate.yaml",
        include_str!("../../../../examples/almshouse/garden-gate.yaml"),
    ),
    (
        "chapel-light.yaml",
        include_str!("../../../../examples/almshouse/chapel-light.yaml"),
    ),
    (
        "washhouse-lunette.yaml",
        include_str!("../../../../examples/almshouse/washhouse-lunette.yaml"),
    ),
    (
        "refectory-door.yaml",
        include_str!("../../../../examples/almshouse/refectory-door.yaml"),
    ),
];

fn shown<T>(read: Result<T, Faults>) -> T {
    read.unwrap_or_else(|faults| panic!("{faults}"))
}

fn close(a: f64, b: f64) {
    assert!((a - b).abs() < 1e-9, "{a} is not {b}");
}

#[test]
fn seeds_and_examples_have_no_fault() {
    let jobs = EXAMPLES.map(|(name, text)| (name, text, GARDEN_SHOP));
    for (name, job, shop) in jobs.into_iter().chain([("job.yaml", SEED_JOB, SEED_SHOP)]) {
        let job = shown(read_job(name, job));
        let shop = shown(read_shop("shop.yaml", shop));
        shown(job.check_shop(&shop));
        assert!(matches!(job.shop, ShopAt::File(_)));
        assert!(!job.make.is_empty());
    }
}

#[test]
fn a_job_says_what_was_written() {
    let job = shown(read_job("job.yaml", JOB));
    assert_eq!(job.title, "Walled garden, north gate");
    close(job.tolerance, 0.02);
    let gate = job.arch("gate").unwrap();
    assert_eq!(gate.shape, Shape::Segmental);
    close(gate.size("span").unwrap(), 1220.0);
    assert_eq!(gate.size("radius"), None);
    close(gate.ring.unwrap(), 215.0);
    let form = &job.make[0];
    let Form::Centering(centering) = &form.form else {
        panic!("a centering")
    };
    close(centering.wall, 225.0);
    close(centering.tie, 100.0);
    assert_eq!(form.copies, 1);
    let ShopAt::Inline(shop) = &job.shop else {
        panic!("a shop in the job")
    };
    close(shop.bits["straight-6"].diameter, 6.35);
    assert_eq!(shop.house.spacing, Spacing::Margin(4.0));
    let MachineSpec::Router(table) = &shop.machines["table"] else {
        panic!("a router")
    };
    assert_eq!(table.bits, ["straight-6"]);
    assert!(table.tabs.is_some());
    assert_eq!(job.rule_in(shop), Rule::HalfMillimetre);
}

#[test]
fn a_later_stage_can_point_at_a_field() {
    let job = shown(read_job("job.yaml", JOB));
    let places = &job.arch("gate").unwrap().places;
    let fault = places.at("rise").fault("too high", None);
    assert_eq!((fault.line, fault.column), (11, 47));
    assert_eq!(fault.field, "arches.gate.rise");
    assert_eq!(fault.value.as_deref(), Some("260"));
    let left_out = places.at("radius");
    assert_eq!(
        (left_out.line, left_out.field.as_str()),
        (11, "arches.gate.radius")
    );
    assert_eq!(left_out.given, None);
    let form = &job.make[0].places;
    assert_eq!(form.at("lagging").field, "make[0].centering.lagging");
    assert_eq!(form.at("tie").given, None);
}

#[test]
fn a_job_may_be_in_inches() {
    let text = "title: Gate\nunits: in\nshop: shop.yaml\narches:\n  gate: { shape: pointed, span: 48, radius: 4' 1/2\" }\n  \
                low: { shape: stilted, span: 36 1/2, stilt: 1220 mm }\n";
    let job = shown(read_job("job.yaml", text));
    assert_eq!(job.units, Unit::Inch);
    close(job.arch("gate").unwrap().size("span").unwrap(), 1219.2);
    close(job.arch("gate").unwrap().size("radius").unwrap(), 48.5 * 25.4);
    close(job.arch("low").unwrap().size("span").unwrap(), 36.5 * 25.4);
    close(job.arch("low").unwrap().size("stilt").unwrap(), 1220.0);
}

#[test]
fn a_shop_may_be_in_inches_inside_a_job_in_millimetres() {
    let text = super::spoilt("shop:\n", "shop:\n  units: in\n")
        .replace("[2440, 1220], thickness: 17.6", "[96, 48], thickness: 23/32")
        .replace("cutting-length: 25", "cutting-length: 1")
        .replace("[2500, 1300]", "[98, 50]");
    let job = shown(read_job("job.yaml", &text));
    let ShopAt::Inline(shop) = &job.shop else {
        panic!("a shop in the job")
    };
    close(shop.stock["ply18"].thickness, 23.0 / 32.0 * 25.4);
    let MachineSpec::Router(table) = &shop.machines["table"] else {
        panic!("a router")
    };
    assert_eq!(table.units, Unit::Inch);
    close(job.arch("gate").unwrap().size("span").unwrap(), 1220.0);
}

#[test]
fn written_out_in_full_it_reads_back_as_the_same() {
    let inches = JOB.replace("1220, rise: 260", "48 1/2 in, rise: 7 5/16 in");
    for (name, text) in EXAMPLES
        .into_iter()
        .chain([("seed", SEED_JOB), ("inline", JOB), ("inches", &inches)])
    {
        let full = shown(plain_job(name, text));
        let (before, after) = (shown(read_job(name, text)), shown(read_job(name, &full)));
        for ((_, before), (_, after)) in before.arches.iter().zip(&after.arches) {
            assert_eq!(before.sizes, after.sizes);
        }
        assert_eq!(before.arches.len(), after.arches.len());
        assert_eq!(shown(plain_job(name, &full)), full);
    }
    let full = shown(plain_shop("shop.yaml", GARDEN_SHOP));
    assert_eq!(shown(plain_shop("shop.yaml", &full)), full);
    assert!(full.contains("safe-height: 12 mm"), "{full}");
}

proptest! {
    /// However the sizes are written, in whichever unit, the job written out in full has the same ones to the last digit.
    #[test]
    fn any_sizes_survive_being_written_out(
        span in 40.0_f64..19_000.0,
        inches in 2_u32..700,
        over in 1_u32..32,
        wall in 1_u32..2000,
        inch in any::<bool>(),
    ) {
        let unit = if inch { "in" } else { "mm" };
        let text = format!(
            "title: x\nunits: {unit}\nshop: {{ stock: {{ s: {{ material: m, sheet: [900, 800], thickness: 9 }} }}, \
             machines: {{ d: {{ kind: drawing }} }} }}\narches:\n  a: {{ shape: elliptical, span: {span} mm, \
             rise: {inches} {over}/32 in }}\nmake:\n  - centering: {{ arch: a, wall: {wall}, lagging: 1, stock: s, machine: d }}\n"
        );
        let before = shown(read_job("job.yaml", &text));
        let after = shown(read_job("job.yaml", &shown(plain_job("job.yaml", &text))));
        prop_assert_eq!(&before.arch("a").unwrap().sizes, &after.arch("a").unwrap().sizes);
        prop_assert_eq!(&before.make[0].form, &after.make[0].form);
        let machine = |job: &Job| match &job.shop {
            ShopAt::Inline(shop) => match &shop.machines["d"] {
                MachineSpec::Drawing(drawing) => drawing.units,
                MachineSpec::Router(router) => router.units,
            },
            ShopAt::File(_) => Unit::Millimetre,
        };
        prop_assert_eq!(machine(&before), if inch { Unit::Inch } else { Unit::Millimetre });
        prop_assert_eq!(machine(&after), machine(&before));
    }
}
