//! Changes sent twice, and what a change touches.

use std::collections::BTreeSet;

use onestrand_store::{
    Act, ChangeRecord, CutRecord, Kept, Lately, Production, Revision, StoreError, Touched,
};

use crate::journal::roll;
use crate::owner::meta;

fn put_roll(frames: u32) -> Act {
    Act::PutRoll {
        name: "R1".to_owned(),
        roll: Some(Box::new(roll("R1", frames))),
    }
}

fn frames(production: &Production) -> u32 {
    production.roll("R1").expect("a roll").frames
}

#[test]
fn a_change_sent_again_after_a_lost_answer_is_carried_out_once() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = Production::create(dir.path(), &meta()).expect("new");
    production.act("R1", &put_roll(10)).expect("kept");
    let first = production
        .act_once("page-1", "R1 is longer", &put_roll(20))
        .expect("kept");
    assert_eq!(
        first,
        Kept {
            revision: Revision::new(2),
            already: false
        }
    );
    production.act("R1 again", &put_roll(30)).expect("kept");
    drop(production);
    let mut production = Production::open(dir.path()).expect("open again");
    let again = production
        .act_once("page-1", "R1 is longer", &put_roll(20))
        .expect("known");
    assert_eq!(
        again,
        Kept {
            revision: Revision::new(2),
            already: true
        }
    );
    assert_eq!(frames(&production), 30);
    assert_eq!(production.revision().expect("a revision").number(), 3);
    assert_eq!(production.journal(9).expect("journal").len(), 3);
    let told = production.kept("page-1").expect("asked").expect("known");
    assert_eq!(told.words, "R1 is longer");
    assert_eq!(
        told.touched,
        BTreeSet::from([Touched::Roll("R1".to_owned())])
    );
    assert_eq!(production.kept("page-2").expect("asked"), None);
}

#[test]
fn a_step_sent_twice_is_one_step() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = Production::create(dir.path(), &meta()).expect("new");
    for n in [10, 20, 30] {
        production.act(&format!("{n}"), &put_roll(n)).expect("kept");
    }
    let undone = production.undo_once(Some("u1")).expect("undone");
    assert_eq!((undone.words.as_str(), undone.already), ("30", false));
    assert_eq!(undone.revision, Revision::new(4));
    let again = production.undo_once(Some("u1")).expect("known");
    assert_eq!((again.words.as_str(), again.already), ("30", true));
    assert_eq!(
        (again.revision, &again.touched),
        (undone.revision, &undone.touched)
    );
    assert_eq!(frames(&production), 20);
    let other = production.undo_once(Some("u2")).expect("undone");
    assert_eq!(other.words, "20");
    let redone = production.redo_once(Some("r1")).expect("redone");
    assert_eq!((redone.words.as_str(), frames(&production)), ("20", 20));
    assert!(production.redo_once(Some("r1")).expect("known").already);
    assert_eq!(frames(&production), 20);
    // Without a key each is a step of its own.
    production.redo_once(None).expect("redone");
    assert_eq!(frames(&production), 30);
    assert!(matches!(
        production.redo_once(None),
        Err(StoreError::NothingTo { what: "redo" })
    ));
}

#[test]
fn a_refused_change_leaves_no_key() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = Production::create(dir.path(), &meta()).expect("new");
    let lift = Act::ChangeCut {
        name: "v1".to_owned(),
        change: ChangeRecord::Remove { at: 0 },
    };
    assert!(production.act_once("k", "lift", &lift).is_err());
    assert!(production.undo_once(Some("k")).is_err());
    assert_eq!(production.kept("k").expect("asked"), None);
    let kept = production.act_once("k", "R1", &put_roll(5)).expect("kept");
    assert!(!kept.already);
}

/// Also of changes without a key, and of those made before it was opened anew.
#[test]
fn what_every_change_has_touched_is_known() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = Production::create(dir.path(), &meta()).expect("new");
    assert_eq!(production.lately().expect("asked"), Lately::default());
    production.act("R1", &put_roll(10)).expect("kept");
    let note = Act::PutNote { id: 1, note: None };
    production.act_once("k", "no note", &note).expect("kept");
    production.undo().expect("undone");
    drop(production);
    let production = Production::open(dir.path()).expect("open again");
    let roll = BTreeSet::from([Touched::Roll("R1".to_owned())]);
    let notes = BTreeSet::from([Touched::Notes]);
    let told = production.lately().expect("asked");
    assert_eq!(told.after, Revision::new(0));
    let touched: Vec<_> = told.touched.iter().map(|(r, t)| (r.number(), t)).collect();
    assert_eq!(touched, [(3, &notes), (2, &notes), (1, &roll)]);
}

#[test]
fn an_act_says_what_it_touches_and_so_does_its_undoing() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = Production::create(dir.path(), &meta()).expect("new");
    let cut = CutRecord {
        usual_join: "tape".to_owned(),
        note: String::new(),
        made: "2026-01-01T00:00:00Z".to_owned(),
        pieces: vec![],
    };
    let all = Act::All {
        acts: vec![
            put_roll(10),
            Act::PutTakes {
                roll: "R1".to_owned(),
                takes: vec![],
            },
            Act::PutCut {
                name: "v1".to_owned(),
                cut: Some(cut),
            },
            Act::ChangeCut {
                name: "v1".to_owned(),
                change: ChangeRecord::UsualJoin {
                    join: "weld".to_owned(),
                },
            },
            Act::PutNote { id: 1, note: None },
        ],
    };
    let touched = BTreeSet::from([
        Touched::Roll("R1".to_owned()),
        Touched::Takes("R1".to_owned()),
        Touched::Cut("v1".to_owned()),
        Touched::Notes,
    ]);
    assert_eq!(all.touches(), touched);
    production.act("all", &all).expect("kept");
    assert_eq!(production.undo_once(None).expect("undone").touched, touched);
}

#[test]
fn the_next_steps_are_told_in_their_words() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = Production::create(dir.path(), &meta()).expect("new");
    let next = |p: &Production| (p.next_undo().expect("asked"), p.next_redo().expect("asked"));
    assert_eq!(next(&production), (None, None));
    production.act("ten", &put_roll(10)).expect("kept");
    production.act("twenty", &put_roll(20)).expect("kept");
    production.undo().expect("undone");
    assert_eq!(
        next(&production),
        (Some("ten".to_owned()), Some("twenty".to_owned()))
    );
    production.undo().expect("undone");
    assert_eq!(next(&production), (None, Some("ten".to_owned())));
    production.act("thirty", &put_roll(30)).expect("kept");
    assert_eq!(next(&production), (Some("thirty".to_owned()), None));
}
