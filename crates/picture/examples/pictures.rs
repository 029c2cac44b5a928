//! One of the sample pictures on standard output: `pictures NAME [svg]`, as a PNG unless SVG is asked for.

#[path = "../tests/samples/mod.rs"]
mod samples;

use std::io::Write as _;

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let mut words = std::env::args().skip(1);
    let (name, format) = (words.next(), words.next());
    let pictures = samples::pictures();
    let (_, svg) = pictures
        .iter()
        .find(|(known, _)| Some(*known) == name.as_deref())
        .ok_or("name one of the sample pictures")?;
    let bytes = match format.as_deref() {
        Some("svg") => svg.clone().into_bytes(),
        _ => cintre_picture::png(svg, 1600)?,
    };
    std::io::stdout().write_all(&bytes)?;
    Ok(())
}
