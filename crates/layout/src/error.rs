//! Why parts cannot be laid out.

/// Why parts cannot be laid out. Lengths in mm.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum Error {
    /// A part names a stock that is not there.
    #[error("{part} is to be cut from {stock}, which the shop does not have")]
    UnknownStock {
        /// The part.
        part: String,
        /// The stock it names.
        stock: String,
    },
    /// A part is wanted no times at all.
    #[error("{part} is wanted 0 times: 1 is the fewest")]
    NoCount {
        /// The part.
        part: String,
    },
    /// More pieces are wanted than any job has.
    #[error("{pieces} pieces are wanted: {most} is the most")]
    TooMany {
        /// How many are wanted.
        pieces: usize,
        /// How many may be.
        most: usize,
    },
    /// Two pieces would bear one name.
    #[error("two pieces are both called {name}")]
    SameName {
        /// The name.
        name: String,
    },
    /// A part has no size that can be laid out.
    #[error("{part} has no size that can be laid out")]
    NoSize {
        /// The part.
        part: String,
    },
    /// The spacing is no length.
    #[error("the spacing between parts is {spacing} mm: it must be 0 or more")]
    Spacing {
        /// The spacing given.
        spacing: f64,
    },
    /// An outline cannot be laid out, or laid on.
    #[error("the outline of {name} cannot be used: {why}")]
    Outline {
        /// The part, or the stock.
        name: String,
        /// Why not.
        why: String,
    },
    /// A part does not go on a whole sheet, whichever way its grain lets it lie.
    #[error(
        "{part} is {:.1} × {:.1} mm as its grain must lie, and {stock} has {:.1} × {:.1} mm inside its trim: the part could be {:.1} × {:.1} mm at most",
        .size.0, .size.1, .usable.0, .usable.1, .largest.0, .largest.1
    )]
    TooLarge {
        /// The part.
        part: String,
        /// The stock it names.
        stock: String,
        /// Its size along the sheet's x and y, in the way it comes nearest to fitting.
        size: (f64, f64),
        /// The sheet's size inside the trim.
        usable: (f64, f64),
        /// The part's size were it scaled until it fits that way.
        largest: (f64, f64),
    },
    /// The shop has too few sheets.
    #[error("{} needed of {stock} as it is laid out, and the shop has {have}", sheets(*needed))]
    Sheets {
        /// The stock.
        stock: String,
        /// How many this layout takes.
        needed: usize,
        /// How many the shop has.
        have: usize,
    },
    /// A finished layout did not measure as it should: a fault of this program.
    #[error("{part} on {sheet} lies {gap:.6} mm from {other}, not {wanted:.6} mm: a fault of this program")]
    Gap {
        /// The sheet.
        sheet: String,
        /// The part.
        part: String,
        /// The other part, or the edge of the sheet.
        other: String,
        /// The gap between them.
        gap: f64,
        /// What it should be at least.
        wanted: f64,
    },
}

fn sheets(count: usize) -> String {
    if count == 1 {
        "1 sheet is".to_owned()
    } else {
        format!("{count} sheets are")
    }
}
