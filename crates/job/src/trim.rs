//! What is kept clear along the edges of a sheet.

use crate::fault::{Fault, Place};
use crate::record::{Datum, Record};
use crate::table::{Field, Kind, LENGTH_OR_0, default};

/// What is kept clear along an edge where the shop does not say, mm: mills leave them ragged, and a bit runs there.
const USUAL: f64 = 8.0;

/// What is kept clear along each edge of a stock, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Trim {
    /// Along its left edge, where the first of two coordinates is 0.
    pub left: f64,
    /// Along its right edge.
    pub right: f64,
    /// Along its bottom edge, where the second is 0.
    pub bottom: f64,
    /// Along its top edge.
    pub top: f64,
}

impl Trim {
    /// As much along every edge.
    pub(crate) const fn even(mm: f64) -> Self {
        Self {
            left: mm,
            right: mm,
            bottom: mm,
            top: mm,
        }
    }

    pub(crate) fn of(stock: &Record) -> Self {
        match stock.get("trim") {
            None => Self::even(USUAL),
            Some(Datum::Record(edges)) => Self {
                left: edges.number("left"),
                right: edges.number("right"),
                bottom: edges.number("bottom"),
                top: edges.number("top"),
            },
            Some(all) => Self::even(all.number()),
        }
    }

    /// What it takes off the two sizes of a stock.
    pub const fn taken(self) -> [f64; 2] {
        [self.left + self.right, self.bottom + self.top]
    }
}

/// A trim leaves something of a stock of this size; an outline has one all along it.
pub(crate) fn check(stock: &Record, size: [f64; 2], faults: &mut Vec<Fault>) {
    let place = |field: &str| stock.fields.get(field).map(|placed| &placed.place);
    let Some(Datum::Record(edges)) = stock.get("trim") else {
        let (trim, most) = (Trim::of(stock).left, size[0].min(size[1]) / 2.0);
        if trim >= most {
            let what = format!("trim of {trim} mm: it must be under {most} mm at this size");
            faults.push(place("trim").unwrap_or(&stock.place).fault(what, None));
        }
        return;
    };
    if let (Some(trim), Some(_)) = (place("trim"), stock.get("outline")) {
        let what = "an `outline` is trimmed as much all along it";
        let help = format!("give one length: {} mm is the widest of these", widest(edges));
        faults.push(trim.fault(what, Some(help)));
        return;
    }
    for (near, far, size) in [("left", "right", size[0]), ("bottom", "top", size[1])] {
        // One that is missing here was a fault of its own.
        let (Some(a), Some(b)) = (edges.maybe_number(near), edges.maybe_number(far)) else {
            continue;
        };
        if a + b < size {
            continue;
        }
        // Told where the more is asked for.
        let (field, given, other, beside) = if b > a {
            (far, b, near, a)
        } else {
            (near, a, far, b)
        };
        let at: &Place = edges
            .fields
            .get(field)
            .map_or(&edges.place, |placed| &placed.place);
        let what = format!(
            "a trim of {given} mm here and {beside} mm at the {other} leaves nothing of a size of {size} mm"
        );
        let help = (beside < size).then(|| format!("under {} mm with that", size - beside));
        faults.push(at.fault(what, help));
    }
}

fn widest(edges: &Record) -> f64 {
    let each = ["left", "right", "bottom", "top"].into_iter();
    each.filter_map(|edge| edges.maybe_number(edge))
        .fold(0.0, f64::max)
}

/// The trim of a stock, edge by edge.
pub(crate) const EDGES: Kind = Kind::LengthOrGroup(&[
    edge("left", "kept clear along the left edge"),
    edge("right", "kept clear along the right edge"),
    edge("bottom", "kept clear along the bottom edge"),
    edge("top", "kept clear along the top edge"),
]);

const fn edge(name: &'static str, help: &'static str) -> Field {
    default(name, LENGTH_OR_0, "8 mm", help)
}
