//! Limits of signs: moved, at once in force, undone, and never in the way of takes.

use onestrand_production::{FilmChange, MoveSignLimit, Production, production_document, roll_log};
use onestrand_store::Workprints;

use crate::one_roll::{clip, meta, read_once};

fn limit(production: &mut Production, limit: &str, value: Option<&str>) -> Result<(), String> {
    let change = FilmChange::MoveSignLimit(MoveSignLimit {
        limit: limit.to_owned(),
        value: value.map(str::to_owned),
    });
    let (words, act) = change.act(production).map_err(|e| e.to_string())?;
    production.act(&words, &act).map_err(|e| e.to_string())?;
    Ok(())
}

/// Kinds of all signs on the roll, in order.
fn signs(production: &Production) -> Vec<String> {
    let prints = Workprints::open(production.dir()).expect("workprints");
    let log = roll_log(production, &prints, "R1").expect("a log");
    let report = log.report.expect("it was read");
    report.signs.into_iter().map(|sign| sign.kind).collect()
}

fn value(production: &Production, name: &str) -> (f64, f64) {
    let prints = Workprints::open(production.dir()).expect("workprints");
    let all = production_document(production, &prints).expect("a document");
    let one = all.sign_limits.into_iter().find(|one| one.limit == name);
    let one = one.expect("a limit of that name");
    (one.value, one.usual)
}

#[test]
fn a_limit_is_moved_and_signs_change_at_once_and_undone_they_come_back() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = read_once(dir.path(), &clip());
    let before = signs(&production);
    let soft = |all: &[String]| all.iter().filter(|kind| *kind == "soft").count();
    limit(&mut production, "soft_below", Some("0,98")).expect("it fits");
    assert_eq!(value(&production, "soft_below"), (0.98, 0.7));
    let strict = signs(&production);
    assert!(soft(&strict) > soft(&before), "{before:?} {strict:?}");
    // No other kind is touched by it.
    let others = |all: &[String]| {
        let mut others: Vec<String> = all.iter().filter(|k| *k != "soft").cloned().collect();
        others.sort();
        others
    };
    assert_eq!(others(&strict), others(&before));
    limit(&mut production, "soft_below", None).expect("it fits");
    assert_eq!(signs(&production), before);
    production.undo().expect("undone");
    assert_eq!(signs(&production), strict);
    production.undo().expect("undone");
    assert_eq!(value(&production, "soft_below"), (0.7, 0.7));
    assert_eq!(signs(&production), before);
}

#[test]
fn signs_follow_the_takes_as_a_person_has_set_them() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = read_once(dir.path(), &clip());
    let takes = production.takes_of("R1").expect("takes");
    let change = FilmChange::BreakAt {
        roll: "R1".to_owned(),
        frame: takes[0].first + 9,
    };
    let (words, act) = change.act(&production).expect("it fits");
    production.act(&words, &act).expect("kept");
    // Judged anew by other takes: whatever is told lies within the roll.
    let prints = Workprints::open(production.dir()).expect("workprints");
    let log = roll_log(&production, &prints, "R1").expect("a log");
    let report = log.report.expect("it was read");
    let frames = log.roll.frames;
    assert!(
        report
            .signs
            .iter()
            .all(|s| s.first < s.thrown && s.thrown <= frames)
    );
}

#[test]
fn what_is_no_limit_is_refused() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = Production::create(&dir.path().join("film"), &meta()).expect("new");
    for (name, value) in [
        ("soft_below", "1.2"),
        ("soft_below", "a lot"),
        ("soft_below", "NaN"),
        ("shortest_run", "0"),
        ("shortest_run", "3.5"),
        ("goodness", "1"),
    ] {
        assert!(
            limit(&mut production, name, Some(value)).is_err(),
            "{name} {value}"
        );
    }
    limit(&mut production, "shortest_run", Some("20")).expect("it fits");
    assert_eq!(value(&production, "shortest_run"), (20.0, 12.0));
}
