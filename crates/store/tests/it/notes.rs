//! Notes on film frames.

use onestrand_store::{Act, NoteRecord, Production};

use crate::owner::meta;

fn note(roll: &str, frame: u32, words: &str) -> NoteRecord {
    NoteRecord {
        roll: roll.to_owned(),
        frame,
        words: words.to_owned(),
        writer: "Ida".to_owned(),
        made: "2026-01-01T00:00:00Z".to_owned(),
    }
}

fn put(production: &mut Production, note: NoteRecord) -> i64 {
    let id = production.next_note_id().expect("a number");
    let act = Act::PutNote {
        id,
        note: Some(note),
    };
    production.act("a note", &act).expect("kept");
    id
}

#[test]
fn notes_lie_in_the_order_of_the_film_and_outlive_the_program() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = Production::create(dir.path(), &meta()).expect("new");
    let late = note("R1", 900, "too dark");
    let other = note("R2", 3, "the boat");
    let early = note("R1", 20, "first");
    let again = note("R1", 20, "second");
    for one in [&late, &other, &early, &again] {
        put(&mut production, one.clone());
    }
    drop(production);
    let production = Production::open(dir.path()).expect("open again");
    assert_eq!(
        production.notes().expect("notes"),
        [
            (3, early.clone()),
            (4, again.clone()),
            (1, late.clone()),
            (2, other)
        ]
    );
    assert_eq!(
        production.notes_of("R1").expect("notes"),
        [(3, early), (4, again), (1, late)]
    );
    assert_eq!(production.notes_of("R3").expect("notes"), []);
}

#[test]
fn a_note_taken_away_comes_back_under_its_number_and_never_hands_it_on() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = Production::create(dir.path(), &meta()).expect("new");
    let first = note("R1", 20, "first");
    let id = put(&mut production, first.clone());
    let act = Act::PutNote { id, note: None };
    production.act("away", &act).expect("kept");
    assert_eq!(production.notes().expect("notes"), []);
    assert!(production.next_note_id().expect("a number") > id);
    production.undo().expect("undone");
    assert_eq!(production.notes().expect("notes"), [(id, first.clone())]);
    let act = Act::PutNote {
        id,
        note: Some(note("R1", 20, "other words")),
    };
    production.act("reworded", &act).expect("kept");
    production.undo().expect("undone");
    assert_eq!(production.notes().expect("notes"), [(id, first)]);
    production.redo().expect("redone");
    assert_eq!(production.notes().expect("notes")[0].1.words, "other words");
    // Undone to before it was ever made: its number is still its own.
    while production.undo().is_ok() {}
    let next = put(&mut production, note("R1", 21, "another"));
    assert_eq!(next, id + 1);
}
