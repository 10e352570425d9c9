//! The shooting script of a film: brought in, changed, planned.

use std::path::Path;

use onestrand_film::{Fps, Gauge};
use onestrand_production::documents::{
    ActionWords, PlanDocument, RecceWords, SceneWords, ScriptDocument, SetupWords, ShownWords,
    StockWords,
};
use onestrand_production::{
    Cancel, FilmChange, LogReading, Meta, PaperRoll, PlanAsked, Production, ProductionError, Quiet,
    ScriptChange, ScriptChangeKind, add_paper_roll, export_script, import_log_text,
    import_script_text, keep_photograph, photograph, plan_film, script_document,
    write_example_script,
};

use crate::in_the_hand::{change, film};

pub(crate) fn boat(dir: &Path) -> Production {
    let meta = Meta {
        title: "The Ten-Past Boat".to_owned(),
        gauge: Gauge::Super8,
        speed: Fps::EIGHTEEN,
    };
    let mut production = Production::create(dir, &meta).expect("new");
    for roll in ["R1", "R2", "R3"] {
        let paper = PaperRoll {
            roll: roll.to_owned(),
            frames: 3600,
            gauge: None,
            base: "triacetate".to_owned(),
            fit: "project".to_owned(),
            wind: None,
        };
        add_paper_roll(&mut production, &paper).expect("added");
    }
    assert!(write_example_script(&mut production).expect("written"));
    assert!(!write_example_script(&mut production).expect("there already"));
    production
}

fn script(production: &Production) -> ScriptDocument {
    script_document(production).expect("a script")
}

fn plan(production: &Production, asked: &PlanAsked) -> Result<PlanDocument, ProductionError> {
    plan_film(production, asked, &Cancel::new(), &mut Quiet)
}

pub(crate) fn said(
    production: &mut Production,
    id: Option<i64>,
    after: Option<i64>,
    to: ScriptChangeKind,
) -> Result<(), String> {
    let to = FilmChange::Script(Box::new(ScriptChange { id, after, to }));
    change(production, &to)
}

fn problems(error: &ProductionError) -> Vec<(u64, String, String)> {
    let ProductionError::Import { problems, .. } = error else {
        panic!("{error}")
    };
    let all = problems.iter();
    all.map(|p| (p.line, p.column.clone(), p.message.clone()))
        .collect()
}

/// Story 1, worked out beforehand outside of this program.
#[test]
fn the_budget_of_the_boat_is_that_of_the_story() {
    let dir = tempfile::tempdir().expect("a folder");
    let production = boat(dir.path());
    let asked = PlanAsked {
        load: Some(3552),
        run_up: Some(24),
        one_more: Some("5".to_owned()),
        ..PlanAsked::default()
    };
    let plan = plan(&production, &asked).expect("a plan");
    assert_eq!((plan.takes, plan.frames, plan.rolls), (33, 10_593, 3));
    assert_eq!((plan.moved, plan.spare), (3, 63));
    assert_eq!((plan.rolls_at_least, plan.moved_at_least), (3, 3));
    assert_eq!(plan.script_order.rolls, 4);
    assert_eq!(plan.script_order.frames, [3516, 3384, 3384, 309]);
    assert_eq!(plan.lasts, "10:00.0");
    let coverage = &plan.coverage;
    assert_eq!((coverage.actions, coverage.covered), (15, 15));
    assert_eq!(coverage.single_setup.len(), 9);
    assert_eq!(coverage.single_take, ["5a", "5c"]);
    assert_eq!(coverage.fewest_setups, 9);
    // 33 takes and one more of 5: 10,593 + 438 = 11,031 are more than three loads hold.
    let more = &plan.one_more[0];
    assert_eq!(
        (more.setup.as_str(), more.frames, more.rolls_more),
        ("5", 438, 1)
    );
    assert_eq!(plan.shot, None, "no take has a slate yet");
}

/// Story 2, worked out beforehand outside of this program.
#[test]
fn before_the_set_is_struck_a_retake_of_five_leaves_the_titles_short() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = boat(dir.path());
    let rows = onestrand_example::takes()
        .iter()
        .filter(|take| take.slate != "M");
    let rows = rows.filter(|take| take.slate != "E").map(|take| {
        format!(
            "R{},{},{},{},{}\n",
            take.roll, take.slate, take.take, take.span_in, take.span_out
        )
    });
    let log: String = std::iter::once("roll,slate,take,in,out\n".to_owned())
        .chain(rows)
        .collect();
    let path = Path::new("report.csv");
    let log = import_log_text(&mut production, path, log.into(), &LogReading::default());
    assert_eq!(log.expect("a log").takes, 31);
    let document = script(&production);
    let shot = document.shot.expect("takes have slates");
    assert_eq!((shot.actions, shot.covered), (15, 15));
    assert_eq!(shot.single_setup.len(), 9);
    assert_eq!(shot.single_take, ["5a", "5c"]);
    assert_eq!(shot.fewest_setups, 9);
    let five = document.setups.iter().find(|s| s.setup.name == "5");
    assert_eq!(five.map(|s| (s.take_frames, s.shot)), Some((438, 1)));
    let plan = plan(&production, &PlanAsked::default()).expect("a plan");
    assert_eq!(plan.retakes.len(), 1);
    let retake = &plan.retakes[0];
    assert_eq!((retake.setup.as_str(), retake.needs), ("5", 438));
    assert_eq!(retake.actions, ["5a", "5c"]);
    assert_eq!(
        (retake.still_wanted, retake.still.join(" ")),
        (309, "M E".to_owned())
    );
    let third = retake.on.iter().find(|on| on.roll == "R3").expect("it");
    assert_eq!(
        (third.left, third.left_after, third.short_by),
        (513, Some(75), 234)
    );
}

fn stock(production: &mut Production, set: impl Fn(&mut StockWords)) {
    let mut stock = script(production).stock;
    set(&mut stock);
    said(production, None, None, ScriptChangeKind::Stock { stock }).expect("set");
}

#[test]
fn a_scene_written_anew_keeps_its_setups_by_their_actions() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = boat(dir.path());
    let before = script(&production);
    let third = &before.scenes[2];
    let mut actions = third.scene.actions.clone();
    // A new action before the rope, and the last one goes.
    actions.insert(
        1,
        ActionWords {
            text: "A gull lands on the bollard.".to_owned(),
            ..ActionWords::default()
        },
    );
    actions.pop();
    let scene = SceneWords {
        actions,
        ..third.scene.clone()
    };
    said(
        &mut production,
        Some(third.id),
        None,
        ScriptChangeKind::Scene { scene },
    )
    .expect("kept");
    let now = script(&production);
    let names: Vec<&str> = now.scenes[2]
        .scene
        .actions
        .iter()
        .map(|a| &*a.name)
        .collect();
    assert_eq!(names, ["3a", "3b", "3c"]);
    let shown = |name: &str| {
        let setup = now
            .setups
            .iter()
            .find(|s| s.setup.name == name)
            .expect("it");
        let shown = setup.setup.shown.iter().map(|s| s.action.clone());
        shown.collect::<Vec<_>>().join(" ")
    };
    // The rope was 3b and is 3c now; the leaving ferry is shown by nothing.
    assert_eq!(
        (shown("3"), shown("3A"), shown("3B")),
        ("3a 3c".into(), "3a 3c".into(), "3c".into())
    );
    assert_eq!(now.planned.uncovered, ["3b"]);
    production.undo().expect("one change");
    assert_eq!(script(&production).setups, before.setups);
    assert_eq!(script(&production).scenes, before.scenes);
}

#[test]
fn setups_get_the_next_letter_stand_where_they_are_put_and_go_with_their_scene() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = boat(dir.path());
    let before = script(&production);
    let after = before
        .setups
        .iter()
        .find(|s| s.setup.name == "2A")
        .map(|s| s.id);
    let setup = SetupWords {
        scene: "2".to_owned(),
        shown: vec![ShownWords {
            action: "2a".to_owned(),
            off_camera: true,
        }],
        seconds: "4.5".to_owned(),
        takes: 3,
        ..SetupWords::default()
    };
    for _ in 0..30 {
        // So often that the room between two is used up: all of them stand anew.
        let setup = setup.clone();
        said(
            &mut production,
            None,
            after,
            ScriptChangeKind::Setup { setup },
        )
        .expect("kept");
    }
    let now = script(&production);
    let names: Vec<&str> = now.setups.iter().map(|s| &*s.setup.name).collect();
    assert_eq!(names[..4], ["1", "2", "2A", "2AH"]);
    assert!(names.contains(&"2C") && names.contains(&"2Z") && !names.contains(&"2I"));
    let same = now
        .setups
        .iter()
        .find(|s| s.setup.name == "2C")
        .expect("it");
    // 4.5 s at 18 are 81 frames, and 24 of run-up.
    assert_eq!((same.take_frames, same.setup.takes), (105, 3));
    let refused = said(
        &mut production,
        Some(same.id),
        None,
        ScriptChangeKind::Setup {
            setup: SetupWords {
                name: "2a".to_owned(),
                ..same.setup.clone()
            },
        },
    );
    assert!(refused.expect_err("taken").contains("a setup 2A already"));
    let scene = now.scenes[1].id;
    said(&mut production, Some(scene), None, ScriptChangeKind::Gone).expect("gone");
    let now = script(&production);
    assert!(now.setups.iter().all(|s| !s.setup.name.starts_with('2')));
    assert_eq!((now.scenes.len(), now.setups.len()), (6, 16));
}

#[test]
fn a_screenplay_brought_in_again_keeps_what_its_words_still_say() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = boat(dir.path());
    let text = onestrand_example::SCREENPLAY
        .replace(
            "EXT. THE BANK PATH - DAY",
            "EXT. THE MILL - DAY\n\nA cat looks up.\n\nEXT. THE BANK PATH - DAY",
        )
        .replace("She steps aboard.\n", "");
    let done = import_script_text(&mut production, Path::new("s.fountain"), text.into());
    let done = done.expect("brought in");
    assert_eq!(
        (done.kind.as_str(), done.scenes, done.actions),
        ("screenplay", 8, 15)
    );
    assert_eq!(
        done.remarks,
        ["setup 6 showed an action whose words are no more in the text"]
    );
    let now = script(&production);
    let setup = now
        .setups
        .iter()
        .find(|s| s.setup.name == "3A")
        .expect("it");
    let shown: Vec<&str> = setup.setup.shown.iter().map(|s| &*s.action).collect();
    assert_eq!(
        shown,
        ["4a", "4b"],
        "scene 3 is scene 4 now; its setups keep their slate"
    );
    production.undo().expect("one change");
    assert_eq!(script(&production).scenes.len(), 7);
}

#[test]
fn a_table_goes_out_as_it_came_in() {
    let dir = tempfile::tempdir().expect("a folder");
    let production = boat(dir.path());
    let out = export_script(&production).expect("written");
    assert_eq!(out, onestrand_example::SETUPS);
}

#[test]
fn bad_scripts_are_told_of_all_at_once_and_change_nothing() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = boat(dir.path());
    let before = script(&production);
    let mut bad = |text: &str| {
        let path = Path::new("bad.csv");
        problems(&import_script_text(&mut production, path, text.into()).expect_err("bad"))
    };
    let rows = "setup,actions,seconds,takes\n2,,0,2\n2,2a,soon,1\n3,3a,4,0\n";
    let found = bad(rows);
    assert_eq!(
        found.iter().map(|f| f.0).collect::<Vec<_>>(),
        [2, 2, 3, 3, 4]
    );
    assert_eq!(bad("Ida runs.\n")[0].0, 1);
    assert_eq!(bad("").len(), 1);
    let path = Path::new("bad.fountain");
    let broken = b"EXT. LANDING\n\nIda \xff runs.\n".to_vec();
    let found = problems(&import_script_text(&mut production, path, broken).expect_err("bad"));
    assert_eq!(found[0].0, 3);
    assert_eq!(script(&production).revision, before.revision);
    // Windows line ends and a byte-order mark are no mistake.
    let text = format!(
        "\u{FEFF}{}",
        onestrand_example::SCREENPLAY.replace('\n', "\r\n")
    );
    import_script_text(&mut production, path, text.into()).expect("sound");
    assert_eq!(script(&production).scenes, before.scenes);
}

#[test]
fn what_cannot_be_planned_is_told_of_with_every_reason() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = boat(dir.path());
    let asked = |load| PlanAsked {
        load: Some(load),
        ..PlanAsked::default()
    };
    let refused = plan(&production, &asked(500)).expect_err("too short");
    assert_eq!(refused.code(), "plan.problems");
    // 3, 4, 6, 7: 36, 32, 31 and 30 s are 672, 600, 582 and 564 frames.
    assert_eq!(
        refused.details()["problems"].as_array().map(Vec::len),
        Some(4)
    );
    assert!(plan(&production, &asked(672)).is_ok());
    assert_eq!(
        plan(&production, &asked(0)).expect_err("none").code(),
        "plan.problems"
    );
    stock(&mut production, |stock| stock.load = 500);
    assert_eq!(script(&production).problems.len(), 4);
    let refused = said(
        &mut production,
        None,
        None,
        ScriptChangeKind::Stock {
            stock: StockWords {
                one_wind: "half a minute".to_owned(),
                ..StockWords::default()
            },
        },
    );
    assert!(refused.expect_err("no number").contains("seconds"));
}

#[test]
fn five_thousand_scenes_come_in_and_one_change_writes_one_scene() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = film(dir.path(), Gauge::Super8, &["R1"]);
    let text: String = (1..=5_000)
        .map(|n| format!("EXT. PLACE {n} - DAY\n\nSomething happens, number {n}.\n\n"))
        .collect();
    let done = import_script_text(&mut production, Path::new("long.fountain"), text.into());
    assert_eq!(done.expect("brought in").scenes, 5_000);
    let long = script(&production);
    let last = long.scenes.last().expect("it");
    let scene = SceneWords {
        note: "windy".to_owned(),
        ..last.scene.clone()
    };
    let to = FilmChange::Script(Box::new(ScriptChange {
        id: Some(last.id),
        after: None,
        to: ScriptChangeKind::Scene { scene },
    }));
    let (_, act) = to.act(&production).expect("an act");
    let written = serde_json::to_string(&act).expect("text").len();
    assert!(written < 1_000, "{written} bytes");
}

#[test]
fn a_camera_report_brings_its_rolls_and_its_takes_one_after_the_other() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = boat(dir.path());
    let mut bring = |rows: &str| {
        let text = format!("roll,slate,take,start,end,mark,remark,lens\n{rows}");
        import_script_text(&mut production, Path::new("report.csv"), text.into())
    };
    let done = bring("R4,5,2,0+24,6+30,good,wind,12 mm\nR4,5,3,462,800,NG,,\n").expect("sound");
    assert_eq!((done.kind.as_str(), done.takes), ("camera_report", 2));
    assert_eq!(done.remarks, ["R4 is known on paper now, 3600 frames"]);
    // A take of a later report joins them; the same take once more is put right.
    bring("R4,9X,1,800,900,,,\n").expect("sound");
    let again = bring("R4,5,3,462,790,hold,better than it looked,\n").expect("sound");
    assert_eq!(again.takes, 1);
    let over = problems(&bring("R4,6,1,780,1000,,,\nR1,6,2,10,9,,,\n").expect_err("bad"));
    assert_eq!(
        over,
        [(3, String::new(), over[0].2.clone())],
        "first what the counters say"
    );
    let over = problems(&bring("R4,6,1,780,1000,,,\n").expect_err("bad"));
    assert_eq!((over[0].0, over[0].1.as_str()), (2, "start"));
    assert!(over[0].2.contains("5-T3"), "{}", over[0].2);
    let takes = production.takes_of("R4").expect("takes");
    let said: Vec<_> = takes
        .iter()
        .map(|t| (t.first, t.thrown, t.rating.as_str(), t.note.as_str()))
        .collect();
    assert_eq!(
        said,
        [
            // 6 feet and 30 frames of Super 8 are 6 × 72 + 30 = 462.
            (24, 462, "circled", "wind; lens: 12 mm"),
            (462, 790, "hold", "better than it looked"),
            (800, 900, "none", ""),
        ]
    );
    // What was planned of the setup stands on the take.
    assert_eq!(
        (takes[0].size.as_str(), takes[0].action.as_str()),
        ("medium", "Bram turns; he pulls the lever")
    );
    let shot = script(&production).shot.expect("takes have slates");
    assert_eq!(shot.covered, 2);
}

#[test]
fn a_set_that_may_go_is_kept_and_taken_back() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = boat(dir.path());
    let to = |setups: &[&str]| ScriptChangeKind::SetMayGo {
        setups: setups.iter().map(|s| (*s).to_owned()).collect(),
    };
    said(&mut production, None, None, to(&["5"])).expect("kept");
    said(&mut production, None, None, to(&["5", "2B"])).expect("kept");
    assert_eq!(script(&production).set_may_go, ["5", "2B"]);
    production.undo().expect("undone");
    assert_eq!(script(&production).set_may_go, ["5"]);
    assert!(said(&mut production, None, None, to(&["no setup"])).is_err());
}

#[test]
fn a_photograph_is_kept_once_and_nothing_else_is_read() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = boat(dir.path());
    let png = b"\x89PNG\r\n\x1a\nand so on";
    let name = keep_photograph(&production, png).expect("kept");
    assert_eq!(keep_photograph(&production, png).expect("kept"), name);
    let kept = std::fs::read_dir(dir.path().join("recce")).expect("a folder");
    assert_eq!(kept.count(), 1);
    let (bytes, kind) = photograph(&production, &name).expect("there");
    assert_eq!((bytes.as_slice(), kind), (&png[..], "image/png"));
    assert!(keep_photograph(&production, b"<svg/>").is_err());
    for other in [
        "../production.db",
        "production.db",
        "a.jpg",
        "..",
        "/etc/hostname",
    ] {
        assert!(photograph(&production, other).is_err(), "{other}");
        let recce = RecceWords {
            place: "the landing".to_owned(),
            photograph: other.to_owned(),
            ..RecceWords::default()
        };
        let refused = said(
            &mut production,
            None,
            None,
            ScriptChangeKind::Recce { recce },
        );
        assert!(refused.is_err(), "{other}");
    }
}
