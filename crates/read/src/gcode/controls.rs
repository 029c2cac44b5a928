//! What a program switches besides its axes: a spindle, a beam or a pen.

/// What a program drives.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Controls<'a> {
    /// A router's spindle, M3 and M5; below `safe`, in mm and in the program's own frame, no rapid may move sideways.
    Spindle {
        /// That height.
        safe: f64,
    },
    /// A laser's beam: the line that begins with one of these words lights it or puts it out, its S word beside it. No heights.
    Beam {
        /// Lights it.
        on: &'a str,
        /// Puts it out.
        off: &'a str,
    },
    /// A pen that is lowered and lifted by lines of its controller's own. No heights.
    PenByWords {
        /// Lowers it.
        down: &'a str,
        /// Lifts it.
        up: &'a str,
    },
    /// A pen that is lowered and lifted by its height.
    PenByHeight {
        /// The height, in mm, below which no rapid may move sideways.
        up: f64,
    },
}

impl<'a> Controls<'a> {
    /// Whether the line switches a beam or a pen on or off, and what stands behind the word.
    pub(super) fn switch(self, line: &str) -> Option<(bool, &str)> {
        let (on, off) = self.words()?;
        let rest = |word: &str| {
            let rest = line.strip_prefix(word)?;
            (rest.is_empty() || rest.starts_with(' ')).then_some(rest)
        };
        let lit = rest(on).map(|rest| (true, rest));
        // The longer word wins where one begins with the other.
        let out = rest(off).map(|rest| (false, rest));
        if off.len() > on.len() {
            out.or(lit)
        } else {
            lit.or(out)
        }
    }

    const fn words(self) -> Option<(&'a str, &'a str)> {
        match self {
            Self::Beam { on, off } => Some((on, off)),
            Self::PenByWords { down, up } => Some((down, up)),
            Self::Spindle { .. } | Self::PenByHeight { .. } => None,
        }
    }

    /// What is switched, as a fault calls it.
    pub(super) const fn noun(self) -> &'static str {
        match self {
            Self::Spindle { .. } => "spindle",
            Self::Beam { .. } => "beam",
            Self::PenByWords { .. } | Self::PenByHeight { .. } => "pen",
        }
    }

    /// The height below which no rapid may move sideways; none where there are no heights.
    pub(super) const fn safe(self) -> Option<f64> {
        match self {
            Self::Spindle { safe } => Some(safe),
            Self::PenByHeight { up } => Some(up),
            Self::Beam { .. } | Self::PenByWords { .. } => None,
        }
    }
}
