//! An arch for a printer: black alone, to a round scale, without its strip.

use super::{ArchDrawing, Setting, Space};
use crate::canvas::Canvas;
use cintre_geometry::{Affine, Path};
use cintre_work::PageStroke;

/// Round a drawing without a strip, for labels that stand over its lines, mm of paper.
const CLEAR: f64 = 4.0;
/// The hand that draws for a small page, of that which draws pictures.
const HAND: f64 = 0.8;

/// An arch drawn in black, to a scale that a rule reads.
#[derive(Clone, Debug)]
pub struct ArchInBlack {
    /// Its lines, mm of paper from its lower left corner, y up.
    pub strokes: Vec<PageStroke>,
    /// How high it stands, mm of paper.
    pub height: f64,
    /// So many times as large it is in the building.
    pub one_to: f64,
}

/// The drawing of an arch without its title strip, `width` mm of paper wide and its lines at most `tallest` high, in black
/// alone and to a round scale.
///
/// # Panics
/// If a coordinate is not finite.
pub fn arch_in_black(drawing: &ArchDrawing<'_>, width: f64, tallest: f64) -> ArchInBlack {
    let space = Space {
        width: width / HAND,
        margin: CLEAR,
        tallest: tallest / HAND,
        to_scale: Some(HAND),
    };
    let setting = Setting::of(drawing, &space);
    let mut canvas = Canvas::new(space.width, setting.foot);
    setting.draw(&mut canvas, drawing);
    let mut strokes = canvas.in_black();
    // A figure longer than its line stands past the line's end, over the drawing or under it.
    let lines = strokes.iter().flat_map(|stroke| &stroke.lines);
    let bounds = lines
        .map(Path::bounds)
        .reduce(|a, b| a.union(b))
        .unwrap_or_default();
    let small = Affine::scale(HAND) * Affine::translate((0.0, -bounds.y0));
    for stroke in &mut strokes {
        stroke.weight *= HAND;
        stroke.dashes.iter_mut().for_each(|dash| *dash *= HAND);
        stroke
            .lines
            .iter_mut()
            .for_each(|line| *line = line.transformed(small));
    }
    ArchInBlack {
        strokes,
        height: bounds.height() * HAND,
        one_to: 1.0 / (setting.view.scale * HAND),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::pen::STRONG;
    use crate::samples::{flat, lancet, ogee, round, segmental, three_centred};
    use cintre_geometry::Rect;

    #[test]
    fn for_a_printer_it_is_black_to_a_round_scale_and_on_its_paper() {
        for drawing in [segmental(), flat(), three_centred(), round(), lancet(), ogee()] {
            let black = arch_in_black(&drawing, 186.0, 90.0);
            assert!((black.one_to * 2.0).fract() < 1e-9, "1 : {}", black.one_to);
            let paper = Rect::new(0.0, 0.0, 186.0, black.height).inflate(1e-9, 1e-9);
            for line in black.strokes.iter().flat_map(|stroke| &stroke.lines) {
                let bounds = line.bounds();
                assert!(
                    paper.union(bounds) == paper,
                    "{}: {bounds:?} runs off {paper:?}",
                    drawing.name
                );
            }
            let wide = drawing.soffit.bounds().width() / black.one_to;
            let soffit = |s: &PageStroke| {
                s.weight >= STRONG.weight * HAND - 1e-9 && (s.lines[0].bounds().width() - wide).abs() < 1e-6
            };
            assert!(black.strokes.iter().any(soffit), "{}", drawing.name);
        }
    }
}
