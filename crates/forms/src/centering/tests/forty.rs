//! Forty arches: the pieces fit, they go together again, they are bolted clear of their edges, and the centre comes out.

use super::super::*;
use super::SHEET;
use super::arches::forty;
use cintre_geometry::{Affine, Outline, Path, Point, Vec2};
use cintre_work::Part;
use std::f64::consts::PI;
use std::sync::OnceLock;

/// All forty with their centres, worked out once for all tests.
fn made() -> &'static [(String, Input, Form)] {
    static MADE: OnceLock<Vec<(String, Input, Form)>> = OnceLock::new();
    MADE.get_or_init(|| {
        let all = forty().into_iter().map(|(name, input)| {
            let form = centering(&input).unwrap_or_else(|error| panic!("{name}: {error}"));
            (name, input, form)
        });
        all.collect()
    })
}

#[test]
fn forty_arches_have_pieces_that_fit_and_bolts_clear_of_edges() {
    assert_eq!(made().len(), 40);
    let mut builds = std::collections::BTreeSet::new();
    let mut posts = 0;
    for (name, input, form) in made() {
        builds.insert(
            form.notes
                .iter()
                .find(|n| n.starts_with("each rib"))
                .unwrap()
                .clone(),
        );
        let edge = edge_distance(input.bolt.unwrap());
        for part in &form.parts {
            assert!(part.outline.is_counter_clockwise(), "{name}: {}", part.name);
            let bounds = part.outline.bounds();
            assert!(
                SHEET.takes(bounds.width(), bounds.height()),
                "{name}: {} is {bounds:?}",
                part.name
            );
            for bore in &part.bores {
                let off = part.outline.signed_distance(bore.centre);
                assert!(
                    off <= -edge + 1e-5,
                    "{name}: a bolt of {} stands {off} from its edge",
                    part.name
                );
                for hole in &part.openings {
                    assert!(
                        hole.signed_distance(bore.centre) >= edge - 1e-5,
                        "{name}: {}",
                        part.name
                    );
                }
            }
        }
        let plated = form.parts.iter().any(|part| part.name.contains("gusset"));
        let halves = form.centre().into_iter().flat_map(|a| &a.halves);
        let jointed = halves.clone().any(|h| h.members.len() > 1);
        let one_layer = halves
            .clone()
            .all(|h| h.members.iter().all(|m| m.layer != Layer::B));
        assert_eq!(plated, input.split || jointed && one_layer, "{name}");
        // Every member is held by two bolts at least, a key by one; a post and a strut at both ends.
        let members = form
            .centre()
            .into_iter()
            .flat_map(|a| &a.halves)
            .flat_map(|h| &h.members);
        for member in members {
            let narrow = member.size().0 < 4.0 * edge;
            let least = if narrow { 1 } else { 2 };
            let bolts = member.bores.len();
            assert!(bolts >= least, "{name}: {} has {bolts} bolts", member.name);
            if member.layer == Layer::OnInner {
                posts += usize::from(member.name == "king post");
                let lying = member.bores.iter().map(|b| (member.lying() * b.centre).x);
                let reach = lying.clone().fold(f64::MIN, f64::max) - lying.fold(f64::MAX, f64::min);
                assert!(
                    reach > member.size().0 * 0.6,
                    "{name}: {} is bolted over {reach}",
                    member.name
                );
            }
        }
    }
    assert!(posts >= 4, "{posts} king posts");
    assert!(builds.len() == 4, "{builds:?}");
}

/// The shift and turn that bring two points onto two others.
fn onto(from: [Point; 2], to: [Point; 2]) -> Affine {
    let (a, b) = (from[1] - from[0], to[1] - to[0]);
    let turn = Affine::rotate(b.atan2() - a.atan2());
    Affine::translate(to[0] - turn * from[0]) * turn
}

/// The corners that two neighbours share, by their numbers in each.
fn shared(left: &Member, right: &Member) -> Vec<(usize, usize)> {
    let (a, b) = (left.outline.vertices(), right.outline.vertices());
    let pairs = (0..a.len()).flat_map(|i| (0..b.len()).map(move |j| (i, j)));
    pairs
        .filter(|&(i, j)| a[i].point.distance(b[j].point) < 1e-6)
        .collect()
}

/// The pieces of one layer's band as they lie on their sheets, put together again from the left by nothing but their joints.
fn put_together(members: &[&Member], parts: &[&Part]) -> Vec<Outline> {
    let mut placed = vec![parts[0].outline.transformed(members[0].lying().inverse())];
    for i in 1..members.len() {
        let joint = shared(members[i - 1], members[i]);
        assert_eq!(joint.len(), 2, "{} and {}", members[i - 1].name, members[i].name);
        let last = &placed[i - 1];
        let to = [joint[0].0, joint[1].0].map(|n| last.vertices()[n].point);
        let from = [joint[0].1, joint[1].1].map(|n| parts[i].outline.vertices()[n].point);
        assert!(
            (from[0].distance(from[1]) - to[0].distance(to[1])).abs() < 1e-6,
            "the faces are as long"
        );
        placed.push(parts[i].outline.transformed(onto(from, to)));
    }
    placed
}

#[test]
fn put_together_by_their_joints_the_pieces_give_back_the_rib_line() {
    for (name, _, form) in made() {
        let assembly = form.centre().unwrap();
        for (half, which) in assembly.halves.iter().zip(["", "lower "]) {
            let which = if assembly.halves.len() == 2 && which.is_empty() {
                "upper "
            } else {
                which
            };
            for layer in [Layer::A, Layer::B] {
                let mut placed = Vec::new();
                for kind in ["rib", "turning", "tie"] {
                    let of_kind = |m: &&Member| m.layer == layer && m.name.starts_with(kind);
                    let members: Vec<&Member> = half.members.iter().filter(of_kind).collect();
                    let parts: Vec<&Part> = members
                        .iter()
                        .filter_map(|m| {
                            form.parts
                                .iter()
                                .find(|p| p.name == format!("gate {which}{}", m.name))
                        })
                        .collect();
                    if !members.is_empty() {
                        placed.extend(put_together(&members, &parts));
                    }
                }
                if placed.is_empty() {
                    assert_eq!(layer, Layer::B, "{name}");
                    continue;
                }
                if which == "lower " {
                    // Its members were turned over in place after its parts were laid down.
                    placed = placed.iter().map(|o| o.transformed(Affine::rotate(PI))).collect();
                }
                for i in 0..=400 {
                    let p = half.back.station(half.back.length() * f64::from(i) / 400.0).0;
                    let off = placed
                        .iter()
                        .map(|o| o.nearest(p).distance)
                        .fold(f64::INFINITY, f64::min);
                    assert!(off <= 0.02, "{name}, layer {layer:?}: {off} off at {p:?}");
                }
            }
        }
    }
}

/// Points along every edge of the wood that is left when plates are off.
fn wood(half: &Half) -> Vec<Point> {
    let members = half
        .members
        .iter()
        .filter(|m| m.layer != Layer::OnBoth)
        .map(|m| &m.outline);
    let edges = members.chain(&half.boards).flat_map(Outline::pieces);
    edges
        .flat_map(|piece| (0..4).map(move |i| piece.point_at(f64::from(i) / 4.0)))
        .collect()
}

/// What is open under an arch: down to far below its springings, or all of a closed one.
fn opening(soffit: &Path) -> Outline {
    let down = Vec2::new(0.0, -3.0 * soffit.length());
    if soffit.start().distance(soffit.end()) < 1e-6 {
        return Outline::closing(soffit);
    }
    let (left, right) = (soffit.start(), soffit.end());
    let foot = right.y.min(left.y);
    let under = |p: Point| Point::new(p.x, foot) + down;
    Outline::closing(
        &Path::polyline(&[under(left), left])
            .then(soffit)
            .then(&Path::polyline(&[right, under(right)])),
    )
}

#[test]
fn a_centre_clears_its_opening_when_it_is_dropped() {
    for (name, input, form) in made() {
        let figure = |what: &str| form.figures.iter().find(|f| f.name == what).map(|f| f.values[0]);
        let (drop, key) = (figure("wedge drop").unwrap(), figure("key"));
        let open = opening(&input.soffit);
        let upper = &form.centre().unwrap().halves[0];
        let height = input.soffit.bounds().height();
        let closed = form.centre().unwrap().halves.len() == 2;
        // Half a closed arch drops on its wedges, and is then drawn out along the wall.
        let drops: Vec<f64> = if closed {
            vec![drop]
        } else {
            (0..=12).map(|i| drop + height * f64::from(i) / 6.0).collect()
        };
        for p in wood(upper) {
            let moved_in = key.map_or(0.0, |key| {
                let off = p.x.abs() - key / 2.0;
                if off > -1e-6 {
                    -p.x.signum() * key / 2.0
                } else {
                    0.0
                }
            });
            for &down in &drops {
                let at = p + Vec2::new(moved_in, -down);
                let out = open.signed_distance(at);
                assert!(out <= 1e-6, "{name}: {out} mm out when lowered {down} from {p:?}");
            }
        }
    }
}
