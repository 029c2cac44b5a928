//! A rib's own edge.

use super::Input;
use crate::Error;
use crate::line::{at_level, at_plumb, length_to};
use cintre_geometry::{LineError, Outline, Path, Point, Vertex, parallel_line};

/// A line that leaves its foot within this of plumb, or leaning inwards, may be cut off beside the jamb, as the sine of the angle.
const PLUMB: f64 = 1e-9;

/// A rib, as it stands before anything is cut out of it.
#[derive(Clone, Debug)]
pub(crate) struct Rib {
    /// Its back, the line that the lagging lies on: the soffit's parallel, from the left foot to the right.
    pub(crate) back: Path,
    /// The height of its level bottom.
    pub(crate) bottom: f64,
    /// The height of the tie's upper line: that of the lower foot.
    pub(crate) tie_top: f64,
    /// Its whole edge, counter-clockwise.
    pub(crate) outline: Outline,
}

impl Rib {
    /// The rib of an open soffit: its sides go plumb from its feet to a level bottom `tie` below the lower one.
    pub(crate) fn new(input: &Input, tie: f64) -> Result<Self, Error> {
        let back = clear_of_jambs(&input.soffit, input.clear.jambs, parallel(input)?);
        let tie_top = back.start().y.min(back.end().y);
        let bottom = tie_top - tie;
        let outline = Outline::closing(&sides(&back, bottom).reversed());
        Ok(Self {
            back,
            bottom,
            tie_top,
            outline,
        })
    }

    /// Half of a closed one: its level bottom lies `raised` over the ends of its soffit, its tie within it.
    pub(crate) fn half(input: &Input, tie: f64, raised: f64) -> Result<Self, Error> {
        let whole = parallel(input)?;
        let bottom = input.soffit.start().y + raised;
        let crossings = at_level(&whole, bottom);
        let (Some(first), Some(last)) = (crossings.first(), crossings.last()) else {
            return Err(Error::Halves {
                height: whole.bounds().y1 - input.soffit.start().y,
                raised,
            });
        };
        let back = whole.part(length_to(&whole, first), length_to(&whole, last));
        Ok(Self {
            outline: Outline::closing(&back.reversed()),
            back,
            bottom,
            tie_top: bottom + tie,
        })
    }

    /// The back with its plumb sides, down to a height below both feet.
    pub(crate) fn back_and_sides(&self, down_to: f64) -> Path {
        sides(&self.back, down_to)
    }

    /// Its width at its feet.
    pub(crate) fn width(&self) -> f64 {
        self.back.end().x - self.back.start().x
    }

    /// Its width at a height, where it reaches so high; that at its feet where it does not.
    pub(crate) fn width_at(&self, y: f64) -> f64 {
        let crossings = at_level(&self.back_and_sides(self.bottom), y);
        let ends = crossings.first().zip(crossings.last());
        ends.map_or_else(|| self.width(), |(a, b)| b.point.x - a.point.x)
    }

    /// The line that halves its width.
    pub(crate) fn centre(&self) -> f64 {
        f64::midpoint(self.back.start().x, self.back.end().x)
    }
}

fn parallel(input: &Input) -> Result<Path, Error> {
    parallel_line(&input.soffit, input.lagging.depth()).map_err(|LineError::TooFar { limit, .. }| {
        Error::Lagging {
            given: input.lagging.thickness,
            skin: input.lagging.skin,
            limit: (limit - input.lagging.skin).max(0.0),
        }
    })
}

/// The line cut off where it comes nearer than `clear` mm to a plumb jamb under its soffit.
pub(crate) fn clear_of_jambs(soffit: &Path, clear: f64, back: Path) -> Path {
    let (left, right) = (soffit.start().x + clear, soffit.end().x - clear);
    let leans =
        |piece: Option<cintre_geometry::Piece>, at: f64| piece.map_or(0.0, |piece| piece.tangent_at(at).x);
    let mut ends = (0.0, back.length());
    if back.start().x < left
        && leans(back.pieces().next(), 0.0) > -PLUMB
        && let Some(crossing) = at_plumb(&back, left).first()
    {
        ends.0 = length_to(&back, crossing);
    }
    if back.end().x > right
        && leans(back.pieces().last(), 1.0) > -PLUMB
        && let Some(crossing) = at_plumb(&back, right).last()
    {
        ends.1 = length_to(&back, crossing);
    }
    if ends.0 > 0.0 || ends.1 < back.length() {
        back.part(ends.0, ends.1)
    } else {
        back
    }
}

/// A back with its plumb sides, down to a height below both feet.
pub(crate) fn sides(back: &Path, down_to: f64) -> Path {
    let under = |foot: Point| Vertex {
        point: Point::new(foot.x, down_to),
        bulge: 0.0,
    };
    let mut vertices = vec![under(back.start())];
    vertices.extend_from_slice(back.vertices());
    vertices.push(under(back.end()));
    Path::new(vertices)
}
