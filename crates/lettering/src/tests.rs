use super::*;
use crate::face::{DRAWN, FRACTIONS, MARKED};
use cintre_geometry::Piece;

/// How far below the line and above the capitals a letter may reach on the grid.
const LOWEST: f64 = -5.0;
const HIGHEST: f64 = 19.0;

fn letters() -> Vec<char> {
    let drawn = DRAWN.iter().map(|g| g.0);
    let marked = MARKED.iter().map(|g| g.0);
    drawn.chain(marked).chain(FRACTIONS.iter().map(|g| g.0)).collect()
}

#[test]
fn every_letter_that_the_trade_needs_is_there() {
    let wanted = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789 .,-+/\\()#:;'\"′″°×½¼¾⅛⅜⅝⅞±⌀=_&%−–!?\
                  éèêëáàâäöüóôíîñçåÅÄÖÜÉØøßµ";
    assert!(width(wanted, 5.0).is_ok());
}

#[test]
fn every_letter_has_strokes_inside_its_box() {
    for letter in letters().into_iter().filter(|&l| l != ' ') {
        let glyph = glyph(letter).unwrap();
        assert!(!glyph.strokes.is_empty(), "{letter} is empty");
        for stroke in &glyph.strokes {
            let b = stroke.bounds();
            assert!(b.x0 >= -1e-9 && b.x1 <= glyph.width + 1e-9, "{letter}: {b:?}");
            assert!(b.y0 >= LOWEST - 1e-9 && b.y1 <= HIGHEST + 1e-9, "{letter}: {b:?}");
        }
    }
}

#[test]
fn no_letter_is_drawn_twice_in_the_tables() {
    let mut all = letters();
    let count = all.len();
    all.sort_unstable();
    all.dedup();
    assert_eq!(all.len(), count);
}

#[test]
fn no_stroke_is_of_no_length_or_drawn_twice() {
    for letter in letters() {
        let pieces: Vec<Piece> = glyph(letter)
            .unwrap()
            .strokes
            .iter()
            .flat_map(|s| s.pieces().collect::<Vec<_>>())
            .collect();
        for (i, a) in pieces.iter().enumerate() {
            assert!(a.length() > 0.1, "{letter} has a stroke of no length");
            for b in &pieces[i + 1..] {
                // Two pieces that share a run of any length share two of its inner points at least.
                let shared = (1..20)
                    .filter(|&k| b.nearest(a.point_at(f64::from(k) / 20.0)).distance < 1e-6)
                    .count();
                assert!(shared < 2, "{letter} draws a line twice: {a:?} {b:?}");
            }
        }
    }
}

#[test]
fn the_height_is_that_of_the_capitals() {
    let paths = strokes("H", 7.0, Point::new(100.0, 50.0), Anchor::Start).unwrap();
    let bounds = paths.iter().map(Path::bounds).reduce(|a, b| a.union(b)).unwrap();
    assert!((bounds.y0 - 50.0).abs() < 1e-9 && (bounds.y1 - 57.0).abs() < 1e-9);
    assert!((bounds.x0 - 100.0).abs() < 1e-9 && (bounds.x1 - 105.0).abs() < 1e-9);
    assert!((width("HH", 7.0).unwrap() - 12.0).abs() < 1e-9);
}

#[test]
fn anchors_set_the_text_by_its_left_middle_and_right() {
    let across = |anchor| {
        let paths = strokes("NORTH", 14.0, Point::ZERO, anchor).unwrap();
        let bounds = paths.iter().map(Path::bounds).reduce(|a, b| a.union(b)).unwrap();
        (bounds.x0, bounds.x1)
    };
    let w = width("NORTH", 14.0).unwrap();
    for (anchor, left) in [
        (Anchor::Start, 0.0),
        (Anchor::Middle, -w / 2.0),
        (Anchor::End, -w),
    ] {
        let (x0, x1) = across(anchor);
        assert!(
            (x0 - left).abs() < 1e-9 && (x1 - left - w).abs() < 1e-9,
            "{anchor:?}"
        );
    }
}

#[test]
fn a_letter_that_is_not_there_is_named_with_its_place() {
    let error = strokes("gate 門", 5.0, Point::ZERO, Anchor::Start).unwrap_err();
    assert_eq!(
        error,
        UnknownLetter {
            letter: '門',
            place: 6
        }
    );
    assert_eq!(
        error.to_string(),
        "the lettering has no '門' (U+9580), letter 6 of the text"
    );
}

#[test]
fn bows_meet_stems_without_a_kink() {
    // The letters whose outline is smooth all the way round.
    for letter in ['O', 'o', '0', 'S', 'C', 'c', '6', '9', 'J', 'U'] {
        for stroke in glyph(letter).unwrap().strokes {
            let pieces: Vec<Piece> = stroke.pieces().collect();
            for pair in pieces.windows(2) {
                let turn = pair[0].tangent_at(1.0).cross(pair[1].tangent_at(0.0));
                assert!(turn.abs() < 1e-9, "{letter} has a kink at {:?}", pair[1].start);
            }
        }
    }
}

#[test]
fn any_title_can_be_spelled() {
    assert_eq!(spell("“Walled” garden — n°2"), "\"Walled\" garden – n°2");
    assert_eq!(spell("Œuvre d’Ýr\u{a0}x\tž\u{200b}"), "OEuvre d'Yr x z");
    assert_eq!(spell("門"), "?");
    let all: String = (0..0x2_0000).filter_map(char::from_u32).collect();
    assert!(width(&spell(&all), 1.0).is_ok());
    let printed: String = (' '..='~').collect();
    assert!(
        spell(&printed).matches('?').count() == 1,
        "plain ASCII is all writable"
    );
}
