//! What is found with the film in the hand: pins, joins, measures, state.

use std::path::Path;

use onestrand_film::{Fps, Gauge};
use onestrand_production::documents::{ConditionWords, WoundWords};
use onestrand_production::{
    FilmChange, InspectRoll, JoinFound, JoinGone, MeasureHundred, MeasureWound, Meta, MoveToPin,
    PaperRoll, Production, add_paper_roll, roll_log,
};
use onestrand_store::Workprints;

/// Rolls on paper, 4,000 frames each, with a break at every thousand.
pub(crate) fn film(dir: &Path, gauge: Gauge, rolls: &[&str]) -> Production {
    let meta = Meta {
        title: "The Ten-Past Boat".to_owned(),
        gauge,
        speed: Fps::EIGHTEEN,
    };
    let mut production = Production::create(dir, &meta).expect("new");
    for roll in rolls {
        let paper = PaperRoll {
            roll: (*roll).to_owned(),
            frames: 4000,
            gauge: None,
            base: "triacetate".to_owned(),
            fit: "project".to_owned(),
            wind: None,
        };
        add_paper_roll(&mut production, &paper).expect("added");
        for frame in [0, 1000, 2000, 3000] {
            let roll = (*roll).to_owned();
            change(&mut production, &FilmChange::BreakAt { roll, frame }).expect("a break");
        }
    }
    production
}

pub(crate) fn change(production: &mut Production, change: &FilmChange) -> Result<(), String> {
    let (words, act) = change
        .act(production)
        .map_err(|e| format!("{e}; {}", e.hint()))?;
    production.act(&words, &act).map_err(|e| e.to_string())?;
    Ok(())
}

pub(crate) fn log(
    production: &Production,
    roll: &str,
) -> onestrand_production::documents::RollLogDocument {
    let prints = Workprints::open(production.dir()).expect("workprints");
    roll_log(production, &prints, roll).expect("a log")
}

fn pins(production: &Production, roll: &str) -> Vec<(u32, u32)> {
    let takes = log(production, roll).takes;
    takes.iter().map(|t| (t.first, t.pin)).collect()
}

fn move_to(
    production: &mut Production,
    roll: &str,
    first: u32,
    pin: Option<u32>,
) -> Result<(), String> {
    let to = MoveToPin {
        roll: roll.to_owned(),
        first,
        pin,
    };
    change(production, &FilmChange::MoveToPin(to))
}

#[test]
fn a_take_goes_to_a_pin_and_whoever_hangs_there_takes_its_place() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut film = film(dir.path(), Gauge::Super8, &["R1", "R2"]);
    assert_eq!(pins(&film, "R1"), [(0, 1), (1000, 2), (2000, 3), (3000, 4)]);
    assert_eq!(pins(&film, "R2"), [(0, 5), (1000, 6), (2000, 7), (3000, 8)]);
    move_to(&mut film, "R1", 1000, Some(14)).expect("pin 14 is free");
    assert_eq!(pins(&film, "R1")[1], (1000, 14));
    move_to(&mut film, "R2", 0, Some(14)).expect("they change places");
    assert_eq!(pins(&film, "R2")[0], (0, 14));
    assert_eq!(pins(&film, "R1")[1], (1000, 5));
    assert_eq!(
        film.next_undo().expect("asked").as_deref(),
        Some("hang R2·0 on pin 14; R1·1000 goes to pin 5")
    );
    film.undo().expect("undone");
    assert_eq!(
        (pins(&film, "R1")[1], pins(&film, "R2")[0]),
        ((1000, 14), (0, 5))
    );
    // Pin 2 has been free since.
    move_to(&mut film, "R2", 3000, None).expect("the next free");
    assert_eq!(pins(&film, "R2")[3], (3000, 2));

    // What is said of a take, and where it ends, leaves it on its pin.
    let roll = "R1".to_owned();
    let moved = FilmChange::MoveBreak {
        roll: roll.clone(),
        frame: 1000,
        to: 1010,
    };
    change(&mut film, &moved).expect("moved");
    assert_eq!(pins(&film, "R1")[1], (1010, 14));
    change(&mut film, &FilmChange::BreakAt { roll, frame: 500 }).expect("divided");
    assert_eq!(pins(&film, "R1")[..3], [(0, 1), (500, 8), (1010, 14)]);

    for (first, pin, words) in [
        (7, Some(1), "no take begins at R1·7"),
        (0, Some(1), "hangs on pin 1 already"),
        (0, Some(0), "no pin 0"),
        (0, Some(10_000), "no pin 10000"),
    ] {
        let refused = move_to(&mut film, "R1", first, pin).expect_err(words);
        assert!(refused.contains(words), "{refused}");
    }
}

#[test]
fn a_hundred_frames_tell_the_shrinkage_and_what_the_measured_length_holds() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut film = film(dir.path(), Gauge::Regular8, &["R1"]);
    let facts = onestrand_production::RollFacts {
        base: "triacetate".to_owned(),
        fit: "scan-only".to_owned(),
        wind: None,
        measured: Some("15.24m".to_owned()),
        shrinkage: None,
    };
    let roll = "R1".to_owned();
    change(
        &mut film,
        &FilmChange::RollFacts {
            roll: roll.clone(),
            facts: facts.clone(),
        },
    )
    .expect("said");
    assert_eq!(log(&film, "R1").roll.expected, Some(4000));
    let measure = |mm: Option<&str>| {
        FilmChange::MeasureHundred(MeasureHundred {
            roll: "R1".to_owned(),
            mm: mm.map(str::to_owned),
        })
    };
    // The old reel of story 12, with a comma as it is written elsewhere.
    change(&mut film, &measure(Some("377,6"))).expect("measured");
    let found = log(&film, "R1");
    let hundred = &found.inspection.hundred;
    assert_eq!(hundred.mm.as_deref(), Some("377.6"));
    assert_eq!(
        (hundred.new_mm.as_str(), hundred.shrinkage.as_deref()),
        ("381.0", Some("0.89"))
    );
    assert!(hundred.source.contains("ISO"), "{}", hundred.source);
    // 4,000 / (1 − 3.4/381) is 4,036.02: the exact fraction, not the rounded 0.89.
    assert_eq!(
        (found.shrinkage.as_deref(), found.roll.expected),
        (Some("0.89"), Some(4036))
    );
    assert!(
        found.inspection.cautions[0].contains("0.89 %"),
        "{:?}",
        found.inspection.cautions
    );

    // Another shrinkage said by hand puts the measure out of use; the same does not.
    let said = |text: &str| FilmChange::RollFacts {
        roll: "R1".to_owned(),
        facts: onestrand_production::RollFacts {
            shrinkage: Some(text.to_owned()),
            ..facts.clone()
        },
    };
    change(&mut film, &said("0.89")).expect("said");
    assert!(log(&film, "R1").inspection.hundred.mm.is_some());
    change(&mut film, &said("0.4")).expect("said");
    assert_eq!(log(&film, "R1").inspection.hundred.mm, None);
    film.undo().expect("undone");
    assert!(log(&film, "R1").inspection.hundred.mm.is_some());

    for (mm, words) in [
        ("400", "longer"),
        ("377.6.1", "no measure"),
        ("a", "no measure"),
        ("330", "5 %"),
    ] {
        let refused = change(&mut film, &measure(Some(mm))).expect_err(mm);
        assert!(refused.contains(words), "{refused}");
    }
    change(&mut film, &measure(None)).expect("struck off");
    assert_eq!(log(&film, "R1").roll.expected, Some(4000));
}

#[test]
fn a_roll_measured_on_its_reel_has_a_length_with_its_bounds() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut film = film(dir.path(), Gauge::Super8, &["R1"]);
    let measure = |across: &str, hub: &str, thickness: Option<&str>| {
        FilmChange::MeasureWound(MeasureWound {
            roll: "R1".to_owned(),
            wound: Some(WoundWords {
                across_mm: across.to_owned(),
                hub_mm: hub.to_owned(),
                thickness_mm: thickness.map(str::to_owned),
            }),
        })
    };
    // Story 12: 46 ft 60 fr on a 32 mm hub at 0.145 mm is 60.5 mm across.
    change(&mut film, &measure("60,5", "32", None)).expect("measured");
    let wound = log(&film, "R1").inspection.wound.expect("measured");
    assert!((46..=47).contains(&wound.footage.feet), "{wound:?}");
    assert!(wound.thickness_taken && wound.thickness_mm == "0.145");
    assert!(
        wound.between.0 < 3372 && 3372 < wound.between.1,
        "{wound:?}"
    );
    let spread = wound.between.1 - wound.between.0;
    change(&mut film, &measure("60.5", "32", Some("0.145"))).expect("measured");
    let wound = log(&film, "R1").inspection.wound.expect("measured");
    assert!(!wound.thickness_taken);
    assert!(
        wound.between.1 - wound.between.0 < spread,
        "a micrometer says more"
    );
    assert!(wound.sum.contains("60.5"), "{}", wound.sum);
    for (across, hub) in [("32", "32"), ("0", "5"), ("2000", "32"), ("60", "x")] {
        change(&mut film, &measure(across, hub, None)).expect_err("no such reel");
    }
}

#[test]
fn joins_are_listed_by_their_frames_and_struck_off() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut film = film(dir.path(), Gauge::Super8, &["R1"]);
    let found = |frame: u32, kind: &str| {
        FilmChange::JoinFound(JoinFound {
            roll: "R1".to_owned(),
            frame,
            kind: kind.to_owned(),
            note: "lifts at the edge".to_owned(),
        })
    };
    change(&mut film, &found(2000, "cement")).expect("listed");
    change(&mut film, &found(720, "not-known")).expect("listed");
    change(&mut film, &found(720, "tape")).expect("said better");
    let joins = |film: &Production| -> Vec<(u32, String)> {
        let joins = log(film, "R1").inspection.joins;
        joins.into_iter().map(|j| (j.frame, j.kind)).collect()
    };
    let two = [(720, "tape".to_owned()), (2000, "cement".to_owned())];
    assert_eq!(joins(&film), two);
    assert_eq!(log(&film, "R1").inspection.joins[0].footage.feet, 10);
    let gone = |frame| {
        FilmChange::JoinGone(JoinGone {
            roll: "R1".to_owned(),
            frame,
        })
    };
    change(&mut film, &gone(720)).expect("struck off");
    assert_eq!(joins(&film), two[1..]);
    film.undo().expect("undone");
    assert_eq!(joins(&film), two);
    for refused in [
        found(0, "tape"),
        found(4000, "tape"),
        found(5, "glue"),
        gone(5),
    ] {
        change(&mut film, &refused).expect_err("refused");
    }
}

#[test]
fn an_inspection_warns_of_vinegar_and_sends_to_an_archive() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut film = film(dir.path(), Gauge::Super8, &["R1"]);
    let inspect = |vinegar: &str, acid: &str| {
        FilmChange::InspectRoll(InspectRoll {
            roll: "R1".to_owned(),
            accession: "1974/12".to_owned(),
            lies: "tails".to_owned(),
            condition: ConditionWords {
                vinegar: vinegar.to_owned(),
                acid: acid.to_owned(),
                warping: "cupped".to_owned(),
                ..ConditionWords::default()
            },
        })
    };
    change(&mut film, &inspect("none", "1")).expect("kept");
    let found = log(&film, "R1").inspection;
    assert_eq!(
        (found.accession.as_str(), found.lies.as_str()),
        ("1974/12", "tails")
    );
    assert_eq!(
        (found.condition.warping.as_str(), found.cautions.len()),
        ("cupped", 0)
    );
    for (vinegar, acid) in [("slight", ""), ("strong", "0"), ("", "1.5")] {
        change(&mut film, &inspect(vinegar, acid)).expect("kept");
        let cautions = log(&film, "R1").inspection.cautions;
        assert!(cautions[0].contains("ask an archive"), "{cautions:?}");
    }
    for (vinegar, acid) in [("a bit", ""), ("", "4"), ("", "much")] {
        change(&mut film, &inspect(vinegar, acid)).expect_err("refused");
    }
}
