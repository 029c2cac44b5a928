//! A rib's own edge.

use super::Input;
use crate::Error;
use cintre_geometry::{LineError, Outline, Path, Point, Vertex, parallel_line};

/// A rib, as it stands before anything is cut out of it.
#[derive(Debug)]
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
    pub(crate) fn new(input: &Input) -> Result<Self, Error> {
        let back = parallel_line(&input.soffit, input.lagging + input.skin).map_err(
            |LineError::TooFar { limit, .. }| Error::Lagging {
                given: input.lagging,
                skin: input.skin,
                limit: (limit - input.skin).max(0.0),
            },
        )?;
        let tie_top = back.start().y.min(back.end().y);
        let bottom = tie_top - input.tie;
        let outline = Outline::closing(&sides(&back, bottom).reversed());
        Ok(Self {
            back,
            bottom,
            tie_top,
            outline,
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

    /// The line that halves its width.
    pub(crate) fn centre(&self) -> f64 {
        f64::midpoint(self.back.start().x, self.back.end().x)
    }
}

fn sides(back: &Path, down_to: f64) -> Path {
    let under = |foot: Point| Vertex {
        point: Point::new(foot.x, down_to),
        bulge: 0.0,
    };
    let mut vertices = vec![under(back.start())];
    vertices.extend_from_slice(back.vertices());
    vertices.push(under(back.end()));
    Path::new(vertices)
}
