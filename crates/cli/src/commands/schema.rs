//! `cintre schema`: the JSON Schema of a job or shop file.

use crate::args::{Schema, SchemaOf};
use crate::outcome::Failure;
use crate::terminal::Terminal;
use cintre_job::{schema_job, schema_shop};

pub(crate) fn run(args: &Schema, terminal: &Terminal) -> Result<(), Failure> {
    terminal.print_json(&match args.of {
        SchemaOf::Job => schema_job(),
        SchemaOf::Shop => schema_shop(),
    })
}
