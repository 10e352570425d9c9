//! The ledger of runs in two windows: what is added stands beside what another has
//! done, and an entry that is no longer what was seen is not struck off.

use serde_json::{Value, json};

use crate::served::{Bench, film};

fn revision(bench: &Bench) -> u64 {
    let film = bench.window.get(&film("")).ok();
    film["revision"].as_u64().expect("a revision")
}

fn run(on: &str) -> Value {
    json!({ "film_change": "run_roll", "roll": "R1", "on": on, "through": "viewer", "by": "Ida" })
}

fn strike(number: u64) -> Value {
    json!({ "film_change": "strike_run", "roll": "R1", "number": number })
}

/// The runs of R1 as the film shows them, by number and day.
fn runs(bench: &Bench) -> Vec<(u64, String)> {
    let film = bench.window.get(&film("")).ok();
    let rolls = film["rolls"].as_array().expect("rolls");
    let roll = rolls.iter().find(|one| one["roll"] == "R1").expect("R1");
    let one = |run: &Value| {
        let on = run["on"].as_str().expect("a day").to_owned();
        (run["number"].as_u64().expect("a number"), on)
    };
    roll["runs"]
        .as_array()
        .expect("runs")
        .iter()
        .map(one)
        .collect()
}

#[test]
fn two_windows_add_and_the_later_strike_of_an_entry_is_told() {
    let bench = Bench::new();
    let seen = revision(&bench);
    bench.change("a", seen, &run("2026-03-03")).ok();
    bench.change("b", seen, &run("2026-02-02")).ok();
    let day = |number, on: &str| (number, on.to_owned());
    assert_eq!(runs(&bench), [day(2, "2026-02-02"), day(1, "2026-03-03")]);

    // One window strikes 2 off and writes another run, which is 2 again.
    let seen = revision(&bench);
    bench.change("c", seen, &strike(2)).ok();
    bench.change("d", revision(&bench), &run("2026-04-04")).ok();
    // The other means the old one.
    let late = bench.change("e", seen, &strike(2));
    assert_eq!(late.refused(409), "store.stale");
    assert_eq!(runs(&bench), [day(1, "2026-03-03"), day(2, "2026-04-04")]);
    bench.change("f", revision(&bench), &strike(2)).ok();
    assert_eq!(runs(&bench), [day(1, "2026-03-03")]);
}

#[test]
fn a_run_that_is_sent_twice_is_written_down_once() {
    let bench = Bench::new();
    let seen = revision(&bench);
    for _ in 0..2 {
        bench.change("the same", seen, &run("2026-03-03")).ok();
    }
    assert_eq!(runs(&bench).len(), 1);
}
