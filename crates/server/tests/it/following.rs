//! A projector followed over the wire: story 11, taps that cannot be, sound that is heard.

use serde_json::{Value, json};

use crate::served::{Bench, film};

fn begin(bench: &Bench, asked: &Value) -> String {
    let run = bench.window.post(&film("cuts/v1/run"), asked).ok();
    assert_eq!(run["live"], Value::Null);
    assert_eq!(run["lost"]["words"], "not known yet where the film is");
    run["run"].as_str().expect("its name").to_owned()
}

fn tap(at: f64, cut: Option<u32>) -> Value {
    json!({ "at": at, "seen": { "what": "tap", "cut": cut } })
}

#[test]
fn taps_tell_where_the_projector_is_and_wrong_ones_are_refused() {
    let bench = Bench::new();
    let cuts: Vec<u64> = {
        let dub = bench.window.get(&film("dub?cut=v1")).ok();
        let pieces = dub["pieces"].as_array().expect("pieces").clone();
        pieces
            .iter()
            .map(|one| one["at"].as_u64().expect("a frame"))
            .collect()
    };
    let run = begin(&bench, &json!({}));
    let seen = film(&format!("runs/{run}/seen"));
    let at = |cut: u64| 5.0 + cut as f64 / 18.4;
    let events: Vec<Value> = cuts
        .iter()
        .take(3)
        .map(|cut| tap(at(*cut), u32::try_from(*cut).ok()))
        .collect();
    let now = at(cuts[2]) + 1.0;
    let asked = json!({ "now": now, "events": events, "when": [cuts[2] + 40] });
    let known = bench.window.post(&seen, &asked).ok();
    let live = &known["live"];
    let off = live["frame"].as_f64().expect("a frame") - (cuts[2] as f64 + 18.4);
    let error = live["frame_error"].as_f64().expect("its error");
    assert!(off.abs() <= error && error < 8.0, "{known}");
    assert_eq!(known["taken"].as_array().map(Vec::len), Some(3));
    let line = known["line"]["speed"].as_f64().expect("a speed");
    assert!((line - 18.4).abs() < 1e-6, "{known}");
    let comes = known["comes"][0]["at"].as_f64().expect("a time");
    assert!((comes - at(cuts[2] + 40)).abs() < 0.3, "{known}");
    // Back to a cut that is gone: refused with words, and nothing is changed.
    let wrong = json!({ "now": now, "events": [tap(now, u32::try_from(cuts[1]).ok())] });
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
