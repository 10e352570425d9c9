//! Numbers on the edge of the stock, from the program.

use serde_json::{Value, json};

use crate::in_the_hand::paper_film;
use crate::program::{Called, call, onestrand};

fn edge(film: &str, more: &[&str]) -> Called {
    call(["roll", "edge", film].iter().chain(more))
}

/// What the refusal says, which must be one of a kind that the user can mend.
fn refused(called: Called) -> String {
    let error = called.refused();
    assert_eq!(error["code"], "production.unfit", "{error}");
    error["message"].as_str().expect("words").to_owned()
}

/// On this stock a number every 20 frames, half a foot of 16 mm (40 frames a foot):
/// from 4127 at 1,206 to 4135 are 8 steps, so 160 frames.
#[test]
fn numbers_read_are_kept_listed_and_followed() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = paper_film(dir.path(), "16", &["R1", "R2"]);
    let none = edge(&film, &["R1"]).ok();
    assert_eq!(
        none,
        json!({"roll": "R1", "edge": {"step": null, "read": [], "follow": 0}})
    );
    let one = edge(&film, &["R1·1206", "4127", "--step", "20"]).ok();
    assert_eq!(
        one["edge"]["follow"], 0,
        "from one number alone nothing follows"
    );
    let two = edge(&film, &["R1.1366", "4135"]).ok();
    let read = json!([{"frame": 1206, "number": "4127"}, {"frame": 1366, "number": "4135"}]);
    assert_eq!(
        two["edge"],
        json!({"step": 20, "read": read, "follow": 7}),
        "4128 to 4134"
    );
    assert_eq!(edge(&film, &["R1"]).ok()["edge"], two["edge"], "it stays");
    assert_eq!(edge(&film, &["R2"]).ok()["edge"]["read"], json!([]));
    let less = edge(&film, &["R1·1206", "--gone"]).ok();
    assert_eq!(less["edge"]["read"].as_array().map(Vec::len), Some(1));
    call(["undo", &film]).ok();
    assert_eq!(edge(&film, &["R1"]).ok()["edge"], two["edge"]);

    let words = onestrand().args(["roll", "edge", &film, "R1"]).output();
    let words = String::from_utf8_lossy(&words.expect("it starts").stdout).into_owned();
    for line in ["R1·1206  4127", "R1·1366  4135", "every 20 frames: 7 more"] {
        assert!(words.contains(line), "{line} in {words}");
    }
}

#[test]
fn what_does_not_fit_is_refused_and_nothing_is_kept_of_it() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = paper_film(dir.path(), "16", &["R1"]);
    let said = refused(edge(&film, &["R1·1206", "4127", "--step", "0"]));
    assert!(said.contains("every 0 frames"), "{said}");
    edge(&film, &["R1·1206", "4127"]).ok();
    let said = refused(edge(&film, &["R1·1366", "4135"]));
    assert!(said.contains("how many frames"), "{said}");
    edge(&film, &["R1·1366", "4135", "--step", "20"]).ok();
    // 4140 belongs at 1,366 + 5 × 20 = 1,466.
    let said = refused(edge(&film, &["R1·1467", "4140"]));
    assert!(said.contains("1366") && said.contains("1467"), "{said}");
    let said = refused(edge(&film, &["R1·1466", "torn"]));
    assert!(said.contains("torn"), "{said}");
    refused(edge(&film, &["R1·4000", "4267"]));
    refused(edge(&film, &["R1·7", "--gone"]));
    // A number without its frame, a frame without its number.
    refused(edge(&film, &["R1", "4127"]));
    refused(edge(&film, &["R1·1206"]));
    for wrong_use in [
        &["R1·1206", "4127", "--gone"][..],
        &["R1", "--step", "20"],
        &["R1·1206", "4127", "--step", "half"],
    ] {
        assert_eq!(edge(&film, wrong_use).exit, 2, "{wrong_use:?}");
    }
    let missing = edge(&film, &["R9"]).refused();
    assert_eq!(missing["code"], "store.not_found", "{missing}");

    let kept: Vec<Value> = ["4127", "4135"].map(Value::from).to_vec();
    let stands = edge(&film, &["R1"]).ok()["edge"].clone();
    let read = stands["read"].as_array().expect("numbers");
    let numbers: Vec<Value> = read.iter().map(|one| one["number"].clone()).collect();
    assert_eq!((numbers, &stands["step"]), (kept, &json!(20)));
}

#[test]
fn film_of_8_mm_has_none() {
    for gauge in ["super8", "regular8"] {
        let dir = tempfile::tempdir().expect("a folder");
        let film = paper_film(dir.path(), gauge, &["R1"]);
        let said = refused(edge(&film, &["R1·1206", "4127", "--step", "20"]));
        assert!(said.contains("no numbers on its edge"), "{said}");
        assert_eq!(edge(&film, &["R1"]).ok()["edge"]["read"], json!([]));
    }
}
