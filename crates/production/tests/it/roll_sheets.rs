//! Sheets about rolls, gathered from what is logged and scanned.

use std::path::Path;
use std::process::Command;

use onestrand_film::{Fps, Gauge};
use onestrand_production::{Meta, Production, RollSheet, gather_roll_sheet};
use onestrand_store::{Act, InspectionRecord, RollRecord, TakeRecord};

use crate::numbered::{jpegs, workprint};

fn roll(name: &str, frames: u32) -> RollRecord {
    RollRecord {
        name: name.to_owned(),
        gauge: "super8".to_owned(),
        film_speed: "18".to_owned(),
        base: "triacetate".to_owned(),
        fit: "scan-only".to_owned(),
        wind: Some("B".to_owned()),
        frames,
        missing: 0,
        expected: Some(frames),
        measured: Some("1ft8".to_owned()),
        shrinkage: Some("0.4".to_owned()),
        proved_by: None,
        inspection: InspectionRecord::default(),
        scans: Vec::new(),
    }
}

fn take(roll: &str, first: u32, thrown: u32, number: u16) -> TakeRecord {
    TakeRecord {
        roll: roll.to_owned(),
        first,
        thrown,
        setup: Some("3B".to_owned()),
        take: Some(number),
        rating: "circled".to_owned(),
        size: "close".to_owned(),
        camera_move: "still".to_owned(),
        direction: String::new(),
        action: "the rope comes off".to_owned(),
        note: String::new(),
        begins: "camera_stop".to_owned(),
        flash_frames: 1,
        flash_stops: Some(1.2),
        looked: false,
        pin: None,
    }
}

/// Two rolls: one with pictures, one known on paper.
fn film(dir: &Path) -> Production {
    let meta = Meta {
        title: "The Ten-Past Boat".to_owned(),
        gauge: Gauge::Super8,
        speed: Fps::EIGHTEEN,
    };
    let mut production = Production::create(dir, &meta).expect("new");
    for (name, frames) in [("R1", 80), ("R2", 90)] {
        let act = Act::PutRoll {
            name: name.to_owned(),
            roll: Some(roll(name, frames)),
        };
        production.act(name, &act).expect("kept");
        let act = Act::PutTakes {
            roll: name.to_owned(),
            takes: vec![take(name, 0, 30, 1), take(name, 30, frames, 2)],
        };
        production.act("takes", &act).expect("kept");
    }
    drop(workprint(dir, &jpegs(1, 80), &[]));
    production
}

fn text_of(pdf: &[u8]) -> String {
    let dir = tempfile::tempdir().expect("a folder");
    let file = dir.path().join("sheet.pdf");
    std::fs::write(&file, pdf).expect("written");
    let out = Command::new("pdftotext")
        .args(["-raw", "-enc", "UTF-8"])
        .arg(&file)
        .arg("-")
        .output()
        .expect("poppler is there");
    let text = String::from_utf8(out.stdout).expect("text");
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn of_one_roll_or_of_all() {
    let dir = tempfile::tempdir().expect("a folder");
    let production = film(dir.path());
    let log = |roll: Option<&str>| {
        let gathered = gather_roll_sheet(&production, RollSheet::Log, roll, false);
        gathered.expect("gathered").print().expect("printed")
    };
    let (one, all) = (log(Some("R2")), log(None));
    assert_eq!(one.file_name, "R2-log-sheet.pdf");
    assert_eq!(all.file_name, "rolls-log-sheet.pdf");
    let (one, all) = (text_of(&one.pdf), text_of(&all.pdf));
    for words in [
        "R2 2 takes, 90 frames",
        "3B-T2",
        "camera stop, first frame 1.2 stops over",
    ] {
        assert!(one.contains(words), "{words}\n{one}");
    }
    assert!(!one.contains("R1 2 takes"), "{one}");
    assert!(all.contains("R1 2 takes, 80 frames"), "{all}");
}

#[test]
fn a_roll_on_paper_has_empty_frames_and_one_with_pictures_shows_them() {
    let dir = tempfile::tempdir().expect("a folder");
    let production = film(dir.path());
    let pictures = |roll: &str| {
        let gathered = gather_roll_sheet(&production, RollSheet::TrimLabels, Some(roll), true);
        let printed = gathered.expect("gathered").print().expect("printed");
        let pages = printed.pages.iter();
        pages
            .map(|page| page.matches("<image ").count())
            .sum::<usize>()
    };
    assert_eq!((pictures("R1"), pictures("R2")), (2, 0));
}

#[test]
fn pins_are_numbered_through_all_rolls() {
    let dir = tempfile::tempdir().expect("a folder");
    let production = film(dir.path());
    let gathered = gather_roll_sheet(&production, RollSheet::TrimLabels, None, false);
    let text = text_of(&gathered.expect("gathered").print().expect("printed").pdf);
    // The last label is that of the second take of R2.
    let last = text.find("R2 30 to 89").expect("the label");
    assert!(text[last..].contains(" 4 "), "{text}");
}

#[test]
fn the_inspection_knows_what_was_said_of_the_roll() {
    let dir = tempfile::tempdir().expect("a folder");
    let production = film(dir.path());
    let gathered = gather_roll_sheet(&production, RollSheet::Inspection, Some("R1"), false);
    let text = text_of(&gathered.expect("gathered").print().expect("printed").pdf);
    for words in [
        "triacetate",
        "scanning only",
        "1ft8",
        "0.40 %",
        "2 camera stops",
    ] {
        assert!(text.contains(words), "{words}\n{text}");
    }
}

#[test]
fn a_roll_that_is_not_there_is_refused_by_name() {
    let dir = tempfile::tempdir().expect("a folder");
    let production = film(dir.path());
    for sheet in RollSheet::ALL {
        let problem = gather_roll_sheet(&production, sheet, Some("R9"), false);
        let problem = problem.map(|_| ()).expect_err("there is no R9");
        assert_eq!(problem.code(), "store.not_found");
    }
}
