//! Puts every catalogue of `assets/words` into the program.

use std::fmt::Write;
use std::path::{Path, PathBuf};

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let folder = Path::new(&std::env::var("CARGO_MANIFEST_DIR")?).join("../../assets/words");
    println!("cargo::rerun-if-changed={}", folder.display());
    let files = std::fs::read_dir(&folder)?.collect::<Result<Vec<_>, _>>()?;
    let mut files: Vec<PathBuf> =
        files.into_iter().map(|f| f.path()).filter(|f| f.extension().is_some_and(|e| e == "po")).collect();
    files.sort();
    let mut code = "&[".to_owned();
    for file in files {
        let name = file.file_stem().unwrap_or_default().to_string_lossy().into_owned();
        write!(code, "({name:?}, include_str!({:?})),", file.canonicalize()?.display().to_string())?;
    }
    code.push(']');
    Ok(std::fs::write(Path::new(&std::env::var("OUT_DIR")?).join("catalogues.rs"), code)?)
}
