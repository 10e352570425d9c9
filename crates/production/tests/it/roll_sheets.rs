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
            roll: Some(Box::new(roll(name, frames))),
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
fn the_log_says_the_notes_that_fall_on_frames_of_a_take_and_each_once() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = film(dir.path());
    let first = production.takes_of("R2").expect("takes")[0].first;
    let note = |id, frame, words: &str| Act::PutNote {
        id,
        note: Some(onestrand_store::NoteRecord::new("R2", frame, words, "")),
    };
    let acts = vec![note(1, first + 2, "her hand"), note(2, first, "too dark")];
    let act = Act::All { acts };
    production.act("notes", &act).expect("kept");
    let told = |production: &Production| {
        let rows = csv_of(production, RollSheet::Log, Some("R2"));
        cell(&rows, 1, "note").to_owned()
    };
    let both = format!("{}: her hand", first + 2);
    assert!(told(&production).contains(&both), "{}", told(&production));
    // What a log that was brought in says already is not said again.
    let mut takes = production.takes_of("R2").expect("takes");
    takes[0].note = both.clone();
    let act = Act::PutTakes {
        roll: "R2".to_owned(),
        takes,
    };
    production.act("the log", &act).expect("kept");
    assert_eq!(told(&production).matches("her hand").count(), 1);
    assert!(told(&production).contains("too dark"));
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
    // A label keeps its pin when the labels of one roll are printed alone.
    let alone = gather_roll_sheet(&production, RollSheet::TrimLabels, Some("R2"), false);
    let rows = read(&alone.expect("gathered").csv().csv);
    assert_eq!([&rows[1][0], &rows[2][0]], ["3", "4"]);
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

/// A form in CSV as another program reads it.
fn read(text: &str) -> Vec<Vec<String>> {
    let mut reader = csv::ReaderBuilder::new()
        .has_headers(false)
        .from_reader(text.as_bytes());
    let rows = reader.records().map(|row| {
        let row = row.expect("a row as long as the header");
        row.iter().map(str::to_owned).collect()
    });
    rows.collect()
}

/// The cell of a row under a heading.
fn cell<'a>(rows: &'a [Vec<String>], row: usize, heading: &str) -> &'a str {
    let at = rows[0].iter().position(|h| h == heading);
    &rows[row][at.unwrap_or_else(|| panic!("no {heading} in {:?}", rows[0]))]
}

fn csv_of(production: &Production, sheet: RollSheet, roll: Option<&str>) -> Vec<Vec<String>> {
    let gathered = gather_roll_sheet(production, sheet, roll, false).expect("gathered");
    let form = gathered.csv();
    assert!(form.file_name.ends_with(&format!("{}.csv", sheet.word())));
    // RFC 4180 ends each row, the last too, with a carriage return and a line feed.
    assert!(form.csv.ends_with("\r\n") && !form.csv.replace("\r\n", "").contains('\r'));
    read(&form.csv)
}

#[test]
fn a_log_in_csv_says_what_the_takes_say() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = film(dir.path());
    let note = "a \"quoted\" word, a comma;\nand a line – ⛴";
    let mut takes = production.takes_of("R2").expect("takes");
    note.clone_into(&mut takes[1].note);
    for take in &mut takes {
        take.setup = Some("4B".to_owned());
    }
    let act = Act::PutTakes {
        roll: "R2".to_owned(),
        takes,
    };
    production.act("a note", &act).expect("kept");
    let rows = csv_of(&production, RollSheet::Log, None);
    assert_eq!(rows.len(), 5, "a header and four takes");
    let kept: Vec<TakeRecord> = production.takes().expect("takes");
    for (row, take) in (1..).zip(&kept) {
        let said = |heading| cell(&rows, row, heading);
        assert_eq!(said("roll"), take.roll);
        assert_eq!(
            (said("slate"), said("take")),
            (
                take.setup.as_deref().expect("a setup"),
                &*take.take.expect("a take").to_string()
            )
        );
        assert_eq!(said("in"), take.first.to_string());
        assert_eq!(said("out"), take.thrown.to_string());
        assert_eq!(said("frames"), (take.thrown - take.first).to_string());
        assert_eq!(
            (said("size"), said("move"), said("use")),
            ("close", "still", "yes")
        );
        assert_eq!(said("action"), "the rope comes off");
        assert_eq!(said("note"), take.note);
        assert!(said("begins").starts_with("camera stop"));
    }
    // The last frame of [30, 90) is 89, 1 ft 17 fr at 72 frames a foot.
    let last = |heading| cell(&rows, 4, heading);
    assert_eq!(
        (last("from"), last("to"), last("length")),
        ("0+30", "1+17", "0+60")
    );

    // What goes out comes in again, and changes nothing.
    let file = dir.path().join("log.csv");
    let form = gather_roll_sheet(&production, RollSheet::Log, None, false).expect("gathered");
    std::fs::write(&file, form.csv().csv).expect("written");
    let done = onestrand_production::import_log(
        &mut production,
        &file,
        &onestrand_production::LogReading::default(),
    )
    .expect("brought in");
    assert_eq!((done.takes, done.unknown_columns.len()), (4, 0));
    let again: Vec<TakeRecord> = production.takes().expect("takes");
    let plain = |takes: &[TakeRecord]| -> Vec<TakeRecord> {
        let one = |take: &TakeRecord| TakeRecord {
            looked: true,
            ..take.clone()
        };
        takes.iter().map(one).collect()
    };
    assert_eq!(plain(&again), plain(&kept));
}

#[test]
fn labels_in_csv_carry_pins_and_an_inspection_what_was_found() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = film(dir.path());
    let mut found = production.roll("R1").expect("there");
    found.inspection.accession = "1974/12".to_owned();
    found.inspection.condition.warping = "cupped".to_owned();
    found.inspection.joins = vec![onestrand_store::RollJoinRecord {
        frame: 40,
        kind: "not-known".to_owned(),
        note: "lifts".to_owned(),
    }];
    let act = Act::PutRoll {
        name: "R1".to_owned(),
        roll: Some(Box::new(found)),
    };
    production.act("looked at", &act).expect("kept");

    let labels = csv_of(&production, RollSheet::TrimLabels, None);
    let pins: Vec<&str> = (1..5).map(|row| cell(&labels, row, "pin")).collect();
    assert_eq!(pins, ["1", "2", "3", "4"]);
    assert_eq!(cell(&labels, 4, "slate"), "3B-T2");
    assert_eq!(
        (cell(&labels, 4, "roll"), cell(&labels, 4, "out")),
        ("R2", "90")
    );

    let rows = csv_of(&production, RollSheet::Inspection, Some("R1"));
    for (heading, words) in [
        ("roll", "R1"),
        ("can", "1974/12"),
        ("gauge", "super8"),
        ("base", "triacetate"),
        ("frames", "80"),
        ("length", "1+8"),
        ("shrinkage_percent", "0.40"),
        ("wind", "B"),
        ("warping", "cupped"),
        ("vinegar", ""),
        (
            "splices",
            "1 not known; between takes 2 camera stops; 40 not known (lifts)",
        ),
        ("fit", "scanning only"),
    ] {
        assert_eq!(cell(&rows, 1, heading), words, "{heading}");
    }
    // A roll on paper has no file, and the sheet a header alone.
    assert_eq!(csv_of(&production, RollSheet::Scan, Some("R2")).len(), 1);
}

#[test]
fn a_scan_in_csv_says_which_frames_its_file_shows() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = film(dir.path());
    let mut scanned = production.roll("R1").expect("there");
    scanned.scans = vec![onestrand_store::ScanRecord {
        paths: vec!["/films/R1, first.mkv".to_owned()],
        bytes: 413_961,
        blake3: "7".repeat(64),
        facts: onestrand_store::ScanFacts {
            frames: 80,
            rate: "18".to_owned(),
            width: 640,
            height: 480,
            coding: "ffv1".to_owned(),
        },
    }];
    scanned.expected = Some(81);
    let act = Act::PutRoll {
        name: "R1".to_owned(),
        roll: Some(Box::new(scanned)),
    };
    production.act("scanned", &act).expect("kept");
    let rows = csv_of(&production, RollSheet::Scan, None);
    for (heading, words) in [
        ("roll", "R1"),
        ("machine", ""),
        ("file", "R1, first.mkv"),
        ("rate", "18"),
        ("width", "640"),
        ("bytes", "413961"),
        ("first", "0"),
        ("last", "79"),
        ("found", "80"),
        ("expected", "81"),
        ("difference", "-1"),
        ("proved", "no"),
    ] {
        assert_eq!(cell(&rows, 1, heading), words, "{heading}");
    }
}
