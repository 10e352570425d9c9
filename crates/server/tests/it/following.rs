//! A projector followed over the wire: taps at known cuts, taps that cannot be, sound that is heard.

use serde_json::{Value, json};

use crate::served::{Bench, film};

fn begin(bench: &Bench, asked: &Value) -> String {
    let run = bench.window.post(&film("cuts/v1/run"), asked).ok();
    assert_eq!(run["live"], Value::Null);
    assert_eq!(run["lost"]["words"], "not known yet where the film is");
    run["run"].as_str().expect("its name").to_owned()
}

/// Lays seven pieces of 90 to 126 frames into the version, and tells where each begins.
fn cut_of_seven(bench: &Bench) -> Vec<u64> {
    let lengths = [90, 126, 100, 117, 95, 108, 120];
    for (at, frames) in lengths.into_iter().enumerate() {
        let first = 100 + 200 * at;
        let piece = json!({ "kind": "shot", "roll": "R1", "in": first, "out": first + frames });
        let insert = json!({ "change": "insert", "at": at, "piece": piece });
        let change = json!({ "film_change": "change_cut", "cut": "v1", "cut_change": insert });
        let revision = 3 + at as u64;
        bench.change(&format!("piece-{at}"), revision, &change).ok();
    }
    let begins = lengths.iter().scan(0, |at, frames| {
        let here = *at;
        *at += *frames as u64;
        Some(here)
    });
    begins.collect()
}

fn tap(at: f64, cut: Option<u32>) -> Value {
    json!({ "at": at, "seen": { "what": "tap", "cut": cut } })
}

#[test]
fn taps_tell_where_the_projector_is_and_wrong_ones_are_refused() {
    let bench = Bench::new();
    let cuts = cut_of_seven(&bench);
    let run = begin(&bench, &json!({}));
    let seen = film(&format!("runs/{run}/seen"));
    let at = |cut: u64| 5.0 + cut as f64 / 18.4;
    let events: Vec<Value> = cuts
        .iter()
        .take(5)
        .map(|cut| tap(at(*cut), u32::try_from(*cut).ok()))
        .collect();
    let now = at(cuts[4]) + 1.0;
    let asked = json!({ "now": now, "events": events, "when": [cuts[4] + 40] });
    let known = bench.window.post(&seen, &asked).ok();
    let live = &known["live"];
    let off = live["frame"].as_f64().expect("a frame") - (cuts[4] as f64 + 18.4);
    let error = live["frame_error"].as_f64().expect("its error");
    assert!(off.abs() <= error && error < 8.0, "{known}");
    assert_eq!(known["taken"].as_array().map(Vec::len), Some(5));
    let line = known["line"]["speed"].as_f64().expect("a speed");
    assert!((line - 18.4).abs() < 1e-6, "{known}");
    let comes = known["comes"][0]["at"].as_f64().expect("a time");
    assert!((comes - at(cuts[4] + 40)).abs() < 0.3, "{known}");
    // Back to a cut that is gone: refused with words, and nothing is changed.
    let wrong = json!({ "now": now, "events": [tap(now, u32::try_from(cuts[3]).ok())] });
    assert_eq!(
        bench.window.post(&seen, &wrong).refused(422),
        "production.unfit"
    );
    let again = bench.window.post(&seen, &json!({ "now": now })).ok();
    assert_eq!(again["live"], known["live"]);
    let other = film("runs/run-77/seen");
    let gone = bench.window.post(&other, &json!({ "now": 0 }));
    assert_eq!(gone.refused(404), "server.not_there");
}

#[test]
fn sound_is_heard_and_a_machine_stands_out_of_it() {
    let bench = Bench::new();
    let run = begin(&bench, &json!({ "speed": 18.2, "speed_error": 0.1 }));
    // Ticks 18.2 times a second, 4 ms each.
    let mut last = Value::Null;
    for piece in 0..16 {
        let from = f64::from(piece) * 0.5;
        let samples: Vec<u8> = (0..4000)
            .flat_map(|nth: u32| {
                let at = from + f64::from(nth) / 8000.0;
                let since = (at * 18.2).fract() / 18.2;
                let noise = f64::from(nth.wrapping_mul(2_654_435_761) >> 16) / 32_768.0 - 1.0;
                let loud = 0.5 * (-since / 0.004).exp() + 0.01;
                ((loud * noise) as f32).to_le_bytes()
            })
            .collect();
        let target = film(&format!("runs/{run}/heard?at={from}&rate=8000"));
        let request = bench.window.request("POST", &target);
        last = request
            .body("application/octet-stream", &samples)
            .send()
            .ok();
    }
    assert_eq!(last["hears"], true, "{last}");
    // Where the film is nobody has said.
    assert_eq!(last["live"], Value::Null);
    let seen = film(&format!("runs/{run}/seen"));
    let read = json!({ "at": 8.0, "seen": { "what": "counter", "frame": 140 } });
    let known = bench
        .window
        .post(&seen, &json!({ "now": 8.0, "events": [read] }))
        .ok();
    let speed = known["live"]["speed"].as_f64().expect("a speed");
    assert!((speed - 18.2).abs() < 0.15, "{known}");
}
