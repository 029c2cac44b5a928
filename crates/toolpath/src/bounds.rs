//! Whether the cuts keep to the stock, the bed and the places left free.

use crate::Error;
use crate::cuts::OneCut;
use cintre_geometry::{Piece, Point, Rect};
use cintre_work::{Router, Sheet, To};

/// Wood that lies over the edge of its stock by less than this is rounding, mm.
const ROUNDING: f64 = 1e-6;

/// Points looked at along a cut stand this far apart, mm.
const STEP: f64 = 2.0;

/// Every part lies on its stock.
pub(crate) fn on_stock(sheet: &Sheet) -> Result<(), Error> {
    let (length, width) = sheet.stock.size;
    for placed in &sheet.parts {
        let by = over(placed.part.outline.bounds(), Rect::new(0.0, 0.0, length, width));
        if by > ROUNDING {
            return Err(Error::OffStock {
                part: placed.name.clone(),
                sheet: sheet.id.clone(),
                by,
            });
        }
    }
    Ok(())
}

/// The bit's centre stays over the bed, where the sheet's lower left corner is taken to lie on the bed's, and the bit
/// itself out of the places kept free.
pub(crate) fn on_bed(cut: &OneCut, router: &Router, radius: f64) -> Result<(), Error> {
    let (length, width) = router.bed;
    let pieces: Vec<Piece> = pieces(cut).collect();
    let bounds = pieces
        .iter()
        .fold(Rect::from_points(cut.start, cut.start), |all, p| {
            all.union(p.bounds())
        });
    let by = over(bounds, Rect::new(0.0, 0.0, length, width));
    if by > ROUNDING {
        return Err(Error::OffBed {
            part: cut.part.clone(),
            router: router.name.clone(),
            by,
            bed: router.bed,
        });
    }
    let touched = |p: &Point| router.keep_outs.iter().any(|k| distance(*k, *p) < radius);
    let near = router
        .keep_outs
        .iter()
        .any(|k| k.inflate(radius, radius).overlaps(bounds));
    match pieces.iter().filter(|_| near).flat_map(points).find(touched) {
        Some(at) => Err(Error::KeptOut {
            part: cut.part.clone(),
            at,
        }),
        None => Ok(()),
    }
}

fn pieces(cut: &OneCut) -> impl Iterator<Item = Piece> + '_ {
    cut.moves.iter().scan(cut.start, |from, step| {
        let bulge = if let To::Arc { bulge, .. } = step.to {
            bulge
        } else {
            0.0
        };
        let piece = Piece {
            start: *from,
            end: step.end,
            bulge,
        };
        *from = step.end;
        Some(piece)
    })
}

fn points(piece: &Piece) -> impl Iterator<Item = Point> + use<> {
    let piece = *piece;
    let length = piece.length();
    let mut along = 0.0;
    std::iter::from_fn(move || {
        (along <= length + STEP).then(|| {
            let fraction = if length > 0.0 {
                (along / length).min(1.0)
            } else {
                0.0
            };
            along += STEP;
            piece.point_at(fraction)
        })
    })
}

/// How far one box stands out of another at most, mm; negative within it.
fn over(inner: Rect, outer: Rect) -> f64 {
    (outer.x0 - inner.x0)
        .max(inner.x1 - outer.x1)
        .max(outer.y0 - inner.y0)
        .max(inner.y1 - outer.y1)
}

/// How far a point lies outside a box, mm.
fn distance(r: Rect, p: Point) -> f64 {
    p.distance(Point::new(p.x.clamp(r.x0, r.x1), p.y.clamp(r.y0, r.y1)))
}
