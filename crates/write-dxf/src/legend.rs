//! What stands below a drawing for a person's eyes: a bar to measure, and the notes.

use cintre_geometry::{Path, Point, Rect};
use cintre_work::{Figure, Layer, Shape, Unit};

/// A row of text.
#[derive(Clone, Debug)]
pub(crate) struct Text {
    pub(crate) at: Point,
    pub(crate) height: f64,
    pub(crate) words: String,
}

/// The bar and the rows, in the file's unit.
#[derive(Debug)]
pub(crate) struct Legend {
    pub(crate) lines: Vec<Shape>,
    pub(crate) texts: Vec<Text>,
}

impl Legend {
    /// Below `area`, which is in mm.
    pub(crate) fn new(area: Rect, units: Unit, scale: f64, notes: &[String]) -> Self {
        let (bar, words) = match units {
            Unit::Millimetre => (100.0, "100 mm"),
            Unit::Inch => (4.0, "4 in"),
        };
        // Seen beside the whole sheet, and yet not larger than the bar.
        let height = (area.width().max(area.height()) / 120.0).clamp(3.0, 15.0) * scale;
        let corner = Point::new(area.x0 * scale, area.y0 * scale);
        let at = |x: f64, rows: f64| Point::new(corner.x + x, corner.y - rows * height);
        let line = |from, to| Shape {
            layer: Layer::Text,
            figure: Figure::Open(Path::polyline(&[from, to])),
        };
        let mut texts = vec![Text {
            at: at(bar + height, 2.5),
            height,
            words: words.to_owned(),
        }];
        let mut rows = 5.0;
        for note in notes {
            texts.push(Text {
                at: at(0.0, rows),
                height,
                words: note.replace("%%", "%").replace('^', "_"),
            });
            rows += 1.6;
        }
        Self {
            lines: vec![
                line(at(0.0, 2.0), at(bar, 2.0)),
                line(at(0.0, 1.5), at(0.0, 2.5)),
                line(at(bar, 1.5), at(bar, 2.5)),
            ],
            texts,
        }
    }
}
