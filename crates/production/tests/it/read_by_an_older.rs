//! A roll that an older program has read: what it did not keep is named, and a new
//! reading has it without touching what was decided.

use onestrand_intake::Cancel;
use onestrand_production::{FilmChange, LostWorkprint, Production, Quiet, roll_log};
use onestrand_store::{NewFrame, WorkprintWriter, Workprints};

use crate::one_roll::{clip, read_once};

fn not_kept(production: &Production) -> Vec<String> {
    let prints = Workprints::open(production.dir()).expect("open");
    roll_log(production, &prints, "R1").expect("a log").not_kept
}

/// The workprint as an older program made it, over that of today.
fn made_by_an_older(production: &Production, report: &str) {
    let hashes = &production.roll("R1").expect("known").scans[0].blake3;
    let mut writer = WorkprintWriter::begin(production.dir(), "R1").expect("begun");
    for frame in 0..u64::from(production.roll("R1").expect("known").frames) {
        let row = NewFrame {
            jpeg: Some(b"a picture"),
            shown_by: Some((0, frame)),
            made_of: None,
            level: 90.0,
            sharpness: 1.0,
            change: 0.1,
        };
        writer.push(&row).expect("written");
    }
    writer.finish(hashes, report).expect("finished");
}

#[test]
fn what_an_older_program_did_not_keep_is_named_and_a_new_reading_has_it() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = read_once(dir.path(), &clip());
    assert_eq!(not_kept(&production), Vec::<String>::new());
    assert!(
        LostWorkprint::or_older(&production, "R1")
            .expect("known")
            .is_none()
    );

    // The first form held the signs alone; a later one the transfer and no breaks.
    made_by_an_older(&production, "[]");
    assert_eq!(not_kept(&production), ["transfer", "breaks", "signs"]);
    let later = r#"{"signs":[],"anomalies":[],"warnings":[],"transfer":{"file_frames":1,"clean":1,"blended":0,"counted":0,"repeats":0,"cadence":[1],"speed":null,"stretches":[]}}"#;
    made_by_an_older(&production, later);
    assert_eq!(not_kept(&production), ["breaks", "signs"]);

    let first = production.takes_of("R1").expect("takes")[1].first;
    let change = FilmChange::LetBreakStand {
        roll: "R1".to_owned(),
        frame: first,
    };
    let (words, act) = change.act(&production).expect("it fits");
    production.act(&words, &act).expect("kept");
    let decided = production.takes_of("R1").expect("takes");

    assert!(
        LostWorkprint::of(&production, "R1")
            .expect("known")
            .is_none()
    );
    let older = LostWorkprint::or_older(&production, "R1").expect("known");
    older
        .expect("to be read again")
        .make_again(&Cancel::new(), &mut Quiet)
        .expect("read again");
    assert_eq!(not_kept(&production), Vec::<String>::new());
    assert_eq!(production.takes_of("R1").expect("takes"), decided);
    let prints = Workprints::open(production.dir()).expect("open");
    let log = roll_log(&production, &prints, "R1").expect("a log");
    assert!(!log.report.expect("a report").breaks.is_empty());
}

#[test]
fn a_count_that_differs_now_changes_nothing() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = read_once(dir.path(), &clip());
    let before = production.roll("R1").expect("known");
    let act = onestrand_store::Act::PutRoll {
        name: "R1".to_owned(),
        roll: Some(Box::new(onestrand_store::RollRecord {
            frames: before.frames + 4,
            ..before
        })),
    };
    production
        .act("as it was counted once", &act)
        .expect("kept");
    made_by_an_older(&production, "[]");
    let older = LostWorkprint::or_older(&production, "R1").expect("known");
    let refused = older
        .expect("to be read again")
        .make_again(&Cancel::new(), &mut Quiet)
        .expect_err("counted otherwise");
    assert_eq!(refused.code(), "production.unfit");
    assert!(
        refused.to_string().contains("266 film frames, 270 when"),
        "{refused}"
    );
    assert!(refused.hint().contains("nothing was changed"));
    assert_eq!(not_kept(&production), ["transfer", "breaks", "signs"]);
}
