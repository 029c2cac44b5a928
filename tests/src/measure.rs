//! What a router's programs leave of a sheet, by plain sampling: a rough judge of whether a spoilt program cuts otherwise. It
//! reads the words of a program as they come and finds no fault with any.

use crate::spoil::figures_behind;
use serde_json::Value;

/// How finely edges are sampled, mm.
const ALONG: f64 = 1.5;
/// How finely the inside of parts is sampled, mm.
const INSIDE: f64 = 4.0;
/// How far the chords of an arc may stand off it, mm.
const CHORD: f64 = 0.001;
/// Edges farther than this from a cut are uncut, however much, mm.
const UNCUT: f64 = 3.0;
/// A cut this little above a level has reached it, mm.
const REACHED: f64 = 0.005;

/// Places of a sheet that are looked at, and how deep.
#[derive(Clone, Debug, PartialEq)]
pub struct Measure {
    edges: Vec<[f64; 2]>,
    inside: Vec<[f64; 2]>,
    levels: Vec<f64>,
}

/// A stretch seen from above.
type Flat = ([f64; 2], [f64; 2]);

/// A straight stretch of road: its ends with their heights.
type Stretch = ([f64; 3], [f64; 3]);

impl Measure {
    /// Of a sheet of `design.json`.
    pub fn new(sheet: &Value) -> Self {
        let thickness = number(&sheet["thickness"]);
        let mut measure = Self {
            edges: Vec::new(),
            inside: Vec::new(),
            levels: vec![-thickness, -0.05],
        };
        for tab in list(&sheet["tabs"]) {
            let top = number(&tab["height"]) - thickness;
            if !measure.levels.iter().any(|l| (l - top).abs() < 1e-9) {
                measure.levels.push(top);
            }
        }
        for part in list(&sheet["parts"]) {
            let outline = points(&chain(&part["outline"]));
            let mut holes: Vec<Vec<[f64; 2]>> = list(&part["openings"])
                .iter()
                .map(|o| points(&chain(o)))
                .collect();
            for bore in list(&part["bores"]).iter().filter(|b| b["depth"].is_null()) {
                let (x, y) = (number(&bore["centre"][0]), number(&bore["centre"][1]));
                let r = number(&bore["diameter"]) / 2.0;
                holes.push(points(&[[x + r, y, 1.0], [x - r, y, 1.0]]));
            }
            measure.fill(&outline, &holes);
            measure.edges.extend(outline);
            measure.edges.extend(holes.into_iter().flatten());
        }
        measure
    }

    fn fill(&mut self, outline: &[[f64; 2]], holes: &[Vec<[f64; 2]>]) {
        let range = |k: usize| {
            let each = outline.iter().map(|p| p[k]);
            each.fold((f64::INFINITY, f64::NEG_INFINITY), |r, v| {
                (r.0.min(v), r.1.max(v))
            })
        };
        let ((x0, x1), (y0, y1)) = (range(0), range(1));
        let mut y = y0 + INSIDE / 2.0;
        while y < y1 {
            let mut x = x0 + INSIDE / 2.0;
            while x < x1 {
                let p = [x, y];
                if within(outline, p) && !holes.iter().any(|hole| within(hole, p)) {
                    self.inside.push(p);
                }
                x += INSIDE;
            }
            y += INSIDE;
        }
    }

    /// How far each place stays from what some programs have cut, at each level. A program is its text, its bit's radius, and
    /// its zero with the height of the face above it.
    pub fn figures(&self, programs: &[(&str, f64, [f64; 3])]) -> Vec<f64> {
        let roads: Vec<(f64, Vec<(usize, Stretch)>)> = programs
            .iter()
            .map(|(text, r, zero)| (*r, road(text, *zero)))
            .collect();
        let mut found = Vec::new();
        for level in &self.levels {
            let deep: Vec<(f64, Vec<Flat>)> = roads
                .iter()
                .map(|(r, road)| {
                    (
                        *r,
                        road.iter()
                            .filter_map(|(_, s)| below(s, level + REACHED))
                            .collect(),
                    )
                })
                .collect();
            let left = |p: &[f64; 2]| {
                let each = deep
                    .iter()
                    .flat_map(|(r, cuts)| cuts.iter().map(move |(a, b)| distance(*p, *a, *b) - r));
                each.fold(f64::INFINITY, f64::min)
            };
            found.extend(self.edges.iter().map(|p| left(p).clamp(-UNCUT, UNCUT)));
            found.extend(self.inside.iter().map(|p| left(p).clamp(-UNCUT, 0.0)));
        }
        found
    }
}

/// How far a beam's or a pen's lines of two programs lie off one another at most, mm: those of each power by themselves. Nothing
/// on one side is as far as can be. `down` is the height at which a pen draws; none where lines are switched on by M3.
pub fn lines_change(one: &str, other: &str, down: Option<f64>) -> f64 {
    let (a, b) = (lit(one, down), lit(other, down));
    let mut most: f64 = 0.0;
    for (from, to) in [(&a, &b), (&b, &a)] {
        for (power, stretch) in from {
            for share in [0.0, 0.25, 0.5, 0.75, 1.0] {
                let p = [0, 1].map(|k| stretch.0[k] + (stretch.1[k] - stretch.0[k]) * share);
                let alike = to.iter().filter(|(s, _)| s == power);
                let each = alike.map(|(_, (q, r))| distance(p, [q[0], q[1]], [r[0], r[1]]));
                most = most.max(each.fold(f64::INFINITY, f64::min));
            }
        }
    }
    most
}

/// The stretches that are drawn, each with the power's word.
fn lit(text: &str, down: Option<f64>) -> Vec<(String, Stretch)> {
    let mut power = None;
    let mut powers = Vec::new();
    for line in text.lines() {
        if line.starts_with("M3") {
            power = Some(line.to_owned());
        } else if line.starts_with("M5") {
            power = None;
        }
        powers.push(power.clone());
    }
    let drawn = road(text, [0.0; 3])
        .into_iter()
        .filter_map(|(line, stretch)| match down {
            Some(height) => (stretch.0[2].max(stretch.1[2]) <= height).then(|| (String::new(), stretch)),
            None => Some((powers[line].clone()?, stretch)),
        });
    drawn.collect()
}

/// The road of a program in the sheet's frame, Z 0 on the face, each stretch with the number of its line.
fn road(text: &str, [ox, oy, top]: [f64; 3]) -> Vec<(usize, Stretch)> {
    let (mut at, mut word, mut unit): ([f64; 3], String, f64) = ([0.0, 0.0, top + 100.0], String::new(), 1.0);
    let mut found = Vec::new();
    for (number, line) in text
        .lines()
        .enumerate()
        .filter(|(_, line)| !line.starts_with('('))
    {
        for code in line.split(' ') {
            match code {
                "G20" => unit = 25.4,
                "G0" | "G1" | "G2" | "G3" => code.clone_into(&mut word),
                _ => {}
            }
        }
        let (mut to, mut offset) = (at, [0.0, 0.0]);
        for (letter, value) in figures_behind(line, "XYZIJ") {
            let value = value * unit;
            match letter {
                'X' => to[0] = value,
                'Y' => to[1] = value,
                'Z' => to[2] = value,
                'I' => offset[0] = value,
                _ => offset[1] = value,
            }
        }
        let places = if word == "G2" || word == "G3" {
            arc(at, to, offset, word == "G3")
        } else {
            vec![to]
        };
        for place in places {
            let shift = |p: [f64; 3]| [p[0] + ox, p[1] + oy, p[2] - top];
            found.push((number, (shift(at), shift(place))));
            at = place;
        }
    }
    found
}

fn arc(from: [f64; 3], to: [f64; 3], offset: [f64; 2], left: bool) -> Vec<[f64; 3]> {
    let (cx, cy) = (from[0] + offset[0], from[1] + offset[1]);
    let radius = offset[0].hypot(offset[1]);
    let angle = |p: [f64; 3]| (p[1] - cy).atan2(p[0] - cx);
    let turn = std::f64::consts::TAU;
    let sweep = (angle(to) - angle(from)).rem_euclid(turn);
    let sweep = if left { sweep } else { sweep - turn };
    let step = 2.0 * (2.0 * CHORD / radius.max(CHORD)).sqrt();
    let mut places = Vec::new();
    let mut share = step / sweep.abs().max(step);
    let each = share;
    while share < 1.0 - 1e-9 {
        let a = angle(from) + sweep * share;
        places.push([
            cx + radius * a.cos(),
            cy + radius * a.sin(),
            from[2] + (to[2] - from[2]) * share,
        ]);
        share += each;
    }
    places.push(to);
    places
}

/// What of a stretch lies at or below a height.
fn below((a, b): &Stretch, height: f64) -> Option<([f64; 2], [f64; 2])> {
    if a[2].min(b[2]) > height {
        return None;
    }
    let at = |p: &[f64; 3], q: &[f64; 3]| {
        let share = if p[2] > height {
            (p[2] - height) / (p[2] - q[2])
        } else {
            0.0
        };
        [p[0] + (q[0] - p[0]) * share, p[1] + (q[1] - p[1]) * share]
    };
    Some((at(a, b), at(b, a)))
}

fn distance(p: [f64; 2], a: [f64; 2], b: [f64; 2]) -> f64 {
    let (ux, uy) = (b[0] - a[0], b[1] - a[1]);
    let square = ux * ux + uy * uy;
    let share = if square > 0.0 {
        (((p[0] - a[0]) * ux + (p[1] - a[1]) * uy) / square).clamp(0.0, 1.0)
    } else {
        0.0
    };
    let (x, y) = (p[0] - a[0] - ux * share, p[1] - a[1] - uy * share);
    // Millions of these are asked for, and nothing here is so large or small that a square would lose it.
    (x * x + y * y).sqrt()
}

fn within(ring: &[[f64; 2]], p: [f64; 2]) -> bool {
    let mut inside = false;
    for (i, b) in ring.iter().enumerate() {
        let a = ring[(i + ring.len() - 1) % ring.len()];
        if (a[1] > p[1]) != (b[1] > p[1]) && p[0] < a[0] + (p[1] - a[1]) / (b[1] - a[1]) * (b[0] - a[0]) {
            inside = !inside;
        }
    }
    inside
}

/// Places along a closed chain with bulges.
fn points(chain: &[[f64; 3]]) -> Vec<[f64; 2]> {
    let mut found = Vec::new();
    for (i, &[x0, y0, bulge]) in chain.iter().enumerate() {
        let [x1, y1, _] = chain[(i + 1) % chain.len()];
        let chord = (x1 - x0).hypot(y1 - y0);
        let sweep = 4.0 * bulge.atan();
        let length = if sweep.abs() < 1e-9 {
            chord
        } else {
            chord / (2.0 * (sweep / 2.0).sin()) * sweep
        };
        let step = ALONG / length.max(ALONG);
        let mut share = 0.0;
        while share < 1.0 - 1e-9 {
            found.push(on_piece([x0, y0], [x1, y1], sweep, share));
            share += step;
        }
    }
    found
}

fn on_piece(a: [f64; 2], b: [f64; 2], sweep: f64, share: f64) -> [f64; 2] {
    let (ux, uy) = (b[0] - a[0], b[1] - a[1]);
    if sweep.abs() < 1e-9 {
        return [a[0] + ux * share, a[1] + uy * share];
    }
    // A chord from the start turns by half of what has been swept.
    let size = (sweep * share / 2.0).sin() / (sweep / 2.0).sin();
    let turn = (sweep * share - sweep) / 2.0;
    let (sin, cos) = turn.sin_cos();
    [
        a[0] + size * (ux * cos - uy * sin),
        a[1] + size * (ux * sin + uy * cos),
    ]
}

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap_or_default()
}

fn list(value: &Value) -> &[Value] {
    value.as_array().map_or(&[], Vec::as_slice)
}

fn chain(value: &Value) -> Vec<[f64; 3]> {
    list(value)
        .iter()
        .map(|v| [0, 1, 2].map(|k| number(&v[k])))
        .collect()
}
