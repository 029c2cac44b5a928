//! A frame divided into pieces that fit the stock: the fewest like ones, and in two layers so that each covers the other's joints.

use super::frame::{Face, Frame, Side};
use super::member::{Layer, Member, chord};
use super::{Usable, figures::as_length};
use crate::Error;

/// More pieces than this to one stretch are not a rib, but firewood.
const MOST: usize = 40;

/// What a frame is divided by.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Division {
    /// The room on a sheet.
    pub(crate) sheet: Option<Usable>,
    /// The least lap of one layer's joints over the other's, mm.
    pub(crate) lap: f64,
    /// One layer or two.
    pub(crate) layers: u32,
    /// Half the width of the key along the middle, at `centre`, where the frame comes apart; none where it does not.
    pub(crate) key: Option<(f64, f64)>,
}

/// A frame in pieces.
#[derive(Debug, Default)]
pub(crate) struct Divided {
    pub(crate) members: Vec<Member>,
    /// The joints of the band in both layers, along its outer edge, from the left.
    pub(crate) joints: Vec<Face>,
    /// The joints of the tie, by their x, from the left.
    pub(crate) tie_joints: Vec<f64>,
    /// By how much the band's joints in one layer lap those in the other.
    pub(crate) lap: Option<f64>,
}

impl Division {
    pub(crate) fn divide(&self, frame: &Frame) -> Result<Divided, Error> {
        let mut divided = self.band(frame)?;
        if frame.depth.is_some() {
            self.tie(frame, &mut divided)?;
        }
        divided.joints.sort_by(|a, b| a.outer.total_cmp(&b.outer));
        divided.tie_joints.sort_by(f64::total_cmp);
        Ok(divided)
    }

    fn takes(&self, member: &Member) -> bool {
        let (length, width) = member.size();
        self.sheet.is_none_or(|sheet| sheet.takes(length, width))
    }

    fn band(&self, frame: &Frame) -> Result<Divided, Error> {
        let fewest = (1..=MOST).find_map(|n| self.band_in(frame, n).map(|divided| (n, divided)));
        let (n, mut divided) = fewest.ok_or(Error::Pieces { most: MOST })?;
        let length: f64 = self
            .stretches(frame)
            .iter()
            .map(|[from, to]| to - from)
            .fold(f64::INFINITY, f64::min);
        let lap = length / as_length(n) / 2.0;
        if self.layers == 2 {
            if lap < self.lap {
                return Err(Error::Lap {
                    given: self.lap,
                    pieces: n,
                    limit: lap,
                });
            }
            divided.lap = Some(lap);
        }
        Ok(divided)
    }

    /// The lengths of the outer edge between which the band is divided evenly.
    fn stretches(&self, frame: &Frame) -> Vec<[f64; 2]> {
        let level = |side| frame.level(frame.tie_top, side).map(|face| face.outer);
        let (Some(from), Some(to)) = (level(Side::Left), level(Side::Right)) else {
            return Vec::new();
        };
        match self.key {
            None => vec![[from, to]],
            Some((centre, half)) => {
                let cut = |x| frame.plumb(x).map(|face| face.outer);
                match (cut(centre - half), cut(centre + half)) {
                    (Some(a), Some(b)) => vec![[from, a], [b, to]],
                    _ => Vec::new(),
                }
            }
        }
    }

    /// The band in `n` pieces to a stretch in layer A; none where a piece does not fit or cannot be.
    fn band_in(&self, frame: &Frame, n: usize) -> Option<Divided> {
        let mut divided = Divided::default();
        for layer in [Layer::A, Layer::B].into_iter().take(self.layers as usize) {
            let joints = self.joints(frame, n, layer)?;
            let foot = if layer == Layer::A || frame.depth.is_none() {
                frame.bottom
            } else {
                frame.tie_top
            };
            let mut faces = vec![frame.level(foot, Side::Left)?];
            faces.extend(&joints);
            faces.push(frame.level(foot, Side::Right)?);
            for (number, pair) in (1..).zip(faces.windows(2)) {
                let outline = frame.piece(&pair[0], &pair[1])?;
                let grain = chord(&frame.outer.part(pair[0].outer, pair[1].outer));
                let member = Member::new(format!("rib {layer:?}{number}"), layer, outline, grain);
                if !self.takes(&member) {
                    return None;
                }
                divided.members.push(member);
            }
            divided.joints.extend(joints);
        }
        Some(divided)
    }

    /// The joints of one layer, from the left.
    fn joints(&self, frame: &Frame, n: usize, layer: Layer) -> Option<Vec<Face>> {
        let shift = if layer == Layer::A { 0.0 } else { 0.5 };
        let mut joints = Vec::new();
        let stretches = self.stretches(frame);
        if stretches.is_empty() {
            return None;
        }
        for (number, [from, to]) in stretches.into_iter().enumerate() {
            if number > 0 {
                let (centre, half) = self.key?;
                joints.push(frame.plumb(centre - half)?);
                joints.push(frame.plumb(centre + half)?);
            }
            for i in 0..n {
                let share = (as_length(i) + shift) / as_length(n);
                if share > 0.0 {
                    joints.push(frame.radial(from + (to - from) * share)?);
                }
            }
        }
        Some(joints)
    }

    fn tie(&self, frame: &Frame, divided: &mut Divided) -> Result<(), Error> {
        let fewest = (1..=MOST).find_map(|n| self.tie_in(frame, n));
        let (members, joints) = fewest.ok_or(Error::Pieces { most: MOST })?;
        divided.members.extend(members);
        divided.tie_joints.extend(joints);
        Ok(())
    }

    /// The tie in `n` pieces to a stretch; layer A lies between the legs, layer B goes from side to side under the band.
    fn tie_in(&self, frame: &Frame, n: usize) -> Option<(Vec<Member>, Vec<f64>)> {
        let (left, right) = frame.sides()?;
        let stretches = match self.key {
            None => vec![[left, right]],
            Some((centre, half)) => vec![[left, centre - half], [centre + half, right]],
        };
        let (mut members, mut all) = (Vec::new(), Vec::new());
        for layer in [Layer::A, Layer::B].into_iter().take(self.layers as usize) {
            let shift = if layer == Layer::A { 0.5 } else { 0.0 };
            let mut joints = Vec::new();
            for (number, &[from, to]) in stretches.iter().enumerate() {
                if number > 0 {
                    joints.extend([stretches[number - 1][1], from]);
                }
                // One piece needs no joint, and of one layer all joints lie under plates.
                let shift = if n == 1 || self.layers == 1 { 0.0 } else { shift };
                let shares = (0..n).map(|i| (as_length(i) + shift) / as_length(n));
                joints.extend(
                    shares
                        .filter(|&share| share > 0.0)
                        .map(|share| from + (to - from) * share),
                );
            }
            let ends = std::iter::once(None).chain(joints.iter().copied().map(Some));
            let nexts = joints.iter().copied().map(Some).chain([None]);
            for (number, (from, to)) in (1..).zip(ends.zip(nexts)) {
                let outline = frame.tie(layer == Layer::A, from, to)?;
                let member = Member::new(format!("tie {layer:?}{number}"), layer, outline, 0.0);
                if !self.takes(&member) {
                    return None;
                }
                members.push(member);
            }
            all.extend(joints);
        }
        Some((members, all))
    }
}
