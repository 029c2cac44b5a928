use super::*;
use crate::arch::{Arch, Pointed, Segmental, Semicircular, Stilted};
use crate::{Point, Soffit, parallel_line};
use proptest::prelude::*;

const INCH: f64 = 25.4;

fn path(arch: Arch) -> Path {
    match arch.soffit {
        Soffit::Path(path) => path,
        Soffit::Curve(_) => panic!("arcs"),
    }
}

fn segment(span: f64, rise: f64) -> Path {
    let sizes = Segmental {
        span: Some(span),
        rise: Some(rise),
        radius: None,
    };
    path(sizes.arch().unwrap())
}

fn pointed(span: f64, rise: f64) -> Path {
    let sizes = Pointed {
        span: Some(span),
        rise: Some(rise),
        radius: None,
    };
    path(sizes.arch().unwrap())
}

fn divided(soffit: &Path, ring: f64, division: Division) -> Result<Voussoirs, VoussoirError> {
    voussoirs(soffit, &parallel_line(soffit, -ring).unwrap(), division)
}

fn cut(count: u32, joint: f64) -> Division {
    Division::Cut { count, joint }
}

fn near(found: f64, wanted: f64, within: f64) {
    assert!((found - wanted).abs() <= within, "{found} is not {wanted}");
}

#[test]
fn the_reference_widths() {
    let gate = divided(&segment(1220.0, 260.0), 215.0, cut(17, 8.0)).unwrap();
    near(gate.width, 71.692_410_180_222_1, 1e-9);
    let half = path(Semicircular { span: 900.0 }.arch().unwrap());
    let half = divided(&half, 215.0, cut(15, 6.0)).unwrap();
    near(half.width, 87.847_779_607_693_8, 1e-9);
    assert_eq!((gate.units.len(), gate.joints.len()), (17, 18));
}

#[test]
fn how_many_bricks_and_must_it_be_odd() {
    let soffit = segment(50.0 * INCH, 8.5 * INCH);
    let ring = 3.625 * INCH;
    let size = |least: f64, most: f64| Division::Uncut {
        width: 2.25 * INCH,
        least: least * INCH,
        most: most * INCH,
    };
    let bricks = divided(&soffit, ring, size(0.25, 17.0 / 32.0)).unwrap();
    assert_eq!(bricks.count, 21);
    let tallies: Vec<_> = bricks
        .tallies
        .iter()
        .map(|t| (t.count, t.joint / INCH, t.joint_at_back / INCH, t.fits))
        .collect();
    let expected = [
        (19, 0.551, 0.789, false),
        (20, 0.418, 0.644, false),
        (21, 0.296, 0.512, true),
    ];
    for (found, wanted) in tallies.iter().zip(expected) {
        assert_eq!((found.0, found.3), (wanted.0, wanted.3));
        near(found.1, wanted.1, 6e-4);
        near(found.2, wanted.2, 6e-4);
    }
    let last = tallies.last().unwrap();
    assert!(last.0 == 24 && last.1 < 0.0 && !last.3);
    let steps = bricks.steps.unwrap();
    near(steps.share.to_degrees(), 3.577, 5e-4);
    near(steps.share_chord / INCH, 2.560, 5e-4);
    near(bricks.joint / INCH, 0.296, 5e-4);
    // Joints of a quarter to three eighths suit no odd number: the two that come nearest are told.
    let Err(VoussoirError::NoneFits { nearest, .. }) = divided(&soffit, ring, size(0.25, 0.375)) else {
        panic!("none fits")
    };
    assert_eq!(nearest.iter().map(|t| t.count).collect::<Vec<_>>(), [21, 23]);
}

#[test]
fn the_least_radius_of_uncut_units() {
    let soffit = segment(1800.0, 240.0);
    for (width, ring, least, most, radius) in
        [(65.0, 102.5, 6.0, 19.0, 560.0), (65.0, 102.5, 3.0, 19.0, 436.0)]
    {
        let bricks = divided(&soffit, ring, Division::Uncut { width, least, most }).unwrap();
        near(bricks.least_radius.unwrap(), radius, 1.0);
    }
}

#[test]
fn a_pointed_arch_has_a_joint_for_a_key() {
    let soffit = pointed(900.0, 780.0);
    let arch = divided(&soffit, 215.0, cut(24, 8.0)).unwrap();
    assert_eq!(arch.crown, Crown::Point);
    assert_eq!((arch.units.len(), arch.joints.len()), (24, 25));
    let middle = &arch.joints[12];
    near(middle.start().x, 0.0, 1e-9);
    near(middle.end().x, 0.0, 1e-9);
    assert_eq!(
        divided(&soffit, 215.0, cut(23, 8.0)),
        Err(VoussoirError::OddAtPoint { count: 23 })
    );
    // The faces of the joint over the point are plumb and as far apart as any joint's.
    let right_of_left = arch.units[11].outline.bounds().x1;
    let left_of_right = arch.units[12].outline.bounds().x0;
    near(left_of_right - right_of_left, 8.0, 1e-9);
    for (left, right) in arch.units.iter().zip(arch.units.iter().rev()) {
        near(left.outline.area(), right.outline.area(), 1e-6);
    }
    // Also where the soffit is itself a parallel, whose point rounding has put a hair off the middle of its length.
    let edge = parallel_line(&soffit, -6.0).unwrap();
    assert!(divided(&edge, 215.0, cut(24, 8.0)).unwrap().width > arch.width);
    let bricks = Division::Uncut {
        width: 65.0,
        least: 3.0,
        most: 25.0,
    };
    assert!(divided(&soffit, 102.5, bricks).unwrap().count.is_multiple_of(2));
}

#[test]
fn stilts_are_walling() {
    let stilted = path(
        Stilted {
            span: 900.0,
            stilt: 150.0,
            arc_rise: None,
        }
        .arch()
        .unwrap(),
    );
    let half = path(Semicircular { span: 900.0 }.arch().unwrap());
    let (stilted, half) = (
        divided(&stilted, 215.0, cut(15, 6.0)).unwrap(),
        divided(&half, 215.0, cut(15, 6.0)).unwrap(),
    );
    near(stilted.width, half.width, 1e-9);
    let lift = stilted.units[0].outline.bounds().y0 - half.units[0].outline.bounds().y0;
    near(lift, 150.0, 1e-9);
}

#[test]
fn what_cannot_be_is_refused() {
    let soffit = segment(1220.0, 260.0);
    let refused = |division| divided(&soffit, 215.0, division).unwrap_err();
    assert_eq!(refused(cut(18, 8.0)), VoussoirError::Even { count: 18 });
    assert_eq!(refused(cut(0, 8.0)), VoussoirError::None);
    assert_eq!(refused(cut(17, -1.0)), VoussoirError::Joint { joint: -1.0 });
    let VoussoirError::TooMany { most, .. } = refused(cut(171, 8.0)) else {
        panic!("too many")
    };
    assert!(divided(&soffit, 215.0, cut(most, 8.0)).is_ok());
    assert!(divided(&soffit, 215.0, cut(most + 2, 8.0)).is_err());
    let size = |width, least, most| refused(Division::Uncut { width, least, most });
    assert!(matches!(size(65.0, 9.0, 8.0), VoussoirError::Size { .. }));
    let cusp = Path::from_pieces(&[
        Piece::arc(Point::new(-300.0, 0.0), Point::new(-400.0, 0.0), -2.0),
        Piece::line(Point::new(-258.0, 91.0), Point::new(400.0, 0.0)),
        Piece::arc(Point::new(300.0, 0.0), Point::new(400.0, 0.0), -2.0),
    ]);
    assert!(matches!(
        voussoirs(&cusp, &cusp, cut(9, 3.0)),
        Err(VoussoirError::Corner { .. })
    ));
}

proptest! {
    /// Every face of a joint runs even with its middle, which points at the centre, and the units and joints make the soffit.
    #[test]
    fn units_are_alike_and_joints_are_radial(span in 600.0_f64..3000.0, rise in 0.1_f64..0.5, half in 3_u32..12, joint in 0.0_f64..12.0) {
        let soffit = segment(span, rise * span);
        let count = 2 * half + 1;
        let ring = 215.0;
        let made = divided(&soffit, ring, cut(count, joint)).unwrap();
        let circle = soffit.pieces().next().unwrap().circle().unwrap();
        for line in &made.joints {
            let (from, to) = (line.start() - circle.centre, line.end() - circle.centre);
            prop_assert!(from.cross(to).abs() / circle.radius < 1e-6);
            prop_assert!((line.length() - ring).abs() < 1e-6);
        }
        let n = f64::from(count);
        prop_assert!((n * made.width + (n + 1.0) * joint - soffit.length()).abs() < 1e-6);
        let first = &made.units[0];
        for unit in &made.units {
            prop_assert!((unit.outline.area() - first.outline.area()).abs() < 1e-5);
            prop_assert!((unit.width_at_back - first.width_at_back).abs() < 1e-6);
            prop_assert!(unit.outline.is_counter_clockwise());
        }
        // Of two neighbours the faces are the joint apart all the way up.
        let (a, b) = (made.units[0].outline.vertices(), made.units[1].outline.vertices());
        let (low, high) = (a[1].point, a[2].point);
        let up = (high - low).normalize();
        for vertex in [b[0], b[3]] {
            let off = up.cross(vertex.point - low).abs();
            prop_assert!((off - joint).abs() < 1e-3 + joint.powi(3) / circle.radius.powi(2), "{off}");
        }
    }
}

#[test]
fn a_ring_that_closes_has_as_many_joints_as_units() {
    let circle = |radius: f64| {
        let round = Outline::circle(Point::ORIGIN, radius).reversed();
        round.opened_at(0, 0.0)
    };
    let (soffit, back) = (circle(450.0), circle(665.0));
    for count in [3, 27, 28] {
        let eye = voussoirs(&soffit, &back, cut(count, 8.0)).unwrap();
        assert_eq!(eye.crown, Crown::Closed);
        assert_eq!(
            (eye.units.len(), eye.joints.len()),
            (count as usize, count as usize)
        );
        let n = f64::from(count);
        near(eye.width, 900.0 * std::f64::consts::PI / n - 8.0, 1e-9);
        // The first stands on the crown, and all are alike.
        near(eye.units[0].outline.bounds().center().x, 0.0, 1e-9);
        near(eye.units[0].outline.bounds().y1, 665.0, 1e-9);
        for unit in &eye.units {
            near(unit.outline.area(), eye.units[0].outline.area(), 1e-6);
        }
        // Each joint lies half a pitch before its voussoir, and all of them stand square to the soffit.
        let first = eye.joints[0].start();
        near(first.x, -450.0 * (std::f64::consts::PI / n).sin(), 1e-9);
        for joint in &eye.joints {
            near(joint.length(), 215.0, 1e-9);
        }
        near(eye.steps.unwrap().share.to_degrees(), 360.0 / n, 1e-9);
    }
    assert_eq!(
        voussoirs(&soffit, &back, cut(2, 8.0)),
        Err(VoussoirError::TooFew { count: 2 })
    );
    let bricks = Division::Uncut {
        width: 65.0,
        least: 6.0,
        most: 45.0,
    };
    let bricks = voussoirs(&soffit, &back, bricks).unwrap();
    near(
        f64::from(bricks.count) * (65.0 + bricks.joint),
        900.0 * std::f64::consts::PI,
        1e-9,
    );
}
