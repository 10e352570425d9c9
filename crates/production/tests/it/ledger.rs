//! The ledger of an original: runs, cleanings, cuts, repairs, and what they come to.

use onestrand_film::Gauge;
use onestrand_production::{
    FilmChange, HandleRoll, RollSheet, StrikeRun, gather_roll_sheet, list_rolls,
};

use crate::in_the_hand::{change, film};

fn entry(kind: &str, on: &str, through: &str, times: u32) -> FilmChange {
    FilmChange::HandleRoll(HandleRoll {
        roll: "R1".to_owned(),
        kind: kind.to_owned(),
        on: on.to_owned(),
        through: through.to_owned(),
        times,
        by: "Ida".to_owned(),
        note: String::new(),
    })
}

#[test]
fn every_kind_is_summed_and_a_run_stays_a_run() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut film = film(dir.path(), Gauge::Super8, &["R1", "R2"]);
    for (kind, on, through, times) in [
        ("run", "2026-03-03", "projector", 2),
        ("run", "2026-03-01", "scanner", 1),
        ("cleaning", "2026-03-02", "", 1),
        ("cut", "2026-03-05", "", 12),
        ("opened", "2026-03-06", "", 3),
        ("repair", "2026-03-06", "", 1),
        ("inspection", "2026-03-07", "", 1),
    ] {
        change(&mut film, &entry(kind, on, through, times)).expect("kept");
    }
    let rolls = list_rolls(&film).expect("rolls");
    let sums = &rolls[0].handled;
    assert_eq!(
        (sums.runs, sums.by_projector, sums.by_viewer, sums.scans),
        (3, 2, 0, 1)
    );
    assert_eq!(
        (
            sums.cleanings,
            sums.cuts,
            sums.joins_opened,
            sums.repairs,
            sums.inspections
        ),
        (1, 12, 3, 1, 1)
    );
    assert_eq!(rolls[0].ledger.len(), 7);
    assert_eq!(rolls[0].ledger[0].on, "2026-03-01", "the first day first");
    // What asks for runs alone gets no cleanings.
    let machines: Vec<_> = rolls[0]
        .runs
        .iter()
        .map(|run| run.through.as_str())
        .collect();
    assert_eq!(machines, ["scanner", "projector"]);
    assert_eq!(rolls[1].ledger, []);

    let number = rolls[0]
        .ledger
        .iter()
        .find(|e| e.kind == "cut")
        .expect("it")
        .number;
    let strike = FilmChange::StrikeRun(StrikeRun {
        roll: "R1".to_owned(),
        number,
    });
    change(&mut film, &strike).expect("struck off");
    assert_eq!(list_rolls(&film).expect("rolls")[0].handled.cuts, 0);
    film.undo().expect("undone");
    assert_eq!(list_rolls(&film).expect("rolls")[0].handled.cuts, 12);
}

#[test]
fn what_cannot_have_been_is_refused() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut film = film(dir.path(), Gauge::Super8, &["R1"]);
    for (wrong, said) in [
        (entry("ironing", "2026-03-03", "", 1), "no kind of handling"),
        (entry("run", "2026-03-03", "", 1), "no machine"),
        (entry("cut", "2026-03-03", "projector", 1), "only a run"),
        (entry("cut", "2026-03-03", "", 0), "0 times"),
        (entry("cut", "2026-03-03", "", 1000), "1000 times"),
        (entry("cut", "2026-02-30", "", 1), "is no day"),
        (entry("cut", "9026-01-01", "", 1), "has not come yet"),
    ] {
        let refused = change(&mut film, &wrong).expect_err("refused");
        assert!(refused.contains(said), "{refused}");
    }
    assert_eq!(list_rolls(&film).expect("rolls")[0].ledger, []);
}

#[test]
fn the_printed_ledger_says_what_was_written_down() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut film = film(dir.path(), Gauge::Super8, &["R1", "R2"]);
    change(&mut film, &entry("run", "2026-03-03", "viewer", 1)).expect("kept");
    change(&mut film, &entry("cut", "2026-03-01", "", 12)).expect("kept");
    let sheet = gather_roll_sheet(&film, RollSheet::Handling, None, false).expect("gathered");
    let rows = sheet.csv();
    assert_eq!(rows.file_name, "rolls-handling-ledger.csv");
    assert_eq!(
        rows.csv,
        "roll,on,what,times,by,note\r\nR1,2026-03-01,cut,12,Ida,\r\n\
         R1,2026-03-03,through the viewer,1,Ida,\r\n"
    );
    assert_eq!(sheet.print().expect("printed").pages.len(), 1);
}
