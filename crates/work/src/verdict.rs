//! What the proof found.

use serde::{Deserialize, Serialize};

/// What reading a cut file back found.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Verdict {
    /// How far the cut bites into a part at worst, mm.
    pub gouge: f64,
    /// How far an edge stays from what was cut at worst, tabs and corners out of the bit's reach apart, mm.
    pub leftover: f64,
    /// The length of edge left uncut at tabs and in corners that the bit cannot reach, mm.
    pub uncut_edge: f64,
    /// Whether the file may be handed over.
    pub passed: bool,
    /// What is wrong, worst first; empty if it passed.
    pub findings: Vec<Finding>,
}

/// One thing that is wrong with a file.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Finding {
    /// What, in plain words with its figure.
    pub what: String,
    /// The part it concerns.
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub part: Option<String>,
    /// Where, in the sheet's frame.
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub at: Option<[f64; 2]>,
    /// The line of the file, counted from 1.
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub line: Option<usize>,
}
