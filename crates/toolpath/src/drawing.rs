//! A sheet drawn for someone else to cut, without any allowance.

use cintre_geometry::{Outline, Rect};
use cintre_work::{Drawing, Figure, Layer, MarkKind, Part, Shape, Sheet};

/// The sheet as it is meant to be: every edge the part's own, no bit and no kerf allowed for, in the layers' order, which
/// is also the order in which to cut. Its notes say only that; whoever writes it adds the unit and the cautions.
pub fn drawing(sheet: &Sheet) -> Drawing {
    let (length, width) = sheet.stock.size;
    let area = Rect::new(0.0, 0.0, length, width);
    let mut shapes = vec![Shape {
        layer: Layer::Stock,
        figure: Figure::Closed(Outline::rectangle(area)),
    }];
    shapes.extend(sheet.parts.iter().flat_map(|placed| shapes_of(&placed.part)));
    // A stable sort: within a layer the parts keep their order.
    shapes.sort_by_key(|s| s.layer);
    Drawing {
        title: format!(
            "{}: {} {:.1} mm",
            sheet.id, sheet.stock.name, sheet.stock.thickness
        ),
        notes: vec![
            "Edges are the parts' own: no allowance for bit or kerf is made.".to_owned(),
            "Cut marks first, then bores and openings, outlines last.".to_owned(),
        ],
        area,
        shapes,
    }
}

/// The marks of a part.
pub(crate) fn marks(part: &Part) -> impl Iterator<Item = Shape> + '_ {
    part.marks.iter().map(|m| {
        let open = |layer| Shape {
            layer,
            figure: Figure::Open(m.path.clone()),
        };
        match m.kind {
            MarkKind::Text => open(Layer::Text),
            MarkKind::Line | MarkKind::Chamfer { .. } => open(Layer::Mark),
            // A groove whose line bends too tightly for an edge is drawn as that line.
            MarkKind::Groove { .. } => match m.groove() {
                Some(Ok(room)) => Shape {
                    layer: Layer::Recess,
                    figure: Figure::Closed(room.outline),
                },
                _ => open(Layer::Mark),
            },
        }
    })
}

/// The lines of one part in its own frame, in the order in which to cut them.
pub fn shapes_of(part: &Part) -> Vec<Shape> {
    let closed = |layer, outline: &Outline| Shape {
        layer,
        figure: Figure::Closed(outline.clone()),
    };
    let marks = marks(part);
    let bores = part.bores.iter().map(|b| Shape {
        layer: Layer::Bore,
        figure: Figure::Circle {
            centre: b.centre,
            radius: b.diameter / 2.0,
        },
    });
    let recesses = part
        .recesses
        .iter()
        .flat_map(|r| std::iter::once(&r.outline).chain(&r.islands))
        .map(|o| closed(Layer::Recess, o));
    let openings = part.openings.iter().map(|o| closed(Layer::Opening, o));
    marks
        .chain(bores)
        .chain(recesses)
        .chain(openings)
        .chain([closed(Layer::Outline, &part.outline)])
        .collect()
}
