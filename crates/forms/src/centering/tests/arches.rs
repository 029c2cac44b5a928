//! Forty arches, of every shape and from 0.6 to 6 m.

use super::super::*;
use super::input;
use cintre_geometry::arch::{
    Arch, Camber, Catenary, Elliptical, Equilateral, FiveCentred, FiveCentredBy, FourCentred, FourCentredBy,
    Horseshoe, Ogee, Oval, Parabolic, Pointed, Rampant, Round, Segmental, Semicircular, Skewback, Stilted,
    ThreeCentred, ThreeCentredBy, Trefoil,
};
use cintre_geometry::measured::{As, Measured};
use cintre_geometry::{LineError, Point, parallel_line};

/// What every arch of a shape is made of, scaled by its span.
type Shape = (&'static str, fn(f64) -> Arch);

#[expect(clippy::too_many_lines, reason = "one arm a shape, and nothing else")]
fn shapes() -> Vec<Shape> {
    vec![
        ("segmental", |s| {
            Segmental {
                span: Some(s),
                rise: Some(0.2 * s),
                radius: None,
            }
            .arch()
            .unwrap()
        }),
        ("flat segment", |s| {
            Segmental {
                span: Some(s),
                rise: Some(0.06 * s),
                radius: None,
            }
            .arch()
            .unwrap()
        }),
        ("semicircular", |span| Semicircular { span }.arch().unwrap()),
        ("stilted", |s| {
            Stilted {
                span: s,
                stilt: 0.1 * s,
                arc_rise: None,
            }
            .arch()
            .unwrap()
        }),
        ("horseshoe", |s| {
            Horseshoe {
                span: s,
                rise: 0.65 * s,
            }
            .arch()
            .unwrap()
        }),
        ("camber", |s| {
            Camber {
                span: s,
                camber: Some(0.04 * s),
                depth: 0.25 * s,
                skewback: Skewback::Sixty,
            }
            .arch()
            .unwrap()
        }),
        ("three-centred", |s| {
            ThreeCentred {
                span: s,
                rise: 0.3 * s,
                by: ThreeCentredBy::LeastRatio,
            }
            .arch()
            .unwrap()
        }),
        ("five-centred", |s| {
            FiveCentred {
                span: s,
                rise: 0.32 * s,
                by: FiveCentredBy::MeanRadius,
            }
            .arch()
            .unwrap()
        }),
        ("four-centred", |s| {
            FourCentred {
                span: s,
                rise: 0.3 * s,
                by: FourCentredBy::TwoThirds,
            }
            .arch()
            .unwrap()
        }),
        ("pointed", |s| {
            Pointed {
                span: Some(s),
                rise: Some(0.7 * s),
                radius: None,
            }
            .arch()
            .unwrap()
        }),
        ("equilateral", |span| Equilateral { span }.arch().unwrap()),
        ("ogee", |s| {
            Ogee {
                span: s,
                rise: 0.8 * s,
                lower_radius: 0.45 * s,
            }
            .arch()
            .unwrap()
        }),
        ("elliptical", |s| {
            Elliptical {
                span: s,
                rise: 0.3 * s,
            }
            .arch()
            .unwrap()
        }),
        ("parabolic", |s| {
            Parabolic {
                span: s,
                rise: 0.4 * s,
            }
            .arch()
            .unwrap()
        }),
        ("catenary", |s| {
            Catenary {
                span: s,
                rise: 0.5 * s,
            }
            .arch()
            .unwrap()
        }),
        ("rampant", |s| {
            Rampant {
                span: s,
                springing_difference: 0.2 * s,
                rise: None,
            }
            .arch()
            .unwrap()
        }),
        ("round", |diameter| Round { diameter }.arch().unwrap()),
        ("oval", |s| {
            Oval {
                width: s,
                height: 0.8 * s,
            }
            .arch()
            .unwrap()
        }),
        ("trefoil", |s| {
            Trefoil {
                span: s,
                rise: 0.7 * s,
                lobe_radius: 0.28 * s,
                lobe_height: 0.1 * s,
            }
            .arch()
            .unwrap()
        }),
        ("measured", |s| {
            let heights = [
                0.0, 0.081, 0.135, 0.168, 0.189, 0.194, 0.1893, 0.1677, 0.1353, 0.0807, 0.0,
            ];
            let points = (0..11)
                .zip(heights)
                .map(|(i, y)| Point::new(s * (f64::from(i) / 10.0 - 0.5), y * s));
            Measured {
                points: points.collect(),
                laid: As::Curve,
            }
            .survey()
            .unwrap()
            .arch
        }),
    ]
}

/// Every shape at two sizes, so that small ones and large ones of each shape are there: forty.
pub(super) fn forty() -> Vec<(String, Input)> {
    let sizes = [
        [600.0, 2600.0],
        [800.0, 3000.0],
        [1000.0, 3600.0],
        [1250.0, 4400.0],
        [1700.0, 6000.0],
    ];
    let arches = shapes()
        .into_iter()
        .enumerate()
        .flat_map(|(i, (name, arch))| sizes[i % sizes.len()].map(|span| (name, span, arch(span))));
    arches
        .map(|(name, span, arch)| {
            let fit = arch.soffit.fit(0.02);
            let depth = (span / 12.0).max(100.0);
            let back = match parallel_line(&fit.path, -depth) {
                Ok(back) => back,
                Err(LineError::TooFar { limit, .. }) => parallel_line(&fit.path, -limit * 0.9).unwrap(),
            };
            let asked = Input {
                fit_error: fit.worst_error,
                ring: Some(Ring {
                    depth,
                    back,
                    joints: Vec::new(),
                }),
                wall: 440.0,
                build: (span > 4000.0 && name.contains("centred")).then_some(Build::Gusseted),
                lagging: Lagging {
                    // A small segment on a turning piece needs no boards.
                    thickness: if name == "flat segment" && span < 1000.0 {
                        0.0
                    } else {
                        18.0
                    },
                    ..input(fit.path.clone()).lagging
                },
                split: name == "horseshoe" || name == "trefoil",
                lifting_holes: None,
                ..input(fit.path)
            };
            (format!("{name} {span}"), asked)
        })
        .collect()
}
