//! Kits: forms that go to the bench together. Each form is one, and so are all that bear one name.

use cintre_job::FormSpec;
use cintre_work::Sheet;
use std::collections::{BTreeMap, BTreeSet};

/// The kit of a form: the number of the first form that is of it.
pub(crate) fn of(forms: &[FormSpec], number: usize) -> usize {
    match &forms[number].kit {
        Some(kit) => forms
            .iter()
            .position(|f| f.kit.as_ref() == Some(kit))
            .unwrap_or(number),
        None => number,
    }
}

/// The order in which sheets are cut so that one kit after the other comes off complete: always next the kit that needs the
/// fewest sheets more, of equals the one named first.
pub(crate) fn order(sheets: &[Sheet], kit_of: impl Fn(&str) -> Option<usize>) -> Vec<usize> {
    let mut lacking: BTreeMap<usize, BTreeSet<usize>> = BTreeMap::new();
    for (number, sheet) in sheets.iter().enumerate() {
        for kit in sheet.parts.iter().filter_map(|placed| kit_of(&placed.name)) {
            lacking.entry(kit).or_default().insert(number);
        }
    }
    let mut order: Vec<usize> = Vec::new();
    while let Some((&kit, _)) = lacking.iter().min_by_key(|(_, sheets)| sheets.len()) {
        let next = lacking.remove(&kit).unwrap_or_default();
        for lacks in lacking.values_mut() {
            lacks.retain(|sheet| !next.contains(sheet));
        }
        order.extend(next);
    }
    let rest: Vec<usize> = (0..sheets.len()).filter(|s| !order.contains(s)).collect();
    order.extend(rest);
    order
}

#[cfg(test)]
mod tests {
    use super::*;
    use cintre_geometry::{Outline, Rect};
    use cintre_work::{Grain, Part, Placed, Stock, StockGrain, Trim};

    fn sheet(names: &[&str]) -> Sheet {
        let placed = |name: &&str| Placed {
            name: (*name).to_owned(),
            part: Part {
                name: (*name).to_owned(),
                outline: Outline::rectangle(Rect::new(0.0, 0.0, 10.0, 10.0)),
                openings: vec![],
                bores: vec![],
                recesses: vec![],
                marks: vec![],
                clean: Vec::new(),
                stock: "ply18".to_owned(),
                thickness: 18.0,
                grain: Grain::Free,
                count: 1,
                fit_error: 0.0,
            },
        };
        Sheet {
            id: String::new(),
            stock: Stock {
                name: "ply18".to_owned(),
                material: "plywood".to_owned(),
                size: (2440.0, 1220.0),
                thickness: 18.0,
                grain: StockGrain::Long,
                sheets: None,
                trim: Trim::even(8.0),
                outline: None,
                keep_outs: vec![],
                alike: false,
            },
            parts: names.iter().map(placed).collect(),
        }
    }

    #[test]
    fn sheets_come_in_the_order_in_which_kits_are_soonest_complete() {
        let kit = |name: &str| {
            name.chars()
                .next()
                .map(|c| usize::from(c != 'a') + usize::from(c == 'c'))
        };
        let sheets = [
            sheet(&["a1", "c1"]),
            sheet(&["a2", "a3"]),
            sheet(&["a4", "b1"]),
            sheet(&["b2", "c2"]),
            sheet(&["c3"]),
        ];
        // b needs two sheets, the fewest; then a two more, then c one.
        assert_eq!(order(&sheets, kit), [2, 3, 0, 1, 4]);
        assert_eq!(order(&[], kit), [0; 0]);
        assert_eq!(order(&sheets, |_| None), [0, 1, 2, 3, 4]);
    }
}
