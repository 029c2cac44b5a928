//! Voussoirs of a camber arch: every joint runs to one point, which is not the centre of the soffit's arc, and the back is level.
//!
//! The units are of one width along the back, where they are as wide as they come, and are cut narrower towards the soffit. Each
//! joint's faces run even with its middle line, which runs through the point; the joints at the ends run even with their skewbacks.

use super::bed::{Bed, Face};
use super::{Crown, Voussoir, VoussoirError, Voussoirs, outline};
use crate::arch::{Arch, LevelBack};
use crate::{Path, Piece, Point, Soffit, Vec2};

/// Nothing narrower is cut, mm.
const NARROWEST: f64 = 1.0;

/// Divides a camber arch into `count` units with joints as thick as `joint` mm; none for any other arch.
pub fn camber_voussoirs(arch: &Arch, count: u32, joint: f64) -> Option<Result<Voussoirs, VoussoirError>> {
    let (Soffit::Path(soffit), Some(back)) = (&arch.soffit, arch.level_back) else {
        return None;
    };
    let line = back.line(arch.span);
    Some(Bed::new(soffit, &line).and_then(|bed| Fan { bed, back, joint }.divided(count)))
}

/// The joints' middles and the units between them, from the left.
struct Laid {
    middles: Vec<Face>,
    units: Vec<Voussoir>,
}

struct Fan {
    bed: Bed,
    back: LevelBack,
    joint: f64,
}

impl Fan {
    fn divided(&self, count: u32) -> Result<Voussoirs, VoussoirError> {
        let joint = self.joint;
        match count {
            0 => return Err(VoussoirError::None),
            n if n.is_multiple_of(2) => return Err(VoussoirError::Even { count }),
            _ if joint < 0.0 => return Err(VoussoirError::Joint { joint }),
            _ => {}
        }
        let Laid { middles, units } = self.units(count)?.ok_or_else(|| self.too_many(count))?;
        let key = units.get(units.len() / 2).map_or(0.0, |unit| unit.width);
        let lines = (1..)
            .zip(&middles)
            .map(|(number, face)| self.middle(*face, number));
        Ok(Voussoirs {
            count,
            crown: Crown::Key,
            width: key,
            joint,
            joint_at_back: joint,
            joints: lines.collect::<Result<_, _>>()?,
            units,
            steps: None,
            tallies: Vec::new(),
            least_radius: None,
        })
    }

    /// The joints' middles and the units between them; none where too little is left of these.
    fn units(&self, count: u32) -> Result<Option<Laid>, VoussoirError> {
        let Some(width_at_back) = self.width(count) else {
            return Ok(None);
        };
        let middles = self.middles(count, width_at_back);
        let units = (1..)
            .zip(middles.windows(2))
            .map(|(number, pair)| self.unit(number, pair));
        let units: Option<Vec<Voussoir>> = units.collect::<Result<_, _>>()?;
        Ok(units.map(|units| Laid { middles, units }))
    }

    /// How high the back lies over the point of the joints.
    fn height(&self) -> f64 {
        self.back.joints_meet + self.back.depth
    }

    /// Half the length of the back.
    fn half_back(&self) -> f64 {
        self.height() / self.back.skewback.tan()
    }

    /// Half of what a joint takes up of the back, where its middle line meets that at `x`.
    fn half_joint(&self, x: f64) -> f64 {
        self.joint / 2.0 * x.hypot(self.height()) / self.height()
    }

    /// Where the middle of a joint meets the back whose left face does at `from`: c = from + k √(c² + h²), of k = j / 2h.
    fn next_middle(&self, from: f64) -> f64 {
        let (height, k) = (self.height(), self.joint / 2.0 / self.height());
        let rest = 1.0 - k * k;
        (from + k * (from * from + height * height * rest).sqrt()) / rest
    }

    /// Where the left face of the unit on the crown meets the back, if every unit is so wide there.
    fn left_of_key(&self, count: u32, width: f64) -> f64 {
        let mut left = 2.0 * self.half_joint(self.half_back()) - self.half_back();
        for _ in 0..count / 2 {
            let middle = self.next_middle(left + width);
            left = middle + self.half_joint(middle);
        }
        left
    }

    /// The width at the back with which the key stands on the centre line.
    fn width(&self, count: u32) -> Option<f64> {
        /// Halvings: enough for every digit.
        const HALVINGS: u32 = 100;
        let (mut least, mut most) = (0.0, 2.0 * self.half_back());
        for _ in 0..HALVINGS {
            let width = f64::midpoint(least, most);
            if self.left_of_key(count, width) + width / 2.0 < 0.0 {
                least = width;
            } else {
                most = width;
            }
        }
        let width = f64::midpoint(least, most);
        (width >= NARROWEST).then_some(width)
    }

    /// The foot and direction of each joint's middle line at the back, from the left, both skewbacks' among them.
    fn middles(&self, count: u32, width: f64) -> Vec<Face> {
        let half = self.half_back();
        let skewed = half - self.half_joint(half);
        let lean = Vec2::new(half, self.height()).normalize();
        let mut left = vec![Face {
            foot: Point::new(-skewed, self.back.depth),
            up: Vec2::new(-lean.x, lean.y),
        }];
        let mut edge = 2.0 * self.half_joint(half) - half;
        for _ in 0..count / 2 {
            let x = self.next_middle(edge + width);
            left.push(Face {
                foot: Point::new(x, self.back.depth),
                up: Vec2::new(x, self.height()).normalize(),
            });
            edge = x + self.half_joint(x);
        }
        let mirrored = |face: &Face| Face {
            foot: Point::new(-face.foot.x, face.foot.y),
            up: Vec2::new(-face.up.x, face.up.y),
        };
        let right: Vec<Face> = left.iter().rev().map(mirrored).collect();
        left.into_iter().chain(right).collect()
    }

    /// A unit between two joints; none where too little is left of it.
    fn unit(&self, number: u32, joints: &[Face]) -> Result<Option<Voussoir>, VoussoirError> {
        let across = |face: &Face| self.half_joint(self.at_back(face));
        let moved = |face: &Face, by: f64| Face {
            foot: face.foot + Vec2::new(by, 0.0),
            up: face.up,
        };
        let (left, right) = (
            moved(&joints[0], across(&joints[0])),
            moved(&joints[1], -across(&joints[1])),
        );
        let (from, to) = self
            .soffit_at(left)
            .zip(self.soffit_at(right))
            .ok_or(VoussoirError::Back { number })?;
        if to - from < NARROWEST {
            return Ok(None);
        }
        let back = Path::polyline(&[left.foot, right.foot]);
        Ok(Some(Voussoir {
            outline: outline(&self.bed.soffit.part(from, to), &back),
            width: to - from,
            width_at_back: back.length(),
        }))
    }

    /// Where on the back the joints lean as this face does.
    fn at_back(&self, face: &Face) -> f64 {
        face.up.x / face.up.y * self.height()
    }

    fn middle(&self, face: Face, number: u32) -> Result<Path, VoussoirError> {
        let along = self.soffit_at(face).ok_or(VoussoirError::Back { number })?;
        Ok(Path::polyline(&[self.bed.soffit.station(along).0, face.foot]))
    }

    /// How far along the soffit a face stands that comes down from the back.
    fn soffit_at(&self, face: Face) -> Option<f64> {
        let far = face.foot - face.up * (2.0 * self.height() / face.up.y);
        let down = Piece::line(face.foot, far);
        let mut passed = 0.0;
        for piece in self.bed.soffit.pieces() {
            if let Some(at) = piece.meetings(&down, ON).first() {
                return Some(passed + piece.nearest(*at).fraction * piece.length());
            }
            passed += piece.length();
        }
        None
    }

    fn too_many(&self, count: u32) -> VoussoirError {
        let joint = self.joint;
        // No more than so many have a joint and a millimetre each at the soffit.
        let room = (self.bed.length / (joint + NARROWEST)).min(f64::from(count));
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "between 0 and a whole number of that kind"
        )]
        let room = room as u32;
        let fits = |n: &u32| matches!(self.units(*n), Ok(Some(_)));
        let most = (1..=room)
            .rev()
            .filter(|n| !n.is_multiple_of(2) && *n < count)
            .find(fits)
            .unwrap_or(0);
        VoussoirError::TooMany { count, joint, most }
    }
}

/// A face meets the soffit within this, mm.
const ON: f64 = 1e-9;

#[cfg(test)]
mod tests {
    use super::*;
    use crate::arch::{Camber, Semicircular, Skewback};

    fn camber(skewback: Skewback) -> Arch {
        let camber = Camber {
            span: 915.0,
            camber: Some(9.0),
            depth: 300.0,
            skewback,
        };
        camber.arch().unwrap()
    }

    #[test]
    fn joints_run_to_one_point_and_the_back_is_level() {
        for skewback in [Skewback::Sixty, Skewback::Rule, Skewback::Angle(1.3)] {
            let arch = camber(skewback);
            let back = arch.level_back.unwrap();
            let meet = Point::new(0.0, -back.joints_meet);
            let ring = camber_voussoirs(&arch, 13, 5.0).unwrap().unwrap();
            assert_eq!((ring.units.len(), ring.joints.len()), (13, 14));
            for joint in &ring.joints[1..13] {
                let (low, high) = (joint.start() - meet, joint.end() - meet);
                assert!(low.cross(high).abs() / high.hypot() < 1e-7);
                assert!((joint.end().y - 300.0).abs() < 1e-9);
            }
            let first = ring.units[0].width_at_back;
            for (unit, other) in ring.units.iter().zip(ring.units.iter().rev()) {
                assert!((unit.width_at_back - first).abs() < 1e-7);
                assert!((unit.width - other.width).abs() < 1e-7 && unit.width < first);
                assert!(unit.outline.is_counter_clockwise());
                assert!((unit.outline.bounds().y1 - 300.0).abs() < 1e-9);
            }
            // All of the back: units, and joints aslant on it.
            let aslant = |x: f64| 5.0 * x.hypot(back.joints_meet + 300.0) / (back.joints_meet + 300.0);
            let inner: f64 = ring.joints[1..13].iter().map(|joint| aslant(joint.end().x)).sum();
            let length = back.line(915.0).length();
            let all = 13.0 * first + inner + 2.0 * aslant(length / 2.0);
            assert!((all - length).abs() < 1e-6, "{all} {length}");
        }
    }

    #[test]
    fn neighbours_stand_a_joint_apart_and_the_ends_on_their_skewbacks() {
        let arch = camber(Skewback::Sixty);
        let ring = camber_voussoirs(&arch, 9, 8.0).unwrap().unwrap();
        for pair in ring.units.windows(2) {
            let (a, b) = (pair[0].outline.vertices(), pair[1].outline.vertices());
            let (low, high) = (a[1].point, a[2].point);
            let up = (high - low).normalize();
            for vertex in [b[0], b[3]] {
                assert!((up.cross(vertex.point - low).abs() - 8.0).abs() < 1e-6);
            }
        }
        // The left face of the first unit runs even with the skewback through the springing, a joint away from it.
        let first = ring.units[0].outline.vertices();
        let skewback = Vec2::new(-0.5, 0.75f64.sqrt());
        for vertex in [first[0], first[3]] {
            let off = skewback.cross(vertex.point - Point::new(-457.5, 0.0)).abs();
            assert!((off - 8.0).abs() < 1e-6, "{off}");
        }
        let key = &ring.units[4];
        assert!((key.width - ring.width).abs() < 1e-12);
        assert!((key.outline.bounds().x0 + key.outline.bounds().x1).abs() < 1e-7);
    }

    #[test]
    fn what_cannot_be_is_refused() {
        let arch = camber(Skewback::Sixty);
        let refused = |count, joint| camber_voussoirs(&arch, count, joint).unwrap().unwrap_err();
        assert_eq!(refused(12, 5.0), VoussoirError::Even { count: 12 });
        assert_eq!(refused(0, 5.0), VoussoirError::None);
        assert_eq!(refused(9, -1.0), VoussoirError::Joint { joint: -1.0 });
        let VoussoirError::TooMany { most, .. } = refused(301, 5.0) else {
            panic!("too many")
        };
        assert!(most > 99 && camber_voussoirs(&arch, most, 5.0).unwrap().is_ok());
        assert!(camber_voussoirs(&arch, most + 2, 5.0).unwrap().is_err());
        let half = Semicircular { span: 900.0 }.arch().unwrap();
        assert!(camber_voussoirs(&half, 9, 5.0).is_none());
    }
}
