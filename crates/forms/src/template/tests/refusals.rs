//! What cannot be made, with what would do.

use super::super::{Guide, GuideKind, Run, bush};
use super::{BUSH_30, Edge, input, made, ogee, refused, ring};
use cintre_geometry::arch::{Arch, Segmental, ThreeCentred};
use cintre_geometry::{Path, Piece, Point};

fn arch() -> Arch {
    let sizes = Segmental {
        span: Some(900.0),
        rise: Some(300.0),
        radius: None,
    };
    sizes.arch().expect("such an arch is")
}

const fn bush_of(diameter: f64, bit: f64) -> Guide {
    Guide {
        kind: GuideKind::Bush,
        diameter,
        bit,
    }
}

#[test]
fn a_bush_that_gives_the_bit_no_room() {
    let shop = [16.0, 20.0, 24.0];
    let told = |asked, bit| bush(asked, bit, &shop).map_err(|error| error.to_string());
    assert!(
        told(Some(14.0), 12.7)
            .unwrap_err()
            .contains("15.7 mm is the least")
    );
    assert!(
        told(Some(17.0), 12.7)
            .unwrap_err()
            .contains("it has 16, 20, 24 mm")
    );
    assert!(
        told(None, 25.4)
            .unwrap_err()
            .contains("28.4 mm or more: the shop has 16, 20, 24 mm")
    );
    assert_eq!(told(None, 12.7), Ok(16.0));
    assert_eq!(told(None, 16.0), Ok(20.0));
    assert!(
        bush(None, 6.0, &[])
            .unwrap_err()
            .to_string()
            .contains("list them under `bushes`")
    );
}

/// A line with a hollow bend of 20 mm between two wide ones.
fn hollow() -> Path {
    let (left, right) = (Point::new(-300.0, 0.0), Point::new(300.0, 0.0));
    Path::from_pieces(&[
        Piece::line(left, Point::new(-20.0, 200.0)),
        Piece::arc(
            Point::new(0.0, 200.0),
            Point::new(-20.0, 200.0),
            std::f64::consts::PI,
        ),
        Piece::line(Point::new(20.0, 200.0), right),
    ])
}

#[test]
fn an_inside_bend_that_the_bit_does_not_follow() {
    let mut asked = input(&arch(), Run::Outside, bush_of(50.0, 44.0));
    asked.edge = Edge::Soffit(hollow());
    refused(
        &asked,
        "bit",
        &["radius of 20.000 mm", "40.000 mm is the widest bit"],
    );
    asked.guide = bush_of(50.0, 39.0);
    made(&asked);
}

#[test]
fn an_outside_bend_that_leaves_the_template_no_radius() {
    let mut asked = input(&arch(), Run::Inside, bush_of(60.0, 12.0));
    asked.edge = Edge::Soffit(hollow());
    refused(
        &asked,
        "bush",
        &["24.000 mm inside the work", "less than 52.000 mm"],
    );
    asked.guide = bush_of(51.0, 12.0);
    made(&asked);
}

#[test]
fn a_ring_with_nothing_left_between_its_edges() {
    let asked = ring(&arch(), 35.0, BUSH_30);
    refused(
        &asked,
        "bush",
        &["the work is 35.0 mm wide", "less than 27.7 mm leaves 20 mm"],
    );
    made(&ring(&arch(), 35.0, bush_of(27.0, 12.7)));
}

#[test]
fn a_cusp_deeper_than_the_chisel_goes() {
    let mut asked = input(&ogee().arch().expect("an ogee"), Run::Inside, BUSH_30);
    asked.chisel = 25.0;
    let error = refused(
        &asked,
        "bit",
        &["(0.0, 760.0)", "is the widest bit that leaves no more"],
    );
    let told = error.to_string();
    let before = told.split(" mm is the widest").next().unwrap_or_default();
    let bit: f64 = before
        .rsplit(' ')
        .next()
        .and_then(|n| n.parse().ok())
        .expect("it names a bit");
    asked.guide = bush_of(30.0, bit - 0.02);
    made(&asked);
    asked.guide = bush_of(30.0, bit + 0.02);
    refused(&asked, "bit", &["`chisel` allows 25 mm"]);
}

#[test]
fn a_parallel_past_the_least_radius() {
    let basket = ThreeCentred {
        span: 300.0,
        rise: 60.0,
        by: Default::default(),
    };
    let basket = basket.arch().expect("a basket arch");
    let least = basket.soffit.least_radius();
    let asked = input(&basket, Run::Outside, bush_of(2.0 * least + 7.0, 6.0));
    refused(
        &asked,
        "bush",
        &[
            "bends outwards",
            &format!("less than {:.3} mm", 2.0 * least + 6.0),
        ],
    );
}

#[test]
fn sizes_that_are_no_sizes() {
    for (size, field) in [
        (f64::NAN, "margin"),
        (-1.0, "clamps"),
        (f64::INFINITY, "hanging-hole"),
    ] {
        let mut asked = input(&arch(), Run::Inside, BUSH_30);
        match field {
            "margin" => asked.room.base = size,
            "clamps" => asked.room.clamps = size,
            _ => asked.hanging_hole = size,
        }
        refused(&asked, field, &["must be 0 mm or more"]);
    }
}
