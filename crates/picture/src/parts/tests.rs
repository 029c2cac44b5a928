use super::*;
use crate::samples::{parts_drawing, rib, strut, template};

#[test]
fn parts_keep_apart_and_none_is_lost() {
    let parts = [rib(), template(), strut(), rib(), strut()];
    let laid = laid_out(&parts, (30.0, 16.0));
    assert_eq!(laid.len(), parts.len());
    for (i, a) in laid.iter().enumerate() {
        for b in &laid[i + 1..] {
            assert!(!a.outline.bounds().overlaps(b.outline.bounds()));
        }
    }
}

#[test]
fn no_two_labels_of_parts_overlap() {
    let parts = [rib(), template(), strut()];
    let canvas = draw(&parts_drawing(&parts));
    let labels = canvas.labels();
    for (i, a) in labels.iter().enumerate() {
        for b in &labels[i + 1..] {
            assert!(!a.overlaps(*b), "{a:?} lies over {b:?}");
        }
    }
}

#[test]
fn a_page_without_parts_is_still_a_page() {
    assert!(parts(&parts_drawing(&[])).contains("</svg>"));
}
