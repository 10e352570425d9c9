//! A tablet beside the splicer: let in by a code, ticks in its own name, sent away.

use std::io::Read;
use std::net::TcpStream;

use serde_json::{Value, json};

use crate::at_the_tablet::AtTheTablet;
use crate::listener::Listener;
use crate::served::{Bench, FILM, Window, film};

pub(crate) const WRITES: &str = "/api/bench/tablet/writes";
pub(crate) const BENCH: &str = "/api/bench/tablet/bench";

/// A film with a version of two pieces on the bench.
pub(crate) fn at_work() -> Bench {
    let bench = Bench::new();
    let piece =
        |first: u32| json!({ "kind": "shot", "roll": "R1", "in": first, "out": first + 40 });
    for (at, first) in [(0, 200), (1, 100)] {
        let change = json!({ "change": "insert", "at": at, "piece": piece(first) });
        let change = json!({ "film_change": "change_cut", "cut": "v1", "cut_change": change });
        bench
            .change(&format!("piece {at}"), revision(&bench), &change)
            .ok();
    }
    let begin = json!({ "film_change": "at_the_bench", "bench": "begin", "cut": "v1", "pins": 3 });
    bench.change("begin", revision(&bench), &begin).ok();
    bench
}

fn revision(bench: &Bench) -> u64 {
    let film = bench.window.get(&film("")).ok();
    film["revision"].as_u64().expect("a revision")
}

pub(crate) fn on_the_bench(window: &Window) -> Value {
    window.get(&film("bench")).ok()
}

/// What a tick of the bench as it was shown would send.
pub(crate) fn tick(shown: &Value, key: &str) -> Value {
    let write = json!({ "bench": "tick", "lines": shown["lines"] });
    json!({ "key": key, "revision": shown["revision"], "write": write })
}

#[test]
fn a_tablet_comes_in_ticks_in_its_name_and_is_sent_away() {
    let bench = at_work();
    let tablet = AtTheTablet::inside(&bench.window, "blue tablet");
    let known = tablet.get("/api/bench/tablet").ok();
    assert_eq!(known["film"], FILM);
    assert_eq!(known["title"], "A Boat");
    assert_eq!(known["tablet"], "blue tablet");
    // Neither folders nor notes nor other versions.
    let told: Vec<&String> = known.as_object().expect("fields").keys().collect();
    assert_eq!(told, ["film", "title", "tablet", "gauge", "rolls"]);

    let mut main = Listener::of(&bench.window);
    let shown = tablet.get(BENCH).ok();
    let kept = tablet.post(WRITES, &tick(&shown, "t1")).ok();
    assert_eq!(kept["already"], false);
    let heard = main.next_of("changed");
    assert_eq!(heard["parts"], json!([{ "part": "bench" }]));
    let line = on_the_bench(&bench.window)["on_the_bench"]["done_lines"][0].clone();
    assert_eq!(line["by"], "blue tablet", "{line}");

    let door = bench.window.get("/api/tablets").ok();
    let id = door["tablets"][0]["id"].as_u64().expect("a number");
    let gone = bench
        .window
        .request("DELETE", &format!("/api/tablets/{id}"))
        .send();
    assert_eq!(gone.ok()["tablets"], json!([]));
    assert_eq!(tablet.get(BENCH).refused(401), "tablet.not_let_in");
    let again = tablet.get("/api/bench/tablet").refused(401);
    assert_eq!(again, "tablet.not_let_in");
    let late = tablet.post(WRITES, &tick(&shown, "t2")).refused(401);
    assert_eq!(late, "tablet.not_let_in");
}

/// A tablet that fell asleep before the answer came sends its tick again.
#[test]
fn a_tick_sent_again_is_written_once() {
    let bench = at_work();
    let tablet = AtTheTablet::inside(&bench.window, "");
    let shown = tablet.get(BENCH).ok();
    let once = tablet.post(WRITES, &tick(&shown, "same")).ok();
    let twice = tablet.post(WRITES, &tick(&shown, "same")).ok();
    assert_eq!(twice["already"], true);
    assert_eq!(twice["revision"], once["revision"]);
    let lines = |shown: &Value| shown["lines"].as_u64().expect("lines");
    assert_eq!(lines(&on_the_bench(&bench.window)), lines(&shown) + 1);
    // It goes on where it was after the code was asked for anew.
    let again = AtTheTablet::inside(&bench.window, "the same one");
    assert_eq!(
        again.post(WRITES, &tick(&shown, "same")).ok()["already"],
        true
    );
    assert_eq!(lines(&on_the_bench(&bench.window)), lines(&shown) + 1);
}

#[test]
fn two_who_tick_the_same_act_tick_it_once() {
    let bench = at_work();
    let tablet = AtTheTablet::inside(&bench.window, "");
    let shown = tablet.get(BENCH).ok();
    let change = json!({ "film_change": "at_the_bench", "bench": "tick", "lines": shown["lines"] });
    bench.change("main", revision(&bench), &change).ok();
    assert_eq!(
        tablet.post(WRITES, &tick(&shown, "t")).refused(409),
        "store.stale"
    );
}

/// It ticks off and tells what happened, nothing else; the main machine corrects.
#[test]
fn a_tablet_ticks_and_tells_nothing_else() {
    let bench = at_work();
    let tablet = AtTheTablet::inside(&bench.window, "blue tablet");
    let shown = tablet.get(BENCH).ok();
    let others = [
        json!({ "bench": "begin", "cut": "v1", "pins": 3 }),
        json!({ "bench": "strike", "line": 1, "reason": "" }),
        json!({ "bench": "go_ahead", "roll": "R1", "words": "I dare" }),
        json!({ "bench": "plan_anew", "pins": 2 }),
        json!({ "bench": "mend" }),
        json!({ "bench": "take_off" }),
    ];
    for (nth, write) in others.into_iter().enumerate() {
        let asked =
            json!({ "key": format!("k{nth}"), "revision": shown["revision"], "write": write });
        assert_eq!(
            tablet.post(WRITES, &asked).refused(403),
            "tablet.may_not",
            "{asked}"
        );
    }
    assert_eq!(on_the_bench(&bench.window), shown);

    let mounted = json!([{ "happened": "mounted", "roll": "R1" }]);
    let meaning = json!({ "lines": shown["lines"], "happened": mounted });
    tablet.post("/api/bench/tablet/meaning", &meaning).ok();
    assert_eq!(on_the_bench(&bench.window), shown);
    let write = json!({ "bench": "happened", "lines": shown["lines"], "happened": mounted });
    let asked = json!({ "key": "told", "revision": shown["revision"], "write": write });
    tablet.post(WRITES, &asked).ok();

    let line = on_the_bench(&bench.window)["on_the_bench"]["done_lines"][0].clone();
    assert_eq!(line["by"], "blue tablet");
    let strike = json!({ "film_change": "at_the_bench", "bench": "strike", "line": line["number"], "reason": "a glove" });
    bench.change("strike", revision(&bench), &strike).ok();
    assert_eq!(
        on_the_bench(&bench.window)["on_the_bench"]["done_lines"][1]["by"],
        "blue tablet"
    );
}

#[test]
fn a_tablet_hears_of_its_film_until_it_is_sent_away() {
    let bench = at_work();
    let tablet = AtTheTablet::inside(&bench.window, "");
    let mut stream = tablet.request("GET", "/api/bench/tablet/events").begin();
    stream
        .set_read_timeout(Some(crate::served::TOO_LONG))
        .expect("a limit");
    until(&mut stream, "\r\n\r\n");
    let other = json!({ "title": "A Ferry", "gauge": "super8", "speed": "18" });
    bench.window.post("/api/films", &other).ok();
    let note = json!({ "film_change": "write_note", "roll": "R1", "frame": 5, "words": "not for all", "writer": "" });
    bench.change("note", revision(&bench), &note).ok();
    let heard = until(&mut stream, "\n\n");
    assert!(
        heard.contains(r#"{"event":"changed","revision":"#),
        "{heard}"
    );
    assert!(
        !heard.contains("not for all") && !heard.contains("shelf"),
        "{heard}"
    );
    let id = &bench.window.get("/api/tablets").ok()["tablets"][0]["id"];
    bench
        .window
        .request("DELETE", &format!("/api/tablets/{id}"))
        .send()
        .ok();
    let mut rest = String::new();
    stream.read_to_string(&mut rest).expect("the stream ends");
}

/// Reads up to some words, an event's data before them where it is one.
fn until(stream: &mut TcpStream, end: &str) -> String {
    let mut said = String::new();
    let mut byte = [0];
    loop {
        stream.read_exact(&mut byte).expect("more comes");
        said.push(char::from(byte[0]));
        if said.ends_with(end) && (end == "\r\n\r\n" || said.contains("data:")) {
            return said;
        }
    }
}
