//! Looking at a production on the shelf without opening it.

use onestrand_store::{
    Act, Production, RollRecord, SceneRecord, ScriptPart, ScriptRecord, TakeRecord, Workprints,
};
use rusqlite::Connection;

use crate::journal::{roll, take};
use crate::owner::meta;

#[test]
fn what_each_film_is_at_is_seen_while_it_is_open_elsewhere() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut film = Production::create(dir.path(), &meta()).expect("a film");
    let bare = Production::peek(dir.path()).expect("looked at");
    assert_eq!((bare.proved, bare.takes, bare.scenes), (0, 0, 0));
    assert_eq!((bare.newest_cut, bare.face), (None, None));

    let short = RollRecord {
        expected: Some(3_600),
        ..roll("R2", 3_590)
    };
    let said = RollRecord {
        expected: None,
        proved_by: Some("the hand".to_owned()),
        ..roll("R3", 40)
    };
    for record in [roll("R1", 3_600), short, said] {
        let act = Act::PutRoll {
            name: record.name.clone(),
            roll: Some(Box::new(record)),
        };
        film.act("a roll", &act).expect("kept");
    }
    let plain = TakeRecord {
        rating: "none".to_owned(),
        ..take(0)
    };
    let takes = vec![plain, take(100)];
    let act = Act::PutTakes {
        roll: "R1".to_owned(),
        takes,
    };
    film.act("takes", &act).expect("kept");
    let part = ScriptRecord {
        place: 0,
        part: ScriptPart::Scene(SceneRecord::default()),
    };
    let id = film.next_script_id().expect("a number");
    let part = Some(Box::new(part));
    film.act("a scene", &Act::PutScript { id, part })
        .expect("kept");

    let seen = Production::peek(dir.path()).expect("looked at");
    assert_eq!((seen.rolls, seen.proved, seen.takes), (3, 2, 2));
    assert_eq!((seen.scenes, seen.setups), (1, 0));
    assert_eq!(seen.face, Some(("R1".to_owned(), 105)), "the circled one");
}

#[test]
fn a_film_of_form_1_is_looked_at_and_left_as_it_is() {
    let dir = tempfile::tempdir().expect("a folder");
    let file = dir.path().join("production.db");
    let saved = Connection::open(&file).expect("a file");
    saved
        .execute_batch(include_str!("../saved/form-1.sql"))
        .expect("as it was saved");
    let seen = Production::peek(dir.path()).expect("looked at");
    assert_eq!((seen.rolls, seen.cuts, seen.scenes), (2, 2, 0));
    assert!(seen.newest_cut.is_some() && seen.face.is_some());
    let form: i64 = saved
        .query_row("PRAGMA user_version", [], |r| r.get(0))
        .expect("a form");
    assert_eq!(form, 1);
}

#[test]
fn workprints_that_are_not_there_are_not_made_by_looking() {
    let dir = tempfile::tempdir().expect("a folder");
    assert!(Workprints::if_there(dir.path()).expect("looked").is_none());
    assert_eq!(std::fs::read_dir(dir.path()).expect("a folder").count(), 0);
    Workprints::open(dir.path()).expect("made");
    assert!(Workprints::if_there(dir.path()).expect("looked").is_some());
}
