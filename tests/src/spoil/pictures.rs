//! Spoilt drawings in SVG.

use super::figures::{behind, put, put_all};
use super::{Spoilt, cut_short, of};

/// A good SVG file spoilt in every way that changes what it shows.
pub fn spoilt_svg(good: &str) -> Vec<Spoilt> {
    // The stock's edge and the lettering, which come first, are for sight only.
    let lettering = good.find("id=\"text\"").unwrap_or(0);
    let from = lettering + good[lettering..].find("</g>").unwrap_or(0);
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
    let elements: Vec<(usize, usize)> = paths
        .iter()
        .filter_map(|&(a, b)| Some((body[..a].rfind('<')?, b + body[b..].find('\n')? + 1)))
        .collect();
    take(
        "a path deleted",
        elements
            .iter()
            .map(|&(a, b)| with(format!("{}{}", &body[..a], &body[b..])))
            .collect(),
    );
    take("mirrored", vec![with(each_path(body, &paths, &mirrored))]);
    take("cut short", cut_short(good));
    take(
        "scale 25.4",
        [25.4, 1.0 / 25.4].map(|by| sized(good, by)).to_vec(),
    );
    take(
        "another viewBox",
        [25.4, 1.0 / 25.4].map(|by| shown(good, by)).to_vec(),
    );
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

/// The body with the data of each path made others.
fn each_path(body: &str, paths: &[(usize, usize)], change: &dyn Fn(&str) -> String) -> String {
    let (mut made, mut from) = (String::new(), 0);
    for &(a, b) in paths {
        made += &body[from..a];
        made += &change(&body[a..b]);
        from = b;
    }
    made + &body[from..]
}

/// Path data of M, L and A turned about a plumb line, the arcs' flags with it, far enough off that nothing comes to lie as it was.
fn mirrored(d: &str) -> String {
    let words: Vec<&str> = d.split(' ').collect();
    let number = |word: &str| word.parse::<f64>().unwrap_or(0.0);
    let mut made: Vec<String> = words.iter().map(|&w| w.to_owned()).collect();
    for (i, word) in words.iter().enumerate() {
        let x = match *word {
            "M" | "L" => i + 1,
            "A" => {
                made[i + 5] = if words[i + 5] == "1" { "0" } else { "1" }.to_owned();
                i + 6
            }
            _ => continue,
        };
        made[x] = format!("{:.4}", 500.0 - number(words[x]));
    }
    made.join(" ")
}

/// The root's width and height times `by`.
fn sized(good: &str, by: f64) -> String {
    let from = good.find("<svg").unwrap_or(0);
    let end = from + good[from..].find('>').unwrap_or(0);
    let tag = &good[from..end];
    let lengths = behind(tag, "\"")
        .into_iter()
        .filter(|f| tag[f.at.end..].starts_with("mm"));
    let changed = put_all(tag, &lengths.collect::<Vec<_>>(), |f| {
        format!("{:.4}", f.value * by)
    });
    format!("{}{changed}{}", &good[..from], &good[end..])
}

/// The area shown times `by`.
fn shown(good: &str, by: f64) -> String {
    let from = good.find("viewBox=").unwrap_or(0) + "viewBox=".len();
    let end = from + 1 + good[from + 1..].find('"').unwrap_or(0);
    let area = &good[from..end];
    let changed = put_all(area, &behind(area, "\" "), |f| format!("{:.4}", f.value * by));
    format!("{}{changed}{}", &good[..from], &good[end..])
}
