//! A recording over the wire: kept second by second, found again after a crash.

use serde_json::{Value, json};

use crate::served::{Answer, Bench, film};

fn begin(bench: &Bench) -> Answer {
    let about = json!({ "name": "voice", "rate": 48_000, "channels": 1, "cut": "", "at": 0 });
    bench.window.post(&film("recordings"), &about)
}

fn keep(bench: &Bench, at: u64, samples: &[f32]) -> Answer {
    let bytes: Vec<u8> = samples.iter().flat_map(|s| s.to_le_bytes()).collect();
    let target = film(&format!("recordings/recording-1?at={at}&offset=480"));
    let request = bench.window.request("POST", &target);
    request.body("application/octet-stream", &bytes).send()
}

fn done(bench: &Bench, offset: u64) -> Answer {
    let target = film("recordings/recording-1/done");
    bench.window.post(&target, &json!({ "offset": offset }))
}

fn half(bench: &Bench) -> Vec<Value> {
    let found = bench.window.get(&film("recordings")).ok();
    found.as_array().expect("a list").clone()
}

#[test]
fn a_recording_is_kept_as_it_comes_and_becomes_a_sound_once() {
    let bench = Bench::new();
    assert_eq!(begin(&bench).ok()["recording"], "recording-1");
    assert_eq!(keep(&bench, 0, &[0.25; 48_000]).ok()["samples"], 48_000);
    assert_eq!(keep(&bench, 48_000, &[0.5; 100]).ok()["samples"], 48_100);
    assert_eq!(
        keep(&bench, 50_000, &[0.5; 100]).refused(422),
        "production.unfit"
    );
    assert_eq!(half(&bench)[0]["samples"], 48_100);
    let before = bench.window.get(&film("recordings")).ok();
    assert_eq!(before[0]["about"]["name"], "voice");
    assert_eq!(before[0]["offset"], 480);
    let sound = done(&bench, 480).ok();
    assert_eq!(
        (&sound["samples"], &sound["from"]),
        (&json!(48_100), &json!(480))
    );
    assert_eq!(done(&bench, 480).ok(), sound);
    assert!(half(&bench).is_empty());
    assert_eq!(keep(&bench, 0, &[0.0]).refused(422), "production.unfit");
}

#[test]
fn what_is_no_recording_is_refused() {
    let bench = Bench::new();
    assert_eq!(keep(&bench, 0, &[0.0]).refused(404), "store.not_found");
    assert_eq!(done(&bench, 0).refused(404), "store.not_found");
    begin(&bench).ok();
    assert_eq!(done(&bench, 0).refused(422), "production.unfit");
    // A request brings a mebibyte at most.
    keep(&bench, 0, &[0.0; 300_000]).refused(413);
    let target = film("recordings/recording-1");
    let left = bench.window.request("DELETE", &target).send().ok();
    assert_eq!(left, json!([]));
}
