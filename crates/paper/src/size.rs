//! The sizes of paper.

/// A named sheet of paper and its sides, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Size {
    /// As the trade names it: `A4`.
    pub name: &'static str,
    /// Its short side.
    pub short: f64,
    /// Its long side.
    pub long: f64,
}

const fn mm(name: &'static str, short: f64, long: f64) -> Size {
    Size { name, short, long }
}

const fn inches(name: &'static str, short: f64, long: f64) -> Size {
    Size {
        name,
        short: short * 25.4,
        long: long * 25.4,
    }
}

/// Every size that has a name here.
pub const SIZES: [Size; 13] = [
    mm("A4", 210.0, 297.0),
    mm("A3", 297.0, 420.0),
    mm("A2", 420.0, 594.0),
    mm("A1", 594.0, 841.0),
    mm("A0", 841.0, 1189.0),
    inches("Letter", 8.5, 11.0),
    inches("Legal", 8.5, 14.0),
    inches("Tabloid", 11.0, 17.0),
    inches("C", 17.0, 22.0),
    inches("D", 22.0, 34.0),
    inches("E", 34.0, 44.0),
    inches("Arch-C", 18.0, 24.0),
    inches("Arch-D", 24.0, 36.0),
];

/// What a drawing is printed on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Paper {
    /// Sheets of a named size.
    Sheets(Size),
    /// A roll of this width, mm, cut off as long as each page is.
    Roll(f64),
}

impl Size {
    /// The size of this name, whatever the letters' case.
    pub fn named(name: &str) -> Option<Self> {
        SIZES
            .into_iter()
            .find(|size| size.name.eq_ignore_ascii_case(name))
    }
}

/// The narrowest roll that holds the bars and a strip of drawing beside them, mm.
pub const NARROWEST_ROLL: f64 = 200.0;
/// The widest that is made, mm.
pub const WIDEST_ROLL: f64 = 2000.0;
/// The longest page that every viewer shows, mm.
pub const LONGEST_PAGE: f64 = 5080.0;

/// What a printer makes of 100 mm, measured off a page that was not corrected, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Printer {
    /// The bar that runs across the paper: along a sheet's short edge, or across a roll.
    pub across: f64,
    /// The bar that runs the other way.
    pub along: f64,
}

impl Printer {
    /// One that prints true.
    pub const TRUE: Self = Self {
        across: 100.0,
        along: 100.0,
    };

    /// What drawings are multiplied by for it, across and along the paper: 100 over what was measured.
    pub fn factors(self) -> (f64, f64) {
        (100.0 / self.across, 100.0 / self.along)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_is_known_in_any_case() {
        let letter = Size::named("letter").unwrap();
        assert!((letter.short - 215.9).abs() < 1e-9 && (letter.long - 279.4).abs() < 1e-9);
        assert_eq!(Size::named("A5"), None);
        assert!(SIZES.iter().all(|size| size.short < size.long));
    }

    #[test]
    fn a_print_that_came_out_small() {
        let (across, along) = Printer {
            across: 97.2,
            along: 100.0,
        }
        .factors();
        assert!((across - 1.0288).abs() < 5e-5 && (along - 1.0).abs() < 1e-12);
        // What was drawn 1180 wide and not corrected came out 33.0 short.
        assert!((1180.0 * (1.0 - 1.0 / across) - 33.0).abs() < 0.05);
    }
}
