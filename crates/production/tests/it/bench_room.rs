//! The Bench room: a version begun, ticked off, told otherwise, frozen.

use std::path::Path;

use onestrand_film::Gauge;
use onestrand_production::documents::{
    BenchRoomDocument, BenchWrite, HappenedWords, OnTheBenchDocument,
};
use onestrand_production::{
    BenchSetUp, FilmChange, MeaningRequest, NewCut, Production, ProductionError, RollSheet,
    SetUpBench, StrikeRun, bench_meaning, bench_room, gather_roll_sheet, list_rolls, strip_history,
};
use onestrand_store::{Act, CutRecord, StoreError};

use crate::in_the_hand::film;

/// Shots of two rolls, crosswise.
pub(crate) const SHOTS: [(&str, u32, u32); 5] = [
    ("R2", 300, 360),
    ("R1", 1_200, 1_290),
    ("R2", 100, 172),
    ("R1", 400, 454),
    ("R2", 700, 808),
];

pub(crate) fn cut(join: &str) -> CutRecord {
    let piece = |(roll, first, thrown): (&str, u32, u32)| {
        serde_json::json!({
            "kind": "shot", "roll": roll, "first": first, "thrown": thrown, "note": ""
        })
    };
    let pieces: Vec<_> = SHOTS.into_iter().map(piece).collect();
    let record = serde_json::json!({
        "usual_join": join, "note": "", "made": "2026-11-26T10:00:00Z", "pieces": pieces
    });
    serde_json::from_value(record).expect("a cut")
}

pub(crate) fn bench(dir: &Path, join: &str) -> Production {
    let mut production = film(dir, Gauge::Super8, &["R1", "R2"]);
    let act = Act::PutCut {
        name: "v1".to_owned(),
        cut: Some(cut(join)),
    };
    production.act("v1", &act).expect("a cut");
    write(&mut production, begin()).expect("begun");
    production
}

pub(crate) fn begin() -> BenchWrite {
    BenchWrite::Begin {
        cut: "v1".to_owned(),
        pins: 4,
        tails: false,
        to_and_fro: false,
    }
}

pub(crate) fn change(
    production: &mut Production,
    change: &FilmChange,
) -> Result<(), ProductionError> {
    let (words, act) = change.act(production)?;
    production.act(&words, &act)?;
    Ok(())
}

pub(crate) fn write(production: &mut Production, write: BenchWrite) -> Result<(), ProductionError> {
    change(production, &FilmChange::AtTheBench(write))
}

pub(crate) fn told(production: &Production) -> (BenchRoomDocument, OnTheBenchDocument) {
    let room = bench_room(production).expect("a bench");
    let on = room.on_the_bench.clone().expect("v1 is on the bench");
    (room, on)
}

pub(crate) fn tick(production: &mut Production) -> Result<(), ProductionError> {
    let lines = told(production).0.lines;
    write(production, BenchWrite::Tick { lines })
}

pub(crate) fn go_ahead(production: &mut Production) {
    for roll in ["R1", "R2"] {
        let roll = roll.to_owned();
        let words = "the counter agrees".to_owned();
        write(production, BenchWrite::GoAhead { roll, words }).expect("written");
    }
}

pub(crate) fn happened(
    production: &mut Production,
    happened: HappenedWords,
) -> Result<(), ProductionError> {
    let lines = told(production).0.lines;
    let happened = vec![happened];
    write(production, BenchWrite::Happened { lines, happened })
}

pub(crate) fn hint(problem: &ProductionError) -> String {
    problem.hint()
}

#[test]
fn the_blade_waits_for_a_proved_scan_or_a_written_word() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = bench(dir.path(), "tape");
    tick(&mut production).expect("a roll is put on");
    let (_, on) = told(&production);
    assert_eq!(on.acts[0].act, "cut");
    let roll = on.acts[0].roll.clone().expect("a roll");
    assert_eq!(
        on.waits.as_ref().map(|w| w.roll.clone()),
        Some(roll.clone())
    );
    let refused = tick(&mut production).expect_err("it is not proved");
    assert!(refused.to_string().contains("not proved complete"));
    let empty = BenchWrite::GoAhead {
        roll: roll.clone(),
        words: "  ".to_owned(),
    };
    assert!(write(&mut production, empty).is_err());
    go_ahead(&mut production);
    assert_eq!(told(&production).1.waits, None);
    tick(&mut production).expect("the word is written");
    let rolls = told(&production).1.rolls;
    assert!(rolls.iter().all(|r| r.gone_ahead.is_some() && !r.proved));
}

#[test]
fn ticked_off_to_the_end_the_reel_is_the_version() {
    for (join, eaten) in [("tape", 0), ("cement", 5), ("weld", 10)] {
        let dir = tempfile::tempdir().expect("a folder");
        let mut production = bench(dir.path(), join);
        go_ahead(&mut production);
        let (_, first) = told(&production);
        assert_eq!((first.cuts.all, first.joins.all), (10, 6));
        assert!(first.minutes_left.expect("work is left") > 0.0);
        let mut ticks = 0;
        while !told(&production).1.done {
            let before = told(&production).1;
            let act = &before.acts[0];
            assert!(!act.title.is_empty() && !act.what.is_empty() && !act.tick.is_empty());
            assert_eq!(act.card.is_some(), act.act == "cut");
            tick(&mut production).expect("ticked");
            let after = told(&production).1;
            for roll in &after.rolls {
                let sum = roll.on_the_reel + roll.hanging + roll.left + roll.gone;
                assert_eq!(sum, roll.frames);
            }
            assert_eq!(
                after.acts.get(..),
                before.acts.get(1..).map(|_| &after.acts[..])
            );
            assert_eq!(after.acts.len() + 1, before.acts.len());
            ticks += 1;
            assert!(ticks < 60);
        }
        let (_, on) = told(&production);
        assert_eq!(
            (on.frames, on.planned_frames, on.reel_frames),
            (384, 384, 384)
        );
        assert_eq!((on.cuts.done, on.joins.done), (10, 6));
        let gone: u32 = on.rolls.iter().map(|r| r.gone).sum();
        assert_eq!(gone, eaten);
        assert_eq!(on.minutes_left, None);
        assert!(tick(&mut production).is_err());
    }
}

#[test]
fn a_tick_is_for_the_act_that_was_shown() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = bench(dir.path(), "tape");
    let lines = told(&production).0.lines;
    write(&mut production, BenchWrite::Tick { lines }).expect("ticked");
    let again =
        write(&mut production, BenchWrite::Tick { lines }).expect_err("it was shown before");
    assert!(matches!(
        again,
        ProductionError::Store(StoreError::Stale { .. })
    ));
}

#[test]
fn what_a_late_cut_means_is_said_before_and_after_it_is_written_down() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = bench(dir.path(), "tape");
    go_ahead(&mut production);
    tick(&mut production).expect("a roll is on");
    let (_, on) = told(&production);
    let (roll, before) = (
        on.acts[0].roll.clone().expect("a roll"),
        on.acts[0].frame.expect("a frame"),
    );
    let late = HappenedWords::Cut {
        roll: roll.clone(),
        before: before + 1,
    };
    let asked = MeaningRequest {
        happened: vec![late.clone()],
    };
    let meaning = bench_meaning(&production, &asked).expect("it can have happened");
    assert!(meaning.changes);
    assert_eq!((meaning.frames_before, meaning.frames_after), (384, 383));
    assert!(
        meaning.picture[0].contains("begins 1 frame later"),
        "{meaning:?}"
    );
    assert!(meaning.sound[0].contains("1 frame earlier"), "{meaning:?}");
    assert_eq!(told(&production).0.lines, 4);
    happened(&mut production, late).expect("written down");
    assert_eq!(told(&production).1.frames, 383);
    let life = strip_history(&production, &roll, before + 1).expect("a life");
    assert!(life.words.contains("cut before"), "{}", life.words);
}

#[test]
fn a_report_that_cannot_have_happened_is_refused_with_the_next_step() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = bench(dir.path(), "tape");
    go_ahead(&mut production);
    let cut = |roll: &str, before| HappenedWords::Cut {
        roll: roll.to_owned(),
        before,
    };
    let hung = |roll: &str, frame, pin| HappenedWords::Hung {
        roll: roll.to_owned(),
        frame,
        pin,
    };
    for (report, says) in [
        (cut("R1", 5_000), "beyond"),
        (cut("R9", 10), "not on this bench"),
        (cut("R1", 10), "not on the rewinds"),
        (hung("R1", 400, 2), "hangs together"),
        (HappenedWords::Opened { join: 3 }, "no join 3"),
        (
            HappenedWords::Torn {
                roll: "R1".to_owned(),
                first: 9,
                out: 9,
            },
            "are none",
        ),
    ] {
        let lines = told(&production).0.lines;
        let refused = happened(&mut production, report).expect_err(says);
        assert!(refused.to_string().contains(says), "{refused}");
        assert!(!hint(&refused).is_empty());
        assert_eq!(told(&production).0.lines, lines);
    }
}

#[test]
fn a_version_on_the_bench_is_frozen_and_undo_does_not_cross_it() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = bench(dir.path(), "tape");
    assert_eq!(production.next_undo().expect("asked"), None);
    let refused = production.undo().expect_err("the bench is not undone");
    assert!(matches!(refused, StoreError::ForGood { .. }));
    let remove = FilmChange::RemoveCut(onestrand_production::RemoveCut {
        cut: "v1".to_owned(),
    });
    let refused = change(&mut production, &remove).expect_err("it is on the bench");
    assert!(refused.to_string().contains("on the bench"));
    let roll = "R1".to_owned();
    assert!(change(&mut production, &FilmChange::RemoveRoll { roll }).is_err());
    // Another version may be begun from it, changed and undone.
    let new = NewCut {
        cut: "v2".to_owned(),
        from: Some("v1".to_owned()),
        ..NewCut::default()
    };
    change(&mut production, &FilmChange::NewCut(new)).expect("v2");
    production.undo().expect("v2 is undone");
    // Nothing is cut yet: it may come off, and is free again.
    write(&mut production, BenchWrite::TakeOff {}).expect("off");
    change(&mut production, &remove).expect("free again");
}

#[test]
fn a_slip_of_the_pencil_is_struck_out_and_stays_to_be_read() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = bench(dir.path(), "tape");
    go_ahead(&mut production);
    tick(&mut production).expect("a roll is on");
    let before = told(&production).1;
    tick(&mut production).expect("a cut");
    let line = told(&production).0.lines;
    let strike = BenchWrite::Strike {
        line,
        reason: "pressed twice".to_owned(),
    };
    write(&mut production, strike.clone()).expect("struck out");
    let after = told(&production).1;
    assert_eq!(after.acts, before.acts);
    assert_eq!(after.done_lines[1].struck_by, Some(line + 1));
    assert!(after.done_lines[0].words.contains("pressed twice"));
    assert!(write(&mut production, strike).is_err());
}

#[test]
fn pins_that_do_not_suffice_and_a_refused_version_are_not_begun() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = film(dir.path(), Gauge::Super8, &["R1", "R2"]);
    let mut refused = cut("cement");
    refused.pieces[1].first = Some(400);
    refused.pieces[1].thrown = Some(410);
    for (name, record) in [("v1", cut("tape")), ("v0", refused)] {
        let act = Act::PutCut {
            name: name.to_owned(),
            cut: Some(record),
        };
        production.act(name, &act).expect("a cut");
    }
    let with = |cut: &str, pins| BenchWrite::Begin {
        cut: cut.to_owned(),
        pins,
        tails: false,
        to_and_fro: false,
    };
    let few = write(&mut production, with("v1", 0)).expect_err("no pin");
    assert!(few.to_string().contains("do not suffice"), "{few}");
    assert!(hint(&few).contains("fewest"));
    let twice = write(&mut production, with("v0", 4)).expect_err("a frame is wanted twice");
    assert!(matches!(twice, ProductionError::CutRefused { .. }));
    assert!(write(&mut production, with("v7", 4)).is_err());
    let versions = bench_room(&production).expect("a bench").versions;
    let why = |name: &str| {
        versions
            .iter()
            .find(|v| v.name == name)
            .map(|v| v.why_not.is_some())
    };
    assert_eq!((why("v0"), why("v1")), (Some(true), Some(false)));
    assert!(tick_without(&mut production).is_err());
}

fn tick_without(production: &mut Production) -> Result<(), ProductionError> {
    write(production, BenchWrite::Tick { lines: 0 })
}

#[test]
fn a_strip_joined_the_wrong_way_round_is_mended_when_asked() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = bench(dir.path(), "tape");
    go_ahead(&mut production);
    while {
        let act = &told(&production).1.acts[0];
        act.act != "join" || act.outgoing.is_none()
    } {
        tick(&mut production).expect("ticked");
    }
    let act = told(&production).1.acts[0].clone();
    let incoming = act.incoming.expect("film of a roll");
    let wrong = HappenedWords::Joined {
        roll: Some(incoming.roll.clone()),
        frame: Some(incoming.frame),
        position: None,
        join: "tape".to_owned(),
        laid: "end_for_end".to_owned(),
        ends: false,
    };
    let nothing = write(&mut production, BenchWrite::Mend {}).expect_err("all is right");
    assert!(nothing.to_string().contains("as the version has it"));
    happened(&mut production, wrong).expect("written down");
    let (_, on) = told(&production);
    assert_eq!((on.wrong_joins, on.mends), (1, false));
    // It lies end for end: its first frame is seen last, and the next join is made there.
    let join = on.acts.iter().find(|a| a.act == "join").expect("a join");
    let out = join.outgoing.clone().expect("film");
    let begins = SHOTS[incoming.position.expect("it") - 1];
    let lies = (out.roll.as_str(), out.frame, out.laid.as_str());
    assert_eq!(lies, (begins.0, begins.1, "end_for_end"));
    assert!(on.acts.iter().all(|a| a.act != "open"), "only when asked");
    write(&mut production, BenchWrite::Mend {}).expect("asked");
    let (_, on) = told(&production);
    assert_eq!(on.acts[0].act, "open");
    assert!(on.acts[0].title.starts_with("Open the join R"));
    while !told(&production).1.done {
        tick(&mut production).expect("ticked");
    }
    let (_, on) = told(&production);
    assert_eq!((on.frames, on.opened.done, on.joins.done), (384, 1, 7));
    let life = strip_history(&production, &incoming.roll, incoming.frame).expect("a life");
    assert!(life.words.contains("end for end"), "{}", life.words);
    assert!(life.words.contains("its join opened"), "{}", life.words);
}

#[test]
fn the_rest_is_planned_anew_with_other_pins() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = bench(dir.path(), "tape");
    go_ahead(&mut production);
    for _ in 0..4 {
        tick(&mut production).expect("ticked");
    }
    write(&mut production, BenchWrite::PlanAnew { pins: 9 }).expect("nine pins");
    assert_eq!(told(&production).1.pins_owned, 9);
    let few = write(&mut production, BenchWrite::PlanAnew { pins: 0 }).expect_err("no pin");
    assert!(few.to_string().contains("do not suffice"), "{few}");
    while !told(&production).1.done {
        tick(&mut production).expect("ticked");
    }
    assert_eq!(told(&production).1.frames, 384);
}

#[test]
fn the_cards_know_how_film_lies_on_the_users_bench() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = bench(dir.path(), "tape");
    assert_eq!(told(&production).0.set_up, BenchSetUp::default());
    let set_up = BenchSetUp {
        up: "emulsion".to_owned(),
        head: "right".to_owned(),
        ..BenchSetUp::default()
    };
    let change_of_bench = FilmChange::SetUpBench(SetUpBench {
        bench: set_up.clone(),
    });
    change(&mut production, &change_of_bench).expect("kept");
    assert_eq!(told(&production).0.set_up, set_up);
    // R1 is a contact print, which reads right through its emulsion; R2 is not said.
    let mut record = production.roll("R1").expect("a roll");
    record.wind = Some("A".to_owned());
    let act = Act::PutRoll {
        name: "R1".to_owned(),
        roll: Some(Box::new(record)),
    };
    production.act("wind", &act).expect("kept");
    let (_, on) = told(&production);
    let prints = |roll: &str| -> Vec<bool> {
        let of_roll = on.acts.iter().filter(|a| a.roll.as_deref() == Some(roll));
        of_roll
            .filter_map(|a| a.card.as_ref())
            .map(|card| card.is_print)
            .collect()
    };
    for (roll, is_print) in [("R1", true), ("R2", false)] {
        let told = prints(roll);
        assert!(
            !told.is_empty() && told.iter().all(|one| *one == is_print),
            "{roll}: {told:?}"
        );
    }
}

/// Kind, times and whether the bench says so, of each line of a roll's ledger.
pub(crate) fn ledger(production: &Production, roll: &str) -> Vec<(String, u32, bool)> {
    let rolls = list_rolls(production).expect("rolls");
    let roll = rolls.iter().find(|r| r.roll == roll).expect("it");
    let lines = roll.ledger.iter();
    lines
        .map(|e| (e.kind.clone(), e.times, e.from_bench))
        .collect()
}

#[test]
fn what_is_ticked_at_the_bench_stands_in_the_ledger_until_it_is_struck_out() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = bench(dir.path(), "tape");
    go_ahead(&mut production);
    assert_eq!(ledger(&production, "R1"), []);
    while !told(&production).1.acts.is_empty() {
        tick(&mut production).expect("done");
    }
    // Five strips cut out of the middle of two rolls, none beside another: two cuts
    // each, two strips of R1 and three of R2; each roll came on the rewinds once.
    let from_bench = |kind: &str, times| (kind.to_owned(), times, true);
    let of_r1 = vec![from_bench("cut", 4), from_bench("wound", 1)];
    assert_eq!(ledger(&production, "R1"), of_r1);
    let of_r2 = vec![from_bench("cut", 6), from_bench("wound", 1)];
    assert_eq!(ledger(&production, "R2"), of_r2);
    let rolls = list_rolls(&production).expect("rolls");
    assert_eq!((rolls[0].handled.cuts, rolls[0].handled.wound), (4, 1));
    assert_eq!(rolls[0].handled.runs, 0, "no machine was used");

    // The join of the first two strips, R2 and R1, is opened: both rolls have it.
    happened(&mut production, HappenedWords::Opened { join: 1 }).expect("told");
    let opened = from_bench("opened", 1);
    assert!(ledger(&production, "R1").contains(&opened));
    assert!(ledger(&production, "R2").contains(&opened));
    // On paper and as rows too.
    let sheet = gather_roll_sheet(&production, RollSheet::Handling, None, false).expect("it");
    let rows = sheet.csv().csv;
    assert!(
        rows.contains(",join opened,1,,from the bench log\r\n"),
        "{rows}"
    );
    assert!(
        rows.contains(",over the rewinds,1,,from the bench log\r\n"),
        "{rows}"
    );
    assert!(rows.contains(",cut,4,,from the bench log\r\n"), "{rows}");

    // It was not opened after all: it counts back, at the bench, and only there.
    let line = told(&production).0.lines;
    let strike = FilmChange::StrikeRun(StrikeRun {
        roll: "R1".to_owned(),
        number: 0,
    });
    change(&mut production, &strike).expect_err("it has no number to be struck off by");
    let struck = BenchWrite::Strike {
        line,
        reason: String::new(),
    };
    write(&mut production, struck).expect("struck out");
    assert_eq!(ledger(&production, "R1"), of_r1);
    assert_eq!(ledger(&production, "R2"), of_r2);
}

#[test]
fn a_join_inside_a_loose_length_comes_open() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = bench(dir.path(), "cement");
    go_ahead(&mut production);
    while !told(&production).1.acts.is_empty() {
        tick(&mut production).expect("done");
    }
    assert_eq!(told(&production).1.inner_joins, []);
    // The reel comes apart behind its first shot: the four others fall off it, joined.
    happened(&mut production, HappenedWords::Opened { join: 1 }).expect("told");
    let (_, on) = told(&production);
    // Opening a cement join costs the incoming strip its first frame, so that the second
    // shot begins one later; the others show what the version has.
    let names: Vec<_> = on
        .inner_joins
        .iter()
        .map(|j| (j.join, j.words.as_str(), j.kind.as_str()))
        .collect();
    let all = [
        (1, "R1\u{b7}1289 | R2\u{b7}100", "cement"),
        (2, "R2\u{b7}171 | R1\u{b7}400", "cement"),
        (3, "R1\u{b7}453 | R2\u{b7}700", "cement"),
    ];
    assert_eq!(names, all);
    assert_eq!(
        on.inner_joins[0].frame, 1_201,
        "the length begins there now"
    );
    let second = on.inner_joins[1].clone();
    let came_open = HappenedWords::Unjoined {
        roll: second.roll,
        frame: second.frame,
        join: second.join,
    };
    let asked = MeaningRequest {
        happened: vec![came_open.clone()],
    };
    // Cement spoils the frame under the lap: it is said before it is written.
    let meaning = bench_meaning(&production, &asked).expect("it can be");
    assert!(meaning.changes, "{meaning:?}");
    assert_eq!(told(&production).1, on, "nothing was written");
    happened(&mut production, came_open).expect("told");
    let (_, after) = told(&production);
    let left: Vec<_> = after.inner_joins.iter().map(|j| j.join).collect();
    assert_eq!(left, [1, 1]);
}
