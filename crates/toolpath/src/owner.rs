//! The part whose edges are cut, and what stands near it.

use crate::setup::Setup;
use cintre_geometry::{Outline, Path};
use cintre_work::Placed;

/// The part whose edges are cut, and what stands near it.
pub(crate) struct Owner<'a> {
    pub(crate) name: &'a str,
    /// The outlines of others that stand so near that their cuts could take its tabs away.
    pub(crate) neighbours: Vec<&'a Outline>,
    /// Every edge of theirs.
    pub(crate) edges: Vec<&'a Outline>,
    /// Its own edges.
    pub(crate) own: Vec<&'a Outline>,
    /// Stretches of them on which no tab may stand.
    pub(crate) clean: &'a [Path],
}

impl<'a> Owner<'a> {
    pub(crate) fn of(placed: &'a Placed, parts: &'a [Placed], setup: &Setup<'_>) -> Self {
        // Two diameters: as far as a way in or out reaches.
        let near = setup.passing() + 2.0 * setup.tool.bit.diameter;
        let bounds = placed.part.outline.bounds().inflate(near, near);
        let others: Vec<&Placed> = parts
            .iter()
            .filter(|other| other.name != placed.name && other.part.outline.bounds().overlaps(bounds))
            .collect();
        let through = |o: &'a Placed| std::iter::once(&o.part.outline).chain(&o.part.openings);
        let recesses = placed.part.recesses.iter().map(|r| &r.outline);
        Self {
            name: &placed.name,
            neighbours: others.iter().map(|o| &o.part.outline).collect(),
            edges: others.into_iter().flat_map(through).collect(),
            own: through(placed).chain(recesses).collect(),
            clean: &placed.part.clean,
        }
    }
}
