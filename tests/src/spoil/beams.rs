//! Spoilt programs of a laser whose beam is lit by M3 and put out by M5.

use super::{Spoilt, of, with_line};

/// A good laser's program spoilt in what its beam does: each burns otherwise.
pub fn spoilt_beams(good: &str) -> Vec<Spoilt> {
    let lines: Vec<&str> = good.lines().collect();
    let each = |word: &str, change: &dyn Fn(&str) -> Option<String>| -> Vec<String> {
        let own = (0..lines.len()).filter(|&i| lines[i].starts_with(word));
        own.map(|i| with_line(good, i, change(lines[i]).as_deref()))
            .collect()
    };
    let other_power = |line: &str| -> Option<String> {
        let to = if line == "M3 S20" { "M3 S80" } else { "M3 S20" };
        Some(to.to_owned())
    };
    let mut found = Vec::new();
    let mut take = |kind, texts| found.extend(of(kind, good, texts));
    take("a power's word lost", each("M3", &|_| Some("M3".to_owned())));
    take("another power", each("M3", &other_power));
    take("the beam never lit", each("M3", &|_| None));
    // The first of them puts out what was never lit.
    let mut left_on = each("M5", &|_| None);
    left_on.remove(0);
    take("the beam left on", left_on);
    take("marks after the cut", vec![cut_first(good)]);
    found
}

fn cut_first(good: &str) -> String {
    let (before, cut, after) = around_last_cut(good);
    let head = before.find("G0 ").unwrap_or(0);
    format!("{}{cut}M5 S0\n{}{after}", &before[..head], &before[head..])
}

/// What stands before the last cut with its way there, the cut, and what stands after it, from where the beam goes out.
pub fn around_last_cut(good: &str) -> (&str, &str, &str) {
    let lit = good.rfind("M3 S80").unwrap_or(good.len());
    let from = good[..lit].rfind("G0 ").unwrap_or(0);
    let to = lit + good[lit..].find("M5").unwrap_or(0);
    (&good[..from], &good[from..to], &good[to..])
}
