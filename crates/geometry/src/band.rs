//! The edge of a band: what a round cutter leaves beside its line.

use crate::{LineError, Outline, Path, Piece, Vertex, parallel_line};

/// The edge of the band of a width about an open line, clockwise as an opening's, with round ends about the line's own.
///
/// Its sides are the line's true parallels; refused where the line bends more tightly than half the width.
pub fn band(line: &Path, width: f64) -> Result<Outline, LineError> {
    let left = parallel_line(line, -width / 2.0)?;
    let right = parallel_line(line, width / 2.0)?.reversed();
    let cap = |from: &Path, to: &Path| Piece {
        start: from.end(),
        end: to.start(),
        bulge: -1.0,
    };
    let pieces: Vec<Piece> = left
        .pieces()
        .chain([cap(&left, &right)])
        .chain(right.pieces())
        .chain([cap(&right, &left)])
        .collect();
    let vertices = pieces.iter().map(|p| Vertex {
        point: p.start,
        bulge: p.bulge,
    });
    Ok(Outline::new(vertices.collect()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Point;
    use std::f64::consts::PI;

    #[test]
    fn a_straight_band_has_round_ends() {
        let line = Path::polyline(&[Point::new(3.0, 4.0), Point::new(103.0, 4.0)]);
        let edge = band(&line, 10.0).unwrap();
        assert!((edge.area() + 1000.0 + PI * 25.0).abs() < 1e-9, "clockwise");
        assert!((edge.bounds().x0 + 2.0).abs() < 1e-12 && (edge.bounds().x1 - 108.0).abs() < 1e-12);
    }

    #[test]
    fn a_bent_band_keeps_its_width_and_one_too_tight_is_refused() {
        let arc = Piece::arc(Point::ZERO, Point::new(50.0, 0.0), 1.2);
        let line = Path::from_pieces(&[arc]);
        let edge = band(&line, 8.0).unwrap();
        for piece in edge.pieces() {
            for k in 0..=4 {
                let off = line.nearest(piece.point_at(f64::from(k) / 4.0)).distance;
                assert!((off - 4.0).abs() < 1e-9);
            }
        }
        assert!(band(&line, 101.0).is_err());
    }
}
