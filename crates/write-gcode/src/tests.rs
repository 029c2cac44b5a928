//! Programs read back by a small reader of their own.

mod dialects;

use crate::{Error, write};
use cintre_geometry::{Piece, Point};
use cintre_work::{BitChange, Cut, FileLayout, Move, Program, Relief, Router, To, Unit, Zero, ZeroHeight};
use proptest::prelude::*;

fn router(units: Unit, decimals: usize) -> Router {
    Router {
        name: "bench".into(),
        bed: (1300.0, 2500.0),
        travel_z: None,
        bit_change: BitChange::File,
        safe_height: 10.0,
        zero: Zero {
            at: (0.0, 0.0),
            height: ZeroHeight::StockFace,
        },
        units,
        decimals,
        arcs: true,
        longest_radius: 60_000.0,
        longest_arc: std::f64::consts::PI,
        layout: FileLayout {
            numbered: false,
            longest_line: 70,
            percent: false,
        },
        extraction: None,
        park: None,
        speeds: (8000.0, 24_000.0),
        spindle_delay: 4.0,
        through: 0.2,
        tabs: None,
        cut: Cut::Climb,
        ramp: 3_f64.to_radians(),
        finish: 0.0,
        leave_web: 0.0,
        relief: Relief::None,
        mark_depth: 0.5,
        rapid: 5000.0,
        acceleration: 500.0,
        cornering: 0.05,
        opening_lines: Vec::new(),
        closing_lines: Vec::new(),
        keep_outs: Vec::new(),
    }
}

fn step(x: f64, y: f64, z: f64, to: To) -> Move {
    Move {
        end: Point::new(x, y),
        z,
        to,
    }
}

fn program(moves: Vec<Move>) -> Program {
    Program {
        sheet: "gate-1".into(),
        bit: "end mill".into(),
        diameter: 6.0,
        number: Some(2),
        speed: 18_000.0,
        moves,
    }
}

/// A rapid to the arc's start, down, along it, and up.
fn along(arc: Piece, z: f64) -> Program {
    let (s, e) = (arc.start, arc.end);
    let feed = 1500.0;
    program(vec![
        step(s.x, s.y, 10.0, To::Rapid),
        step(s.x, s.y, -1.0, To::Straight { feed: 400.0 }),
        step(
            e.x,
            e.y,
            z,
            To::Arc {
                bulge: arc.bulge,
                feed,
            },
        ),
        step(e.x, e.y, 10.0, To::Rapid),
    ])
}

/// A block read back, mm: the motion, its ends, and the centre of an arc.
#[derive(Clone, Copy, Debug)]
struct Read {
    motion: u8,
    start: [f64; 3],
    end: [f64; 3],
    centre: Option<Point>,
}

fn read(bytes: &[u8], unit: f64) -> Vec<Read> {
    let (mut at, mut motion, mut out) = ([f64::NAN; 3], 0, Vec::new());
    let text = std::str::from_utf8(bytes).unwrap();
    assert!(text.ends_with("M30\n") && !text.contains("-0.0000 ") && text.lines().all(|l| l.len() <= 70));
    for line in text
        .lines()
        .filter(|l| !l.starts_with('(') && !l.starts_with("G17") && !l.starts_with("G4"))
    {
        let (mut end, mut centre) = (at, [None; 2]);
        for word in line.split(' ') {
            let value: f64 = word[1..].parse().unwrap();
            match &word[..1] {
                "X" => end[0] = value * unit,
                "Y" => end[1] = value * unit,
                "Z" => end[2] = value * unit,
                "I" => centre[0] = Some(at[0] + value * unit),
                "J" => centre[1] = Some(at[1] + value * unit),
                "G" => motion = word[1..].parse().unwrap(),
                _ => {}
            }
        }
        if line.contains(['X', 'Y', 'Z']) {
            let centre = centre[0].zip(centre[1]).map(Point::from);
            assert_eq!(centre.is_some(), motion >= 2, "{line}");
            out.push(Read {
                motion,
                start: at,
                end,
                centre,
            });
            at = end;
        }
    }
    out
}

/// The worst distance of a block from the arc, taken radially at points along it, mm.
fn off(block: &Read, arc: Piece) -> f64 {
    let circle = arc.circle().unwrap();
    let [start, end] = [block.start, block.end].map(|p| Point::new(p[0], p[1]));
    let piece = block.centre.map_or(Piece::line(start, end), |c| {
        Piece::arc_between(c, start, end, block.motion == 3)
    });
    (0..=20u8)
        .map(|i| (piece.point_at(f64::from(i) / 20.0).distance(circle.centre) - circle.radius).abs())
        .fold(0.0, f64::max)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(1000))]
    #[test]
    fn arcs_read_back_on_their_circle(
        log_radius in 5f64.ln()..50_000f64.ln(), sweep in 0.001..3.1f64, left: bool, turn in 0.0..6.2f64,
        x in 0.0..2000.0f64, y in 0.0..1000.0f64, kind in 0usize..4, arcs in prop::bool::weighted(0.8),
    ) {
        let (units, decimals, unit) = [
            (Unit::Millimetre, 3, 1.0), (Unit::Millimetre, 4, 1.0), (Unit::Inch, 4, 25.4), (Unit::Inch, 5, 25.4),
        ][kind];
        let step = unit * 10f64.powi(-i32::try_from(decimals).unwrap());
        let radius = log_radius.exp();
        let sweep = (sweep * if left { 1.0 } else { -1.0 }).clamp(-3000.0 / radius, 3000.0 / radius);
        let start = Point::new(x, y);
        let centre = start + radius * cintre_geometry::Vec2::from_angle(turn);
        let arc = Piece::arc(centre, start, sweep);
        let machine = Router { arcs, ..router(units, decimals) };
        let blocks = read(&write(&[along(arc, -3.0)], &machine, 18.0, &[]).unwrap(), unit);
        let cut: Vec<_> = blocks.iter().filter(|b| b.motion > 0 && !b.start[0].is_nan()).skip(1).collect();
        prop_assert!(!cut.is_empty());
        for block in &cut {
            if let Some(c) = block.centre {
                prop_assert!(arcs);
                let [s, e] = [block.start, block.end].map(|p| Point::new(p[0], p[1]).distance(c));
                prop_assert!((s - e).abs() <= 0.001 + 1e-9, "radii {} and {}", s, e);
                let [s, e] = [block.start, block.end].map(|p| Point::new(p[0], p[1]));
                prop_assert!(Piece::arc_between(c, s, e, block.motion == 3).bulge.abs() < 1.0);
            }
            // The chord error, and what rounding the ends and the centre adds.
            prop_assert!(off(block, arc) <= 0.004 + step, "off by {}", off(block, arc));
        }
        let last = cut.last().unwrap().end;
        prop_assert!((last[0] - arc.end.x).abs() <= step * 0.5001 && (last[1] - arc.end.y).abs() <= step * 0.5001);
        prop_assert!((last[2] + 3.0).abs() <= step * 0.5001);
    }
}

#[test]
fn a_program_stays_as_it_is() {
    let feed = 1800.0;
    let moves = vec![
        step(20.0, 30.0, 10.0, To::Rapid),
        step(20.0, 30.0, 1.0, To::Rapid),
        step(20.0, 30.0, -6.0, To::Straight { feed: 400.0 }),
        step(120.0, 30.0, -6.0, To::Straight { feed }),
        step(120.0, 30.00001, -6.0, To::Straight { feed }),
        step(120.0, 130.0, -8.0, To::Arc { bulge: 1.0, feed }),
        step(20.0, 30.0, -8.0, To::Straight { feed: 900.0 }),
        step(20.0, 30.0, 10.0, To::Rapid),
    ];
    let machine = Router {
        zero: Zero {
            at: (20.0, 0.0),
            height: ZeroHeight::StockBack,
        },
        opening_lines: vec!["G54".into()],
        ..router(Unit::Millimetre, 4)
    };
    let head = [
        "Isolate the machine before a bit is changed (always); keep clear of the bit: it cuts at 6° too."
            .into(),
    ];
    let bytes = write(&[program(moves)], &machine, 18.0, &head).unwrap();
    against("program.nc", &bytes);
}

#[expect(
    clippy::disallowed_methods,
    reason = "kept files are read and renewed by the test alone"
)]
fn against(name: &str, bytes: &[u8]) {
    let file = format!("{}/tests/golden/{name}", env!("CARGO_MANIFEST_DIR"));
    if std::env::var("CINTRE_RENEW").is_ok() {
        std::fs::write(&file, bytes).unwrap();
    }
    let kept = std::fs::read(&file).unwrap();
    assert_eq!(
        String::from_utf8_lossy(&kept),
        String::from_utf8_lossy(bytes),
        "CINTRE_RENEW=1 writes it anew"
    );
}

#[test]
fn what_must_not_reach_a_machine_is_refused() {
    let machine = router(Unit::Millimetre, 4);
    let over = step(0.0, 0.0, 10.0, To::Rapid);
    let refused = |moves: Vec<Move>| write(&[program(moves)], &machine, 18.0, &[]).unwrap_err();
    assert!(matches!(refused(vec![]), Error::Start(_)));
    assert!(matches!(
        refused(vec![step(0.0, 0.0, 5.0, To::Rapid)]),
        Error::Start(_)
    ));
    assert!(matches!(
        refused(vec![over, step(9.0, 0.0, 5.0, To::Rapid)]),
        Error::LowRapid { index: 1, .. }
    ));
    assert!(matches!(
        refused(vec![over, step(9.0, 0.0, 5.0, To::Straight { feed: 0.0 })]),
        Error::Feed { .. }
    ));
    assert!(matches!(
        refused(vec![over, step(f64::NAN, 0.0, 5.0, To::Rapid)]),
        Error::NotFinite(_)
    ));
    let coarse = router(Unit::Millimetre, 2);
    assert!(matches!(
        write(&[program(vec![over])], &coarse, 18.0, &[]),
        Err(Error::Decimals { decimals: 2, .. })
    ));
    let two = Router {
        opening_lines: vec!["G54\nG55".into()],
        ..machine.clone()
    };
    assert!(matches!(
        write(&[program(vec![over])], &two, 18.0, &[]),
        Err(Error::Line(_))
    ));
}

#[test]
fn no_rapid_runs_below_the_safe_height_by_rounding() {
    // 10 mm is 0.393701 in, and 0.3937 in is 9.99998 mm; 2 mm is 0.078740 in.
    let up = vec![
        step(5.0, 5.0, 10.0, To::Rapid),
        step(5.0, 5.0, 2.0, To::Rapid),
        step(5.0, 5.0, -3.0, To::Straight { feed: 400.0 }),
        step(5.0, 5.0, 10.0, To::Rapid),
        step(50.0, 5.0, 10.0, To::Rapid),
    ];
    for (units, decimals, unit) in [
        (Unit::Inch, 4, 25.4),
        (Unit::Inch, 5, 25.4),
        (Unit::Millimetre, 3, 1.0),
    ] {
        let bytes = write(&[program(up.clone())], &router(units, decimals), 18.0, &[]).unwrap();
        let heights: Vec<f64> = read(&bytes, unit).iter().map(|b| b.end[2]).collect();
        assert!(
            heights.iter().all(|z| *z >= 10.0 - 1e-9 || *z < 3.0),
            "{heights:?}"
        );
        assert!(heights.iter().any(|z| (2.0..2.003).contains(z)), "{heights:?}");
    }
}
