//! A version out and in as OpenTimelineIO, and the sheets of a screening.

use std::path::Path;
use std::process::Command;

use serde_json::{Value, json};

use crate::program::{boat, call};

const V1: &str = "position,roll,in,out,slate,join,note\n\
    1,leader,0,36,,,count in\n\
    2,R1,402,546,1-T2,cement,the landing\n\
    3,R1,1068,1176,2-T2,,\n\
    4,card,0,126,,,Where the river bends\n";
const V2: &str = "position,roll,in,out,slate,join,note\n\
    1,R1,402,540,1-T2,cement,the landing\n\
    2,R1,2000,2018,2B-T1,,her feet\n\
    3,R1,1068,1176,2-T2,,\n\
    4,card,0,126,,,Where the river bends\n";

fn film(dir: &Path, speed: &str) -> String {
    let film = dir.join("film").to_str().expect("plain").to_owned();
    call([
        "new",
        &film,
        "--title",
        "The Ten-Past Boat",
        "--speed",
        speed,
    ])
    .ok();
    call(["roll", "paper", &film, "R1", "--frames", "3600"]).ok();
    for (name, text) in [("v1", V1), ("v2", V2)] {
        let sheet = dir.join(format!("{name}.csv"));
        std::fs::write(&sheet, text).expect("written");
        let sheet = sheet.to_str().expect("plain");
        call(["cut", "import", &film, sheet, "--name", name]).ok();
    }
    film
}

#[test]
fn a_version_goes_out_and_comes_back_by_the_program() {
    for speed in ["18", "50/3"] {
        let dir = tempfile::tempdir().expect("a folder");
        let film = film(dir.path(), speed);
        let file = dir.path().join("v1.otio");
        let file = file.to_str().expect("plain");
        let out = call(["exchange", &film, "--cut", "v1", "--otio", file]).ok();
        assert_eq!(
            (
                &out["pieces"],
                &out["frames"],
                &out["speed"],
                &out["by_name"]
            ),
            (
                &json!(4),
                &json!(36 + 144 + 108 + 126),
                &json!(speed),
                &json!(["R1"])
            )
        );
        let back = call(["cut", "import", &film, file, "--name", "back"]).ok();
        assert_eq!(
            (&back["frames"], &back["remarks"]),
            (&out["frames"], &json!([]))
        );
        let sheet = |cut: &str| call(["cut", "export", &film, "--cut", cut]).ok();
        assert_eq!(sheet("back"), sheet("v1"));

        let scan = dir.path().join("R1.mkv");
        std::fs::write(&scan, "the only copy").expect("written");
        let over = scan.to_str().expect("plain");
        let refused = call(["exchange", &film, "--cut", "v1", "--otio", over]).refused();
        assert_eq!(refused["code"], "production.unfit");
        assert_eq!(std::fs::read(&scan).expect("there"), b"the only copy");
        let taken = call(["cut", "import", &film, file, "--name", "v1"]).refused();
        assert_eq!(taken["code"], "production.unfit");
    }
}

/// The example's scans show the film frame for frame at its own speed, so another
/// program is led to their files.
#[test]
fn the_example_goes_out_by_its_scans_with_every_frame_in_its_place() {
    let dir = tempfile::tempdir().expect("a folder");
    let file = dir.path().join("v1.otio");
    let boat = boat();
    let film = boat.to_str().expect("plain");
    let path = file.to_str().expect("plain");
    let out = call(["exchange", film, "--cut", "v1", "--otio", path]).ok();
    assert_eq!(
        (&out["by_scan"], &out["by_name"], &out["frames"]),
        (&json!(["R1", "R2", "R3"]), &json!([]), &json!(2724))
    );
    let text = std::fs::read_to_string(&file).expect("written");
    let whole: Value = serde_json::from_str(&text).expect("JSON");
    let clips = whole["tracks"]["children"][0]["children"].clone();
    // The rope comes off, R2·547 to 606: the seventh piece of the first cut.
    let rope = &clips[6];
    let media = &rope["media_references"]["DEFAULT_MEDIA"];
    assert_eq!(media["target_url"], "R2.mkv");
    let range = &rope["source_range"];
    assert_eq!(
        (
            &range["start_time"]["value"],
            &range["duration"]["value"],
            &range["duration"]["rate"]
        ),
        (&json!(547.0), &json!(60.0), &json!(18.0))
    );
    assert_eq!(clips.as_array().map(Vec::len), Some(23));
}

#[test]
fn a_cut_of_another_film_is_refused_with_every_reason() {
    let dir = tempfile::tempdir().expect("a folder");
    let here = film(dir.path(), "18");
    let file = dir.path().join("v1.otio");
    let file = file.to_str().expect("plain");
    call(["exchange", &here, "--cut", "v1", "--otio", file]).ok();
    let there = dir.path().join("there");
    std::fs::create_dir(&there).expect("a folder");
    let there = film(&there, "24");
    let refused = call(["cut", "import", &there, file, "--name", "v3"]).refused();
    assert_eq!(refused["code"], "production.import");
    let problems = refused["details"]["problems"]
        .as_array()
        .expect("problems")
        .clone();
    let said = |words: &str| {
        let of = |p: &Value| p["message"].as_str().is_some_and(|m| m.contains(words));
        problems
            .iter()
            .any(|p| of(p) && p["line"].as_u64().is_some_and(|line| line > 1))
    };
    assert!(said("this one runs at 24"), "{problems:#?}");
    let cuts = call(["cut", "list", &there]).ok();
    assert_eq!(cuts["cuts"].as_array().map(Vec::len), Some(2));
}

#[test]
fn a_roll_of_numbered_pictures_goes_out_by_them_and_comes_back() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = film(dir.path(), "18");
    let pictures = dir.path().join("R2 pictures");
    std::fs::create_dir(&pictures).expect("a folder");
    let made = Command::new("ffmpeg")
        .current_dir(&pictures)
        .args("-v error -f lavfi -i testsrc2=s=64x48:d=2:r=12 -start_number 101".split(' '))
        .arg("q%04d.png")
        .status();
    assert!(made.expect("ffmpeg starts").success());
    let scan = pictures.to_str().expect("plain");
    call(["roll", "add", &film, "R2", scan]).ok();
    let sheet = dir.path().join("v3.csv");
    std::fs::write(&sheet, "position,roll,in,out\n1,R2,3,9\n").expect("written");
    let sheet = sheet.to_str().expect("plain");
    call(["cut", "import", &film, sheet, "--name", "v3"]).ok();
    let file = dir.path().join("v3.otio");
    let path = file.to_str().expect("plain");
    let out = call(["exchange", &film, "--cut", "v3", "--otio", path]).ok();
    assert_eq!(out["by_scan"], json!(["R2"]));
    let text = std::fs::read_to_string(&file).expect("written");
    let mut cut: Value = serde_json::from_str(&text).expect("JSON");
    let media = |cut: &mut Value| {
        cut["tracks"]["children"][0]["children"][0]["media_references"]["DEFAULT_MEDIA"].take()
    };
    let found = media(&mut cut);
    let named = ["target_url_base", "name_prefix", "name_suffix"].map(|field| &found[field]);
    assert_eq!(named, ["R2%20pictures/", "q", ".png"]);
    let counted = ["start_frame", "frame_step", "frame_zero_padding"].map(|field| &found[field]);
    assert_eq!(counted, [101, 1, 4]);
    assert_eq!(found["rate"], json!(18.0));
    let back = call(["cut", "import", &film, path, "--name", "back"]).ok();
    assert_eq!((&back["frames"], &back["remarks"]), (&json!(6), &json!([])));
    let sheets = ["v3", "back"].map(|name| call(["cut", "export", &film, "--cut", name]).ok());
    assert_eq!(sheets[0]["csv"], sheets[1]["csv"]);
}

#[test]
fn the_lined_sheet_and_the_change_list_are_printed_when_they_are_named() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = film(dir.path(), "18");
    let out = dir.path().join("paper");
    let out = out.to_str().expect("plain");
    let printed = |more: &[&str]| {
        let words = ["sheets", &film, "--out", out];
        let files = call(words.iter().chain(more)).ok()["files"].clone();
        let path = files[0]["path"].as_str().expect("a path").to_owned();
        assert_eq!(files.as_array().map(Vec::len), Some(1));
        std::fs::read(path).expect("printed")
    };
    let lined = printed(&["--cut", "v1", "--only", "lined-sheet"]);
    assert!(lined.starts_with(b"%PDF"));
    let changes = printed(&["--cut", "v2", "--from", "v1", "--only", "change-list"]);
    assert!(changes.starts_with(b"%PDF"));
    let rows = printed(&["--cut", "v1", "--only", "lined-sheet", "--csv"]);
    let rows = String::from_utf8(rows).expect("text");
    // 36 + 144 frames come before the third piece: 2 ft 36 fr, 10 seconds.
    assert!(
        rows.contains("\r\n3,R1,1068,1176,2-T2,2+36,180,10.0,108,,,,\r\n"),
        "{rows}"
    );
    let rows = printed(&[
        "--cut",
        "v2",
        "--from",
        "v1",
        "--only",
        "change-list",
        "--csv",
    ]);
    let rows = String::from_utf8(rows).expect("text");
    let acts: Vec<Vec<&str>> = rows
        .lines()
        .skip(1)
        .map(|row| row.split(',').collect())
        .collect();
    let wanted = [
        ["0+0", "lift", "36", "leader", "", "-36"],
        ["2+30", "trim", "6", "R1", "540", "-42"],
        // It comes in behind what stays of the landing: 36 + 138 = 174.
        ["2+30", "insert", "18", "R1", "2000", "-24"],
    ];
    let found: Vec<[&str; 6]> = acts
        .iter()
        .map(|r| [r[1], r[3], r[4], r[5], r[6], r[11]])
        .collect();
    assert_eq!(found, wanted);
    let unnamed = call([
        "sheets",
        &film,
        "--out",
        out,
        "--cut",
        "v2",
        "--only",
        "change-list",
    ])
    .refused();
    assert_eq!(unnamed["code"], "production.unfit");
    // Without a name it is what the bench needs, as before.
    let all = call(["sheets", &film, "--out", out, "--cut", "v1"]).ok();
    let names: Vec<&str> = all["files"]
        .as_array()
        .expect("files")
        .iter()
        .filter_map(|f| f["sheet"].as_str())
        .collect();
    assert_eq!(names, ["cutting-sheet", "pull-list"]);
}
