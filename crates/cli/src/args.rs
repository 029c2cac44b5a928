//! The words of the command line.

use clap::{Args as ClapArgs, Parser, Subcommand, ValueEnum};
use std::path::PathBuf;

/// From an arch measured on site to proven, cut-ready jigs and forms.
#[derive(Debug, Parser)]
#[command(
    name = "cintre",
    version,
    about,
    arg_required_else_help = true,
    after_help = "Begin with:\n  cintre start my-door\n  cintre make my-door/job.yaml\n\n\
                  Exit status: 0 done (of the shape; not a word on whether it is safe to run), 2 the command line is wrong,\n\
                  3 the job or shop file has faults, 4 it cannot be made, 5 a file failed its proof, 6 a file could not be\n\
                  read or written."
)]
pub(crate) struct Args {
    #[command(flatten)]
    pub(crate) common: Common,
    #[command(subcommand)]
    pub(crate) command: Command,
}

/// What every command takes.
#[derive(ClapArgs, Debug)]
pub(crate) struct Common {
    /// Show figures in this unit, on a rule's marks
    #[arg(long, global = true, value_name = "UNIT")]
    pub(crate) units: Option<Units>,
    /// Print results as JSON, in millimetres and degrees
    #[arg(long, global = true)]
    pub(crate) json: bool,
    /// Say nothing but results and faults
    #[arg(long, global = true)]
    pub(crate) quiet: bool,
    /// End the search of the layout after so many seconds; the same job may then be laid out otherwise another time
    #[arg(long, global = true, value_name = "SECONDS", value_parser = clap::value_parser!(u32).range(1..=86_400))]
    pub(crate) search_at_most: Option<u32>,
    /// When to colour what is said
    #[arg(long, global = true, value_name = "WHEN", default_value = "auto")]
    pub(crate) colour: Colour,
}

/// A unit to show figures in.
#[derive(Clone, Copy, Debug, ValueEnum)]
pub(crate) enum Units {
    /// Millimetres
    Mm,
    /// Inches
    In,
}

/// When to colour.
#[derive(Clone, Copy, Debug, ValueEnum)]
pub(crate) enum Colour {
    /// On a terminal that has not asked for none
    Auto,
    /// Always
    Always,
    /// Never
    Never,
}

/// What to do.
#[derive(Debug, Subcommand)]
pub(crate) enum Command {
    /// Plant a starter job and shop file
    #[command(
        after_help = "Example:\n  cintre start garden-door\n\nNothing that is there already is overwritten."
    )]
    Start(Start),
    /// Go the whole way to the end of planning and report every fault; write nothing
    #[command(after_help = "Example:\n  cintre check garden-door/job.yaml")]
    Check(Job),
    /// Print the setting-out figures of every arch and form
    #[command(
        after_help = "Examples:\n  cintre figures garden-door/job.yaml\n  cintre figures garden-door/job.yaml --units in\n  cintre figures garden-door/job.yaml --json"
    )]
    Figures(Job),
    /// Draw the arches, the forms and the sheets
    #[command(after_help = "Example:\n  cintre draw garden-door/job.yaml --out pictures --format png")]
    Draw(Draw),
    /// Make everything: pictures, cut files, job sheet, each cut file proven before it is handed over
    #[command(
        after_help = "Example:\n  cintre make garden-door/job.yaml --out out/garden-door\n\n\
                      The folder is written whole or not at all. One that holds anything cintre did not make is left alone.\n\
                      Ctrl-C while a layout is searched for takes the best so far; once more ends the run."
    )]
    Make(Make),
    /// Read a made folder back and prove it again
    #[command(
        after_help = "Example:\n  cintre prove /media/stick/garden-door\n\nThe proof speaks of shape only, never of whether a program is safe to run."
    )]
    Prove(Prove),
    /// Print the JSON Schema of a job or shop file, for an editor
    #[command(after_help = "Example:\n  cintre schema job > job.schema.json")]
    Schema(Schema),
}

/// `start`.
#[derive(ClapArgs, Debug)]
pub(crate) struct Start {
    /// The folder to plant them in
    #[arg(value_name = "DIR", default_value = ".")]
    pub(crate) folder: PathBuf,
}

/// A command on a job file alone.
#[derive(ClapArgs, Debug)]
pub(crate) struct Job {
    /// The job file
    #[arg(value_name = "JOB")]
    pub(crate) job: PathBuf,
}

/// `draw`.
#[derive(ClapArgs, Debug)]
pub(crate) struct Draw {
    /// The job file
    #[arg(value_name = "JOB")]
    pub(crate) job: PathBuf,
    /// The folder to draw into
    #[arg(long, value_name = "DIR", default_value = "pictures")]
    pub(crate) out: PathBuf,
    /// The kind of picture
    #[arg(long, value_name = "FORMAT", default_value = "svg")]
    pub(crate) format: PictureFormat,
    /// How wide a PNG is, in pixels
    #[arg(long, value_name = "PIXELS", default_value_t = 1600, value_parser = clap::value_parser!(u32).range(100..=10_000))]
    pub(crate) width: u32,
}

/// The kind of a picture.
#[derive(Clone, Copy, Debug, ValueEnum)]
pub(crate) enum PictureFormat {
    /// Lines, sharp at any size
    Svg,
    /// Pixels
    Png,
}

/// `make`.
#[derive(ClapArgs, Debug)]
pub(crate) struct Make {
    /// The job file
    #[arg(value_name = "JOB")]
    pub(crate) job: PathBuf,
    /// The folder to make [default: out/ and the job file's name]
    #[arg(long, value_name = "DIR")]
    pub(crate) out: Option<PathBuf>,
}

/// `prove`.
#[derive(ClapArgs, Debug)]
pub(crate) struct Prove {
    /// The made folder
    #[arg(value_name = "DIR")]
    pub(crate) folder: PathBuf,
    /// Draw each sheet on which something is wrong into this folder, the places marked
    #[arg(long, value_name = "DIR")]
    pub(crate) pictures: Option<PathBuf>,
}

/// `schema`.
#[derive(ClapArgs, Debug)]
pub(crate) struct Schema {
    /// Which file
    #[arg(value_name = "FILE")]
    pub(crate) of: SchemaOf,
}

/// A file that has a schema.
#[derive(Clone, Copy, Debug, ValueEnum)]
pub(crate) enum SchemaOf {
    /// The job file
    Job,
    /// The shop file
    Shop,
}
