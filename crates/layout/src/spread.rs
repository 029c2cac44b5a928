//! Pieces spread over sheets: where each lies, and what it meets there.

use crate::collisions::{Collisions, Ground, Laid, Met, Pose};
use crate::pieces::Lot;
use crate::poles::Poles;
use cintre_geometry::Rect;

/// Where a piece lies.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Spot {
    /// On which sheet, counted from 0.
    pub(crate) sheet: usize,
    pub(crate) pose: Pose,
}

/// One sheet in use.
#[derive(Clone, Debug)]
pub(crate) struct Board {
    /// Which room it is.
    pub(crate) room: usize,
    /// What of it may be used, mm.
    pub(crate) bounds: [f32; 4],
    ground: Ground,
}

/// How far a shape reaches from its middle, mm: least x and y, greatest x and y.
pub(crate) type Reach = [f32; 4];

/// A way that a piece may lie.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Way {
    pub(crate) turn: f64,
    pub(crate) flipped: bool,
    pub(crate) reach: Reach,
}

/// Pieces on sheets; some may lie nowhere yet.
#[derive(Clone, Debug)]
pub(crate) struct Spread<'a> {
    pub(crate) lot: &'a Lot<'a>,
    pub(crate) boards: Vec<Board>,
    pub(crate) spots: Vec<Option<Spot>>,
    /// The poles of each laid piece, where it lies.
    pub(crate) poles: Vec<Poles>,
    /// For each kind, something to lay it with.
    laid: Vec<Laid>,
    /// Room for the poles of what is asked about.
    own: Poles,
    /// For each room, for each kind, the ways that it may lie.
    ways: Vec<Vec<Vec<Way>>>,
    /// How many questions were asked so far.
    pub(crate) asked: u64,
}

impl<'a> Spread<'a> {
    /// Nothing laid yet, and no sheet.
    pub(crate) fn new(lot: &'a Lot<'a>) -> Self {
        let mut laid: Vec<Laid> = lot.kinds.iter().map(|kind| kind.shape.laid()).collect();
        let rooms = lot.rooms.iter().map(|room| {
            let ways = lot.kinds.iter().zip(&mut laid).map(|(kind, laid)| {
                let mut ways = Vec::new();
                for turn in kind.turns(room.grain()) {
                    for flipped in [false, true] {
                        if flipped && !kind.flips {
                            continue;
                        }
                        let pose = Pose {
                            turn,
                            flipped,
                            x: 0.0,
                            y: 0.0,
                        };
                        laid.lay(&kind.shape, pose);
                        ways.push(Way {
                            turn,
                            flipped,
                            reach: laid.bounds(),
                        });
                    }
                }
                ways
            });
            ways.collect()
        });
        Self {
            ways: rooms.collect(),
            boards: Vec::new(),
            spots: vec![None; lot.pieces.len()],
            poles: vec![Poles::default(); lot.pieces.len()],
            laid,
            own: Poles::default(),
            lot,
            asked: 0,
        }
    }

    /// Opens one more sheet; false where that room is none.
    pub(crate) fn open(&mut self, room: usize) -> bool {
        let found = self.lot.rooms[room]
            .bounds
            .and_then(|bounds| board(self.lot, room, bounds));
        let opened = found.is_some();
        self.boards.extend(found);
        opened
    }

    /// Closes a sheet that nothing lies on any more; those after it move up by one.
    pub(crate) fn close(&mut self, sheet: usize) {
        self.boards.remove(sheet);
        for spot in self.spots.iter_mut().flatten() {
            if spot.sheet > sheet {
                spot.sheet -= 1;
            }
        }
    }

    /// The pieces on a sheet.
    pub(crate) fn on(&self, sheet: usize) -> Vec<usize> {
        let on_it = |p: &usize| self.spots[*p].is_some_and(|s| s.sheet == sheet);
        (0..self.spots.len()).filter(on_it).collect()
    }

    /// The area of the pieces on a sheet, mm².
    pub(crate) fn area_on(&self, sheet: usize) -> f64 {
        self.on(sheet).iter().map(|&p| self.lot.kind(p).area).sum()
    }

    /// The area of all pieces, grown as they lie, mm².
    pub(crate) fn grown_area(&self) -> f64 {
        let pieces = self.lot.pieces.iter();
        pieces
            .map(|p| f64::from(self.lot.kinds[p.kind].shape.area()))
            .sum()
    }

    /// The ways in which a piece may lie on a sheet.
    pub(crate) fn ways(&self, piece: usize, sheet: usize) -> &[Way] {
        &self.ways[self.boards[sheet].room][self.lot.pieces[piece].kind]
    }

    /// How far a piece reaches when it lies so.
    pub(crate) fn reach(&mut self, piece: usize, turn: f64, flipped: bool) -> Reach {
        let kind = self.lot.pieces[piece].kind;
        let pose = Pose {
            turn,
            flipped,
            x: 0.0,
            y: 0.0,
        };
        self.laid[kind].lay(&self.lot.kinds[kind].shape, pose);
        self.laid[kind].bounds()
    }

    /// Lays a piece, which must not lie anywhere; it may lie on others.
    pub(crate) fn put(&mut self, piece: usize, spot: Spot) {
        let kind = self.lot.pieces[piece].kind;
        let laid = &mut self.laid[kind];
        laid.lay(&self.lot.kinds[kind].shape, spot.pose);
        laid.poles(&mut self.poles[piece]);
        self.boards[spot.sheet].ground.put(piece, laid);
        self.spots[piece] = Some(spot);
    }

    /// Takes a piece up, if it lies anywhere.
    pub(crate) fn lift(&mut self, piece: usize) {
        if let Some(spot) = self.spots[piece].take() {
            self.boards[spot.sheet].ground.lift(piece);
        }
    }

    /// Whether a piece would touch nothing there, itself not counted.
    pub(crate) fn is_clear(&mut self, piece: usize, spot: Spot) -> bool {
        self.asked += 1;
        let kind = self.lot.pieces[piece].kind;
        let laid = &mut self.laid[kind];
        laid.lay(&self.lot.kinds[kind].shape, spot.pose);
        self.boards[spot.sheet].ground.is_clear(laid, Some(piece))
    }

    /// Tells what a piece would meet there, itself not counted, with its poles as it would lie and those of what it meets,
    /// until told that it is enough; then false.
    pub(crate) fn meet(
        &mut self,
        piece: usize,
        spot: Spot,
        mut enough: impl FnMut(Met, &Poles, &Poles) -> bool,
    ) -> bool {
        self.asked += 1;
        let kind = self.lot.pieces[piece].kind;
        let laid = &mut self.laid[kind];
        laid.lay(&self.lot.kinds[kind].shape, spot.pose);
        let (mut own, mut known) = (std::mem::take(&mut self.own), false);
        let none = Poles::default();
        let board = &mut self.boards[spot.sheet];
        let kept = &self.lot.rooms[board.room].poles;
        let poles = &self.poles;
        let enough = board.ground.meet(laid, Some(piece), |met| {
            if !known {
                laid.poles(&mut own);
                known = true;
            }
            let other = match met {
                Met::Piece(p) => &poles[p],
                Met::Kept(k) => &kept[k],
                Met::Outside => &none,
            };
            enough(met, &own, other)
        });
        self.own = own;
        !enough
    }

    /// Makes what may be used of a sheet end at `to` mm along an axis, or at its own end if that is nearer; what lies there is
    /// laid again where it was.
    pub(crate) fn shorten(&mut self, sheet: usize, axis: usize, to: f32) {
        let Board { room, bounds, .. } = self.boards[sheet];
        let Some(whole) = self.lot.rooms[room].bounds else {
            return;
        };
        let [x0, y0, mut x1, mut y1] = bounds.map(f64::from);
        if axis == 0 {
            x1 = f64::from(to).min(whole.x1);
        } else {
            y1 = f64::from(to).min(whole.y1);
        }
        let on_it = self.on(sheet);
        if let Some(board) = board(self.lot, room, Rect::new(x0, y0, x1, y1)) {
            self.boards[sheet] = board;
            for piece in on_it {
                if let Some(spot) = self.spots[piece].take() {
                    self.put(piece, spot);
                }
            }
        }
    }

    /// Puts every piece where it lay in `spots`.
    pub(crate) fn restore(&mut self, spots: &[Option<Spot>]) {
        for (piece, spot) in spots.iter().enumerate() {
            if self.spots[piece] != *spot {
                self.lift(piece);
                if let Some(spot) = spot {
                    self.put(piece, *spot);
                }
            }
        }
    }

    /// How far along an axis the pieces of a sheet reach, mm; where the sheet begins if there are none.
    pub(crate) fn end_of(&mut self, sheet: usize, axis: usize) -> f32 {
        let mut end = self.boards[sheet].bounds[axis];
        for piece in self.on(sheet) {
            if let Some(Spot { pose, .. }) = self.spots[piece] {
                let middle = if axis == 0 { pose.x } else { pose.y };
                end = end.max(middle + self.reach(piece, pose.turn, pose.flipped)[axis + 2]);
            }
        }
        end
    }
}

#[expect(clippy::cast_possible_truncation, reason = "the engine's numbers are f32")]
fn board(lot: &Lot<'_>, room: usize, bounds: Rect) -> Option<Board> {
    let kept = &lot.rooms[room].kept;
    Some(Board {
        room,
        bounds: [
            bounds.x0 as f32,
            bounds.y0 as f32,
            bounds.x1 as f32,
            bounds.y1 as f32,
        ],
        ground: Ground::new(bounds, kept)?,
    })
}
