//! Sheets gathered while the production is held, and set without it.

use std::path::Path;
use std::process::Command;

use onestrand_film::{Fps, Gauge};
use onestrand_production::{
    BenchPaper, Cancel, Meta, Production, Quiet, SheetName, SheetOptions, SheetsToPrint,
    gather_sheets, sheets,
};
use onestrand_store::{
    Act, CutRecord, InspectionRecord, PieceRecord, RollRecord, ScanFacts, ScanRecord,
};

use crate::numbered::{jpegs, workprint};
use crate::one_roll::shot;

const ALL: SheetOptions = SheetOptions {
    only: None,
    letter: false,
    join: None,
    bench: BenchPaper::USUAL,
};

fn roll(frames: u32) -> RollRecord {
    RollRecord {
        name: "R1".to_owned(),
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
        scans: vec![ScanRecord {
            paths: vec!["scan.mkv".to_owned()],
            bytes: 1,
            blake3: "hash".to_owned(),
            facts: ScanFacts {
                frames: frames.into(),
                rate: "18".to_owned(),
                width: 960,
                height: 720,
                coding: "ffv1".to_owned(),
            },
        }],
    }
}

fn lay(production: &mut Production, pieces: Vec<PieceRecord>) {
    let act = Act::PutCut {
        name: "first cut".to_owned(),
        cut: Some(CutRecord {
            usual_join: "tape".to_owned(),
            note: String::new(),
            made: "2026-01-01T00:00:00Z".to_owned(),
            pieces,
        }),
    };
    production.act("a cut", &act).expect("kept");
}

/// A production of one roll of 80 frames, in pieces of three frames.
fn film(dir: &Path) -> Production {
    let meta = Meta {
        title: "The Ten-Past Boat".to_owned(),
        gauge: Gauge::Super8,
        speed: Fps::EIGHTEEN,
    };
    let mut production = Production::create(dir, &meta).expect("new");
    let act = Act::PutRoll {
        name: "R1".to_owned(),
        roll: Some(Box::new(roll(80))),
    };
    production.act("R1", &act).expect("kept");
    drop(workprint(dir, &jpegs(1, 80), &[]));
    let pieces = (0..20).map(|n| shot(n * 4, n * 4 + 3)).collect();
    lay(&mut production, pieces);
    production
}

fn pages_of(pdf: &Path) -> usize {
    let answer = Command::new("pdfinfo")
        .arg(pdf)
        .output()
        .expect("poppler is there");
    let said = String::from_utf8(answer.stdout).expect("text");
    let line = said
        .lines()
        .find(|l| l.starts_with("Pages:"))
        .expect("a count");
    line.trim_start_matches("Pages:")
        .trim()
        .parse()
        .expect("a number")
}

#[test]
fn sheets_are_set_without_the_production_as_the_film_was() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = film(&dir.path().join("film"));
    let out = dir.path().join("sheets");
    let kept = sheets(
        &production,
        "first cut",
        &out,
        &ALL,
        &Cancel::new(),
        &mut Quiet,
    )
    .expect("printed");
    assert!(kept.proved);
    let mut gathered = gather_sheets(&production, "first cut", &ALL).expect("gathered");
    assert!(gathered.is_proved());
    assert_eq!(gathered.without_pictures(), Vec::<String>::new());
    // The film goes on, and is even closed, while the sheets wait.
    lay(&mut production, vec![shot(0, 9)]);
    drop(production);
    let setting = std::thread::spawn(move || {
        let wanted = gathered.wanted();
        let one = |sheet| gathered.print_one(sheet).expect("printed");
        wanted.into_iter().map(one).collect::<Vec<_>>()
    });
    let printed = setting.join().expect("set on another thread");
    assert_eq!(printed.len(), 2);
    for (printed, kept) in printed.iter().zip(&kept.files) {
        let path = Path::new(&kept.path);
        assert_eq!(printed.sheet, kept.sheet);
        assert_eq!(
            path.file_name().expect("a name"),
            printed.file_name.as_str()
        );
        assert!(std::fs::read(path).expect("the sheet") == printed.pdf);
        assert_eq!(printed.pages.len(), pages_of(path));
        assert!(printed.pages.iter().all(|page| page.starts_with("<svg ")));
    }
    assert_eq!(printed[0].file_name, "first_cut-cutting-sheet.pdf");
    assert!(printed[0].pages.len() > 1);
    let pictures = printed[0]
        .pages
        .iter()
        .map(|p| p.matches("<image ").count());
    assert_eq!(pictures.sum::<usize>(), 40);
}

#[test]
fn a_roll_whose_pictures_were_thrown_away_is_named() {
    let dir = tempfile::tempdir().expect("a folder");
    let production = film(dir.path());
    std::fs::remove_dir_all(dir.path().join("workprints")).expect("removed");
    let options = SheetOptions {
        only: Some(SheetName::PullList),
        ..ALL
    };
    let mut gathered = gather_sheets(&production, "first cut", &options).expect("gathered");
    assert_eq!(gathered.without_pictures(), ["R1"]);
    assert_eq!(gathered.wanted(), [SheetName::PullList]);
    let printed = gathered.print_one(SheetName::PullList).expect("printed");
    assert!(printed.pages.iter().all(|page| !page.contains("<image ")));
}

#[test]
fn a_cut_that_cannot_be_made_gets_no_sheet() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = film(dir.path());
    lay(&mut production, vec![shot(0, 9), shot(5, 12)]);
    let refused = |p: &Production| gather_sheets(p, "first cut", &ALL).map(|_: SheetsToPrint| ());
    let problem = refused(&production).expect_err("one frame twice");
    assert_eq!(problem.code(), "production.cut_refused");
}
