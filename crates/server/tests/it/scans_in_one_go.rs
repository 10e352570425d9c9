//! A shelf of scans read in one go: what came of it stays until it is put away.

use std::path::{Path, PathBuf};

use serde_json::{Value, json};

use crate::listener::Listener;
use crate::served::{Bench, film};

fn media() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/media/video")
}

fn scan(file: &str, roll: &str) -> Value {
    let path = media().join(file);
    json!({ "file": path.canonicalize().unwrap_or(path), "roll": roll })
}

/// What came of the shelf; nothing when there is none.
fn told(bench: &Bench) -> Value {
    bench.window.get(&film("shelf")).ok()["shelf"].clone()
}

/// `R5 read, R6 failed`.
fn came_of_it(shelf: &Value) -> Vec<String> {
    let rows = shelf["rolls"].as_array().expect("rows").iter();
    rows.map(|row| {
        let words = [&row["roll"], &row["came_of_it"]];
        words.map(|w| w.as_str().expect("a word")).join(" ")
    })
    .collect()
}

#[test]
fn a_shelf_is_summed_up_with_breaks_and_signs_also_after_a_new_start() {
    let mut bench = Bench::with(|settings| settings.media = vec![media()]);
    assert_eq!(told(&bench), Value::Null);
    let mut listener = Listener::of(&bench.window);
    let form = json!({
        "scans": [
            scan("camera_stops_b.mp4", "R5"),
            scan("cadence.csv", "R6"),
            scan("not_there.mp4", "R7"),
            scan("camera_roll_b.mp4", "R5"),
            scan("camera_roll_b.mp4", "R8"),
        ],
        "base": "triacetate",
        "fit": "project",
    });
    let jobs = bench.window.post(&film("shelf"), &form).ok();
    let jobs = jobs.as_array().expect("jobs").clone();
    // What is refused at once has no work.
    assert_eq!(jobs.len(), 3, "{jobs:?}");
    let now = told(&bench);
    assert_eq!(
        (
            now["rolls"].as_array().map(Vec::len),
            &now["rolls"][3]["problem"]["code"]
        ),
        (Some(5), &json!("production.roll_there"))
    );
    let mut ended = 0;
    while ended < 3 {
        ended += usize::from(listener.next_of("job")["job"]["state"] != "running");
    }
    let shelf = told(&bench);
    assert_eq!(
        came_of_it(&shelf),
        ["R5 read", "R6 failed", "R7 failed", "R5 failed", "R8 read"]
    );
    let counts = ["read", "failed", "under_way"].map(|count| shelf[count].clone());
    assert_eq!(counts, [json!(2), json!(3), json!(0)]);
    let row = &shelf["rolls"][0];
    assert_eq!(
        (&row["frames"], &row["problem"]),
        (&json!(266), &Value::Null)
    );
    let takes = bench.window.get(&film("rolls/R5")).ok()["takes"].clone();
    let takes = takes.as_array().expect("takes").len();
    assert_eq!(row["takes"], takes);
    assert_eq!(
        row["breaks"],
        takes - 1,
        "takes of a clip without fog touch"
    );
    assert!(row["signs"].is_object(), "{row}");
    for failed in &shelf["rolls"].as_array().expect("rows")[1..4] {
        let said = &failed["problem"];
        assert!(said["message"].is_string() && said["hint"] != "", "{said}");
    }

    bench.start_again();
    assert_eq!(told(&bench), shelf);
    // Undo knows nothing of it, and a roll that is taken out is told so.
    let remove = json!({ "film_change": "remove_roll", "roll": "R8" });
    let revision = bench.window.get(&film("")).ok()["revision"].as_u64();
    bench.change("gone", revision.expect("one"), &remove).ok();
    let now = told(&bench);
    assert_eq!(came_of_it(&now)[4], "R8 taken_out");

    let away = bench.window.request("DELETE", &film("shelf")).send().ok();
    assert_eq!(away, json!({ "shelf": null }));
    bench.start_again();
    assert_eq!(told(&bench), Value::Null);
}

#[test]
fn a_shelf_with_nothing_on_it_or_of_no_known_base_is_refused_whole() {
    let bench = Bench::with(|settings| settings.media = vec![media()]);
    let none = json!({ "scans": [], "base": "triacetate", "fit": "project" });
    bench.window.post(&film("shelf"), &none).refused(400);
    let wood = json!({
        "scans": [scan("camera_stops_b.mp4", "R5")],
        "base": "wood",
        "fit": "project",
    });
    let code = bench.window.post(&film("shelf"), &wood).refused(422);
    assert_eq!(code, "production.unfit");
    assert_eq!(bench.window.get("/api/jobs").ok(), json!([]));
    assert_eq!(told(&bench), Value::Null);
}
