//! The archive box from outside: made, validated by another's reader, hurt, opened again.

use std::path::{Path, PathBuf};
use std::process::Command;

use serde_json::{Value, json};

use crate::program::{boat_folder, call, copy_of_boat, onestrand};
use crate::recut::text;

/// What is asked of a film to see whether it is the same production.
const ASKED: [&str; 9] = [
    "roll list DIR",
    "cut list DIR",
    "cut export DIR --cut v1",
    "check DIR --cut v1",
    "cue list DIR --cut v1",
    "log export DIR",
    "journal DIR --most 1000",
    "sound list DIR",
    "box facts DIR",
];

fn answers(film: &Path) -> Vec<Value> {
    let ask = |words: &str| {
        call(words.split(' ').map(|word| match word {
            "DIR" => text(film),
            word => word,
        }))
        .document
    };
    ASKED.iter().map(|words| ask(words)).collect()
}

/// The interpreter that has the reference validator, if this machine has one.
fn python() -> Option<PathBuf> {
    if let Some(named) = std::env::var_os("ONESTRAND_REFERENCE_PYTHON") {
        return Some(PathBuf::from(named));
    }
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).parent()?;
    let usual = folder.join("reference-package/bin/python");
    let here = Command::new(&usual).args(["-c", "import bagit"]).status();
    here.is_ok_and(|status| status.success()).then_some(usual)
}

#[expect(
    clippy::print_stdout,
    reason = "whoever runs it is told that nothing was compared"
)]
fn validated(place: &Path, valid: bool) {
    let Some(python) = python() else {
        println!("NOT COMPARED: the reference validator is not here; ./test fetches it");
        return;
    };
    let said = Command::new(python)
        .args(["-m", "bagit", "--validate", text(place)])
        .output()
        .expect("Python starts");
    let words = String::from_utf8_lossy(&said.stderr).into_owned();
    assert_eq!(said.status.success(), valid, "{words}");
}

fn flip(file: &Path, at: usize) {
    let mut bytes = std::fs::read(file).expect("there");
    bytes[at] ^= 1;
    std::fs::write(file, bytes).expect("written");
}

/// An answer without what a box leaves out: workprints are made again from the scans.
fn of_the_film(answer: &Value) -> Value {
    match answer {
        Value::Object(all) => all
            .iter()
            .filter(|(key, _)| !matches!(key.as_str(), "workprint" | "pictures"))
            .map(|(key, value)| (key.clone(), of_the_film(value)))
            .collect(),
        Value::Array(all) => all.iter().map(of_the_film).collect(),
        other => other.clone(),
    }
}

#[test]
fn a_box_is_whole_gives_the_same_production_and_a_flipped_bit_is_named() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = copy_of_boat(dir.path());
    call([
        "box",
        "say",
        text(&film),
        "date",
        "1961",
        "--known",
        "guess",
        "--source",
        "the car",
    ])
    .ok();
    call([
        "box",
        "say",
        text(&film),
        "maker",
        "Ada Brandt",
        "--known",
        "maker",
    ])
    .ok();
    call(["box", "say", text(&film), "place", "--known", "not-known"]).ok();
    let light = ["light", "set", text(&film), "R1·402", "--points", "5,5,7"];
    call(light).ok();
    let place = dir.path().join("box");
    let made = call(["box", text(&film), "--out", text(&place), "--without-mix"]).ok();
    assert_eq!(
        (&made["verified"], made["scans"].as_array().map(Vec::len)),
        (&json!(true), Some(3))
    );
    assert!(
        made["scans"]
            .as_array()
            .expect("scans")
            .iter()
            .all(|scan| scan["in_box"] == true)
    );
    assert!(made["sheets"].as_u64() >= Some(20), "{}", made["sheets"]);
    for file in [
        "read-me-first.txt",
        "accession-sheet.pdf",
        "scans.json",
        "production/production.db",
        "text/versions/v1.otio",
        "text/versions/v1-cues.csv",
        "sheets/v1/v1-cutting-sheet.pdf",
        "sheets/v1/v1-grading-card.pdf",
        "text/light.json",
        "text/light.ccc",
    ] {
        assert!(place.join("data").join(file).is_file(), "{file}");
    }
    assert!(!place.join("data/production/workprints").exists());
    validated(&place, true);
    let core = std::fs::read_to_string(place.join("data/dublin-core.xml")).expect("there");
    assert!(
        core.contains("<dcterms:created>1961 (guessed)</dcterms:created>"),
        "{core}"
    );
    let found = call(["box", "check", text(&place)]).ok();
    assert_eq!(
        (&found["ok"], &found["problems"]),
        (&json!(true), &json!([]))
    );

    // On another machine: the film is gone, and so are its scans where they were read.
    let before = answers(&film);
    std::fs::rename(&film, dir.path().join("gone")).expect("moved");
    let other = dir.path().join("elsewhere/boat");
    call(["box", "open", text(&place), "--out", text(&other)]).ok();
    let after = answers(&other);
    for ((words, before), after) in ASKED.iter().zip(&before).zip(&after) {
        assert!(!before.is_null(), "{words}");
        assert_eq!(of_the_film(before), of_the_film(after), "{words}");
    }
    assert!(
        other.join("scans/R1.mkv").is_file(),
        "its scans came with it"
    );

    let scan = place.join("data/production/scans/R2.mkv");
    flip(&scan, 30_000);
    std::fs::remove_file(place.join("data/text/log.csv")).expect("there");
    validated(&place, false);
    let found = call(["box", "check", text(&place)]);
    assert_eq!(found.exit, 1);
    let problems: Vec<(&str, &str)> = found.document["problems"]
        .as_array()
        .expect("problems")
        .iter()
        .filter_map(|one| Some((one["kind"].as_str()?, one["path"].as_str()?)))
        .collect();
    assert_eq!(
        problems,
        [
            ("changed", "data/production/scans/R2.mkv"),
            ("missing", "data/text/log.csv")
        ]
    );
    assert!(found.words.contains("a scan of R2"), "{}", found.words);
    let third = dir.path().join("third");
    let refused = call(["box", "open", text(&place), "--out", text(&third)]).refused();
    assert!(
        refused["message"]
            .as_str()
            .expect("words")
            .contains("R2.mkv"),
        "{refused}"
    );
    assert!(!third.exists());
}

#[test]
fn a_scan_that_has_moved_is_found_by_its_checksum_or_said() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = dir.path().join("film");
    call([
        "new",
        text(&film),
        "--title",
        "Moved",
        "--gauge",
        "super8",
        "--speed",
        "18",
    ])
    .ok();
    let scan = dir.path().join("R1.mkv");
    std::fs::copy(boat_folder().join("scans/R1.mkv"), &scan).expect("copied");
    call(["roll", "add", text(&film), "R1", text(&scan)]).ok();
    // Neither with the film nor below the folder it lies in, where the program looks unasked.
    let elsewhere = tempfile::tempdir().expect("a folder");
    let away = elsewhere.path().join("away");
    std::fs::create_dir(&away).expect("a folder");
    std::fs::rename(&scan, away.join("holidays 1961.mkv")).expect("moved");
    let place = dir.path().join("box");
    let box_of = |more: &[&str]| {
        let given = [
            "box",
            text(&film),
            "--out",
            text(&place),
            "--without-sheets",
        ];
        call(given.iter().copied().chain(more.iter().copied()))
    };
    // It lies in a folder where nobody was told to look.
    let refused = box_of(&[]).refused();
    let words = refused["message"].as_str().expect("words").to_owned();
    assert!(
        words.contains("the scan of R1") && words.contains(text(&scan)),
        "{words}"
    );
    assert!(!place.exists() && !dir.path().join("box.part").exists());
    let made = box_of(&["--media", text(&away)]).ok();
    assert_eq!(made["scans"][0]["found"], "by_fixity");
    assert_eq!(
        made["scans"][0]["files"][0]["path"],
        "production/scans/R1.mkv"
    );
    std::fs::remove_dir_all(&place).expect("there");

    let made = box_of(&["--without-scans", "--media", text(&away)]).ok();
    assert_eq!(
        (&made["scans"][0]["in_box"], &made["scans"][0]["found"]),
        (&json!(false), &json!("by_fixity"))
    );
    std::fs::rename(away.join("holidays 1961.mkv"), away.join("x.mkv")).expect("moved");
    let found = call(["box", "check", text(&place)]).ok();
    assert_eq!(found["outside"][0]["found"], Value::Null, "it is said");
    let found = call(["box", "check", text(&place), "--media", text(&away)]).ok();
    assert_eq!(found["outside"][0]["found"], text(&away.join("x.mkv")));
    // One bit of it: it is no longer the scan.
    flip(&away.join("x.mkv"), 9_999);
    let found = call(["box", "check", text(&place), "--media", text(&away)]).ok();
    assert_eq!(found["outside"][0]["found"], Value::Null);
    std::fs::remove_dir_all(&place).expect("there");
    std::fs::rename(away.join("x.mkv"), &scan).expect("put back");
    let refused = box_of(&[]).refused();
    assert_eq!(refused["code"], "production.scan_changed");
    assert!(!place.exists() && !dir.path().join("box.part").exists());
}

#[test]
fn a_box_that_was_killed_is_begun_anew_and_leaves_nothing() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = copy_of_boat(dir.path());
    let place = dir.path().join("box");
    let half = dir.path().join("box.part");
    let given = ["box", text(&film), "--out", text(&place), "--without-mix"];
    let mut running = onestrand().args(given).spawn().expect("starts");
    while !half.is_dir() {
        assert!(
            running.try_wait().expect("asked").is_none(),
            "it ended before it began"
        );
        std::thread::sleep(std::time::Duration::from_millis(2));
    }
    running.kill().expect("killed");
    running.wait().expect("gone");
    assert!(!place.exists(), "nothing under its name");
    let plain = [
        "box",
        text(&film),
        "--out",
        text(&place),
        "--without-mix",
        "--without-sheets",
    ];
    call(plain.iter().chain(&["--without-scans"])).ok();
    assert!(place.is_dir() && !half.exists());
    let taken = call(plain).refused();
    assert_eq!(taken["code"], "archive.taken");
}
