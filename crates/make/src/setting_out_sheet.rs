//! `setting-out.pdf`: every arch on a page of its own, with its figures.

use crate::arches::NamedArch;
use crate::cut_files::File;
use crate::figures::{Shown, arch_rows};
use crate::pictures::unit;
use crate::{Plan, Trouble};
use cintre_geometry::setting_out::SingleArc;
use cintre_geometry::{Path, Piece};
use cintre_measure::Unit;
use cintre_paper::{ArchSheet, DRAWING, SettingOut, setting_out};
use cintre_picture::{Lengths, arch_in_black};

/// The file's name.
const FILE: &str = "setting-out.pdf";
/// The stroke across the soffit that shows where two arcs join, of the span.
const JOIN: f64 = 0.02;

impl Plan {
    /// The setting-out sheet of all arches; under an inch rule, in feet and inches.
    pub(crate) fn setting_out_sheet(&self, shown: Shown) -> Result<File, Trouble> {
        let shown = Shown {
            feet: shown.unit() == Unit::Inch,
            ..shown
        };
        let sheet = SettingOut {
            title: self.title.clone(),
            cautions: self.cautions.clone(),
            notes: vec![
                format!(
                    "Lengths are read on a rule of {}; what is left over follows, in {}.",
                    shown.rule,
                    if shown.feet { "inches" } else { "millimetres" }
                ),
                "Heights and centres count from the springing line and the middle of the span. Strokes across the soffit show \
                 where its arcs join, numbered from the left."
                    .to_owned(),
            ],
            arches: self.arches.iter().map(|arch| self.arch_sheet(arch, shown)).collect(),
        };
        let bytes = cintre_write_pdf::write(&setting_out(&sheet));
        Ok(File {
            path: FILE.to_owned(),
            bytes: bytes.map_err(|error| Trouble::Broken(format!("{FILE}: {error}")))?,
        })
    }

    fn arch_sheet(&self, named: &NamedArch, shown: Shown) -> ArchSheet {
        let write = |mm: f64| shown.mark(mm);
        let lengths = Lengths {
            unit: unit(shown),
            write: &write,
        };
        let mut drawing = self.arch_drawing(named, lengths);
        drawing.joints.extend(joins(named));
        let black = arch_in_black(&drawing, DRAWING.0, DRAWING.1);
        let rows = arch_rows(named, shown);
        ArchSheet {
            heading: rows.heading,
            rows: rows.rows,
            drawing: black.strokes,
            height: black.height,
            scale: format!("1 : {:.0}", black.one_to),
            checks: checks(named, shown),
        }
    }
}

/// Short strokes across the soffit where its arcs join.
fn joins(named: &NamedArch) -> Vec<Path> {
    let half = named.arch.span * JOIN / 2.0;
    let centres = named.arch.figures().centres;
    let ends = centres.windows(2).map(|pair| pair[0].arc);
    ends.map(|arc: Piece| {
        let along = arc.tangent_at(1.0);
        let across = cintre_geometry::Vec2::new(-along.y, along.x) * half;
        Path::polyline(&[arc.end - across, arc.end + across])
    })
    .collect()
}

/// What to measure on the cut piece.
pub(crate) fn checks(named: &NamedArch, shown: Shown) -> Vec<(String, String)> {
    let arch = &named.arch;
    let figures = arch.figures();
    let bounds = named.fit.path.bounds();
    let mut checks: Vec<(String, f64)> = Vec::new();
    let mut check = |name: &str, mm: f64| checks.push((name.to_owned(), mm));
    if arch.closed {
        check("width", bounds.width());
        check("height", bounds.height());
    } else {
        check("span", arch.span);
        check("rise", arch.rise);
        check("springing to crown, each side", figures.crown_chord);
        check("quarter height, each side", figures.quarter_height);
        if let Some(arc) = SingleArc::of(&named.fit.path) {
            check("middle of each half, off its chord", arc.half_arc_rise());
        }
        let left = arch.soffit.start();
        for (i, pair) in figures.centres.windows(2).enumerate() {
            check(
                &format!("join {}, from the left springing", i + 1),
                pair[0].arc.end.distance(left),
            );
        }
    }
    check("length along the soffit", figures.developed_length);
    if let Some((depth, back)) = &named.ring {
        check("ring", *depth);
        check("length along its back", back.length());
    }
    checks
        .into_iter()
        .map(|(name, mm)| (name, shown.length(mm)))
        .collect()
}
