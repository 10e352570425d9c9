//! Paper rolls, sheets from the program.

use std::process::Command;

use serde_json::json;

use crate::program::{boat, call, call_words, copy_of_boat};

pub(crate) fn text_of(pdf: &str) -> String {
    let out = Command::new("pdftotext")
        .args(["-layout", pdf, "-"])
        .output()
        .expect("pdftotext starts");
    assert!(out.status.success());
    String::from_utf8_lossy(&out.stdout).into_owned()
}

#[test]
fn the_sheets_about_rolls_say_what_is_on_them() {
    let dir = tempfile::tempdir().expect("a folder");
    let out = dir.path().to_str().expect("plain");
    let boat = boat();
    let film = boat.to_str().expect("plain");
    let printed = call(["sheets", film, "--out", out]).ok();
    let files: Vec<(&str, &str)> = printed["files"]
        .as_array()
        .expect("files")
        .iter()
        .filter_map(|f| Some((f["sheet"].as_str()?, f["path"].as_str()?)))
        .collect();
    let names: Vec<&str> = files.iter().map(|(sheet, _)| *sheet).collect();
    assert_eq!(
        names,
        [
            "log-sheet",
            "trim-labels",
            "inspection-sheet",
            "scan-sheet",
            "handling-ledger"
        ]
    );
    let wanted: [&[&str]; 5] = [
        &["R1", "10 takes", "3B-T2", "the rope comes off", "R3"],
        &["33", "labels", "R3", "E-T1"],
        &["triacetate", "9 camera stops", "acid strip"],
        &["R1.mkv", "640 × 480", "3,600"],
        &["R1", "R2", "R3"],
    ];
    for ((sheet, path), wanted) in files.iter().zip(wanted) {
        let text = text_of(path);
        for words in wanted {
            assert!(text.contains(words), "{sheet}: {words}\n{text}");
        }
        assert!(!text.contains("NOT PROVED"), "{sheet}");
    }

    let one = call([
        "sheets",
        film,
        "--out",
        out,
        "--only",
        "log-sheet",
        "--roll",
        "R2",
    ])
    .ok();
    let path = one["files"][0]["path"].as_str().expect("a path");
    assert!(path.ends_with("R2-log-sheet.pdf"), "{path}");
    assert!(!text_of(path).contains("2B-T1"), "that take is on R1");
    let gone = call(["sheets", film, "--out", out, "--roll", "R9"]).refused();
    assert_eq!(gone["code"], "store.not_found");
    let unnamed = call(["sheets", film, "--out", out, "--only", "pull-list"]).refused();
    assert_eq!(unnamed["code"], "production.unfit");
}

#[test]
fn the_sheets_of_the_first_cut_say_what_the_hand_needs() {
    let dir = tempfile::tempdir().expect("a folder");
    let out = dir.path().to_str().expect("plain");
    let boat = boat();
    let film = boat.to_str().expect("plain");
    let printed = call([
        "sheets", film, "--cut", "v1", "--out", out, "--join", "cement",
    ])
    .ok();
    assert_eq!(printed["proved"], true);
    let files: Vec<&str> = printed["files"]
        .as_array()
        .expect("files")
        .iter()
        .filter_map(|f| f["path"].as_str())
        .collect();
    assert_eq!(files.len(), 2);
    let cutting = text_of(files[0]);
    for wanted in [
        "Cutting sheet",
        "The Ten-Past Boat",
        "37 ft 60 fr",
        "2,724",
        "R2·547 to 606",
        "cement",
    ] {
        assert!(cutting.contains(wanted), "{wanted}\n{cutting}");
    }
    let pull = text_of(files[1]);
    for wanted in [
        "Pull list",
        "camera stop 3B-T2",
        "R2·470",
        "+ 77",
        "326.0 mm",
        "safety",
    ] {
        assert!(pull.contains(wanted), "{wanted}\n{pull}");
    }
    assert!(!pull.contains("NOT PROVED"));
}

#[test]
fn a_version_that_is_refused_is_printed_for_notes_only_and_says_so_on_every_page() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = copy_of_boat(dir.path());
    let film = film.to_str().expect("plain");
    let sheet = dir.path().join("twice.csv");
    // Long enough for two pages; the last piece shows what the first does.
    let mut rows = "position,roll,in,out,note\n1,R1,402,546,The landing\n".to_owned();
    for place in 2..=9 {
        rows.push_str(&format!(
            "{place},R2,{},{},\n",
            place * 200,
            place * 200 + 50
        ));
    }
    rows.push_str("10,R1,510,600,\n");
    std::fs::write(&sheet, rows).expect("written");
    let sheet = sheet.to_str().expect("plain");
    call(["cut", "import", film, sheet, "--name", "twice"]).ok();
    let out = dir.path().to_str().expect("plain");
    let asked = |only| {
        call([
            "sheets", film, "--cut", "twice", "--out", out, "--only", only,
        ])
    };
    let lined = asked("lined-sheet").ok();
    let text = text_of(lined["files"][0]["path"].as_str().expect("a path"));
    let pages: Vec<&str> = text.split_terminator('\u{c}').collect();
    assert!(pages.len() > 1);
    for page in pages {
        assert!(page.contains("NOT CUTTABLE"), "{page}");
        assert!(
            page.contains("36 frames shown twice, R1·510 to 545."),
            "{page}"
        );
    }
    assert!(text.contains("The landing"), "the note of the piece");
    for only in ["cutting-sheet", "pull-list"] {
        assert_eq!(asked(only).refused()["code"], "production.cut_refused");
    }
}

#[test]
fn a_roll_on_paper_is_cut_and_printed_and_never_proved() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = dir.path().join("film");
    let film = film.to_str().expect("plain");
    call([
        "new",
        film,
        "--title",
        "Paper & scissors",
        "--gauge",
        "16",
        "--speed",
        "24",
    ])
    .ok();
    call([
        "roll",
        "paper",
        film,
        "A1",
        "--frames",
        "4000",
        "--base",
        "polyester",
    ])
    .ok();
    let sheet = dir.path().join("cut.csv");
    std::fs::write(
        &sheet,
        "position,roll,in,out,slate,join,note\n1,leader,0,40,,,\n2,A1,10+0,12+20,1-T1,,\"a \"\"quoted\"\" note\"\n3,card,0,48,,,The End\n",
    )
    .expect("written");
    call([
        "cut",
        "import",
        film,
        sheet.to_str().expect("plain"),
        "--name",
        "v1",
    ])
    .ok();
    let tape = call(["check", film, "--cut", "v1"]).ok();
    assert_eq!(
        (&tape["frames"], &tape["pieces"]),
        (&json!(40 + 100 + 48), &json!(3))
    );
    assert_eq!(tape["rolls"][0]["proved"], false);
    // Cement does not hold on polyester: both joins of the piece are refused.
    let cement = call(["check", film, "--cut", "v1", "--join", "cement"]);
    assert_eq!(cement.exit, 1);
    let kinds: Vec<_> = cement.document["conflicts"]
        .as_array()
        .expect("conflicts")
        .iter()
        .map(|c| json!([c["kind"], c["positions"]]))
        .collect();
    assert_eq!(kinds, [json!(["base", [1, 2]]), json!(["base", [2, 3]])]);
    let out = dir.path().join("paper");
    let out = out.to_str().expect("plain");
    let printed = call([
        "sheets", film, "--cut", "v1", "--out", out, "--paper", "letter",
    ])
    .ok();
    assert_eq!(printed["proved"], false);
    for file in printed["files"].as_array().expect("files") {
        let text = text_of(file["path"].as_str().expect("a path"));
        assert!(text.contains("NOT PROVED"), "{text}");
    }
    // Nothing was scanned, so there is nothing to finish.
    let refused = call(["finish", film, "--cut", "v1", "--out", "x.mkv"]).refused();
    assert_eq!(refused["code"], "finish.no_scan");
    // The form comes back as it was brought in.
    let csv = call(["cut", "export", film, "--cut", "v1"]).ok();
    assert_eq!(
        csv["csv"],
        "position,roll,in,out,slate,join,note\n1,leader,0,40,,,\n2,A1,400,500,1-T1,,\"a \"\"quoted\"\" note\"\n3,card,0,48,,,The End\n"
    );
}

#[test]
fn a_backup_opens_as_a_production() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = copy_of_boat(dir.path());
    let cuts = call_words("cut list DIR", &film).ok();
    assert_eq!(cuts["cuts"][0]["frames"], 2724);
    let rolls = call_words("roll list DIR", &film).ok();
    assert_eq!(rolls["rolls"].as_array().map(Vec::len), Some(3));
    assert_eq!(rolls["rolls"][0]["workprint"], true);
}

#[test]
fn it_says_what_is_here_and_what_to_install() {
    let here = call(["ready"]).ok();
    assert_eq!(
        (&here["ready"], &here["ffmpeg"]["here"]),
        (&json!(true), &json!(true))
    );
    let without = crate::program::onestrand()
        .args(["ready", "--json"])
        .env("PATH", "/nowhere")
        .env("ONESTRAND_FFMPEG", "/nowhere/ffmpeg")
        .output()
        .expect("the program starts");
    assert_eq!(without.status.code(), Some(1));
    let found: serde_json::Value = serde_json::from_slice(&without.stdout).expect("one document");
    assert_eq!(found["ready"], false);
    let hint = found["ffmpeg"]["hint"].as_str().expect("a hint");
    assert!(hint.contains("ffmpeg"), "{hint}");
}

/// Bringing a roll in is one act: taken back it leaves no roll and no takes.
#[test]
fn a_roll_brought_in_is_taken_back_whole() {
    let dir = tempfile::tempdir().expect("a folder");
    crate::program::ffmpeg(
        "-f lavfi -i testsrc=s=320x240:r=18:d=2 -c:v ffv1 scan.mkv",
        dir.path(),
    );
    let film = dir.path().join("film");
    let film = film.to_str().expect("plain");
    let scan = dir.path().join("scan.mkv");
    let scan = scan.to_str().expect("plain");
    call(["new", film, "--title", "Back", "--gauge", "super8"]).ok();
    let roll = call(["roll", "add", film, "R1", scan, "--measured", "36fr"]).ok();
    assert_eq!(
        (&roll["frames"], &roll["proved"]),
        (&json!(36), &json!(true))
    );
    assert_eq!(
        call(["roll", "add", film, "R1", scan]).refused()["code"],
        "production.roll_there"
    );
    call(["undo", film]).ok();
    assert_eq!(call(["roll", "list", film]).ok(), json!({"rolls": []}));
    call(["redo", film]).ok();
    assert_eq!(call(["roll", "list", film]).ok()["rolls"][0]["frames"], 36);
    let jobs = call(["jobs", film]).ok();
    assert_eq!(jobs["jobs"][0]["state"], "done");
}

/// A scan is known by what it is, not only by where it lay.
#[test]
fn a_scan_that_was_moved_is_found_again() {
    let dir = tempfile::tempdir().expect("a folder");
    let path = |name: &str| dir.path().join(name).to_str().expect("plain").to_owned();
    crate::program::ffmpeg(
        "-f lavfi -i testsrc=s=320x240:r=18:d=2 -c:v ffv1 scan.mkv",
        dir.path(),
    );
    let film = path("film");
    call(["new", &film, "--title", "Moved", "--gauge", "super8"]).ok();
    call(["roll", "add", &film, "R1", &path("scan.mkv")]).ok();
    std::fs::write(path("cut.csv"), "position,roll,in,out\n1,R1,3,20\n").expect("written");
    call(["cut", "import", &film, &path("cut.csv"), "--name", "v1"]).ok();

    // Beside the production under its own name it is found without a word.
    std::fs::rename(path("scan.mkv"), path("film/scan.mkv")).expect("moved");
    call(["finish", &film, "--cut", "v1", "--out", &path("one.mkv")]).ok();

    // Below the folder in which it was read, by its bits, whatever it is called.
    std::fs::create_dir(path("cupboard")).expect("a folder");
    std::fs::rename(path("film/scan.mkv"), path("cupboard/old.mkv")).expect("moved");
    call(["finish", &film, "--cut", "v1", "--out", &path("more.mkv")]).ok();

    // Anywhere else it has to be told, and must be the very same.
    let elsewhere = tempfile::tempdir().expect("a folder");
    let away = elsewhere.path().join("old.mkv");
    std::fs::copy(path("cupboard/old.mkv"), &away).expect("a copy");
    std::fs::remove_file(path("cupboard/old.mkv")).expect("moved");
    let lost = call(["finish", &film, "--cut", "v1", "--out", &path("two.mkv")]).refused();
    assert_eq!(lost["code"], "production.scan_changed");
    let said = |field: &str| lost[field].as_str().expect("words").to_owned();
    assert!(said("message").contains("no file of its size and BLAKE3 lies in"));
    assert!(said("hint").contains("onestrand roll moved"));
    crate::program::ffmpeg(
        "-f lavfi -i testsrc2=s=320x240:r=18:d=2 -c:v ffv1 other.mkv",
        dir.path(),
    );
    let other = call(["roll", "moved", &film, "R1", &path("other.mkv")]).refused();
    assert_eq!(other["code"], "production.scan_changed");
    let away = away.to_str().expect("plain");
    call(["roll", "moved", &film, "R1", away]).ok();
    let made = call(["finish", &film, "--cut", "v1", "--out", &path("two.mkv")]).ok();
    assert_eq!((&made["frames"], &made["black"]), (&json!(17), &json!(0)));
}
