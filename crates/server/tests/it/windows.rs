//! Two windows on one film: the later of two changes of one thing is told, and
//! nothing is lost or done twice.

use serde_json::{Value, json};

use crate::listener::Listener;
use crate::served::{Answer, Bench, film};

fn revision(bench: &Bench) -> u64 {
    let film = bench.window.get(&film("")).ok();
    film["revision"].as_u64().expect("a revision")
}

fn break_at(frame: u32) -> Value {
    json!({ "film_change": "break_at", "roll": "R1", "frame": frame })
}

/// Names the take of R1 that begins at a frame, by what happens in it.
fn name_take(first: u32, action: &str) -> Value {
    json!({ "film_change": "name_take", "roll": "R1", "in": first, "words": {
        "setup": "3A", "take": 1, "rating": "none", "size": "", "camera_move": "",
        "direction": "", "action": action, "note": ""
    } })
}

/// Lays leader in at a place of v1, known by its note.
fn lay_in(at: usize, note: &str) -> Value {
    let piece = json!({ "kind": "leader", "frames": 10, "note": note });
    let change = json!({ "change": "insert", "at": at, "piece": piece });
    json!({ "film_change": "change_cut", "cut": "v1", "cut_change": change })
}

fn actions(bench: &Bench) -> Vec<(u64, String)> {
    let log = bench.window.get(&film("rolls/R1")).ok();
    let takes = log["takes"].as_array().expect("takes");
    let one = |t: &Value| {
        let action = t["action"].as_str().expect("an action").to_owned();
        (t["in"].as_u64().expect("a frame"), action)
    };
    takes.iter().map(one).collect()
}

fn notes_of_cut(document: &Value) -> Vec<String> {
    let pieces = document["pieces"].as_array().expect("pieces");
    let note = |p: &Value| p["note"].as_str().expect("a note").to_owned();
    pieces.iter().map(note).collect()
}

fn on_cut(bench: &Bench) -> Vec<String> {
    notes_of_cut(&bench.window.get(&film("cuts/v1")).ok())
}

/// A bench with takes of R1 from 100 and from 200.
fn with_takes() -> Bench {
    let bench = Bench::new();
    for frame in [100, 200] {
        let key = format!("break {frame}");
        bench.change(&key, revision(&bench), &break_at(frame)).ok();
    }
    bench
}

fn stale(answer: &Answer, seen: u64, now: u64) {
    assert_eq!(answer.refused(409), "store.stale");
    let details = answer.document()["details"].clone();
    assert_eq!(details, json!({ "seen": seen, "now": now }));
}

#[test]
fn the_later_change_of_one_take_is_told_and_nothing_is_written_over() {
    let bench = with_takes();
    let seen = revision(&bench);
    bench.change("a", seen, &name_take(100, "she waits")).ok();
    let late = bench.change("b", seen, &name_take(100, "he waits"));
    stale(&late, seen, seen + 1);
    assert_eq!(actions(&bench)[0], (100, "she waits".to_owned()));
    assert_eq!(revision(&bench), seen + 1);
    // The division of the roll is refused too: the take was one of it.
    stale(&bench.change("c", seen, &break_at(150)), seen, seen + 1);
    // Having looked, the other may keep theirs; what stood there is not lost.
    bench
        .change("b2", seen + 1, &name_take(100, "he waits"))
        .ok();
    assert_eq!(actions(&bench)[0], (100, "he waits".to_owned()));
    let key = json!({ "key": "back" });
    let back = bench.window.post(&film("undo"), &key).ok();
    assert_eq!(back["roll"]["takes"][0]["action"], "she waits");
    let again = json!({ "key": "forth" });
    bench.window.post(&film("redo"), &again).ok();
    assert_eq!(actions(&bench)[0], (100, "he waits".to_owned()));
}

#[test]
fn changes_of_other_things_do_not_refuse_each_other() {
    let bench = with_takes();
    let seen = revision(&bench);
    bench.change("a", seen, &name_take(100, "she waits")).ok();
    bench.change("b", seen, &name_take(200, "he comes")).ok();
    bench.change("c", seen, &lay_in(0, "head")).ok();
    let note = json!({ "film_change": "write_note", "roll": "R1", "frame": 5, "words": "dust" });
    bench.change("d", seen, &note).ok();
    let new = json!({ "film_change": "new_cut", "cut": "v2", "from": "v1" });
    bench.change("e", seen, &new).ok();
    let said = ["she waits", "he comes"].map(str::to_owned);
    assert_eq!(
        actions(&bench),
        [(100, said[0].clone()), (200, said[1].clone())]
    );
    assert_eq!(on_cut(&bench), ["head"]);
    // And each of those is stale to whoever saw less.
    stale(&bench.change("f", seen, &lay_in(0, "late")), seen, seen + 5);
    assert_eq!(on_cut(&bench), ["head"]);
}

#[test]
fn a_change_of_what_nobody_has_seen_yet_is_refused() {
    let bench = Bench::new();
    let now = revision(&bench);
    stale(&bench.change("a", now + 1, &lay_in(0, "x")), now + 1, now);
    stale(&bench.change("a", u64::MAX, &lay_in(0, "x")), u64::MAX, now);
    assert_eq!(on_cut(&bench), Vec::<String>::new());
}

/// The program forgets nothing of this when it is started again: a window that
/// stood open has still not seen what another changed before.
#[test]
fn what_was_changed_before_a_new_start_is_still_stale_after_it() {
    let mut bench = with_takes();
    let seen = revision(&bench);
    bench.change("a", seen, &lay_in(0, "first")).ok();
    bench.paper("R3").ok();
    let now = revision(&bench);
    bench.start_again();
    stale(&bench.change("b", seen, &lay_in(0, "late")), seen, now);
    assert_eq!(on_cut(&bench), ["first"]);
    // What was not changed is not stale, though the film has moved on.
    bench.change("c", seen, &name_take(100, "she waits")).ok();
    bench.change("d", now, &lay_in(1, "second")).ok();
    // An undo is a change too.
    let seen = revision(&bench);
    let key = json!({ "key": "back" });
    bench.window.post(&film("undo"), &key).ok();
    bench.start_again();
    stale(&bench.change("e", seen, &lay_in(0, "late")), seen, seen + 1);
    assert_eq!(on_cut(&bench), ["first"]);
}

#[test]
fn one_key_is_one_change() {
    let mut bench = Bench::new();
    let seen = revision(&bench);
    let first = bench.change("one", seen, &lay_in(0, "once")).ok();
    assert_eq!(first["already"], false);
    for _ in 0..2 {
        // The same, sent again as it was, against a revision now old.
        let again = bench.change("one", seen, &lay_in(0, "once")).ok();
        assert_eq!(again["already"], true);
        assert_eq!(again["revision"], first["revision"]);
        assert_eq!(notes_of_cut(&again["cut"]), ["once"]);
        bench.start_again();
    }
    assert_eq!(on_cut(&bench), ["once"]);
    // A refused change leaves no key behind.
    let lift = json!({ "change": "remove", "at": 7 });
    let lift = json!({ "film_change": "change_cut", "cut": "v1", "cut_change": lift });
    let seen = revision(&bench);
    assert_eq!(
        bench.change("two", seen, &lift).refused(409),
        "store.refused"
    );
    bench.change("two", seen, &lay_in(0, "twice")).ok();
    assert_eq!(on_cut(&bench), ["twice", "once"]);
}

#[test]
fn a_step_sent_twice_is_one_step() {
    let mut bench = Bench::new();
    for note in ["a", "b", "c"] {
        let seen = revision(&bench);
        bench.change(note, seen, &lay_in(0, note)).ok();
    }
    let key = json!({ "key": "back" });
    for already in [false, true] {
        let back = bench.window.post(&film("undo"), &key).ok();
        assert_eq!(
            (&back["already"], notes_of_cut(&back["cut"])),
            (&json!(already), vec!["b".to_owned(), "a".to_owned()])
        );
        bench.start_again();
    }
    let key = json!({ "key": "forth" });
    for _ in 0..2 {
        let forth = bench.window.post(&film("redo"), &key).ok();
        assert_eq!(notes_of_cut(&forth["cut"]), ["c", "b", "a"]);
        assert_eq!(forth["redo"], Value::Null);
    }
    let none = bench.window.post(&film("redo"), &json!({ "key": "more" }));
    assert_eq!(none.refused(409), "store.nothing_to_do");
}

#[test]
fn a_key_is_a_short_word_of_the_windows_own() {
    let bench = Bench::new();
    let seen = revision(&bench);
    for key in ["", &"k".repeat(101), "#3", "#99999"] {
        bench.change(key, seen, &lay_in(0, "x")).refused(400);
        let step = json!({ "key": key });
        bench.window.post(&film("undo"), &step).refused(400);
    }
    assert_eq!(revision(&bench), seen);
}

/// Every window hears of every change, and of what it must ask for anew.
#[test]
fn another_window_hears_what_was_touched() {
    let bench = with_takes();
    let mut listener = Listener::of(&bench.window);
    let takes = json!({ "part": "takes", "roll": "R1" });
    let cut = |name: &str| json!({ "part": "cut", "cut": name });
    let roll = json!({ "part": "roll", "roll": "R2" });
    let takes_of_r2 = json!({ "part": "takes", "roll": "R2" });
    let notes = json!({ "part": "notes" });
    let facts = json!({ "base": "polyester", "fit": "never-cut" });
    let told = [
        (name_take(100, "she waits"), vec![takes.clone()]),
        (break_at(150), vec![takes.clone()]),
        (lay_in(0, "head"), vec![cut("v1")]),
        (
            json!({ "film_change": "new_cut", "cut": "v2", "from": "v1" }),
            vec![cut("v2")],
        ),
        (
            json!({ "film_change": "write_note", "roll": "R2", "frame": 5, "words": "dust" }),
            vec![notes.clone()],
        ),
        (
            json!({ "film_change": "write_note", "id": 1, "roll": "R2", "frame": 5, "words": "a hair" }),
            vec![notes.clone()],
        ),
        (
            json!({ "film_change": "roll_facts", "roll": "R2", "facts": facts }),
            vec![roll.clone()],
        ),
        (
            json!({ "film_change": "remove_roll", "roll": "R2" }),
            vec![roll.clone(), takes_of_r2.clone(), notes.clone()],
        ),
        (
            json!({ "film_change": "remove_cut", "cut": "v2" }),
            vec![cut("v2")],
        ),
    ];
    for (number, (change, parts)) in told.iter().enumerate() {
        let seen = revision(&bench);
        let key = format!("told {number}");
        let kept = bench.change(&key, seen, change).ok();
        // Sent again nothing is done, and nobody is told of anything.
        bench.change(&key, seen, change).ok();
        let event = listener.next_of("changed");
        assert_eq!(event["film"], "a-boat");
        assert_eq!(event["revision"], kept["revision"]);
        assert_eq!(event["words"], kept["words"]);
        assert_eq!(event["parts"], json!(parts), "{change}");
    }
    let key = json!({ "key": "back" });
    bench.window.post(&film("undo"), &key).ok();
    assert_eq!(listener.next_of("changed")["parts"], json!([cut("v2")]));
    bench.paper("R7").ok();
    let parts = listener.next_of("changed")["parts"].clone();
    assert_eq!(parts[0], json!({ "part": "roll", "roll": "R7" }));
}
