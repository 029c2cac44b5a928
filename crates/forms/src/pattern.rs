//! A pattern: the arch's own shape in sheet, to mark from, to trim to or to hold up against the work.

use crate::error::at_least;
use crate::line::{heights_at, refuse_backwards};
use crate::marks::centre_line;
use crate::{Error, Figure, Form};
use cintre_geometry::{LineError, Outline, Path, parallel_line};
use cintre_work::{Caution, Grain, Part};

/// What a pattern is made from. Lengths in mm.
#[derive(Clone, Debug)]
pub struct Input {
    /// The arch's name.
    pub arch: String,
    /// Its soffit, from the left springing to the right one.
    pub soffit: Path,
    /// What the soffit's arcs are out by from the curve they were fitted to; 0 where it is arcs already.
    pub fit_error: f64,
    /// Which piece of the arch it is.
    pub piece: Piece,
    /// The stock's name.
    pub stock: String,
    /// The stock's real thickness.
    pub thickness: f64,
}

/// Which piece of an arch a pattern is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Piece {
    /// The ring, between the soffit and its true parallel outwards.
    Ring {
        /// How deep it is, square to the soffit.
        depth: f64,
    },
    /// What lies inside: under the soffit, closed by a straight line from springing to springing.
    Inside,
}

/// Makes a pattern.
///
/// A ring's ends are straight and square to the soffit; the back of a pointed one comes to a point. The grain runs along
/// x, so that no end is all short grain at the crown.
pub fn pattern(input: &Input) -> Result<Form, Error> {
    refuse_backwards(&input.soffit)?;
    at_least("stock", input.thickness, f64::MIN_POSITIVE)?;
    at_least("arch", input.fit_error, 0.0)?;
    let soffit = &input.soffit;
    let centre = soffit.start().midpoint(soffit.end()).x;
    let (name, outline, marks, mut figures) = match input.piece {
        Piece::Ring { depth } => {
            let back = back(soffit, depth)?;
            let crown = heights_at(soffit, centre).into_iter().reduce(f64::max);
            let marks = crown.map_or_else(Vec::new, |under| centre_line(centre, under, &back));
            let figures = vec![
                Figure::length("ring depth", depth),
                Figure::length("soffit length", soffit.length()),
                Figure::length("back length", back.length()),
            ];
            ("ring", between(soffit, &back), marks, figures)
        }
        Piece::Inside => {
            let under = soffit.start().midpoint(soffit.end()).y;
            let marks = centre_line(centre, under, soffit);
            let figures = vec![Figure::length("soffit length", soffit.length())];
            ("inside", Outline::closing(&soffit.reversed()), marks, figures)
        }
    };
    let bounds = outline.bounds();
    figures.push(Figure::length("pattern length", bounds.width()));
    figures.push(Figure::length("pattern height", bounds.height()));
    let part = Part {
        name: format!("{} {name}", input.arch),
        outline,
        openings: Vec::new(),
        bores: Vec::new(),
        recesses: Vec::new(),
        marks,
        stock: input.stock.clone(),
        thickness: input.thickness,
        grain: Grain::Along(0.0),
        count: 1,
        fit_error: input.fit_error,
    };
    Ok(Form {
        kind: "pattern",
        arch: input.arch.clone(),
        parts: vec![part],
        figures,
        cautions: Vec::<Caution>::new(),
        notes: notes(input.piece),
    })
}

/// The back of a ring `depth` deep.
fn back(soffit: &Path, depth: f64) -> Result<Path, Error> {
    at_least("ring", depth, f64::MIN_POSITIVE)?;
    parallel_line(soffit, -depth).map_err(|LineError::TooFar { given, limit }| Error::Ring { given, limit })
}

/// The piece between a soffit and its back, counter-clockwise: along the soffit and home over the back.
fn between(soffit: &Path, back: &Path) -> Outline {
    Outline::new([soffit.vertices(), back.reversed().vertices()].concat())
}

fn notes(piece: Piece) -> Vec<String> {
    vec![match piece {
        Piece::Ring { .. } => "its straight ends stand on the springings, square to the soffit".into(),
        Piece::Inside => "its straight edge is the springing line".into(),
    }]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::shapes;
    use cintre_geometry::{Piece as Arc, Point};
    use proptest::prelude::*;
    use std::f64::consts::PI;

    fn input(soffit: Path, piece: Piece) -> Input {
        Input {
            arch: "gate".into(),
            soffit,
            fit_error: 0.0,
            piece,
            stock: "mdf12".into(),
            thickness: 12.0,
        }
    }

    fn only_part(soffit: Path, piece: Piece) -> Part {
        pattern(&input(soffit, piece)).unwrap().parts.remove(0)
    }

    #[test]
    fn a_ring_has_the_area_between_its_circles() {
        let part = only_part(shapes::segmental(1000.0, 500.0), Piece::Ring { depth: 100.0 });
        let expected = PI * (600.0f64.powi(2) - 500.0f64.powi(2)) / 2.0;
        assert!((part.outline.area() - expected).abs() < 1e-6);
        assert_eq!(part.outline.vertices().len(), 4);
        assert_eq!(part.name, "gate ring");
        assert_eq!(part.marks.len(), 2);
    }

    #[test]
    fn a_pointed_ring_comes_to_a_point() {
        let part = only_part(shapes::pointed(900.0, 900.0), Piece::Ring { depth: 95.0 });
        let apex = (995.0f64.powi(2) - 450.0f64.powi(2)).sqrt();
        assert!((part.outline.bounds().y1 - apex).abs() < 1e-9);
        assert!(
            part.outline
                .vertices()
                .iter()
                .any(|v| v.point.x.abs() < 1e-9 && (v.point.y - apex).abs() < 1e-9)
        );
    }

    #[test]
    fn the_inside_is_closed_by_the_springing_line() {
        let part = only_part(shapes::segmental(1000.0, 500.0), Piece::Inside);
        assert!((part.outline.area() - PI * 500.0f64.powi(2) / 2.0).abs() < 1e-6);
        assert_eq!(part.outline.vertices().len(), 2);
    }

    #[test]
    fn what_folds_or_is_no_length_is_refused() {
        // It sags, as an eyebrow's ends do: its centre lies above it.
        let sagging = || {
            Path::from_pieces(&[Arc::arc(
                Point::new(0.0, 240.0),
                Point::new(-70.0, 0.0),
                0.567_588,
            )])
        };
        let Err(error @ Error::Ring { limit, .. }) = pattern(&input(sagging(), Piece::Ring { depth: 800.0 }))
        else {
            panic!("it folds");
        };
        assert!((limit - 250.0).abs() < 1e-5);
        assert_eq!(error.field(), "ring");
        let most = Piece::Ring { depth: limit - 0.001 };
        assert!(pattern(&input(sagging(), most)).is_ok());
        for depth in [0.0, -5.0, f64::NAN] {
            let refused = pattern(&input(shapes::segmental(900.0, 200.0), Piece::Ring { depth }));
            assert_eq!(refused.unwrap_err().field(), "ring");
        }
        let backwards = shapes::segmental(900.0, 200.0).reversed();
        assert!(matches!(
            pattern(&input(backwards, Piece::Inside)),
            Err(Error::Soffit { .. })
        ));
    }

    proptest! {
        #[test]
        fn a_ring_is_its_depth_everywhere_and_marks_lie_on_it(
            span in 300.0..3000.0f64, flat in 0.08..0.5f64, depth in 20.0..250.0f64, at in 0.0..1.0f64,
        ) {
            let soffit = shapes::segmental(span, span * flat);
            let part = only_part(soffit.clone(), Piece::Ring { depth });
            prop_assert!(part.outline.is_counter_clockwise());
            let back = part.outline.pieces().nth(2).unwrap().point_at(at);
            prop_assert!((soffit.nearest(back).distance - depth).abs() < 1e-7);
            for v in part.marks.iter().flat_map(|m| m.path.vertices()) {
                prop_assert!(part.outline.signed_distance(v.point) < 0.0);
            }
        }
    }
}
