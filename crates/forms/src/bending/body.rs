//! The body of a form: layers of sheet with the face on one side, and on the other what the clamps take hold of.

use super::clamping::{BEHIND, Clamping, inside};
use super::division::{Division, Section};
use super::lines::{Lines, Place, along, station};
use super::{BendingError, Input, Seat, Side, tried};
use crate::Error;
use crate::centering::{Member, chord};
use cintre_geometry::{Outline, Path, Point, Vec2};
use cintre_work::{Bore, Depth};

/// Between two segments of a female, so that each can be drawn up, mm.
const SEGMENT_GAP: f64 = 3.0;

/// Flats of neighbours that are out of line by less than this meet half way between them, as the sine of the angle.
const IN_LINE: f64 = 1e-6;

/// One half of a form.
#[derive(Clone, Debug)]
pub(super) struct Body {
    pub(super) side: Side,
    /// Its face.
    pub(super) face: Path,
    pub(super) members: Vec<Member>,
    /// Its dowels.
    pub(super) dowels: Vec<Point>,
    /// How many segments it is in, each of them whole from top to bottom.
    pub(super) segments: usize,
    /// The least distance of one layer's joints from the other's along the face, mm; none where it has no joints.
    pub(super) stagger: Option<f64>,
}

/// What a body is made from.
pub(super) struct Maker<'a> {
    pub(super) input: &'a Input,
    pub(super) lines: &'a Lines,
    pub(super) clamping: &'a Clamping,
    pub(super) layers: usize,
    pub(super) side: Side,
    face: Path,
    /// The line through the middle of the ligament, where dowels stand.
    row: Path,
    /// The wood's back, where holes are its seats.
    back: Option<Path>,
}

impl<'a> Maker<'a> {
    pub(super) fn new(
        input: &'a Input,
        lines: &'a Lines,
        clamping: &'a Clamping,
        layers: usize,
        side: Side,
    ) -> Result<Self, Error> {
        let ligament = input.clamps.ligament;
        let mut maker = Self {
            input,
            lines,
            clamping,
            layers,
            side,
            face: lines.face(side)?,
            row: inside(input, lines, side, ligament / 2.0)?,
            back: None,
        };
        maker.back = match maker.hole() {
            Some(hole) => Some(inside(input, lines, side, ligament + hole + BEHIND)?),
            None => {
                // Flats lie no deeper than this.
                inside(input, lines, side, ligament)?;
                None
            }
        };
        Ok(maker)
    }

    /// The diameter of its clamp holes; none where its clamps sit on flats, as they do on the female of a pair.
    fn hole(&self) -> Option<f64> {
        match self.input.clamps.seat {
            Seat::Holes(hole) if !self.is_segmented() => Some(hole),
            _ => None,
        }
    }

    pub(super) fn is_segmented(&self) -> bool {
        self.input.side == Side::Pair && self.side == Side::Female
    }

    pub(super) fn body(&self) -> Result<Body, Error> {
        let fits = |section: &Section| {
            self.member(section, &[])
                .is_some_and(|member| self.takes(&member))
        };
        let division = if self.is_segmented() {
            Division::segments(self, &fits)?
        } else {
            Division::layers(self, &fits)?
        };
        let dowels: Vec<Point> = division
            .dowels
            .iter()
            .map(|&at| station(&self.row, at).0)
            .collect();
        let mut members = Vec::new();
        for section in &division.sections {
            members.extend(self.member(section, &dowels));
        }
        if members.len() < division.sections.len() {
            return Err(self.no_pieces());
        }
        Ok(Body {
            side: self.side,
            face: self.face.clone(),
            members,
            dowels,
            segments: if self.is_segmented() {
                division.sections.len()
            } else {
                1
            },
            stagger: division.stagger,
        })
    }

    pub(super) fn no_pieces(&self) -> Error {
        tried(BendingError::Pieces {
            what: if self.side == Side::Female {
                "the female"
            } else {
                "the male"
            },
            most: super::division::MOST,
        })
    }

    /// How far along the face two places lie apart, mm.
    pub(super) fn apart(&self, from: Place, to: Place) -> f64 {
        along(&self.face, to) - along(&self.face, from)
    }

    fn takes(&self, member: &Member) -> bool {
        let (length, width) = member.size();
        self.input.sheet.is_none_or(|sheet| sheet.takes(length, width))
    }

    fn reach(&self, section: &Section) -> (f64, f64) {
        let inset = |open: bool| if open { SEGMENT_GAP / 2.0 } else { 0.0 };
        (
            along(&self.face, section.from) + inset(section.open_at_start),
            along(&self.face, section.to) - inset(section.open_at_end),
        )
    }

    /// The piece of a layer between two places, with its clamp holes and those of the dowels that it holds; none where it cannot be.
    fn member(&self, section: &Section, dowels: &[Point]) -> Option<Member> {
        let (from, to) = self.reach(section);
        if from >= to {
            return None;
        }
        let face = self.face.part(from, to);
        let back = match &self.back {
            Some(back) => back.part(along(back, section.from), along(back, section.to)),
            None => self.flats(&face, section)?,
        };
        let edge = face
            .then(&Path::polyline(&[face.end(), back.end()]))
            .then(&back.reversed());
        let outline = Outline::closing(&edge).oriented(true);
        let grain = chord(&face);
        let mut member = Member::new(section.name.clone(), section.layer, outline, grain);
        if let Some(hole) = self.hole() {
            let row = inside(
                self.input,
                self.lines,
                self.side,
                self.input.clamps.ligament + hole / 2.0,
            )
            .ok()?;
            member.openings = section
                .clamps
                .iter()
                .map(|&at| Outline::circle(station(&row, at).0, hole / 2.0).reversed())
                .collect();
        }
        let held = dowels.iter().filter(|&&p| member.outline.contains(p));
        member.bores = held
            .map(|&centre| Bore {
                centre,
                diameter: self.input.body.dowel,
                depth: Depth::Through,
            })
            .collect();
        Some(member)
    }

    /// The back of a section: a flat for each clamp, square to it, from the section's start to its end.
    fn flats(&self, face: &Path, section: &Section) -> Option<Path> {
        let inwards = if self.side == Side::Female { 1.0 } else { -1.0 };
        let ligament = self.input.clamps.ligament;
        let flats: Vec<(Point, Vec2)> = section
            .clamps
            .iter()
            .map(|&at| {
                let (p, left) = station(&self.face, at);
                (p + left * (inwards * ligament), Vec2::new(left.y, -left.x))
            })
            .collect();
        let (first, last) = (flats.first()?, flats.last()?);
        let square =
            |piece: Option<cintre_geometry::Piece>, at: f64| piece.map(|p| crate::line::left_of(&p, at));
        let mut points = vec![meeting(face.start(), square(face.pieces().next(), 0.0)?, *first)?];
        for pair in flats.windows(2) {
            let half_way = pair[0].0.midpoint(pair[1].0);
            let in_line = pair[0].1.cross(pair[1].1).abs() < IN_LINE;
            points.push(if in_line {
                half_way
            } else {
                meeting(pair[0].0, pair[0].1, pair[1])?
            });
        }
        points.push(meeting(face.end(), square(face.pieces().last(), 1.0)?, *last)?);
        Some(Path::polyline(&points))
    }
}

/// Where the line through `p` along `direction` meets another.
fn meeting(p: Point, direction: Vec2, (q, along): (Point, Vec2)) -> Option<Point> {
    let across = direction.cross(along);
    (across.abs() > f64::EPSILON).then(|| p + direction * ((q - p).cross(along) / across))
}
