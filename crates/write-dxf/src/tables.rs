//! The tables: what the entities refer to, and in R2010 the empty ones that strict readers ask for.

use crate::DxfVersion;
use crate::entities::layer_name;
use crate::tags::Tags;
use cintre_geometry::{Point, Rect};
use cintre_work::Layer;
use cintre_write::NotFinite;

/// The block records of the model and the paper.
#[derive(Debug)]
pub(crate) struct Spaces {
    pub(crate) model: String,
    pub(crate) paper: String,
}

/// Writes the section; `view` is what the file opens on.
pub(crate) fn write(tags: &mut Tags, view: Rect) -> Result<Spaces, NotFinite> {
    tags.section("TABLES");
    viewport(tags, view)?;
    let full = tags.version == DxfVersion::R2010;
    let types: &[&str] = if full {
        &["ByBlock", "ByLayer", "CONTINUOUS"]
    } else {
        &["CONTINUOUS"]
    };
    table(tags, "LTYPE", types, |tags, name| {
        record(tags, "AcDbLinetypeTableRecord", name);
        tags.put(3, if name == "CONTINUOUS" { "Solid line" } else { "" });
        tags.put(72, 65);
        tags.put(73, 0);
        tags.length(40, 0.0)
    })?;
    layers(tags)?;
    table(tags, "STYLE", &["STANDARD"], |tags, name| {
        record(tags, "AcDbTextStyleTableRecord", name);
        for (code, value) in [(40, 0.0), (41, 1.0), (50, 0.0)] {
            tags.length(code, value)?;
        }
        tags.put(71, 0);
        tags.length(42, 2.5)?;
        tags.put(3, "txt");
        tags.put(4, "");
        Ok(())
    })?;
    if !full {
        tags.put(0, "ENDSEC");
        return Ok(Spaces {
            model: String::new(),
            paper: String::new(),
        });
    }
    table(tags, "VIEW", &[], |_, _| Ok(()))?;
    table(tags, "UCS", &[], |_, _| Ok(()))?;
    table(tags, "APPID", &["ACAD"], |tags, name| {
        record(tags, "AcDbRegAppTableRecord", name);
        Ok(())
    })?;
    table(tags, "DIMSTYLE", &["STANDARD"], |tags, name| {
        record(tags, "AcDbDimStyleTableRecord", name);
        Ok(())
    })?;
    let blocks = table(
        tags,
        "BLOCK_RECORD",
        &["*Model_Space", "*Paper_Space"],
        |tags, name| {
            tags.class("AcDbSymbolTableRecord");
            tags.class("AcDbBlockTableRecord");
            tags.put(2, name);
            Ok(())
        },
    )?;
    tags.put(0, "ENDSEC");
    let mut blocks = blocks.into_iter();
    Ok(Spaces {
        model: blocks.next().unwrap_or_default(),
        paper: blocks.next().unwrap_or_default(),
    })
}

/// One table; the handles of its records.
fn table(
    tags: &mut Tags,
    name: &str,
    records: &[&str],
    body: impl Fn(&mut Tags, &str) -> Result<(), NotFinite>,
) -> Result<Vec<String>, NotFinite> {
    tags.put(0, "TABLE");
    tags.put(2, name);
    let own = tags.handle();
    if tags.version == DxfVersion::R2010 {
        tags.put(5, &own);
        tags.put(330, 0);
    }
    tags.class("AcDbSymbolTable");
    tags.put(70, records.len());
    if name == "DIMSTYLE" {
        tags.class("AcDbDimStyleTable");
    }
    let code = if name == "DIMSTYLE" { 105 } else { 5 };
    let mut handles = Vec::new();
    for record in records {
        handles.push(tags.object(name, code, &own));
        body(tags, record)?;
    }
    tags.put(0, "ENDTAB");
    Ok(handles)
}

fn record(tags: &mut Tags, class: &str, name: &str) {
    tags.class("AcDbSymbolTableRecord");
    tags.class(class);
    tags.put(2, name);
    tags.put(70, 0);
}

fn viewport(tags: &mut Tags, view: Rect) -> Result<(), NotFinite> {
    table(tags, "VPORT", &["*ACTIVE"], |tags, name| {
        record(tags, "AcDbViewportTableRecord", name);
        tags.flat(10, Point::ZERO)?;
        tags.flat(11, Point::new(1.0, 1.0))?;
        tags.flat(12, view.center())?;
        tags.flat(13, Point::ZERO)?;
        tags.flat(14, Point::new(10.0, 10.0))?;
        tags.flat(15, Point::new(10.0, 10.0))?;
        tags.flat(16, Point::ZERO)?;
        tags.length(36, 1.0)?;
        tags.point(17, Point::ZERO)?;
        // A window a half wider than high, with a little air around what is drawn.
        tags.length(40, view.height().max(view.width() / 1.5) * 1.1)?;
        tags.length(41, 1.5)?;
        tags.length(42, 50.0)?;
        for code in [43, 44, 50, 51] {
            tags.length(code, 0.0)?;
        }
        for (code, value) in [
            (71, 0),
            (72, 100),
            (73, 1),
            (74, 3),
            (75, 0),
            (76, 0),
            (77, 0),
            (78, 0),
        ] {
            tags.put(code, value);
        }
        Ok(())
    })?;
    Ok(())
}

fn layers(tags: &mut Tags) -> Result<(), NotFinite> {
    let names: Vec<(String, u8)> = std::iter::once(("0".to_owned(), 7))
        .chain(
            Layer::ALL
                .into_iter()
                .map(|layer| (layer_name(layer), colour(layer))),
        )
        .collect();
    let records: Vec<&str> = names.iter().map(|(name, _)| name.as_str()).collect();
    table(tags, "LAYER", &records, |tags, name| {
        record(tags, "AcDbLayerTableRecord", name);
        tags.put(
            62,
            names
                .iter()
                .find(|(n, _)| n == name)
                .map_or(7, |(_, colour)| *colour),
        );
        tags.put(6, "CONTINUOUS");
        Ok(())
    })?;
    Ok(())
}

/// A colour number; blue against orange, never red against green.
const fn colour(layer: Layer) -> u8 {
    match layer {
        Layer::Stock => 9,
        Layer::Text => 8,
        Layer::Mark => 200,
        Layer::Bore => 140,
        Layer::Recess => 30,
        Layer::Opening => 5,
        Layer::Outline => 7,
    }
}
