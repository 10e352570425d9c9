//! Acts, undo and redo, through closing the lid.

use onestrand_store::{
    Act, ChangeRecord, CutRecord, HungTake, InspectionRecord, NoteRecord, PieceRecord, Production,
    ReelRecord, Revision, RollRecord, StoreError, TakeRecord, WoundPartRecord,
};
use proptest::prelude::*;

use crate::owner::meta;

pub(crate) fn roll(name: &str, frames: u32) -> RollRecord {
    RollRecord {
        name: name.to_owned(),
        gauge: "super8".to_owned(),
        film_speed: "18".to_owned(),
        base: "triacetate".to_owned(),
        fit: "project".to_owned(),
        wind: None,
        frames,
        missing: 0,
        expected: Some(frames),
        measured: None,
        shrinkage: None,
        proved_by: None,
        inspection: InspectionRecord::default(),
        scans: vec![],
    }
}

pub(crate) fn take(first: u32) -> TakeRecord {
    TakeRecord {
        roll: "R1".to_owned(),
        first,
        thrown: first + 10,
        setup: Some("3A".to_owned()),
        take: Some(2),
        rating: "circled".to_owned(),
        size: "close".to_owned(),
        camera_move: String::new(),
        direction: "Ida, right to left".to_owned(),
        action: "the rope".to_owned(),
        note: "it's \"the\" one".to_owned(),
        begins: "camera_stop".to_owned(),
        flash_frames: 1,
        flash_stops: Some(1.2),
        looked: false,
        pin: None,
    }
}

fn shot(first: u32, len: u32) -> PieceRecord {
    PieceRecord {
        kind: "shot".to_owned(),
        roll: Some("R1".to_owned()),
        first: Some(first),
        thrown: Some(first + len),
        frames: None,
        title: None,
        setup: None,
        take: None,
        join: Some("weld".to_owned()),
        effect: None,
        note: "π".to_owned(),
    }
}

fn any_act() -> impl Strategy<Value = Act> {
    let piece = (0_u32..100, 1_u32..20).prop_map(|(first, len)| shot(first, len));
    let change = prop_oneof![
        (0_usize..4, piece.clone()).prop_map(|(at, piece)| ChangeRecord::Insert { at, piece }),
        (0_usize..4).prop_map(|at| ChangeRecord::Remove { at }),
        (0_usize..4, 0_usize..4).prop_map(|(from, to)| ChangeRecord::Move { from, to }),
        (0_usize..4, piece.clone()).prop_map(|(at, piece)| ChangeRecord::Replace { at, piece }),
        Just(ChangeRecord::UsualJoin {
            join: "tape".to_owned()
        }),
    ];
    let cut = prop::collection::vec(piece, 0..4).prop_map(|pieces| {
        Some(CutRecord {
            usual_join: "cement".to_owned(),
            note: String::new(),
            made: "2026-01-01T00:00:00Z".to_owned(),
            pieces,
        })
    });
    let name = prop::sample::select(vec!["v1", "v2"]).prop_map(str::to_owned);
    prop_oneof![
        4 => (name.clone(), change).prop_map(|(name, change)| Act::ChangeCut { name, change }),
        1 => (name.clone(), cut).prop_map(|(name, cut)| Act::PutCut { name, cut }),
        1 => name.prop_map(|name| Act::PutCut { name, cut: None }),
        1 => prop::collection::btree_set(0_u32..9, 0..4).prop_map(|starts| Act::PutTakes {
            roll: "R1".to_owned(),
            takes: starts.into_iter().map(|s| take(s * 20)).collect(),
        }),
        1 => (1_i64..4, prop::option::of(0_u32..100)).prop_map(|(id, frame)| Act::PutNote {
            id,
            note: frame.map(|frame| NoteRecord {
                roll: "R1".to_owned(),
                frame,
                words: "the rope again".to_owned(),
                writer: String::new(),
                made: "2026-01-01T00:00:00Z".to_owned(),
            }),
        }),
        1 => (1_u32..4000).prop_map(|n| Act::PutRoll {
            name: "R1".to_owned(),
            roll: Some(Box::new(RollRecord {
                inspection: InspectionRecord {
                    accession: format!("1974/{n}"),
                    ..InspectionRecord::default()
                },
                ..roll("R1", n)
            })),
        }),
        1 => (0_u32..9, 1_u32..9).prop_map(|(first, pin)| Act::Hang {
            pins: vec![HungTake { roll: "R1".to_owned(), first: first * 20, pin }],
        }),
        1 => prop::option::of(0_u32..2000).prop_map(|feet| Act::PutReel {
            name: "club reel".to_owned(),
            reel: feet.map(|feet| ReelRecord {
                kind: "reel".to_owned(),
                feet: Some(feet),
                across_mm: None,
                hub_mm: Some("32".to_owned()),
                lies: "tails".to_owned(),
                kept_in: "can 7".to_owned(),
                accession: String::new(),
                note: String::new(),
                wound: vec![WoundPartRecord { roll: "R1".to_owned(), span: Some((0, feet + 1)) }],
            }),
        }),
    ]
}

/// Everything the acts can change, as text.
fn state(production: &Production) -> String {
    let cuts: Vec<_> = ["v1", "v2"].map(|n| production.cut(n).ok()).into();
    let rolls = production.rolls().expect("rolls");
    let takes = production.takes().expect("takes");
    let notes = production.notes().expect("notes");
    let reels = production.reels().expect("reels");
    format!("{cuts:?} {rolls:?} {takes:?} {notes:?} {reels:?}")
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn undo_and_redo_walk_through_every_state(acts in prop::collection::vec(any_act(), 1..14)) {
        let dir = tempfile::tempdir().expect("a folder");
        let mut production = Production::create(dir.path(), &meta()).expect("new");
        let first = Act::PutRoll { name: "R1".to_owned(), roll: Some(Box::new(roll("R1", 3600))) };
        production.act("roll R1", &first).expect("kept");
        let mut states = vec![state(&production)];
        for act in &acts {
            // A change that does not fit is refused and leaves everything.
            match production.act("an act", act) {
                Ok(_) => states.push(state(&production)),
                Err(_) => prop_assert_eq!(&state(&production), states.last().expect("one")),
            }
        }
        drop(production);
        let mut production = Production::open(dir.path()).expect("open again");
        for expected in states.iter().rev() {
            prop_assert_eq!(&state(&production), expected);
            if expected != &states[0] || production.journal(1).expect("journal")[0].seq > 1 {
                let _stepped = production.undo();
            }
        }
        while production.undo().is_ok() {}
        prop_assert_eq!(production.rolls().expect("rolls").len(), 0);
        drop(production);
        let mut production = Production::open(dir.path()).expect("open again");
        for expected in &states {
            production.redo().expect("a step to redo");
            prop_assert_eq!(&state(&production), expected);
        }
        let spent = matches!(production.redo(), Err(StoreError::NothingTo { what: "redo" }));
        prop_assert!(spent);
    }
}

#[test]
fn a_new_act_drops_what_was_undone() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = Production::create(dir.path(), &meta()).expect("new");
    for frames in [10, 20] {
        let act = Act::PutRoll {
            name: "R1".to_owned(),
            roll: Some(Box::new(roll("R1", frames))),
        };
        production
            .act(&format!("{frames} frames"), &act)
            .expect("kept");
    }
    assert_eq!(production.undo().expect("a step"), "20 frames");
    let act = Act::PutRoll {
        name: "R2".to_owned(),
        roll: Some(Box::new(roll("R2", 5))),
    };
    production.act("R2", &act).expect("kept");
    assert!(production.redo().is_err());
    let lines: Vec<_> = production.journal(10).expect("journal");
    let states: Vec<&str> = lines.iter().map(|l| l.state.as_str()).collect();
    assert_eq!(states, ["done", "dropped", "done"]);
}

#[test]
fn a_change_made_on_an_older_state_is_told_so() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = Production::create(dir.path(), &meta()).expect("new");
    let seen = production.revision().expect("a revision");
    let act = Act::PutRoll {
        name: "R1".to_owned(),
        roll: Some(Box::new(roll("R1", 10))),
    };
    let next = production.act_on(seen, "first window", &act).expect("kept");
    assert_eq!(next, Revision::new(1));
    let late = production.act_on(seen, "second window", &act);
    assert!(matches!(late, Err(StoreError::Stale { found: 0, now: 1 })));
}

#[test]
fn a_pin_holds_one_take() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = Production::create(dir.path(), &meta()).expect("new");
    let act = Act::PutRoll {
        name: "R1".to_owned(),
        roll: Some(Box::new(roll("R1", 3600))),
    };
    production.act("roll R1", &act).expect("kept");
    let act = Act::PutTakes {
        roll: "R1".to_owned(),
        takes: vec![take(0), take(120)],
    };
    production.act("two takes", &act).expect("kept");
    let hung = |first: u32, pin: u32| HungTake {
        roll: "R1".to_owned(),
        first,
        pin,
    };
    let onto_the_other = Act::Hang {
        pins: vec![hung(120, 1)],
    };
    let refused = production.act("onto pin 1", &onto_the_other);
    assert!(matches!(refused, Err(StoreError::PinTaken { pin: 1 })));
    assert_eq!(production.pins().expect("pins"), [hung(0, 1), hung(120, 2)]);
    let swapped = Act::Hang {
        pins: vec![hung(120, 1), hung(0, 2)],
    };
    production.act("swapped", &swapped).expect("kept");
    let none = Act::PutTakes {
        roll: "R1".to_owned(),
        takes: vec![],
    };
    production.act("no takes", &none).expect("kept");
    production.undo().expect("a step");
    assert_eq!(production.pins().expect("pins"), [hung(120, 1), hung(0, 2)]);
}

#[test]
fn a_refused_act_leaves_no_line() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = Production::create(dir.path(), &meta()).expect("new");
    let act = Act::ChangeCut {
        name: "v9".to_owned(),
        change: ChangeRecord::Remove { at: 0 },
    };
    assert!(matches!(
        production.act("x", &act),
        Err(StoreError::NotFound { .. })
    ));
    // Takes of a roll that is not there.
    let act = Act::PutTakes {
        roll: "R7".to_owned(),
        takes: vec![take(0)],
    };
    assert!(production.act("x", &act).is_err());
    assert_eq!(production.journal(5).expect("journal"), []);
    assert_eq!(production.revision().expect("a revision").number(), 0);
}
