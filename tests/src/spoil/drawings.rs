//! Spoilt drawings.

use super::figures::{behind, put, put_all};
use super::{Spoilt, cut_short, of};

/// A good DXF file spoilt in every way that changes what it shows.
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
    take("cut short", cut_short(good));
    take("no longer closed", {
        let closed = shown
            .iter()
            .copied()
            .filter(|i| code(i) == 70 && number(*i) == 1.0);
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

fn layers(pairs: &[(&str, &str)], shown: &[usize]) -> Vec<(usize, String)> {
    let other = |layer: &str| match layer {
        "OUTLINE" => "OPENING".to_owned(),
        "MARK" => "OUTLINE".to_owned(),
        _ => "OUTLINE".to_owned(),
    };
    let own = shown.iter().filter(|i| pairs[**i].0.trim() == "8");
    own.flat_map(|&i| [(i, other(pairs[i].1)), (i, "CUT".to_owned())])
        .collect()
}

/// A good SVG file spoilt in every way that changes what it shows.
pub fn spoilt_svg(good: &str) -> Vec<Spoilt> {
    // The stock's edge, which comes first, is for sight only.
    let from = good.find("</g>").unwrap_or(0);
    let (head, body) = good.split_at(from);
    let with = |body: String| format!("{head}{body}");
    let paths: Vec<(usize, usize)> = body
        .match_indices(" d=\"")
        .filter_map(|(i, word)| Some((i + word.len(), i + word.len() + body[i + word.len()..].find('"')?)))
        .collect();
    let each = |change: &dyn Fn(&str) -> Vec<String>| -> Vec<String> {
        let of_path = paths.iter().flat_map(|&(a, b)| {
            let texts = change(&body[a..b]);
            texts.into_iter().map(move |d| (a, b, d))
        });
        of_path
            .map(|(a, b, d)| with(format!("{}{d}{}", &body[..a], &body[b..])))
            .collect()
    };
    let mut found = Vec::new();
    let mut take = |kind, texts| found.extend(of(kind, good, texts));
    take("one coordinate", each(&|d| spaced(d, 0.05)));
    take(
        "sweep flag",
        each(&|d| vec![d.replacen(" 0 1 ", " 0 0 ", 1), d.replacen(" 0 0 ", " 0 1 ", 1)]),
    );
    take(
        "group renamed",
        vec![
            with(body.replace("id=\"outline\"", "id=\"opening\"")),
            with(body.replace("id=\"outline\"", "id=\"cut\"")),
        ],
    );
    take("a path emptied", each(&|_| vec!["M 1 1 L 1 1".to_owned()]));
    take("cut short", cut_short(good));
    take("scale 25.4", {
        let sized = |by: f64| {
            let from = good.find("<svg").unwrap_or(0);
            let end = from + good[from..].find('>').unwrap_or(0);
            let tag = &good[from..end];
            let figures: Vec<_> = behind(tag, "\"")
                .into_iter()
                .filter(|f| tag[f.at.end..].starts_with("mm"))
                .collect();
            format!(
                "{}{}{}",
                &good[..from],
                put_all(tag, &figures, |f| format!("{:.4}", f.value * by)),
                &good[end..]
            )
        };
        vec![sized(25.4), sized(1.0 / 25.4)]
    });
    found
}

/// Each number of path data in turn made larger, but for the flags of arcs.
fn spaced(d: &str, off: f64) -> Vec<String> {
    let figures: Vec<_> = behind(d, " ")
        .into_iter()
        .filter(|f| f.value.abs() > 1.0)
        .collect();
    figures
        .iter()
        .map(|f| put(d, f, &format!("{:.4}", f.value + off)))
        .collect()
}
