//! How many blocks a sheet's programs take, held against what its design asks for.

use cintre_geometry::{Outline, Piece, Point};
use cintre_toolpath::{Passes, Plan};
use cintre_work::{Bit, BitKind, Move, Router, Sheet, To};

/// A move whose middle is this near to the parallel of an edge runs along it, mm.
const ON_THE_ROAD: f64 = 0.01;

/// Pieces whose directions differ by more than this meet in a corner, radians.
const CORNER: f64 = 1e-3;

/// The bulge of half a turn, but for rounding.
const HALF_TURN: f64 = 1.0 - 1e-9;

/// The blocks of the straight bits that cut a sheet.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Blocks {
    /// The lines and arcs of openings and outlines, in every pass.
    pub(crate) edges: usize,
    /// The arcs that take the bit round their outer corners, in every pass.
    pub(crate) corners: usize,
    /// Ways in, out and over, and bores by helix, as they are.
    pub(crate) ways: usize,
    /// Three for each tab and pass below its top.
    pub(crate) tabs: usize,
    /// One for each piece that a tab parts, or a way in or out, and for each half turn, which goes out as two arcs.
    pub(crate) splits: usize,
    /// What stands in the files.
    pub(crate) written: usize,
}

impl Blocks {
    /// Of a sheet that is planned without finishing laps or a web; `files` are the straight bits' programs as written.
    pub(crate) fn of(sheet: &Sheet, plan: &Plan, router: &Router, bits: &[Bit], files: &[&str]) -> Self {
        let mut blocks = Self {
            written: files.iter().map(|text| motions(text)).sum(),
            ..Self::default()
        };
        let edges: Vec<&Outline> = sheet
            .parts
            .iter()
            .flat_map(|p| std::iter::once(&p.part.outline).chain(&p.part.openings))
            .collect();
        let straight = |name: &str| {
            bits.iter()
                .find(|b| b.name == name && b.kind == BitKind::Straight)
        };
        for program in &plan.programs {
            let Some(bit) = straight(&program.bit) else {
                continue;
            };
            let cut = edges.iter().filter(|edge| runs_along(&program.moves, edge, bit));
            let passes = Passes::of(
                sheet.stock.thickness + router.through,
                bit.feeds[&sheet.stock.material].depth,
            );
            let count = usize::try_from(passes.count).unwrap_or_default();
            for edge in cut {
                blocks.edges += edge.pieces().len() * count;
                blocks.corners += corners(edge) * count;
                // Where it begins a pass, and where it ends the ramp or has run past the beginning.
                blocks.splits += 2 * count;
            }
            blocks.splits += pairs(&program.moves)
                .filter(|(piece, ..)| piece.bulge.abs() > HALF_TURN)
                .count();
            blocks.ways += ways(&program.moves, &edges, bit.diameter / 2.0);
            let below = |top: f64| passes.floors().filter(|floor| *floor < top - 1e-9).count();
            let each = plan
                .tabs
                .iter()
                .map(|tab| below(tab.height - sheet.stock.thickness));
            let tabs: usize = each.sum();
            blocks.tabs += 3 * tabs;
            blocks.splits += tabs;
        }
        blocks
    }

    /// What the design asks for.
    pub(crate) const fn asked(&self) -> usize {
        self.edges + self.corners + self.ways + self.tabs + self.splits
    }
}

/// The lines of a program that move the bit.
fn motions(text: &str) -> usize {
    let moves = |line: &&str| {
        let mut words = line
            .split(' ')
            .filter(|w| !w.starts_with(['N', 'G']) || w.len() <= 3);
        !line.starts_with('(') && words.any(|w| w.starts_with(['X', 'Y', 'Z']))
    };
    text.lines().filter(moves).count()
}

/// Whether a bit runs along an edge somewhere below the face.
fn runs_along(moves: &[Move], edge: &Outline, bit: &Bit) -> bool {
    pairs(moves).any(|(piece, z, _)| z < 0.0 && on_the_road(&piece, edge, bit.diameter / 2.0))
}

/// Moves that are no part of a pass along an edge: above the face, or off every edge's parallel.
fn ways(moves: &[Move], edges: &[&Outline], radius: f64) -> usize {
    let along = |piece: &Piece| edges.iter().any(|edge| on_the_road(piece, edge, radius));
    // A loop on the way down shares half a radius with the road.
    let in_a_loop = |piece: &Piece| piece.length() > 0.0 && piece.length() < 0.6 * radius;
    let is_way =
        |(piece, z, to): &(Piece, f64, To)| *to == To::Rapid || *z > 0.0 || in_a_loop(piece) || !along(piece);
    1 + pairs(moves).filter(is_way).count()
}

fn on_the_road(piece: &Piece, edge: &Outline, radius: f64) -> bool {
    let middle = piece.point_at(0.5);
    edge.bounds().inflate(2.0 * radius, 2.0 * radius).contains(middle)
        && (edge.nearest(middle).distance - radius).abs() < ON_THE_ROAD
}

/// Each move but the first as a piece, with the height that it ends at.
fn pairs(moves: &[Move]) -> impl Iterator<Item = (Piece, f64, To)> + '_ {
    moves.windows(2).map(|pair| {
        let bulge = if let To::Arc { bulge, .. } = pair[1].to {
            bulge
        } else {
            0.0
        };
        let (start, end): (Point, Point) = (pair[0].end, pair[1].end);
        (Piece { start, end, bulge }, pair[1].z, pair[1].to)
    })
}

/// Corners that a bit goes round with the wood on its left.
fn corners(edge: &Outline) -> usize {
    let pieces: Vec<Piece> = edge.pieces().collect();
    let turns = |i: usize| {
        let (one, two) = (pieces[i], pieces[(i + 1) % pieces.len()]);
        one.tangent_at(1.0).cross(two.tangent_at(0.0)) > CORNER
    };
    (0..pieces.len()).filter(|i| turns(*i)).count()
}
