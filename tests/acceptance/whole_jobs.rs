//! The jobs of the almshouse, made whole.

use cintre_tests::{Bench, Tree, example, tree};
use std::path::Path;

/// Made twice, to the same bytes, and proven. Gives the folder's files.
fn made_and_proven(name: &str) -> Tree {
    let bench = Bench::default();
    let job = example(name);
    let job = job.to_str().expect("the examples' path is plain");
    for folder in ["first", "second/elsewhere"] {
        bench.run(&["make", job, "--out", folder]).ended(0);
    }
    let (first, second) = (tree(&bench.path("first")), tree(&bench.path("second/elsewhere")));
    assert!(first.keys().eq(second.keys()));
    for (path, bytes) in &first {
        assert!(
            second[path] == *bytes,
            "{path} came out otherwise the second time"
        );
    }
    let proof = bench.run(&["prove", "first"]).ended(0).out;
    for path in first.keys().filter(|path| is_cut_file(path)) {
        assert!(
            proof.contains(&format!("passed  {path}  ")),
            "{path} is not in:\n{proof}"
        );
    }
    first
}

fn is_cut_file(path: &str) -> bool {
    !path.starts_with("pictures/")
        && Path::new(path)
            .extension()
            .is_some_and(|kind| ["nc", "dxf", "svg"].iter().any(|&known| kind == known))
}

fn text<'a>(tree: &'a Tree, path: &str) -> &'a str {
    let bytes = tree.get(path).unwrap_or_else(|| panic!("{path} is missing"));
    std::str::from_utf8(bytes).expect("a cut file is plain text")
}

#[test]
fn the_garden_gate_is_made_with_one_arc_a_pass_and_its_tabs() {
    let made = made_and_proven("garden-gate");
    let moves = moves(text(&made, "table/sheet-1-3-straight-6.nc"));
    // The rib's back is the soffit's parallel inside it by the lagging; the bit runs half its own width outside.
    let radius = 845.576_923_076_923 - 18.0 + 6.35 / 2.0;
    let edge: Vec<&Move> = moves
        .iter()
        .filter(|m| m.radius.is_some_and(|r| (r - radius).abs() < 0.01))
        .collect();
    let passes = runs(&edge);
    // Two ribs of 17.6 mm, at most 5 mm a pass, each a little through.
    assert_eq!(passes.len(), 2 * 4);
    let tabs = passes.iter().map(|pass| lifted(pass)).max();
    assert!(
        tabs.is_some_and(|tabs| (3..=8).contains(&tabs)),
        "{tabs:?} tabs on the edge"
    );
    for pass in passes {
        // Above the tabs the arc is whole; below their tops each cuts it twice, at its beginning and at its end.
        let lifts = lifted(&pass);
        assert_eq!(pass.len(), 1 + 2 * lifts);
        assert!(
            lifts == 0 || Some(lifts) == tabs,
            "{lifts} of {tabs:?} tabs in a pass"
        );
    }
    assert!(made.contains_key("table/sheet-1-mm.dxf"));
}

#[test]
fn the_washhouse_lunette_is_made_of_few_arcs() {
    let made = made_and_proven("washhouse-lunette");
    let outlines = outlines(text(&made, "table/sheet-1-mm.dxf"));
    assert_eq!(outlines.len(), 2, "an inside and a ring");
    // What fills the opening has one straight edge, the springing line.
    let inside: Vec<_> = outlines.iter().filter(|outline| outline.straight == 1).collect();
    assert_eq!(inside.len(), 1);
    let arcs = inside[0].curved;
    assert!((4..=30).contains(&arcs), "{arcs} arcs");
    // The ring has the same soffit, and its true parallel.
    let ring = outlines.iter().find(|outline| outline.straight == 2);
    let ring = ring.expect("the ring stands on two straight ends").curved;
    assert!((8..=60).contains(&ring), "{ring} arcs");
}

#[test]
fn the_chapel_light_is_drawn_for_a_fabricator_and_a_glazier() {
    let made = made_and_proven("chapel-light");
    let drawings: Vec<_> = made.keys().filter(|path| is_cut_file(path)).collect();
    assert_eq!(drawings.len(), 2, "{drawings:?}");
    let drawing = |ending: &str| {
        let path = drawings.iter().find(|path| path.ends_with(ending));
        text(&made, path.expect("a drawing of each kind"))
    };
    // Two arcs of soffit, and two of the ring's back: the points stay points.
    let curved: Vec<usize> = outlines(drawing(".dxf"))
        .iter()
        .map(|outline| outline.curved)
        .collect();
    assert_eq!(curved, [4]);
    assert_eq!(arcs_of_outlines(drawing(".svg")), 2);
}

#[test]
fn the_figures_of_the_lunette_tell_its_arcs_and_how_far_they_stand_off() {
    let job = example("washhouse-lunette");
    let job = job.to_str().expect("the examples' path is plain");
    let figures = Bench::default().run(&["figures", job, "--json"]).ended(0).json();
    let arcs = &figures["arches"]["lunette"]["tangent_arcs"];
    assert!(
        arcs["count"]
            .as_u64()
            .is_some_and(|count| (4..=30).contains(&count)),
        "{arcs}"
    );
    assert!(
        arcs["worst_error"]
            .as_f64()
            .is_some_and(|error| error > 0.0 && error <= 0.02),
        "{arcs}"
    );
}

/// A cutting move of a program.
#[derive(Debug)]
struct Move {
    /// Its place among the program's moves.
    at: usize,
    /// Of an arc.
    radius: Option<f64>,
    /// The height that it is made at.
    z: f64,
}

/// The moves of a program, read as plainly as it can be.
fn moves(program: &str) -> Vec<Move> {
    let (mut arc, mut z, mut moves) = (false, f64::INFINITY, Vec::new());
    for line in program.lines().filter(|line| !line.starts_with('(')) {
        let (mut centre, mut moved) = ([0.0_f64; 2], false);
        for word in line.split_whitespace() {
            let value = || word[1..].parse::<f64>().expect("a word is a letter and a number");
            match &word[..1] {
                "G" if value() < 4.0 => arc = value() > 1.0,
                "X" | "Y" => moved = true,
                "Z" => z = value(),
                "I" => centre[0] = value(),
                "J" => centre[1] = value(),
                _ => {}
            }
        }
        if moved {
            let radius = arc.then(|| centre[0].hypot(centre[1]));
            moves.push(Move {
                at: moves.len(),
                radius,
                z,
            });
        }
    }
    moves
}

/// The moves that follow one another without a break.
fn runs<'a>(moves: &[&'a Move]) -> Vec<Vec<&'a Move>> {
    let follows = |a: &&Move, b: &&Move| b.at == a.at + 1;
    moves.chunk_by(follows).map(<[&Move]>::to_vec).collect()
}

/// How many moves of a pass run higher than the pass.
fn lifted(pass: &[&Move]) -> usize {
    let floor = pass.iter().map(|m| m.z).fold(f64::INFINITY, f64::min);
    pass.iter().filter(|m| m.z > floor + 0.01).count()
}

/// The edges of a part in a drawing.
#[derive(Debug, Default)]
struct Outline {
    straight: usize,
    curved: usize,
}

/// The closed lines on the layer of outlines.
fn outlines(dxf: &str) -> Vec<Outline> {
    let lines: Vec<&str> = dxf.lines().map(str::trim).collect();
    let mut outlines: Vec<Outline> = Vec::new();
    for entity in entities(&lines) {
        let bulge = entity
            .iter()
            .any(|&(code, value)| code == "42" && value.parse() != Ok(0.0));
        let on_outlines = entity
            .iter()
            .any(|&(code, value)| code == "8" && value == "OUTLINE");
        match (entity[0].1, outlines.last_mut()) {
            ("POLYLINE", _) if on_outlines => outlines.push(Outline::default()),
            ("VERTEX", Some(outline)) if on_outlines && bulge => outline.curved += 1,
            ("VERTEX", Some(outline)) if on_outlines => outline.straight += 1,
            _ => {}
        }
    }
    outlines
}

/// The pairs of code and value of each thing of a drawing, which begins with a code of 0.
fn entities<'a>(lines: &[&'a str]) -> Vec<Vec<(&'a str, &'a str)>> {
    let mut entities: Vec<Vec<_>> = Vec::new();
    for pair in lines.chunks_exact(2) {
        match entities.last_mut() {
            Some(entity) if pair[0] != "0" => entity.push((pair[0], pair[1])),
            _ => entities.push(vec![(pair[0], pair[1])]),
        }
    }
    entities
}

/// How many arcs the outlines of an SVG have.
fn arcs_of_outlines(svg: &str) -> usize {
    let document = roxmltree::Document::parse(svg).expect("a drawing is XML");
    let layer = document
        .descendants()
        .find(|node| node.attribute("id") == Some("outline"));
    let layer = layer.expect("the drawing has its outlines on a layer of their own");
    let paths = layer.descendants().filter_map(|node| node.attribute("d"));
    paths.map(|path| path.matches('A').count()).sum()
}
