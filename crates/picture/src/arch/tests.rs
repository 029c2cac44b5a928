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
fn every_point_taken_has_its_residual() {
    let drawing = segmental();
    let soffit = drawing.soffit.clone();
    let points: Vec<Taken> = (0..=10)
        .map(|i| Taken {
            at: soffit.station(soffit.length() * f64::from(i) / 10.0).0,
            text: format!("{}: -10.{i}", i + 1),
        })
        .collect();
    let bare = draw(&ArchDrawing {
        points: Vec::new(),
        ..segmental()
    });
    let with = draw(&ArchDrawing { points, ..drawing });
    // A label each, and a line of the legend.
    assert_eq!(with.labels().len() - bare.labels().len(), 12);
    apart(&with, "points");
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
