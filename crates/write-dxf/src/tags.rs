//! Group codes and values, one on each line.

use crate::DxfVersion;
use cintre_geometry::Point;
use cintre_write::{NotFinite, fixed};

/// Decimals of a coordinate.
const PLACE: usize = 6;

/// A file, or a stretch of one.
#[derive(Debug)]
pub(crate) struct Tags {
    pub(crate) text: String,
    pub(crate) version: DxfVersion,
    handle: u32,
}

impl Tags {
    pub(crate) const fn new(version: DxfVersion) -> Self {
        Self {
            text: String::new(),
            version,
            handle: 0,
        }
    }

    /// A handle that no other object has.
    pub(crate) fn handle(&mut self) -> String {
        self.handle += 1;
        format!("{:X}", self.handle)
    }

    pub(crate) fn put(&mut self, code: u16, value: impl ToString) {
        self.text
            .extend([code.to_string(), "\r\n".into(), value.to_string(), "\r\n".into()]);
    }

    pub(crate) fn real(&mut self, code: u16, value: f64, decimals: usize) -> Result<(), NotFinite> {
        self.put(code, fixed(value, decimals)?);
        Ok(())
    }

    pub(crate) fn length(&mut self, code: u16, value: f64) -> Result<(), NotFinite> {
        self.real(code, value, PLACE)
    }

    /// A point in the plane: `code` and `code` + 10.
    pub(crate) fn flat(&mut self, code: u16, p: Point) -> Result<(), NotFinite> {
        self.length(code, p.x)?;
        self.length(code + 10, p.y)
    }

    /// A point at height 0.
    pub(crate) fn point(&mut self, code: u16, p: Point) -> Result<(), NotFinite> {
        self.flat(code, p)?;
        self.length(code + 20, 0.0)
    }

    /// A class marker, which R12 does not know.
    pub(crate) fn class(&mut self, name: &str) {
        if self.version == DxfVersion::R2010 {
            self.put(100, name);
        }
    }

    /// The start of an object with its owner; its handle, which stands in group `code`. R12 needs neither.
    pub(crate) fn object(&mut self, kind: &str, code: u16, owner: &str) -> String {
        self.put(0, kind);
        let handle = self.handle();
        if self.version == DxfVersion::R2010 {
            self.put(code, &handle);
            self.put(330, owner);
        }
        handle
    }

    pub(crate) fn section(&mut self, name: &str) {
        self.put(0, "SECTION");
        self.put(2, name);
    }
}
