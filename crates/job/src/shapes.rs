//! The words of every shape of the trade. Which of them can be made, [`crate::Shape`] says, and a test holds the two together.

use crate::setting_out::{ORDINATES, VOUSSOIRS};
use crate::table::{
    Case, Cases, Field, Kind, LENGTH, LENGTH_OR_0, Of, Sign, default, optional, required, word,
};

const SPAN: Field = required("span", LENGTH, "the clear width between the springings");
const RISE: Field = required("rise", LENGTH, "the height of the crown above the springing line");
const SOME_SPAN: Field = optional("span", LENGTH, "the clear width between the springings");
const SOME_RISE: Field = optional("rise", LENGTH, "the height of the crown above the springing line");
const SOME_RADIUS: Field = optional("radius", LENGTH, "the radius of the soffit");
const HAUNCH_RADIUS: Field = optional(
    "haunch-radius",
    LENGTH,
    "the radius of the arcs that spring from the jambs",
);

/// How far an arc of a half may turn.
const TURN: Kind = Kind::Angle {
    least: 0.1,
    most: 179.0,
};

const HAUNCH_TURN: Field = optional("haunch-turn", TURN, "how far each haunch arc turns");

/// Every shape of the trade.
pub(crate) static SHAPES: Cases = Cases {
    tag: "shape",
    default: None,
    help: "the shape of the arch",
    common: &[
        optional("ring", LENGTH, "the depth of the ring, or the width of a casing"),
        default(
            "size-meant",
            Kind::YesNo,
            "false",
            "true where a span over 20 m or under 30 mm is no mistaken unit",
        ),
        optional(
            "reveal",
            LENGTH_OR_0,
            "how far a casing, or the ring, stands back from the edge of the arch; 0 for a casing flush with it",
        ),
        VOUSSOIRS,
        ORDINATES,
    ],
    cases: &[
        Case::made(
            "segmental",
            "one arc, less than half a circle",
            &[SOME_SPAN, SOME_RISE, SOME_RADIUS],
        )
        .exactly(2, &["span", "rise", "radius"]),
        Case::made("semicircular", "half a circle", &[SPAN]),
        Case::made(
            "stilted",
            "an arc on plumb stilts",
            &[
                SPAN,
                required("stilt", LENGTH, "the plumb height between springing and arc"),
                optional(
                    "arc-rise",
                    LENGTH,
                    "the height of the arc alone; half the span if left out",
                ),
            ],
        ),
        Case::made(
            "pointed",
            "two arcs that meet at a point, centres on the springing line",
            &[SOME_SPAN, SOME_RISE, SOME_RADIUS],
        )
        .exactly(2, &["span", "rise", "radius"]),
        Case::made("equilateral", "pointed, the radius equal to the span", &[SPAN]),
        Case::made("elliptical", "half an ellipse", &[SPAN, RISE]),
        Case::made("horseshoe", "one arc, more than half a circle", &[SPAN, RISE]),
        Case::made(
            "camber",
            "nearly flat, with a level back",
            &[
                SPAN,
                optional(
                    "camber",
                    LENGTH,
                    "the rise of the soffit; a hundredth of the span if left out",
                ),
                required(
                    "depth",
                    LENGTH,
                    "the depth from the level back to the springing line",
                ),
                optional(
                    "skewback",
                    Kind::AngleOr(&[word(
                        "rule",
                        "half an inch a foot of span for each four inches of face",
                    )]),
                    "the angle of the skewbacks from the horizontal, 60 deg if left out",
                ),
            ],
        ),
        Case::made(
            "three-centred",
            "three arcs, a basket handle",
            &[
                SPAN,
                RISE,
                HAUNCH_RADIUS,
                optional(
                    "construction",
                    Kind::Word(&[
                        word("least-ratio", "the radii as alike as they can be"),
                        word("sixty", "haunch arcs of 60 deg"),
                    ]),
                    "how the radii are found",
                ),
            ],
        ),
        Case::made(
            "five-centred",
            "five arcs",
            &[
                SPAN,
                RISE,
                HAUNCH_RADIUS,
                HAUNCH_TURN,
                optional("middle-turn", TURN, "how far each middle arc turns"),
                optional(
                    "construction",
                    Kind::Word(&[word("mean-radius", "the middle radius between the others")]),
                    "how the radii are found",
                ),
            ],
        ),
        Case::made(
            "four-centred",
            "four arcs that meet at a point",
            &[
                SPAN,
                RISE,
                HAUNCH_RADIUS,
                HAUNCH_TURN,
                optional(
                    "construction",
                    Kind::Word(&[word("two-thirds", "the haunch radius two thirds of the rise")]),
                    "how the radii are found",
                ),
            ],
        ),
        Case::made(
            "ogee",
            "pointed with counter curves",
            &[
                SPAN,
                RISE,
                required("lower-radius", LENGTH, "the radius of the lower arcs"),
            ],
        ),
        Case::made("parabolic", "a parabola", &[SPAN, RISE]),
        Case::made("catenary", "a hanging chain turned over", &[SPAN, RISE]),
        Case::made(
            "rampant",
            "springing lines at two heights",
            &[
                SPAN,
                required(
                    "springing-difference",
                    LENGTH,
                    "the height of the right springing above the left",
                ),
                optional("rise", LENGTH, "the highest point above the lower springing"),
            ],
        ),
        Case::made(
            "round",
            "a full circle",
            &[required("diameter", LENGTH, "its diameter")],
        ),
        Case::made(
            "oval",
            "a full ellipse",
            &[
                required("width", LENGTH, "its width"),
                required("height", LENGTH, "its height"),
            ],
        ),
        Case::made(
            "trefoil",
            "three lobes",
            &[
                SPAN,
                RISE,
                required("lobe-radius", LENGTH, "the radius of each lobe"),
                required(
                    "lobe-height",
                    LENGTH_OR_0,
                    "the height of the lower lobes' centres",
                ),
            ],
        ),
        Case::made(
            "measured",
            "points taken on site",
            &[
                required(
                    "points",
                    Kind::List(&Kind::Tuple(2, &Kind::Length(Sign::Any))),
                    "points of the opening taken on site, from the left springing over the arch to the right one",
                ),
                required(
                    "as",
                    Kind::Word(&[
                        word("circle", "the nearest circle"),
                        word("ellipse", "the nearest ellipse"),
                        word("curve", "a fair curve"),
                    ]),
                    "what is laid through them",
                ),
                default(
                    "reading",
                    LENGTH,
                    "1 mm",
                    "how far out a height may have been read, for what it does to the radius",
                ),
            ],
        ),
        Case::made(
            "traced",
            "an outline that someone else drew",
            &[
                required("file", Kind::Text, "the drawing, DXF or SVG, beside the job file"),
                optional(
                    "layer",
                    Kind::Text,
                    "the layer that the outline is on, or the id of the SVG group; may be left out if there is but one",
                ),
                default(
                    "gap",
                    LENGTH_OR_0,
                    "0.05 mm",
                    "how far apart ends may lie that are meant to meet",
                ),
                optional(
                    "unit",
                    Kind::Unit,
                    "the unit of the drawing, whatever it states itself",
                ),
            ],
        ),
    ],
};

/// The arches of a job by their names.
pub(crate) const ARCHES: Kind = Kind::Named(Of::Arch, &Kind::Cases(&SHAPES));
