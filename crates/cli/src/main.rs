//! The `cintre` command: the only part that touches files, the terminal and the environment.
#![expect(
    clippy::disallowed_methods,
    reason = "files and the environment are this crate's own business"
)]

mod args;
mod commands;
mod folder;
mod outcome;
mod patience;
mod terminal;

use args::{Args, Command};
use clap::Parser;
use outcome::Failure;
use std::process::ExitCode;
use terminal::Terminal;

fn main() -> ExitCode {
    let args = Args::parse();
    let terminal = Terminal::new(&args.common);
    let done = match &args.command {
        Command::Start(a) => commands::start::run(a, &terminal),
        Command::Check(a) => commands::check::run(a, &terminal),
        Command::Figures(a) => commands::figures::run(a, &terminal),
        Command::Draw(a) => commands::draw::run(a, &terminal),
        Command::Make(a) => commands::make::run(a, &terminal),
        Command::Prove(a) => commands::prove::run(a, &terminal),
        Command::Schema(a) => commands::schema::run(a, &terminal),
    };
    match done {
        Ok(()) | Err(Failure::ClosedPipe) => ExitCode::SUCCESS,
        Err(failure) => {
            terminal.fail(&failure);
            ExitCode::from(failure.exit_code())
        }
    }
}
