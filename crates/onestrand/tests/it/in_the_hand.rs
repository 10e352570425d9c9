//! Film in the hand, a shelf read in one go, and sheets in rows, from the program.

use std::path::Path;

use serde_json::{Value, json};

use crate::program::{call, ffmpeg};

fn plain(path: &Path) -> &str {
    path.to_str().expect("plain")
}

/// A production with one roll on paper of 4,000 frames, in three takes.
pub(crate) fn paper_film(dir: &Path, gauge: &str, rolls: &[&str]) -> String {
    let film = plain(&dir.join("film")).to_owned();
    call(["new", &film, "--title", "Paper", "--gauge", gauge]).ok();
    let mut log = "roll,slate,take,in,out\n".to_owned();
    for roll in rolls {
        call(["roll", "paper", &film, roll, "--frames", "4000"]).ok();
        for (number, (first, thrown)) in [(0, 1000), (1000, 2500), (2500, 4000)]
            .into_iter()
            .enumerate()
        {
            log.push_str(&format!("{roll},{roll},{},{first},{thrown}\n", number + 1));
        }
    }
    let file = dir.join("log.csv");
    std::fs::write(&file, log).expect("written");
    call(["log", "import", &film, plain(&file)]).ok();
    film
}

fn rows(path: &str) -> Vec<Vec<String>> {
    let text = std::fs::read_to_string(path).expect("written");
    // Nothing in these sheets is quoted, so a comma parts two cells.
    assert!(!text.contains('"'), "{text}");
    let cells = |line: &str| line.split(',').map(str::to_owned).collect();
    text.lines().map(cells).collect()
}

#[test]
fn a_take_is_hung_by_its_slate_and_the_label_says_so() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = paper_film(dir.path(), "super8", &["R1"]);
    call(["pin", &film, "R1-T2", "--to", "14"]).ok();
    let swapped = call(["pin", &film, "R1.0", "--to", "14"]).ok();
    assert_eq!(
        swapped["done"],
        "hang R1·0 on pin 14; R1·1000 goes to pin 1"
    );
    assert_eq!(
        swapped["pins"],
        json!([
            {"pin": 1, "roll": "R1", "in": 1000},
            {"pin": 3, "roll": "R1", "in": 2500},
            {"pin": 14, "roll": "R1", "in": 0},
        ])
    );
    let out = plain(&dir.path().join("out")).to_owned();
    let printed = call([
        "sheets",
        &film,
        "--out",
        &out,
        "--csv",
        "--only",
        "trim-labels",
    ])
    .ok();
    let labels = rows(printed["files"][0]["path"].as_str().expect("a path"));
    assert_eq!(labels[3][..3], ["14", "R1-T1", "R1"]);
    call(["undo", &film]).ok();
    let next = call(["pin", &film, "R1·2500"]).ok();
    assert_eq!(
        next["pins"][1]["in"], 2500,
        "pin 2 is the next free one: {next}"
    );
    for wrong in ["R1-T9", "R2·0", "R1·7"] {
        call(["pin", &film, wrong]).refused();
    }
}

#[test]
fn every_sheet_comes_as_rows_of_a_roll_on_paper() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = paper_film(dir.path(), "16", &["R1"]);
    let out = plain(&dir.path().join("out")).to_owned();
    let printed = call(["sheets", &film, "--out", &out, "--csv", "--roll", "R1"]).ok();
    assert_eq!(printed["proved"], false);
    let files = printed["files"].as_array().expect("files");
    let names: Vec<&str> = files
        .iter()
        .map(|file| {
            let path = file["path"].as_str().expect("a path");
            assert_eq!(
                std::fs::metadata(path).expect("there").len(),
                file["bytes"].as_u64().expect("bytes")
            );
            Path::new(path)
                .file_name()
                .and_then(|n| n.to_str())
                .expect("a name")
        })
        .collect();
    assert_eq!(
        names,
        [
            "R1-log-sheet.csv",
            "R1-trim-labels.csv",
            "R1-inspection-sheet.csv",
            "R1-scan-sheet.csv",
            "R1-handling-ledger.csv"
        ]
    );
    let log = rows(files[0]["path"].as_str().expect("a path"));
    assert_eq!(log.len(), 4);
    // 40 frames a foot: the last take is [2500, 4000).
    assert_eq!(
        log[3][..9],
        [
            "R1", "R1", "3", "2500", "4000", "62+20", "99+39", "37+20", "1500"
        ]
    );
    assert_eq!(
        rows(files[3]["path"].as_str().expect("a path")).len(),
        1,
        "there is no scan"
    );
    // And on paper, with blank frames.
    call(["sheets", &film, "--out", &out]).ok();
}

#[test]
fn what_the_hand_finds_is_said_once_and_stays() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = paper_film(dir.path(), "regular8", &["R4a", "R4b"]);
    let inspect = |more: &[&str]| {
        let mut words = vec!["roll", "inspect", &film, "R4a"];
        words.extend(more);
        call(words)
    };
    inspect(&[
        "--accession",
        "1974/12",
        "--lies",
        "tails",
        "--vinegar",
        "slight",
    ])
    .ok();
    let found = inspect(&["--hundred", "377,6", "--across", "60.5", "--hub", "32"]).ok();
    let found = &found["inspection"];
    assert_eq!(
        (&found["accession"], &found["lies"]),
        (&json!("1974/12"), &json!("tails"))
    );
    assert_eq!(found["hundred"]["shrinkage"], "0.89");
    assert!(
        found["wound"]["frames"].as_u64().expect("frames") > 3000,
        "{found}"
    );
    assert_eq!(
        found["cautions"].as_array().map(Vec::len),
        Some(2),
        "shrunk and vinegar"
    );
    let before = call(["journal", &film]).ok()["journal"]
        .as_array()
        .map(Vec::len);
    inspect(&[]).ok();
    assert_eq!(
        call(["journal", &film]).ok()["journal"]
            .as_array()
            .map(Vec::len),
        before,
        "only shown"
    );
    inspect(&["--hundred", "400"]).refused();

    call([
        "roll", "join", &film, "R4a·720", "--kind", "tape", "--note", "lifts",
    ])
    .ok();
    let joins = call(["roll", "join", &film, "R4a·1440"]).ok();
    let kinds: Vec<&Value> = joins["joins"]
        .as_array()
        .expect("joins")
        .iter()
        .map(|j| &j["kind"])
        .collect();
    assert_eq!(kinds, [&json!("tape"), &json!("not-known")]);
    let joins = call(["roll", "join", &film, "R4a·720", "--gone"]).ok();
    assert_eq!(joins["joins"].as_array().map(Vec::len), Some(1));

    let halves = call(["roll", "halves", &film, "R4", "R4a", "R4b"]).ok();
    assert_eq!(halves["halves"][1]["half"]["side"], "B");
    let list = call(["roll", "list", &film]).ok();
    assert_eq!(list["rolls"][0]["half"]["other"], "R4b");
    let slit = call(["roll", "slit", &film, "R4"]).ok();
    assert_eq!(slit["halves"][0]["half"]["slit"], true);

    call([
        "reel",
        "put",
        &film,
        "club reel",
        "--feet",
        "50",
        "--wound",
        "R4b",
        "--wound",
        "R4a:0-2000",
        "--lies",
        "tails",
    ])
    .ok();
    let reels = call(["reel", "put", &film, "club reel", "--kept-in", "can 7"]).ok();
    let reel = &reels["reels"][0];
    assert_eq!(
        (&reel["kept_in"], &reel["lies"], &reel["feet"]),
        (&json!("can 7"), &json!("tails"), &json!(50))
    );
    // 6,000 frames of regular 8 are 75 ft.
    assert_eq!(
        (&reel["frames"], &reel["too_much"]),
        (&json!(6000), &json!(true))
    );
    call(["reel", "put", &film, "other", "--wound", "R4a:1999-2100"]).refused();
    call(["reel", "put", &film, "other", "--wound", "R4a:x"]).refused();
    let out = plain(&dir.path().join("out")).to_owned();
    let printed = call([
        "sheets",
        &film,
        "--out",
        &out,
        "--only",
        "inspection-sheet",
        "--roll",
        "R4a",
    ])
    .ok();
    assert!(printed["files"][0]["bytes"].as_u64().expect("bytes") > 1000);
    call(["reel", "remove", &film, "club reel"]).ok();
    assert_eq!(call(["reel", "list", &film]).ok(), json!({"reels": []}));
}

/// Five files of a shelf: two scans, sound alone, no film at all, and a folder.
#[test]
fn a_shelf_is_read_in_one_go_and_what_fails_does_not_keep_the_rest() {
    let dir = tempfile::tempdir().expect("a folder");
    let shelf = dir.path().join("shelf");
    std::fs::create_dir(&shelf).expect("a folder");
    ffmpeg(
        "-f lavfi -i testsrc=s=320x240:r=18:d=2 -c:v ffv1 R7.mkv",
        &shelf,
    );
    ffmpeg(
        "-f lavfi -i testsrc2=s=320x240:r=18:d=1 -c:v ffv1 old_family_reel_of_1961.mkv",
        &shelf,
    );
    ffmpeg("-f lavfi -i sine=d=1 sound.mp4", &shelf);
    std::fs::write(shelf.join("torn.mkv"), b"no film at all").expect("written");
    std::fs::write(shelf.join("notes.txt"), b"left alone").expect("written");
    let film = plain(&dir.path().join("film")).to_owned();
    call(["new", &film, "--title", "Shelf", "--gauge", "super8"]).ok();
    let read = call([
        "roll",
        "add",
        &film,
        "--measured",
        "36fr",
        "--each",
        plain(&shelf),
    ]);
    assert_eq!(read.exit, 1, "not all could be read: {}", read.words);
    let read = read.document;
    let told: Vec<[&Value; 3]> = read["rolls"]
        .as_array()
        .expect("rolls")
        .iter()
        .map(|row| [&row["roll"], &row["came_of_it"], &row["frames"]])
        .collect();
    assert_eq!(
        told,
        [
            [&json!("R7"), &json!("read"), &json!(36)],
            [&json!("R1"), &json!("read"), &json!(18)],
            [&json!("sound"), &json!("failed"), &json!(0)],
            [&json!("torn"), &json!("failed"), &json!(0)],
        ]
    );
    assert_eq!(
        [&read["read"], &read["failed"], &read["stopped"]],
        [&json!(2), &json!(2), &json!(0)]
    );
    assert_eq!(
        (&read["rolls"][0]["proved"], &read["rolls"][1]["difference"]),
        (&json!(true), &json!(-18))
    );
    for row in [2, 3] {
        for field in ["code", "message", "hint"] {
            let text = read["rolls"][row]["problem"][field]
                .as_str()
                .unwrap_or_default();
            assert!(!text.is_empty(), "no {field}: {read}");
        }
    }
    let jobs = call(["jobs", &film]).ok();
    let mut states: Vec<&str> = jobs["jobs"]
        .as_array()
        .expect("jobs")
        .iter()
        .filter_map(|j| j["state"].as_str())
        .collect();
    states.sort_unstable();
    assert_eq!(states, ["done", "done", "failed", "failed"]);

    // A second night reads only what is new.
    std::fs::remove_file(shelf.join("torn.mkv")).expect("gone");
    std::fs::remove_file(shelf.join("sound.mp4")).expect("gone");
    ffmpeg(
        "-f lavfi -i testsrc=s=320x240:r=18:d=1 -c:v ffv1 x.mkv",
        &shelf,
    );
    let again = call(["roll", "add", &film, "--each", plain(&shelf)]).ok();
    assert_eq!(
        [&again["read"], &again["read_before"]],
        [&json!(1), &json!(2)]
    );
    assert_eq!(
        call(["roll", "list", &film]).ok()["rolls"]
            .as_array()
            .map(Vec::len),
        Some(3)
    );
    // Both a name and a shelf are wrong use.
    assert_eq!(
        call(["roll", "add", &film, "R9", "--each", plain(&shelf)]).exit,
        2
    );
    assert_eq!(call(["roll", "add", &film, "R9"]).exit, 2);
}

#[test]
fn the_ledger_says_how_often_an_original_was_run() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = paper_film(dir.path(), "super8", &["R1", "R2"]);
    let run = |on: &str, more: &[&str]| {
        let words = ["roll", "run", &film, "R1", "--on", on, "--through"];
        call(words.iter().chain(more.iter()))
    };
    let kept = run(
        "2026-03-03",
        &["projector", "--by", "Ida", "--note", "jumped"],
    )
    .ok();
    assert_eq!(
        kept["runs"],
        json!([{"number": 1, "on": "2026-03-03", "through": "projector", "times": 1, "by": "Ida", "note": "jumped"}])
    );
    assert!(
        kept["caution"]
            .as_str()
            .is_some_and(|it| it.contains("wears"))
    );
    run("2026-02-28", &["scanner"]).ok();
    assert_eq!(
        run("2026-13-01", &["viewer"]).refused()["code"],
        "production.unfit"
    );
    let all = call(["roll", "runs", &film]).ok();
    let times = |found: &Value| {
        let rolls = found["rolls"].as_array().expect("rolls").clone();
        rolls
            .iter()
            .map(|roll| (roll["roll"].clone(), roll["times"].clone()))
            .collect::<Vec<_>>()
    };
    assert_eq!(
        times(&all),
        [(json!("R1"), json!(2)), (json!("R2"), json!(0))]
    );
    let left = call(["roll", "runs", &film, "R1", "--strike", "1"]).ok();
    assert_eq!(left["rolls"][0]["runs"][0]["through"], "scanner");
    assert_eq!(times(&left), [(json!("R1"), json!(1))]);
    call(["undo", &film]).ok();
    assert_eq!(
        times(&call(["roll", "runs", &film, "R1"]).ok()),
        [(json!("R1"), json!(2))]
    );
    call(["roll", "runs", &film, "R9"]).refused();
}
