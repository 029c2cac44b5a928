//! Programs are no longer than their designs ask for.

#[path = "../../../toolpath/benches/job/blocks.rs"]
mod count;

use crate::{Conduct, Plan, plan};
use cintre_job::{read_job, read_shop};
use cintre_work::{BitKind, Machine};
use count::Blocks;

const SHOP: &str = include_str!("../../../../examples/almshouse/garden-shop.yaml");

fn planned(text: &str) -> Plan {
    let shop = read_shop("shop.yaml", SHOP).unwrap();
    let conduct = Conduct {
        say: &|_| (),
        stop: &|| false,
        read: &|name| Err(format!("{name} is not there")),
    };
    plan(&read_job("job.yaml", text).unwrap(), &shop, conduct).unwrap()
}

#[test]
fn blocks_are_within_a_twentieth_of_what_the_designs_lines_and_arcs_ask_for() {
    for job in [
        include_str!("../../../../examples/almshouse/garden-gate.yaml"),
        include_str!("../../../../examples/almshouse/washhouse-lunette.yaml"),
        include_str!("../../../../examples/almshouse/whole-job.yaml"),
    ] {
        let plan = planned(job);
        for sheet in &plan.sheets {
            let (Machine::Router(router), Some(road)) = (&sheet.machine, &sheet.road) else {
                continue;
            };
            let straight = |name: &str| {
                sheet
                    .bits
                    .iter()
                    .any(|b| b.name == name && b.kind == BitKind::Straight)
            };
            let programs = road.programs.iter().filter(|program| straight(&program.bit));
            let files: Vec<String> = programs
                .map(|program| {
                    let one = std::slice::from_ref(program);
                    let bytes = cintre_write_gcode::write(one, router, sheet.sheet.stock.thickness, &[]);
                    String::from_utf8(bytes.unwrap()).unwrap()
                })
                .collect();
            let texts: Vec<&str> = files.iter().map(String::as_str).collect();
            let blocks = Blocks::of(&sheet.sheet, road, router, &sheet.bits, &texts);
            assert!(
                20 * blocks.written <= 21 * blocks.asked(),
                "{}: {blocks:?}",
                sheet.sheet.id
            );
        }
    }
}
