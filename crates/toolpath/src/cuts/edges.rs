//! Edges and recesses cut by one bit, and the corners that a finer one gets into.

use super::{Cuts, OneCut, Stage, line_cut};
use crate::choose::Tool;
use crate::corners::{Swept, stretches};
use crate::demand::{parallels, room_parallels};
use crate::owner::Owner;
use crate::profile::Profile;
use crate::recess::{Pocket, STEP_OVER};
use crate::relief::{Spur, relieved};
use crate::setup::Setup;
use crate::{Edge, Error, Note};
use cintre_geometry::{Outline, Path, leftovers};
use cintre_work::{Recess, Relieved};

impl<'a> Cuts<'a> {
    pub(super) fn recess(
        &mut self,
        owner: &Owner<'_>,
        edge: Edge,
        room: &Recess,
        setup: &Setup<'_>,
    ) -> Result<(), Error> {
        let pocket = Pocket {
            part: owner.name,
            edge,
            room,
            others: &owner.own,
            setup: *setup,
        };
        let cleared = pocket.cleared()?;
        self.relieve(owner, &cleared.spurs, setup);
        for finer in finer(setup) {
            // The floor of a corner wider than the finer bit takes several stretches beside one another.
            let radius = finer.radius();
            let swept = Swept {
                roads: &cleared.walls,
                radius: setup.tool.radius(),
                filled: true,
            };
            let mut off = radius;
            loop {
                let roads = room_parallels(owner.name, edge, room, off)?;
                let found = stretches(&roads, radius, &swept);
                if found.is_empty() || finer.bit.reach() < room.depth {
                    break;
                }
                let with = setup.with(finer);
                let cut = |line: &Path| line_cut(owner.name, line, room.depth, &with);
                self.add(finer, Stage::Corner, found.iter().map(cut));
                off += STEP_OVER * radius;
            }
        }
        self.add(setup.tool, Stage::Recess, [cleared.cut]);
        self.notes.extend(corner_notes(cleared.notes, setup));
        Ok(())
    }

    fn relieve(&mut self, owner: &Owner<'_>, spurs: &[Spur], setup: &Setup<'_>) {
        self.reliefs.extend(spurs.iter().map(|spur| Relieved {
            part: owner.name.to_owned(),
            from: spur.from,
            to: spur.to,
            diameter: setup.tool.bit.diameter,
        }));
    }

    /// The cuts along one edge with the wood on its left: one, or several where the bit's road falls apart; and before them
    /// what only a finer bit gets out of its corners.
    pub(super) fn profile(
        &mut self,
        owner: &Owner<'_>,
        edge: Edge,
        outline: &Outline,
        setup: &Setup<'a>,
    ) -> Result<(), Error> {
        let part = owner.name;
        let radius = setup.tool.radius();
        let edges = std::slice::from_ref(outline);
        let plain = parallels(part, edge, outline, radius)?;
        let rule = setup.router.relief;
        let made = relieved(edges, plain.clone(), (radius, radius), rule, &owner.own);
        let centres = made.roads;
        self.relieve(owner, &made.spurs, setup);
        let left = leftovers(outline, &centres, radius);
        let mut notes: Vec<Note> = made
            .left
            .iter()
            .map(|at| Note::NoRelief {
                part: part.to_owned(),
                edge,
                at: *at,
            })
            .collect();
        notes.extend(left.first().map(|most| Note::Leftover {
            part: part.to_owned(),
            edge,
            bit: setup.tool.bit.name.clone(),
            places: left.len(),
            depth: most.depth,
            at: most.at,
        }));
        if !left.is_empty() {
            self.corners(owner, edge, outline, &centres, setup)?;
        }
        self.notes.extend(corner_notes(notes, setup));
        let profile = Profile {
            owner,
            edge,
            outline,
            setup,
        };
        for (centre, plain) in centres.iter().zip(&plain) {
            let made = profile.made(centre, plain)?;
            self.contours.push((setup.tool.bit.name.clone(), made.contour));
            self.tabs.extend(made.tabs);
            self.notes.extend(made.notes);
        }
        Ok(())
    }

    /// What finer bits get out of the corners of an edge that goes through.
    fn corners(
        &mut self,
        owner: &Owner<'_>,
        edge: Edge,
        outline: &Outline,
        roads: &[Outline],
        setup: &Setup<'_>,
    ) -> Result<(), Error> {
        let swept = Swept {
            roads,
            radius: setup.tool.radius(),
            filled: false,
        };
        for finer in finer(setup) {
            if finer.bit.reach() < setup.profile_depth() {
                continue;
            }
            let fine = parallels(owner.name, edge, outline, finer.radius())?;
            let with = setup.with(finer);
            let cuts: Vec<OneCut> = stretches(&fine, finer.radius(), &swept)
                .iter()
                .map(|line| line_cut(owner.name, line, setup.profile_depth(), &with))
                .collect();
            self.add(finer, Stage::Corner, cuts);
        }
        Ok(())
    }
}

/// The bits that are finer than the setup's, the finest first.
fn finer<'a>(setup: &Setup<'a>) -> Vec<Tool<'a>> {
    let all = &setup.chosen.straights;
    // One finer bit is enough for corners: it leaves least.
    all.first()
        .filter(|t| t.bit.diameter < setup.tool.bit.diameter)
        .copied()
        .into_iter()
        .collect()
}

/// Notes of corners left, but for those that a finer bit cuts afterwards: of these its own leftover is what stays.
fn corner_notes(notes: Vec<Note>, setup: &Setup<'_>) -> impl Iterator<Item = Note> + use<> {
    let finest = finer(setup)
        .first()
        .map(|t| (t.bit.name.clone(), t.bit.diameter / setup.tool.bit.diameter));
    notes.into_iter().map(move |note| match (note, &finest) {
        (
            Note::Leftover {
                part,
                edge,
                places,
                depth,
                at,
                ..
            },
            Some((bit, share)),
        ) => Note::Leftover {
            part,
            edge,
            bit: bit.clone(),
            places,
            // In one and the same corner the depth left goes with the radius.
            depth: depth * share,
            at,
        },
        (note, _) => note,
    })
}
