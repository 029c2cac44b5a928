//! Where the bit does not follow the work: inside corners and cusps that it leaves wood in, outside ones that it rounds away.

use super::body::Body;
use super::{Guide, Input, TemplateError};
use cintre_geometry::{Leftover, Outline, Piece, Point, leftovers, parallel};
use cintre_work::{Grain, Part};

/// Less than this is no corner to a joiner, mm.
const NEGLIGIBLE: f64 = 1e-3;

/// How near the widest bit that leaves no more is found, mm.
const NEAR: f64 = 0.005;

/// A corner of the work.
#[derive(Clone, Debug)]
pub(super) struct Corner {
    /// Where it is.
    pub at: Point,
    /// What stands there, or what is gone.
    pub depth: f64,
}

/// Where the bit does not follow the work.
pub(super) struct Corners {
    /// What it leaves for the chisel, and the shape of each.
    pub left: Vec<(Corner, Option<Outline>)>,
    /// Points that come out round.
    pub rounded: Vec<Corner>,
}

impl Corners {
    pub(super) fn new(input: &Input, body: &Body) -> Result<Self, TemplateError> {
        refuse_bends(input, body)?;
        let bit = input.guide.bit;
        let mut left = Vec::new();
        for work in &body.work {
            for found in left_by(work, bit, body)? {
                let corner = Corner {
                    at: found.at,
                    depth: found.depth,
                };
                left.push((corner, found.piece(work)));
            }
        }
        if let Some((deepest, _)) = left.iter().max_by(|a, b| a.0.depth.total_cmp(&b.0.depth))
            && deepest.depth > input.chisel
        {
            return Err(TemplateError::Corner {
                bit,
                depth: deepest.depth,
                x: deepest.at.x,
                y: deepest.at.y,
                allowed: input.chisel,
                limit: widest(input, body),
            });
        }
        Ok(Self {
            left,
            rounded: rounded(input.guide, body),
        })
    }

    /// What is left, as pieces for a picture.
    pub(super) fn parts(&self, input: &Input) -> Vec<Part> {
        let piece = |i: usize, corner: &Corner, shape: &Outline| Part {
            name: format!(
                "left {}: {:.2} deep at ({:.1}, {:.1})",
                i + 1,
                corner.depth,
                corner.at.x,
                corner.at.y
            ),
            outline: shape.clone(),
            openings: Vec::new(),
            bores: Vec::new(),
            recesses: Vec::new(),
            marks: Vec::new(),
            clean: Vec::new(),
            stock: input.stock.clone(),
            thickness: input.thickness,
            grain: Grain::Free,
            count: 1,
            fit_error: input.fit_error,
        };
        let shapes = self.left.iter().enumerate();
        shapes
            .filter_map(|(i, (corner, shape))| Some(piece(i, corner, shape.as_ref()?)))
            .collect()
    }
}

/// What a bit leaves along one edge of the work.
fn left_by(work: &Outline, bit: f64, body: &Body) -> Result<Vec<Leftover>, TemplateError> {
    let centres = parallel(work, bit / 2.0)?;
    let all = leftovers(work, &centres, bit / 2.0);
    Ok(all.into_iter().filter(|l| body.on_line(l.at)).collect())
}

/// The widest bit that leaves no more in any corner than is allowed.
fn widest(input: &Input, body: &Body) -> Option<f64> {
    let deepest = |bit: f64| -> Option<f64> {
        let each = body.work.iter().map(|work| left_by(work, bit, body).ok());
        let each: Option<Vec<Vec<Leftover>>> = each.collect();
        Some(each?.iter().flatten().map(|l| l.depth).fold(0.0, f64::max))
    };
    let (mut works, mut fails) = (0.0, input.guide.bit);
    while fails - works > NEAR {
        let middle = f64::midpoint(works, fails);
        if deepest(middle).is_some_and(|depth| depth <= input.chisel) {
            works = middle;
        } else {
            fails = middle;
        }
    }
    (works > 0.0).then_some(works)
}

/// Refuses a bend that the bit does not go round, and one that leaves the template no radius.
fn refuse_bends(input: &Input, body: &Body) -> Result<(), TemplateError> {
    let Guide { bit, .. } = input.guide;
    let setback = input.guide.setback();
    let radii = |outwards: bool| {
        let bends = body.pieces().filter(move |piece| (piece.bulge > 0.0) == outwards);
        let drawn = bends.filter_map(|piece| piece.circle()).map(|c| c.radius);
        drawn
            .chain(exact(input, body, outwards))
            .fold(f64::INFINITY, f64::min)
    };
    let inside = radii(false);
    if inside < bit / 2.0 {
        return Err(TemplateError::Inside {
            radius: inside,
            bit,
            limit: 2.0 * inside,
        });
    }
    let outside = radii(true);
    if outside <= setback {
        return Err(TemplateError::Outside {
            setback,
            radius: outside,
            bit,
            limit: input.guide.at_setback(outside),
        });
    }
    Ok(())
}

/// The least radius of the exact curve, where it bends that way: arcs laid along it may have a longer one.
fn exact(input: &Input, body: &Body, outwards: bool) -> Option<f64> {
    use super::body::Lies;
    let turns_out = matches!(body.lies, Lies::Under | Lies::Within);
    (turns_out == outwards).then(|| input.least_radius - super::lines::Lines::inwards(&input.edge))
}

/// Outside corners, which the guide turns about: the work comes out round there by the setback.
fn rounded(guide: Guide, body: &Body) -> Vec<Corner> {
    let setback = guide.setback();
    if setback <= 0.0 {
        return Vec::new();
    }
    let mut found = Vec::new();
    for (work, template) in body.edges() {
        let pieces: Vec<Piece> = work.pieces().collect();
        for (before, after) in pieces.iter().zip(pieces.iter().cycle().skip(1)) {
            let at = after.start;
            let depth = template.nearest(at).distance - setback;
            if depth > NEGLIGIBLE && body.on_work(before, after) {
                found.push(Corner { at, depth });
            }
        }
    }
    found
}
