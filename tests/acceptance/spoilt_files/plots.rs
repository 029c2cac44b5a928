//! By how much two plots differ.

use cintre_geometry::{Piece, Point};

/// What a plotter's whole steps of 1/40 mm round a place by at most, mm: no plot is truer.
const STEP: f64 = 0.018;

/// How far a plot differs beyond its own rounding at most from another text, mm; without bound where it is not begun and ended as it was.
pub(super) fn plot_change(good: &str, bad: &str) -> f64 {
    let frame = |text: &str| -> Vec<String> {
        let own = text.split(';').map(str::trim);
        own.filter(|c| !c.contains(',')).map(str::to_owned).collect()
    };
    if frame(good) != frame(bad) {
        return f64::INFINITY;
    }
    let (a, b) = (drawn(good), drawn(bad));
    (farthest(&a, &b).max(farthest(&b, &a)) - STEP).max(0.0)
}

/// The lines that a plot draws, mm.
fn drawn(text: &str) -> Vec<Piece> {
    let (mut at, mut lines) = (Point::ZERO, Vec::new());
    for command in text.split(';').map(str::trim).filter(|c| c.contains(',')) {
        let figures: Vec<f64> = command[2..].split(',').filter_map(|n| n.parse().ok()).collect();
        for place in figures
            .chunks_exact(2)
            .map(|p| Point::new(p[0] / 40.0, p[1] / 40.0))
        {
            if command.starts_with("PD") {
                lines.push(Piece::line(at, place));
            }
            at = place;
        }
    }
    lines
}

/// How far any place of some lines is from the others at most.
fn farthest(these: &[Piece], others: &[Piece]) -> f64 {
    let away = |p: Point| {
        others
            .iter()
            .map(|o| o.nearest(p).distance)
            .fold(f64::INFINITY, f64::min)
    };
    let places = |line: &Piece| {
        let line = *line;
        (0..=8).map(move |i| line.point_at(f64::from(i) / 8.0))
    };
    these.iter().flat_map(places).map(away).fold(0.0, f64::max)
}
