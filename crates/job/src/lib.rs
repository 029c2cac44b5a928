//! Job and shop files as the user wrote them, their faults and their schema.
//!
//! A file is read in three steps: its YAML becomes a tree in which every value knows its line; the tree is held against
//! tables of fields, which gathers every fault at once; and what has no fault becomes plain data, lengths in mm and angles
//! in radians, each value still able to say where it was written. Whether an arch of these sizes can be is not judged here.

pub use arch::{ArchSpec, Shape};
pub use bending::{
    BendingForm, FormSide, Laminations, MeasuredBackSpec, PieceLine, SpringbackSpec, StripWood,
};
pub use centering::{Centering, CenteringBuild};
pub use curved_head::{CurvedHead, HeadJoint, HeadPiece};
pub use fault::{Fault, Faults, Place, Places};
pub use form::{Form, FormSpec, GrainRule, Pattern, PatternPiece};
pub use job::{Effort, Job, ShopAt, read_job, read_job_and_shop};
pub use laser::{BeamSpec, BeamTabsSpec, LaserFile, LaserSpec};
pub use machine::{
    BitChange, Cut, DrawingFormat, DrawingSpec, FileLayout, MachineSpec, Relief, RouterSpec, Tabs, ZeroAt,
    ZeroHeight,
};
pub use model::{Model, ModelComb, ModelRing};
pub use paper::PaperSpec;
pub use pen::{LiftSpec, PenFile, PenSpec};
pub use plain::{plain_job, plain_shop};
pub use router_base::RouterBase;
pub use schema::{schema_job, schema_shop};
pub use setting_out::{VoussoirSpec, Voussoirs};
pub use shop::{House, Shop, read_shop};
pub use stock::{Grain, StockSpec};
pub use template::{Run, Template, TemplateEdge, TemplateGuide};
pub use tool::{BitKind, BitSpec, Feeds, Holder};
pub use trammel::{Mount, Trammel};
pub use trim::Trim;
pub use value::Spacing;

mod arch;
mod bending;
mod cases;
mod centering;
mod curved_head;
mod fault;
mod form;
mod job;
mod laser;
mod left_over;
mod machine;
mod machine_checks;
mod machines;
mod marks;
mod model;
mod names;
mod nearest;
mod paper;
mod pen;
mod plain;
mod reader;
mod record;
mod router_base;
mod schema;
mod setting_out;
mod shapes;
mod shop;
mod stock;
mod table;
mod template;
mod tool;
mod trammel;
mod tree;
mod trim;
mod value;

#[cfg(test)]
mod tests;
