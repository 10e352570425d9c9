//! Story 1 by command: the shooting script, and the film it takes.

use std::path::Path;

use serde_json::json;

use crate::program::{call, onestrand};

fn film(dir: &Path) -> String {
    let film = dir.join("film").to_str().expect("plain").to_owned();
    call([
        "new",
        &film,
        "--title",
        "The Ten-Past Boat",
        "--speed",
        "18",
    ])
    .ok();
    film
}

fn file(dir: &Path, name: &str, text: &str) -> String {
    let path = dir.join(name);
    std::fs::write(&path, text).expect("written");
    path.to_str().expect("plain").to_owned()
}

#[test]
fn the_budget_of_the_boat() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = film(dir.path());
    let sheet = file(dir.path(), "setups.csv", onestrand_example::SETUPS);
    let done = call(["script", "import", &film, &sheet]).ok();
    assert_eq!(
        (&done["kind"], &done["setups"]),
        (&json!("table"), &json!(19))
    );
    // A screenplay that comes afterwards gives the words; the setups stay.
    let text = file(dir.path(), "boat.fountain", onestrand_example::SCREENPLAY);
    let done = call(["script", "import", &film, &text]).ok();
    assert_eq!(
        (&done["actions"], &done["setups"]),
        (&json!(15), &json!(19))
    );
    let plan = call(["plan", &film, "--load", "3552", "--runup", "24"]).ok();
    assert_eq!(plan["takes"], 33);
    assert_eq!(plan["frames"], 10_593);
    assert_eq!(plan["rolls"], 3);
    assert_eq!(plan["moved"], 3);
    let order = json!({"rolls": 4, "frames": [3516, 3384, 3384, 309]});
    assert_eq!(plan["script_order"], order);
    let by_roll = plan["by_roll"].as_array().expect("rolls");
    let frames = by_roll.iter().filter_map(|roll| roll["frames"].as_u64());
    assert_eq!(frames.sum::<u64>(), 10_593);
    let coverage = &plan["coverage"];
    for (field, value) in [
        ("actions", json!(15)),
        ("covered", json!(15)),
        ("single_take", json!(["5a", "5c"])),
        ("fewest_setups", json!(9)),
    ] {
        assert_eq!(coverage[field], value, "{field}");
    }
    assert_eq!(coverage["single_setup"].as_array().map(Vec::len), Some(9));
    assert_eq!(coverage["example"].as_array().map(Vec::len), Some(9));
    let shown = call(["script", "show", &film]).ok();
    assert_eq!(shown["scenes"][2]["scene"]["actions"][1]["name"], "3b");
    let out = call(["script", "export", &film]).ok();
    assert_eq!(out["csv"], onestrand_example::SETUPS);
}

#[test]
fn what_cannot_be_planned_or_read_says_why() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = film(dir.path());
    let refused = call(["plan", &film]).refused();
    assert_eq!(refused["code"], "plan.problems");
    let bad = file(
        dir.path(),
        "bad.csv",
        "setup,actions,seconds\n2,,0\n2,2a,5\n",
    );
    let refused = call(["script", "import", &film, &bad]).refused();
    assert_eq!(refused["code"], "production.import");
    let problems = refused["details"]["problems"].as_array().expect("problems");
    let lines: Vec<_> = problems.iter().filter_map(|p| p["line"].as_u64()).collect();
    assert_eq!(lines, [2, 2, 3]);
    let sheet = file(dir.path(), "setups.csv", onestrand_example::SETUPS);
    call(["script", "import", &film, &sheet]).ok();
    // 3 runs 36 s: 648 frames and 24 of run-up.
    let refused = call(["plan", &film, "--load", "671"]).refused();
    let problems = refused["details"]["problems"].as_array().expect("problems");
    assert_eq!(problems.len(), 1);
    assert_eq!(problems[0]["place"], "setup 3");
    let output = onestrand().args(["plan", &film, "--load", "3552"]).output();
    let output = output.expect("it starts");
    let words = String::from_utf8_lossy(&output.stdout);
    assert!(words.contains("proved"), "{words}");
}

/// The log of the example film, as its makers would write it down.
fn log() -> String {
    let mut csv = String::from("roll,slate,take,in,out,use\n");
    for take in onestrand_example::takes() {
        let chosen = match take.chosen.word() {
            "circled" => "yes",
            _ => "maybe",
        };
        csv.push_str(&format!(
            "R{},{},{},{},{},{chosen}\n",
            take.roll, take.slate, take.take, take.span_in, take.span_out
        ));
    }
    csv
}

/// The page's stories and tests show the example's script as the program gives it. With
/// `ONESTRAND_WRITE_BOAT` they are written anew.
#[test]
fn the_page_shows_what_the_program_says_of_the_boat() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = film(dir.path());
    for roll in ["R1", "R2", "R3"] {
        call(["roll", "paper", &film, roll, "--frames", "3600"]).ok();
    }
    let rows = file(dir.path(), "log.csv", &log());
    call(["log", "import", &film, &rows]).ok();
    for (name, text) in [
        ("boat.fountain", onestrand_example::SCREENPLAY),
        ("setups.csv", onestrand_example::SETUPS),
        ("wild_sounds.csv", onestrand_example::WILD_SOUNDS),
    ] {
        let path = file(dir.path(), name, text);
        call(["script", "import", &film, &path]).ok();
    }
    let room = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../web/src/rooms/script");
    for (name, said) in [
        ("boat_script.json", call(["script", "show", &film]).ok()),
        ("boat_plan.json", call(["plan", &film]).ok()),
    ] {
        let path = room.join(name);
        if std::env::var_os("ONESTRAND_WRITE_BOAT").is_some() {
            let text = serde_json::to_string_pretty(&said).expect("text");
            std::fs::write(&path, text + "\n").expect("written");
        }
        let kept = std::fs::read_to_string(&path).expect("the page's own");
        let kept: serde_json::Value = serde_json::from_str(&kept).expect("a document");
        assert_eq!(
            kept, said,
            "{name}: write it anew with ONESTRAND_WRITE_BOAT=1"
        );
    }
}

#[test]
fn a_film_cut_in_the_camera_is_wound_back_for_its_dissolves() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = film(dir.path());
    let rows = "setup,actions,seconds,dissolve\n1,1a,10,48\n2,2a,15,\n3,3a,5,\n";
    let sheet = file(dir.path(), "setups.csv", rows);
    call(["script", "import", &film, &sheet]).ok();
    // 180 + 270 - 48 = 402 frames hang together: a roll of 401 cannot hold them.
    let refused = call(["plan", &film, "--load", "401", "--in-camera"]).refused();
    assert_eq!(refused["code"], "plan.problems");
    let refused = call(["plan", &film, "--in-camera", "--wind-back", "47"]).refused();
    let problems = refused["details"]["problems"].as_array().expect("problems");
    assert_eq!(problems.len(), 1);
    let plan = call(["plan", &film, "--load", "420", "--in-camera"]).ok();
    let said = &plan["in_camera"];
    assert_eq!(
        (&said["frames"], &said["rolls"]),
        (&json!(492), &json!([402, 90]))
    );
    let steps = said["steps"].as_array().expect("steps");
    let steps: Vec<_> = steps
        .iter()
        .map(|s| {
            (
                s["act"].as_str().unwrap_or(""),
                s["roll"].clone(),
                s["from"].clone(),
                s["to"].clone(),
            )
        })
        .collect();
    let step = |act, roll: u32, from: u32, to: u32| (act, json!(roll), json!(from), json!(to));
    assert_eq!(
        steps,
        [
            step("load", 1, 0, 0),
            step("expose", 1, 0, 180),
            step("wind_back", 1, 180, 132),
            step("expose", 1, 132, 402),
            step("load", 2, 0, 0),
            step("expose", 2, 0, 90),
        ]
    );
    // Without the flag nothing is said of it.
    assert!(call(["plan", &film]).ok()["in_camera"].is_null());
}
