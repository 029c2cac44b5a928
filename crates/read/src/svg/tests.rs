use super::*;
use proptest::prelude::*;

fn drawing(inside: &str) -> String {
    format!(
        "<svg xmlns='http://www.w3.org/2000/svg' width='300mm' height='200mm' viewBox='10 20 300 200'>{inside}</svg>"
    )
}

#[test]
fn y_is_turned_up_and_arcs_keep_their_side() {
    let text = drawing("<g id='outline'><path d='M 60 120 A 50 50 0 0 1 160 120 L 160 170 H 60 Z'/></g>");
    let read = read(text.as_bytes()).unwrap();
    assert!(read.faults.is_empty(), "{:?}", read.faults);
    let outline = read.chains[0].outline().unwrap();
    assert_eq!(read.chains[0].layer, "outline");
    let box_ = outline.bounds();
    // The arch stands on its legs: crown at 20 + 200 - 70 = 150, foot at 50.
    assert!(
        (box_.y1 - 150.0).abs() < 1e-9 && (box_.y0 - 50.0).abs() < 1e-9,
        "{box_:?}"
    );
    assert!((box_.x0 - 50.0).abs() < 1e-9 && (box_.x1 - 150.0).abs() < 1e-9);
    assert!((outline.area().abs() - (5000.0 + std::f64::consts::PI * 1250.0)).abs() < 1e-6);
}

#[test]
fn relative_words_come_to_the_same() {
    let one = |d: &str| read(drawing(&format!("<g id='mark'><path d='{d}'/></g>")).as_bytes()).unwrap();
    let absolute = one("M 60 120 L 70 120 A 10 10 0 1 0 80 130 V 140");
    let relative = one("m 60,120 10,0 a 10,10 0 1 0 10,10 v 10");
    assert_eq!(absolute, relative);
    assert!(absolute.faults.is_empty() && !absolute.chains[0].closed);
}

#[test]
fn curves_become_arcs_only_where_they_are_asked_for() {
    // A quarter circle of 100 as it is mostly drawn, and the parabola of a Q; both in a file of half-millimetres.
    let text = "<svg xmlns='http://www.w3.org/2000/svg' width='300mm' height='200mm' viewBox='0 0 600 400'><g id='outline'>\
                <path d='M 100 300 C 100 189.543 189.543 100 300 100 s 200 89.543 200 200'/>\
                <path d='M 100 350 Q 200 250 300 350 t 200 0'/></g></svg>";
    let read = read_as(text.as_bytes(), Some(0.02)).unwrap();
    assert!(
        read.faults.is_empty() && read.fit_error > 0.0 && read.fit_error <= 0.02,
        "{read:?}"
    );
    let dome = read.chains[0].path().unwrap();
    // The usual curve stands at most 0.03 per cent outside its circle.
    let centre = Point::new(150.0, 50.0);
    for piece in dome.pieces() {
        let off = piece.point_at(0.5).distance(centre) - 100.0;
        assert!(off > -0.021 && off < 0.051, "{off}");
    }
    assert!(dome.pieces().len() < 20 && dome.end().distance(Point::new(250.0, 50.0)) < 1e-9);
    // The second half of the wave mirrors the first through its middle.
    let wave = read.chains[1].path().unwrap();
    let (top, bottom) = (wave.bounds().y1 - 25.0, 25.0 - wave.bounds().y0);
    assert!(
        (top - 25.0).abs() < 0.021 && (bottom - 25.0).abs() < 0.021,
        "{:?}",
        wave.bounds()
    );
    let straight = read_as(
        drawing("<g id='mark'><path d='M 20 30 C 30 40 40 50 50 60'/></g>").as_bytes(),
        Some(0.02),
    );
    assert_eq!(straight.unwrap().chains[0].pieces().len(), 1);
    assert_eq!(super::read(text.as_bytes()).unwrap().faults.len(), 2);
}

#[test]
fn what_a_cutter_may_read_otherwise_is_a_fault() {
    for (inside, expected) in [
        ("<path d='M 0 0 C 1 1 2 2 3 3'/>", "C in a path"),
        ("<path d='M 0 0 A 5 4 0 0 1 3 3'/>", "not part of a circle"),
        (
            "<path d='M 0 0 A 1 1 0 0 1 30 30'/>",
            "an arc of radius 1 over a chord",
        ),
        ("<path d='M 0 0 A 1 1 0 0110 10'/>", "with 5 numbers"),
        ("<path d='M 0 0 L 1'/>", "L in a path with 1 numbers"),
        ("<path d='L 1 1'/>", "before an M"),
        ("<path d='M 0 0 L 1 nan'/>", "N"),
        ("<g transform='scale(2)'><path d='M 0 0 L 1 1'/></g>", "transform"),
        ("<text>cut</text>", "text, which is neither"),
        ("<use href='#a'/>", "use, which is neither"),
        ("<circle cx='1mm' cy='1' r='3'/>", "without a plain cx"),
        ("<circle cx='1' cy='1' r='-3'/>", "radius -3"),
    ] {
        let read = read(drawing(inside).as_bytes()).unwrap();
        let found: String = read.faults.iter().map(|f| f.what.to_uppercase()).collect();
        assert!(
            found.contains(&expected.to_uppercase()),
            "{inside} gave {found:?}"
        );
    }
    assert!(matches!(
        read(b"<svg width='10' height='10mm' viewBox='0 0 10 10'/>"),
        Err(SvgError::Size(_))
    ));
    assert!(matches!(
        read(b"<svg width='20mm' height='10mm' viewBox='0 0 10 10'/>"),
        Err(SvgError::Size(_))
    ));
    assert!(matches!(read(b"<html/>"), Err(SvgError::Root(_))));
}

proptest! {
    #[test]
    fn no_path_data_makes_it_panic(d in "[MLHVAZCSQTmlhvazcsqt0-9., eE+-]{0,60}") {
        let text = drawing(&format!("<g id='outline'><path d='{d}'/></g>"));
        let _ = read(text.as_bytes());
        let _ = read_as(text.as_bytes(), Some(0.1));
    }

    #[test]
    fn no_bytes_make_it_panic(bytes in prop::collection::vec(any::<u8>(), 0..200), at in 0..200usize) {
        let mut text = drawing("<g id='outline'><circle cx='20' cy='30' r='5'/></g>").into_bytes();
        let at = at.min(text.len());
        text.splice(at..at, bytes.iter().copied().take(3));
        let _ = read(&text);
        let _ = read(&bytes);
    }
}
