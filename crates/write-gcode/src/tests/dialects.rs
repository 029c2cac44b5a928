//! What a shop's machine wants otherwise: several bits in one file, short arcs, beams, pens.

use super::{against, program, router, step};
use crate::{Error, write, write_beam, write_pen};
use cintre_geometry::{Outline, Path, Point, Rect};
use cintre_work::{
    Beam, BeamPower, BitChange, Dialect, Drawing, Figure, FileLayout, Laser, LaserFile, Layer, Lift, Pen,
    PenFile, Program, Router, Shape, To, Unit,
};
use std::collections::BTreeMap;
use std::f64::consts::FRAC_PI_2;

fn two_bits() -> [Program; 2] {
    let drilled = vec![
        step(30.0, 40.0, 10.0, To::Rapid),
        step(30.0, 40.0, -12.0, To::Straight { feed: 300.0 }),
        step(30.0, 40.0, 10.0, To::Rapid),
    ];
    let feed = 1800.0;
    let cut = vec![
        step(60.0, 40.0, 10.0, To::Rapid),
        step(60.0, 40.0, -12.0, To::Straight { feed: 400.0 }),
        step(0.0, 40.0, -12.0, To::Arc { bulge: 1.0, feed }),
        step(0.0, 40.0, 10.0, To::Rapid),
    ];
    let drill = Program {
        bit: "drill-9".into(),
        diameter: 9.0,
        number: Some(7),
        speed: 6000.0,
        ..program(drilled)
    };
    [drill, program(cut)]
}

#[test]
fn a_machine_that_fetches_its_bits_gets_them_by_number() {
    let machine = Router {
        bit_change: BitChange::M6,
        longest_arc: FRAC_PI_2,
        layout: FileLayout {
            numbered: true,
            longest_line: 80,
            percent: true,
        },
        extraction: Some("M8".into()),
        park: Some(Point::new(0.0, 1220.0)),
        ..router(Unit::Millimetre, 4)
    };
    against("fetched.nc", &write(&two_bits(), &machine, 12.0, &[]).unwrap());
    let mut unnumbered = two_bits();
    unnumbered[1].number = None;
    assert_eq!(
        write(&unnumbered, &machine, 12.0, &[]),
        Err(Error::NoNumber("end mill".into()))
    );
}

#[test]
fn a_machine_without_a_changer_stops_and_says_which_bit_comes_next() {
    let machine = Router {
        bit_change: BitChange::Pause,
        ..router(Unit::Inch, 4)
    };
    against("paused.nc", &write(&two_bits(), &machine, 12.0, &[]).unwrap());
}

#[test]
fn a_line_longer_than_the_controller_reads_is_refused() {
    let machine = Router {
        layout: FileLayout {
            numbered: true,
            longest_line: 40,
            percent: false,
        },
        ..router(Unit::Millimetre, 4)
    };
    let refused = write(&two_bits(), &machine, 12.0, &[]).unwrap_err();
    assert!(
        matches!(refused, Error::LongLine { longest: 40, .. }),
        "{refused}"
    );
}

/// A square with a hole and a mark.
fn lines() -> Drawing {
    let shape = |layer, figure| Shape { layer, figure };
    Drawing {
        title: "lunette".into(),
        notes: Vec::new(),
        area: Rect::new(0.0, 0.0, 300.0, 200.0),
        shapes: vec![
            shape(
                Layer::Stock,
                Figure::Closed(Outline::rectangle(Rect::new(0.0, 0.0, 300.0, 200.0))),
            ),
            shape(
                Layer::Mark,
                Figure::Open(Path::polyline(&[Point::new(40.0, 50.0), Point::new(80.0, 50.0)])),
            ),
            shape(
                Layer::Bore,
                Figure::Circle {
                    centre: Point::new(60.0, 70.0),
                    radius: 9.92,
                },
            ),
            shape(
                Layer::Outline,
                Figure::Closed(Outline::rectangle(Rect::new(20.0, 20.0, 120.0, 120.0))),
            ),
        ],
    }
}

fn dialect() -> Dialect {
    Dialect {
        units: Unit::Millimetre,
        decimals: 3,
        zero: (20.0, 20.0),
        arcs: true,
        longest_radius: 10_000.0,
        opening_lines: Vec::new(),
        closing_lines: Vec::new(),
    }
}

fn laser() -> Laser {
    Laser {
        name: "beam".into(),
        bed: (600.0, 400.0),
        kerf: BTreeMap::new(),
        power: BTreeMap::new(),
        full_power: 1000.0,
        beam_on: "M4".into(),
        beam_off: "M5".into(),
        writes: LaserFile::Gcode,
        dialect: dialect(),
        least_bridge: 1.5,
        tabs: None,
        rapid: 12_000.0,
        acceleration: 500.0,
        cornering: 0.05,
    }
}

const POWER: BeamPower = BeamPower {
    cut: Beam {
        power: 80.0,
        feed: 720.0,
    },
    mark: Beam {
        power: 20.0,
        feed: 3600.0,
    },
};

#[test]
fn a_beam_is_out_in_every_rapid_and_marks_before_it_cuts() {
    let written = write_beam(&lines(), &laser(), POWER, &["never unattended".into()]).unwrap();
    let mut lit = false;
    for line in String::from_utf8(written.clone()).unwrap().lines() {
        match line {
            _ if line.starts_with("M4 ") => lit = true,
            "M5 S0" => lit = false,
            _ if line.starts_with("G0") => assert!(!lit, "{line}"),
            _ => {}
        }
    }
    against("beam.nc", &written);
    let dark = BeamPower {
        mark: Beam {
            power: 0.0,
            ..POWER.mark
        },
        ..POWER
    };
    assert!(matches!(
        write_beam(&lines(), &laser(), dark, &[]),
        Err(Error::Beam { .. })
    ));
}

#[test]
fn a_pen_is_lifted_by_height_or_by_the_makers_words() {
    let pen = Pen {
        name: "pen".into(),
        bed: (900.0, 1200.0),
        width: 0.4,
        writes: PenFile::Gcode,
        dialect: dialect(),
        lift: Lift::Height { up: 5.0, down: -0.5 },
        feed: 3000.0,
        rapid: 6000.0,
        acceleration: 500.0,
        cornering: 0.05,
        delay: 0.2,
        steps_per_mm: 40.0,
        farthest: None,
    };
    against("pen.nc", &write_pen(&lines(), &pen, &[]).unwrap());
    let switched = Pen {
        lift: Lift::Words {
            up: "M5".into(),
            down: "M3 S40".into(),
        },
        ..pen
    };
    let text = String::from_utf8(write_pen(&lines(), &switched, &[]).unwrap()).unwrap();
    assert!(
        !text.contains('Z') && text.matches("M3 S40").count() == 3,
        "{text}"
    );
}
