//! Ways to spoil a good cut file.

mod beams;
mod drawings;
mod figures;
mod papers;
mod pictures;
mod plots;
mod programs;

pub use beams::{around_last_cut, spoilt_beams};
pub use drawings::spoilt_dxf;
pub use papers::spoilt_paper;
pub use pictures::spoilt_svg;
pub use plots::spoilt_plots;
pub use programs::{harmless_programs, spoilt_programs};

/// Every number behind one of some letters, outside comments.
pub(crate) fn figures_behind(text: &str, letters: &str) -> Vec<(char, f64)> {
    figures::behind(text, letters)
        .into_iter()
        .map(|f| (f.letter, f.value))
        .collect()
}

/// How many places of a file are spoilt in one way, spread over it.
const PLACES: usize = 4;

/// A file spoilt in one way.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Spoilt {
    /// The way.
    pub kind: &'static str,
    /// The file.
    pub text: String,
}

/// The files of one kind that differ from the good one, no more than [`PLACES`] of them.
pub(crate) fn of(kind: &'static str, good: &str, texts: Vec<String>) -> Vec<Spoilt> {
    let differ: Vec<String> = texts.into_iter().filter(|text| text != good).collect();
    let step = differ.len().div_ceil(PLACES).max(1);
    let some = differ.into_iter().step_by(step);
    some.map(|text| Spoilt { kind, text }).collect()
}

/// The lines of a text with one of them made others; none of them where it is left out.
pub(crate) fn with_line(good: &str, at: usize, line: Option<&str>) -> String {
    let changed = good
        .lines()
        .enumerate()
        .filter_map(|(i, old)| if i == at { line } else { Some(old) });
    changed.map(|line| format!("{line}\n")).collect()
}

/// The text cut short at several places.
pub(crate) fn cut_short(good: &str) -> Vec<String> {
    let at = |share: usize| {
        let end = good.len() * share / 100;
        let whole = (0..=end).rev().find(|&i| good.is_char_boundary(i)).unwrap_or(0);
        good[..whole].to_owned()
    };
    [20, 50, 80, 95, 99].map(at).to_vec()
}
