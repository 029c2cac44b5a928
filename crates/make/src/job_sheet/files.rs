//! The files of the made folder, with their sizes and checksums.

use super::html::{Page, code, sum, text};
use super::{FILES, JobSheet};

/// The file that lists this one.
const MANIFEST: &str = cintre_proof::MANIFEST;

impl JobSheet<'_> {
    pub(super) fn list_files(&self, page: &mut Page) {
        page.section("files", "files", FILES, |page| {
            page.paragraph(
                &text("Compare size and SHA-256 of a file after it was copied, or let ")
                    .and(code("cintre prove"))
                    .then(" do it and prove the cut files again. The checksum of this page stands in ")
                    .and(code(MANIFEST))
                    .then("."),
            );
            let rows: Vec<_> = self
                .files
                .iter()
                .map(|file| vec![code(&file.path), text(&grouped(file.bytes)), sum(&file.sha256)])
                .collect();
            page.table(
                "Every file of the folder, but for this page and the manifest",
                &["file", "bytes", "SHA-256"],
                &rows,
            );
        });
    }
}

/// A whole number, its digits in threes with thin gaps.
fn grouped(number: usize) -> String {
    let digits = number.to_string();
    let mut text = String::new();
    for (i, digit) in digits.chars().enumerate() {
        if i > 0 && (digits.len() - i).is_multiple_of(3) {
            text.push('\u{202f}');
        }
        text.push(digit);
    }
    text
}

#[cfg(test)]
mod tests {
    use super::grouped;

    #[test]
    fn digits_stand_in_threes() {
        let texts = [7, 999, 1000, 1_234_567].map(grouped);
        assert_eq!(texts, ["7", "999", "1\u{202f}000", "1\u{202f}234\u{202f}567"]);
    }
}
