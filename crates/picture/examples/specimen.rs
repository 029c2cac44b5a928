//! A specimen sheet of the lettering as a PNG on standard output.

use cintre_geometry::Point;
use cintre_lettering::{Anchor, strokes};
use std::fmt::Write as _;
use std::io::Write as _;

const LINES: &[&str] = &[
    "ABCDEFGHIJKLMNOPQRSTUVWXYZ",
    "abcdefghijklmnopqrstuvwxyz",
    "0123456789 .,:;!? +-−–±=×/\\|()[]<>*~#%&_'\"′″°⌀",
    "½ ¼ ¾ ⅛ ⅜ ⅝ ⅞  8' 4 1/2\"  8′ 4½″  ß ø Ø µ",
    "áàâäãåçéèêëíìîïñóòôöõúùûü ÁÀÂÄÅÇÉÈÊËÎÑÓÔÖÚÛÜ",
    "Walled garden, north gate: centering rib 2 of 4",
    "The quick joiner vexed by lazy boards hung fifty jambs",
    "R 845.6  span 1220  rise 260  17.6 mm  60° ⌀6.35",
];

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let mut d = String::new();
    for (line, y) in LINES.iter().zip((1..).map(|row| 24.0 * f64::from(row))) {
        for path in strokes(line, 9.0, Point::new(10.0, -y), Anchor::Start)? {
            write!(d, "M{:.3} {:.3} ", path.start().x, -path.start().y)?;
            for piece in path.pieces() {
                for step in 1..=12 {
                    let at = piece.point_at(f64::from(step) / 12.0);
                    write!(d, "L{:.3} {:.3} ", at.x, -at.y)?;
                }
            }
        }
    }
    let svg = format!(
        r##"<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 420 205"><rect width="420" height="205" fill="white"/><path d="{d}" fill="none" stroke="#222" stroke-width="0.9" stroke-linecap="round" stroke-linejoin="round"/></svg>"##
    );
    std::io::stdout().write_all(&cintre_picture::png(&svg, 1600)?)?;
    Ok(())
}
