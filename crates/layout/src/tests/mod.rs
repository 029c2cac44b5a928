//! Layouts as a whole.

use super::*;
use cintre_geometry::{Affine, Outline, Rect};
use cintre_work::{Grain, StockGrain, Trim};
use proptest::prelude::*;
use std::f64::consts::{FRAC_PI_2, PI};

mod many;
mod offcuts;
mod shapes;

fn stock(name: &str, grain: StockGrain) -> Stock {
    Stock {
        name: name.into(),
        material: "plywood".into(),
        size: (2440.0, 1220.0),
        thickness: 17.6,
        grain,
        sheets: None,
        trim: Trim::even(8.0),
        outline: None,
        keep_outs: vec![],
        alike: false,
    }
}

fn shaped(name: &str, outline: Outline, grain: Grain, count: usize) -> Part {
    Part {
        outline: outline.oriented(true),
        ..part(name, 100.0, 100.0, grain, count)
    }
}

fn names(sheets: &[Sheet]) -> Vec<String> {
    let mut names: Vec<_> = sheets
        .iter()
        .flat_map(|s| s.parts.iter().map(|p| p.name.clone()))
        .collect();
    names.sort();
    names
}

fn part(name: &str, w: f64, h: f64, grain: Grain, count: usize) -> Part {
    Part {
        name: name.into(),
        outline: Outline::rectangle(Rect::new(-w / 2.0, -10.0, w / 2.0, h - 10.0)),
        openings: vec![],
        bores: vec![],
        recesses: vec![],
        marks: vec![],
        clean: Vec::new(),
        stock: "ply18".into(),
        thickness: 17.6,
        grain,
        count,
        fit_error: 0.0,
    }
}

fn settings(spacing: f64, effort: Effort) -> Settings {
    Settings {
        spacing,
        effort,
        turns: Turns::Quarter,
        openings: false,
        seed: 1,
    }
}

/// So many questions for each piece.
const fn few(questions: u64) -> Effort {
    Effort {
        questions,
        stubborn: false,
    }
}

const QUIET: Conduct<'_> = Conduct {
    say: &|_| (),
    stop: &|| false,
};

fn run(parts: &[Part], stocks: &[Stock], spacing: f64) -> Result<Vec<Sheet>, Error> {
    lay_out(parts, stocks, settings(spacing, Effort::QUICK), QUIET).map(|laid| laid.sheets)
}

fn long() -> Vec<Stock> {
    vec![stock("ply18", StockGrain::Long)]
}

#[test]
fn copies_are_numbered_and_a_single_one_is_not() {
    let parts = [
        part("gate rib", 1200.0, 300.0, Grain::Along(0.0), 2),
        part("gate pattern", 900.0, 200.0, Grain::Free, 1),
    ];
    let sheets = run(&parts, &long(), 10.0).unwrap();
    let names: Vec<_> = sheets[0].parts.iter().map(|p| p.name.as_str()).collect();
    assert_eq!(names, ["gate rib 1", "gate rib 2", "gate pattern"]);
    assert!(sheets[0].parts.iter().all(|p| p.part.count == 1));
}

#[test]
fn a_part_as_large_as_the_room_goes_in_and_one_larger_is_refused_with_the_sizes() {
    let fits = part("board", 2424.0, 1204.0, Grain::Along(0.0), 1);
    assert_eq!(run(&[fits], &long(), 10.0).unwrap().len(), 1);
    let large = part("board", 2430.0, 1000.0, Grain::Along(0.0), 1);
    let Err(Error::TooLarge {
        part,
        size,
        usable,
        largest,
        ..
    }) = run(&[large], &long(), 10.0)
    else {
        panic!("it does not fit");
    };
    assert_eq!(part, "board");
    assert!((size.0 - 2430.0).abs() < 1e-9 && (usable.0 - 2424.0).abs() < 1e-9);
    assert!((largest.0 - 2424.0).abs() < 1e-9 && (largest.1 - 1000.0 * 2424.0 / 2430.0).abs() < 1e-9);
}

#[test]
fn grain_decides_whether_a_part_fits() {
    let across = |grain| part("strip", 2000.0, 100.0, grain, 1);
    assert!(matches!(
        run(&[across(Grain::Along(FRAC_PI_2))], &long(), 10.0),
        Err(Error::TooLarge { .. })
    ));
    assert!(run(&[across(Grain::Free)], &long(), 10.0).is_ok());
    let plain = [stock("ply18", StockGrain::None)];
    assert!(run(&[across(Grain::Along(FRAC_PI_2))], &plain, 10.0).is_ok());
    let short = [stock("ply18", StockGrain::Short)];
    assert!(run(&[across(Grain::Along(FRAC_PI_2))], &short, 10.0).is_ok());
}

#[test]
fn sheets_are_numbered_over_all_stocks_and_counted() {
    let mut mdf = part("board", 2000.0, 1000.0, Grain::Free, 1);
    mdf.stock = "mdf12".into();
    let parts = [mdf, part("rib", 2000.0, 700.0, Grain::Along(0.0), 3)];
    let mut stocks = [stock("ply18", StockGrain::Long), stock("mdf12", StockGrain::None)];
    let sheets = run(&parts, &stocks, 10.0).unwrap();
    let ids: Vec<_> = sheets
        .iter()
        .map(|s| (s.id.as_str(), s.stock.name.as_str()))
        .collect();
    assert_eq!(
        ids,
        [
            ("sheet-1", "ply18"),
            ("sheet-2", "ply18"),
            ("sheet-3", "ply18"),
            ("sheet-4", "mdf12")
        ]
    );
    stocks[0].sheets = Some(2);
    assert_eq!(
        run(&parts, &stocks, 10.0),
        Err(Error::Sheets {
            stock: "ply18".into(),
            needed: 3,
            have: 2
        })
    );
}

#[test]
fn spacing_holds_between_parts_but_not_against_the_edge() {
    // Two of 597 and 10 between them are just the 1204 inside the trim.
    let two = [part("rib", 2424.0, 597.0, Grain::Along(0.0), 2)];
    assert_eq!(run(&two, &long(), 10.0).unwrap().len(), 1);
    assert_eq!(run(&two, &long(), 10.001).unwrap().len(), 2);
}

#[test]
fn slips_are_refused() {
    let rib = |count| part("rib", 300.0, 100.0, Grain::Free, count);
    assert_eq!(
        run(&[rib(0)], &long(), 10.0),
        Err(Error::NoCount { part: "rib".into() })
    );
    assert!(matches!(
        run(&[rib(usize::MAX), rib(2)], &long(), 10.0),
        Err(Error::TooMany { .. })
    ));
    assert!(matches!(
        run(&[rib(1)], &[], 10.0),
        Err(Error::UnknownStock { .. })
    ));
    let twin = part("rib 2", 300.0, 100.0, Grain::Free, 1);
    assert_eq!(
        run(&[rib(2), twin], &long(), 10.0),
        Err(Error::SameName { name: "rib 2".into() })
    );
    assert!(matches!(
        run(&[rib(1)], &long(), f64::NAN),
        Err(Error::Spacing { .. })
    ));
    assert_eq!(run(&[], &long(), 10.0), Ok(vec![]));
    let nothing = part("rib", 0.0, 100.0, Grain::Free, 1);
    assert!(matches!(
        run(&[nothing], &long(), 10.0),
        Err(Error::NoSize { .. })
    ));
    let mut all_trim = long();
    all_trim[0].trim = Trim::even(700.0);
    assert!(matches!(
        run(&[rib(1)], &all_trim, 10.0),
        Err(Error::TooLarge { .. })
    ));
}

fn grain() -> impl Strategy<Value = Grain> {
    prop_oneof![
        Just(Grain::Free),
        Just(Grain::Along(0.0)),
        Just(Grain::Fixed(FRAC_PI_2)),
        (-4.0..4.0f64).prop_map(Grain::Along)
    ]
}

fn some_parts() -> impl Strategy<Value = Vec<Part>> {
    let one = (30.0..800.0f64, 30.0..800.0f64, grain(), 1..6usize);
    prop::collection::vec(one, 1..9).prop_map(|all| {
        all.into_iter()
            .enumerate()
            .map(|(i, (w, h, grain, count))| part(&format!("part {i}."), w, h, grain, count))
            .collect()
    })
}

/// How far off a turn in `grain` is from lying along `stock`'s.
fn off_grain(placed: &Part, stock: StockGrain) -> f64 {
    let wanted = match stock {
        StockGrain::Long => 0.0,
        StockGrain::Short => FRAC_PI_2,
        StockGrain::None => return 0.0,
    };
    match placed.grain {
        Grain::Free => 0.0,
        Grain::Fixed(angle) => {
            ((angle - wanted) / PI / 2.0 - ((angle - wanted) / PI / 2.0).round()).abs() * PI * 2.0
        }
        Grain::Along(angle) => ((angle - wanted) / PI - ((angle - wanted) / PI).round()).abs() * PI,
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]
    #[test]
    fn nothing_is_lost_or_overlaps_and_grain_and_trim_hold(
        parts in some_parts(), spacing in 0.0..30.0f64, kind in 0..3usize,
    ) {
        let grain = [StockGrain::Long, StockGrain::Short, StockGrain::None][kind];
        let stocks = [stock("ply18", grain)];
        let sheets = run(&parts, &stocks, spacing).unwrap();
        let mut names: Vec<_> = sheets.iter().flat_map(|s| s.parts.iter().map(|p| p.name.clone())).collect();
        names.sort();
        names.dedup();
        prop_assert_eq!(names.len(), parts.iter().map(|p| p.count).sum::<usize>());
        for sheet in &sheets {
            prop_assert!(!sheet.parts.is_empty());
            for (i, a) in sheet.parts.iter().enumerate() {
                let source = parts.iter().find(|p| p.name == a.part.name).unwrap();
                prop_assert!((a.part.outline.area() - source.outline.area()).abs() < 1e-6, "neither scaled nor mirrored");
                prop_assert!(off_grain(&a.part, grain) < 1e-9);
                let room = Rect::new(0.0, 0.0, 2440.0, 1220.0).inset(-8.0 + 1e-6);
                prop_assert!(room.contains_rect(a.part.outline.bounds()));
                for b in &sheet.parts[i + 1..] {
                    // Of two straight-sided outlines that lie apart, a corner of one lies nearest to the other.
                    let nearest = |a: &Outline, b: &Outline| {
                        a.vertices().iter().map(|v| b.signed_distance(v.point)).fold(f64::INFINITY, f64::min)
                    };
                    let (a, b) = (&a.part.outline, &b.part.outline);
                    prop_assert!(nearest(a, b).min(nearest(b, a)) >= spacing - 1e-6);
                }
            }
        }
        prop_assert_eq!(run(&parts, &stocks, spacing).unwrap(), sheets);
    }
}

#[test]
fn a_layout_gone_wrong_is_caught() {
    let mut sheets = run(&[part("rib", 300.0, 100.0, Grain::Free, 2)], &long(), 10.0).unwrap();
    let twin = &mut sheets[0].parts[1];
    twin.part = twin.part.transformed(Affine::translate((0.0, -0.5)));
    let other = sheets[0].parts[1].part.outline.bounds();
    let first = sheets[0].parts[0].part.outline.bounds();
    assert!(other.y0 < first.y1 + 10.0);
    assert!(matches!(check::check(&sheets, 10.0), Err(Error::Gap { .. })));
}
