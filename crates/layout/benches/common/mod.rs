//! What the tables of layouts share.

#![allow(dead_code, reason = "each table takes what it needs")]

use cintre_geometry::Outline;
use cintre_layout::{Conduct, LaidOut, Settings, lay_out};
use cintre_work::{Grain, Part, Stock, StockGrain, Trim};

pub(crate) fn part(name: &str, outline: Outline, grain: Grain, count: usize) -> Part {
    Part {
        name: name.to_owned(),
        outline: outline.oriented(true),
        openings: vec![],
        bores: vec![],
        recesses: vec![],
        marks: vec![],
        clean: Vec::new(),
        stock: "ply18".to_owned(),
        thickness: 17.6,
        grain,
        count,
        fit_error: 0.0,
    }
}

pub(crate) fn stock(size: (f64, f64), trim: f64) -> Stock {
    Stock {
        name: "ply18".to_owned(),
        material: "plywood".to_owned(),
        size,
        thickness: 17.6,
        grain: StockGrain::Long,
        sheets: None,
        trim: Trim::even(trim),
        outline: None,
        keep_outs: vec![],
        alike: false,
    }
}

/// Seconds that this thread has run so far, whatever else the machine does; 0 where the system does not tell.
pub(crate) fn seconds() -> f64 {
    #[expect(clippy::disallowed_methods, reason = "a bench measures time")]
    let told = std::fs::read_to_string("/proc/thread-self/schedstat").unwrap_or_default();
    let nanoseconds = told.split(' ').next().and_then(|n| n.parse::<f64>().ok());
    nanoseconds.unwrap_or(0.0) / 1e9
}

/// A layout, and the processor seconds it took: stopped when it has taken as many as it may.
pub(crate) fn timed(parts: &[Part], stock: &Stock, settings: Settings, most: f64) -> (LaidOut, f64) {
    let begun = seconds();
    let conduct = Conduct {
        say: &|_| (),
        stop: &|| seconds() - begun > most,
    };
    let laid = lay_out(parts, std::slice::from_ref(stock), settings, conduct);
    let laid = laid.unwrap_or_else(|error| panic!("{error}"));
    (laid, seconds() - begun)
}
