//! The arches and the parts at full size on paper.

use crate::arches::NamedArch;
use crate::blame::is_copy;
use crate::cut_files::File;
use crate::figures::{Shown, heading};
use crate::pictures::file_name;
use crate::{Plan, PlannedSheet, Trouble};
use cintre_forms::Form;
use cintre_geometry::{Path, Point, Vec2};
use cintre_job::{Job, Shop};
use cintre_measure::Unit;
use cintre_paper::{FullSize, NARROWEST_ROLL, Paper, Printer, Size, Tiled, WIDEST_ROLL, full_size};
use cintre_toolpath::shapes_of;
use cintre_work::design::{DesignLine, DesignPage, DesignPaper, open_chain};
use cintre_work::{Caution, Figure, Layer, Part, Shape, Sheet, cautions};
use std::collections::BTreeSet;

/// Half the length of the lines that mark a springing and the crown, mm: no line runs where nothing is cut, for it would
/// take pages of its own.
const STUB: f64 = 20.0;

/// What full-size drawings are printed on.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Printing {
    pub(crate) papers: Vec<Paper>,
    printer: Printer,
    drawn: Vec<&'static str>,
}

impl Printing {
    fn draws(&self, what: &str) -> bool {
        self.drawn.contains(&what)
    }

    /// What the shop says, and where it does not, A4, or Letter for a job in inches.
    pub(crate) fn of(job: &Job, shop: &Shop) -> Result<Self, Trouble> {
        let spec = &shop.house.paper;
        let usual = match job.units {
            Unit::Millimetre => "A4",
            Unit::Inch => "Letter",
        };
        let sheet = Size::named(spec.sheet.unwrap_or(usual)).map(Paper::Sheets);
        if let Some(roll) = spec.roll
            && !(NARROWEST_ROLL..=WIDEST_ROLL).contains(&roll)
        {
            let what = format!("a roll is {NARROWEST_ROLL} to {WIDEST_ROLL} mm wide");
            return Err(Trouble::Faults(vec![
                shop.house.places.at("roll").fault(what, None),
            ]));
        }
        let papers = sheet.into_iter().chain(spec.roll.map(Paper::Roll)).collect();
        let printer = spec
            .printer
            .map_or(Printer::TRUE, |[across, along]| Printer { across, along });
        Ok(Self {
            papers,
            printer,
            drawn: spec.drawn.clone(),
        })
    }
}

/// One drawing, for every paper.
struct Drawing {
    file: String,
    name: String,
    facts: Vec<String>,
    cautions: Vec<String>,
    shapes: Vec<Shape>,
}

impl Plan {
    /// Every full-size drawing on every paper, and what the proof must know of it.
    pub(crate) fn printed(&self, shown: Shown) -> Result<(Vec<File>, Vec<DesignPaper>), Trouble> {
        let arches = self.arches.iter().map(|arch| self.arch_paper(arch, shown));
        let forms = self.forms.iter().enumerate();
        let forms = forms.filter(|(_, form)| form.is_sawn_by_hand());
        let parts = forms.flat_map(|(number, form)| {
            let parts = form.parts.iter();
            parts.map(move |part| part_paper(number + 1, form, part, shown))
        });
        let sheets = self.sheets.iter().map(|planned| self.sheet_paper(planned));
        let arches = arches.filter(|_| self.printing.draws("arches"));
        let parts = parts.filter(|_| self.printing.draws("parts"));
        let sheets = sheets.filter(|_| self.printing.draws("sheets"));
        let (mut files, mut papers, mut taken) = (Vec::new(), Vec::new(), BTreeSet::new());
        for drawing in arches.chain(parts).chain(sheets) {
            for &paper in &self.printing.papers {
                let tiled = self.on_paper(&drawing, paper, shown)?;
                let path = free_path(&format!("{}-{}", drawing.file, paper_name(paper)), &mut taken);
                let bytes = cintre_write_pdf::write(&tiled.document);
                let bytes = bytes.map_err(|error| Trouble::Broken(format!("{path}: {error}")))?;
                papers.push(designed(&path, &tiled));
                files.push(File { path, bytes });
            }
        }
        Ok((files, papers))
    }

    fn on_paper(&self, drawing: &Drawing, paper: Paper, shown: Shown) -> Result<Tiled, Trouble> {
        let tiled = full_size(&FullSize {
            title: &self.title,
            name: &drawing.name,
            facts: &drawing.facts,
            cautions: &drawing.cautions,
            shapes: &drawing.shapes,
            paper,
            printer: self.printing.printer,
            length: &|mm| shown.mark(mm),
        });
        tiled.map_err(|error| Trouble::Broken(format!("{}: {error}", drawing.name)))
    }

    fn arch_paper(&self, named: &NamedArch, shown: Shown) -> Drawing {
        let arch = &named.arch;
        let kinds = named.survey.iter().map(|_| Caution::Measured);
        let forms = self.forms.iter().filter(|form| form.arch == named.name);
        let kinds = kinds.chain(forms.flat_map(|form| form.cautions.iter().copied()));
        let mut facts = vec![format!(
            "The soffit, its ring and its joints, span {}, rise {}.",
            shown.mark(arch.span),
            shown.mark(arch.rise)
        )];
        facts.extend(fit_fact(named.fit.worst_error));
        Drawing {
            file: format!("arch-{}", file_name(&named.name)),
            name: heading(named),
            facts,
            cautions: with_saws(kinds),
            shapes: arch_shapes(named),
        }
    }
}

impl Plan {
    /// The parts of a sheet as they lie on it. The edge of its stock would take pages of its own, and is not drawn.
    fn sheet_paper(&self, planned: &PlannedSheet) -> Drawing {
        let Sheet { id, stock, parts } = &planned.sheet;
        let on_it = |form: &&Form| {
            let mut names = parts.iter().map(|placed| &placed.name);
            names.any(|name| form.parts.iter().any(|part| is_copy(name, &part.name)))
        };
        let kinds = self
            .forms
            .iter()
            .filter(on_it)
            .flat_map(|form| form.cautions.iter().copied());
        let fact = format!(
            "{} parts as they lie on {} of {:.1} mm. Lines are the finished edge; the edge of the stock is not drawn.",
            parts.len(),
            stock.name,
            stock.thickness
        );
        let worst = parts
            .iter()
            .map(|placed| placed.part.fit_error)
            .fold(0.0, f64::max);
        Drawing {
            file: id.clone(),
            name: format!("{id}: {}", stock.name),
            facts: std::iter::once(fact).chain(fit_fact(worst)).collect(),
            cautions: with_saws(kinds),
            shapes: parts.iter().flat_map(|placed| shapes_of(&placed.part)).collect(),
        }
    }
}

fn part_paper(number: usize, form: &Form, part: &Part, shown: Shown) -> Drawing {
    let size = part.outline.bounds();
    let mut facts = vec![format!(
        "{} wanted, {} × {}, of {} {:.1} mm thick. Lines are the finished edge.",
        part.count,
        shown.mark(size.width()),
        shown.mark(size.height()),
        part.stock,
        part.thickness
    )];
    facts.extend(fit_fact(part.fit_error));
    Drawing {
        file: format!("form-{number}-{}", file_name(&part.name)),
        name: part.name.clone(),
        facts,
        cautions: with_saws(form.cautions.iter().copied()),
        shapes: shapes_of(part),
    }
}

fn with_saws(kinds: impl Iterator<Item = Caution>) -> Vec<String> {
    cautions(&kinds.chain([Caution::Saws]).collect::<Vec<_>>())
}

fn fit_fact(worst: f64) -> Option<String> {
    (worst > 0.0).then(|| format!("Drawn as tangent arcs, at most {worst:.4} mm off the curve."))
}

/// An arch's lines at full size: soffit, ring and joints, with stubs of the springing line and the centre line.
fn arch_shapes(named: &NamedArch) -> Vec<Shape> {
    let arch = &named.arch;
    let shape = |layer, path: &Path| Shape {
        layer,
        figure: Figure::Open(path.clone()),
    };
    let lines = [
        Some(&named.fit.path),
        named.ring.as_ref().map(|(_, back)| back),
        named.reveal.as_ref().map(|(_, line)| line),
    ];
    let mut shapes: Vec<Shape> = lines
        .into_iter()
        .flatten()
        .map(|path| shape(Layer::Outline, path))
        .collect();
    if let (false, Some((_, back))) = (arch.closed, &named.ring) {
        let edge = named.edge();
        for (a, b) in [(edge.start(), back.start()), (edge.end(), back.end())] {
            shapes.push(shape(Layer::Outline, &Path::polyline(&[a, b])));
        }
    }
    let joints = named.voussoirs.iter().flat_map(|v| &v.joints);
    shapes.extend(joints.map(|joint| shape(Layer::Mark, joint)));
    let mut stub = |at: Point, along: Vec2| {
        let ends = [at - along * STUB, at + along * STUB];
        shapes.push(shape(Layer::Mark, &Path::polyline(&ends)));
    };
    let (level, plumb) = (Vec2::new(1.0, 0.0), Vec2::new(0.0, 1.0));
    if !arch.closed {
        for end in [arch.soffit.start(), arch.soffit.end()] {
            stub(end, level);
        }
        stub(Point::new(arch.crown, arch.soffit.start().y + arch.rise), plumb);
    }
    shapes
}

/// A path in the folder that no other drawing has.
fn free_path(name: &str, taken: &mut BTreeSet<String>) -> String {
    let numbered = (2..).map(|n| format!("paper/{name}-{n}.pdf"));
    let mut paths = std::iter::once(format!("paper/{name}.pdf")).chain(numbered);
    let free = paths.find(|path| taken.insert(path.clone()));
    free.expect("numbers do not end")
}

fn paper_name(paper: Paper) -> String {
    match paper {
        Paper::Sheets(size) => size.name.to_ascii_lowercase(),
        Paper::Roll(width) => format!("roll-{width:.0}"),
    }
}

/// What the proof must know of a drawing on paper.
fn designed(path: &str, tiled: &Tiled) -> DesignPaper {
    let pages = &tiled.document.pages;
    let stretch = pages.first().map_or((1.0, 1.0), |page| page.stretch);
    let key = pages.len() - tiled.tiles.len();
    let corners = tiled
        .tiles
        .iter()
        .map(|tile| Some([tile.corner.x, tile.corner.y]));
    let corners = std::iter::repeat_n(None, key).chain(corners);
    DesignPaper {
        path: path.to_owned(),
        stretch: [stretch.0, stretch.1],
        pages: pages
            .iter()
            .zip(corners)
            .map(|(page, corner)| DesignPage {
                size: [page.size.0 * stretch.0, page.size.1 * stretch.1],
                corner,
            })
            .collect(),
        lines: tiled
            .lines
            .iter()
            .map(|(layer, line)| DesignLine {
                layer: layer.name().to_owned(),
                chain: open_chain(line),
            })
            .collect(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn two_drawings_of_one_name_have_files_of_their_own() {
        let mut taken = BTreeSet::new();
        let paths = [0, 1, 2].map(|_| free_path("gate-rib-a4", &mut taken));
        assert_eq!(
            paths,
            [
                "paper/gate-rib-a4.pdf",
                "paper/gate-rib-a4-2.pdf",
                "paper/gate-rib-a4-3.pdf"
            ]
        );
    }
}
