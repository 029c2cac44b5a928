//! A rib's members as parts on their stock, and as boards where no sheet is long enough.

use super::built::Built;
use super::spacing::Spacing;
use super::{Build, Input, Layer, Member, marks};
use crate::Error;
use cintre_work::{Grain, Part};

/// The parts of all ribs, each as it lies on its stock, and what to say of those that bear no name.
pub(super) fn parts(
    input: &Input,
    built: &Built,
    spacing: &Spacing,
    which: &str,
) -> Result<(Vec<Part>, Option<String>), Error> {
    let lines = marks::lines(&built.rib, input);
    let mut unnamed = None;
    let numbers: Vec<String> = (1..=spacing.ribs).map(|n| n.to_string()).collect();
    let mut all = Vec::new();
    for member in built.members.iter().filter(|member| is_cut(input, member)) {
        let name = format!("{} {which}{}", input.arch, member.name);
        let lying = member.lying();
        let mut part = Part {
            name: name.clone(),
            outline: member.outline.clone(),
            openings: member.openings.clone(),
            bores: member.bores.clone(),
            recesses: Vec::new(),
            marks: marks::on(member, &lines),
            clean: member.joints(&built.members),
            stock: input.stock.clone(),
            thickness: input.thickness,
            grain: Grain::Along(member.grain),
            count: spacing.ribs * if member.layer == Layer::OnBoth { 2 } else { 1 },
            fit_error: input.fit_error,
        }
        .transformed(lying);
        part.grain = Grain::Along(0.0);
        let mut wordings = vec![format!("{name}, this face up"), name];
        if built.build != Build::TurningPiece && spacing.ribs > 1 {
            wordings.insert(0, format!("{}, rib {}", wordings[0], numbers.join(", ")));
        }
        let flat = Member {
            outline: part.outline.clone(),
            openings: part.openings.clone(),
            bores: part.bores.clone(),
            ..member.clone()
        };
        match marks::letters(&flat, &part.marks, &wordings, &[])? {
            Some(letters) => part.marks.extend(letters),
            None => unnamed = Some(crate::marks::NO_ROOM.to_owned()),
        }
        all.push(part);
    }
    Ok((all, unnamed))
}

/// The members that are too long for the stock, as boards.
pub(super) fn boards_for(input: &Input, built: &Built, spacing: &Spacing) -> Vec<crate::Item> {
    let long = built.members.iter().filter(|member| !is_cut(input, member));
    long.map(|member| {
        let (length, width) = member.size();
        crate::Item::of(&member.name, spacing.ribs, length, Some((width, input.thickness)))
    })
    .collect()
}

/// Whether a member is cut from the stock: all are, but for posts and struts longer than a sheet, which are straight boards.
pub(super) fn is_cut(input: &Input, member: &Member) -> bool {
    let (length, width) = member.size();
    member.layer != Layer::OnInner || input.sheet.is_none_or(|sheet| sheet.takes(length, width))
}
