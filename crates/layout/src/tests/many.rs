//! Sets of parts on all kinds of stock: nothing is lost, and nothing lies nearer than it may. `CINTRE_MANY=2000` tries as many
//! sets, which takes some minutes.

use super::*;
use cintre_geometry::{Point, Vertex};

/// One of a few shapes of about this size.
fn shape(which: usize, w: f64, h: f64) -> Outline {
    let v = |x: f64, y: f64, bulge| Vertex {
        point: Point::new(x, y),
        bulge,
    };
    let at = |x: f64, y: f64| Point::new(x * w, y * h);
    match which {
        0 | 1 => Outline::rectangle(Rect::new(0.0, 0.0, w, h)),
        2 => Outline::polygon(&[at(0.0, 0.0), at(1.0, 0.0), at(0.2, 1.0)]),
        3 => {
            let corners = [
                (0.0, 0.0),
                (1.0, 0.0),
                (1.0, 0.3),
                (0.4, 0.3),
                (0.4, 1.0),
                (0.0, 1.0),
            ];
            Outline::polygon(&corners.map(|(x, y)| at(x, y)))
        }
        // A rib of even depth, and a disc.
        4 => Outline::new(vec![
            v(0.35 * w, 0.0, 0.0),
            v(0.5 * w, 0.0, 1.0),
            v(-0.5 * w, 0.0, 0.0),
            v(-0.35 * w, 0.0, -1.0),
        ]),
        _ => Outline::circle(Point::ZERO, h / 2.0),
    }
}

fn parts() -> impl Strategy<Value = Vec<Part>> {
    let one = (
        0..6usize,
        30.0..900.0f64,
        30.0..600.0f64,
        grain(),
        1..4usize,
        any::<bool>(),
    );
    prop::collection::vec(one, 1..4).prop_map(|all| {
        let parts = all.into_iter().enumerate();
        parts
            .map(|(i, (which, w, h, grain, count, opened))| {
                let mut part = part(&format!("part {i}."), w, h, grain, count);
                part.outline = shape(which, w, h);
                if opened && which < 2 && w.min(h) > 150.0 {
                    let opening = Rect::new(40.0, 40.0, w - 40.0, h - 40.0);
                    part.openings = vec![Outline::rectangle(opening).reversed()];
                }
                part
            })
            .collect()
    })
}

/// A whole sheet, or an offcut with a corner gone and a clamp on it before that.
fn stocks() -> impl Strategy<Value = Vec<Stock>> {
    let grain = prop_oneof![
        Just(StockGrain::Long),
        Just(StockGrain::Short),
        Just(StockGrain::None)
    ];
    (grain, any::<bool>(), 0..3usize, 0.0..40.0f64, any::<bool>()).prop_map(
        |(grain, alike, kind, trim, few)| {
            let whole = Stock {
                alike,
                sheets: few.then_some(2),
                trim: Trim {
                    left: trim,
                    ..Trim::even(8.0)
                },
                ..stock("ply18", grain)
            };
            let corners = [
                (0.0, 0.0),
                (1300.0, 0.0),
                (1300.0, 300.0),
                (700.0, 800.0),
                (0.0, 800.0),
            ];
            let offcut = Stock {
                size: (1300.0, 800.0),
                outline: Some(Outline::polygon(&corners.map(Point::from))),
                keep_outs: vec![Outline::rectangle(Rect::new(0.0, 0.0, 90.0, 60.0))],
                sheets: Some(1),
                trim: Trim::even(trim),
                ..whole.clone()
            };
            match kind {
                0 => vec![whole],
                1 => vec![offcut, whole],
                _ => vec![offcut],
            }
        },
    )
}

/// How far the samples of one edge lie outside another at least, mm.
fn clear_of(a: &Outline, b: &Outline) -> f64 {
    let samples = a
        .pieces()
        .flat_map(|p| [0.0, 0.25, 0.5, 0.75].map(|t| p.point_at(t)));
    samples
        .map(|p| b.signed_distance(p))
        .fold(f64::INFINITY, f64::min)
}

/// That every pair lies apart by the spacing, or one in an opening of the other, as far as samples of their edges tell.
fn lie_apart(sheet: &Sheet, spacing: f64) -> Result<(), TestCaseError> {
    for (i, a) in sheet.parts.iter().enumerate() {
        for b in &sheet.parts[i + 1..] {
            let (a, b) = (&a.part, &b.part);
            let rides = |inner: &Part, outer: &Part| {
                let p = inner.outline.vertices()[0].point;
                outer.openings.iter().find(|o| o.contains(p)).map(|o| {
                    let samples = inner.outline.pieces().map(|piece| piece.point_at(0.3));
                    samples
                        .map(|p| -o.signed_distance(p))
                        .fold(f64::INFINITY, f64::min)
                })
            };
            if let Some(near) = rides(a, b).or_else(|| rides(b, a)) {
                prop_assert!(near >= spacing - 1e-6, "{near} for {spacing} in an opening");
                continue;
            }
            let near = clear_of(&a.outline, &b.outline).min(clear_of(&b.outline, &a.outline));
            prop_assert!(near >= spacing - 1e-6, "{near} for {spacing}");
        }
    }
    Ok(())
}

fn cases() -> u32 {
    #[expect(
        clippy::disallowed_methods,
        reason = "how many is asked for in the environment"
    )]
    let asked = std::env::var("CINTRE_MANY");
    asked.ok().and_then(|n| n.parse().ok()).unwrap_or(100)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(cases()))]

    #[test]
    fn nothing_is_lost_and_every_gap_holds(
        parts in parts(), stocks in stocks(), spacing in 0.0..30.0f64, questions in 0..20u64, openings in any::<bool>(),
        any_turn in any::<bool>(),
    ) {
        let settings = Settings {
            effort: few(questions),
            openings,
            turns: if any_turn { Turns::Any } else { Turns::Quarter },
            ..settings(spacing, Effort::QUICK)
        };
        match lay_out(&parts, &stocks, settings, QUIET) {
            Ok(laid) => {
                let mut names: Vec<_> = laid.sheets.iter().flat_map(|s| s.parts.iter().map(|p| &p.name)).collect();
                names.sort();
                names.dedup();
                let placed: usize = laid.sheets.iter().map(|s| s.parts.len()).sum();
                let wanted: usize = parts.iter().map(|p| p.count).sum();
                prop_assert_eq!((names.len(), placed), (wanted, wanted));
                for sheet in &laid.sheets {
                    lie_apart(sheet, spacing)?;
                }
            }
            Err(Error::TooLarge { part, .. }) => prop_assert!(parts.iter().any(|p| p.name == part)),
            Err(Error::Sheets { needed, have, .. }) => prop_assert!(needed > have),
            Err(other) => prop_assert!(false, "{other}"),
        }
    }
}
