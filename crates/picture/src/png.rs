//! Pictures as pixels.

use resvg::{tiny_skia, usvg};
use thiserror::Error;

/// Why a picture could not be turned into pixels.
#[derive(Debug, Error)]
pub enum Error {
    /// The picture is not SVG that can be drawn.
    #[error("the picture cannot be read: {0}")]
    Svg(String),
    /// No picture of this size can be made.
    #[error("a picture of {width} by {height} pixels cannot be made")]
    Size {
        /// Width asked for.
        width: u32,
        /// The height that goes with it.
        height: u32,
    },
    /// The pixels could not be packed.
    #[error("the picture cannot be packed: {0}")]
    Pack(String),
}

/// The widest PNG made, pixels: more takes more than a gigabyte to draw.
const WIDEST: u32 = 16_000;

/// An SVG picture as a PNG of `width` pixels.
pub fn png(svg: &str, width: u32) -> Result<Vec<u8>, Error> {
    let tree = usvg::Tree::from_str(svg, &usvg::Options::default()).map_err(|e| Error::Svg(e.to_string()))?;
    let scale = f64::from(width) / f64::from(tree.size().width());
    let height = whole(f64::from(tree.size().height()) * scale);
    let refused = Error::Size { width, height };
    if width > WIDEST || height > WIDEST {
        return Err(refused);
    }
    let mut pixels = tiny_skia::Pixmap::new(width, height).ok_or(refused)?;
    let scale = single(scale);
    resvg::render(
        &tree,
        tiny_skia::Transform::from_scale(scale, scale),
        &mut pixels.as_mut(),
    );
    pixels.encode_png().map_err(|e| Error::Pack(e.to_string()))
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a height beyond the range saturates and is refused as too large"
)]
fn whole(value: f64) -> u32 {
    value.round() as u32
}

#[expect(
    clippy::cast_possible_truncation,
    reason = "the drawing library reckons in f32"
)]
const fn single(value: f64) -> f32 {
    value as f32
}

#[cfg(test)]
mod tests {
    use super::*;

    const SQUARE: &str = r#"<svg xmlns="http://www.w3.org/2000/svg" width="40mm" height="20mm" viewBox="0 0 40 20"><path d="M0 0 L40 20" stroke="black"/></svg>"#;

    #[test]
    fn a_png_has_the_width_asked_for() {
        let bytes = png(SQUARE, 300).unwrap();
        let size = |at: usize| u32::from_be_bytes(bytes[at..at + 4].try_into().unwrap());
        assert_eq!(&bytes[1..4], b"PNG");
        assert_eq!((size(16), size(20)), (300, 150));
    }

    #[test]
    fn what_cannot_be_drawn_is_refused() {
        assert!(matches!(png("<svg", 100), Err(Error::Svg(_))));
        assert!(matches!(png(SQUARE, 0), Err(Error::Size { .. })));
        assert!(matches!(png(SQUARE, 100_000), Err(Error::Size { .. })));
    }
}
