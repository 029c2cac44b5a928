//! What cannot be had is refused with the figure and what would do.

use super::*;

#[track_caller]
fn refused(input: &Input, field: &str, words: &[&str]) {
    let error = curved_head(input).unwrap_err();
    assert_eq!(error.field(), field, "{error}");
    let said = error.to_string();
    for word in words {
        assert!(said.contains(word), "`{word}` is missing in: {said}");
    }
}

#[test]
fn boards_too_narrow_for_any_sensible_count() {
    let mut input = input(sector(960.0, PI), 100.0);
    input.boards.size.1 = 104.0;
    // 1010 pi / 100 = 31 segments; W = 1060 - 960 cos(180/62 deg) = 101.23.
    refused(
        &input,
        "stock",
        &["98.0 mm", "31 segments", "101.2 mm", "107.2 mm wide would do"],
    );
    input.boards.size.1 = 107.3;
    assert_eq!(values(&curved_head(&input).unwrap(), "segments"), [31.0]);
}

#[test]
fn boards_too_short() {
    let mut input = input(shapes::stilted(900.0, 1500.0), 90.0);
    input.boards.size = (95.0, 145.0);
    refused(&input, "stock", &["boards of 95 mm", "too short"]);
}

#[test]
fn a_reveal_wider_than_the_casing() {
    let mut input = input(shapes::segmental(915.0, 152.0), 89.0);
    input.piece = Piece::Casing {
        true_mitre: false,
        legs: None,
    };
    input.reveal = 95.0;
    refused(&input, "reveal", &["95 mm", "less than 89 mm"]);
}

#[test]
fn grain_that_no_count_keeps_to() {
    let mut input = input(sector(60.0, PI), 90.0);
    input.boards.size.1 = 400.0;
    input.cross_grain = PI / 36.0;
    // 105 pi / 90 = 3 segments, 30 degrees.
    refused(
        &input,
        "cross-grain",
        &["5.00 degrees", "30.00 degrees", "30 degrees or more"],
    );
    input.cross_grain = 0.0;
    refused(&input, "cross-grain", &["between 1 and 90"]);
}

#[test]
fn counts_that_cannot_be() {
    let mut input = input(sector(960.0, PI), 100.0);
    input.segments = Some(200);
    refused(&input, "segments", &["31 are the most"]);
    input.soffit = shapes::pointed(900.0, 900.0);
    input.segments = Some(1);
    refused(&input, "segments", &["every corner"]);
}

#[test]
fn joints_without_room() {
    let mut input = input(sector(600.0, PI), 30.0);
    refused(&input, "joint", &["spline", "30.0 mm", "39.0 mm is the least"]);
    input.joint = Some(Joint::Finger);
    input.least_corner = 8.0;
    refused(&input, "joint", &["finger", "51.0 mm is the least"]);
    input.width = 80.0;
    input.boards.thickness = 8.0;
    input.joint = Some(Joint::Spline);
    refused(&input, "joint", &["8 mm of thickness", "9 mm is the least"]);
    input.joint = Some(Joint::Dowel);
    refused(&input, "joint", &["12 mm is the least"]);
    input.layers = Some(2);
    refused(&input, "joint", &["face to face"]);
}

#[test]
fn a_glue_up_board_larger_than_its_sheet() {
    let mut input = input(sector(960.0, PI), 100.0);
    input.glue_up = Some(GlueUp {
        stock: "ply".into(),
        thickness: 18.0,
        sheet: Usable {
            along: 2424.0,
            across: 1104.0,
            either_way: false,
        },
        stop: 12.0,
    });
    refused(&input, "glue-up", &["× 1", "2424.0 × 1104.0 mm"]);
}
