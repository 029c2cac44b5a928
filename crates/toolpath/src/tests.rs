//! Whole sheets: a shop to cut them in, and what every plan must keep.

mod bits;
mod held;
mod holes;
mod marks;
mod recesses;
mod refusals;
mod roads;
mod rules;
mod sweep;
mod tabs;

use cintre_geometry::{Affine, Outline, Piece, Point, Rect, Vec2, Vertex};
use cintre_work::{
    Bit, BitChange, BitKind, Cut, Feeds, FileLayout, Grain, Part, Placed, Program, Relief, Router, Sheet,
    Stock, StockGrain, TabRule, To, Trim, Unit, Zero, ZeroHeight,
};
use std::collections::BTreeMap;
use std::f64::consts::FRAC_PI_2;

const THICKNESS: f64 = 18.0;
const TABS: TabRule = TabRule {
    width: 8.0,
    height: 5.0,
    every: 300.0,
    ramped: false,
};

pub(crate) fn bit(name: &str, kind: BitKind, diameter: f64) -> Bit {
    let feeds = Feeds {
        speed: 16000.0,
        feed: 3200.0,
        plunge: 900.0,
        depth: 3.0,
    };
    Bit {
        name: name.to_owned(),
        kind,
        diameter,
        flutes: 2,
        cutting_length: 25.0,
        plunges: true,
        number: Some(1),
        holder: None,
        feeds: BTreeMap::from([("plywood".to_owned(), feeds)]),
    }
}

pub(crate) fn router() -> Router {
    Router {
        name: "table".to_owned(),
        bed: (2500.0, 1300.0),
        travel_z: Some(120.0),
        bit_change: BitChange::File,
        safe_height: 12.0,
        zero: Zero {
            at: (0.0, 0.0),
            height: ZeroHeight::StockFace,
        },
        units: Unit::Millimetre,
        decimals: 4,
        arcs: true,
        longest_radius: 10000.0,
        longest_arc: std::f64::consts::PI,
        layout: FileLayout {
            numbered: false,
            longest_line: 70,
            percent: false,
        },
        extraction: None,
        park: None,
        speeds: (6000.0, 24000.0),
        spindle_delay: 4.0,
        through: 0.3,
        tabs: Some(TABS),
        cut: Cut::Climb,
        ramp: 3_f64.to_radians(),
        finish: 0.0,
        leave_web: 0.0,
        relief: Relief::None,
        mark_depth: 0.5,
        rapid: 5000.0,
        acceleration: 500.0,
        cornering: 0.05,
        opening_lines: vec![],
        closing_lines: vec![],
        keep_outs: vec![],
    }
}

fn stock() -> Stock {
    Stock {
        name: "ply18".to_owned(),
        material: "plywood".to_owned(),
        size: (2440.0, 1220.0),
        thickness: THICKNESS,
        grain: StockGrain::Long,
        sheets: None,
        trim: Trim::even(8.0),
        outline: None,
        keep_outs: vec![],
        alike: false,
    }
}

fn part(outline: Outline) -> Part {
    Part {
        name: "gate rib".to_owned(),
        outline,
        openings: vec![],
        bores: vec![],
        recesses: vec![],
        marks: vec![],
        clean: Vec::new(),
        stock: "ply18".to_owned(),
        thickness: THICKNESS,
        grain: Grain::Free,
        count: 1,
        fit_error: 0.0,
    }
}

fn sheet(parts: Vec<Part>) -> Sheet {
    let placed = |(k, part): (usize, Part)| Placed {
        name: format!("gate rib {}", k + 1),
        part,
    };
    Sheet {
        id: "sheet-1".to_owned(),
        stock: stock(),
        parts: parts.into_iter().enumerate().map(placed).collect(),
    }
}

/// A rib between two concentric arcs and two radial ends, its feet at y = 40.
pub(crate) fn rib(inner: f64, depth: f64, half: f64) -> Outline {
    let at = |r: f64, a: f64| Point::ZERO + Vec2::from_angle(a) * r;
    let (right, left) = (FRAC_PI_2 - half, FRAC_PI_2 + half);
    let outer = inner + depth;
    let pieces = [
        Piece::line(at(inner, right), at(outer, right)),
        Piece::arc(Point::ZERO, at(outer, right), 2.0 * half),
        Piece::line(at(outer, left), at(inner, left)),
        Piece::arc(Point::ZERO, at(inner, left), -2.0 * half),
    ];
    let edge = Outline::new(
        pieces
            .iter()
            .map(|p| Vertex {
                point: p.start,
                bulge: p.bulge,
            })
            .collect(),
    );
    let b = edge.bounds();
    edge.transformed(Affine::translate((40.0 - b.x0, 40.0 - b.y0)))
}

fn rectangle(x0: f64, y0: f64, x1: f64, y1: f64) -> Outline {
    Outline::rectangle(Rect::new(x0, y0, x1, y1))
}

/// Each move with where it begins: its road and its heights.
fn steps(program: &Program, safe: f64) -> Vec<(Piece, f64, f64, To)> {
    let mut here = (program.moves[0].end, safe);
    program
        .moves
        .iter()
        .map(|m| {
            let bulge = if let To::Arc { bulge, .. } = m.to {
                bulge
            } else {
                0.0
            };
            let step = (
                Piece {
                    start: here.0,
                    end: m.end,
                    bulge,
                },
                here.1,
                m.z,
                m.to,
            );
            here = (m.end, m.z);
            step
        })
        .collect()
}

fn same(a: f64, b: f64) -> bool {
    (a - b).abs() < 1e-12
}
