//! Whole pictures: well formed, the same each time, and drawable.

mod samples;

use cintre_picture::{PartsDrawing, png};

#[test]
fn pictures_are_well_formed_and_hold_nothing_but_paths() {
    for (name, svg) in samples::pictures() {
        let document = roxmltree::Document::parse(&svg).unwrap_or_else(|e| panic!("{name}: {e}"));
        let root = document.root_element();
        assert!(root.attribute("viewBox").is_some(), "{name}");
        for node in root.children().filter(roxmltree::Node::is_element) {
            assert!(
                matches!(node.tag_name().name(), "path" | "rect"),
                "{name}: {node:?}"
            );
        }
        assert!(!svg.contains("NaN") && !svg.contains("inf"), "{name}");
    }
}

#[test]
fn the_same_input_gives_the_same_bytes() {
    let (once, again) = (samples::pictures(), samples::pictures());
    assert_eq!(once, again);
    let (a, b) = (png(&once[0].1, 400).unwrap(), png(&again[0].1, 400).unwrap());
    assert_eq!(a, b);
}

#[test]
fn every_picture_renders_at_the_width_asked_for() {
    for (name, svg) in samples::pictures() {
        let bytes = png(&svg, 640).unwrap();
        let width = u32::from_be_bytes(bytes[16..20].try_into().unwrap());
        assert_eq!(width, 640, "{name}");
    }
}

#[test]
fn any_title_makes_a_picture() {
    let parts = [samples::rib()];
    let odd = PartsDrawing {
        title: "“Gärten” & 門 <b>\u{7}",
        ..samples::parts_drawing(&parts)
    };
    let svg = cintre_picture::parts(&odd);
    assert!(roxmltree::Document::parse(&svg).is_ok());
    let plain = cintre_picture::parts(&samples::parts_drawing(&parts));
    assert_ne!(svg, plain, "the title is drawn");
}
