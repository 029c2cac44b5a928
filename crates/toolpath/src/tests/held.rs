//! Small parts that a beam leaves held by tabs.

use super::{part, rectangle, sheet};
use crate::{Beamed, Error, Lines, beamed};
use cintre_geometry::{Outline, Path, Point};
use cintre_work::{BeamTabs, Figure, Layer, Sheet};

const BEAM: Beamed<'_> = Beamed {
    machine: "beam",
    bed: (600.0, 400.0),
    kerf: 0.16,
    least_bridge: 1.5,
    tabs: Some(BeamTabs {
        width: 0.6,
        under: 60.0,
        every: 60.0,
    }),
};

fn outlines(lines: &Lines) -> Vec<&Figure> {
    let shapes = lines.drawing.shapes.iter();
    shapes
        .filter(|shape| shape.layer == Layer::Outline)
        .map(|shape| &shape.figure)
        .collect()
}

fn strokes(lines: &Lines) -> Vec<&Path> {
    let outlines = outlines(lines).into_iter();
    outlines
        .map(|figure| match figure {
            Figure::Open(path) => path,
            closed => panic!("{closed:?} is not held"),
        })
        .collect()
}

/// A comb with a slot in its upper edge, as a spacer has.
fn slotted() -> Outline {
    Outline::polygon(
        &[
            (20.0, 20.0),
            (40.0, 20.0),
            (40.0, 30.0),
            (31.5, 30.0),
            (31.5, 22.0),
            (28.5, 22.0),
            (28.5, 30.0),
            (20.0, 30.0),
        ]
        .map(Point::from),
    )
}

#[test]
fn a_small_part_is_held_by_tabs_of_the_width_asked_for() {
    let lines = beamed(&sheet(vec![part(rectangle(20.0, 20.0, 25.0, 31.0))]), &BEAM).unwrap();
    let strokes = strokes(&lines);
    assert!(
        lines.tabs.len() >= 2 && strokes.len() == lines.tabs.len(),
        "{:?}",
        lines.tabs
    );
    for tab in &lines.tabs {
        // Two beam ends nearest to the tab's middle: the wood between them is its width.
        let mut ends: Vec<Point> = strokes.iter().flat_map(|s| [s.start(), s.end()]).collect();
        ends.sort_by(|a, b| a.distance(tab.at).total_cmp(&b.distance(tab.at)));
        assert!((ends[0].distance(ends[1]) - 0.6 - 0.16).abs() < 1e-8);
        assert!((tab.height - 18.0).abs() < 1e-12);
    }
}

#[test]
fn a_large_part_lies_loose_and_so_does_any_where_the_shop_has_no_tabs() {
    let lines = beamed(&sheet(vec![part(rectangle(20.0, 20.0, 90.0, 31.0))]), &BEAM).unwrap();
    assert!(lines.tabs.is_empty() && matches!(outlines(&lines)[..], [Figure::Closed(_)]));
    let none = Beamed { tabs: None, ..BEAM };
    let lines = beamed(&sheet(vec![part(rectangle(20.0, 20.0, 25.0, 31.0))]), &none).unwrap();
    assert!(lines.tabs.is_empty() && matches!(outlines(&lines)[..], [Figure::Closed(_)]));
}

#[test]
fn no_tab_stands_in_a_slot() {
    let many = Beamed {
        tabs: BEAM.tabs.map(|tabs| BeamTabs { every: 4.0, ..tabs }),
        ..BEAM
    };
    let lines = beamed(&sheet(vec![part(slotted())]), &many).unwrap();
    assert!(lines.tabs.len() >= 6, "{:?}", lines.tabs);
    for tab in &lines.tabs {
        let in_slot = (28.0..32.0).contains(&tab.at.x) && tab.at.y > 20.5;
        assert!(!in_slot, "{tab:?}");
    }
}

#[test]
fn a_tab_hangs_on_wood_that_stays() {
    // A neighbour so near that its own cut takes away what a tab between them would hold on to.
    let near = [(20.0, 25.0), (25.3, 30.3)].map(|(x0, x1)| part(rectangle(x0, 20.0, x1, 31.0)));
    let lines = beamed(&sheet(near.to_vec()), &BEAM).unwrap();
    for tab in &lines.tabs {
        assert!(
            (tab.at.x - 25.0).abs() > 1e-6 && (tab.at.x - 25.3).abs() > 1e-6,
            "{tab:?}"
        );
    }
}

#[test]
fn a_part_too_small_to_hold_is_refused_with_the_tabs_that_would() {
    let tiny = |side: f64| -> Sheet { sheet(vec![part(rectangle(20.0, 20.0, 20.0 + side, 20.0 + side))]) };
    let Err(Error::CannotHold {
        width,
        widest: Some(widest),
        ..
    }) = beamed(&tiny(1.2), &BEAM)
    else {
        panic!("it is held");
    };
    assert!((width - 0.6).abs() < 1e-12 && widest < 0.6);
    let narrower = Beamed {
        tabs: BEAM.tabs.map(|tabs| BeamTabs {
            width: widest,
            ..tabs
        }),
        ..BEAM
    };
    assert!(beamed(&tiny(1.2), &narrower).is_ok());
    assert!(matches!(
        beamed(&tiny(0.2), &BEAM),
        Err(Error::CannotHold { widest: None, .. })
    ));
}
