//! Notes in plain sentences.

use super::{Edge, Note};
use crate::tabs::MOST;
use std::fmt;

impl fmt::Display for Edge {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Outline => write!(f, "the outline"),
            Self::Opening(k) => write!(f, "opening {}", k + 1),
            Self::Bore(k) => write!(f, "bore {}", k + 1),
            Self::Recess(k) => write!(f, "recess {}", k + 1),
            Self::Groove(k) => write!(f, "the groove of mark {}", k + 1),
            Self::Chamfer(k) => write!(f, "the chamfer of mark {}", k + 1),
        }
    }
}

impl fmt::Display for Note {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Chips(chips) => chips.fmt(f),
            Self::Web { thickness } => {
                write!(
                    f,
                    "a web of {thickness:.2} mm is left under every opening and outline and holds the parts, so there are no tabs; it is trimmed off afterwards"
                )
            }
            Self::NoTabs => f.write_str(
                "no tabs: every part comes loose at the end of its cut and must be held otherwise",
            ),
            Self::MarksLeft { .. } | Self::NoRelief { .. } | Self::NoFinish { .. } => self.of_detail(f),
            Self::DrillPoint { bit, through } => {
                write!(
                    f,
                    "{bit} goes {through:.2} mm below the underside by its point; clean the hole's foot if the point is long"
                )
            }
            Self::FewTabs { .. } | Self::TabsNearCorners { .. } | Self::TabsOnClean { .. } => self.of_tabs(f),
            _ => self.of_an_edge(f),
        }
    }
}

impl Note {
    /// What is not done to marks, corners and walls.
    fn of_detail(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::MarksLeft { count, told: true } => {
                write!(
                    f,
                    "{count} marked lines are not scribed, as the machine's `mark-depth` of 0 asks; take them from the drawing"
                )
            }
            Self::MarksLeft { count, told: false } => {
                write!(
                    f,
                    "{count} marked lines are not scribed: that takes a vee bit, or a straight one of 3.5 mm at most, with feeds for the material; take them from the drawing"
                )
            }
            Self::NoRelief { part, edge, at } => {
                write!(
                    f,
                    "{part}: the corner of {edge} at ({:.1}, {:.1}) is not relieved, since the bit would break into another edge",
                    at.x, at.y
                )
            }
            Self::NoFinish { part, edge } => {
                write!(
                    f,
                    "{part}: {edge} is too narrow for a finishing lap; every pass runs along its wall"
                )
            }
            _ => Ok(()),
        }
    }

    /// Where tabs stand on an edge, and where not.
    fn of_tabs(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::FewTabs {
                part,
                edge,
                placed: 0,
                ..
            } => {
                write!(
                    f,
                    "{part}: {edge} has no room for tabs; what it frees comes loose"
                )
            }
            Self::FewTabs {
                part,
                edge,
                wanted,
                placed,
                share,
            } => {
                write!(
                    f,
                    "{part}: {edge} has room for {placed} of the {wanted} tabs that the shop's rule asks for; {}",
                    if *share > MOST {
                        format!("{wanted} would take {:.0} per cent of the cut", 100.0 * share)
                    } else {
                        "corners, tight curves, joints, what a guide runs along, the stock's edge and other cuts take the rest"
                            .to_owned()
                    }
                )
            }
            Self::TabsNearCorners { part, edge } => {
                write!(
                    f,
                    "{part}: {edge} has no gentle stretch for tabs; they stand at corners or on tight curves"
                )
            }
            Self::TabsOnClean { part, edge } => {
                write!(
                    f,
                    "{part}: {edge} has no room for tabs but where a bearing or a bush runs or another part is joined; they stand there, to be dressed off flush"
                )
            }
            _ => Ok(()),
        }
    }

    /// What else is said of one edge of a part.
    fn of_an_edge(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Leftover {
                part,
                edge,
                bit,
                places,
                depth,
                at,
            } => {
                let edge = format!(
                    "{part}: {bit} leaves {depth:.2} mm in {} of {edge}",
                    corners(*places)
                );
                let which = if *places == 1 { "it lies" } else { "the most" };
                write!(f, "{edge}, {which} at ({:.1}, {:.1})", at.x, at.y)
            }
            Self::NoLead { part, edge } => {
                write!(
                    f,
                    "{part}: beside {edge} is no room for an arc in the waste; the bit goes in by a ramp along the edge, and comes out along it"
                )
            }
            Self::NoLastLap { part, edge } => {
                write!(
                    f,
                    "{part}: {edge} has no room for a finishing lap; its passes run on the finished edge"
                )
            }
            _ => Ok(()),
        }
    }
}

fn corners(places: usize) -> String {
    if places == 1 {
        "a corner".to_owned()
    } else {
        format!("{places} corners")
    }
}
