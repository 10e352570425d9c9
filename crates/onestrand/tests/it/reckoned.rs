//! `reckon` at the command line.

use serde_json::json;

use crate::program::call;

/// The document of the command reference, field for field.
#[test]
fn the_document_of_the_reference() {
    let found = call(["reckon", "37ft60", "--gauge", "super8", "--speed", "18"]).ok();
    assert_eq!(found["frames"], 2724);
    assert_eq!(found["footage"], json!({"feet": 37, "frames": 60}));
    assert_eq!(found["seconds"], json!({"num": 454, "den": 3}));
    assert_eq!(found["clock"], "2:31.3");
    assert_eq!(found["metres"], "11.53");
    assert_eq!(found["sound"]["frames"], 18);
    assert_eq!(found["sound"]["mm"], "76.2");
    assert_eq!(found["sound"]["samples_48k"], "48000");
    assert_eq!(found["reel_mm"], "56.2");
}

#[test]
fn one_length_in_every_unit() {
    for quantity in ["50ft", "50ft0", "50+0", "3600fr", "3:20", "15.24m"] {
        let found = call(["reckon", quantity, "--gauge", "super8"]).ok();
        assert_eq!(found["frames"], 3600, "{quantity}");
    }
}

/// Weak memories are not used unasked: the sound lead of 9.5 mm.
#[test]
fn nine_five_is_told_its_lead_only_when_asked() {
    let silent = call(["reckon", "100ft", "--gauge", "9.5"]).ok();
    assert_eq!(silent["sound"], json!(null));
    assert_eq!(silent["frames"], 4000);
    assert_eq!(silent["metres"], "30.48");
    assert_eq!(silent["metres_by_pitch"], "30.16");
    let asked = call(["reckon", "100ft", "--gauge", "9.5", "--sound", "optical"]).ok();
    assert_eq!(asked["sound"]["frames"], 26);
    assert_eq!(asked["sound"]["sureness"], "suggestion from memory");
}

#[test]
fn a_reel_is_measured_and_filled() {
    let found = call([
        "reckon",
        "2729ft",
        "--gauge",
        "35",
        "--speed",
        "24",
        "--hub",
        "50.8",
        "--thickness",
        "0.1346",
        "--flange",
        "381",
    ])
    .ok();
    let across: f64 = found["reel"]["diameter_mm"]
        .as_str()
        .expect("a diameter")
        .parse()
        .expect("mm");
    assert!((across - 381.0).abs() < 0.2, "{across}");
    assert_eq!(found["reel"]["holds_feet"], "2729");
}

#[test]
fn nonsense_is_refused_with_the_next_step() {
    for (quantity, gauge) in [("fifty", "super8"), ("50ft", "8mm"), ("-3ft", "16")] {
        let arguments = ["reckon", "--gauge", gauge, "--", quantity];
        assert_eq!(
            call(arguments).refused()["code"],
            "film.unreadable",
            "{quantity}"
        );
    }
}
