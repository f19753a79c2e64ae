//! Design gingerbread houses that close, and print their templates at true scale: the command line, and the window
//! when no command is given.

mod args;
mod bake;
mod baker;
mod check;
mod failure;
mod files;
mod house;
mod manual;
mod meant;
mod pack;
mod picture;
mod pieces;
mod resize;
mod stand;
mod window;

use args::{Args, Command};
use clap::Parser;
use clap::error::ContextKind;
use failure::Failure;
use mimalloc::MiMalloc;
use std::io::Write;
use std::process::ExitCode;

/// A seventh of a solve was getting and giving back memory, which several threads do at once.
#[global_allocator]
static MEMORY: MiMalloc = MiMalloc;

fn main() -> ExitCode {
    let mut out = std::io::stdout().lock();
    let done = match Args::try_parse() {
        Ok(args) => run(args, &mut out).and_then(|()| out.flush().map_err(Failure::from)),
        Err(error) => match meant::command(std::env::args().nth(1).as_deref()) {
            Some(failure) if error.use_stderr() => Err(failure),
            _ => return asked_or_wrong(error),
        },
    };
    match done {
        Ok(()) => ExitCode::SUCCESS,
        Err(failure) => failure.report(&mut std::io::stderr().lock()),
    }
}

fn run(args: Args, out: &mut dyn Write) -> Result<(), Failure> {
    match args.command {
        None => window::open(args.house.as_deref(), out),
        Some(Command::Pack(args)) => pack::run(&args, out),
        Some(Command::Check(args)) => check::run(&args, out),
        Some(Command::Pieces(args)) => pieces::run(&args, out),
        Some(Command::Picture(args)) => picture::run(&args, out),
        Some(Command::Files(args)) => files::run(&args, out),
        Some(Command::Resize(args)) => resize::run(&args, out),
        Some(Command::Bake(args)) => bake::run(&args, out),
        Some(Command::Stand(args)) => stand::run(&args, out),
        Some(Command::Manual(args)) => manual::run(&args, out),
    }
}

/// Help and version were asked for and succeed; anything else is bad usage. A closed pipe changes neither.
fn asked_or_wrong(mut error: clap::Error) -> ExitCode {
    // Nobody who mistypes an option means it as the name of a house.
    error.remove(ContextKind::Suggested);
    let _ = error.print();
    if error.use_stderr() { ExitCode::from(failure::BAD_USAGE) } else { ExitCode::SUCCESS }
}
