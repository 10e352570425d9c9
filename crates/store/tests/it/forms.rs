//! Files saved by the program of an earlier form.

use std::path::Path;

use onestrand_store::{
    Act, DubKind, DubRecord, EdgeNumberRecord, EdgeRecord, InspectionRecord, NoteRecord,
    Production, ScriptPart, ScriptRecord, SetupRecord, TitleRecord,
};
use rusqlite::Connection;

const FORM_1: &str = include_str!("../saved/form-1.sql");
const FORM_5: &str = include_str!("../saved/form-5.sql");
const FORM_7: &str = include_str!("../saved/form-7.sql");
const FORM_8: &str = include_str!("../saved/form-8.sql");
const FORM_9: &str = include_str!("../saved/form-9.sql");
const FORM_10: &str = include_str!("../saved/form-10.sql");

fn saved(dir: &Path, text: &str) {
    Connection::open(dir.join("production.db"))
        .expect("a file")
        .execute_batch(text)
        .expect("written as it was saved");
}

fn form(file: &Path) -> i64 {
    let db = Connection::open(file).expect("a file");
    db.query_row("PRAGMA user_version", [], |r| r.get(0))
        .expect("a form")
}

#[test]
fn a_production_of_form_1_keeps_everything_and_takes_notes() {
    let dir = tempfile::tempdir().expect("a folder");
    saved(dir.path(), FORM_1);
    let mut production = Production::open(dir.path()).expect("brought forward");
    assert_eq!(production.meta().title, "Saved by form 1");
    assert_eq!(production.revision().expect("a revision").number(), 8);
    let rolls: Vec<_> = production.rolls().expect("rolls");
    assert_eq!(
        rolls
            .iter()
            .map(|r| (r.name.as_str(), r.frames))
            .collect::<Vec<_>>(),
        [("R1", 3600), ("R2", 54)]
    );
    assert_eq!(rolls[1].scans[0].paths, ["/films/R2.mkv"]);
    let takes = production.takes_of("R2").expect("takes");
    assert_eq!(takes.len(), 1);
    assert!(!takes[0].looked, "nobody has looked at where it begins");
    assert_eq!(takes[0].pin, Some(1), "it hangs in the order of the rolls");
    assert_eq!(rolls[1].inspection, InspectionRecord::default());
    assert_eq!(production.reels().expect("reels"), []);
    assert_eq!(production.cut_names().expect("cuts"), ["v1", "v2"]);
    assert_eq!(production.jobs().expect("jobs").len(), 1);
    assert_eq!(production.notes().expect("notes"), []);
    // What was done in the older form is undone and done again in this one.
    assert_eq!(
        production.next_redo().expect("asked").as_deref(),
        Some("bring in cut v3")
    );
    production.redo().expect("redone");
    assert_eq!(production.cut("v3").expect("a cut").pieces.len(), 1);
    while production.undo().is_ok() {}
    assert_eq!(production.rolls().expect("rolls"), []);
    let note = Act::PutNote {
        id: production.next_note_id().expect("a number"),
        note: Some(NoteRecord {
            roll: "R1".to_owned(),
            frame: 12,
            words: "her hand".to_owned(),
            writer: String::new(),
            made: "2026-11-25T16:04:06Z".to_owned(),
        }),
    };
    production.act_once("k", "a note", &note).expect("kept");
    drop(production);
    assert!(form(&dir.path().join("production.db")) >= 6);
    assert_eq!(form(&dir.path().join("production-before-form-2.db")), 1);
    assert_eq!(form(&dir.path().join("production-before-form-3.db")), 2);
    assert_eq!(form(&dir.path().join("production-before-form-4.db")), 3);
    assert_eq!(form(&dir.path().join("production-before-form-5.db")), 4);
}

/// Form 5 knew runs alone and no hubs: what stands there is a run, also when it is
/// undone and done again.
#[test]
fn a_production_of_form_5_keeps_its_runs_and_reels() {
    let dir = tempfile::tempdir().expect("a folder");
    saved(dir.path(), FORM_5);
    let mut production = Production::open(dir.path()).expect("brought forward");
    let ledger = |production: &Production| {
        let roll = production.roll("R1").expect("the roll");
        let said = roll.inspection.ledger.into_iter();
        said.map(|e| (e.kind, e.on, e.through, e.times, e.by, e.note))
            .collect::<Vec<_>>()
    };
    let ran = (
        "run".to_owned(),
        "2026-03-03".to_owned(),
        "viewer".to_owned(),
        1,
        "Ida".to_owned(),
        "the join at the head is weak".to_owned(),
    );
    assert_eq!(ledger(&production), std::slice::from_ref(&ran));
    let reel = production.reel("club reel").expect("the reel");
    assert_eq!((reel.feet, reel.hub_mm), (Some(50), None));
    assert_eq!(reel.wound.len(), 1);
    production.undo().expect("the reel is undone");
    production.undo().expect("the run is undone");
    assert_eq!(ledger(&production), []);
    production.redo().expect("and done again");
    assert_eq!(ledger(&production), [ran]);
    drop(production);
    assert_eq!(form(&dir.path().join("production-before-form-6.db")), 5);
}

/// Form 7 knew no edge numbers: what was found on a roll stays, and numbers go beside it.
#[test]
fn a_production_of_form_7_keeps_what_was_found_and_takes_edge_numbers() {
    let dir = tempfile::tempdir().expect("a folder");
    saved(dir.path(), FORM_7);
    let mut production = Production::open(dir.path()).expect("brought forward");
    let mut roll = production.roll("R1").expect("the roll");
    assert_eq!(roll.gauge, "16");
    let joins: Vec<_> = roll
        .inspection
        .joins
        .iter()
        .map(|j| (j.frame, j.kind.as_str()))
        .collect();
    assert_eq!(joins, [(720, "cement")]);
    assert_eq!(roll.inspection.edge, EdgeRecord::default());
    assert_eq!(production.bench_lines().expect("the log").len(), 2);
    roll.inspection.edge = EdgeRecord {
        step: 20,
        read: vec![EdgeNumberRecord {
            frame: 100,
            number: "4127".to_owned(),
        }],
    };
    let edge = roll.inspection.edge.clone();
    let act = Act::PutRoll {
        name: "R1".to_owned(),
        roll: Some(Box::new(roll)),
    };
    production.act("an edge number", &act).expect("kept");
    drop(production);
    let mut production = Production::open(dir.path()).expect("opened again");
    assert_eq!(production.roll("R1").expect("it").inspection.edge, edge);
    production.undo().expect("undone");
    assert_eq!(
        production.roll("R1").expect("it").inspection.edge,
        EdgeRecord::default()
    );
    drop(production);
    assert_eq!(form(&dir.path().join("production-before-form-8.db")), 7);
    assert!(form(&dir.path().join("production.db")) >= 8);
}

#[test]
fn a_production_of_form_8_keeps_its_edge_numbers_and_takes_a_script() {
    let dir = tempfile::tempdir().expect("a folder");
    saved(dir.path(), FORM_8);
    let mut production = Production::open(dir.path()).expect("brought forward");
    let roll = production.roll("R1").expect("the roll");
    assert_eq!(roll.inspection.edge.read[0].number, "4127");
    assert_eq!(production.script().expect("the script"), []);
    let setup = ScriptPart::Setup(SetupRecord::default());
    let part = ScriptRecord {
        place: 1,
        part: setup,
    };
    let act = Act::PutScript {
        id: production.next_script_id().expect("a number"),
        part: Some(Box::new(part.clone())),
    };
    production.act("a setup", &act).expect("kept");
    assert_eq!(production.script().expect("the script"), [(1, part)]);
    drop(production);
    assert_eq!(form(&dir.path().join("production-before-form-9.db")), 8);
    assert!(form(&dir.path().join("production.db")) >= 9);
}

#[test]
fn a_production_of_form_9_keeps_its_script_and_takes_titles() {
    let dir = tempfile::tempdir().expect("a folder");
    saved(dir.path(), FORM_9);
    let mut production = Production::open(dir.path()).expect("brought forward");
    let script = production.script().expect("the script");
    let ScriptPart::Scene(scene) = &script[0].1.part else {
        panic!("a scene: {script:?}");
    };
    assert_eq!(scene.heading, "INT. SHED - DAY");
    assert_eq!(production.titles().expect("the titles"), []);
    let title = TitleRecord {
        place: 1,
        body: "{\"name\":\"M\"}".to_owned(),
    };
    let act = Act::PutTitle {
        id: production.next_title_id().expect("a number"),
        title: Some(title.clone()),
    };
    production.act("a title", &act).expect("kept");
    assert_eq!(production.titles().expect("the titles"), [(1, title)]);
    drop(production);
    assert_eq!(form(&dir.path().join("production-before-form-10.db")), 9);
    assert!(form(&dir.path().join("production.db")) >= 10);
}

#[test]
fn a_production_of_form_10_keeps_its_title_and_takes_sounds() {
    let dir = tempfile::tempdir().expect("a folder");
    saved(dir.path(), FORM_10);
    let mut production = Production::open(dir.path()).expect("brought forward");
    assert_eq!(production.meta().title, "Saved by form 10");
    let titles = production.titles().expect("the titles");
    assert!(titles[0].1.body.contains("The Ten-Past Boat"), "{titles:?}");
    assert_eq!(production.dub(DubKind::Sound).expect("sounds"), []);
    let bell = DubRecord {
        kind: DubKind::Sound,
        place: 1,
        body: "{\"name\":\"bell\"}".to_owned(),
    };
    let act = Act::PutDub {
        id: production.next_dub_id().expect("a number"),
        part: Some(Box::new(bell.clone())),
    };
    production.act("a sound", &act).expect("kept");
    assert_eq!(production.dub(DubKind::Sound).expect("it"), [(1, bell)]);
    drop(production);
    assert_eq!(form(&dir.path().join("production-before-form-11.db")), 10);
    assert!(form(&dir.path().join("production.db")) >= 11);
}
