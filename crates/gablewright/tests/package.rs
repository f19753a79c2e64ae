//! What people get who do not compile: the Debian package is made, installed and started, and desktops know its files.
//!
//! The package is made of the program as the tests have built it. It is installed by Debian's own installer below a folder,
//! so that what the machine has is left alone; whether everything it depends on can be had is asked of the installer
//! of this machine.
#![cfg(target_os = "linux")]
#![allow(
    missing_docs,
    unreachable_pub,
    dead_code,
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a check says by stopping that it failed"
)]

mod screen;

use screen::Screen;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

const ROOT: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../..");

fn run(command: &mut Command) -> Output {
    let output = command.output().unwrap_or_else(|why| panic!("{command:?}: {why}"));
    let said = String::from_utf8_lossy(&output.stderr);
    assert!(output.status.success(), "{command:?}: {said}{}", String::from_utf8_lossy(&output.stdout));
    output
}

/// Makes package and archive into a folder.
fn make(to: &Path) -> [PathBuf; 2] {
    let mut command = Command::new(format!("{ROOT}/assets/package/make"));
    command.args(["--quick", "--binary", env!("CARGO_BIN_EXE_gablewright"), "--to"]).arg(to);
    let said = String::from_utf8(run(&mut command).stdout).unwrap();
    let made: Vec<PathBuf> = said.lines().map(PathBuf::from).collect();
    made.try_into().unwrap_or_else(|made| panic!("an archive and a package, not {made:?}"))
}

/// Installs a package below a folder as if that were the whole machine.
fn install(package: &Path, below: &Path) {
    let state = below.join("var/lib/dpkg");
    for folder in ["info", "updates", "triggers"] {
        fs::create_dir_all(state.join(folder)).unwrap();
    }
    fs::write(state.join("status"), "").unwrap();
    // Other packages are not in this folder; that they can be had is asked elsewhere.
    let mut dpkg = Command::new("unshare");
    dpkg.args(["--map-root-user", "dpkg", "--force-depends", "--force-not-root", "--force-script-chrootless"]);
    dpkg.arg(format!("--root={}", below.display())).arg("--install").arg(package);
    run(&mut dpkg);
}

#[test]
fn the_package_is_installed_and_started_and_its_files_are_known() {
    let place = tempfile::tempdir().unwrap();
    let [archive, package] = make(&place.path().join("first"));

    // The same program gives the same bytes.
    let again = make(&place.path().join("again"));
    for (one, other) in [&archive, &package].into_iter().zip(&again) {
        assert!(fs::read(one).unwrap() == fs::read(other).unwrap(), "{} differs when made again", one.display());
    }

    // All it depends on can be had here.
    run(Command::new("apt-get").args(["--simulate", "--no-install-recommends", "install"]).arg(&package));

    let machine = place.path().join("machine");
    install(&package, &machine);
    let usr = machine.join("usr");
    let program = usr.join("bin/gablewright");
    let (screen, home) = (Screen::new(), tempfile::tempdir().unwrap());
    let mut window = screen.run(&program, &["boat-hut"], home.path());
    screen.wait_for_house(&mut window);
    drop(window);

    // The menu entry keeps to the standard of freedesktop.org and names a program and a picture that are there.
    let entry = usr.join("share/applications/gablewright.desktop");
    let said = run(Command::new("desktop-file-validate").arg(&entry));
    assert!(said.stdout.is_empty(), "{}", String::from_utf8_lossy(&said.stdout));
    let text = fs::read_to_string(&entry).unwrap();
    let value = |key: &str| text.lines().find_map(|line| line.strip_prefix(key)).unwrap().to_owned();
    assert!(usr.join("bin").join(value("Exec=").split(' ').next().unwrap()).is_file());
    assert!(usr.join("share/icons/hicolor/scalable/apps").join(value("Icon=") + ".svg").is_file());

    // A house is known by the end of its name, as the menu entry calls it; other JSON stays what it is.
    let types = usr.join("share/mime");
    run(Command::new("update-mime-database").arg(&types));
    let globs = fs::read_to_string(types.join("globs2")).unwrap();
    let kind = value("MimeType=");
    assert!(globs.lines().any(|line| line == format!("60:{}:*.house.json", kind.trim_end_matches(';'))), "{globs}");

    // What `man` shows of a command.
    let page = usr.join("share/man/man1/gablewright-pack.1.gz");
    let shown = run(Command::new("sh").arg("-c").arg(format!("zcat {} | grep -c paper", page.display())));
    assert!(String::from_utf8(shown.stdout).unwrap().trim().parse::<u32>().unwrap() > 0);
    assert!(usr.join("share/doc/gablewright/handbook/README.md").is_file());
    assert!(usr.join("share/doc/gablewright/copyright").is_file());
}

#[test]
fn the_archive_works_from_any_folder() {
    let place = tempfile::tempdir().unwrap();
    let [archive, _] = make(place.path());
    run(Command::new("tar").arg("-xzf").arg(&archive).arg("-C").arg(place.path()));
    let name = archive.file_name().unwrap().to_str().unwrap().strip_suffix(".tar.gz").unwrap();
    let folder = place.path().join(name);
    let said = run(Command::new(folder.join("bin/gablewright")).arg("--version"));
    assert_eq!(String::from_utf8(said.stdout).unwrap().trim(), format!("gablewright {}", env!("CARGO_PKG_VERSION")));
    for file in ["README.txt", "share/applications/gablewright.desktop", "share/doc/gablewright/handbook/README.md"] {
        assert!(folder.join(file).is_file(), "{file}");
    }
}
