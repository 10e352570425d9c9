//! Scans brought in while the page goes on working.

use std::path::{Path, PathBuf};

use onestrand_production::{AddRoll, Meta, Production, RollWork, new_production};
use serde_json::{Value, json};

use crate::listener::Listener;
use crate::served::{Answer, Bench, film};

fn media() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/media/video")
}

/// A simulated camera roll of 686 pictures in which five film frames stand twice
/// (the pictures at 12, 19, 29, 48 and 55 are those before them to a thirtieth of a
/// level), and one of 270 with stops in which four do.
fn clip(name: &str) -> String {
    let path = media()
        .join(name)
        .canonicalize()
        .expect("part of the repository");
    path.to_str().expect("plain").to_owned()
}

fn bench() -> Bench {
    Bench::with(|settings| settings.media = vec![media()])
}

fn bring_in(bench: &Bench, roll: &str, file: &str) -> Answer {
    let form = json!({ "roll": roll, "files": [file], "base": "triacetate" });
    bench.window.post(&film("rolls"), &form)
}

fn job(bench: &Bench, number: &Value) -> Value {
    let jobs = bench.window.get("/api/jobs").ok();
    let mut jobs = jobs.as_array().expect("jobs").iter();
    jobs.find(|j| j["job"] == *number).expect("the job").clone()
}

/// Hears until a job has ended; gives how, and all that was heard.
fn end_of(listener: &mut Listener, number: &Value) -> (Value, Vec<Value>) {
    let mut told = Vec::new();
    loop {
        let event = listener.next();
        told.push(event.clone());
        let job = &event["job"];
        if job["job"] == *number && job["state"] != "running" {
            return (job.clone(), told);
        }
    }
}

fn workprints(bench: &Bench) -> Vec<String> {
    let Ok(entries) = std::fs::read_dir(bench.film_dir().join("workprints")) else {
        return Vec::new();
    };
    let name = |e: std::io::Result<std::fs::DirEntry>| {
        e.expect("an entry")
            .file_name()
            .to_string_lossy()
            .into_owned()
    };
    let mut names: Vec<String> = entries
        .map(name)
        .filter(|n| !n.starts_with("index.db"))
        .collect();
    names.sort();
    names
}

#[test]
fn a_film_is_cut_while_a_scan_is_read() {
    let bench = bench();
    let mut listener = Listener::of(&bench.window);
    let number = bring_in(&bench, "R9", &clip("camera_roll_b.mp4")).ok()["job"].clone();
    let mut kept = 0;
    // Answered while the reading runs: it runs before and after each of these.
    loop {
        let seen = bench.window.get(&film("")).ok()["revision"]
            .as_u64()
            .expect("one");
        let piece = json!({ "kind": "leader", "frames": 5, "note": kept.to_string() });
        let change = json!({ "change": "insert", "at": kept, "piece": piece });
        let change = json!({ "film_change": "change_cut", "cut": "v1", "cut_change": change });
        bench.change(&format!("while {kept}"), seen, &change).ok();
        if job(&bench, &number)["state"] != "running" {
            break;
        }
        kept += 1;
    }
    assert!(kept >= 3, "{kept} changes were kept while it was read");

    let (job, told) = end_of(&mut listener, &number);
    assert_eq!(job["state"], "done", "{job}");
    let jobs = || told.iter().map(|e| &e["job"]);
    let done: Vec<u64> = jobs().filter_map(|j| j["done"].as_u64()).collect();
    assert!(done.iter().any(|d| (1..=686).contains(d)), "{done:?}");
    assert!(jobs().any(|j| j["total"] == 686), "{done:?}");
    let event = told.iter().find(|e| e["words"] == "bring in R9");
    let event = event.expect("the change is told before the end of the work");
    let parts = json!([{ "part": "roll", "roll": "R9" }, { "part": "takes", "roll": "R9" }]);
    assert_eq!(event["parts"], parts);

    let log = bench.window.get(&film("rolls/R9")).ok();
    assert_eq!(
        (&log["roll"]["frames"], &log["roll"]["paper"]),
        (&json!(681), &json!(false))
    );
    assert!(log["takes"].as_array().expect("takes").len() >= 10);
    let cut = bench.window.get(&film("cuts/v1")).ok();
    let pieces = cut["pieces"].as_array().expect("pieces");
    let notes: Vec<String> = pieces
        .iter()
        .map(|p| p["note"].as_str().expect("a note").to_owned())
        .collect();
    let all: Vec<String> = (0..=kept).map(|n| n.to_string()).collect();
    assert_eq!(notes, all);
}

#[test]
fn a_reading_that_is_stopped_leaves_nothing() {
    let bench = bench();
    let before = bench.window.get(&film("")).ok();
    let mut listener = Listener::of(&bench.window);
    let number = bring_in(&bench, "R9", &clip("camera_roll_b.mp4")).ok()["job"].clone();
    // In the middle: some frames are done, and pictures of them can be seen.
    loop {
        let job = listener.next_of("job")["job"].clone();
        assert_eq!(job["state"], "running", "{job}");
        if job["done"].as_u64() > Some(0) {
            break;
        }
    }
    let stop = format!("/api/jobs/{number}");
    bench.window.request("DELETE", &stop).send().ok();
    let (job, _) = end_of(&mut listener, &number);
    assert_eq!(
        (&job["state"], &job["problem"]),
        (&json!("cancelled"), &Value::Null)
    );
    assert_eq!(workprints(&bench), Vec::<String>::new());
    assert_eq!(
        bench.window.get(&film("rolls/R9")).refused(404),
        "store.not_found"
    );
    let after = bench.window.get(&film("")).ok();
    assert_eq!(before, after);
    // The name is free again, and nothing is carried on by itself.
    let mut bench = bench;
    bench.start_again();
    bench.window.get(&film("")).ok();
    assert_eq!(bench.window.get("/api/jobs").ok(), json!([]));
    bench.paper("R9").ok();
}

#[test]
fn one_name_is_brought_in_once() {
    let bench = bench();
    let mut listener = Listener::of(&bench.window);
    let asked: Vec<Answer> = std::thread::scope(|scope| {
        let ask = |name: &'static str| {
            let bench = &bench;
            scope.spawn(move || bring_in(bench, name, &clip("camera_stops_b.mp4")))
        };
        // A name is the same with spaces around it.
        let asked = ["R9", " R9", "R9 "].map(ask);
        asked.map(|a| a.join().expect("asked")).to_vec()
    });
    let begun: Vec<&Answer> = asked.iter().filter(|a| a.status == 200).collect();
    assert_eq!(begun.len(), 1, "{asked:?}");
    for answer in asked.iter().filter(|a| a.status != 200) {
        assert_eq!(answer.refused(409), "production.roll_there");
    }
    assert_eq!(bench.paper("R9").refused(409), "production.roll_there");
    let (job, _) = end_of(&mut listener, &begun[0].document()["job"]);
    assert_eq!(job["state"], "done", "{job}");
    assert_eq!(
        bench.window.get(&film("rolls/R9")).ok()["roll"]["frames"],
        266
    );
    let again = bring_in(&bench, "R9", &clip("camera_stops_b.mp4"));
    assert_eq!(again.refused(409), "production.roll_there");
}

#[test]
fn many_scans_at_once_are_read_in_turns() {
    let bench = bench();
    let mut listener = Listener::of(&bench.window);
    let long = clip("nosferatu_1922_excerpt.mp4");
    let short = clip("camera_stops_b.mp4");
    let scans = [("R5", &long), ("R6", &long), ("R7", &short), ("R8", &short)];
    let numbers = scans.map(|(roll, file)| bring_in(&bench, roll, file).ok()["job"].clone());
    let mut waiting = std::collections::BTreeSet::new();
    while waiting.len() < 2 {
        let job = listener.next_of("job")["job"].clone();
        if job["words"].as_str().is_some_and(|w| w.contains("waits")) {
            waiting.insert(job["roll"].as_str().expect("a roll").to_owned());
        }
    }
    assert!(
        waiting.contains("R7") && waiting.contains("R8"),
        "{waiting:?}"
    );
    // One that waits is stopped like any other; one that is stopped makes room.
    for stopped in [&numbers[3], &numbers[0], &numbers[1]] {
        let stop = format!("/api/jobs/{stopped}");
        bench.window.request("DELETE", &stop).send().ok();
    }
    let mut ended = std::collections::BTreeMap::new();
    while ended.len() < 4 {
        let job = listener.next_of("job")["job"].clone();
        if job["state"] != "running" {
            ended.insert(job["job"].as_u64(), job["state"].clone());
        }
    }
    let states: Vec<&str> = ended.values().filter_map(Value::as_str).collect();
    assert_eq!(states, ["cancelled", "cancelled", "done", "cancelled"]);
    let rolls = bench.window.get(&film("")).ok()["rolls"].clone();
    assert_eq!(rolls.as_array().map(Vec::len), Some(3));
}

/// As a kill leaves it: written down as under way, and nobody at it.
fn interrupted(dir: &Path, roll: &str, file: &str) {
    let meta = Meta {
        title: "Interrupted".to_owned(),
        gauge: "super8".parse().expect("a gauge"),
        speed: "18".parse().expect("a speed"),
    };
    let production = if Production::is_here(dir) {
        Production::open(dir).expect("opened")
    } else {
        new_production(dir, &meta).expect("new")
    };
    let request = AddRoll {
        roll: roll.to_owned(),
        files: vec![file.into()],
        gauge: None,
        film_speed: None,
        base: "triacetate".to_owned(),
        measured: None,
        shrinkage: None,
        wind: None,
        fit: "project".to_owned(),
    };
    let work = RollWork::open(&request, production.meta()).expect("a scan");
    work.begin(&production).expect("written down");
}

#[test]
fn an_interrupted_reading_is_carried_on_when_the_film_is_opened() {
    let bench = bench();
    let dir = bench.dir.path().join("shelf/interrupted");
    let gone = bench.dir.path().join("gone.mp4");
    std::fs::copy(clip("camera_stops_b.mp4"), &gone).expect("copied");
    interrupted(&dir, "R1", &clip("camera_stops_b.mp4"));
    interrupted(&dir, "R2", gone.to_str().expect("plain"));
    std::fs::remove_file(&gone).expect("taken away");

    let mut listener = Listener::of(&bench.window);
    bench.window.get("/api/films/interrupted").ok();
    let mut ended = Vec::new();
    while ended.len() < 2 {
        let job = listener.next_of("job")["job"].clone();
        if job["state"] != "running" {
            ended.push(job);
        }
    }
    ended.sort_by_key(|job| job["state"].as_str().map(str::to_owned));
    assert_eq!(
        (&ended[0]["state"], &ended[0]["roll"]),
        (&json!("done"), &json!("R1"))
    );
    // What cannot be carried on is told, and does not keep anybody out.
    assert_eq!(ended[1]["state"], "failed");
    assert!(ended[1]["problem"]["hint"].is_string(), "{}", ended[1]);
    let film = bench.window.get("/api/films/interrupted").ok();
    let rolls = film["rolls"].as_array().expect("rolls");
    assert_eq!(rolls.len(), 1);
    assert_eq!(
        (&rolls[0]["frames"], &rolls[0]["workprint"]),
        (&json!(266), &json!(true))
    );
}

#[test]
fn what_is_no_film_is_told_at_once() {
    let mut bench = bench();
    let odd = bench.dir.path().join("odd");
    std::fs::create_dir_all(odd.join("empty")).expect("made");
    std::fs::write(odd.join("text.mkv"), "no film").expect("written");
    drop(bench.served.take());
    let media = odd.clone();
    let bench = Bench::with(|settings| settings.media = vec![media]);
    for name in ["text.mkv", "empty"] {
        let path = odd.join(name);
        let answer = bring_in(&bench, "R9", path.to_str().expect("plain"));
        assert!((400..500).contains(&answer.status), "{answer:?}");
        answer.refused(answer.status);
    }
    let none = json!({ "roll": "R9", "files": [] });
    let answer = bench.window.post(&film("rolls"), &none);
    assert!((400..500).contains(&answer.status), "{answer:?}");
    for (field, word) in [
        ("base", "paper"),
        ("fit", "eat"),
        ("gauge", "70"),
        ("measured", "x"),
    ] {
        let mut form = json!({ "roll": "R9", "files": [odd.join("text.mkv")] });
        form[field] = json!(word);
        let answer = bench.window.post(&film("rolls"), &form);
        let said = answer.document()["message"].to_string();
        assert!(answer.status == 422 && said.contains(word), "{answer:?}");
    }
    assert_eq!(bench.window.get("/api/jobs").ok(), json!([]));
    bench.paper("R9").ok();
}
