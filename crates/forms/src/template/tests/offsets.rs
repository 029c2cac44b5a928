//! Offsets of every shape, by every guide, on either side, measured by a way of their own.

use super::super::{Guide, GuideKind, Run};
use super::{Input, every_shape, figure, input, made, ring};
use cintre_geometry::{Outline, Path, Piece, Point, Soffit};

/// How far an offset may be out, mm.
const CLOSE: f64 = 1e-3;

/// Farther from the line than this is the template's own edge, mm: no guide that is tried stands so far off.
const OWN: f64 = 25.0;

/// Bushes and bearings, wider than their bit, as wide, and narrower.
const GUIDES: [Guide; 5] = [
    guide(GuideKind::Bush, 30.0, 12.7),
    guide(GuideKind::Bush, 16.0, 8.0),
    guide(GuideKind::Bush, 40.0, 10.0),
    guide(GuideKind::Bearing, 19.0, 19.0),
    guide(GuideKind::Bearing, 12.7, 19.0),
];

const fn guide(kind: GuideKind, diameter: f64, bit: f64) -> Guide {
    Guide { kind, diameter, bit }
}

/// How far a point lies from a line or an arc, by its ends and its circle worked anew; and whether the foot lies within it.
fn to_piece(piece: &Piece, p: Point) -> (f64, bool) {
    let (a, b) = (piece.start, piece.end);
    let ends = p.distance(a).min(p.distance(b));
    let chord = b - a;
    if piece.bulge.abs() < 1e-12 {
        let t = (p - a).dot(chord) / chord.hypot2();
        return if (0.0..=1.0).contains(&t) {
            (p.distance(a + chord * t), true)
        } else {
            (ends, false)
        };
    }
    // tan(s/4) = bulge: the centre stands over the chord's middle by c (1 - b²) / (4 b).
    let up = chord.hypot() * (1.0 - piece.bulge.powi(2)) / (4.0 * piece.bulge);
    let centre = a.midpoint(b) + cintre_geometry::Vec2::new(-chord.y, chord.x).normalize() * up;
    let (u, v) = (a - centre, p - centre);
    let turn = u.cross(v).atan2(u.dot(v)).rem_euclid(std::f64::consts::TAU);
    let turn = if piece.bulge > 0.0 {
        turn
    } else {
        std::f64::consts::TAU - turn
    };
    if turn <= 4.0 * piece.bulge.abs().atan() {
        ((v.hypot() - u.hypot()).abs(), true)
    } else {
        (ends, false)
    }
}

/// How far a point lies from a line, and whether its foot is not the line's very end.
fn to_line(line: &Path, p: Point) -> (f64, bool) {
    let pieces: Vec<Piece> = line.pieces().collect();
    let all = pieces.iter().map(|piece| to_piece(piece, p));
    let (nearest, _) = all.min_by(|a, b| a.0.total_cmp(&b.0)).expect("a line has pieces");
    let closed = line.start().distance(line.end()) < 1e-9;
    let at_end = [line.start(), line.end()]
        .iter()
        .any(|end| (end.distance(p) - nearest).abs() < 1e-9);
    (nearest, closed || !at_end)
}

/// How far a point lies from an exact curve, searched for along it.
fn to_curve(soffit: &Soffit, line: &Path, p: Point) -> f64 {
    let Soffit::Curve(curve) = soffit else {
        return to_line(line, p).0;
    };
    let (from, to) = curve.domain();
    let off = |t: f64| curve.point(t).distance(p);
    let step = (to - from) / 400.0;
    let mut stations: Vec<f64> = (0..=400).map(|k| from + step * f64::from(k)).collect();
    stations.sort_by(|a, b| off(*a).total_cmp(&off(*b)));
    // A closed curve has its seam anywhere: the nearest few stations have the foot among them.
    let refined = stations[..4].iter().map(|near| {
        let (mut low, mut high) = ((near - step).max(from), (near + step).min(to));
        for _ in 0..60 {
            let (a, b) = (low + (high - low) / 3.0, high - (high - low) / 3.0);
            if off(a) < off(b) { high = b } else { low = a }
        }
        off(f64::midpoint(low, high))
    });
    refined.fold(f64::INFINITY, f64::min)
}

fn along(pieces: impl Iterator<Item = Piece>) -> Vec<Point> {
    let fractions = [0.0, 0.13, 0.5, 0.71];
    pieces
        .flat_map(|piece| fractions.map(|f| piece.point_at(f)))
        .collect()
}

/// Every point of the template beside the line stands off it by the setback, and every point of the line has one.
#[track_caller]
fn holds(what: &str, input: &Input, lines: &[&Path], exact: Option<&Soffit>) {
    let form = made(input);
    let part = &form.parts[0];
    let edges: Vec<&Outline> = std::iter::once(&part.outline).chain(&part.openings).collect();
    let setback = input.guide.setback().abs();
    let mut beside = 0;
    for p in edges.iter().flat_map(|edge| along(edge.pieces())) {
        let near = lines.iter().map(|line| (to_line(line, p), line));
        let ((off, within), line) = near
            .min_by(|a, b| a.0.0.total_cmp(&b.0.0))
            .expect("there is a line");
        // What runs on past the work, or is the template's own edge, is no parallel of the work.
        if !within || off > OWN {
            continue;
        }
        beside += 1;
        assert!(
            (off - setback).abs() < CLOSE,
            "{what}: {off} from the line at {p}, not {setback}"
        );
        if let Some(soffit) = exact {
            let off = to_curve(soffit, line, p);
            assert!(
                (off - setback).abs() < CLOSE + input.fit_error,
                "{what}: {off} from the curve at {p}"
            );
        }
    }
    assert!(
        beside >= 2,
        "{what}: {beside} points of the template lie beside the line"
    );
    let rounded = figure(&form, "lost at its points");
    for p in lines.iter().flat_map(|line| along(line.pieces())) {
        let off = edges
            .iter()
            .flat_map(|edge| {
                edge.pieces()
                    .map(|piece| to_piece(&piece, p).0)
                    .collect::<Vec<_>>()
            })
            .fold(f64::INFINITY, f64::min);
        // A bearing narrower than its bit stands off farther in an inside corner, where neither comes.
        if input.guide.setback() < 0.0 && lines.iter().any(|line| near_corner(line, p)) {
            continue;
        }
        let lost = rounded.iter().copied().fold(0.0, f64::max);
        assert!(
            off > setback - CLOSE && off < setback + lost + CLOSE,
            "{what}: {off} at {p}, not {setback}"
        );
    }
}

#[test]
fn every_shape_by_every_guide_on_either_side_keeps_its_distance() {
    for arch in every_shape() {
        for guide in GUIDES {
            for run in [Run::Outside, Run::Inside] {
                let input = input(&arch, run, guide);
                let super::Edge::Soffit(line) = input.edge.clone() else {
                    unreachable!()
                };
                let what = format!("{} {run:?} {guide:?}", arch.shape);
                holds(&what, &input, &[&line], Some(&arch.soffit));
            }
        }
    }
}

#[test]
fn both_edges_of_a_ring_keep_their_distance() {
    for arch in every_shape().into_iter().filter(|arch| arch.level_back.is_none()) {
        for guide in [GUIDES[0], GUIDES[3], GUIDES[4]] {
            let input = ring(&arch, 95.0, guide);
            let super::Edge::Ring { inner, outer, .. } = input.edge.clone() else {
                unreachable!()
            };
            holds(
                &format!("{} ring {guide:?}", arch.shape),
                &input,
                &[&inner, &outer],
                None,
            );
        }
    }
}

#[test]
fn leaves_and_panels_keep_their_distance_from_the_soffit() {
    for arch in every_shape() {
        for run in [Run::Outside, Run::Inside] {
            for inwards in [4.0, -8.0] {
                let mut input = input(&arch, run, super::BUSH_30);
                let super::Edge::Soffit(soffit) = input.edge.clone() else {
                    unreachable!()
                };
                input.edge = if inwards > 0.0 {
                    super::Edge::Leaf {
                        soffit: soffit.clone(),
                        gap: inwards,
                    }
                } else {
                    super::Edge::Panel {
                        soffit: soffit.clone(),
                        past: -inwards,
                    }
                };
                let form = made(&input);
                let outwards = if run == Run::Outside { -1.0 } else { 1.0 };
                // Between the middle half of the span the jambs have no part in it.
                let wanted = (inwards - outwards * super::BUSH_30.setback()).abs();
                let bounds = soffit.bounds();
                let part = &form.parts[0];
                let edges = std::iter::once(&part.outline).chain(&part.openings);
                let mut beside = 0;
                for p in edges.flat_map(|edge| along(edge.pieces())) {
                    let (off, within) = to_line(&soffit, p);
                    let middle = (p.x - bounds.center().x).abs() < bounds.width() / 8.0;
                    if within && middle && off < OWN && !near_corner(&soffit, p) {
                        beside += 1;
                        assert!(
                            (off - wanted).abs() < CLOSE,
                            "{} {run:?} {inwards}: {off}, not {wanted}",
                            arch.shape
                        );
                    }
                }
                assert!(
                    beside > 0 || has_corner(&soffit),
                    "{} {run:?} {inwards}",
                    arch.shape
                );
            }
        }
    }
}

fn corners(line: &Path) -> Vec<Point> {
    let pieces: Vec<Piece> = line.pieces().collect();
    let sharp = |pair: &&[Piece]| pair[0].tangent_at(1.0).dot(pair[1].tangent_at(0.0)) < 1.0 - 1e-6;
    pieces.windows(2).filter(sharp).map(|pair| pair[0].end).collect()
}

fn has_corner(line: &Path) -> bool {
    !corners(line).is_empty()
}

/// Where two parallels in succession mitre a corner, it is not the soffit's distance that is kept.
fn near_corner(line: &Path, p: Point) -> bool {
    corners(line).iter().any(|corner| corner.distance(p) < 200.0)
}
