//! The ledger of runs: entries made, struck off, undone, and kept with the film.

use onestrand_film::Gauge;
use onestrand_production::documents::{ConditionWords, RunDocument};
use onestrand_production::{FilmChange, InspectRoll, Production, RunRoll, StrikeRun, list_rolls};

use crate::in_the_hand::{change, film};

fn run(on: &str, through: &str, by: &str, note: &str) -> FilmChange {
    FilmChange::RunRoll(RunRoll {
        roll: "R1".to_owned(),
        on: on.to_owned(),
        through: through.to_owned(),
        by: by.to_owned(),
        note: note.to_owned(),
    })
}

fn strike(number: u32) -> FilmChange {
    FilmChange::StrikeRun(StrikeRun {
        roll: "R1".to_owned(),
        number,
    })
}

fn runs(film: &Production, roll: &str) -> Vec<RunDocument> {
    let rolls = list_rolls(film).expect("rolls");
    let found = rolls.into_iter().find(|one| one.roll == roll);
    found.expect("the roll").runs
}

fn days(film: &Production) -> Vec<(u32, String)> {
    let all = runs(film, "R1").into_iter();
    all.map(|run| (run.number, run.on)).collect()
}

#[test]
fn runs_are_listed_by_day_and_struck_off_by_number() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut film = film(dir.path(), Gauge::Super8, &["R1", "R2"]);
    assert_eq!(runs(&film, "R1"), []);
    change(
        &mut film,
        &run("2026-03-03", "projector", " Ida ", "jumped twice"),
    )
    .expect("kept");
    change(&mut film, &run("2026-02-01", "scanner", "", "")).expect("kept");
    change(&mut film, &run("2026-03-03", "viewer", "Bram", "")).expect("kept");
    let day = |number, on: &str| (number, on.to_owned());
    assert_eq!(
        days(&film),
        [
            day(2, "2026-02-01"),
            day(1, "2026-03-03"),
            day(3, "2026-03-03")
        ]
    );
    let first = RunDocument {
        number: 1,
        on: "2026-03-03".to_owned(),
        through: "projector".to_owned(),
        times: 1,
        by: "Ida".to_owned(),
        note: "jumped twice".to_owned(),
    };
    assert_eq!(runs(&film, "R1")[1], first);
    assert_eq!(runs(&film, "R2"), []);

    change(&mut film, &strike(1)).expect("struck off");
    assert_eq!(days(&film), [day(2, "2026-02-01"), day(3, "2026-03-03")]);
    film.undo().expect("undone");
    assert_eq!(days(&film).len(), 3);
    film.redo().expect("done again");
    assert_eq!(days(&film).len(), 2);
}

#[test]
fn the_ledger_outlives_an_inspection_and_another_opening() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut one = film(dir.path(), Gauge::Super8, &["R1"]);
    change(&mut one, &run("2026-03-03", "viewer", "Ida", "")).expect("kept");
    let inspect = InspectRoll {
        roll: "R1".to_owned(),
        accession: "2026/7".to_owned(),
        lies: "tails".to_owned(),
        condition: ConditionWords::default(),
    };
    change(&mut one, &FilmChange::InspectRoll(inspect)).expect("inspected");
    drop(one);
    let again = Production::open(dir.path()).expect("opened");
    assert_eq!(days(&again), [(1, "2026-03-03".to_owned())]);
}

#[test]
fn what_was_not_run_is_refused_in_words_and_nothing_is_written() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut film = film(dir.path(), Gauge::Super8, &["R1"]);
    for (wrong, said) in [
        (run("3 March", "projector", "", ""), "is no day"),
        (run("2026-02-30", "projector", "", ""), "is no day"),
        (run("9026-01-01", "projector", "", ""), "has not come yet"),
        (run("2026-03-03", "lantern", "", ""), "is no machine"),
        (
            run("2026-03-03", "viewer", "", &"n".repeat(4001)),
            "longer than",
        ),
        (strike(1), "no run 1 of R1 is written down"),
    ] {
        let refused = change(&mut film, &wrong).expect_err("refused");
        assert!(refused.contains(said), "{refused}");
    }
    assert_eq!(days(&film), []);
}
