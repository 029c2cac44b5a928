//! The sections in their order.

use crate::legend::Text;
use crate::tags::Tags;
use crate::{DxfVersion, entities, tables};
use cintre_geometry::{Point, Rect};
use cintre_work::{Figure, Shape, Unit};
use cintre_write::NotFinite;

/// All that stands in a file, in its unit.
#[derive(Debug)]
pub(crate) struct Sheet {
    pub(crate) version: DxfVersion,
    pub(crate) units: Unit,
    pub(crate) shapes: Vec<Shape>,
    pub(crate) texts: Vec<Text>,
    pub(crate) notes: Vec<String>,
}

/// The whole file. The header names a handle above all others, so what follows it is written first.
pub(crate) fn write(sheet: &Sheet) -> Result<String, NotFinite> {
    let extents = extents(&sheet.shapes);
    let lowest = sheet.texts.iter().fold(extents.y0, |y, text| y.min(text.at.y));
    let view = Rect::new(extents.x0, lowest, extents.x1, extents.y1);
    let mut tags = Tags::new(sheet.version);
    let full = sheet.version == DxfVersion::R2010;
    if full {
        tags.section("CLASSES");
        tags.put(0, "ENDSEC");
    }
    let spaces = tables::write(&mut tags, view)?;
    if full {
        blocks(&mut tags, &spaces)?;
    }
    tags.section("ENTITIES");
    for shape in &sheet.shapes {
        entities::shape(&mut tags, &spaces.model, shape)?;
    }
    for text in &sheet.texts {
        entities::text(&mut tags, &spaces.model, text)?;
    }
    tags.put(0, "ENDSEC");
    if full {
        objects(&mut tags);
    }
    tags.put(0, "EOF");
    let next = tags.handle();
    Ok(header(sheet, extents, &next)? + &tags.text)
}

fn header(sheet: &Sheet, extents: Rect, next: &str) -> Result<String, NotFinite> {
    let mut tags = Tags::new(sheet.version);
    for note in &sheet.notes {
        tags.put(999, note);
    }
    let full = sheet.version == DxfVersion::R2010;
    tags.section("HEADER");
    tags.put(9, "$ACADVER");
    tags.put(1, if full { "AC1024" } else { "AC1009" });
    if full {
        tags.put(9, "$DWGCODEPAGE");
        tags.put(3, "ANSI_1252");
        tags.put(9, "$HANDSEED");
        tags.put(5, next);
    }
    let (insert, metric) = match sheet.units {
        Unit::Millimetre => (4, 1),
        Unit::Inch => (1, 0),
    };
    tags.put(9, "$INSUNITS");
    tags.put(70, insert);
    tags.put(9, "$MEASUREMENT");
    tags.put(70, metric);
    tags.put(9, "$EXTMIN");
    tags.point(10, Point::new(extents.x0, extents.y0))?;
    tags.put(9, "$EXTMAX");
    tags.point(10, Point::new(extents.x1, extents.y1))?;
    tags.put(0, "ENDSEC");
    Ok(tags.text)
}

fn blocks(tags: &mut Tags, spaces: &tables::Spaces) -> Result<(), NotFinite> {
    tags.section("BLOCKS");
    for (name, owner) in [("*Model_Space", &spaces.model), ("*Paper_Space", &spaces.paper)] {
        tags.object("BLOCK", 5, owner);
        tags.class("AcDbEntity");
        tags.put(8, "0");
        tags.class("AcDbBlockBegin");
        tags.put(2, name);
        tags.put(70, 0);
        tags.point(10, Point::ZERO)?;
        tags.put(3, name);
        tags.put(1, "");
        tags.object("ENDBLK", 5, owner);
        tags.class("AcDbEntity");
        tags.put(8, "0");
        tags.class("AcDbBlockEnd");
    }
    tags.put(0, "ENDSEC");
    Ok(())
}

fn objects(tags: &mut Tags) {
    tags.section("OBJECTS");
    let root = tags.object("DICTIONARY", 5, "0");
    tags.class("AcDbDictionary");
    tags.put(281, 1);
    tags.put(3, "ACAD_GROUP");
    let groups = tags.handle();
    tags.put(350, &groups);
    tags.put(0, "DICTIONARY");
    tags.put(5, &groups);
    tags.put(330, &root);
    tags.class("AcDbDictionary");
    tags.put(281, 1);
    tags.put(0, "ENDSEC");
}

/// The box around all lines, the bulge of every arc counted.
fn extents(shapes: &[Shape]) -> Rect {
    let boxes = shapes.iter().map(|shape| match &shape.figure {
        Figure::Closed(outline) => outline.bounds(),
        Figure::Open(path) => path.bounds(),
        Figure::Circle { centre, radius } => Rect::from_center_size(*centre, (2.0 * radius, 2.0 * radius)),
    });
    boxes.reduce(|all, one| all.union(one)).unwrap_or(Rect::ZERO)
}
