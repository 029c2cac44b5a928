use super::*;
use crate::centre::meeting;
use crate::samples::{flat, lancet, ogee, round, segmental, three_centred};
use cintre_geometry::Vec2;

fn apart(canvas: &Canvas, what: &str) {
    let labels = canvas.labels();
    for (i, a) in labels.iter().enumerate() {
        assert!(
            a.y0 > 0.0 && a.x0 > 0.0 && a.x1 < PAGE,
            "{what}: {a:?} leaves the page"
        );
        for b in &labels[i + 1..] {
            assert!(!a.overlaps(*b), "{what}: {a:?} lies over {b:?}");
        }
    }
}

#[test]
fn no_two_labels_of_an_arch_overlap() {
    for drawing in [segmental(), flat(), three_centred(), round(), lancet(), ogee()] {
        apart(&draw(&drawing), &drawing.name);
    }
}

#[test]
fn every_centre_has_its_figure() {
    // Title, name, figures, legend and the bar's two; the centres' figures and names come on top.
    for (drawing, centres) in [(segmental(), 2), (three_centred(), 6), (flat(), 1)] {
        let with = draw(&drawing).labels().len();
        let bare = ArchDrawing {
            centres: Vec::new(),
            ..drawing
        };
        let legend = 1;
        assert_eq!(
            with - draw(&bare).labels().len(),
            centres + legend,
            "{}",
            bare.name
        );
    }
}

#[test]
fn a_far_centre_does_not_shrink_the_arch() {
    let drawing = flat();
    let world = with_near_centres(&drawing, lines_box(&drawing), &PICTURE);
    assert_eq!(world, lines_box(&drawing));
    let near = segmental();
    assert!(
        with_near_centres(&near, lines_box(&near), &PICTURE)
            .contains(near.centres[0].at + Vec2::new(0.0, 1e-9))
    );
}

#[test]
fn a_radius_line_meets_its_own_arc() {
    let drawing = three_centred();
    for centre in &drawing.centres {
        let met = meeting(&drawing.soffit, centre).unwrap();
        assert!((met.distance(centre.at) - centre.radius).abs() < 1e-9);
        assert!(drawing.soffit.nearest(met).distance < 1e-9);
    }
    let stray = Centre {
        radius: 1.0,
        ..drawing.centres[0].clone()
    };
    assert_eq!(meeting(&drawing.soffit, &stray), None);
}

#[test]
fn for_a_printer_it_is_black_to_a_round_scale_and_on_its_paper() {
    for drawing in [segmental(), flat(), three_centred(), round(), lancet(), ogee()] {
        let black = arch_in_black(&drawing, 186.0, 90.0);
        assert!((black.one_to * 2.0).fract() < 1e-9, "1 : {}", black.one_to);
        let paper = Rect::new(0.0, 0.0, 186.0, black.height).inflate(1e-9, 1e-9);
        for line in black.strokes.iter().flat_map(|stroke| &stroke.lines) {
            let bounds = line.bounds();
            assert!(
                paper.union(bounds) == paper,
                "{}: {bounds:?} runs off {paper:?}",
                drawing.name
            );
        }
        let wide = drawing.soffit.bounds().width() / black.one_to;
        let soffit = |s: &PageStroke| {
            s.weight >= STRONG.weight * HAND - 1e-9 && (s.lines[0].bounds().width() - wide).abs() < 1e-6
        };
        assert!(black.strokes.iter().any(soffit), "{}", drawing.name);
    }
}
