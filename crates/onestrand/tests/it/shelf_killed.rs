//! Killed (signal 9) in the middle of a shelf of scans: what was read stays, what was
//! not is read by itself when the film is opened next, and the summary tells of all.

use std::process::Stdio;
use std::time::{Duration, Instant};

use serde_json::{Value, json};

use crate::page_killed::{Bench, Window, free_port};
use crate::program::{call, ffmpeg, onestrand};

const SCANS: [(&str, u64); 3] = [("R1", 144), ("R2", 216), ("R3", 180)];

/// Three scans with grain, so that no two pictures are taken for one.
fn lay_scans(bench: &Bench) {
    for (name, frames) in SCANS {
        let made = format!(
            "-f lavfi -i testsrc2=s=480x360:r=18,noise=alls=20:allf=t -frames:v {frames} -c:v libx264 -preset ultrafast -g 30 {name}.mkv"
        );
        ffmpeg(&made, &bench.path("media"));
    }
}

fn text(bench: &Bench, name: &str) -> String {
    bench.path(name).to_str().expect("plain").to_owned()
}

/// Every roll with its frames, each with one workprint, and nothing more.
fn all_is_there(dir: &str) {
    let rolls = call(["roll", "list", dir]).ok()["rolls"].clone();
    let found: Vec<(Value, Value, Value)> = rolls
        .as_array()
        .expect("rolls")
        .iter()
        .map(|r| {
            (
                r["roll"].clone(),
                r["frames"].clone(),
                r["workprint"].clone(),
            )
        })
        .collect();
    let wanted: Vec<(Value, Value, Value)> = SCANS
        .iter()
        .map(|(name, frames)| (json!(name), json!(frames), json!(true)))
        .collect();
    assert_eq!(found, wanted);
    let prints = std::fs::read_dir(std::path::Path::new(dir).join("workprints"));
    let pictures = prints
        .expect("workprints")
        .filter(|e| {
            let path = e.as_ref().expect("an entry").path();
            path.extension().is_some_and(|x| x == "mjpeg")
        })
        .count();
    assert_eq!(pictures, SCANS.len());
}

fn states(dir: &str) -> Vec<String> {
    let jobs = call(["jobs", dir]).ok()["jobs"].clone();
    let jobs = jobs.as_array().expect("jobs").iter();
    jobs.map(|j| j["state"].as_str().expect("a state").to_owned())
        .collect()
}

#[test]
fn a_shelf_of_the_command_line_killed_at_ten_moments_is_gone_through_all_the_same() {
    let bench = Bench::new();
    lay_scans(&bench);
    let shelf = text(&bench, "media");
    let fresh = |name: &str| {
        let dir = text(&bench, name);
        call(["new", &dir, "--title", "Killed", "--gauge", "super8"]).ok();
        dir
    };
    let whole = fresh("whole");
    let begun = Instant::now();
    call(["roll", "add", &whole, "--each", &shelf]).ok();
    let span = begun.elapsed();
    all_is_there(&whole);
    let mut in_the_middle = 0;
    for moment in 1..=10 {
        let dir = fresh(&format!("film-{moment}"));
        let mut child = onestrand()
            .args(["--json", "roll", "add", &dir, "--each", &shelf])
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .expect("the program starts");
        // Waiting for a moment to pass is the very thing tested here.
        std::thread::sleep(span * moment / 11);
        let ended_before = child.try_wait().expect("known").is_some();
        child.kill().expect("killed");
        child.wait().expect("ended");
        // The next command, whatever it asks, carries everything on.
        let states = states(&dir);
        assert!(states.iter().all(|state| state == "done"), "{states:?}");
        in_the_middle += usize::from(!ended_before && states.len() == SCANS.len());
        // Asked for once more, nothing is read twice; what the kill left unwritten is.
        let again = call(["roll", "add", &dir, "--each", &shelf]).ok();
        assert_eq!(again["read_before"], states.len(), "{again}");
        all_is_there(&dir);
    }
    assert!(
        in_the_middle >= 3,
        "the moments fall into it: {in_the_middle}"
    );
}

/// Asks until nothing of the shelf is under way, or some have been read.
fn wait_until(window: &Window, enough: impl Fn(&Value) -> bool) -> Value {
    let patience = Instant::now() + Duration::from_secs(120);
    loop {
        let shelf = window.document("GET", "/api/films/film/shelf", "");
        let shelf = shelf.expect("an answer")["shelf"].clone();
        if enough(&shelf) {
            return shelf;
        }
        assert!(Instant::now() < patience, "{shelf}");
        std::thread::sleep(Duration::from_millis(10));
    }
}

#[test]
fn a_shelf_of_the_page_killed_between_two_rolls_is_gone_through_when_it_is_opened() {
    let bench = Bench::new();
    lay_scans(&bench);
    let mut serving = bench.serve(free_port(31_000..32_000));
    let window = Window::enter(&serving);
    let scans: Vec<Value> = SCANS
        .iter()
        .map(|(name, _)| json!({ "file": bench.path(&format!("media/{name}.mkv")), "roll": name }))
        .collect();
    let body = json!({ "scans": scans, "base": "triacetate", "fit": "project" }).to_string();
    let jobs = window.document("POST", "/api/films/film/shelf", &body);
    assert_eq!(jobs.expect("begun").as_array().map(Vec::len), Some(3));
    let before = wait_until(&window, |shelf| shelf["read"].as_u64() >= Some(1));
    assert!(before["under_way"].as_u64() >= Some(1), "{before}");
    serving.child.kill().expect("killed");
    serving.child.wait().expect("ended");

    let serving = bench.serve(window.port);
    let after = wait_until(&window, |shelf| shelf["under_way"] == 0);
    assert_eq!((&after["read"], &after["failed"]), (&json!(3), &json!(0)));
    for (row, (name, frames)) in after["rolls"].as_array().expect("rows").iter().zip(SCANS) {
        assert_eq!(
            (&row["roll"], &row["frames"]),
            (&json!(name), &json!(frames))
        );
    }
    drop(serving);
    all_is_there(&text(&bench, "film"));
}
