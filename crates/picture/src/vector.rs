//! What is drawn on a page, as SVG and as strokes for a printer.

use crate::number::number;
use crate::pen::{PAPER, Pen};
use cintre_geometry::{Affine, Outline, Path, Piece};
use cintre_work::{Ink, PageStroke};
use svg::node::element;

/// One thing drawn, mm of paper, y down.
pub(crate) enum Drawn {
    /// Open chains; a rim is let through a little, so that a line under a letter stays in sight.
    Lines { lines: Vec<Path>, pen: Pen, rim: bool },
    /// Closed chains.
    Edges { outlines: Vec<Outline>, pen: Pen },
    /// A tint inside closed chains.
    Tint {
        outlines: Vec<Outline>,
        colour: &'static str,
    },
}

/// A page of this width and height as SVG.
pub(crate) fn svg((width, height): (f64, f64), drawn: &[Drawn]) -> String {
    let (w, h) = (number(width), number(height));
    let ground = element::Rectangle::new()
        .set("width", w.as_str())
        .set("height", h.as_str())
        .set("fill", PAPER);
    let document = svg::Document::new()
        .set("width", format!("{w}mm"))
        .set("height", format!("{h}mm"))
        .set("viewBox", format!("0 0 {w} {h}"))
        .add(ground);
    let elements = drawn.iter().filter_map(element);
    let document = elements.fold(document, svg::Document::add);
    format!("{document}\n")
}

/// The same in black strokes, y up from the foot of a page of this height. Tints are left out; rims are white.
pub(crate) fn black(height: f64, drawn: &[Drawn]) -> Vec<PageStroke> {
    let turned = Affine::new([1.0, 0.0, 0.0, -1.0, 0.0, height]);
    let stroke = |lines: Vec<Path>, pen: &Pen, white| PageStroke {
        ink: Ink::Page,
        lines: lines.iter().map(|line| line.transformed(turned)).collect(),
        weight: pen.weight,
        dashes: pen.dashes.to_vec(),
        white,
    };
    drawn
        .iter()
        .filter_map(|drawn| match drawn {
            Drawn::Lines { lines, pen, rim } => Some(stroke(lines.clone(), pen, *rim)),
            Drawn::Edges { outlines, pen } => {
                let lines = outlines.iter().map(|outline| outline.opened_at(0, 0.0)).collect();
                Some(stroke(lines, pen, false))
            }
            Drawn::Tint { .. } => None,
        })
        .collect()
}

fn element(drawn: &Drawn) -> Option<element::Path> {
    let joined = |d: Vec<String>| Some(d.join(" ")).filter(|d| !d.is_empty());
    match drawn {
        Drawn::Lines {
            lines,
            pen,
            rim: false,
        } => Some(stroked(&joined(lines.iter().map(open).collect())?, *pen)),
        Drawn::Lines {
            lines,
            pen,
            rim: true,
        } => {
            let d = lines.iter().map(open).collect::<Vec<_>>().join(" ");
            Some(stroked(&d, *pen).set("stroke-opacity", "0.8"))
        }
        Drawn::Edges { outlines, pen } => {
            Some(stroked(&joined(outlines.iter().map(closed).collect())?, *pen))
        }
        Drawn::Tint { outlines, colour } => {
            let d: Vec<_> = outlines.iter().map(closed).collect();
            let path = element::Path::new().set("d", d.join(" ")).set("fill", *colour);
            Some(path.set("fill-rule", "evenodd"))
        }
    }
}

fn stroked(d: &str, pen: Pen) -> element::Path {
    let path = element::Path::new()
        .set("d", d)
        .set("fill", "none")
        .set("stroke", pen.colour)
        .set("stroke-width", number(pen.weight))
        .set("stroke-linecap", "round")
        .set("stroke-linejoin", "round");
    if pen.dashes.is_empty() {
        return path;
    }
    let dashes: Vec<_> = pen.dashes.iter().map(|&d| number(d)).collect();
    path.set("stroke-dasharray", dashes.join(" "))
}

fn open(path: &Path) -> String {
    let start = format!("M{} {}", number(path.start().x), number(path.start().y));
    chain(start, path.pieces())
}

fn closed(outline: &Outline) -> String {
    let first = outline.vertices()[0].point;
    let start = format!("M{} {}", number(first.x), number(first.y));
    chain(start, outline.pieces()) + " Z"
}

/// With y down a positive bulge turns clockwise to the eye, which is what SVG calls a positive sweep.
fn chain(start: String, pieces: impl Iterator<Item = Piece>) -> String {
    pieces.fold(start, |d, piece| {
        let (x, y) = (number(piece.end.x), number(piece.end.y));
        match piece.circle() {
            Some(circle) if circle.radius < FLAT => {
                let r = number(circle.radius);
                let large = u8::from(piece.bulge.abs() > 1.0);
                let sweep = u8::from(piece.bulge > 0.0);
                format!("{d} A{r} {r} 0 {large} {sweep} {x} {y}")
            }
            _ => format!("{d} L{x} {y}"),
        }
    })
}

/// On a page of half a metre an arc of a longer radius stands less than its line's weight off the chord, mm.
const FLAT: f64 = 1.0e6;
