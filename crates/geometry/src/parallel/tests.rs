use super::*;
use crate::{Rect, Vertex};
use proptest::prelude::*;

fn polygon(points: &[(f64, f64)]) -> Outline {
    Outline::polygon(&points.iter().map(|&p| p.into()).collect::<Vec<_>>())
}

/// A segmental rib: an annular sector about the plumb line, edges counter-clockwise, with `notches` in its back.
fn rib(inner: f64, depth: f64, half: f64, notches: u32) -> Outline {
    use std::f64::consts::FRAC_PI_2;
    let outer = inner + depth;
    let at = |r: f64, a: f64| Point::ZERO + Vec2::from_angle(a) * r;
    let (right, left) = (FRAC_PI_2 - half, FRAC_PI_2 + half);
    let mut pieces = vec![Piece::line(at(inner, right), at(outer, right))];
    let mut from = right;
    for k in 0..notches {
        let middle = right + 2.0 * half * f64::from(2 * k + 1) / f64::from(2 * notches);
        let (a, b) = (middle - 20.0 / outer, middle + 20.0 / outer);
        let floor = outer - depth / 3.0;
        pieces.push(Piece::arc(Point::ZERO, at(outer, from), a - from));
        pieces.push(Piece::line(at(outer, a), at(floor, a)));
        pieces.push(Piece::line(at(floor, a), at(floor, b)));
        pieces.push(Piece::line(at(floor, b), at(outer, b)));
        from = b;
    }
    pieces.push(Piece::arc(Point::ZERO, at(outer, from), left - from));
    pieces.push(Piece::line(at(outer, left), at(inner, left)));
    pieces.push(Piece::arc(Point::ZERO, at(inner, left), right - left));
    Outline::new(
        pieces
            .iter()
            .map(|p| Vertex {
                point: p.start,
                bulge: p.bulge,
            })
            .collect(),
    )
}

fn rounded_box(w: f64, h: f64, r: f64) -> Outline {
    let quarter = (std::f64::consts::PI / 8.0).tan();
    let v = |x, y, bulge| Vertex {
        point: Point::new(x, y),
        bulge,
    };
    Outline::new(vec![
        v(r, 0.0, 0.0),
        v(w - r, 0.0, quarter),
        v(w, r, 0.0),
        v(w, h - r, quarter),
        v(w - r, h, 0.0),
        v(r, h, quarter),
        v(0.0, h - r, 0.0),
        v(0.0, r, quarter),
    ])
}

fn lens(span: f64, upper: f64, lower: f64) -> Outline {
    let v = |x, bulge| Vertex {
        point: Point::new(x, 0.0),
        bulge,
    };
    Outline::new(vec![v(-span / 2.0, lower), v(span / 2.0, upper)])
}

fn edge() -> impl Strategy<Value = Outline> {
    let shape = prop_oneof![
        (300.0..2000.0f64, 60.0..200.0f64, 0.2..1.4f64, 0..4u32).prop_map(|(r, d, a, n)| rib(r, d, a, n)),
        (60.0..900.0f64, 60.0..400.0f64, 5.0..29.0f64).prop_map(|(w, h, r)| rounded_box(w, h, r)),
        (80.0..1500.0f64, 0.05..1.0f64, 0.05..1.0f64).prop_map(|(s, u, l)| lens(s, u, l)),
    ];
    (shape, 0.0..6.3f64, -3000.0..3000.0f64, any::<bool>()).prop_map(|(shape, turn, shift, back)| {
        let moved =
            shape.transformed(kurbo::Affine::translate((shift, -shift / 3.0)) * kurbo::Affine::rotate(turn));
        if back { moved.reversed() } else { moved }
    })
}

/// The deepest point inside an edge among a hundred by a hundred, mm: a bound from below.
fn deepest_inside(edge: &Outline) -> f64 {
    let b = edge.bounds();
    let at = |i: u32, k: u32| {
        Point::new(
            b.x0 + b.width() * f64::from(i) / 100.0,
            b.y0 + b.height() * f64::from(k) / 100.0,
        )
    };
    (0..=100)
        .flat_map(|i| (0..=100).map(move |k| at(i, k)))
        .map(|p| -edge.signed_distance(p))
        .fold(0.0, f64::max)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]

    #[test]
    fn every_point_keeps_its_distance_and_side(edge in edge(), distance in prop_oneof![-13.0..-0.05f64, 0.05..13.0f64]) {
        let found = parallel(&edge, distance).unwrap();
        let grows = edge.is_counter_clockwise() == (distance > 0.0);
        prop_assert!(!found.is_empty() || !grows && deepest_inside(&edge) <= distance.abs() + PARALLEL_TOLERANCE);
        for piece in found.iter().flat_map(Outline::pieces) {
            prop_assert!(piece.length() >= crate::tidy::SHORT && piece.bulge.abs() <= 1.0 + 1e-9);
            for k in 0..=30 {
                let p = piece.point_at(f64::from(k) / 30.0);
                let off = edge.signed_distance(p) * if edge.is_counter_clockwise() { 1.0 } else { -1.0 };
                prop_assert!((off - distance).abs() <= PARALLEL_TOLERANCE, "{off} for {distance}");
            }
        }
        for piece in found {
            prop_assert_eq!(piece.is_counter_clockwise(), edge.is_counter_clockwise());
        }
    }

    #[test]
    fn fillets_and_slots_a_hair_off_the_bits_size_are_met(d in 1.0..12.7f64, digits in 2.0..9.0f64, sign in -1i8..=1, turn in 0.0..6.3f64) {
        let hair = f64::from(sign) * 10f64.powf(-digits);
        let by = kurbo::Affine::rotate(turn);
        let filleted = rounded_box(90.0, 60.0, d + hair).reversed().transformed(by);
        prop_assert_eq!(parallel(&filleted, d).unwrap().len(), 1);
        let (w, left) = (2.0 * d + hair, 40.0);
        let slotted = polygon(&[
            (0.0, 0.0), (200.0, 0.0), (200.0, 100.0), (left + w, 100.0), (left + w, 62.0), (left, 62.0), (left, 100.0), (0.0, 100.0),
        ]).transformed(by);
        prop_assert!(!parallel(&slotted, d).unwrap().is_empty());
    }

    #[test]
    fn in_and_out_again_returns_a_smooth_edge(w in 60.0..900.0f64, h in 60.0..400.0f64, r in 13.0..29.0f64, d in 0.1..12.5f64) {
        let edge = rounded_box(w, h, r);
        let inside = parallel(&edge, -d).unwrap();
        prop_assert_eq!(inside.len(), 1);
        let back = parallel(&inside[0], d).unwrap();
        prop_assert_eq!(back.len(), 1);
        prop_assert!((back[0].area() - edge.area()).abs() < 1e-5);
        for v in edge.vertices() {
            prop_assert!(back[0].nearest(v.point).distance < PARALLEL_TOLERANCE);
        }
    }
}

#[test]
fn a_segmental_rib_keeps_its_four_edges_and_its_centre() {
    let edge = rib(860.556, 180.0, 0.95, 0);
    let found = parallel(&edge, -6.35).unwrap();
    assert_eq!(found.len(), 1);
    let arcs: Vec<_> = found[0].pieces().filter_map(|p| p.circle()).collect();
    assert_eq!((found[0].vertices().len(), arcs.len()), (4, 2));
    assert!(arcs.iter().all(|c| c.centre.to_vec2().hypot() < 1e-8), "{arcs:?}");
    assert!((arcs[0].radius - (860.556 + 180.0 - 6.35)).abs() < 1e-8);
}

#[test]
fn a_circle_gives_the_circle_beside_it() {
    let found = parallel(&Outline::circle(Point::new(3.0, 4.0), 25.0), 5.0).unwrap();
    assert!((found[0].area() - std::f64::consts::PI * 900.0).abs() < 1e-6);
}

#[test]
fn an_opening_too_narrow_leaves_nothing() {
    let slot = Outline::rectangle(Rect::new(0.0, 0.0, 80.0, 12.0)).reversed();
    assert_eq!(parallel(&slot, 6.35).unwrap(), vec![]);
    assert_eq!(parallel(&slot, 5.9).unwrap().len(), 1);
}

#[test]
fn a_narrow_neck_falls_apart() {
    let dumbbell = polygon(&[
        (0.0, 0.0),
        (40.0, 0.0),
        (40.0, 18.0),
        (80.0, 18.0),
        (80.0, 0.0),
        (120.0, 0.0),
        (120.0, 40.0),
        (80.0, 40.0),
        (80.0, 22.0),
        (40.0, 22.0),
        (40.0, 40.0),
        (0.0, 40.0),
    ]);
    assert_eq!(parallel(&dumbbell, -5.0).unwrap().len(), 2);
}

#[test]
fn a_crossed_edge_is_refused_at_its_crossing() {
    let bow = polygon(&[(0.0, 0.0), (10.0, 10.0), (10.0, 0.0), (0.0, 10.0)]);
    let Err(ParallelError::CrossesItself { at }) = parallel(&bow, 1.0) else {
        panic!("no crossing found")
    };
    assert!(at.distance(Point::new(5.0, 5.0)) < 1e-9);
}

#[test]
fn fillets_and_slots_of_just_the_bits_size_are_met() {
    for r in [6.35, 6.35 + 1e-6, 6.35 - 1e-6, 6.35 + 1e-4, 6.35 - 1e-4] {
        let opening = rounded_box(90.0, 60.0, r).reversed();
        assert_eq!(parallel(&opening, 6.35).unwrap().len(), 1, "fillet {r}");
    }
}

#[test]
fn repeated_points_hair_sides_and_flat_arcs_are_borne() {
    let edge = Outline::new(
        [
            (0.0, 0.0, 1e-9),
            (900.0, 0.0, 0.0),
            (900.0, 0.0, 0.0),
            (900.0, 120.0, 0.0),
            (899.99995, 120.0, 0.0),
            (0.0, 120.0, 0.0),
        ]
        .map(|(x, y, bulge)| Vertex {
            point: Point::new(x, y),
            bulge,
        })
        .to_vec(),
    );
    let found = parallel(&edge, 6.35).unwrap();
    assert!(
        (found[0].area() - (900.0 * 120.0 + 6.35 * 2040.0 + std::f64::consts::PI * 6.35 * 6.35)).abs() < 0.01
    );
}

#[test]
fn a_round_opening_gives_the_circle_within_it() {
    for (centre, radius) in [
        (Point::ZERO, 30.0),
        (Point::new(200.0, 150.0), 30.0),
        (Point::new(1.1, 2.2), 40.7),
    ] {
        let opening = Outline::circle(centre, radius).reversed();
        let found = parallel(&opening, 3.0).unwrap();
        assert!((found[0].area() + std::f64::consts::PI * (radius - 3.0).powi(2)).abs() < 1e-6);
    }
}

/// The arc that leaves `from` in the direction `tangent` and ends at `to`.
fn tangent_arc(from: Point, tangent: Vec2, to: Point) -> Piece {
    let chord = to - from;
    let half = tangent.cross(chord).atan2(tangent.dot(chord));
    Piece {
        start: from,
        end: to,
        bulge: (half / 2.0).tan(),
    }
}

/// Half an ellipse over its long axis as `count` pairs of tangent arcs, closed by the axis.
fn half_ellipse(a: f64, b: f64, count: u32) -> Outline {
    let point = |t: f64| Point::new(a * t.cos(), b * t.sin());
    let way = |t: f64| Vec2::new(-a * t.sin(), b * t.cos()).normalize();
    let mut pieces = Vec::new();
    for k in 0..count {
        let at = |k: u32| std::f64::consts::PI * f64::from(k) / f64::from(count);
        let (p, q, u, v) = (point(at(k)), point(at(k + 1)), way(at(k)), way(at(k + 1)));
        // Equal tangent lengths d: |q - p - d (u + v)| = 2 d.
        let (c, w) = (q - p, u + v);
        let (qa, qb) = (w.hypot2() - 4.0, -2.0 * c.dot(w));
        let d = (-qb - (qb * qb - 4.0 * qa * c.hypot2()).sqrt()) / (2.0 * qa);
        let d = d.max((-qb + (qb * qb - 4.0 * qa * c.hypot2()).sqrt()) / (2.0 * qa));
        let joint = (p + u * d).midpoint(q - v * d);
        pieces.push(tangent_arc(p, u, joint));
        pieces.push(tangent_arc(q, -v, joint).reversed());
    }
    let mut vertices: Vec<Vertex> = pieces
        .iter()
        .map(|p| Vertex {
            point: p.start,
            bulge: p.bulge,
        })
        .collect();
    vertices.push(Vertex {
        point: point(std::f64::consts::PI),
        bulge: 0.0,
    });
    Outline::new(vertices)
}

#[test]
fn a_fitted_ellipse_keeps_its_arcs_and_their_centres() {
    let edge = half_ellipse(700.0, 200.0, 24);
    for (distance, least) in [(6.35, 48), (-6.35, 46), (-20.0, 40)] {
        let found = parallel(&edge, distance).unwrap();
        assert_eq!(found.len(), 1);
        let arcs = found[0].pieces().filter(|p| !p.is_line()).count();
        assert!((least..=52).contains(&arcs), "{arcs} arcs at {distance}");
        for arc in found[0].pieces().filter(|p| !p.is_line()) {
            let circle = arc.circle().unwrap();
            let own = edge
                .pieces()
                .filter_map(|p| p.circle())
                .map(|c| c.centre.distance(circle.centre));
            let corner = edge.vertices().iter().map(|v| v.point.distance(circle.centre));
            assert!(own.chain(corner).fold(f64::INFINITY, f64::min) < 1e-4 * circle.radius.max(1.0));
        }
    }
}

#[test]
fn a_cusp_that_closes_to_nothing_has_its_parallels() {
    let ogee = crate::arch::Ogee {
        span: 900.0,
        rise: 760.0,
        lower_radius: 300.0,
    };
    let crate::Soffit::Path(line) = ogee.arch().unwrap().soffit else {
        panic!("arcs")
    };
    let corners = [
        (450.0, 0.0),
        (600.0, 0.0),
        (600.0, 900.0),
        (-600.0, 900.0),
        (-600.0, 0.0),
        (-450.0, 0.0),
    ];
    let over = crate::Path::polyline(&corners.map(Point::from));
    let round_it = Outline::closing(&line.then(&over));
    let within = Outline::closing(&line).reversed();
    for outline in [round_it, within] {
        for off in [6.35, -6.35, 20.0, -20.0] {
            let found = parallel(&outline, off).unwrap();
            assert_eq!(found.len(), 1, "{off}");
        }
    }
}

#[test]
fn a_hardly_bent_edge_keeps_its_bend() {
    let v = |x, y, bulge| Vertex {
        point: Point::new(x, y),
        bulge,
    };
    for bulge in [1e-6, 9.59655991395477e-5, 1.2e-4, 1e-3] {
        let slab = Outline::new(vec![
            v(0.0, 0.0, bulge),
            v(400.0, 0.0, 0.0),
            v(400.0, 300.0, 0.0),
            v(0.0, 300.0, 0.0),
        ]);
        for by in [1.0, 10.286303074118054, 12.0] {
            let grown = &parallel(&slab, by).unwrap()[0];
            for piece in slab.pieces() {
                for k in 0..=8 {
                    let off = grown.signed_distance(piece.point_at(f64::from(k) / 8.0));
                    assert!(
                        (off + by).abs() < 1e-6,
                        "{bulge} {by}: {off} in {:?}",
                        grown.vertices()
                    );
                }
            }
        }
    }
}
