//! What is wound on what, and two rolls that share one strip.

use onestrand_film::Gauge;
use onestrand_production::documents::{ReelWords, WoundPart};
use onestrand_production::{
    FilmChange, PairHalves, PaperRoll, PartHalves, PutReel, RemoveReel, SlitStrip, add_paper_roll,
    production_document,
};
use onestrand_store::Workprints;

use crate::in_the_hand::{change, film, log};

fn reel(name: &str, feet: Option<u32>, wound: &[(&str, Option<(u32, u32)>)]) -> FilmChange {
    let part = |(roll, span): &(&str, Option<(u32, u32)>)| WoundPart {
        roll: (*roll).to_owned(),
        first: span.map(|s| s.0),
        thrown: span.map(|s| s.1),
    };
    FilmChange::PutReel(PutReel {
        reel: name.to_owned(),
        words: ReelWords {
            kind: "reel".to_owned(),
            feet,
            across_mm: Some("178".to_owned()),
            hub_mm: None,
            lies: "heads".to_owned(),
            kept_in: "can 7".to_owned(),
            accession: String::new(),
            note: String::new(),
            wound: wound.iter().map(part).collect(),
        },
    })
}

#[test]
fn what_is_wound_on_what_is_known_from_both_sides() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut film = film(dir.path(), Gauge::Super8, &["R1", "R2"]);
    let one = reel(
        "club reel",
        Some(100),
        &[("R2", None), ("R1", Some((0, 3600)))],
    );
    change(&mut film, &one).expect("wound");
    let prints = Workprints::open(film.dir()).expect("workprints");
    let document = production_document(&film, &prints).expect("a document");
    assert_eq!(document.reels.len(), 1);
    // 7,600 frames are 105 ft 40 fr.
    assert_eq!(
        (document.reels[0].frames, document.reels[0].footage.feet),
        (7600, 105)
    );
    assert!(document.reels[0].too_much, "it takes 100 ft");
    let on = &log(&film, "R1").inspection.on_reels;
    assert_eq!(
        (on[0].reel.as_str(), on[0].place, on[0].thrown),
        ("club reel", 2, 3600)
    );
    // Film lies in one place.
    let twice = change(
        &mut film,
        &reel("other", None, &[("R1", Some((3599, 4000)))]),
    );
    assert!(twice.expect_err("there already").contains("club reel"));
    change(
        &mut film,
        &reel("other", None, &[("R1", Some((3600, 4000)))]),
    )
    .expect("the rest");
    for wrong in [
        reel("", None, &[]),
        reel("x", None, &[("R9", None)]),
        reel("x", None, &[("R1", Some((3990, 4001)))]),
        reel(
            "other",
            None,
            &[("R1", Some((3600, 3700))), ("R1", Some((3699, 3800)))],
        ),
    ] {
        change(&mut film, &wrong).expect_err("refused");
    }
    // An old reel is reckoned in its own gauge: 4,000 frames of regular 8 are 50 ft.
    let old = PaperRoll {
        roll: "R8".to_owned(),
        frames: 4000,
        gauge: Some("regular8".to_owned()),
        base: "triacetate".to_owned(),
        fit: "project".to_owned(),
        wind: None,
    };
    add_paper_roll(&mut film, &old).expect("added");
    change(&mut film, &reel("old", Some(50), &[("R8", None)])).expect("wound");
    let all = onestrand_production::list_reels(&film).expect("reels");
    let old = all.iter().find(|reel| reel.reel == "old").expect("there");
    assert_eq!(
        (old.footage.feet, old.footage.frames, old.too_much),
        (50, 0, false)
    );

    // A roll that is taken out is on no reel any more, and comes back onto it.
    change(
        &mut film,
        &FilmChange::RemoveRoll {
            roll: "R2".to_owned(),
        },
    )
    .expect("out");
    assert_eq!(film.reel("club reel").expect("there").wound.len(), 1);
    film.undo().expect("undone");
    assert_eq!(film.reel("club reel").expect("there").wound.len(), 2);
    let off = FilmChange::RemoveReel(RemoveReel {
        reel: "other".to_owned(),
    });
    change(&mut film, &off).expect("struck off");
    change(&mut film, &off).expect_err("it is not there any more");
}

#[test]
fn two_halves_share_a_strip_that_nobody_may_cut_before_it_is_slit() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut film = film(dir.path(), Gauge::Regular8, &["R4a", "R4b", "R5"]);
    let pair = |a: &str, b: &str, strip: &str| {
        FilmChange::PairHalves(PairHalves {
            strip: strip.to_owned(),
            a: a.to_owned(),
            b: b.to_owned(),
            slit: false,
        })
    };
    change(&mut film, &pair("R4a", "R4b", "R4")).expect("halves");
    let half = log(&film, "R4b").roll.half.expect("a half");
    assert_eq!(
        (
            half.strip.as_str(),
            half.side.as_str(),
            half.other.as_deref()
        ),
        ("R4", "B", Some("R4a"))
    );
    assert!(half.words.contains("last frame first"), "{}", half.words);
    assert!(log(&film, "R4a").inspection.cautions[0].contains("both halves"));

    let sheet = dir.path().join("cut.csv");
    std::fs::write(&sheet, "position,roll,in,out\n1,R4a,100,200\n").expect("written");
    onestrand_production::import_cut(&mut film, &sheet, "v1", onestrand_cut::JoinKind::Tape)
        .expect("a cut");
    let refused = onestrand_production::check_cut(&film, "v1", None).expect("checked");
    assert!(
        !refused.ok && refused.conflicts[0].kind == "protected",
        "{refused:?}"
    );
    let slit = |slit| {
        FilmChange::SlitStrip(SlitStrip {
            strip: "R4".to_owned(),
            slit,
        })
    };
    change(&mut film, &slit(true)).expect("slit");
    assert!(
        onestrand_production::check_cut(&film, "v1", None)
            .expect("checked")
            .ok
    );
    assert!(log(&film, "R4a").inspection.cautions.is_empty());
    film.undo().expect("undone");
    assert!(
        !onestrand_production::check_cut(&film, "v1", None)
            .expect("checked")
            .ok
    );

    for wrong in [
        pair("R4a", "R5", "R6"),
        pair("R5", "R5", "R6"),
        pair("R5", "R9", "R6"),
        pair("R4a", "R4b", " "),
    ] {
        change(&mut film, &wrong).expect_err("refused");
    }
    change(
        &mut film,
        &FilmChange::PartHalves(PartHalves {
            strip: "R4".to_owned(),
        }),
    )
    .expect("parted");
    assert_eq!(log(&film, "R4b").roll.half, None);
    change(&mut film, &slit(true)).expect_err("no such strip");
}

#[test]
fn only_regular_8_is_run_twice() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut film = film(dir.path(), Gauge::Super8, &["R1", "R2"]);
    let pair = FilmChange::PairHalves(PairHalves {
        strip: "R4".to_owned(),
        a: "R1".to_owned(),
        b: "R2".to_owned(),
        slit: false,
    });
    let refused = change(&mut film, &pair).expect_err("Super 8");
    assert!(refused.contains("only regular 8"), "{refused}");
}
