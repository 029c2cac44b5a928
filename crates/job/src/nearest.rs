//! The word that was probably meant.

/// How alike two words must be for one to be suggested in place of the other, of 1.
const ALIKE: f64 = 0.72;

/// Longer words than this are not compared: no field or name is as long.
const LONGEST_WORD: usize = 60;

/// The most words that are listed.
const LISTED: usize = 30;

/// The one of `known` that is most like `word`, if any is like it.
pub(crate) fn nearest<'k>(word: &str, known: impl IntoIterator<Item = &'k str>) -> Option<&'k str> {
    if word.len() > LONGEST_WORD {
        return None;
    }
    let plain = |w: &str| w.to_lowercase().replace(['_', ' '], "-");
    let word = plain(word);
    known
        .into_iter()
        .map(|k| (strsim::jaro_winkler(&word, &plain(k)), k))
        .filter(|(alike, _)| *alike >= ALIKE)
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .map(|(_, k)| k)
}

/// What to say of a word that is not known: the nearest, and all that are.
pub(crate) fn suggestion<'k>(word: &str, known: impl IntoIterator<Item = &'k str>) -> String {
    let known: Vec<_> = known.into_iter().collect();
    let list = if known.is_empty() {
        "there are none".to_owned()
    } else {
        let more = if known.len() > LISTED { ", …" } else { "" };
        format!("known are: {}{more}", known[..known.len().min(LISTED)].join(", "))
    };
    match nearest(word, known.iter().copied()) {
        Some(near) => format!("did you mean `{near}`? {list}"),
        None => list,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_nearest_word_is_found() {
        let known = ["span", "rise", "radius", "size-meant"];
        assert_eq!(nearest("raduis", known), Some("radius"));
        assert_eq!(nearest("Size_Meant", known), Some("size-meant"));
        assert_eq!(nearest("kerf", known), None);
        assert_eq!(nearest(&"span".repeat(1000), known), None);
    }
}
