//! Centerings as a whole.

mod arches;
mod forty;
mod plates;
mod section;

use super::*;
use cintre_geometry::Path;

/// A centering of the almshouse, with all that a job would leave to its defaults.
pub(super) fn input(soffit: Path) -> Input {
    Input {
        arch: "gate".into(),
        soffit,
        fit_error: 0.0,
        ring: None,
        wall: 225.0,
        clear: Clear {
            jambs: 5.0,
            faces: 0.0,
        },
        lagging: Lagging {
            thickness: 18.0,
            skin: 4.0,
            width: 50.0,
            gap: 20.0,
        },
        build: Some(Build::Single),
        tie: None,
        rib_depth: None,
        bolt: Some(10.0),
        lap: None,
        ribs: None,
        split: false,
        lifting_holes: Some(false),
        notch: None,
        spacer: (45.0, 95.0),
        wedges: Wedges {
            slope: 1.0 / 8.0,
            drive: None,
            lip: 0.0,
            clearance: 5.0,
        },
        load: Load {
            density: 20.0,
            stiffness: 6000.0,
            heaviest: None,
        },
        stock: "ply18".into(),
        thickness: 17.6,
        sheet: Some(SHEET),
        least_corner: 3.175,
    }
}

/// A sheet of 2440 x 1220 inside a trim of 8.
pub(super) const SHEET: Usable = Usable {
    along: 2424.0,
    across: 1204.0,
    either_way: false,
};

pub(super) fn values(form: &Form, name: &str) -> Vec<f64> {
    let named = form.figures.iter().find(|f| f.name == name);
    named
        .unwrap_or_else(|| panic!("a figure called {name}"))
        .values
        .clone()
}

pub(super) fn near(given: f64, expected: f64, within: f64) {
    assert!((given - expected).abs() <= within, "{given} is not {expected}");
}
