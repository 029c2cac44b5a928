//! What the joiner ought to know of a plan, in plain sentences.

use crate::Plan;
use crate::laid_stock::LaidStock;
use cintre_toolpath::{Edge, Note};
use std::mem::discriminant;

impl Plan {
    /// What the joiner ought to know of the forms and the sheets: of the cuts one sentence of each kind, and how many more
    /// there are. The job sheet names them all.
    pub fn notes(&self) -> Vec<String> {
        let arches = self.arches.iter().flat_map(|arch| {
            let notes = arch.arch.notes.iter();
            notes.map(move |note| format!("{}: {note}", arch.name))
        });
        let forms = self.forms.iter().flat_map(|form| &form.notes).cloned();
        let roads = self
            .sheets
            .iter()
            .filter_map(|sheet| sheet.road.as_ref().map(|road| (&sheet.sheet.id, road)));
        let cuts = roads.flat_map(|(id, road)| road.notes.iter().map(move |note| (id.as_str(), note)));
        let layouts = self.layouts.iter().flat_map(LaidStock::notes);
        let cuts = gathered(cuts, alike)
            .into_iter()
            .map(|(sheet, note, more)| match more {
                0 => format!("{sheet}: {note}"),
                _ => format!("{sheet}: {note} (and {more} more like it, all on the job sheet)"),
            });
        arches.chain(forms).chain(cuts).chain(layouts).collect()
    }
}

/// What the bits' roads over one sheet give to note, a sentence for each; where several openings of one part have it alike, as a row of
/// clamp holes does, one for them all.
pub(crate) fn of_sheet(notes: &[Note]) -> impl Iterator<Item = String> {
    let told = gathered(notes.iter().map(|note| ("", note)), in_a_row);
    told.into_iter().map(|(_, note, more)| match more {
        0 => note.to_string(),
        _ => format!("{note} (and so with {more} more of its openings)"),
    })
}

/// Notes, one of those that are alike, with the number of the others: of corners left the deepest, of others the first.
/// Each note comes with its sheet.
fn gathered<'a>(
    notes: impl Iterator<Item = (&'a str, &'a Note)>,
    alike: impl Fn(&Note, &Note) -> bool,
) -> Vec<(&'a str, &'a Note, usize)> {
    let mut kinds: Vec<(&str, &Note, usize)> = Vec::new();
    for (sheet, note) in notes {
        match kinds.iter_mut().find(|(_, first, _)| alike(first, note)) {
            None => kinds.push((sheet, note, 0)),
            Some((at, told, more)) => {
                *more += 1;
                if depth(note) > depth(told) {
                    (*at, *told) = (sheet, note);
                }
            }
        }
    }
    kinds
}

/// Whether two notes are of tabs on tight curves of openings of one part.
fn in_a_row(a: &Note, b: &Note) -> bool {
    let on_opening = |note: &Note| match note {
        Note::TabsNearCorners {
            part,
            edge: Edge::Opening(_),
        } => Some(part.clone()),
        _ => None,
    };
    on_opening(a).is_some() && on_opening(a) == on_opening(b)
}

/// Whether two notes say the same of different places.
fn alike(a: &Note, b: &Note) -> bool {
    let loose = |note: &Note| matches!(note, Note::FewTabs { placed: 0, .. });
    match (a, b) {
        // Each bit's chips have figures of their own.
        (Note::Chips(a), Note::Chips(b)) => a == b,
        _ => discriminant(a) == discriminant(b) && loose(a) == loose(b),
    }
}

const fn depth(note: &Note) -> f64 {
    if let Note::Leftover { depth, .. } = note {
        *depth
    } else {
        0.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use cintre_geometry::Point;

    fn left(depth: f64) -> Note {
        Note::Leftover {
            part: "rib".to_owned(),
            edge: Edge::Opening(0),
            bit: "straight-6".to_owned(),
            places: 2,
            depth,
            at: Point::new(10.0, 20.0),
        }
    }

    #[test]
    fn notes_of_one_kind_are_told_once_with_their_number_and_the_deepest() {
        let few = |placed| Note::FewTabs {
            part: "rib".to_owned(),
            edge: Edge::Outline,
            wanted: 4,
            placed,
            share: 0.2,
        };
        let all = [left(0.4), few(2), left(0.9), Note::NoTabs, few(0), left(0.1)];
        let told = gathered(all.iter().map(|note| ("sheet-1", note)), alike);
        let told: Vec<(&Note, usize)> = told.into_iter().map(|(_, note, more)| (note, more)).collect();
        assert_eq!(told, [(&all[2], 2), (&all[1], 0), (&all[3], 0), (&all[4], 0)]);
    }

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
            left(0.4),
            left(0.9),
        ];
        let said: Vec<String> = of_sheet(&notes).collect();
        assert_eq!(said.len(), 5, "{said:?}");
        assert!(
            said[0].starts_with("a: ") && said[0].ends_with("2 more of its openings)"),
            "{said:?}"
        );
        assert_eq!(said[1], notes[1].to_string());
        assert_eq!(said[2], notes[2].to_string());
    }
}
