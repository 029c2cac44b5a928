//! How long a job of 200 parts on 12 sheets takes to be planned and written as programs, and the memory it takes.

#![expect(clippy::print_stdout, reason = "a table is what this is run for")]
#![expect(clippy::disallowed_methods, reason = "a bench is timed")]

mod blocks;

use blocks::Blocks;
use cintre_geometry::{Outline, Piece, Point, Rect, Vec2, Vertex};
use cintre_toolpath::plan;
use cintre_work::{
    Bit, BitChange, BitKind, Bore, Cut, Depth, Feeds, FileLayout, Grain, Part, Placed, Relief, Router, Sheet,
    Stock, StockGrain, TabRule, Trim, Unit, Zero, ZeroHeight,
};
use std::collections::BTreeMap;
use std::time::{Duration, Instant};

fn main() {
    let (router, bits) = (router(), bits());
    let sheets: Vec<Sheet> = (1..=12).map(sheet).collect();
    let parts: usize = sheets.iter().map(|s| s.parts.len()).sum();
    let (mut planning, mut writing, mut bytes, mut moves) = (Duration::ZERO, Duration::ZERO, 0, 0);
    let (mut written, mut asked) = (0, 0);
    for sheet in &sheets {
        let begun = Instant::now();
        let planned = plan(sheet, &router, &bits).expect("the sheets can be cut");
        planning += begun.elapsed();
        let (begun, mut files) = (Instant::now(), Vec::new());
        for program in &planned.programs {
            moves += program.moves.len();
            let one = std::slice::from_ref(program);
            let file = cintre_write_gcode::write(one, &router, sheet.stock.thickness, &[]);
            files.push(file.expect("the programs can be written"));
        }
        writing += begun.elapsed();
        bytes += files.iter().map(Vec::len).sum::<usize>();
        let texts: Vec<&str> = files
            .iter()
            .filter_map(|file| std::str::from_utf8(file).ok())
            .collect();
        let blocks = Blocks::of(sheet, &planned, &router, &bits, &texts);
        (written, asked) = (written + blocks.written, asked + blocks.asked());
    }
    println!(
        "{parts} parts on {} sheets: planned in {:.2} s, written in {:.2} s, {moves} moves, {bytes} bytes, at most {} of memory",
        sheets.len(),
        planning.as_secs_f64(),
        writing.as_secs_f64(),
        most_memory()
    );
    println!("{written} blocks written, {asked} asked for by the design");
}

/// The most that this has held at once, as the system tells it.
fn most_memory() -> String {
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    let line = status.lines().find_map(|l| l.strip_prefix("VmHWM:"));
    line.map_or_else(|| "an unknown amount".to_owned(), |l| l.trim().to_owned())
}

/// Ribs in rows, each with four bolt holes and an opening.
fn sheet(number: usize) -> Sheet {
    let mut parts = Vec::new();
    let counts = [17, 17, 17, 17, 17, 17, 17, 17, 16, 16, 16, 16];
    for k in 0..counts[number - 1] {
        let (column, row) = (f64::from(k % 3), f64::from(k / 3));
        let corner = Point::new(40.0 + column * 790.0, 30.0 + row * 190.0);
        parts.push(Placed {
            name: format!("rib {number}.{k}"),
            part: rib(corner),
        });
    }
    Sheet {
        id: format!("sheet-{number}"),
        stock: stock(),
        parts,
    }
}

fn rib(corner: Point) -> Part {
    let centre = corner + Vec2::new(380.0, -560.0);
    let at = |r: f64, a: f64| centre + Vec2::from_angle(std::f64::consts::FRAC_PI_2 + a) * r;
    let (inner, outer, half) = (610.0, 720.0, 0.5);
    let pieces = [
        Piece::line(at(inner, -half), at(outer, -half)),
        Piece::arc(centre, at(outer, -half), 2.0 * half),
        Piece::line(at(outer, half), at(inner, half)),
        Piece::arc(centre, at(inner, half), -2.0 * half),
    ];
    let vertex = |p: &Piece| Vertex {
        point: p.start,
        bulge: p.bulge,
    };
    let outline = Outline::new(pieces.iter().map(vertex).collect());
    let bore = |a: f64| Bore {
        centre: at(665.0, a),
        diameter: 10.0,
        depth: Depth::Through,
    };
    let hole = at(665.0, 0.0);
    Part {
        name: "rib".to_owned(),
        outline,
        openings: vec![Outline::rectangle(Rect::from_center_size(hole, (60.0, 40.0))).reversed()],
        bores: [-0.4, -0.2, 0.2, 0.4].map(bore).to_vec(),
        recesses: vec![],
        marks: vec![],
        clean: Vec::new(),
        stock: "ply18".to_owned(),
        thickness: 17.6,
        grain: Grain::Free,
        count: 1,
        fit_error: 0.0,
    }
}

fn bits() -> Vec<Bit> {
    let feeds = Feeds {
        speed: 16000.0,
        feed: 3200.0,
        plunge: 900.0,
        depth: 3.0,
    };
    vec![Bit {
        name: "straight-6".to_owned(),
        kind: BitKind::Straight,
        diameter: 6.35,
        flutes: 2,
        cutting_length: 25.0,
        plunges: true,
        number: Some(1),
        holder: None,
        feeds: BTreeMap::from([("plywood".to_owned(), feeds)]),
    }]
}

fn stock() -> Stock {
    Stock {
        name: "ply18".to_owned(),
        material: "plywood".to_owned(),
        size: (2440.0, 1220.0),
        thickness: 17.6,
        grain: StockGrain::Long,
        outline: None,
        keep_outs: Vec::new(),
        alike: false,
        sheets: None,
        trim: Trim::even(8.0),
    }
}

fn router() -> Router {
    Router {
        name: "table".to_owned(),
        bed: (2500.0, 1300.0),
        travel_z: None,
        bit_change: BitChange::File,
        safe_height: 12.0,
        zero: Zero {
            at: (0.0, 0.0),
            height: ZeroHeight::StockFace,
        },
        units: Unit::Millimetre,
        decimals: 4,
        arcs: true,
        longest_radius: 10000.0,
        longest_arc: std::f64::consts::PI,
        layout: FileLayout {
            numbered: false,
            longest_line: 70,
            percent: false,
        },
        extraction: None,
        park: None,
        mark_depth: 0.5,
        speeds: (6000.0, 24000.0),
        spindle_delay: 4.0,
        through: 0.3,
        tabs: Some(TabRule {
            width: 8.0,
            height: 5.0,
            every: 300.0,
            ramped: false,
        }),
        cut: Cut::Climb,
        ramp: 3_f64.to_radians(),
        finish: 0.0,
        leave_web: 0.0,
        relief: Relief::None,
        rapid: 5000.0,
        acceleration: 500.0,
        cornering: 0.05,
        opening_lines: vec![],
        closing_lines: vec![],
        keep_outs: vec![],
    }
}
