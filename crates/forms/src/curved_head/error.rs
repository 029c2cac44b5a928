//! Why a curved head cannot be made.

/// Why a curved head cannot be made of what was given. Lengths in mm, angles in degrees.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum HeadError {
    /// The reveal is as wide as the casing or wider.
    #[error(
        "a reveal of {given} mm is no narrower than the casing, which is {width} mm wide: it would leave the edge of the jamb bare; \
         less than {width} mm, 5 to 6 mm is usual"
    )]
    Reveal {
        /// The reveal given.
        given: f64,
        /// The casing's width.
        width: f64,
    },
    /// The boards are too narrow for any sensible number of segments.
    #[error(
        "boards of {width} mm less {clean_up} mm for clean-up leave {across:.1} mm: in {most} segments to a layer, no longer than the \
         head is wide, they would still have to leave {needed:.1} mm; boards {buy:.1} mm wide would do"
    )]
    Narrow {
        /// The boards' width.
        width: f64,
        /// What is taken off it.
        clean_up: f64,
        /// What that leaves.
        across: f64,
        /// The most segments that make sense.
        most: usize,
        /// What so many would need.
        needed: f64,
        /// The width of boards that would do.
        buy: f64,
    },
    /// The boards are too short.
    #[error(
        "boards of {length} mm less {clean_up} mm for clean-up are too short: in {most} segments to a layer the longest is \
         {needed:.1} mm"
    )]
    Short {
        /// The boards' length.
        length: f64,
        /// What is taken off it.
        clean_up: f64,
        /// The most segments that make sense.
        most: usize,
        /// The length that so many need.
        needed: f64,
    },
    /// So few segments as asked for do not fit the boards.
    #[error(
        "{given} segments would need {needed:.1} mm of a board's width and the grain would run {across_grain:.1} degrees across \
         their ends: the boards leave {across:.1} mm and {limit:.1} degrees is the limit; {fewest} are the fewest"
    )]
    Few {
        /// How many were asked for.
        given: usize,
        /// The width that they would need.
        needed: f64,
        /// How far the grain would run across their ends.
        across_grain: f64,
        /// The width that the boards leave.
        across: f64,
        /// How far it may.
        limit: f64,
        /// The fewest that fit.
        fewest: usize,
    },
    /// Fewer segments than there are runs between corners.
    #[error(
        "{given} segments cannot meet at every corner of the soffit: {fewest} are the fewest for these boards"
    )]
    Corners {
        /// How many were asked for.
        given: usize,
        /// The fewest that fit.
        fewest: usize,
    },
    /// More segments than make sense.
    #[error("{given} segments would be shorter than the head is wide: {most} are the most")]
    Many {
        /// How many were asked for.
        given: usize,
        /// The most that make sense.
        most: usize,
    },
    /// The grain may not run so far across as it must.
    #[error(
        "no segment as long as the head is wide keeps the grain within {given:.2} degrees of its edge at the ends: in {most} to a \
         layer it runs {limit:.2} degrees across; {} degrees or more would do", (*.limit - 1e-6).ceil()
    )]
    CrossGrain {
        /// How far it may.
        given: f64,
        /// The most segments that make sense.
        most: usize,
        /// How far it runs across in so many.
        limit: f64,
    },
    /// The limit of the grain is no limit.
    #[error("a limit of {given:.2} degrees for the grain: it lies between 1 and 90")]
    Angle {
        /// The limit given.
        given: f64,
    },
    /// The joint has no room in the head's width.
    #[error(
        "a {joint} joint has no room across {width:.1} mm: {least:.1} mm is the least; `joint: butt` needs none"
    )]
    JointWidth {
        /// The joint.
        joint: &'static str,
        /// The width of the head at its narrowest joint.
        width: f64,
        /// The least that has room.
        least: f64,
    },
    /// The joint has no room in the boards' thickness.
    #[error(
        "a {joint} joint has no room in {thickness} mm of thickness: {least} mm is the least; `joint: finger` or `butt` would do"
    )]
    JointThickness {
        /// The joint.
        joint: &'static str,
        /// The boards' thickness.
        thickness: f64,
        /// The least that has room.
        least: f64,
    },
    /// The joint would come out of a segment's edge, or meet that of its other end.
    #[error(
        "a {joint} joint reaches {reach:.1} mm into segments that have no room for it: {segments} to a layer are too short; fewer, \
         or `joint: butt`"
    )]
    JointReach {
        /// The joint.
        joint: &'static str,
        /// How far it reaches into a segment.
        reach: f64,
        /// How many segments there are.
        segments: usize,
    },
    /// Layers that lap need no joint in their ends.
    #[error(
        "layers that lap are glued face to face, with butt joints in each: `joint: {given}` has no place there"
    )]
    Lapped {
        /// The joint asked for.
        given: &'static str,
    },
    /// The glue-up board is larger than its stock.
    #[error(
        "the glue-up board is {:.1} × {:.1} mm and a sheet has {:.1} × {:.1} mm inside its trim: a larger sheet, or leave `glue-up` \
         out and set it out on the floor", .size.0, .size.1, .usable.0, .usable.1
    )]
    GlueUp {
        /// The board's size.
        size: (f64, f64),
        /// The room on a sheet.
        usable: (f64, f64),
    },
}

impl HeadError {
    /// The field of the job file that it speaks of.
    pub const fn field(&self) -> &'static str {
        match self {
            Self::Reveal { .. } => "reveal",
            Self::Narrow { .. } | Self::Short { .. } => "stock",
            Self::Few { .. } | Self::Corners { .. } | Self::Many { .. } => "segments",
            Self::CrossGrain { .. } | Self::Angle { .. } => "cross-grain",
            Self::JointWidth { .. }
            | Self::JointThickness { .. }
            | Self::JointReach { .. }
            | Self::Lapped { .. } => "joint",
            Self::GlueUp { .. } => "glue-up",
        }
    }
}
