//! What the joiner ought to know of a plan, in plain sentences.

use crate::Plan;
use crate::laid_stock::LaidStock;
use cintre_toolpath::Note;
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
        arches.chain(forms).chain(gathered(cuts)).chain(layouts).collect()
    }
}

/// Notes of sheets, one of each kind: of corners left the deepest, of others the first.
fn gathered<'a>(notes: impl Iterator<Item = (&'a str, &'a Note)>) -> impl Iterator<Item = String> {
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
    kinds.into_iter().map(|(sheet, note, more)| match more {
        0 => format!("{sheet}: {note}"),
        _ => format!("{sheet}: {note} (and {more} more like it, all on the job sheet)"),
    })
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
    use cintre_toolpath::Edge;

    #[test]
    fn notes_of_one_kind_are_told_once_with_their_number_and_the_deepest() {
        let left = |depth| Note::Leftover {
            part: "rib".to_owned(),
            edge: Edge::Opening(0),
            bit: "straight-6".to_owned(),
            places: 2,
            depth,
            at: Point::new(10.0, 20.0),
        };
        let few = |placed| Note::FewTabs {
            part: "rib".to_owned(),
            edge: Edge::Outline,
            wanted: 4,
            placed,
            share: 0.2,
        };
        let all = [left(0.4), few(2), left(0.9), Note::NoTabs, few(0), left(0.1)];
        let told: Vec<String> = gathered(all.iter().map(|note| ("sheet-1", note))).collect();
        assert_eq!(told.len(), 4, "{told:?}");
        let [deepest, ..] = &told[..] else { unreachable!() };
        assert!(deepest.contains("leaves 0.90 mm") && deepest.contains("and 2 more like it"));
        assert!(told.iter().filter(|note| note.contains("more like it")).count() == 1);
    }
}
