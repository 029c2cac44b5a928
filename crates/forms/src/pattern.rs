//! A pattern: the arch's own shape in sheet, to mark from, to trim to or to hold up against the work.

use crate::error::at_least;
use crate::line::{heights_at, refuse_backwards};
use crate::marks::{self, NO_ROOM, centre_line};
use crate::{Error, Figure, Form};
use cintre_geometry::{LineError, Outline, Path, Point, Vec2, parallel_line};
use cintre_work::{Grain, Mark, Part};

/// How far letters keep from an edge, mm.
const CLEAR: f64 = 3.0;

/// And from the centre line, mm.
const BESIDE: f64 = 8.0;

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
    Inside {
        /// What a leaf stands clear of the soffit and of plumb jambs under its ends; none where it fills the opening.
        gap: Option<f64>,
    },
}

/// Makes a pattern.
///
/// A ring's ends are straight and square to the soffit; the back of a pointed one comes to a point. The grain runs along
/// x, so that no end is all short grain at the crown.
pub fn pattern(input: &Input) -> Result<Form, Error> {
    refuse_backwards(&input.soffit)?;
    at_least("stock", input.thickness, f64::MIN_POSITIVE)?;
    at_least("arch", input.fit_error, 0.0)?;
    let shape = Shape::new(input)?;
    let name = format!("{} {}", input.arch, shape.name);
    let mut marks = shape.centre_line();
    let mut notes = vec![shape.note.to_owned()];
    match shape.letters(&name)? {
        Some(letters) => marks.extend(letters),
        None => notes.push(NO_ROOM.to_owned()),
    }
    let figures = shape.figures(input);
    let part = Part {
        name,
        outline: shape.outline,
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
        // A pattern only shows a shape; what cuts it has its own cautions.
        cautions: Vec::new(),
        notes,
    })
}

/// A pattern's edge, and the two lines that it lies between.
struct Shape {
    name: &'static str,
    note: &'static str,
    lower: Path,
    upper: Path,
    outline: Outline,
}

impl Shape {
    fn new(input: &Input) -> Result<Self, Error> {
        let soffit = input.soffit.clone();
        Ok(match input.piece {
            Piece::Ring { depth } => {
                let upper = back(&soffit, depth)?;
                Self {
                    name: "ring",
                    note: "its straight ends stand on the springings, square to the soffit",
                    outline: between(&soffit, &upper),
                    lower: soffit,
                    upper,
                }
            }
            Piece::Inside { gap: None } => {
                Self::under(soffit, "inside", "its straight edge is the springing line")
            }
            Piece::Inside { gap: Some(gap) } => Self::under(
                leaf_head(&soffit, gap)?,
                "leaf",
                "its straight edge is the leaf's own springing, which need not be level with the soffit's: mark it from \
                 the crown",
            ),
        })
    }

    /// What a line and the straight one between its ends enclose.
    fn under(upper: Path, name: &'static str, note: &'static str) -> Self {
        Self {
            name,
            note,
            lower: Path::polyline(&[upper.start(), upper.end()]),
            outline: Outline::closing(&upper.reversed()),
            upper,
        }
    }

    /// The middle between the springings.
    fn centre(&self) -> f64 {
        self.lower.start().midpoint(self.lower.end()).x
    }

    fn centre_line(&self) -> Vec<Mark> {
        let under = highest_at(&self.lower, self.centre());
        under.map_or_else(Vec::new, |under| centre_line(self.centre(), under, &self.upper))
    }

    /// The name, to the right of the centre line and half way up.
    fn letters(&self, name: &str) -> Result<Option<Vec<Mark>>, Error> {
        let middle = |width: f64| {
            let x = self.centre() + BESIDE + width / 2.0;
            let (under, over) = (highest_at(&self.lower, x)?, highest_at(&self.upper, x)?);
            Some(Point::new(x, f64::midpoint(under, over)))
        };
        marks::name(name, middle, |p| self.outline.signed_distance(p) < -CLEAR)
    }

    fn figures(&self, input: &Input) -> Vec<Figure> {
        let bounds = self.outline.bounds();
        let mut figures = vec![Figure::length("soffit length", input.soffit.length())];
        if let Piece::Ring { depth } = input.piece {
            figures.push(Figure::length("ring depth", depth));
            figures.push(Figure::length("back length", self.upper.length()));
        }
        if let Piece::Inside { gap: Some(gap) } = input.piece {
            figures.push(Figure::length("gap", gap));
            figures.extend(self.leaf_figures(input));
        }
        if input.fit_error > 0.0 {
            figures.push(Figure::fine("fit error", input.fit_error));
        }
        figures.push(Figure::length("pattern length", bounds.width()));
        figures.push(Figure::length("pattern height", bounds.height()));
        figures
    }

    fn leaf_figures(&self, input: &Input) -> Vec<Figure> {
        let foot = self.upper.start();
        let mut figures = vec![
            Figure::length("leaf width at its foot", foot.distance(self.upper.end())),
            Figure::length("foot below the springing", input.soffit.start().y - foot.y),
        ];
        // Arcs laid along another curve are no radii to strike by.
        if input.fit_error <= 0.0 {
            let circles = self.upper.pieces().filter_map(|arc| arc.circle());
            figures.push(Figure::radii("leaf radii", circles.map(|c| c.radius).collect()));
        }
        figures
    }
}

fn highest_at(line: &Path, x: f64) -> Option<f64> {
    heights_at(line, x).into_iter().reduce(f64::max)
}

/// The back of a ring `depth` deep.
fn back(soffit: &Path, depth: f64) -> Result<Path, Error> {
    at_least("ring", depth, f64::MIN_POSITIVE)?;
    parallel_line(soffit, -depth).map_err(|LineError::TooFar { given, limit }| Error::Ring { given, limit })
}

/// The curved top of a leaf `gap` inside soffit and jambs, between its own springings.
///
/// It is the soffit's parallel, so every radius is the soffit's own less the gap, from the same centre, and the leaf is two
/// gaps narrower than the opening. Where the soffit leans at its springings, the parallels of soffit and jambs meet below
/// them: the leaf's springing drops. (One struck anew through a narrower span with the old radius has no gap at the crown.)
fn leaf_head(soffit: &Path, gap: f64) -> Result<Path, Error> {
    at_least("gap", gap, f64::MIN_POSITIVE)?;
    // Far longer than the springings can drop.
    let down = Vec2::new(0.0, -soffit.length());
    let up_the_jamb = Path::polyline(&[soffit.start() + down, soffit.start()]);
    let down_the_other = Path::polyline(&[soffit.end(), soffit.end() + down]);
    let opening = up_the_jamb.then(soffit).then(&down_the_other);
    let inside = parallel_line(&opening, gap)
        .map_err(|LineError::TooFar { given, limit }| Error::Gap { given, limit })?;
    let head: Vec<_> = inside.pieces().collect();
    Ok(Path::from_pieces(&head[1..head.len() - 1]))
}

/// The piece between a soffit and its back, counter-clockwise: along the soffit and home over the back.
fn between(soffit: &Path, back: &Path) -> Outline {
    Outline::new([soffit.vertices(), back.reversed().vertices()].concat())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::shapes;
    use cintre_geometry::Piece as Arc;
    use cintre_work::MarkKind;
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

    fn lines(part: &Part) -> usize {
        part.marks.iter().filter(|m| m.kind == MarkKind::Line).count()
    }

    #[test]
    fn a_name_without_room_is_said_not_dropped() {
        let thin = input(shapes::segmental(300.0, 60.0), Piece::Ring { depth: 8.0 });
        let form = pattern(&thin).unwrap();
        assert_eq!(form.parts[0].marks.len(), lines(&form.parts[0]));
        assert!(form.notes.iter().any(|note| note == NO_ROOM));
    }

    #[test]
    fn a_ring_has_the_area_between_its_circles() {
        let part = only_part(shapes::segmental(1000.0, 500.0), Piece::Ring { depth: 100.0 });
        let expected = PI * (600.0f64.powi(2) - 500.0f64.powi(2)) / 2.0;
        assert!((part.outline.area() - expected).abs() < 1e-6);
        assert_eq!(part.outline.vertices().len(), 4);
        assert_eq!(part.name, "gate ring");
        assert_eq!(lines(&part), 2);
        assert!(part.marks.len() > 9, "it bears its name");
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
        let part = only_part(shapes::segmental(1000.0, 500.0), Piece::Inside { gap: None });
        assert!((part.outline.area() - PI * 500.0f64.powi(2) / 2.0).abs() < 1e-6);
        assert_eq!(part.outline.vertices().len(), 2);
    }

    fn figure(form: &Form, name: &str) -> Vec<f64> {
        let found = form.figures.iter().find(|figure| figure.name == name);
        found.unwrap_or_else(|| panic!("no {name}")).values.clone()
    }

    fn leaf(soffit: Path, gap: f64) -> Form {
        pattern(&input(soffit, Piece::Inside { gap: Some(gap) })).unwrap()
    }

    #[test]
    fn a_leaf_is_struck_from_the_soffits_own_centre() {
        // Span 1220, rise 260: radius 845.577, its centre 585.577 below the springing.
        let form = leaf(shapes::segmental(1220.0, 260.0), 6.0);
        let radius: f64 = (610.0f64.powi(2) + 260.0f64.powi(2)) / 520.0;
        let centre = 260.0 - radius;
        let upper = form.parts[0]
            .outline
            .pieces()
            .find_map(|arc| arc.circle())
            .unwrap();
        assert!((upper.radius - (radius - 6.0)).abs() < 1e-9);
        assert!(upper.centre.distance(Point::new(0.0, centre)) < 1e-9);
        assert!((figure(&form, "leaf width at its foot")[0] - 1208.0).abs() < 1e-9);
        assert_eq!(figure(&form, "gap"), [6.0]);
        // It springs where its arc is two gaps narrower than the opening, below the opening's springing.
        let springs = ((radius - 6.0).powi(2) - 604.0f64.powi(2)).sqrt() + centre;
        assert!(springs < 0.0 && (figure(&form, "foot below the springing")[0] + springs).abs() < 1e-9);
        assert!(
            (form.parts[0].outline.bounds().y1 - 254.0).abs() < 1e-9,
            "the gap is there at the crown"
        );
        // A leaf worked anew from its own span and the opening's radius would stand right up against the crown.
        assert!((figure(&form, "leaf radii")[0] - radius).abs() > 5.9);
    }

    #[test]
    fn a_leaf_under_plumb_springings_keeps_them_level() {
        let half = leaf(shapes::stilted(900.0, 300.0), 10.0);
        assert!(figure(&half, "foot below the springing")[0].abs() < 1e-9);
        assert_eq!(figure(&half, "leaf radii").len(), 1);
        assert!((figure(&half, "leaf radii")[0] - 440.0).abs() < 1e-9);
        let pointed = leaf(shapes::pointed(900.0, 900.0), 10.0);
        let apex = (890.0f64.powi(2) - 450.0f64.powi(2)).sqrt();
        assert!((pointed.parts[0].outline.bounds().y1 - apex).abs() < 1e-9);
        assert!((figure(&pointed, "leaf width at its foot")[0] - 880.0).abs() < 1e-9);
        let horseshoe = leaf(shapes::segmental(900.0, 620.0), 10.0);
        assert!(figure(&horseshoe, "foot below the springing")[0] < 0.0);
        assert!((figure(&horseshoe, "leaf width at its foot")[0] - 880.0).abs() < 1e-9);
    }

    #[test]
    fn a_gap_past_the_least_radius_is_refused_with_the_largest() {
        let three = || shapes::three_centred(1200.0, 400.0);
        let soffit = three();
        let least = soffit.pieces().filter_map(|arc| arc.circle()).map(|c| c.radius);
        let least = least.fold(f64::INFINITY, f64::min);
        let wide = pattern(&input(
            three(),
            Piece::Inside {
                gap: Some(least + 5.0),
            },
        ));
        let Err(error @ Error::Gap { given, limit }) = wide else {
            panic!("its haunches have no radius left")
        };
        assert_eq!((error.field(), given), ("gap", least + 5.0));
        assert!((limit - least).abs() < 1e-4, "{limit} is not {least}");
        let _ = leaf(three(), limit - 1e-3);
        for gap in [0.0, -3.0, f64::NAN] {
            let refused = pattern(&input(three(), Piece::Inside { gap: Some(gap) }));
            assert_eq!(refused.unwrap_err().field(), "gap");
        }
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
            pattern(&input(backwards, Piece::Inside { gap: None })),
            Err(Error::Soffit { .. })
        ));
    }

    proptest! {
        #[test]
        fn a_leaf_keeps_its_gap_all_round(span in 300.0..3000.0f64, flat in 0.08..0.7f64, gap in 1.0..25.0f64, at in 0.0..1.0f64) {
            let soffit = shapes::segmental(span, span * flat);
            let form = leaf(soffit.clone(), gap);
            let part = &form.parts[0];
            prop_assert!(part.outline.is_counter_clockwise());
            prop_assert!((part.outline.pieces().last().unwrap().length() - (span - 2.0 * gap)).abs() < 1e-7);
            let head = part.outline.pieces().next().unwrap().point_at(at);
            let clear = soffit.nearest(head).distance;
            prop_assert!(clear >= gap - 1e-7);
            if flat <= 0.5 {
                prop_assert!((clear - gap).abs() < 1e-7);
            }
        }

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
