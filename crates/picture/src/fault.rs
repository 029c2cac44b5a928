//! What a proof finds wrong on a sheet, each at its place.

use crate::canvas::{Canvas, Label};
use crate::page::View;
use crate::pen::FAULT;
use cintre_geometry::{Outline, Point, Rect, Vec2};
use std::f64::consts::TAU;

/// A fault with a place.
#[derive(Clone, Debug, PartialEq)]
pub struct Fault {
    /// Where it is, in the sheet's frame.
    pub at: Point,
    /// What is wrong there.
    pub what: String,
}

/// The ring round a fault and the number beside it, mm of paper.
const RING: f64 = 3.2;
const NUMBER: f64 = 3.4;
/// How far beside the sheet the mark of a fault stands at most that lies farther off.
const BESIDE: f64 = 4.0;

/// Each fault as a cross in a ring with its number beside it; `around` is the sheet on the page.
pub(crate) fn draw(canvas: &mut Canvas, faults: &[Fault], view: &View, around: Rect) {
    let page = around.inflate(BESIDE, BESIDE);
    for (number, fault) in (1..).zip(faults) {
        let at = view.point(fault.at);
        let at = Point::new(at.x.clamp(page.x0, page.x1), at.y.clamp(page.y0, page.y1));
        canvas.cross(at, FAULT);
        canvas.edges([&Outline::circle(at, RING)], FAULT);
        canvas.claim(Rect::from_center_size(at, (2.0 * RING, 2.0 * RING)));
        let text = format!("{number}");
        let label = Label::new(&text, NUMBER);
        let places = [6.0, 9.0, 12.0].into_iter().flat_map(|off| {
            (0..8).map(move |k| at + Vec2::from_angle(TAU / 8.0 * (f64::from(k) + 0.5)) * off)
        });
        // Where there is no room for it the list still says where it is.
        canvas.place(&label, places);
    }
}

/// The list of them.
pub(crate) fn told(faults: &[Fault]) -> impl Iterator<Item = String> + '_ {
    (1..)
        .zip(faults)
        .map(|(number, fault)| format!("{number}: {}", fault.what))
}
