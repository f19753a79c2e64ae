use crate::failure::Failure;
use crate::{house, pack};
use gable_editor::Start;
use gable_export::{Baker, PackOptions};
use gable_shell::demo;
use std::io::Write;
use std::path::Path;

/// Where the pack of the first built-in house goes when there is no window to ask in.
const FOLDER: &str = "gablewright-pack";

/// Opens the window. Where there is no display, it says so and names the next command; without a house it goes on and
/// writes the pack of the first built-in house.
pub(crate) fn open(name: Option<&str>, out: &mut dyn Write) -> Result<(), Failure> {
    if has_display() {
        let start = match name {
            None => Start::Choose,
            // The window tells of one that cannot be read.
            Some(name) if Path::new(name).is_file() => Start::File(name.into()),
            Some(name) => Start::House(Box::new(house::load(name)?)),
        };
        return gable_editor::run(start).map_err(Failure::Usage);
    }
    match name {
        Some(name) => {
            house::load(name)?;
            Err(Failure::Usage(format!(
                "there is no display to open a window on; print the house with\n  gablewright pack {name} --paper a4 --to pack"
            )))
        }
        None => without_display(out),
    }
}

/// On Linux and its kin a window needs one of two servers, which these variables name.
fn has_display() -> bool {
    let named = |key| std::env::var_os(key).is_some_and(|v| !v.is_empty());
    !cfg!(all(unix, not(target_os = "macos"))) || named("DISPLAY") || named("WAYLAND_DISPLAY")
}

fn without_display(out: &mut dyn Write) -> Result<(), Failure> {
    let Some((name, house)) = demo::names().find_map(|name| Some((name, demo::house(name)?))) else {
        return Err(Failure::Usage("there is no display to open a window on".into()));
    };
    let mut err = std::io::stderr().lock();
    // Only a remark: if nobody reads it, the pack is still written.
    let _ = writeln!(
        err,
        "gablewright: there is no display to open a window on, so here is the pack of a built-in house; next:\n  \
         gablewright pack {name} --paper a4 --to pack"
    );
    let path = pack::write(name, &house, (&PackOptions::default(), &Baker::default()), Path::new(FOLDER))?;
    writeln!(out, "{}", path.display())?;
    Ok(())
}
