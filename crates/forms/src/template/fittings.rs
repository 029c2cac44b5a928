//! What a template has besides its edge: notches to set it by, stops, holes for screws, a hole to hang it by.

use super::Input;
use super::body::{Body, Lies, STOP, has_stops};
use crate::Item;
use crate::line::at_level;
use cintre_geometry::{Outline, Path, Piece, Point, Rect};
use cintre_work::{Bore, Depth, Mark, MarkKind};

/// The least radius of a notch, mm: room to see a line of the work in it.
const NOTCH: f64 = 4.0;

/// How far stops and holes keep from what the bit runs along, mm.
const CLEAR: f64 = 15.0;

/// The shortest and the longest stop, mm.
const STOPS: (f64, f64) = (40.0, 120.0);

/// What is kept free of stops to each side of the middle, for the hole that it hangs by, mm.
const MIDDLE: f64 = 65.0;

/// How high a stop is besides, mm: as thick as most work that stands against it.
const STOP_HEIGHT: f64 = 20.0;

/// What a template has besides its edge.
pub(super) struct Fittings {
    /// The outer edge with its notches.
    pub outline: Outline,
    pub bores: Vec<Bore>,
    pub marks: Vec<Mark>,
    pub list: Vec<Item>,
}

impl Fittings {
    pub(super) fn new(input: &Input, body: &Body) -> Self {
        let mut fittings = Self {
            outline: body.outline.clone(),
            bores: Vec::new(),
            marks: Vec::new(),
            list: Vec::new(),
        };
        fittings.notches(input, body);
        fittings.stops(input, body);
        fittings.screws(input, body);
        fittings.hanging_hole(input, body);
        fittings
    }

    /// Half-round notches on the centre line and at the springings, in edges that nothing runs along.
    fn notches(&mut self, input: &Input, body: &Body) {
        let radius = input.cut.corner.max(NOTCH);
        let (bounds, x) = (body.outline.bounds(), body.centre());
        let (bottom, top) = (Point::new(x, bounds.y0), Point::new(x, bounds.y1));
        let level = body.lines[0].bounds().center().y;
        let level = |i: usize| body.springings.map_or(level, |springings| springings[i].y);
        let sides = [(bounds.x0, level(0)), (bounds.x1, level(1))].map(Point::from);
        let at = match body.lies {
            Lies::Under => vec![bottom],
            Lies::Over => vec![top, sides[0], sides[1]],
            Lies::Round => vec![bottom, top, sides[0], sides[1]],
            Lies::Between | Lies::Within => Vec::new(),
        };
        for place in at {
            if let Some(notched) = notched(&self.outline, place, radius) {
                self.outline = notched;
            }
        }
    }

    /// A stop under each end of the work, its upper edge at the springing: its line, and the holes that it is screwed by.
    fn stops(&mut self, input: &Input, body: &Body) {
        let (Some(springings), true) = (body.springings, has_stops(input)) else {
            return;
        };
        let bounds = body.outline.bounds();
        let line = &body.lines[0];
        for (i, springing) in springings.into_iter().enumerate() {
            // Towards the right on the left side of what lies under the line.
            let side = if i == 0 { 1.0 } else { -1.0 };
            let end = [line.start(), line.end()][i];
            let (from, room) = if body.lies == Lies::Under {
                // Where the line is flat the template's edge comes up to the springing's level late.
                let Some(edge) = level_edge(&body.outline, springing, body.centre()) else {
                    continue;
                };
                let x = side * (side * springing.x).max(side * end.x).max(side * edge);
                (x, (body.centre() - x).abs() - MIDDLE - CLEAR)
            } else {
                let x = side * (side * springing.x).min(side * end.x);
                (x, (x - [bounds.x0, bounds.x1][i]).abs() - 2.0 * CLEAR)
            };
            let inward = if body.lies == Lies::Under { side } else { -side };
            if room >= STOPS.0 {
                let length = room.min(STOPS.1);
                self.stop(
                    Point::new(from + inward * CLEAR, springing.y),
                    inward * length,
                    input.cut.screw,
                );
            }
        }
    }

    fn stop(&mut self, from: Point, along: f64, screw: f64) {
        let corner = Point::new(from.x + along, from.y - STOP);
        let strip = Rect::from_points(from, corner);
        self.marks.push(Mark {
            path: Path::polyline(&[from, Point::new(corner.x, from.y)]),
            kind: MarkKind::Line,
        });
        for share in [0.25, 0.75] {
            self.bores.push(Bore {
                centre: Point::new(strip.x0 + share * strip.width(), strip.center().y),
                diameter: screw,
                depth: Depth::Through,
            });
        }
        match self
            .list
            .iter_mut()
            .find(|item| (item.length - along.abs()).abs() < 0.5)
        {
            Some(item) => item.count += 1,
            None => self
                .list
                .push(Item::of("stop", 1, along.abs(), Some((STOP, STOP_HEIGHT)))),
        }
    }

    /// Holes in the tails of a ring's template, which no clamp can hold.
    fn screws(&mut self, input: &Input, body: &Body) {
        if body.lies != Lies::Between || body.springings.is_none() || input.room.clamps <= 0.0 {
            return;
        }
        let [inner, outer] = &body.lines[..] else { return };
        let ends = [
            (inner.start(), outer.start(), inner.vertices()[1].point),
            (
                inner.end(),
                outer.end(),
                inner.vertices()[inner.vertices().len() - 2].point,
            ),
        ];
        for (inside, outside, springing) in ends {
            let back = (springing - inside).normalize();
            self.bores.push(Bore {
                centre: inside.midpoint(outside) + back * (input.room.clamps / 2.0),
                diameter: input.cut.screw,
                depth: Depth::Through,
            });
        }
    }

    fn hanging_hole(&mut self, input: &Input, body: &Body) {
        let diameter = input.hanging_hole;
        if diameter <= 0.0 {
            return;
        }
        let bounds = body.outline.bounds();
        let off = diameter / 2.0 + CLEAR;
        let centre = match body.lies {
            Lies::Under => Point::new(body.centre() + 2.0 * off, bounds.y0 + off),
            Lies::Over | Lies::Round => Point::new(bounds.x0 + off, bounds.y1 - off),
            Lies::Within => Point::new(body.centre(), bounds.center().y + bounds.height() / 4.0),
            Lies::Between => return,
        };
        let wood = -body.outline.signed_distance(centre);
        let taken = self
            .bores
            .iter()
            .any(|bore| bore.centre.distance(centre) < bore.diameter + diameter);
        if wood >= off - 1e-6 && !taken {
            self.bores.push(Bore {
                centre,
                diameter,
                depth: Depth::Through,
            });
        }
    }
}

/// Where a template's edge crosses the level of a springing, on its side of the middle.
fn level_edge(outline: &Outline, springing: Point, middle: f64) -> Option<f64> {
    let crossings = at_level(&outline.opened_at(0, 0.0), springing.y);
    let on_its_side = crossings
        .iter()
        .map(|c| c.point.x)
        .filter(|x| (*x < middle) == (springing.x < middle));
    on_its_side.min_by(|a, b| (a - springing.x).abs().total_cmp(&(b - springing.x).abs()))
}

/// An edge with a half-round notch about a point of one of its straight pieces; none where it has no room there.
fn notched(outline: &Outline, at: Point, radius: f64) -> Option<Outline> {
    let near = outline.nearest(at);
    let pieces: Vec<Piece> = outline.pieces().collect();
    let piece = pieces[near.piece];
    let along = piece.tangent_at(0.5);
    let room = (near.point - piece.start)
        .hypot()
        .min((piece.end - near.point).hypot());
    if near.distance > 1e-6 || !piece.is_line() || room < 2.0 * radius {
        return None;
    }
    let (from, to) = (near.point - along * radius, near.point + along * radius);
    let notch = [
        Piece::line(piece.start, from),
        Piece::arc_between(near.point, from, to, false),
        Piece::line(to, piece.end),
    ];
    let all = [&pieces[..near.piece], &notch, &pieces[near.piece + 1..]].concat();
    Some(Outline::closing(&Path::from_pieces(&all)))
}
