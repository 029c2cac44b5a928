//! What the roads over a sheet give to note, in plain sentences.

use cintre_toolpath::{Edge, Note};

/// A sentence for each note; where several openings of one part have it alike, as a row of clamp holes does, one for them all.
pub(crate) fn sentences(notes: &[Note]) -> Vec<String> {
    let mut told: Vec<&str> = Vec::new();
    let mut sentences = Vec::new();
    for note in notes {
        let alike = |other: &&Note| on_opening(other).is_some() && on_opening(other) == on_opening(note);
        let count = notes.iter().filter(alike).count();
        match on_opening(note) {
            Some(part) if count > 1 => {
                if !told.contains(&part) {
                    told.push(part);
                    sentences.push(format!(
                        "{part}: {count} openings have no gentle stretch for tabs; they stand at corners or on tight curves"
                    ));
                }
            }
            _ => sentences.push(note.to_string()),
        }
    }
    sentences
}

/// The part, where the note is of tabs on tight curves of an opening.
fn on_opening(note: &Note) -> Option<&str> {
    match note {
        Note::TabsNearCorners {
            part,
            edge: Edge::Opening(_),
        } => Some(part),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_row_of_holes_is_told_once() {
        let note = |part: &str, edge| Note::TabsNearCorners {
            part: part.to_owned(),
            edge,
        };
        let notes = [
            note("a", Edge::Opening(0)),
            note("b", Edge::Opening(0)),
            note("a", Edge::Outline),
            note("a", Edge::Opening(1)),
            note("a", Edge::Opening(2)),
        ];
        let said = sentences(&notes);
        assert_eq!(said.len(), 3, "{said:?}");
        assert!(said[0].starts_with("a: 3 openings have"), "{said:?}");
        assert_eq!(said[1], notes[1].to_string());
        assert_eq!(said[2], notes[2].to_string());
    }
}
