//! What a person has decided of the breaks of a roll stays, however often the
//! roll is read.

use onestrand_intake::Cancel;
use onestrand_production::documents::TakeWords;
use onestrand_production::{FilmChange, LostWorkprint, Production, Quiet, add_roll, carry_on};
use onestrand_store::{JobKind, TakeRecord};

use crate::one_roll::{clip, read_once, request};

fn change(production: &mut Production, change: &FilmChange) {
    let (words, act) = change.act(production).expect("it fits");
    production.act(&words, &act).expect("kept");
}

fn takes(production: &Production) -> Vec<TakeRecord> {
    production.takes_of("R1").expect("takes")
}

fn starts(takes: &[TakeRecord]) -> Vec<u32> {
    takes.iter().map(|take| take.first).collect()
}

/// Sets a break, mends another, moves a third, and says what a take is.
fn decide(production: &mut Production) {
    let roll = || "R1".to_owned();
    let found = starts(&takes(production));
    assert!(found.len() > 4, "the clip has its stops: {found:?}");
    let set = found[0] + 9;
    change(
        production,
        &FilmChange::BreakAt {
            roll: roll(),
            frame: set,
        },
    );
    change(
        production,
        &FilmChange::MendBreak {
            roll: roll(),
            frame: found[1],
        },
    );
    let (frame, to) = (found[2], found[2] + 5);
    change(
        production,
        &FilmChange::MoveBreak {
            roll: roll(),
            frame,
            to,
        },
    );
    let words = TakeWords {
        setup: Some("3A".to_owned()),
        take: Some(2),
        rating: "circled".to_owned(),
        ..TakeWords::default()
    };
    change(
        production,
        &FilmChange::NameTake {
            roll: roll(),
            first: to,
            words,
        },
    );
    let now = starts(&takes(production));
    assert!(now.contains(&set) && now.contains(&to), "{now:?}");
    assert!(
        !now.contains(&found[1]) && !now.contains(&found[2]),
        "{now:?}"
    );
}

#[test]
fn a_second_reading_moves_no_break_that_a_person_has_set_moved_or_mended() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = read_once(dir.path(), &clip());
    decide(&mut production);
    let decided = takes(&production);
    // The workprint is thrown away, and the scan read again for a new one.
    std::fs::remove_dir_all(production.dir().join("workprints")).expect("thrown away");
    let lost = LostWorkprint::of(&production, "R1").expect("known");
    let lost = lost.expect("the workprint is gone");
    lost.make_again(&Cancel::new(), &mut Quiet)
        .expect("read again");
    assert!(
        LostWorkprint::of(&production, "R1")
            .expect("known")
            .is_none(),
        "it is there"
    );
    assert_eq!(takes(&production), decided);
    // A name that is taken is not read over.
    let again = add_roll(
        &mut production,
        &request(&clip()),
        &Cancel::new(),
        &mut Quiet,
    );
    assert!(again.is_err(), "R1 is there already");
    assert_eq!(takes(&production), decided);
}

#[test]
fn a_reading_carried_on_after_a_kill_moves_none_either() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = read_once(dir.path(), &clip());
    decide(&mut production);
    let decided = takes(&production);
    // A job that was killed after its roll was kept, before its end was written.
    let params = serde_json::to_string(&request(&clip())).expect("words");
    production
        .begin_job(JobKind::Read, "read R1", &params)
        .expect("written down");
    let film = production.dir().to_owned();
    drop(production);
    let mut production = Production::open(&film).expect("opened again");
    let carried = carry_on(&mut production, &Cancel::new(), &mut Quiet);
    assert_eq!(carried.expect("carried on"), 1);
    assert_eq!(takes(&production), decided);
}

#[test]
fn a_moved_break_leaves_both_takes_their_words_and_one_frame() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = read_once(dir.path(), &clip());
    decide(&mut production);
    let named = takes(&production)
        .iter()
        .position(|take| take.setup.is_some())
        .expect("one take has a name");
    let before = takes(&production);
    let (frame, earliest) = (before[named].first, before[named - 1].first + 1);
    let moved = |to| FilmChange::MoveBreak {
        roll: "R1".to_owned(),
        frame,
        to,
    };
    for to in [earliest - 1, before[named].thrown, frame, u32::MAX] {
        assert!(moved(to).act(&production).is_err(), "to {to}");
    }
    change(&mut production, &moved(earliest));
    let after = takes(&production);
    assert_eq!(after.len(), before.len());
    assert_eq!(
        (after[named - 1].thrown, after[named].first),
        (earliest, earliest)
    );
    assert_eq!(after[named].setup, before[named].setup);
    production.undo().expect("undone");
    assert_eq!(takes(&production), before);
}
