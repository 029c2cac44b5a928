//! The picture of a kit put together.

use crate::figures::form_heading;
use cintre_forms::Form;
use cintre_forms::centering::Standing;
use cintre_geometry::Point;
use cintre_lettering::spell;
use cintre_picture::{Dimension, Lengths, Side, StandingDrawing};

/// A kit where it stands, with the span and the rise of its arch.
pub(crate) fn kit(title: &str, form: &Form, standing: &Standing, lengths: Lengths<'_>) -> String {
    let ((left, right), crown) = (standing.springings, standing.crown);
    let foot = Point::new(left.x, left.y.min(right.y));
    cintre_picture::standing(&StandingDrawing {
        title: &spell(title),
        name: &spell(&form_heading(form)),
        parts: &standing.parts,
        dimensions: vec![
            dimension(left, right, Side::Below, "span", (right.x - left.x, lengths)),
            dimension(foot, crown, Side::Left, "rise", (crown.y - foot.y, lengths)),
        ],
        lengths,
    })
}

/// A size shown beside a drawing, with what it is called.
pub(crate) fn dimension(
    from: Point,
    to: Point,
    side: Side,
    word: &str,
    (mm, lengths): (f64, Lengths<'_>),
) -> Dimension {
    Dimension {
        from,
        to,
        side,
        text: format!("{word} {}", (lengths.write)(mm)),
    }
}
