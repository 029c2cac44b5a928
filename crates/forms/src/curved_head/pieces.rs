//! The segments as parts on their boards: which of them are alike, what is scribed on them, what each is called.

use super::divide::Divided;
use super::room::rooms;
use super::segment::Segment;
use super::{Input, Joint, joint};
use crate::marks::{self, NO_ROOM, from_edge};
use crate::{Error, Item};
use cintre_geometry::{Affine, Outline, Path, Piece, Point, Vec2};
use cintre_work::{Grain, Mark, MarkKind, Part};

/// Two segments are alike where no corner of one stands farther off the other's than this, mm: far below what any tool cuts to.
const ALIKE: f64 = 1e-4;

/// How far letters keep from an edge or a line, mm.
const CLEAR: f64 = 3.0;

/// The centre line keeps this far from the ends of a segment that it crosses, mm.
const BESIDE: f64 = 12.0;

/// Shares of a segment's length at which its name is tried, the middle first.
const PLACES: [f64; 7] = [0.5, 0.42, 0.58, 0.34, 0.66, 0.25, 0.75];

/// One segment where it stands.
#[derive(Clone, Debug)]
pub(super) struct Stands {
    pub(super) segment: Segment,
    /// Which of the parts it is.
    pub(super) part: usize,
    /// From the part's frame to the arch's.
    pub(super) place: Affine,
    /// In which layer, from 0.
    pub(super) layer: usize,
}

/// The parts of a head, and where each stands.
#[derive(Debug)]
pub(super) struct Pieces {
    pub(super) parts: Vec<Part>,
    pub(super) standing: Vec<Stands>,
    pub(super) notes: Vec<String>,
}

pub(super) fn pieces(input: &Input, divided: &Divided, used: Joint, layers: usize) -> Result<Pieces, Error> {
    let mut all = Pieces {
        parts: Vec::new(),
        standing: Vec::new(),
        notes: Vec::new(),
    };
    for layer in 0..layers {
        let segments = &divided.layers[layer % divided.layers.len()];
        let rooms_of = rooms(segments, used, input)?;
        for (i, segment) in segments.iter().enumerate() {
            let before = if segment.from.joined {
                rooms_of[(i + segments.len() - 1) % segments.len()]
            } else {
                None
            };
            let mut lines = joint::marks(segment, [before, rooms_of[i]], used, input);
            lines.extend(centre_line(segment, input));
            all.add(input, segment, lines, layer);
        }
    }
    all.name(input)?;
    Ok(all)
}

/// The arch's centre line at both edges of a segment that it goes through, clear of the segment's ends.
fn centre_line(segment: &Segment, input: &Input) -> Vec<Mark> {
    let soffit = &input.soffit;
    let x = if soffit.start().distance(soffit.end()) < super::band::MEET {
        soffit.bounds().center().x
    } else {
        soffit.start().midpoint(soffit.end()).x
    };
    let (Some(under), Some(over)) = (crosses(&segment.lower, x), crosses(&segment.upper, x)) else {
        return Vec::new();
    };
    let clear = [under, over].iter().all(|p| {
        [&segment.from, &segment.to]
            .iter()
            .all(|cut| cut.line.nearest(*p).distance > BESIDE)
    });
    if !clear {
        return Vec::new();
    }
    let up = (over - under).normalize();
    vec![
        from_edge(under, up, under.distance(over)),
        from_edge(over, -up, under.distance(over)),
    ]
}

/// The one point at which an edge crosses the plumb line at `x`.
fn crosses(edge: &Path, x: f64) -> Option<Point> {
    let bounds = edge.bounds();
    let plumb = Piece::line(Point::new(x, bounds.y0 - 1.0), Point::new(x, bounds.y1 + 1.0));
    let mut met = edge.pieces().flat_map(|piece| piece.meetings(&plumb, ALIKE));
    let first = met.next()?;
    met.all(|other| other.distance(first) < 1.0).then_some(first)
}

impl Pieces {
    fn add(&mut self, input: &Input, segment: &Segment, lines: Vec<Mark>, layer: usize) {
        let to_board = segment.to_board();
        let part = Part {
            name: String::new(),
            outline: segment.outline(),
            openings: Vec::new(),
            bores: Vec::new(),
            recesses: Vec::new(),
            marks: lines,
            clean: segment.joints(),
            stock: input.boards.stock.clone(),
            thickness: input.boards.thickness,
            grain: Grain::Along(segment.along),
            count: 1,
            fit_error: input.fit_error,
        };
        let part = Part {
            grain: Grain::Along(0.0),
            ..part.transformed(to_board)
        };
        let found = self.parts.iter().position(|other| alike(other, &part));
        let number = found.unwrap_or(self.parts.len());
        match found {
            Some(number) => self.parts[number].count += 1,
            None => self.parts.push(part),
        }
        self.standing.push(Stands {
            segment: segment.clone(),
            part: number,
            place: to_board.inverse(),
            layer,
        });
    }

    /// Names each part by a letter, and letters it.
    fn name(&mut self, input: &Input) -> Result<(), Error> {
        let kind = input.piece.name();
        let mut unnamed = false;
        for (number, part) in self.parts.iter_mut().enumerate() {
            part.name = format!("{} {kind} {}", input.arch, letter(number));
            let one = self.standing.iter().find(|stands| stands.part == number);
            let middles: Vec<Point> = one.map_or_else(Vec::new, |stands| {
                let to_part = stands.place.inverse();
                let middle = |share| to_part * stands.segment.middle(share).0;
                PLACES.map(middle).to_vec()
            });
            let (outline, lines) = (&part.outline, &part.marks);
            let clear = |p: Point| {
                outline.signed_distance(p) < -CLEAR
                    && lines.iter().all(|line| line.path.nearest(p).distance > CLEAR)
            };
            let mut letters = None;
            for text in [part.name.clone(), letter(number)] {
                letters = marks::name(&text, |_, _| middles.clone(), clear)?;
                if letters.is_some() {
                    break;
                }
            }
            unnamed |= letters.is_none();
            part.marks.extend(letters.into_iter().flatten());
        }
        if unnamed {
            self.notes.push(NO_ROOM.to_owned());
        }
        self.notes.extend(self.order());
        Ok(())
    }

    /// Which part stands where, from the left.
    fn order(&self) -> Vec<String> {
        let layers = self.standing.iter().map(|stands| stands.layer).max().unwrap_or(0) + 1;
        let row = |layer: usize| {
            let letters = self.standing.iter().filter(|stands| stands.layer == layer);
            letters
                .map(|stands| letter(stands.part))
                .collect::<Vec<_>>()
                .join(" ")
        };
        (0..layers)
            .map(|layer| {
                if layers == 1 {
                    format!("segments from the left: {}", row(0))
                } else {
                    format!("layer {}, segments from the left: {}", layer + 1, row(layer))
                }
            })
            .collect()
    }

    /// The blanks that the parts are got out of, square at their ends, for the cutting list.
    pub(super) fn blanks(&self, thickness: f64) -> Vec<Item> {
        let blank = |(number, part): (usize, &Part)| {
            let bounds = part.outline.bounds();
            let name = format!("blank for segment {}, where it is sawn", letter(number));
            Item::of(
                &name,
                part.count,
                bounds.width(),
                Some((bounds.height(), thickness)),
            )
        };
        self.parts.iter().enumerate().map(blank).collect()
    }
}

/// A, B, … Z, A2, B2, …
pub(super) fn letter(number: usize) -> String {
    let letter = char::from(b'A' + u8::try_from(number % 26).unwrap_or(0));
    match number / 26 {
        0 => letter.to_string(),
        round => format!("{letter}{}", round + 1),
    }
}

fn alike(a: &Part, b: &Part) -> bool {
    let near = |p: Point, q: Point| p.distance(q) < ALIKE;
    let same_edge = |a: &Outline, b: &Outline| {
        a.vertices().len() == b.vertices().len()
            && a.pieces()
                .zip(b.pieces())
                .all(|(p, q)| near(p.start, q.start) && near(p.point_at(0.5), q.point_at(0.5)))
    };
    let same_line = |a: &Mark, b: &Mark| {
        let (a, b) = (a.path.vertices(), b.path.vertices());
        a.len() == b.len() && a.iter().zip(b).all(|(p, q)| near(p.point, q.point))
    };
    same_edge(&a.outline, &b.outline)
        && a.marks.len() == b.marks.len()
        && a.marks.iter().zip(&b.marks).all(|(p, q)| same_line(p, q))
}

/// A scribed line.
pub(super) const fn scribe(path: Path) -> Mark {
    Mark {
        path,
        kind: MarkKind::Line,
    }
}

/// The way up from a point of an edge, for what stands beside it.
pub(super) fn beside(at: (Point, Vec2), by: f64) -> Point {
    at.0 + super::band::left(at.1) * by
}
