//! What a user reads of a job.

mod arcs;
mod blocks;
mod figures;
mod leaves;

use crate::{Conduct, Plan, Trouble, plan};
use cintre_job::{ShopAt, read_job};

/// The plan of a job that holds its own shop and names no drawing.
fn planned_from(text: &str) -> Result<Plan, Trouble> {
    let job = read_job("job.yaml", text).map_err(|faults| Trouble::Faults(faults.0))?;
    let ShopAt::Inline(shop) = &job.shop else {
        panic!("the shop is in the job")
    };
    let conduct = Conduct {
        say: &|_| (),
        stop: &|| false,
        read: &|name| Err(format!("{name} is not there")),
    };
    plan(&job, shop, conduct)
}
