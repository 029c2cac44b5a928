//! Leaves that stand clear of their openings, from the job to the figures.

use crate::{Conduct, Plan, Trouble, plan};
use cintre_job::{ShopAt, read_job};

fn planned(arch: &str, pattern: &str) -> Result<Plan, Trouble> {
    let text = format!(
        "title: Almshouse\nshop: {{ stock: {{ mdf: {{ material: mdf, sheet: [2440, 1220], thickness: 12 }} }}, \
         machines: {{ taker: {{ kind: drawing }} }} }}\narches: {{ door: {{ {arch} }} }}\n\
         make: [pattern: {{ arch: door, {pattern}, stock: mdf, machine: taker }}]\n"
    );
    let job = read_job("job.yaml", &text).map_err(|faults| Trouble::Faults(faults.0))?;
    let ShopAt::Inline(shop) = &job.shop else {
        panic!("the shop is in the job")
    };
    let conduct = Conduct {
        say: &|_| (),
        stop: &|| false,
    };
    plan(&job, shop, conduct)
}

#[test]
fn leaves_of_every_kind_of_soffit_are_two_gaps_narrower() {
    for arch in [
        "shape: segmental, span: 915, rise: 152",
        "shape: semicircular, span: 915",
        "shape: stilted, span: 915, stilt: 200",
        "shape: pointed, span: 915, rise: 700",
        "shape: elliptical, span: 915, rise: 300",
        "shape: elliptical, span: 915, rise: 600",
    ] {
        let plan =
            planned(arch, "piece: inside, gap: 4").unwrap_or_else(|trouble| panic!("{arch}: {trouble:?}"));
        let form = &plan.figures_json()["forms"][0];
        let width = form["leaf_width_at_its_foot"].as_f64().unwrap();
        assert!((width - 907.0).abs() < 1e-6, "{arch}: {width}");
        let leaning = arch.contains("segmental");
        assert_eq!(
            form["foot_below_the_springing"].as_f64().unwrap() > 1.0,
            leaning,
            "{arch}"
        );
        assert_eq!(
            form.get("leaf_radii").is_none(),
            arch.contains("elliptical"),
            "{arch}"
        );
    }
}

#[test]
fn too_wide_a_gap_is_a_fault_of_its_field() {
    let wide = planned("shape: semicircular, span: 915", "piece: inside, gap: 460");
    let Err(Trouble::Impossible(faults)) = wide else {
        panic!("{wide:?}")
    };
    assert_eq!(faults[0].field, "make[0].pattern.gap");
    assert!(faults[0].what.contains("457.50 mm is the most"), "{}", faults[0]);
}
