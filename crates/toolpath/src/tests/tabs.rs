//! Where tabs stand on whole parts.

use super::{TABS, bit, part, rectangle, router, sheet};
use crate::{Edge, Note, plan};
use cintre_geometry::{Outline, Path};
use cintre_work::{BitKind, Part};

fn planned(part: Part) -> crate::Plan {
    let straight = bit("straight-6", BitKind::Straight, 6.0);
    plan(&sheet(vec![part]), &router(), &[straight]).unwrap()
}

#[test]
fn none_stands_on_an_edge_that_must_stay_clean() {
    let board = rectangle(40.0, 40.0, 640.0, 340.0);
    let bottom = Path::from_pieces(&[board.pieces().next().unwrap()]);
    let before = planned(part(board.clone())).tabs;
    assert!(before.iter().any(|tab| tab.at.y < 40.1), "there was one");
    let plan = planned(Part {
        clean: vec![bottom.clone()],
        ..part(board)
    });
    assert!(plan.tabs.len() >= 4);
    for tab in &plan.tabs {
        assert!(bottom.nearest(tab.at).distance > TABS.width / 2.0, "{:?}", tab.at);
    }
}

#[test]
fn where_all_must_stay_clean_they_stand_all_the_same_and_it_is_said() {
    let disc = Outline::circle((200.0, 200.0).into(), 120.0);
    let clean = disc.pieces().map(|piece| Path::from_pieces(&[piece])).collect();
    let plan = planned(Part { clean, ..part(disc) });
    assert!(plan.tabs.len() >= 2);
    let said = |note: &Note| {
        matches!(
            note,
            Note::TabsOnClean {
                edge: Edge::Outline,
                ..
            }
        )
    };
    assert!(plan.notes.iter().any(said), "{:?}", plan.notes);
}
