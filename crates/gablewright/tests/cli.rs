//! The command line as a person meets it: what it prints where, and with which exit status it ends.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a check says by stopping that it failed")]

use serde_json::Value;
use std::io::Read;
use std::path::Path;
use std::process::{Command, Output, Stdio};

fn command(folder: &Path, args: &[&str]) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_gablewright"));
    command.args(args).current_dir(folder).env_remove("DISPLAY").env_remove("WAYLAND_DISPLAY");
    // What is kept for a person lies in the folder of the check, wherever the system looks for it.
    command.env("HOME", folder).env("XDG_CONFIG_HOME", folder);
    command
}

fn run(folder: &Path, args: &[&str]) -> Output {
    command(folder, args).output().unwrap()
}

fn out(output: &Output) -> String {
    String::from_utf8(output.stdout.clone()).unwrap()
}

fn err(output: &Output) -> String {
    String::from_utf8(output.stderr.clone()).unwrap()
}

#[test]
fn a_pack_of_a_built_in_house_needs_no_file() {
    let folder = tempfile::tempdir().unwrap();
    let done = run(folder.path(), &["pack", "boat-hut", "--paper", "a4+letter", "--to", "pack", "--margin", "1/2 in"]);
    assert_eq!((done.status.code(), err(&done).as_str()), (Some(0), ""));
    let file = folder.path().join(out(&done).trim());
    assert!(std::fs::read(file).unwrap().starts_with(b"%PDF-1.7"));
}

#[test]
fn a_pack_allows_for_dough_that_spreads_but_not_to_share() {
    let folder = tempfile::tempdir().unwrap();
    let pack = |more: &[&str]| run(folder.path(), &[&["pack", "boat-hut", "--to", "pack"], more].concat());
    let grows = ["--spread-share", "2%", "--spread-edge", "0.8mm"];
    for way in ["--trim-warm", "--cut-once"] {
        let done = pack(&[&grows[..], &[way, "--every-piece"]].concat());
        assert_eq!((done.status.code(), err(&done).as_str()), (Some(0), ""));
    }
    for (wrong, words) in [
        (&grows[..], "Give --trim-warm"),
        (&["--cut-once"][..], "say by how much the dough grows"),
        (&["--cut-once", "--spread-share", "90%"][..], "dough does not grow by 90.0 %"),
        (&["--cut-once", "--spread-share", "much"][..], "--spread-share much: give a share"),
        (&["--to-share", "--cut-once", "--spread-share", "2%"][..], "cannot be used with"),
    ] {
        let done = pack(wrong);
        assert!(done.status.code() == Some(2) && err(&done).contains(words), "{}", err(&done));
    }
}

#[test]
fn a_resized_house_keeps_the_credit() {
    let folder = tempfile::tempdir().unwrap();
    let resize = |more: &[&str]| {
        let done =
            run(folder.path(), &[&["resize", "boat-hut", "--by", "75%", "--to", "hut.house.json"], more].concat());
        assert_eq!(done.status.code(), Some(0), "{}", err(&done));
        let text = std::fs::read_to_string(folder.path().join("hut.house.json")).unwrap();
        gable_shell::file::parse(&text).unwrap().owner.credits()
    };
    let pilots = "The harbour pilots of Gannet Sound";
    assert_eq!(resize(&[]), pilots);
    assert_eq!(resize(&["--drawn-by", "Ada"]), format!("Ada, after a design by {pilots}"));
    assert_eq!(resize(&["--drawn-by", "the harbour  pilots of gannet sound"]), pilots);
    // On the stamp of every page and in the PDF's own line.
    run(folder.path(), &["resize", "boat-hut", "--by", "75%", "--drawn-by", "Ada", "--to", "hut.house.json"]);
    let done = run(folder.path(), &["pack", "hut.house.json", "--only", "cover", "--to", "pack"]);
    assert_eq!(done.status.code(), Some(0), "{}", err(&done));
    let pdf = std::fs::read(folder.path().join(out(&done).trim())).unwrap();
    let text = String::from_utf8_lossy(&pdf);
    assert!(text.contains(&format!("Ada, after a design by {pilots}")));
}

#[test]
fn an_order_that_cannot_be_had_is_noticed() {
    let folder = tempfile::tempdir().unwrap();
    let mut house = gable_shell::demo::house("askew-house").unwrap();
    house.order = vec![gable_shell::Before {
        first: gable_shell::Raised::read("chimney"),
        then: gable_shell::Raised::read("main/roof"),
    }];
    std::fs::write(folder.path().join("hut.house.json"), gable_shell::file::write(&house)).unwrap();
    let done = run(folder.path(), &["check", "hut.house.json"]);
    assert!(out(&done).contains("order[0]") && out(&done).contains("nothing would carry Chimney"), "{}", out(&done));
}

#[test]
fn without_a_display_it_says_so_and_names_the_next_command() {
    let folder = tempfile::tempdir().unwrap();
    let done = run(folder.path(), &[]);
    assert_eq!(done.status.code(), Some(0), "{}", err(&done));
    assert!(err(&done).contains("there is no display"), "{}", err(&done));
    assert!(err(&done).contains("gablewright pack boat-hut --paper a4 --to pack"), "{}", err(&done));
    assert!(folder.path().join(out(&done).trim()).is_file());
    let done = run(folder.path(), &["lookout"]);
    assert_eq!(done.status.code(), Some(2));
    assert!(err(&done).contains("gablewright pack lookout --paper a4 --to pack"), "{}", err(&done));
}

#[test]
fn pieces_and_findings_come_as_data() {
    let folder = tempfile::tempdir().unwrap();
    let read = |args: &[&str]| -> Value { serde_json::from_str(&out(&run(folder.path(), args))).unwrap() };
    let data = read(&["pieces", "boat-hut", "--json"]);
    assert_eq!(data["pieces"].as_array().unwrap().len(), 6);
    assert_eq!(data["pieces"][0]["house_from_piece"].as_array().unwrap().len(), 16);
    assert!(read(&["check", "boat-hut", "--json"]).is_array());
    let table = out(&run(folder.path(), &["pieces", "net-store", "--csv"]));
    assert!(table.starts_with("id,name,group,material,width_in,"), "{table}");
    assert_eq!(table.lines().count(), 10);
}

#[test]
fn pictures_are_written_by_the_ending_of_their_name() {
    let folder = tempfile::tempdir().unwrap();
    let draw = |name: &str, rest: &[&str]| {
        let args = [&["picture", "boat-hut", "--to", name], rest].concat();
        let done = run(folder.path(), &args);
        assert_eq!(done.status.code(), Some(0), "{}", err(&done));
        std::fs::read(folder.path().join(name)).unwrap()
    };
    assert!(draw("hut.png", &["--pose", "0.5"]).starts_with(b"\x89PNG"));
    let svg = draw("hut.svg", &["--pose", "flat", "--from", "-40,20"]);
    assert!(String::from_utf8(svg).unwrap().contains("<svg"));
}

#[test]
fn houses_that_cannot_be_built_end_with_1_and_the_findings() {
    let folder = tempfile::tempdir().unwrap();
    // The windows of the side walls find no room in 40 mm.
    let text = gable_shell::demo::text("boat-hut").unwrap().replace("\"depth\": 180", "\"depth\": 40");
    std::fs::write(folder.path().join("short.house.json"), text).unwrap();
    let done = run(folder.path(), &["pack", "short.house.json", "--to", "pack"]);
    assert_eq!(done.status.code(), Some(1), "{}", err(&done));
    assert!(err(&done).contains("cannot be built as it is:\n  blocking: "), "{}", err(&done));
    assert!(!folder.path().join("pack").exists());
    let done = run(folder.path(), &["check", "short.house.json"]);
    assert_eq!(done.status.code(), Some(1));
    assert!(out(&done).contains("blocking: "), "{}", out(&done));
}

#[test]
fn bad_usage_and_unreadable_houses_end_with_2() {
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("bytes"), b"\xff").unwrap();
    std::fs::write(folder.path().join("empty.house.json"), "{}").unwrap();
    std::fs::write(folder.path().join("file"), "").unwrap();
    for (args, wanted) in [
        (&["pack", "boat-hut"][..], "--to"),
        (&["pack", "boat-hut", "--to", "x", "--paper", "a9"], "a4+letter"),
        (&["pack", "boat-hut", "--to", "x", "--margin", "5 ells"], "--margin 5 ells: "),
        (&["pack", "boat-hut", "--to", "x", "--margin", "200"], "the margins leave"),
        (&["pack", "boat-hut", "--to", "x", "--margin-top=-3"], "margins must be lengths of 0 or more"),
        (&["pack", "boat-hut", "--to", "x", "--margin-left", "wide"], "--margin-left wide: "),
        (&["pack", "boat-hut", "--to", "file"], "file: the folder cannot be made"),
        (
            &["check", "no-such"],
            "no built-in house of that name (boat-hut, net-store, lookout, pilot-house, askew-house)",
        ),
        (&["check", "bytes"], "no text file"),
        (&["check", "."], "this is a folder"),
        (&["check", "empty.house.json"], "empty.house.json cannot be read:"),
        (&["picture", "boat-hut", "--to", "hut.gif"], "must end in .svg or .png"),
        (&["picture", "boat-hut", "--to", "hut.png", "--pose", "2"], "a number from 0 to 1"),
        (&["pieces", "boat-hut", "--json", "--csv"], "cannot be used with"),
        (&["files", "boat-hut"], "--to"),
        (&["files", "boat-hut", "--to", "file"], "the folder cannot be made: a file stands where a folder should be"),
        (&["files", "boat-hut", "--to", "x", "--scale", "half"], "--scale half: give a share such as 75% or 1.5"),
        (&["files", "boat-hut", "--to", "x", "--scale", "2000%"], "a scale must be more than 0 and no more than 10"),
        (&["files", "boat-hut", "--to", "x", "--dxf", "--scale", "50%"], "add --stl or --gltf"),
        (&["fiels", "boat-hut"], "did you mean 'files'?"),
    ] {
        let done = run(folder.path(), args);
        assert_eq!(done.status.code(), Some(2), "{args:?}: {}", err(&done));
        assert!(err(&done).contains(wanted), "{args:?}: {}", err(&done));
        assert!(out(&done).is_empty(), "{args:?}");
    }
}

#[test]
fn files_of_the_kinds_that_are_asked_for_are_written_and_named() {
    let folder = tempfile::tempdir().unwrap();
    let named = |args: &[&str]| -> Vec<String> {
        let done = run(folder.path(), &[&["files", "boat-hut", "--to", "new/files"][..], args].concat());
        assert_eq!((done.status.code(), err(&done).as_str()), (Some(0), ""));
        let names: Vec<String> = out(&done).lines().map(str::to_owned).collect();
        assert!(names.iter().all(|name| folder.path().join(name).is_file()), "{names:?}");
        names
    };
    let svg = named(&["--svg"]);
    assert!(svg[0].ends_with("boat-hut-01-hut-front-wall.svg") && svg.iter().all(|n| n.ends_with(".svg")), "{svg:?}");
    let dxf = named(&["--dxf"]);
    assert!(dxf.len() == svg.len() && dxf.iter().all(|n| n.ends_with(".dxf")), "{dxf:?}");
    let stl = named(&["--stl", "--scale", "50%"]);
    assert!(stl.iter().any(|n| n.ends_with("boat-hut-hut-wall-front.stl")), "{stl:?}");
    let one = named(&["--gltf"]);
    assert!(one.len() == 1 && one[0].ends_with("boat-hut.glb"), "{one:?}");
    assert!(std::fs::read(folder.path().join(&one[0])).unwrap().starts_with(b"glTF"));
    assert_eq!(named(&["--csv"]).len(), 4);
    let all = named(&[]);
    assert!(svg.iter().chain(&dxf).chain(&stl).chain(&one).all(|name| all.contains(name)));
}

#[test]
fn help_shows_examples() {
    let folder = tempfile::tempdir().unwrap();
    for args in [
        &["--help"][..],
        &["pack", "--help"],
        &["check", "--help"],
        &["pieces", "--help"],
        &["picture", "--help"],
        &["files", "--help"],
    ] {
        let done = run(folder.path(), args);
        assert_eq!(done.status.code(), Some(0));
        assert!(out(&done).contains("Example"), "{args:?}: {}", out(&done));
    }
}

#[test]
fn a_reader_who_stops_reading_is_no_reason_to_panic() {
    let folder = tempfile::tempdir().unwrap();
    let mut child = command(folder.path(), &["pieces", "lookout", "--json"])
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    drop(child.stdout.take());
    let mut said = String::new();
    child.stderr.take().unwrap().read_to_string(&mut said).unwrap();
    assert_eq!((child.wait().unwrap().code(), said.as_str()), (Some(0), ""));
}

#[test]
fn what_fits_on_no_tray_is_listed() {
    let folder = tempfile::tempdir().unwrap();
    let large = |trays: &[&str]| {
        let mut args = vec!["check", "pilot-house"];
        trays.iter().for_each(|tray| args.extend(["--tray", tray]));
        let done = run(folder.path(), &args);
        assert_eq!(done.status.code(), Some(0), "{}", err(&done));
        out(&done).lines().filter(|l| l.contains("is larger than")).count()
    };
    assert_eq!((large(&[]), large(&["430x350"]), large(&["100 x 100", "16 1/2 in x 11 1/2 in"])), (0, 0, 0));
    // By hand: front and back wall are 220 mm long, the diagonal of the tray 180 mm.
    assert!(large(&["150x100"]) >= 2);
    for (tray, words) in [("430", "give two sides"), ("430xa cup", "a cup"), ("430x1", "no side of a tray")] {
        let done = run(folder.path(), &["check", "pilot-house", "--tray", tray]);
        assert_eq!(done.status.code(), Some(2));
        assert!(err(&done).contains(words), "{}", err(&done));
    }
}

#[test]
fn what_is_baked_is_told_and_left_out() {
    let folder = tempfile::tempdir().unwrap();
    let hut = gable_shell::demo::text("boat-hut").unwrap();
    let baked = "\"baked\": [{ \"part\": \"hut\", \"batch\": \"walls\", \"thickness\": 8.5 }], \"doughs\"";
    std::fs::write(folder.path().join("hut.house.json"), hut.replacen("\"doughs\"", baked, 1)).unwrap();
    let said = out(&run(folder.path(), &["check", "hut.house.json"]));
    assert!(said.contains("2 pieces that are not baked yet are worked out anew"), "{said}");
    assert!(said.contains("came out 8.5 mm thick, not 7.5 mm"), "{said}");
    let data: Value = serde_json::from_str(&out(&run(folder.path(), &["check", "hut.house.json", "--json"]))).unwrap();
    let anew = data.as_array().unwrap().iter().find(|f| f["kind"] == "worked-anew").unwrap();
    let roof = anew["pieces"].as_array().unwrap().iter().find(|p| p["piece"] == "hut/roof-left").unwrap();
    // Front and back run through: the roof grows by 1 mm at both ends.
    let grown = roof["after"][0].as_f64().unwrap() - roof["before"][0].as_f64().unwrap();
    assert!((grown - 2.0).abs() < 1e-9, "{roof}");
    let pieces: Value =
        serde_json::from_str(&out(&run(folder.path(), &["pieces", "hut.house.json", "--json"]))).unwrap();
    let marked = pieces["pieces"].as_array().unwrap().iter().filter(|p| p["baked"] == true).count();
    assert_eq!(marked, 4);
    let size = |more: &[&str]| {
        let args = [&["pack", "hut.house.json", "--to", "."][..], more].concat();
        let done = run(folder.path(), &args);
        assert_eq!((done.status.code(), err(&done).as_str()), (Some(0), ""));
        std::fs::read(folder.path().join(out(&done).trim())).unwrap().len()
    };
    assert!(size(&["--no-baked"]) < size(&[]));
}

#[test]
fn what_will_stand_is_told_to_people_and_to_programs() {
    let folder = tempfile::tempdir().unwrap();
    let stand = |more: &[&str]| run(folder.path(), &[&["stand", "boat-hut", "--no-notebook"], more].concat());
    let said = out(&stand(&["--humidity", "60%", "--days", "14", "--board", "card-12"]));
    for words in [
        "In short",
        "in a room of 60 % humidity, for 14 days",
        "Slopes on fresh icing",
        "fresh icing holds",
        "Board (cake card, 12 mm)",
        "from memory, not verified",
        "none of this is a promise",
    ] {
        assert!(said.contains(words), "{words}: {said}");
    }
    let data: Value = serde_json::from_str(&out(&stand(&["--json"]))).unwrap();
    let answers = data["answers"].as_array().unwrap();
    assert!(answers.iter().any(|a| a["matter"] == "slides" && a["piece"] == "hut/roof-left"));
    let in_order = |r: &Value| r["low"].as_f64() <= r["usual"].as_f64() && r["usual"].as_f64() <= r["high"].as_f64();
    assert!(answers.iter().all(|a| in_order(&a["share"]) && in_order(&a["number"])));
    assert!(data["carry"]["house"].as_f64().unwrap() > 500.0);
    for (args, words) in [
        (["--humidity", "120%"], "give 0 to 95 %"),
        (["--humidity", "wet"], "wet"),
        (["--days", "-3"], "give 0 to 366"),
        (["--board", "glass"], "it may be card-12"),
    ] {
        let done = stand(&args);
        assert_eq!(done.status.code(), Some(2), "{args:?}");
        assert!(err(&done).contains(words), "{}", err(&done));
    }
}

#[test]
fn a_bake_is_planned_for_people_and_for_programs() {
    let folder = tempfile::tempdir().unwrap();
    let bake = |more: &[&str]| run(folder.path(), &[&["bake", "boat-hut", "--tray", "430x350"], more].concat());
    let said = out(&bake(&[]));
    for words in
        ["Construction dough", "stiff, white", "Ovenfuls", "Shopping", "Cautions", "common practice, no source"]
    {
        assert!(said.contains(words), "{words}: {said}");
    }
    let data: Value = serde_json::from_str(&out(&bake(&["--json"]))).unwrap();
    let net: f64 = data["houses"][0]["dough"].as_array().unwrap().iter().map(|d| d["net"].as_f64().unwrap()).sum();
    assert!((net - data["houses"][0]["dough_net"].as_f64().unwrap()).abs() < 1e-9);
    let list = out(&bake(&["--shopping"]));
    assert!(list.starts_with("Baking\n") && list.contains("[ ] 500 g  Wheat flour"), "{list}");
    let table = out(&bake(&["--shopping", "--csv"]));
    let rows: Vec<&str> = table.split_terminator("\r\n").collect();
    assert_eq!(rows[0], "shelf,what,amount,note,at home,cost,id");
    assert!(rows.contains(&"Baking,\"Wheat flour, plain\",500 g,,no,,flour"), "{table}");
    assert_eq!(rows.len() - 1, list.matches("[ ]").count(), "a row for each thing to buy: {table}");
    let alone = bake(&["--csv"]);
    assert!(alone.status.code() == Some(2) && err(&alone).contains("--shopping"), "{}", err(&alone));
}

#[test]
fn a_notebook_changes_the_bake_and_a_faulty_one_is_refused() {
    let folder = tempfile::tempdir().unwrap();
    let write = |text: &str| std::fs::write(folder.path().join("notebook.json"), text).unwrap();
    let bake = || run(folder.path(), &["bake", "boat-hut", "--notebook", "notebook.json"]);
    write(
        r#"{"format": "gablewright-notebook", "version": 1, "chosen": {"dough": "honey"}, "figures": {"dough-trim": 0.5}}"#,
    );
    let said = out(&bake());
    assert!(
        said.contains("Honey dough") && said.contains("with 50 % for trimming") && said.contains("12 months"),
        "{said}"
    );
    write(r#"{"format": "gablewright-notebook", "version": 1, "figures": {"dough-trim": 50}}"#);
    let done = bake();
    let words =
        "notebook.json: figures.dough-trim: dough for trimming and scraps: 5000 % is out of range; give 0 to 100 %";
    assert!(done.status.code() == Some(2) && err(&done).contains(words), "{}", err(&done));
    let wrong = run(folder.path(), &["bake", "boat-hut", "--copies", "0"]);
    assert!(wrong.status.code() == Some(2) && err(&wrong).contains("give 1 to 200"));
    assert_eq!(run(folder.path(), &["bake", "boat-hut", "--notebook", "none.json"]).status.code(), Some(2));
}

#[test]
fn the_days_are_planned_backwards_and_go_into_a_calendar() {
    let folder = tempfile::tempdir().unwrap();
    let plan = |more: &[&str]| {
        let fixed = ["bake", "boat-hut", "--now", "2026-12-07T08:00"];
        run(folder.path(), &[&fixed[..], more].concat())
    };
    let hours = ["--hours", "Ida: mon-fri 18:00-22:00, sat-sun 9:00-18:00"];
    let enough = [&["--ready-by", "2026-12-20T15:00"], &hours[..]].concat();
    let done = plan(&[&enough[..], &["--calendar", "days.ics", "--chart", "days.svg", "--table", "days.csv"]].concat());
    let said = out(&done);
    assert!(done.status.success() && said.contains("It stands on") && said.contains("(Ida)"), "{said}{}", err(&done));
    let calendar = std::fs::read_to_string(folder.path().join("days.ics")).unwrap();
    assert!(calendar.starts_with("BEGIN:VCALENDAR\r\n") && calendar.contains("BEGIN:VALARM"));
    assert!(std::fs::read_to_string(folder.path().join("days.svg")).unwrap().starts_with("<svg"));
    let table = std::fs::read_to_string(folder.path().join("days.csv")).unwrap();
    assert!(table.starts_with("begins,ends,task,kind,who,kitchen,minutes,may begin later by,id\r\n"), "{table}");
    assert!(table.lines().count() > 20 && table.contains(",Ida,"), "{table}");
    let other = plan(&[&enough[..], &["--table", "days.ods"]].concat());
    assert!(other.status.code() == Some(2) && err(&other).contains("a name that ends in .csv"), "{}", err(&other));
    let data: Value = serde_json::from_str(&out(&plan(&[&enough[..], &["--json"]].concat()))).unwrap();
    assert!(data["days"]["stands"].as_str().unwrap() <= "2026-12-20T15:00:00");
    assert!(data["days"]["tasks"].as_array().unwrap().len() > 20);
    // In one evening nobody does it.
    let late = out(&plan(&[&["--ready-by", "2026-12-08T20:00"], &hours[..]].concat()));
    assert!(late.contains("It cannot stand by"), "{late}");
    for (wrong, words) in [
        (&["--ready-by", "Christmas"][..], "give a date and a time such as"),
        (&["--ready-by", "2026-12-20"][..], "give a date and a time such as"),
        (&["--ready-by", "2026-12-20T15:00", "--copies", "2,3"][..], "2 numbers for 1 house;"),
        (&["--ready-by", "2026-12-20T15:00", "--hours", "Ida: mon 21:00-18:00"][..], "more than 16 hours"),
        (&["--ready-by", "2026-12-01T10:00"][..], "that is past"),
        (&["--ready-by", "2026-12-20T15:00", "--hours", "Ida: sometime"][..], "give hours such as"),
    ] {
        let done = plan(wrong);
        assert!(done.status.code() == Some(2) && err(&done).contains(words), "{}", err(&done));
    }
}

/// Several houses, so many of each, in one plan and one timetable; kept with the first of them.
#[test]
fn a_workshop_of_two_houses_is_planned_at_once() {
    let folder = tempfile::tempdir().unwrap();
    let bake = |more: &[&str]| run(folder.path(), &[&["bake", "boat-hut"], more].concat());
    let kept = ["--notebook", "notebook.json"];
    std::fs::write(folder.path().join("notebook.json"), r#"{"format": "gablewright-notebook", "version": 2}"#).unwrap();
    let store = concat!(env!("CARGO_MANIFEST_DIR"), "/../../demo/net-store.house.json");
    std::fs::copy(store, folder.path().join("store.house.json")).unwrap();
    let days = ["--now", "2026-12-01T08:00", "--ready-by", "2026-12-20T15:00", "--hours", "Ida: daily 9:00-21:00"];
    let all = [&["store.house.json", "--copies", "3,2", "--hand-over", "walls", "--keep"][..], &kept, &days].concat();
    let said = out(&bake(&all));
    for words in ["3 × Boat hut, 2 × Net store", "A: Boat hut, B: Net store", "Pack 5 kits", "(Net store, 2 of them)"]
    {
        assert!(said.contains(words), "{words}: {said}");
    }
    // From another folder too, without saying it again.
    let elsewhere = tempfile::tempdir().unwrap();
    let notebook = folder.path().join("notebook.json").display().to_string();
    let again = ["bake", "boat-hut", "--notebook", notebook.as_str(), "--json", "--now", "2026-12-01T08:00"];
    let data: Value = serde_json::from_str(&out(&run(elsewhere.path(), &again))).unwrap();
    assert_eq!((data["copies"].as_u64(), data["hand_over"].as_str()), (Some(5), Some("walls")));
    let tasks = data["days"]["tasks"].as_array().unwrap();
    assert!(
        tasks.iter().any(|task| task["id"].as_str().unwrap().starts_with("raise/Net store: 1 to 2 of 2: ")),
        "{tasks:?}"
    );
    let alone: Value =
        serde_json::from_str(&out(&bake(&[&["--alone", "--copies", "1", "--json"][..], &kept].concat()))).unwrap();
    assert_eq!(alone["copies"].as_u64(), Some(1));
    let gone = bake(&[&["nowhere.json", "--copies", "2"][..], &kept].concat());
    assert!(
        gone.status.code() == Some(2) && err(&gone).contains("nowhere.json: there is no such file"),
        "{}",
        err(&gone)
    );
}

#[test]
fn what_is_said_once_is_kept_and_work_is_ticked_off() {
    let folder = tempfile::tempdir().unwrap();
    let at = |now: &str, more: &[&str]| {
        let done = run(folder.path(), &[&["bake", "boat-hut", "--now", now], more].concat());
        assert!(done.status.success(), "{}", err(&done));
        out(&done)
    };
    let hours = "Ida: daily 18:00-22:00";
    let soon = "2026-12-07T08:00";
    assert!(at(soon, &["--ready-by", "2026-12-20T15:00", "--hours", hours]).contains("Times taken as"));
    let refused = |now: &str, more: &[&str], words: &str| {
        let done = run(folder.path(), &[&["bake", "boat-hut", "--now", now], more].concat());
        assert!(done.status.code() == Some(2) && err(&done).contains(words), "{}", err(&done));
    };
    // Nothing was kept of that.
    refused(soon, &["--today"], "say by when the house must stand");
    at(soon, &["--ready-by", "2026-12-20T15:00", "--hours", hours, "--keep"]);
    let page = at(soon, &["--today"]);
    assert!(page.contains("It stands on") && page.contains("Mix the dough for walls, 1 batch, 30 min (Ida)"), "{page}");
    // A tick is kept, and what is left is planned from then on.
    let ticked = at("2026-12-13T19:10", &["--done", "mix the dough for walls=27"]);
    assert!(ticked.starts_with("Written down\n  Done: Mix the dough for walls, 1 batch, 27 min"), "{ticked}");
    let left = at("2026-12-13T19:15", &[]);
    assert!(!left.contains("  Mix the dough for walls"), "{left}");
    assert!(at("2026-12-13T19:20", &["--not-done", "mix the dough for walls"]).contains("Not done: Mix the dough"));
    assert!(at("2026-12-13T19:25", &[]).contains("Mix the dough for walls"));
    refused(soon, &["--done", "wash up"], "no task is called 'wash up'");
    refused(soon, &["--done", "ovenful"], "could be 'Roll and cut ovenful 1'");
    refused(soon, &["--done", "base board=soon"], "'soon' are no minutes");
    refused(soon, &["--broke", "left wall"], "is not baked yet");
    refused(soon, &["--done", "base board", "--no-notebook"], "the days are not planned yet");
    // Another notebook, or none, knows nothing of it.
    refused(soon, &["--today", "--no-notebook"], "say by when the house must stand");
    refused(soon, &["--ready-by", "2026-12-20T15:00", "--chart", "days.txt"], "give a name that ends in .svg");
}

#[test]
fn a_broken_piece_is_baked_again_from_the_command_line() {
    let folder = tempfile::tempdir().unwrap();
    let at = |now: &str, more: &[&str]| {
        let done = run(folder.path(), &[&["bake", "boat-hut", "--now", now], more].concat());
        assert!(done.status.success(), "{}", err(&done));
        out(&done)
    };
    let hours = ["--hours", "Ida: daily 18:00-22:00", "--ready-by", "2026-12-20T15:00", "--keep"];
    at("2026-12-01T08:00", &hours);
    let rows = at("2026-12-01T08:00", &["--json"]);
    let data: Value = serde_json::from_str(&rows).unwrap();
    let tasks = data["days"]["tasks"].as_array().unwrap();
    // Everything up to the oven is done.
    let done: Vec<String> = tasks
        .iter()
        .filter(|t| ["mix-dough", "cut", "bake", "trim"].contains(&t["kind"].as_str().unwrap()))
        .map(|t| format!("{}=20", t["id"].as_str().unwrap()))
        .collect();
    let ticks: Vec<&str> = done.iter().flat_map(|id| ["--done", id.as_str()]).collect();
    at("2026-12-02T20:00", &ticks);
    let piece = "hut/wall-left";
    let said = at("2026-12-03T18:00", &["--broke", piece]);
    assert!(said.contains("Bake it again: from") && said.contains("Mend it with icing"), "{said}");
    assert!(!at("2026-12-03T18:00", &[]).contains("(again)"), "asking changes nothing");
    let again = at("2026-12-03T18:00", &["--bake-again", piece]);
    assert!(again.contains("it is baked again"), "{again}");
    assert!(at("2026-12-03T18:05", &[]).contains("Bake ovenful 1 (again)"));
}

#[test]
fn the_notebook_of_the_docs_is_one() {
    let page = include_str!("../../../docs/notebook.md");
    let json = page.split("```json\n").nth(1).unwrap().split("```").next().unwrap();
    let notebook = gable_bake::notebook::read(json).unwrap();
    assert!(notebook.loss().is_some() && notebook.recipes.len() == 1 && notebook.oven_log.len() == 1);
    // Its test biscuits say how dough spreads, so nobody need type it.
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("notebook.json"), json).unwrap();
    let fixed = ["pack", "boat-hut", "--to", "pack", "--only", "patterns,bake-plan"];
    let pack = |more: &[&str]| run(folder.path(), &[&fixed[..], more].concat());
    let done = pack(&["--notebook", "notebook.json", "--cut-once"]);
    assert_eq!((done.status.code(), err(&done).as_str()), (Some(0), ""));
    assert!(err(&pack(&["--cut-once"])).contains("or with test biscuits in a notebook"));
}
