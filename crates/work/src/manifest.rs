//! `manifest.json`: what is in a made folder.

use crate::Verdict;
use serde::{Deserialize, Serialize};

/// The whole of `manifest.json`. Every length in mm.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Manifest {
    /// The job's title.
    pub title: String,
    /// `cintre` and its version.
    pub made_by: String,
    /// Always `mm`.
    pub units: String,
    /// The sheets, each with its cut files.
    pub sheets: Vec<ManifestSheet>,
    /// Every other file in the folder, but for the manifest itself.
    pub others: Vec<OtherFile>,
    /// The cautions of everything in the job.
    pub cautions: Vec<String>,
}

/// One sheet.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct ManifestSheet {
    /// `sheet-1` and so on.
    pub id: String,
    /// The shop's name for the stock.
    pub stock: String,
    /// Its length and width.
    pub size: [f64; 2],
    /// Its real thickness.
    pub thickness: f64,
    /// The names of the parts on it.
    pub parts: Vec<String>,
    /// The files that cut or show it.
    pub files: Vec<CutFile>,
}

/// One cut file.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct CutFile {
    /// Its path in the folder, with `/`.
    pub path: String,
    /// What kind of file it is.
    pub format: Format,
    /// The shop's name for the machine; none for the plain drawing that belongs to a routed sheet.
    pub machine: Option<String>,
    /// The bit that runs it, the first of several; none for a drawing.
    pub bit: Option<FileBit>,
    /// The bits that are put in after it, in their order, where one file runs several.
    #[serde(skip_serializing_if = "Vec::is_empty", default)]
    pub later_bits: Vec<FileBit>,
    /// `none`, `bit` or `kerf`: what the lines have been moved by.
    pub allowance: String,
    /// The width of the beam, 0 where there is none.
    pub kerf: f64,
    /// Z of the stock's face in this program; none for a drawing.
    pub top: Option<f64>,
    /// Z of the stock's underside in this program; none for a drawing.
    pub floor: Option<f64>,
    /// The file's zero in the sheet's frame.
    pub origin: [f64; 2],
    /// The unit of its numbers: `mm` or `in`.
    pub units: String,
    /// SHA-256 of its bytes, in hexadecimal.
    pub sha256: String,
    /// What the proof found.
    pub proof: Verdict,
}

/// The bit of a cut file.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct FileBit {
    /// The shop's name for it.
    pub name: String,
    /// Its diameter.
    pub diameter: f64,
}

/// A cut file's kind.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Format {
    /// DXF.
    Dxf,
    /// SVG.
    Svg,
    /// An RS-274/NGC program.
    Gcode,
    /// HP-GL.
    Hpgl,
}

/// A file that cuts nothing: a picture, the job sheet, the design.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct OtherFile {
    /// Its path in the folder, with `/`.
    pub path: String,
    /// SHA-256 of its bytes, in hexadecimal.
    pub sha256: String,
}
