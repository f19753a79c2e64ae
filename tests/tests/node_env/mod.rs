//! JavaScript with a library from npm, for checks against programs that know nothing of this one.

use super::python_env::said;
use serde_json::Value;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::OnceLock;

/// What the validator says of files of glTF, one report each.
pub(crate) fn report(files: &[PathBuf]) -> Vec<Value> {
    let mut command = Command::new("node");
    command.arg(scripts().join("check_gltf.js")).args(files).env("NODE_PATH", modules());
    let done = command.output().unwrap_or_else(|e| panic!("this check needs node: {e}"));
    assert!(done.status.success(), "{}", said(&done));
    serde_json::from_slice(&done.stdout).unwrap()
}

/// The folder with the libraries, beside what cargo builds; filled here if nothing filled it before.
fn modules() -> &'static Path {
    static MODULES: OnceLock<PathBuf> = OnceLock::new();
    MODULES.get_or_init(|| {
        let home = Path::new(env!("CARGO_TARGET_TMPDIR")).with_file_name("check-node");
        let modules = home.join("node_modules");
        let lock = "package-lock.json";
        let wanted = std::fs::read_to_string(scripts().join(lock)).unwrap();
        let done = home.join("done");
        if std::fs::read_to_string(&done).is_ok_and(|have| have == wanted) {
            return modules;
        }
        std::fs::create_dir_all(&home).unwrap();
        for file in ["package.json", lock] {
            std::fs::copy(scripts().join(file), home.join(file)).unwrap();
        }
        let mut install = Command::new("npm");
        install.args(["ci", "--no-audit", "--no-fund"]).current_dir(&home);
        let output = install.output().unwrap_or_else(|e| panic!("this check needs npm: {e}"));
        assert!(output.status.success(), "this check needs npm and a package index: {}", said(&output));
        std::fs::write(done, wanted).unwrap();
        modules
    })
}

fn scripts() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("node")
}
