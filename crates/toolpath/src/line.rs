//! An open line cut to a depth with the bit's centre on it: marks, grooves, chamfers, corners.

use crate::lap::along;
use crate::passes::Passes;
use crate::plan::APPROACH;
use cintre_geometry::{Path, Piece};
use cintre_work::{Feeds, Move, To};

/// A bit that must not plunge goes straight down as far as this above wood, mm: more than sheets stand uneven.
pub(crate) const SKIM: f64 = 0.5;

/// How a line is cut.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Line<'a> {
    pub(crate) depth: f64,
    pub(crate) feeds: &'a Feeds,
    /// How steeply the bit goes down along the line, radians; straight down where it is none.
    pub(crate) ramp: Option<f64>,
}

impl Line<'_> {
    /// The moves from [`APPROACH`] over the line's start to wherever on it they end, on the floor.
    ///
    /// A bit that ramps goes forward falling, back level over the ramp, and forward to the end; where the line is too short
    /// for that, to and fro.
    pub(crate) fn moves(self, line: &Path) -> Vec<Move> {
        let mut pen = Pen {
            line: whole(line),
            z: APPROACH,
            feeds: self.feeds,
            moves: Vec::new(),
        };
        for floor in Passes::of(self.depth, self.feeds.depth).floors() {
            let Some(ramp) = self.ramp else {
                pen.down(floor);
                pen.go(0.0, pen.line.length(), floor);
                pen.turn();
                continue;
            };
            if pen.z > SKIM {
                pen.down(SKIM);
            }
            pen.fall(floor, ramp);
        }
        pen.moves
    }
}

/// The line in pieces of at most half a turn.
fn whole(line: &Path) -> Path {
    let pieces: Vec<Piece> = line.pieces().flat_map(|p| p.within_half_turn()).collect();
    Path::from_pieces(&pieces)
}

/// The bit at one end of the line, which it sees run away from it.
struct Pen<'a> {
    line: Path,
    z: f64,
    feeds: &'a Feeds,
    moves: Vec<Move>,
}

impl Pen<'_> {
    fn turn(&mut self) {
        self.line = self.line.reversed();
    }

    fn down(&mut self, z: f64) {
        self.moves.push(Move {
            end: self.line.start(),
            z,
            to: To::Straight {
                feed: self.feeds.plunge,
            },
        });
        self.z = z;
    }

    /// Down to a floor along the line, which is then cut to it from end to end.
    fn fall(&mut self, floor: f64, ramp: f64) {
        let length = self.line.length();
        let needed = (self.z - floor) / ramp.tan();
        if needed < length {
            self.go(0.0, needed, floor);
            self.turn();
            self.go(length - needed, length, floor);
            self.turn();
        } else {
            let count = (needed / length).ceil();
            let (top, mut k) = (self.z, 1.0);
            while k <= count {
                self.go(0.0, length, top + (floor - top) * k / count);
                self.turn();
                k += 1.0;
            }
        }
        self.go(0.0, length, floor);
        self.turn();
    }

    /// Along the line between two places, the height changing evenly to `z`.
    fn go(&mut self, from: f64, to: f64, z: f64) {
        let stretch = self.line.part(from, to);
        let (top, total) = (self.z, stretch.length());
        let feed = if z < top {
            self.feeds.plunge
        } else {
            self.feeds.feed
        };
        let mut gone = 0.0;
        for piece in stretch.pieces() {
            gone += piece.length();
            let here = top + (z - top) * (gone / total).min(1.0);
            self.moves.push(along(&piece, here, feed));
        }
        if let Some(last) = self.moves.last_mut() {
            last.z = z;
        }
        self.z = z;
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use cintre_geometry::Point;

    const FEEDS: Feeds = Feeds {
        speed: 16000.0,
        feed: 3000.0,
        plunge: 900.0,
        depth: 3.0,
    };

    #[test]
    fn a_bit_that_must_not_plunge_falls_no_more_steeply_than_its_ramp_and_ends_level() {
        let ramp = 3_f64.to_radians();
        for length in [400.0, 60.0, 7.0] {
            let line = Path::polyline(&[Point::ZERO, Point::new(length, 0.0)]);
            let cut = Line {
                depth: 8.0,
                feeds: &FEEDS,
                ramp: Some(ramp),
            };
            let moves = cut.moves(&line);
            let (mut at, mut z) = (Point::ZERO, APPROACH);
            let mut level: Vec<(f64, f64)> = Vec::new();
            for m in &moves {
                let (flat, fall) = (m.end.distance(at), z - m.z);
                if flat > 0.0 {
                    assert!(fall <= flat * ramp.tan() * (1.0 + 1e-9), "{fall} in {flat}");
                } else {
                    assert!(m.z >= SKIM - 1e-12, "straight down into wood");
                }
                if (m.z + 8.0).abs() < 1e-9 && (z + 8.0).abs() < 1e-9 {
                    level.push((at.x.min(m.end.x), at.x.max(m.end.x)));
                }
                (at, z) = (m.end, m.z);
            }
            assert!(level.iter().any(|(a, b)| *a < 1e-9 && *b > length - 1e-9));
        }
    }

    #[test]
    fn a_bit_that_plunges_goes_to_and_fro_in_passes() {
        let line = Path::polyline(&[Point::ZERO, Point::new(30.0, 0.0)]);
        let cut = Line {
            depth: 5.0,
            feeds: &FEEDS,
            ramp: None,
        };
        let heights: Vec<f64> = cut.moves(&line).iter().map(|m| m.z).collect();
        assert_eq!(heights, [-2.5, -2.5, -5.0, -5.0]);
    }
}
