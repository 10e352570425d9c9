//! The first cut at the bench, ticked off by command: story 7's card where it is
//! wanted, what a late cut means, the life of a strip.

use serde_json::{Value, json};

use crate::program::{call_words, copy_of_boat};

fn bench(told: &Value) -> &Value {
    &told["on_the_bench"]
}

#[test]
fn shot_seven_is_found_as_the_story_says_and_a_late_cut_is_told_at_once() {
    let into = tempfile::tempdir().expect("a folder");
    let dir = copy_of_boat(into.path());
    let work = |words: &str| call_words(&format!("work {words}"), &dir);
    let begun = work("begin DIR --cut v1 --pins 12").ok();
    assert_eq!(bench(&begun)["cuts"], json!({"done": 0, "all": 46}));
    assert_eq!(bench(&begun)["joins"], json!({"done": 0, "all": 24}));
    assert_eq!(bench(&begun)["wound"], json!({"done": 0, "all": 9_724}));
    assert_eq!(bench(&begun)["waits"], Value::Null, "the scans are proved");

    let mut told = begun;
    for _ in 0..80 {
        let act = &bench(&told)["acts"][0];
        if act["act"] == "cut" && act["roll"] == "R2" && act["frame"] == 547 {
            break;
        }
        told = work("tick DIR").ok();
    }
    let on = bench(&told);
    assert_eq!(on["pins_taken"]["done"], 9);
    assert_eq!(on["cuts"]["done"], 30);
    assert_eq!(on["joins"]["done"], 6);
    let act = &on["acts"][0];
    assert_eq!(act["title"], "Roll R2, take 3B-T2, for shot 7");
    assert_eq!(act["what"], "Cut on the line before R2·547.");
    let count = |place: &str| {
        let first = &act["card"][place]["chain"][0];
        json!([
            first["from"],
            first["at"],
            first["frames"],
            first["feet"],
            first["feet_frames"],
            first["mm"]
        ])
    };
    assert_eq!(
        count("head"),
        json!(["camera stop 3B-T2", 470, 77, 1, 5, "326.0"])
    );
    assert_eq!(
        count("tail"),
        json!(["camera stop 3B-T2", 470, 137, 1, 65, "580.1"])
    );

    // The rope and the splash are nearer; the example has them marked by notes.
    let nearer = |place: &str| {
        let near = &act["card"][place]["nearer"];
        json!([near["from"], near["at"], near["frames"], near["mm"]])
    };
    assert_eq!(
        nearer("head"),
        json!(["rope leaves bollard", 531, 16, "67.7"])
    );
    assert_eq!(nearer("tail"), json!(["splash", 580, 27, "114.3"]));

    // What a late cut would mean is said, and nothing is written down.
    let late = work("happened DIR --only-ask cut R2.548").ok();
    assert_eq!(late["written"], false);
    assert_eq!(late["meaning"]["frames_after"], 2_723);
    assert_eq!(late["bench"]["lines"], told["lines"]);
    let late = work("happened DIR cut R2.548").ok();
    assert_eq!(bench(&late["bench"])["frames"], 2_723);

    // A report that cannot have happened, and undo, are refused.
    let twice = work("happened DIR cut R2.548").refused();
    assert_eq!(twice["code"], "bench.cannot_be");
    let undo = call_words("undo DIR", &dir).refused();
    assert_eq!(undo["code"], "store.for_good");

    let life = work("life DIR R2.560").ok();
    let words = life["words"].as_str().expect("words");
    assert!(words.starts_with("cut before R2·548"), "{words}");
    assert!(words.ends_with("with its roll"), "{words}");
}
