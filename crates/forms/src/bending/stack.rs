//! What a stack of strips keeps of its bend, and what each of them bears.

use super::{BendingError, Input, Springback, Wood};

/// The least radius of a strip's inner face over its thickness. Bent dry, most woods bear a strain of 1/120 at best and half of
/// a per cent with ease; out of the steam they go much farther, in a strap farther still.
const EASY: f64 = 100.0;
const DRY: f64 = 60.0;
const STEAMED: f64 = 10.0;
const STRAPPED: f64 = 5.0;

/// The least radii to which flat plywood bends, by its thickness, with the outer grain across the curve and along it, mm: the
/// usual table of feet and inches; a thickness between two rows is taken for the thicker. Thinner sheets go round less in proportion.
const PLY: [(f64, f64, f64); 5] = [
    (6.35, 609.6, 1524.0),
    (9.53, 914.4, 2438.4),
    (12.7, 1828.8, 3657.6),
    (15.88, 2438.4, 4876.8),
    (19.05, 3657.6, 6096.0),
];

/// A sheet called 1/4 in is taken for one up to this much over it, mm.
const NOMINAL: f64 = 0.05;

/// How well a strip goes round.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Grade {
    /// Without trouble.
    Easy,
    /// With clear wood and care.
    Marginal,
    /// Out of the steam, without a strap.
    Steamed,
    /// Out of the steam, in a strap.
    Strapped,
    /// As plywood of its thickness does.
    Ply,
}

/// What one strip bears on the form.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Strain {
    /// The tightest radius of its inner face, mm.
    pub radius: f64,
    /// That over its thickness.
    pub ratio: f64,
    /// How much its outer face is stretched against its middle, as a share: t / 2 over the radius of the middle.
    pub strain: f64,
    /// How well it goes round.
    pub grade: Grade,
}

/// The share of its bend that a stack of strips keeps, glued while bent and let go: 1 - Σt³ / (Σt)³, and so 1 - 1/n² for n strips
/// alike. Each strip alone would spring back with the stiffness of its own thickness; together they have that of the whole.
pub fn kept_by_layers(thicknesses: &[f64]) -> f64 {
    let total: f64 = thicknesses.iter().sum();
    let cubes: f64 = thicknesses.iter().map(|t| t.powi(3)).sum();
    1.0 - cubes / total.powi(3)
}

/// The share that the input's strips keep by what it says of springback.
pub(super) fn kept(input: &Input) -> Result<f64, BendingError> {
    match input.springback {
        Springback::Layers if input.strips.thicknesses.len() < 2 => Err(BendingError::OneLayer),
        Springback::Layers => Ok(kept_by_layers(&input.strips.thicknesses)),
        Springback::Measured(share) => Ok(share),
        Springback::None => Ok(1.0),
    }
}

/// What each strip bears where the middle line's greatest curvature is `tightest` to the right and to the left, 1/mm.
pub(super) fn strains(input: &Input, tightest: [f64; 2]) -> Result<Vec<Strain>, BendingError> {
    let strips = &input.strips;
    let mut inner = -strips.stack() / 2.0;
    let mut found = Vec::new();
    for (number, &thickness) in (1..).zip(&strips.thicknesses) {
        let outer = inner + thickness;
        // To the right the strips' inside lies on the inside of the bend, to the left their outside does.
        let radius = (tightest[0].recip() + inner).min(tightest[1].recip() - outer);
        found.push(strain(strips.wood, number, thickness, radius)?);
        inner = outer;
    }
    Ok(found)
}

/// What a strip `thickness` mm thick bears on a radius of `radius` mm.
pub(super) fn strain(wood: Wood, number: usize, thickness: f64, radius: f64) -> Result<Strain, BendingError> {
    let ratio = radius / thickness;
    let strain = thickness / (2.0 * radius + thickness);
    let (name, least) = match wood {
        Wood::Dry => ("wood bent dry", DRY),
        Wood::Steamed => ("steamed wood without a strap", STEAMED),
        Wood::Strapped => ("steamed wood in a strap", STRAPPED),
        Wood::PlyAlong | Wood::PlyAcross => return ply(wood, number, thickness, radius, strain),
    };
    if ratio < least {
        return Err(BendingError::Breaks {
            number,
            thickness,
            radius,
            ratio,
            strain,
            wood: name,
            least,
            thinner: radius / least,
            instead: match (wood, ratio) {
                (Wood::Dry, STEAMED..) => "steam bends it, with care and without a strap: `wood: steamed`",
                (Wood::Dry | Wood::Steamed, STRAPPED..) => {
                    "steam with an end-stop strap bends it: `wood: strapped`"
                }
                _ => "",
            },
        });
    }
    let grade = match wood {
        Wood::Steamed => Grade::Steamed,
        Wood::Strapped => Grade::Strapped,
        _ if ratio < EASY => Grade::Marginal,
        _ => Grade::Easy,
    };
    Ok(Strain {
        radius,
        ratio,
        strain,
        grade,
    })
}

fn ply(wood: Wood, number: usize, thickness: f64, radius: f64, strain: f64) -> Result<Strain, BendingError> {
    let (across, along) = ply_radii(thickness);
    let least = if wood == Wood::PlyAlong { along } else { across };
    if radius < least {
        let (first, to, _) = PLY[0];
        let rows = PLY.iter().filter(|(_, across, _)| *across <= radius);
        let thinner = rows
            .map(|(t, _, _)| *t)
            .fold(first * (radius / to).min(1.0), f64::max);
        return Err(BendingError::Ply {
            number,
            thickness,
            radius,
            across,
            along,
            thinner,
        });
    }
    Ok(Strain {
        radius,
        ratio: radius / thickness,
        strain,
        grade: Grade::Ply,
    })
}

/// The least radii of plywood with its outer grain across the curve and along it, mm.
pub(super) fn ply_radii(thickness: f64) -> (f64, f64) {
    let (first, across, along) = PLY[0];
    if thickness < first {
        return (across * thickness / first, along * thickness / first);
    }
    let row = PLY.iter().find(|(t, _, _)| thickness <= t + NOMINAL);
    row.map_or_else(
        || {
            let (last, across, along) = PLY[PLY.len() - 1];
            // The table's own rows grow by a little less than the square.
            let more = (thickness / last).powi(2);
            (across * more, along * more)
        },
        |&(_, across, along)| (across, along),
    )
}
