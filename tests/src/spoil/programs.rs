//! Spoilt programs: a router's, a laser's or a pen's.

use super::figures::{Figure, behind, put, put_all};
use super::{Spoilt, cut_short, of, with_line};

/// A good program spoilt in every way. Some ways change nothing that counts at some places: who tries them must know.
pub fn spoilt_programs(good: &str) -> Vec<Spoilt> {
    let each = |letters: &str, change: &dyn Fn(&Figure) -> String| -> Vec<String> {
        behind(good, letters)
            .iter()
            .map(|figure| put(good, figure, &change(figure)))
            .collect()
    };
    let all = |letters: &str, change: &dyn Fn(&Figure) -> String| {
        vec![put_all(good, &behind(good, letters), change)]
    };
    let by = |off: f64| move |f: &Figure| format!("{:.4}", f.value + off);
    let times = |scale: f64| move |f: &Figure| format!("{:.4}", f.value * scale);
    let mut found = Vec::new();
    let mut take = |kind, texts| found.extend(of(kind, good, texts));
    take("arc centre", each("IJ", &by(0.05)));
    take("arc direction", swapped_words(good, "G2", "G3"));
    take("sign of an offset", each("IJ", &times(-1.0)));
    take("one coordinate, far", each("XY", &by(5.0)));
    take("one coordinate, near", each("XY", &by(0.05)));
    take("one coordinate, the other way", each("XY", &by(-0.05)));
    take("one height", each("Z", &by(-0.3)));
    take("decimals", each("XY", &|f| format!("{:.1}", f.value)));
    take(
        "a decimal point lost",
        each("XYIJ", &|f| format!("{:.4}", f.value).replace('.', "")),
    );
    take(
        "the unit's word",
        [good.replace("G21", "G20"), good.replace("G20", "G21")].to_vec(),
    );
    take(
        "feeds",
        all("F", &|_| String::new())
            .iter()
            .map(|t| t.replace(" F", ""))
            .collect(),
    );
    take(
        "spindle or beam",
        ["M3", "M4", "M5", "S"]
            .map(|word| without_word(good, word))
            .to_vec(),
    );
    take(
        "a rapid too low",
        each("Z", &|f| {
            if f.value > 3.0 {
                "1.5".to_owned()
            } else {
                format!("{:.4}", f.value)
            }
        }),
    );
    take("a feed made a rapid", swapped_words(good, "G1", "G0"));
    take(
        "a block deleted",
        (0..good.lines().count())
            .map(|i| with_line(good, i, None))
            .collect(),
    );
    take("blocks swapped", swapped_blocks(good));
    take("a pass missing", without_passes(good));
    take(
        "a tab gone or too low",
        tab_tops(good, &|z, floor| if z > floor { floor } else { z }),
    );
    take("a tab too high", tab_tops(good, &|z, _| z + 0.5));
    take("a tab too thin or too wide", thin_tabs(good));
    take("cut short", cut_short(good));
    take(
        "scale 25.4",
        [all("XYZIJ", &times(25.4)), all("XYZIJ", &times(1.0 / 25.4))].concat(),
    );
    take("mirrored", mirrored(good));
    take(
        "moved whole",
        [
            all("X", &by(0.05)),
            all("Y", &by(-0.05)),
            all("Z", &by(0.1)),
            all("Z", &by(-0.1)),
        ]
        .concat(),
    );
    take(
        "a line twice",
        (0..good.lines().count()).map(|i| twice(good, i)).collect(),
    );
    found
}

/// The same program written otherwise: none of these may be refused.
pub fn harmless_programs(good: &str) -> Vec<Spoilt> {
    let mut found = Vec::new();
    let mut take = |kind, text: String| found.extend(of(kind, good, vec![text]));
    take("a comment more", good.replacen("G17", "(BY HAND)\nG17", 1));
    take("CR LF", good.replace('\n', "\r\n"));
    take("an empty line more", good.replacen("M30", "\nM30", 1));
    take("small letters", lower(good));
    take("zeros dropped", good.replace(".0000", ".0").replace("000 ", " "));
    take("per cent signs", format!("%\n{good}%\n"));
    found
}

fn lower(good: &str) -> String {
    let line = |line: &str| {
        if line.starts_with('(') {
            line.to_owned()
        } else {
            line.to_lowercase()
        }
    };
    good.lines().map(|l| line(l) + "\n").collect()
}

/// Where a whole word stands on a line, that one swapped with the other.
fn swapped_words(good: &str, one: &str, other: &str) -> Vec<String> {
    let swap = |line: &str| -> Option<String> {
        let words: Vec<&str> = line.split(' ').collect();
        let at = words.iter().position(|w| *w == one || *w == other)?;
        let mut words = words.clone();
        words[at] = if words[at] == one { other } else { one };
        Some(words.join(" "))
    };
    let lines = good.lines().enumerate();
    lines
        .filter_map(|(i, line)| Some(with_line(good, i, Some(&swap(line)?))))
        .collect()
}

fn without_word(good: &str, word: &str) -> String {
    let keep = |w: &&str| *w != word && !(word == "S" && w.starts_with('S'));
    good.lines()
        .map(|line| {
            if line.starts_with('(') {
                format!("{line}\n")
            } else {
                line.split(' ').filter(keep).collect::<Vec<_>>().join(" ") + "\n"
            }
        })
        .collect()
}

fn swapped_blocks(good: &str) -> Vec<String> {
    let lines: Vec<&str> = good.lines().collect();
    let swap = |i: usize| {
        let mut lines = lines.clone();
        lines.swap(i, i + 1);
        lines.iter().map(|line| format!("{line}\n")).collect()
    };
    (0..lines.len().saturating_sub(1)).map(swap).collect()
}

/// Every move from one cut's way down to the next left out.
fn without_passes(good: &str) -> Vec<String> {
    let lines: Vec<&str> = good.lines().collect();
    let down = |line: &str| behind(line, "Z").first().is_some_and(|f| f.value < 0.0);
    let starts: Vec<usize> = (0..lines.len()).filter(|&i| down(lines[i])).collect();
    let without = |from: usize, to: usize| {
        let kept = lines.iter().enumerate().filter(|(i, _)| !(from..to).contains(i));
        kept.map(|(_, line)| format!("{line}\n")).collect()
    };
    starts.windows(2).map(|w| without(w[0], w[1])).collect()
}

/// Each height to which the bit rises out of the deepest and that is still in the wood, made another.
fn tab_tops(good: &str, change: &dyn Fn(f64, f64) -> f64) -> Vec<String> {
    let heights = behind(good, "Z");
    let floor = heights.iter().map(|f| f.value).fold(f64::INFINITY, f64::min);
    let tops = heights
        .windows(2)
        .filter(|w| w[1].value < 0.0 && w[0].value <= floor + 0.01 && w[1].value > w[0].value);
    tops.map(|w| put(good, &w[1], &format!("{:.4}", change(w[1].value, floor))))
        .collect()
}

/// A straight move along one axis that ends where a tab begins or ends, made longer or shorter by a millimetre.
fn thin_tabs(good: &str) -> Vec<String> {
    let lines: Vec<&str> = good.lines().collect();
    let mut found = Vec::new();
    for (i, pair) in lines.windows(2).enumerate() {
        let straight = pair[0].starts_with(['X', 'Y']) && behind(pair[0], "XYIJ").len() == 1;
        if straight && pair[1].starts_with('Z') {
            let figure = &behind(pair[0], "XY")[0];
            for off in [1.0, -1.0] {
                found.push(with_line(
                    good,
                    i,
                    Some(&put(pair[0], figure, &format!("{:.4}", figure.value + off))),
                ));
            }
        }
    }
    found
}

fn mirrored(good: &str) -> Vec<String> {
    let turn = |text: String| {
        let swapped = text.replace("G2 ", "G_ ").replace("G3 ", "G2 ");
        swapped.replace("G_ ", "G3 ")
    };
    let about = |letters: &str| {
        turn(put_all(good, &behind(good, letters), |f| {
            format!("{:.4}", -f.value)
        }))
    };
    // About the middle of what it cuts, where a part that is alike both ways would stay as it is.
    let xs = behind(good, "X");
    let (least, most) = xs.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |r, f| {
        (r.0.min(f.value), r.1.max(f.value))
    });
    let middle = turn(put_all(good, &behind(good, "XI"), |f| {
        let value = if f.letter == 'X' {
            least + most - f.value
        } else {
            -f.value
        };
        format!("{value:.4}")
    }));
    vec![about("XI"), about("YJ"), middle]
}

fn twice(good: &str, at: usize) -> String {
    let line = good.lines().nth(at).unwrap_or_default();
    with_line(good, at, Some(&format!("{line}\n{line}")))
}
