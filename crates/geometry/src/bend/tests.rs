use super::*;
use crate::arch::{Elliptical, Rampant, Segmental, Semicircular};

fn near(found: f64, wanted: f64, within: f64) {
    assert!((found - wanted).abs() <= within, "{found} is not {wanted}");
}

fn half_ellipse() -> Soffit {
    let arch = Elliptical {
        span: 1400.0,
        rise: 400.0,
    };
    arch.arch().unwrap().soffit
}

fn as_path(bent: &Bent) -> Path {
    match &bent.line {
        Soffit::Path(path) => path.clone(),
        Soffit::Curve(_) => panic!("arcs stay arcs"),
    }
}

#[test]
fn the_form_of_a_half_round_is_tighter_and_turns_farther() {
    let half = Semicircular { span: 1200.0 }.arch().unwrap().soffit;
    let (middle, kept) = (12.0, 1.0 - 1.0 / 36.0);
    let form = bent(
        &half,
        &Bend {
            middle,
            kept,
            wanted: -12.0,
        },
    )
    .unwrap();
    let arc = as_path(&form).pieces().next().unwrap();
    near(arc.circle().unwrap().radius, 583.0, 1e-9);
    near(form.turn.to_degrees(), -180.0 / kept, 1e-9);
    near(form.length, 612.0 * std::f64::consts::PI, 1e-9);
    near(form.tightest[0], 1.0 / 595.0, 1e-12);
    near(arc.bounds().y1, 600.0, 1e-9);
    let open = bent(
        &half,
        &Bend {
            middle,
            kept: 1.0 / kept,
            wanted: -12.0,
        },
    )
    .unwrap();
    near(
        as_path(&open).pieces().next().unwrap().circle().unwrap().radius,
        617.485_714_285_714,
        1e-9,
    );
    // From the outside line it is the same form.
    let outside = Semicircular { span: 1248.0 }.arch().unwrap().soffit;
    let same = bent(
        &outside,
        &Bend {
            middle: -12.0,
            kept,
            wanted: -12.0,
        },
    )
    .unwrap();
    near(
        as_path(&same).pieces().next().unwrap().circle().unwrap().radius,
        583.0,
        1e-9,
    );
}

#[test]
fn the_form_of_an_ellipse_is_none() {
    let bend = Bend {
        middle: 12.0,
        kept: 1.0 - 1.0 / 36.0,
        wanted: -12.0,
    };
    let form = bent(&half_ellipse(), &bend).unwrap();
    let Soffit::Curve(curve) = &form.line else {
        panic!("a curve stays a curve")
    };
    let wanted = [
        [0.0, 400.0],
        [181.081_740_261_884, 385.986_518_920_75],
        [349.572_648_492_17, 344.922_593_098_169],
        [493.710_571_247_017, 279.682_956_955_542],
        [603.332_070_341_82, 194.888_985_730_137],
        [670.549_943_039_616, 96.696_119_258_480_3],
        [690.372_756_130_943, -7.475_260_329_564_01],
    ];
    for (step, [x, y]) in wanted.into_iter().enumerate() {
        for side in [1.0, -1.0] {
            #[expect(clippy::cast_precision_loss, reason = "a step of seven")]
            let t = std::f64::consts::FRAC_PI_2 * (1.0 + side * step as f64 / 6.0);
            let p = curve.point(t);
            near(p.x, side * x, 1e-6);
            near(p.y, y, 1e-6);
        }
    }
    // What the curve says of itself agrees with its points.
    for i in 1..40 {
        let t = std::f64::consts::PI * f64::from(i) / 40.0;
        let h = 1e-5;
        let slope = (curve.point(t + h) - curve.point(t - h)) / (2.0 * h);
        assert!((slope - curve.derivative(t)).hypot() < 1e-4 * slope.hypot());
        let turn = curve.tangent(t - h).cross(curve.tangent(t + h)).asin() / (2.0 * h);
        near(turn / slope.hypot(), curve.curvature(t), 1e-7);
    }
}

#[test]
fn what_is_bent_and_let_go_is_as_it_was() {
    let shapes = [
        half_ellipse(),
        Segmental {
            span: Some(1220.0),
            rise: Some(260.0),
            radius: None,
        }
        .arch()
        .unwrap()
        .soffit,
        Rampant {
            span: 1350.0,
            springing_difference: 270.0,
            rise: None,
        }
        .arch()
        .unwrap()
        .soffit,
    ];
    for shape in shapes {
        let form = bent(
            &shape,
            &Bend {
                middle: 10.0,
                kept: 0.96,
                wanted: -10.0,
            },
        )
        .unwrap();
        let back = bent(
            &form.line,
            &Bend {
                middle: 10.0,
                kept: 1.0 / 0.96,
                wanted: -10.0,
            },
        )
        .unwrap();
        near(back.length, form.length, 1e-6);
        let (was, now) = (shape.fit(1e-4).path, back.line.fit(1e-4).path);
        for i in 0..=50 {
            let along = was.length() * f64::from(i) / 50.0;
            assert!(now.nearest(was.station(along).0).distance < 5e-4, "{i}");
        }
    }
}

#[test]
fn what_cannot_be_bent_is_refused() {
    let bend = Bend {
        middle: 5.0,
        kept: 0.9,
        wanted: -5.0,
    };
    let corner = Path::polyline(&[Point::ZERO, Point::new(5.0, 5.0), Point::new(10.0, 0.0)]);
    assert!(matches!(
        bent(&Soffit::Path(corner), &bend),
        Err(BendError::Corner { .. })
    ));
    let round = crate::arch::Round { diameter: 500.0 }.arch().unwrap().soffit;
    assert!(matches!(bent(&round, &bend), Err(BendError::Closed)));
    let small = Semicircular { span: 20.0 }.arch().unwrap().soffit;
    let thick = Bend {
        middle: 5.0,
        kept: 0.5,
        wanted: -8.0,
    };
    assert!(matches!(bent(&small, &thick), Err(BendError::Folded { .. })));
}
