//! Whole drawings on pages.

use crate::{Error, FullSize, LONGEST_PAGE, Paper, Printer, Size, Tiled, full_size};
use cintre_geometry::{Outline, Path, Piece, Point, Rect};
use cintre_work::{Figure, Ink, Layer, Shape};
use proptest::prelude::*;
use std::collections::BTreeMap;
use std::f64::consts::PI;

fn sheets(name: &str) -> Paper {
    Paper::Sheets(Size::named(name).unwrap())
}

fn tiled(shapes: &[Shape], paper: Paper, printer: Printer) -> Result<Tiled, Error> {
    full_size(&FullSize {
        title: "Almshouse",
        name: "gate rib",
        facts: &[],
        cautions: &["Guards on.".to_owned()],
        shapes,
        paper,
        printer,
        length: &|mm| format!("{mm:.1} mm"),
    })
}

fn on(shapes: &[Shape], paper: Paper) -> Tiled {
    tiled(shapes, paper, Printer::TRUE).unwrap()
}

fn rectangle(width: f64, height: f64) -> Shape {
    Shape {
        layer: Layer::Outline,
        figure: Figure::Closed(Outline::rectangle(Rect::new(0.0, 0.0, width, height))),
    }
}

/// A half circle, open, about the origin.
fn half_round(radius: f64) -> Shape {
    let arc = Piece::arc(Point::ZERO, Point::new(radius, 0.0), PI);
    Shape {
        layer: Layer::Outline,
        figure: Figure::Open(Path::from_pieces(&[arc])),
    }
}

/// The pages that show a part of the drawing.
fn pages(tiled: &Tiled) -> &[cintre_work::Page] {
    &tiled.document.pages[tiled.document.pages.len() - tiled.tiles.len()..]
}

fn lines(page: &cintre_work::Page, wanted: impl Fn(Ink) -> bool) -> Vec<&Path> {
    let strokes = page.strokes.iter().filter(|stroke| wanted(stroke.ink));
    strokes.flat_map(|stroke| &stroke.lines).collect()
}

#[test]
fn what_goes_on_one_page_takes_one_whichever_way_it_lies() {
    // The room on A4 is 165 by 256: the strips of the bars and the margins are taken off.
    for (width, height) in [(150.0, 240.0), (230.0, 150.0)] {
        let found = on(&[rectangle(width, height)], sheets("A4"));
        assert_eq!(found.tiles.len(), 1);
        let page = pages(&found)[0].size;
        assert_eq!(page.0 > page.1, width > height);
        assert_eq!(found.tiles[0].name, "A1");
    }
}

#[test]
fn the_grid_is_shifted_to_where_it_takes_the_fewest() {
    // Two small parts 700 mm apart: a page each, wherever they would fall in a grid laid from a corner.
    for x in [600.0, 640.0, 700.0, 777.0] {
        let dot = |x: f64| Shape {
            layer: Layer::Bore,
            figure: Figure::Circle {
                centre: Point::new(x, 0.0),
                radius: 20.0,
            },
        };
        assert_eq!(on(&[dot(0.0), dot(x)], sheets("A4")).tiles.len(), 2, "{x} apart");
    }
}

#[test]
fn pages_on_which_nothing_would_stand_are_left_out() {
    let found = on(&[half_round(800.0)], sheets("A4"));
    let names: Vec<&str> = found.tiles.iter().map(|tile| tile.name.as_str()).collect();
    assert!(names.len() < 24, "{names:?}");
    for page in pages(&found) {
        assert!(!lines(page, |ink| matches!(ink, Ink::Drawn(_))).is_empty());
    }
    assert!(found.document.pages.len() > found.tiles.len(), "there is a key");
}

#[test]
fn every_page_has_both_bars_both_ways_and_keeps_its_margins() {
    for paper in [
        sheets("A4"),
        sheets("Letter"),
        sheets("A3"),
        sheets("Tabloid"),
        Paper::Roll(610.0),
    ] {
        let found = on(&[half_round(600.0)], paper);
        for page in &found.document.pages {
            let (width, height) = page.size;
            let inner = Rect::new(12.0, 12.0, width - 12.0, height - 12.0).inflate(1e-9, 1e-9);
            for line in lines(page, |_| true) {
                assert!(
                    inner.union(line.bounds()) == inner,
                    "{:?} on {paper:?}",
                    line.bounds()
                );
            }
            let sizes = lines(page, |ink| ink == Ink::Bar)
                .into_iter()
                .map(|bar| bar.bounds().size());
            let mut sizes: Vec<(f64, f64)> = sizes.map(|size| (size.width, size.height)).collect();
            sizes.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1)));
            for (found, wanted) in sizes
                .iter()
                .zip([(0.0, 100.0), (0.0, 101.6), (100.0, 0.0), (101.6, 0.0)])
            {
                assert!((found.0 - wanted.0).abs() < 1e-9 && (found.1 - wanted.1).abs() < 1e-9);
            }
            assert_eq!(sizes.len(), 4);
        }
    }
}

#[test]
fn a_roll_is_as_wide_as_told_and_no_page_too_long() {
    for (radius, count) in [(400.0, 1), (2400.0, 2)] {
        let found = on(&[half_round(radius)], Paper::Roll(914.0));
        for page in pages(&found) {
            assert!((page.size.0 - 914.0).abs() < 1e-9 && page.size.1 <= LONGEST_PAGE);
        }
        assert!(found.tiles.len() >= count);
    }
    for width in [100.0, 3000.0] {
        let refused = tiled(&[half_round(400.0)], Paper::Roll(width), Printer::TRUE);
        assert_eq!(refused.unwrap_err(), Error::Roll { width });
    }
}

#[test]
fn a_printer_that_prints_small_is_sent_more_and_the_paper_stays_its_size() {
    let printer = Printer {
        across: 97.2,
        along: 98.0,
    };
    let found = tiled(&[half_round(300.0)], sheets("A4"), printer).unwrap();
    for page in &found.document.pages {
        let (width, height) = (page.size.0 * page.stretch.0, page.size.1 * page.stretch.1);
        assert!((width.min(height) - 210.0).abs() < 1e-9 && (width.max(height) - 297.0).abs() < 1e-9);
        let (across, along) = if width < height {
            page.stretch
        } else {
            (page.stretch.1, page.stretch.0)
        };
        assert!((across - 1.0288).abs() < 5e-5 && (along - 1.0204).abs() < 5e-5);
    }
    assert!(tiled(&[], sheets("A4"), printer).is_err());
}

/// All that the pages show of a drawing, each part once: its length inside the page's own share of the whole.
fn crosses(tiled: &Tiled) -> BTreeMap<(i64, i64), usize> {
    let mut places = BTreeMap::new();
    for (page, tile) in pages(tiled).iter().zip(&tiled.tiles) {
        for pair in lines(page, |ink| ink == Ink::Cross).chunks(2) {
            let at = pair[0].bounds().center() + tile.corner.to_vec2();
            #[expect(
                clippy::cast_possible_truncation,
                reason = "a place in thousandths of a millimetre"
            )]
            let key = ((at.x * 1000.0).round() as i64, (at.y * 1000.0).round() as i64);
            *places.entry(key).or_insert(0) += 1;
        }
    }
    places
}

#[test]
fn crosses_of_neighbours_stand_on_one_place_of_the_drawing() {
    let found = on(&[rectangle(1000.0, 700.0)], sheets("A4"));
    let shared = crosses(&found);
    let met = shared.values().filter(|count| **count >= 2).count();
    // Each of the pages round the rim meets the next one at two crosses.
    assert!(met >= found.tiles.len(), "{met} of {}", found.tiles.len());
    assert!(shared.values().all(|count| *count <= 4));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]
    #[test]
    fn nothing_of_a_line_is_missing(
        x in -500.0..500.0f64, y in -500.0..500.0f64, to_x in -500.0..500.0f64, to_y in -500.0..500.0f64, bulge in -1.0..1.0f64,
        roll in proptest::bool::ANY,
    ) {
        let piece = Piece { start: Point::new(x, y), end: Point::new(to_x, to_y), bulge };
        prop_assume!(piece.start.distance(piece.end) > 1.0);
        let shape = Shape { layer: Layer::Mark, figure: Figure::Open(Path::from_pieces(&[piece])) };
        let found = on(&[shape], if roll { Paper::Roll(300.0) } else { sheets("A4") });
        let whole = &found.lines[0].1;
        let shown: Vec<Path> = pages(&found)
            .iter()
            .zip(&found.tiles)
            .flat_map(|(page, tile)| {
                let by = cintre_geometry::Affine::translate(tile.corner.to_vec2());
                lines(page, |ink| ink == Ink::Drawn(Layer::Mark)).into_iter().map(move |line| line.transformed(by))
            })
            .collect();
        for i in 0..=200 {
            let at = whole.station(whole.length() * f64::from(i) / 200.0).0;
            let off = shown.iter().map(|line| line.nearest(at).distance).fold(f64::INFINITY, f64::min);
            prop_assert!(off < 1e-6, "{at:?} is {off} off");
        }
        for p in shown.iter().flat_map(|line| [line.start(), line.end()]) {
            prop_assert!(whole.nearest(p).distance < 1e-6);
        }
    }
}
