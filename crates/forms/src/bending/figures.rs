//! The figures of a bending form.

use super::body::Body;
use super::clamping::Clamping;
use super::lines::{Lines, along, bend, middle, station};
use super::list::strip_middles;
use super::{Input, Seat, Side, Strain};
use crate::{Error, Figure};
use cintre_geometry::{Path, Soffit};

/// Places along a face whose x and y are told, its ends among them.
const STATIONS: u32 = 12;

/// What the figures, the notes and the picture are of.
pub(super) struct Shown<'a> {
    pub(super) input: &'a Input,
    pub(super) lines: &'a Lines,
    pub(super) strains: &'a [Strain],
    pub(super) clamping: &'a Clamping,
    pub(super) bodies: &'a [Body],
    pub(super) layers: usize,
    pub(super) height: f64,
}

impl Shown<'_> {
    pub(super) fn figures(&self) -> Result<Vec<Figure>, Error> {
        let mut figures = self.stack();
        figures.extend(self.bent()?);
        figures.extend(self.strips());
        figures.extend(self.body());
        Ok(figures)
    }

    /// The line that the arch gives, as it comes out of a form that was made to the finished shape.
    pub(super) fn open(&self) -> Result<Soffit, Error> {
        Ok(bend(self.input, self.lines.kept.recip(), -middle(self.input))?.line)
    }

    fn stack(&self) -> Vec<Figure> {
        let strips = &self.input.strips;
        vec![
            Figure::count("laminations", strips.thicknesses.len()),
            Figure::lengths("lamination thicknesses", strips.thicknesses.clone()),
            Figure::length("stack", strips.stack()),
            Figure::numbers("kept of its bend", vec![self.lines.kept]),
            Figure::lengths("radius inside each lamination", self.of_strains(|s| s.radius)),
            Figure::numbers("radius over thickness", self.of_strains(|s| s.ratio)),
            Figure::numbers("strain per cent", self.of_strains(|s| 100.0 * s.strain)),
        ]
    }

    fn of_strains(&self, of: impl Fn(&Strain) -> f64) -> Vec<f64> {
        self.strains.iter().map(of).collect()
    }

    fn bent(&self) -> Result<Vec<Figure>, Error> {
        let (input, lines) = (self.input, self.lines);
        let mut figures = Vec::new();
        for body in self.bodies {
            let [name, radii, points, across] = if body.side == Side::Female {
                [
                    "female face",
                    "female face radii",
                    "female face x and y",
                    "female face across its springings",
                ]
            } else {
                [
                    "male face",
                    "male face radii",
                    "male face x and y",
                    "male face across its springings",
                ]
            };
            let face = body.face.clone();
            if let Soffit::Path(_) = input.line {
                figures.push(Figure::radii(radii, circles(&face)));
            }
            figures.push(Figure::length(name, face.length()));
            figures.push(Figure::points(points, self.points(&face)));
            let [left, right] = lines.springings().map(|at| station(&face, at).0);
            figures.push(Figure::length(across, left.distance(right)));
        }
        let finished = bend(input, 1.0, 0.0)?;
        figures.push(Figure::degrees("piece turns", vec![-finished.turn.to_degrees()]));
        figures.push(Figure::degrees("form turns", vec![lines.turn.to_degrees()]));
        if input.side == Side::Pair {
            figures.push(Figure::length("slot between the faces", 2.0 * lines.off));
        }
        if lines.fit_error > 0.0 {
            figures.push(Figure::fine("fit error", lines.fit_error));
        }
        let open = self.open()?;
        if let Soffit::Path(path) = &open {
            figures.push(Figure::radii("opens without it to radii", circles(path)));
        }
        let wide = open.start().distance(open.end());
        figures.push(Figure::length("opens without it across its springings to", wide));
        let meant = input.line.start().distance(input.line.end());
        figures.push(Figure::length("meant across its springings", meant));
        Ok(figures)
    }

    /// x and y at even steps between the springings.
    fn points(&self, face: &Path) -> Vec<f64> {
        let [from, to] = self.lines.springings().map(|at| along(face, at));
        let at = |step: u32| from + (to - from) * f64::from(step) / f64::from(STATIONS);
        (0..=STATIONS)
            .map(|step| face.station(at(step)).0)
            .flat_map(|p| [p.x, p.y])
            .collect()
    }

    fn strips(&self) -> Vec<Figure> {
        let lines = self.lines;
        let middles = || strip_middles(self.input);
        vec![
            Figure::lengths(
                "strips between the springings",
                middles().map(|off| lines.length_at(off)).collect(),
            ),
            Figure::lengths(
                "strip lengths",
                middles().map(|off| lines.whole_length_at(off)).collect(),
            ),
            Figure::length("strip width", self.input.strips.sawn_width()),
        ]
    }

    fn body(&self) -> Vec<Figure> {
        let (input, clamping) = (self.input, self.clamping);
        let mut figures = vec![
            Figure::count("layers of the body", self.layers),
            Figure::length("height of the body", self.height),
            Figure::length("ligament", input.clamps.ligament),
        ];
        if let Seat::Holes(hole) = input.clamps.seat {
            figures.push(Figure::length("clamp holes", hole));
        }
        let staggers = self.bodies.iter().filter_map(|body| body.stagger);
        figures.extend(
            staggers
                .reduce(f64::min)
                .map(|by| Figure::length("joints staggered by", by)),
        );
        let segments = self.bodies.iter().map(|body| body.segments).max();
        if input.side == Side::Pair {
            figures.extend(segments.map(|n| Figure::count("segments of the female", n)));
        }
        figures.extend([
            Figure::count("clamps", clamping.clamps.len()),
            Figure::length("clamp spacing", clamping.spacing),
            Figure::length("clamps open at least", clamping.opening),
            Figure::length("clamps reach at least", self.height / 2.0),
        ]);
        figures
    }
}

/// The radius of every arc, from left to right.
fn circles(path: &Path) -> Vec<f64> {
    path.pieces()
        .filter_map(|p| p.circle())
        .map(|c| c.radius)
        .collect()
}
