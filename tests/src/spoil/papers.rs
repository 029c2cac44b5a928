//! Spoilt drawings on paper. Each is as long as the good one, so that its table of places is still right.

use super::{Spoilt, cut_short, of};

/// A good PDF spoilt in every way that changes what is printed.
pub fn spoilt_paper(good: &str) -> Vec<Spoilt> {
    let mut found = Vec::new();
    let mut take = |kind, texts| found.extend(of(kind, good, texts));
    take("a bar's length", nudged(good, "bar"));
    take("a line's place", nudged(good, "outline"));
    take("a mark's place", nudged(good, "mark"));
    take("a page's crosses", moved(good, "cross"));
    // The marks of this drawing stand where two pages overlap, and one of them is enough.
    take(
        "a line not drawn",
        blocks(good, "outline")
            .filter_map(|(from, to)| Some(put(good, from + good[from..to].rfind("\nS\n")? + 1, "n")))
            .collect(),
    );
    take(
        "a page's size",
        good.match_indices("[0 0 595")
            .map(|(at, _)| put(good, at, "[0 0 612"))
            .collect(),
    );
    take("a page lost", vec![without_last_page(good)]);
    take(
        "pages swapped",
        vec![good.replace("6 0 R 8 0 R]", "8 0 R 6 0 R]")],
    );
    take(
        "full size not asked for",
        vec![good.replace("/PrintScaling /None", "/PrintScaling /Auto")],
    );
    take("cut short", cut_short(good));
    found
}

/// Each marked stretch of the pages' contents, from and to.
fn blocks<'a>(good: &'a str, mark: &str) -> impl Iterator<Item = (usize, usize)> + 'a {
    let begun = format!("/{mark} BMC");
    let starts: Vec<usize> = good.match_indices(&begun).map(|(at, _)| at).collect();
    starts
        .into_iter()
        .map(|from| (from, from + good[from..].find("EMC").unwrap_or(0)))
}

/// In each line of path data the last figure before the first decimal point made another: at least a point more or less.
fn nudged(good: &str, mark: &str) -> Vec<String> {
    let each = blocks(good, mark).flat_map(|block| figures(good, block));
    each.map(|(at, digit)| put(good, at, digit)).collect()
}

/// The same in all lines of a block at once.
fn moved(good: &str, mark: &str) -> Vec<String> {
    let all = |block| {
        let own = figures(good, block).into_iter();
        own.fold(good.to_owned(), |text, (at, digit)| put(&text, at, digit))
    };
    blocks(good, mark).map(all).collect()
}

/// Where such a figure stands in each line of a block, and another for it.
fn figures(good: &str, (from, to): (usize, usize)) -> Vec<(usize, &'static str)> {
    let (mut found, mut at) = (Vec::new(), from);
    for line in good[from..to].split_inclusive('\n') {
        let drawn = [" m\n", " l\n", " c\n"].iter().any(|end| line.ends_with(end));
        if let Some(dot) = line.find('.').filter(|_| drawn) {
            let digit = if line.as_bytes()[dot - 1] == b'4' {
                "5"
            } else {
                "4"
            };
            found.push((at + dot - 1, digit));
        }
        at += line.len();
    }
    found
}

/// The list of pages without its last.
fn without_last_page(good: &str) -> String {
    let from = good.find("/Kids").unwrap_or(0);
    let end = from + good[from..].find(']').unwrap_or(0);
    let last = end - "8 0 R".len();
    let fewer = put(&put(good, last, "     "), end, "]");
    fewer.replace("/Count 3", "/Count 2")
}

/// The text with as many bytes of it made others.
fn put(good: &str, at: usize, by: &str) -> String {
    format!("{}{by}{}", &good[..at], &good[at + by.len()..])
}
