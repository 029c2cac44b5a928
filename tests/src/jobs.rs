//! Jobs to make, and to spoil.

use std::path::{Path, PathBuf};

/// The shop of [`NICHE`]: a small router, and who takes drawings.
pub const SHOP: &str = "\
units: mm
stock:
  mdf9: { material: mdf, sheet: [600, 400], thickness: 9, sheets: 1 }
bits:
  cutter-6:
    kind: straight
    diameter: 6
    cutting-length: 20
    plunges: true
    holder: { diameter: 20, above: 30 }
    feeds:
      mdf: { speed: 16000, feed: 3000, plunge: 900, depth: 5 }
machines:
  table:
    kind: router
    bed: [700, 500]
    bits: [cutter-6]
    cut: climb
    tabs: { width: 8, height: 3, every: 200 }
  drawn: { kind: drawing, format: dxf }
  traced: { kind: drawing, format: svg }
";

/// A job that is small enough to be made in a moment. Its shop is `shop.yaml` beside it.
pub const NICHE: &str = "\
title: Washhouse, soap niche
units: mm
shop: shop.yaml
arches:
  niche: { shape: segmental, span: 320, rise: 90, ring: 40 }
make:
  - pattern: { arch: niche, piece: inside, stock: mdf9, machine: table }
";

/// `text` with one place of it written otherwise.
#[track_caller]
pub fn spoilt(text: &str, from: &str, to: &str) -> String {
    assert_eq!(text.matches(from).count(), 1, "`{from}` is not in it once");
    text.replacen(from, to, 1)
}

/// The number of the first line that holds `word`, from 1.
#[track_caller]
pub fn line_of(text: &str, word: &str) -> usize {
    let at = text.lines().position(|line| line.contains(word));
    at.unwrap_or_else(|| panic!("`{word}` is not in it")) + 1
}

/// The path of an example's job file.
pub fn example(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("../examples/almshouse")
        .join(name)
        .with_extension("yaml")
}
