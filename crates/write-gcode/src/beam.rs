//! Programs of a laser: no heights, and the beam out before every rapid.

use crate::run::Run;
use crate::{Error, check_decimals, check_lines, unit_name};
use cintre_work::{Beam, BeamPower, Drawing, Laser, Layer};
use cintre_write::trimmed;

/// A drawing's lines as a laser's program, in their order; `power` is how its material is cut and marked, and what stands on
/// the layers of marks and text is marked.
pub fn write_beam(
    drawing: &Drawing,
    laser: &Laser,
    power: BeamPower,
    head: &[String],
) -> Result<Vec<u8>, Error> {
    let dialect = &laser.dialect;
    check_decimals(dialect.units, dialect.decimals)?;
    let words = [&laser.beam_on, &laser.beam_off];
    check_lines(
        dialect
            .opening_lines
            .iter()
            .chain(&dialect.closing_lines)
            .chain(words),
    )?;
    for beam in [power.cut, power.mark] {
        let works = beam.power > 0.0 && beam.power <= 100.0 && beam.feed >= crate::LEAST_FEED;
        if !works {
            return Err(Error::Beam {
                power: beam.power,
                feed: beam.feed,
            });
        }
    }
    let mut run = Run::of_dialect(dialect);
    let titles = [
        drawing.title.clone(),
        format!("lengths in {}, no Z", unit_name(dialect.units)),
    ];
    run.comments(titles.iter().chain(head), cintre_write::LINE);
    run.modes();
    run.line(out(laser));
    dialect
        .opening_lines
        .iter()
        .for_each(|line| run.line(line.clone()));
    for stroke in drawing.strokes() {
        let beam = match stroke.layer {
            Layer::Mark | Layer::Text => power.mark,
            _ => power.cut,
        };
        run.across(stroke.start())?;
        run.line(lit(laser, beam)?);
        for piece in &stroke.pieces {
            run.draw(piece, beam.feed)?;
        }
        run.line(out(laser));
    }
    dialect
        .closing_lines
        .iter()
        .for_each(|line| run.line(line.clone()));
    run.line("M30".to_owned());
    Ok((run.finish().join("\n") + "\n").into_bytes())
}

/// The line that lights the beam at a power.
fn lit(laser: &Laser, beam: Beam) -> Result<String, Error> {
    let power = trimmed(beam.power / 100.0 * laser.full_power, 1)?;
    Ok(format!("{} S{power}", laser.beam_on))
}

/// The line that puts it out.
fn out(laser: &Laser) -> String {
    format!("{} S0", laser.beam_off)
}
