use crate::args::{Args, ManualArgs};
use crate::failure::Failure;
use clap::CommandFactory;
use std::io::Write;

/// Writes a page for `man` of the program and of each of its commands, as packages bring along.
pub(crate) fn run(args: &ManualArgs, out: &mut dyn Write) -> Result<(), Failure> {
    let folder = &args.to;
    std::fs::create_dir_all(folder)
        .and_then(|()| clap_mangen::generate_to(Args::command(), folder))
        .map_err(|error| Failure::Usage(format!("the pages cannot be written into {}: {error}", folder.display())))?;
    writeln!(out, "{}", folder.display())?;
    Ok(())
}
