//! Spoilt files of a plotter.

use super::figures::{behind, put, put_all};
use super::{Spoilt, cut_short, of, with_line};

/// A good HP-GL file spoilt in every way that changes what it draws.
pub fn spoilt_plots(good: &str) -> Vec<Spoilt> {
    let lines: Vec<&str> = good.lines().collect();
    let figures: Vec<_> = behind(good, "DUA,").into_iter().collect();
    let with = |i: usize, line: &str| with_line(good, i, Some(line));
    let mut found = Vec::new();
    let mut take = |kind, texts| found.extend(of(kind, good, texts));
    take(
        "one coordinate",
        figures
            .iter()
            .map(|f| put(good, f, &format!("{:.0}", f.value + 4.0)))
            .collect(),
    );
    take(
        "a sign",
        figures
            .iter()
            .map(|f| put(good, f, &format!("{:.0}", -f.value)))
            .collect(),
    );
    take(
        "decimals",
        figures
            .iter()
            .map(|f| put(good, f, &format!("{:.1}", f.value / 10.0)))
            .collect(),
    );
    take(
        "pen up for down",
        lines
            .iter()
            .enumerate()
            .map(|(i, l)| with(i, &l.replacen("PD", "PU", 1)))
            .collect(),
    );
    take(
        "pen down for up",
        lines
            .iter()
            .enumerate()
            .map(|(i, l)| with(i, &l.replacen("PU", "PD", 1)))
            .collect(),
    );
    take(
        "an instruction deleted",
        (0..lines.len()).map(|i| with_line(good, i, None)).collect(),
    );
    take(
        "a lift lost",
        (0..lines.len())
            .filter(|&i| lines[i].starts_with("PU"))
            .map(|i| with_line(good, i, None))
            .collect(),
    );
    take("cut short", cut_short(good));
    take(
        "scale 25.4",
        vec![
            put_all(good, &figures, |f| format!("{:.0}", f.value * 25.4)),
            put_all(good, &figures, |f| format!("{:.0}", f.value / 25.4)),
        ],
    );
    take(
        "mirrored",
        vec![put_all(good, &figures, |f| format!("{:.0}", -f.value))],
    );
    found
}
