//! Which ways of setting an arch out by hand work, and why others do not.

use super::Shown;
use super::rows::Rows;
use crate::arches::NamedArch;
use cintre_geometry::setting_out::{Fails, Verdict, Way, ways};
use serde_json::{Value, json};

fn verdicts(named: &NamedArch, room: Option<[f64; 2]>) -> Vec<Verdict> {
    let back = named.ring.as_ref().map(|(_, back)| back);
    ways(&named.arch, &named.fit.path, back, room)
}

/// Adds every way with what it takes.
pub(super) fn add(value: &mut Value, named: &NamedArch, room: Option<[f64; 2]>) {
    let one = |verdict: &Verdict| {
        json!({
            "by": verdict.way.words(),
            "works": verdict.fails.is_none(),
            "because": verdict.fails.map(|fails| match fails {
                Fails::Arm => "the arm is too long to be true",
                Fails::Room => "the room is too small",
            }),
            "arm": verdict.arm.map(|(arm, _)| arm),
            "longest_arm": verdict.arm.map(|(_, most)| most),
            "floor": verdict.floor,
        })
    };
    value["ways"] = verdicts(named, room).iter().map(one).collect();
}

/// Says which ways work; of one that does not, why.
pub(super) fn rows(rows: &mut Rows, named: &NamedArch, shown: Shown) {
    let all = verdicts(named, shown.room);
    let works: Vec<Way> = all.iter().filter(|v| v.fails.is_none()).map(|v| v.way).collect();
    let words = |ways: &[Way]| {
        ways.iter()
            .map(|way| way.words())
            .collect::<Vec<_>>()
            .join(", or ")
    };
    let listed = if works.is_empty() {
        "none, in this room".to_owned()
    } else {
        words(&works)
    };
    rows.put("set out by", &listed);
    for verdict in &all {
        if let Some(fails) = verdict.fails {
            rows.note(&format!(
                "{}: {}",
                refusal(verdict, fails, shown),
                instead(&works)
            ));
        }
    }
}

fn refusal(verdict: &Verdict, fails: Fails, shown: Shown) -> String {
    let way = verdict.way.words();
    match (fails, verdict.arm) {
        (Fails::Arm, Some((arm, most))) => {
            let too_long = if verdict.way == Way::Frame {
                "too long to keep straight"
            } else {
                "too long to swing true"
            };
            let (arm, most) = (shown.length(arm), shown.length(most));
            match verdict.way {
                Way::Trammel => format!("a trammel of {arm} is {too_long} (over {most})"),
                _ => format!("{way} has arms of {arm}, {too_long} (over {most})"),
            }
        }
        _ => {
            let [across, up] = verdict.floor.map(|side| shown.length(side));
            let [long, wide] = shown.room.unwrap_or_default().map(|side| shown.length(side));
            format!("{way} takes a floor of {across} by {up}, and the room is {long} by {wide}")
        }
    }
}

fn instead(works: &[Way]) -> String {
    let other = |way: &Way| match way {
        Way::Heights => "set out by the heights below".to_owned(),
        Way::Frame => "use the frame".to_owned(),
        other => format!("use {}", other.words()),
    };
    // Heights first: they always come out.
    let mut others: Vec<String> = works.iter().rev().map(other).collect();
    if others.is_empty() {
        others.push("no way has room here, take a larger floor, or a wall".to_owned());
    }
    others.join(", or ")
}
