//! A projector followed over the wire: sound that is heard.

use serde_json::{Value, json};

use crate::served::{Bench, film};

fn begin(bench: &Bench, asked: &Value) -> String {
    let run = bench.window.post(&film("cuts/v1/run"), asked).ok();
    assert_eq!(run["live"], Value::Null);
    assert_eq!(run["lost"]["words"], "not known yet where the film is");
    run["run"].as_str().expect("its name").to_owned()
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
