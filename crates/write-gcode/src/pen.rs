//! Programs of a pen: it is up before every rapid, and down only along its lines.

use crate::run::Run;
use crate::{Error, LEAST_FEED, check_decimals, check_lines, unit_name};
use cintre_work::{Drawing, Lift, Pen};
use cintre_write::trimmed;

/// A drawing's lines as a pen's program, in their order.
pub fn write_pen(drawing: &Drawing, pen: &Pen, head: &[String]) -> Result<Vec<u8>, Error> {
    let dialect = &pen.dialect;
    check_decimals(dialect.units, dialect.decimals)?;
    check_lines(dialect.opening_lines.iter().chain(&dialect.closing_lines))?;
    if let Lift::Words { up, down } = &pen.lift {
        check_lines([up, down].into_iter())?;
    }
    if !(pen.feed.is_finite() && pen.feed >= LEAST_FEED) {
        return Err(Error::Feed {
            index: 0,
            feed: pen.feed,
        });
    }
    let mut run = Run::of_dialect(dialect);
    let titles = [
        drawing.title.clone(),
        format!("lengths in {}", unit_name(dialect.units)),
    ];
    run.comments(titles.iter().chain(head), cintre_write::LINE);
    run.modes();
    dialect
        .opening_lines
        .iter()
        .for_each(|line| run.line(line.clone()));
    lifted(&mut run, pen)?;
    for stroke in drawing.strokes() {
        run.across(stroke.start())?;
        lowered(&mut run, pen)?;
        for piece in &stroke.pieces {
            run.draw(piece, pen.feed)?;
        }
        lifted(&mut run, pen)?;
    }
    dialect
        .closing_lines
        .iter()
        .for_each(|line| run.line(line.clone()));
    run.line("M30".to_owned());
    Ok((run.finish().join("\n") + "\n").into_bytes())
}

fn lifted(run: &mut Run, pen: &Pen) -> Result<(), Error> {
    match &pen.lift {
        Lift::Height { up, .. } => run.height(*up)?,
        Lift::Words { up, .. } => run.line(up.clone()),
    }
    waited(run, pen)
}

fn lowered(run: &mut Run, pen: &Pen) -> Result<(), Error> {
    match &pen.lift {
        Lift::Height { down, .. } => run.lower(*down, pen.feed)?,
        Lift::Words { down, .. } => run.line(down.clone()),
    }
    waited(run, pen)
}

fn waited(run: &mut Run, pen: &Pen) -> Result<(), Error> {
    if pen.delay > 0.0 {
        run.line(format!("G4 P{}", trimmed(pen.delay, 2)?));
    }
    Ok(())
}
