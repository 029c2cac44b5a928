//! Spoilt drawings in DXF.

use super::{Spoilt, cut_short, of};
use std::ops::Range;

/// A good DXF file spoilt in every way that changes what it shows.
#[expect(
    clippy::too_many_lines,
    reason = "one list of every way to spoil, a line or two each"
)]
pub fn spoilt_dxf(good: &str) -> Vec<Spoilt> {
    let pairs: Vec<(&str, &str)> = {
        let lines: Vec<&str> = good.split("\r\n").collect();
        lines.chunks_exact(2).map(|p| (p[0], p[1])).collect()
    };
    let shown = shown(&pairs);
    let with = |i: usize, value: String| -> String {
        let lines = pairs.iter().enumerate().map(|(k, (code, old))| {
            let value = if k == i { value.as_str() } else { old };
            format!("{code}\r\n{value}\r\n")
        });
        lines.collect()
    };
    let code = |i: &usize| pairs[*i].0.trim().parse::<i32>().unwrap_or(-1);
    let number = |i: usize| pairs[i].1.trim().parse::<f64>().unwrap_or(0.0);
    let places = |codes: &[i32]| -> Vec<usize> {
        let own = shown
            .iter()
            .copied()
            .filter(|i| codes.contains(&code(i)) && number(*i) != 0.0);
        own.collect()
    };
    let moved = |codes: &[i32], off: f64| -> Vec<String> {
        places(codes)
            .into_iter()
            .map(|i| with(i, format!("{:.6}", number(i) + off)))
            .collect()
    };
    let all = |codes: &[i32], change: &dyn Fn(f64) -> f64| -> String {
        let own = places(codes);
        let lines = pairs.iter().enumerate().map(|(k, (code, old))| {
            if own.contains(&k) {
                format!("{code}\r\n{:.6}\r\n", change(number(k)))
            } else {
                format!("{code}\r\n{old}\r\n")
            }
        });
        lines.collect()
    };
    let mut found = Vec::new();
    let mut take = |kind, texts| found.extend(of(kind, good, texts));
    take("one coordinate", moved(&[10, 20, 11, 21], 0.05));
    take("a radius", moved(&[40], 0.05));
    take(
        "bulge sign",
        places(&[42])
            .into_iter()
            .map(|i| with(i, format!("{}", -number(i))))
            .collect(),
    );
    take("bulge size", moved(&[42], 0.01));
    take(
        "layer renamed",
        layers(&pairs, &shown)
            .into_iter()
            .map(|(i, other)| with(i, other))
            .collect(),
    );
    take(
        "scale 25.4",
        vec![
            all(&[10, 20, 40, 11, 21], &|v| v * 25.4),
            all(&[10, 20, 40, 11, 21], &|v| v / 25.4),
        ],
    );
    take(
        "mirrored",
        vec![all(&[10, 11], &|v| -v), all(&[20, 21], &|v| 400.0 - v)],
    );
    let whole = |range: Range<usize>| -> String {
        let lines = pairs[range].iter();
        lines
            .map(|(code, value)| format!("{code}\r\n{value}\r\n"))
            .collect()
    };
    let entities = entities(&pairs, &shown);
    let around =
        |of: &Range<usize>, inside: String| whole(0..of.start) + &inside + &whole(of.end..pairs.len());
    take(
        "an entity deleted",
        entities.iter().map(|of| around(of, String::new())).collect(),
    );
    take(
        "an edge twice",
        entities
            .iter()
            .filter(|of| pairs[(*of).clone()].iter().any(|pair| pair.1 == "OUTLINE"))
            .map(|of| around(of, whole(of.clone()).repeat(2)))
            .collect(),
    );
    take("cut short", cut_short(good));
    take("no longer closed", {
        let closed = shown
            .iter()
            .copied()
            .filter(|i| code(i) == 70 && (number(*i) - 1.0).abs() < 0.5);
        closed.map(|i| with(i, "     0".to_owned())).collect()
    });
    take("the unit's word", {
        let unit = pairs.iter().position(|p| p.1 == "$INSUNITS").map(|i| i + 1);
        unit.map(|i| with(i, "     1".to_owned())).into_iter().collect()
    });
    found
}

/// The pairs that stand in an entity which is neither the stock's edge nor lettering.
fn shown(pairs: &[(&str, &str)]) -> Vec<usize> {
    let from = pairs
        .iter()
        .position(|p| p.1 == "ENTITIES")
        .unwrap_or(pairs.len());
    let mut found = Vec::new();
    let mut entity = Vec::new();
    let mut aside = false;
    for (i, (code, value)) in pairs.iter().enumerate().skip(from) {
        if code.trim() == "0" {
            if !aside {
                found.append(&mut entity);
            }
            entity.clear();
            aside = false;
        }
        aside |= code.trim() == "8" && ["STOCK", "TEXT"].contains(value);
        entity.push(i);
    }
    found
}

/// The pairs of each entity, a polyline with its vertices.
fn entities(pairs: &[(&str, &str)], shown: &[usize]) -> Vec<Range<usize>> {
    let begins = |i: usize| pairs[i].0.trim() == "0" && !["VERTEX", "SEQEND"].contains(&pairs[i].1);
    let starts = shown
        .iter()
        .copied()
        .filter(|&i| begins(i) && pairs[i].1 != "ENTITIES");
    starts
        .map(|from| {
            from..(from + 1..pairs.len())
                .find(|&i| begins(i))
                .unwrap_or(pairs.len())
        })
        .collect()
}

/// Each entity's layer and others for it. The vertices of a polyline are on its layer, whatever theirs is called.
fn layers(pairs: &[(&str, &str)], shown: &[usize]) -> Vec<(usize, String)> {
    let (mut found, mut vertex) = (Vec::new(), false);
    for &i in shown {
        match pairs[i] {
            (code, name) if code.trim() == "0" => vertex = ["VERTEX", "SEQEND"].contains(&name),
            (code, layer) if code.trim() == "8" && !vertex => {
                let other = if layer == "OUTLINE" { "OPENING" } else { "OUTLINE" };
                found.extend([(i, other.to_owned()), (i, "CUT".to_owned())]);
            }
            _ => {}
        }
    }
    found
}
