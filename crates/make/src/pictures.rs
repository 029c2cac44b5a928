//! The job's pictures: its arches, its forms, its sheets.

use crate::arches::NamedArch;
use crate::figures::{Shown, form_heading, heading};
use crate::kit_picture::dimension;
use crate::{Plan, PlannedSheet, Trouble};
use cintre_forms::Form;
use cintre_geometry::{Outline, Path, Point, Rect};
use cintre_picture::{ArchDrawing, Centre, Dimension, Lengths, PartsDrawing, SheetDrawing, Side, Taken};
use cintre_work::{Machine, Unit};

mod together;

/// A picture and the name of its file, without an ending.
#[derive(Clone, Debug)]
pub struct Picture {
    /// `arch-gate`, `form-1-gate-centering`, `sheet-1`.
    pub name: String,
    /// The picture, an SVG document.
    pub svg: String,
}

impl Plan {
    /// Every picture of the job.
    pub fn pictures(&self, shown: Shown) -> Vec<Picture> {
        let write = |mm: f64| shown.mark(mm);
        let lengths = Lengths {
            unit: unit(shown),
            write: &write,
        };
        let arches = self.arches.iter().map(|arch| self.arch(arch, lengths));
        let forms = self
            .forms
            .iter()
            .enumerate()
            .map(|(i, form)| self.form(i, form, lengths));
        let together = self
            .forms
            .iter()
            .enumerate()
            .filter_map(|(i, form)| self.together(i, form, lengths));
        let left = self
            .forms
            .iter()
            .enumerate()
            .filter_map(|(i, form)| self.left(i, form, lengths));
        let sheets = self.sheets.iter().map(|sheet| self.sheet(sheet, lengths));
        arches
            .chain(forms)
            .chain(left)
            .chain(together)
            .chain(sheets)
            .collect()
    }

    fn arch(&self, named: &NamedArch, lengths: Lengths<'_>) -> Picture {
        Picture {
            name: arch_picture(&named.name),
            svg: cintre_picture::arch(&self.arch_drawing(named, lengths)),
        }
    }

    /// An arch as it is drawn wherever it is drawn.
    pub(crate) fn arch_drawing<'a>(&self, named: &NamedArch, lengths: Lengths<'a>) -> ArchDrawing<'a> {
        let arch = &named.arch;
        let centres = named
            .arch
            .figures()
            .centres
            .into_iter()
            .enumerate()
            .map(|(i, c)| Centre {
                at: c.at,
                radius: c.radius,
                name: format!("C{}", i + 1),
                text: format!("R {}", (lengths.write)(c.radius)),
            });
        ArchDrawing {
            title: cintre_lettering::spell(&self.title),
            name: cintre_lettering::spell(&heading(named)),
            soffit: named.fit.path.clone(),
            extrados: extrados(named),
            edge: named.reveal.as_ref().map(|(_, line)| line.clone()),
            joints: named
                .voussoirs
                .iter()
                .flat_map(|v| v.joints.iter().cloned())
                .collect(),
            centres: centres.collect(),
            springing: (!arch.closed).then(|| (arch.soffit.start(), arch.soffit.end())),
            axis: Some(0.0),
            dimensions: dimensions(named, lengths),
            points: taken(named),
            notes: Vec::new(),
            lengths,
        }
    }

    fn form(&self, number: usize, form: &Form, lengths: Lengths<'_>) -> Picture {
        let drawing = PartsDrawing {
            title: &cintre_lettering::spell(&self.title),
            name: &cintre_lettering::spell(&form_heading(form)),
            parts: &form.parts,
            notes: &[],
            lengths,
        };
        let name = format!("form-{}-{}-{}", number + 1, file_name(&form.arch), form.kind);
        Picture {
            name,
            svg: cintre_picture::parts(&drawing),
        }
    }

    /// What the bit leaves of a form's work, for the chisel; none where it leaves nothing.
    fn left(&self, number: usize, form: &Form, lengths: Lengths<'_>) -> Option<Picture> {
        let drawing = PartsDrawing {
            title: &cintre_lettering::spell(&self.title),
            name: &cintre_lettering::spell(&format!("{}, left for the chisel", form_heading(form))),
            parts: &form.left,
            notes: &[],
            lengths,
        };
        (!form.left.is_empty()).then(|| Picture {
            name: format!("form-{}-{}-left", number + 1, file_name(&form.arch)),
            svg: cintre_picture::parts(&drawing),
        })
    }

    fn sheet(&self, planned: &PlannedSheet, lengths: Lengths<'_>) -> Picture {
        let zero = match &planned.machine {
            Machine::Router(router) => Some(Point::new(router.zero.at.0, router.zero.at.1)),
            Machine::Laser(laser) => Some(Point::from(laser.dialect.zero)),
            Machine::Pen(pen) => Some(Point::from(pen.dialect.zero)),
            Machine::Drawing(_) => None,
        };
        let programs = planned.road.as_ref().map_or(&[][..], |road| &road.programs);
        let kept_out = kept_out(planned);
        let drawing = SheetDrawing {
            kept_out: &kept_out,
            title: &cintre_lettering::spell(&self.title),
            sheet: &planned.sheet,
            programs,
            tabs: planned.tabs(),
            zero,
            faults: &[],
            notes: &[],
            lengths,
        };
        Picture {
            name: planned.sheet.id.clone(),
            svg: cintre_picture::sheet(&drawing),
        }
    }
}

/// The name of an arch's picture.
pub(crate) fn arch_picture(name: &str) -> String {
    format!("arch-{}", file_name(name))
}

/// The places kept free on a sheet, and those on the bed as far as they lie under it.
fn kept_out(planned: &PlannedSheet) -> Vec<Outline> {
    let stock = &planned.sheet.stock;
    let sheet = Rect::new(0.0, 0.0, stock.size.0, stock.size.1);
    let on_bed = match &planned.machine {
        Machine::Router(router) => router.keep_outs.as_slice(),
        _ => &[],
    };
    let under = on_bed.iter().filter(|place| place.overlaps(sheet));
    // The bits keep off the places of the stock too, which are drawn as what they are.
    let of_stock = |place: &Rect| stock.keep_outs.iter().any(|kept| kept.bounds() == *place);
    let under = under
        .filter(|place| !of_stock(place))
        .map(|place| Outline::rectangle(place.intersect(sheet)));
    stock.keep_outs.iter().cloned().chain(under).collect()
}

/// The back of its ring, or the level back of a camber arch.
fn extrados(named: &NamedArch) -> Option<Path> {
    let level = named.arch.level_back.map(|back| back.line(named.arch.span));
    level.or_else(|| named.ring.as_ref().map(|(_, back)| back.clone()))
}

/// The points of a measured arch, each with its number and how far it stands off.
fn taken(named: &NamedArch) -> Vec<Taken> {
    let Some(survey) = &named.survey else {
        return Vec::new();
    };
    let one = |(number, (at, off)): (usize, (&Point, &f64))| {
        // What rounds to nothing has no side.
        let off = if off.abs() < 0.05 { 0.0 } else { *off };
        Taken {
            at: *at - survey.origin.to_vec2(),
            text: format!("{}: {off:+.1}", number + 1),
        }
    };
    survey
        .points
        .iter()
        .zip(&survey.residuals.each)
        .enumerate()
        .map(one)
        .collect()
}

/// The two sizes that fix an arch at a glance: span and rise, or width and height where it is closed.
fn dimensions(named: &NamedArch, lengths: Lengths<'_>) -> Vec<Dimension> {
    let arch = &named.arch;
    let dimension = |from, to, side, word: &str, mm| dimension(from, to, side, word, (mm, lengths));
    if arch.closed {
        let bounds = named.fit.path.bounds();
        let (left, right) = (Point::new(bounds.x0, 0.0), Point::new(bounds.x1, 0.0));
        let (foot, top) = (Point::new(0.0, bounds.y0), Point::new(0.0, bounds.y1));
        return vec![
            dimension(left, right, Side::Below, "width", bounds.width()),
            dimension(foot, top, Side::Right, "height", bounds.height()),
        ];
    }
    let (left, right) = (arch.soffit.start(), arch.soffit.end());
    let crown = Point::new(arch.crown, left.y + arch.rise);
    vec![
        dimension(left, right, Side::Below, "span", arch.span),
        dimension(Point::new(right.x, left.y), crown, Side::Right, "rise", arch.rise),
    ]
}

/// A picture as a PNG, `width` pixels wide.
pub fn png(svg: &str, width: u32) -> Result<Vec<u8>, Trouble> {
    cintre_picture::png(svg, width).map_err(|error| Trouble::Broken(error.to_string()))
}

pub(crate) const fn unit(shown: Shown) -> Unit {
    match shown.unit() {
        cintre_measure::Unit::Millimetre => Unit::Millimetre,
        cintre_measure::Unit::Inch => Unit::Inch,
    }
}

/// A name of the user's as part of a file's name: letters, digits and dashes.
pub(crate) fn file_name(name: &str) -> String {
    cintre_write::ascii(name)
        .chars()
        .map(|c| {
            if c.is_ascii_alphanumeric() {
                c.to_ascii_lowercase()
            } else {
                '-'
            }
        })
        .collect()
}
