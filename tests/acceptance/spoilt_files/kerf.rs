//! A laser's cut run along another line.

use cintre_geometry::{Outline, Piece};
use cintre_tests::around_last_cut;
use std::fmt::Write as _;

/// The program with its last cut along another line, both run the same way.
pub(super) fn cut_along(good: &str, outline: &Outline) -> String {
    let (before, _, after) = around_last_cut(good);
    let mut road = String::new();
    let start = outline.vertices()[0].point;
    // Writing into a string does not fail.
    let _ = write!(road, "G0 X{:.4} Y{:.4}\nM3 S80\n", start.x, start.y);
    for piece in outline.pieces() {
        let (Piece { start, end, .. }, centre) = (piece, piece.circle().map(|c| c.centre));
        let word = match piece.bulge {
            b if b > 0.0 => "G3",
            b if b < 0.0 => "G2",
            _ => "G1",
        };
        let _ = write!(road, "{word} X{:.4} Y{:.4}", end.x, end.y);
        if let Some(c) = centre {
            let _ = write!(road, " I{:.4} J{:.4}", c.x - start.x, c.y - start.y);
        }
        road += " F720.0\n";
    }
    format!("{before}{road}{after}")
}
