//! Python with libraries from PyPI, for checks against programs that know nothing of this one.

use std::path::{Path, PathBuf};
use std::process::{Command, Output};
use std::sync::OnceLock;

/// The Python that has the readers: a virtual environment beside what cargo builds, made here if nothing made it before.
pub(crate) fn python() -> &'static Path {
    static PYTHON: OnceLock<PathBuf> = OnceLock::new();
    PYTHON.get_or_init(|| {
        let home = Path::new(env!("CARGO_TARGET_TMPDIR")).with_file_name("check-venv");
        let python = home.join("bin/python");
        let wanted = std::fs::read_to_string(scripts().join("requirements.txt")).unwrap();
        let done = home.join("requirements.txt");
        if std::fs::read_to_string(&done).is_ok_and(|have| have == wanted) {
            return python;
        }
        succeed(Command::new("python3").args(["-m", "venv", "--clear"]).arg(&home), "python3 with its venv module");
        let requirements = scripts().join("requirements.txt");
        let pip = ["-m", "pip", "install", "--quiet", "--disable-pip-version-check", "-r"];
        succeed(Command::new(&python).args(pip).arg(requirements), "pip and a package index");
        std::fs::write(done, wanted).unwrap();
        python
    })
}

pub(crate) fn scripts() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("python")
}

fn succeed(command: &mut Command, needs: &str) {
    let done = command.output().unwrap_or_else(|e| panic!("this check needs {needs}: {e}"));
    assert!(done.status.success(), "this check needs {needs}: {}", said(&done));
}

pub(crate) fn said(output: &Output) -> String {
    String::from_utf8_lossy(&output.stdout).into_owned() + &String::from_utf8_lossy(&output.stderr)
}
