use super::JOB;
use crate::*;
use cintre_measure::{Rule, Unit};
use proptest::prelude::*;

const SEED_JOB: &str = include_str!("../../../../seeds/job.yaml");
const SEED_SHOP: &str = include_str!("../../../../seeds/shop.yaml");
const GARDEN_SHOP: &str = include_str!("../../../../examples/almshouse/garden-shop.yaml");
const EXAMPLES: [(&str, &str); 5] = [
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
    (
        "infirmary-window.yaml",
        include_str!("../../../../examples/almshouse/infirmary-window.yaml"),
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
fn a_ring_says_how_it_stands_and_is_divided() {
    let read = |ring: &str| {
        let job = shown(read_job("job.yaml", &JOB.replace("ring: 215", ring)));
        job.arch("gate").unwrap().clone()
    };
    let cut = read("ring: 215, reveal: 6, voussoirs: { count: 17, joint: 8 }, ordinates: { step: 150 }");
    assert_eq!((cut.reveal, cut.ordinates), (Some(6.0), Some(150.0)));
    assert_eq!(cut.size("reveal"), None);
    assert_eq!(
        cut.voussoirs.unwrap().division,
        Voussoirs::Cut {
            count: 17,
            joint: 8.0
        }
    );
    let uncut = read("ring: 102.5, voussoirs: { size: 65, joints: [6, 19] }")
        .voussoirs
        .unwrap();
    assert_eq!(
        uncut.division,
        Voussoirs::Uncut {
            size: 65.0,
            least: 6.0,
            most: 19.0
        }
    );
    assert_eq!(uncut.places.at("size").field, "arches.gate.voussoirs.size");
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
    assert_eq!(
        (gate.reveal, gate.ordinates, &gate.voussoirs),
        (None, None, &None)
    );
    let form = &job.make[0];
    let Form::Centering(centering) = &form.form else {
        panic!("a centering")
    };
    close(centering.wall, 225.0);
    assert_eq!(centering.tie, None);
    assert_eq!(form.copies, 1);
    let ShopAt::Inline(shop) = &job.shop else {
        panic!("a shop in the job")
    };
    close(shop.bits["straight-6"].diameter, 6.35);
    assert_eq!(shop.house.spacing, Spacing::Margin(12.0));
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
                MachineSpec::Laser(laser) => laser.units,
                MachineSpec::Pen(pen) => pen.units,
            },
            ShopAt::File(_) => Unit::Millimetre,
        };
        prop_assert_eq!(machine(&before), if inch { Unit::Inch } else { Unit::Millimetre });
        prop_assert_eq!(machine(&after), machine(&before));
    }
}

#[test]
fn measured_points_are_read_in_the_units_of_the_job() {
    let measured = "{ shape: measured, as: curve, points: [[-24, 0], [0, 8 1/2], [24, -1/4 in]] }";
    let text = super::spoilt("{ shape: segmental, span: 1220, rise: 260, ring: 215 }", measured);
    let text = text
        .replace("units: mm", "units: in")
        .replace("lagging: 18", "lagging: 3/4");
    let faults = read_job("job.yaml", &text).err();
    let job = read_job("job.yaml", &text).unwrap_or_else(|_| panic!("{faults:?}"));
    let arch = job.arch("gate").expect("the gate");
    assert_eq!(
        (arch.shape, arch.options["as"].as_str()),
        (Shape::Measured, "curve")
    );
    let wanted = [[-609.6, 0.0], [0.0, 215.9], [609.6, -6.35]];
    for (got, want) in arch.points.iter().flatten().zip(wanted.iter().flatten()) {
        close(*got, *want);
    }
    assert_eq!(arch.points.len(), 3);
}

#[test]
fn points_in_a_mistaken_unit_are_doubted() {
    let measured = "{ shape: measured, as: circle, points: [[-12, 0], [0, 4], [12, 0]] }";
    let text = super::spoilt("{ shape: segmental, span: 1220, rise: 260, ring: 215 }", measured);
    let faults = read_job("job.yaml", &text).expect_err("an arch of 24 mm").0;
    assert!(
        faults
            .iter()
            .any(|fault| fault.field == "arches.gate.points" && fault.what.contains("24 mm")),
        "{faults:?}"
    );
    let meant = text.replace("as: circle", "as: circle, size-meant: true");
    read_job("job.yaml", &meant).unwrap_or_else(|faults| panic!("{faults}"));
}
