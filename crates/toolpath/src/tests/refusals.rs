//! What is refused, with its figures.

use super::{bit, part, rectangle, router, sheet};
use crate::{BitError, Edge, Error, plan};
use cintre_geometry::{Outline, Path, Piece, Point, Rect};
use cintre_work::{Bit, BitKind, Bore, Depth, Holder, Mark, MarkKind, Part, Recess, Router};
use std::collections::BTreeMap;

fn straight() -> Bit {
    bit("straight-6", BitKind::Straight, 6.0)
}

fn square() -> Part {
    part(rectangle(40.0, 40.0, 400.0, 300.0))
}

fn refused(part: Part, router: &Router, bit: Bit) -> Error {
    plan(&sheet(vec![part]), router, &[bit]).unwrap_err()
}

#[test]
fn an_opening_narrower_than_the_bit() {
    let mut slotted = square();
    slotted
        .openings
        .push(rectangle(100.0, 100.0, 200.0, 105.0).reversed());
    let error = refused(slotted, &router(), straight());
    assert!(
        matches!(error, Error::TooNarrow { edge: Edge::Opening(0), widest, .. } if (widest - 5.0).abs() < 0.011),
        "{error}"
    );
}

#[test]
fn a_bore_that_no_bit_makes() {
    let mut bored = square();
    bored.bores.push(Bore {
        centre: (90.0, 90.0).into(),
        diameter: 5.0,
        depth: Depth::Through,
    });
    let error = refused(bored.clone(), &router(), straight());
    assert!(matches!(error, Error::NoBitForBore { widest, .. } if (widest - 5.0 / 1.2).abs() < 1e-9));
    bored.bores[0] = Bore {
        diameter: 20.0,
        depth: Depth::Blind(18.5),
        ..bored.bores[0]
    };
    assert!(matches!(
        refused(bored, &router(), straight()),
        Error::Bore { .. }
    ));
}

fn recess(outline: Outline, depth: f64) -> Recess {
    Recess {
        outline: outline.reversed(),
        islands: vec![],
        depth,
    }
}

#[test]
fn a_recess_without_a_floor_or_narrower_than_the_bit() {
    for depth in [0.0, 18.0] {
        let mut recessed = square();
        recessed
            .recesses
            .push(recess(rectangle(100.0, 100.0, 200.0, 200.0), depth));
        let error = refused(recessed, &router(), straight());
        assert!(
            matches!(error, Error::Floor { edge: Edge::Recess(0), depth: d, .. } if super::same(d, depth)),
            "{error}"
        );
    }
    let mut recessed = square();
    recessed
        .recesses
        .push(recess(rectangle(100.0, 100.0, 200.0, 104.5), 4.0));
    let error = refused(recessed, &router(), straight());
    assert!(
        matches!(error, Error::TooNarrow { edge: Edge::Recess(0), widest, .. } if (widest - 4.5).abs() < 0.011),
        "{error}"
    );
}

#[test]
fn a_recess_that_a_bit_which_must_not_plunge_cannot_get_down_into() {
    let mut recessed = square();
    recessed
        .recesses
        .push(recess(Outline::circle((150.0, 150.0).into(), 3.05), 4.0));
    let blunt = Bit {
        plunges: false,
        ..straight()
    };
    let error = refused(recessed.clone(), &router(), blunt);
    assert!(matches!(error, Error::NoWayDown { .. }), "{error}");
    assert!(plan(&sheet(vec![recessed]), &router(), &[straight()]).is_ok());
}

#[test]
fn a_groove_narrower_than_the_bit_or_bent_too_tightly_and_a_chamfer_without_a_vee() {
    let marked = |kind, path| {
        let mut part = square();
        part.marks.push(Mark { path, kind });
        part
    };
    let line = || Path::polyline(&[Point::new(80.0, 80.0), Point::new(180.0, 80.0)]);
    let groove = |width| MarkKind::Groove { width, depth: 5.0 };
    let error = refused(marked(groove(5.5), line()), &router(), straight());
    assert!(
        matches!(error, Error::TooNarrow { edge: Edge::Groove(0), widest, .. } if (widest - 5.5).abs() < 0.011),
        "{error}"
    );
    let bent = Path::from_pieces(&[Piece::arc(
        Point::new(100.0, 100.0),
        Point::new(103.0, 100.0),
        2.0,
    )]);
    let error = refused(marked(groove(8.0), bent), &router(), straight());
    assert!(matches!(error, Error::Groove { .. }), "{error}");
    let chamfer = MarkKind::Chamfer { width: 1.0 };
    let error = refused(marked(chamfer, line()), &router(), straight());
    assert!(matches!(error, Error::NoVee { .. }), "{error}");
    let vee = bit("vee-90", BitKind::Vee(std::f64::consts::FRAC_PI_2), 12.0);
    let wide = marked(MarkKind::Chamfer { width: 6.5 }, line());
    let error = plan(&sheet(vec![wide]), &router(), &[straight(), vee]).unwrap_err();
    assert!(
        matches!(error, Error::Chamfer { most, .. } if (most - 6.0).abs() < 1e-9),
        "{error}"
    );
}

#[test]
fn a_bit_that_will_not_do() {
    let short = Bit {
        cutting_length: 18.0,
        ..straight()
    };
    let error = refused(square(), &router(), short);
    assert!(matches!(error, Error::Bit(BitError::TooShort { needed, .. }) if (needed - 18.3).abs() < 1e-9));
    let unknown = Bit {
        feeds: BTreeMap::new(),
        ..straight()
    };
    let error = refused(square(), &router(), unknown);
    assert_eq!(
        error.to_string(),
        "straight-6 has no feeds for plywood; it has them for no material"
    );
    let slow = Router {
        speeds: (6000.0, 12000.0),
        ..router()
    };
    assert!(matches!(
        refused(square(), &slow, straight()),
        Error::Bit(BitError::Speed { .. })
    ));
    let still = |mut bit: Bit| {
        bit.feeds.values_mut().for_each(|f| f.feed = 0.0);
        bit
    };
    assert!(matches!(
        refused(square(), &router(), still(straight())),
        Error::Bit(BitError::NoMotion { .. })
    ));
    let vee = bit("vee-60", BitKind::Vee(1.0), 12.0);
    assert!(matches!(
        refused(square(), &router(), vee),
        Error::Bit(BitError::NoStraightBit { .. })
    ));
}

#[test]
fn a_bit_whose_tip_does_not_come_up_to_the_safe_height() {
    let low = |travel| Router {
        travel_z: Some(travel),
        ..router()
    };
    let held = |above| Bit {
        holder: Some(Holder {
            diameter: 20.0,
            above,
        }),
        ..straight()
    };
    // It stands as far out as it cuts, where nothing is said: 25 mm over 18 mm of wood and a safe height of 12 mm.
    assert!(plan(&sheet(vec![square()]), &low(55.0), &[straight()]).is_ok());
    let error = refused(square(), &low(54.0), straight()).to_string();
    assert!(
        error.contains("24.00 mm out would do") && error.contains("safe height of 11.00 mm"),
        "{error}"
    );
    assert!(plan(&sheet(vec![square()]), &low(62.0), &[held(32.0)]).is_ok());
    let error = refused(square(), &low(40.0), held(32.0)).to_string();
    assert!(
        error.contains("10.00 mm out would do") && !error.contains("clears the clamps"),
        "{error}"
    );
}

#[test]
fn a_bit_whose_holder_would_strike_the_stock() {
    let held = |diameter, above| Bit {
        holder: Some(Holder { diameter, above }),
        ..straight()
    };
    let error = refused(square(), &router(), held(20.0, 15.0));
    assert!(
        matches!(error, Error::Bit(BitError::TooShort { length, .. }) if super::same(length, 15.0)),
        "{error}"
    );
    assert!(plan(&sheet(vec![square()]), &router(), &[held(20.0, 18.5)]).is_ok());
    assert!(
        plan(&sheet(vec![square()]), &router(), &[held(6.0, 15.0)]).is_ok(),
        "it goes down into its own cut"
    );
}

#[test]
fn a_cut_off_the_stock_or_the_bed_or_into_a_clamp() {
    let over = part(rectangle(-3.0, 40.0, 400.0, 300.0));
    let error = refused(over, &router(), straight());
    assert!(matches!(error, Error::OffStock { by, .. } if (by - 3.0).abs() < 1e-9));
    let small = Router {
        bed: (402.0, 1300.0),
        ..router()
    };
    assert!(
        matches!(refused(square(), &small, straight()), Error::OffBed { by, .. } if (by - 1.0).abs() < 1e-6)
    );
    let clamped = Router {
        keep_outs: vec![Rect::new(405.0, 100.0, 450.0, 150.0)],
        ..router()
    };
    assert!(matches!(
        refused(square(), &clamped, straight()),
        Error::KeptOut { .. }
    ));
    let clear = Router {
        keep_outs: vec![Rect::new(406.1, 100.0, 450.0, 150.0)],
        ..router()
    };
    assert!(
        plan(&sheet(vec![square()]), &clear, &[straight()]).is_ok(),
        "one bit away is free"
    );
}

#[test]
fn tabs_without_sense() {
    let high = Router {
        tabs: Some(cintre_work::TabRule {
            height: 18.0,
            ..super::TABS
        }),
        ..router()
    };
    assert!(matches!(
        refused(square(), &high, straight()),
        Error::TabHeight { .. }
    ));
}

#[test]
fn a_tab_wider_than_the_part() {
    let tabs = |width| Router {
        tabs: Some(cintre_work::TabRule { width, ..super::TABS }),
        ..router()
    };
    // A ring 60 mm wide, however long.
    let ring = || part(super::rib(500.0, 60.0, 0.9));
    let error = refused(ring(), &tabs(61.0), straight());
    assert!(
        matches!(error, Error::TabWidth { most, .. } if (most - 60.0).abs() < 0.11),
        "{error}"
    );
    let most = error.to_string();
    assert!(
        most.contains("59.9 mm is the most") || most.contains("60.0 mm is the most"),
        "{most}"
    );
    assert!(plan(&sheet(vec![ring()]), &tabs(59.9), &[straight()]).is_ok());
}
