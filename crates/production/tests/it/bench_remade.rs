//! Another version of a film that is made: the reel turned back and made anew.

use onestrand_production::documents::{BenchWrite, HappenedWords};
use onestrand_production::{Production, RecutOptions, bench_room, recut};
use onestrand_store::{Act, CutRecord};

use crate::bench_room::{SHOTS, bench, go_ahead, happened, ledger, tick, told, write};

/// The second version: the third shot goes out, the last one ends ten frames earlier.
fn second(join: &str) -> CutRecord {
    let mut shots = SHOTS.to_vec();
    shots[4].2 -= 10;
    shots.remove(2);
    let piece = |(roll, first, thrown): (&str, u32, u32)| {
        serde_json::json!({
            "kind": "shot", "roll": roll, "first": first, "thrown": thrown, "note": ""
        })
    };
    let pieces: Vec<_> = shots.into_iter().map(piece).collect();
    let record = serde_json::json!({
        "usual_join": join, "note": "", "made": "2026-11-26T11:00:00Z", "pieces": pieces
    });
    serde_json::from_value(record).expect("a cut")
}

fn begin_second() -> BenchWrite {
    BenchWrite::Begin {
        cut: "v2".to_owned(),
        pins: 4,
        tails: false,
        to_and_fro: false,
    }
}

/// How often each roll was wound over the rewinds, by its ledger.
fn wound(production: &Production) -> [u32; 2] {
    ["R1", "R2"].map(|roll| {
        let lines = ledger(production, roll).into_iter();
        lines.filter(|l| l.0 == "wound").map(|l| l.1).sum()
    })
}

/// Ticks to the end and gives the acts.
fn tick_all(production: &mut Production) -> Vec<String> {
    let mut acts = Vec::new();
    while let Some(act) = told(production).1.acts.first() {
        acts.push(act.act.clone());
        assert!(acts.len() < 200, "no end of it: {acts:?}");
        assert!(!act.title.is_empty() && !act.what.is_empty() && act.tick != "Done");
        tick(production).expect("ticked");
    }
    acts
}

/// The first version made, the tail of its first shot, R2·300 to 359, cut a frame
/// late and let be so; and a second version kept.
fn made(dir: &std::path::Path, join: &str) -> Production {
    let mut production = bench(dir, join);
    go_ahead(&mut production);
    let roll = || "R2".to_owned();
    let mut is_late = false;
    loop {
        let on = told(&production).1;
        let act = &on.acts[0];
        let its_tail = act.act == "cut" && act.position == Some(1) && act.frame > Some(350);
        if !its_tail {
            tick(&mut production).expect("ticked");
            continue;
        }
        let before = act.frame.expect("a place") + 1;
        let joins = on.acts.iter().find(|a| a.act == "join").expect("one comes");
        let said = if !is_late {
            is_late = true;
            HappenedWords::Cut {
                roll: roll(),
                before,
            }
        } else if joins.position == Some(1) {
            HappenedWords::Joined {
                roll: Some(roll()),
                frame: Some(330),
                position: None,
                join: join.to_owned(),
                laid: String::new(),
                ends: false,
            }
        } else {
            let free = on.pins.iter().find(|p| p.hangs.is_none()).expect("a pin");
            HappenedWords::Hung {
                roll: roll(),
                frame: 330,
                pin: free.pin,
            }
        };
        let is_joined = matches!(said, HappenedWords::Joined { .. });
        happened(&mut production, said).expect("written");
        if is_joined {
            break;
        }
    }
    tick_all(&mut production);
    let act = Act::PutCut {
        name: "v2".to_owned(),
        cut: Some(second(join)),
    };
    production.act("v2", &act).expect("a cut");
    production
}

#[test]
fn the_price_told_before_is_what_the_ticks_come_to() {
    for join in ["tape", "cement"] {
        let dir = tempfile::tempdir().expect("a folder");
        let mut production = made(dir.path(), join);
        let first = told(&production).1;
        assert!(first.done);
        let room = bench_room(&production).expect("a bench");
        let version = room.versions.iter().find(|v| v.name == "v2").expect("kept");
        let price = version.remade.clone().expect("film is on the reel");
        assert_eq!(price.from, "v1");
        // Shot 3 goes out: two joins opened, one made; the last one loses its end: the
        // blade frees it, and its tail leader is joined anew.
        assert_eq!((price.opened, price.made, price.cuts), (2, 2, 1));
        let told_by_command = recut(&production, ("v1", "v2"), RecutOptions::default());
        let by_command = told_by_command.expect("a price").from_the_bench;
        assert_eq!(by_command, Some(price.clone()));

        write(&mut production, begin_second()).expect("begun");
        let on = told(&production).1;
        assert_eq!(on.made_of.as_deref(), Some("v1"));
        assert_eq!(on.acts[0].act, "turn_back");
        assert_eq!(on.frames, price.frames);
        // Wound is counted anew, without what the first version took.
        assert_eq!((on.wound.done, on.wound.all), (0, price.wound_frames));
        let wound_before = wound(&production);
        let acts = tick_all(&mut production);
        // Both rolls are in the film that was wound back; neither came on the rewinds.
        let [r1, r2] = wound_before;
        assert_eq!(wound(&production), [r1 + 1, r2 + 1]);
        let count = |act: &str| acts.iter().filter(|a| *a == act).count();
        assert_eq!((count("unjoin"), count("join"), count("cut")), (2, 2, 1));
        assert_eq!((count("turn_back"), count("lead")), (1, 1));
        let on = told(&production).1;
        assert!(on.done);
        assert_eq!(on.reel_frames, price.frames);
        let lost: u32 = u32::try_from(price.lost).expect("few");
        let planned: u32 = SHOTS.iter().map(|s| s.2 - s.1).sum::<u32>() - 72 - 10;
        // The frame too much stays where it was let be.
        let planned = planned + 1;
        assert_eq!(price.frames, u64::from(planned - lost));
    }
}

#[test]
fn turned_back_it_does_not_come_off_the_bench_unless_that_is_struck_out() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = made(dir.path(), "tape");
    write(&mut production, begin_second()).expect("begun");
    tick(&mut production).expect("turned back");
    let off = write(&mut production, BenchWrite::TakeOff {});
    assert!(
        off.expect_err("it is turned back")
            .to_string()
            .contains("turned back")
    );
    let line = told(&production).1.done_lines[0].number;
    let strike = BenchWrite::Strike {
        line,
        reason: "not yet".to_owned(),
    };
    write(&mut production, strike).expect("struck out");
    assert_eq!(told(&production).1.acts[0].act, "turn_back");
    write(&mut production, BenchWrite::TakeOff {}).expect("nothing was done");
    write(&mut production, begin_second()).expect("begun again");
    assert_eq!(told(&production).1.made_of.as_deref(), Some("v1"));
}
