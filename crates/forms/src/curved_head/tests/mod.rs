//! Curved heads as a whole.

mod boards;
mod casings;
mod reassembled;
mod refused;

use super::*;
use crate::centering::Usable;
use crate::shapes;
use cintre_geometry::{Path, Point};
use std::f64::consts::PI;

/// A head of boards so large that nothing but the job's own words limits it.
pub(super) fn input(soffit: Path, width: f64) -> Input {
    Input {
        arch: "door".into(),
        soffit,
        fit_error: 0.0,
        piece: Piece::Head,
        width,
        reveal: 0.0,
        boards: Boards {
            stock: "oak".into(),
            thickness: 27.0,
            size: (2400.0, 145.0),
            clean_up: 6.0,
            count: None,
        },
        layers: None,
        segments: None,
        cross_grain: PI / 6.0,
        joint: None,
        least_corner: 3.175,
        glue_up: None,
    }
}

pub(super) fn values(form: &Form, name: &str) -> Vec<f64> {
    let named = form.figures.iter().find(|f| f.name == name);
    named
        .unwrap_or_else(|| panic!("a figure called {name}"))
        .values
        .clone()
}

#[track_caller]
pub(super) fn near(given: &[f64], expected: &[f64], within: f64) {
    assert_eq!(given.len(), expected.len(), "{given:?} is not {expected:?}");
    for (a, b) in given.iter().zip(expected) {
        assert!((a - b).abs() <= within, "{given:?} is not {expected:?}");
    }
}

/// A ring that goes all round.
pub(super) fn round(radius: f64) -> Path {
    let arch = cintre_geometry::arch::Round {
        diameter: 2.0 * radius,
    };
    arch.arch().unwrap().soffit.fit(0.02).path
}

/// An arc of this radius and sweep.
pub(super) fn sector(radius: f64, sweep: f64) -> Path {
    let half = sweep / 2.0;
    shapes::segmental(2.0 * radius * half.sin(), radius * (1.0 - half.cos()))
}
