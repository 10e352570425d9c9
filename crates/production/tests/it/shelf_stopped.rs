//! A shelf that the user stops, or that holds nothing.

use std::path::PathBuf;
use std::process::Command;

use onestrand_film::Gauge;
use onestrand_production::{AddRoll, Cancel, JobState, Quiet, add_rolls, scans_on_shelf};

use crate::in_the_hand::film;

fn like() -> AddRoll {
    AddRoll {
        roll: String::new(),
        files: Vec::new(),
        gauge: None,
        film_speed: None,
        base: "not-known".to_owned(),
        measured: None,
        shrinkage: None,
        wind: None,
        fit: "project".to_owned(),
    }
}

#[test]
fn what_was_not_begun_is_told_and_not_carried_on_by_itself() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = film(&dir.path().join("film"), Gauge::Super8, &["R1"]);
    let shelf = dir.path().join("shelf");
    std::fs::create_dir(&shelf).expect("a folder");
    for name in ["R1.mkv", "b.mkv"] {
        let made = Command::new("ffmpeg")
            .args([
                "-v",
                "error",
                "-f",
                "lavfi",
                "-i",
                "testsrc=s=320x240:r=18:d=1",
            ])
            .args(["-c:v", "ffv1", name])
            .current_dir(&shelf)
            .status()
            .expect("ffmpeg starts");
        assert!(made.success());
    }
    // R1 is taken, and its next free number is R2; b is the name of a roll.
    let scans = scans_on_shelf(&production, std::slice::from_ref(&shelf)).expect("looked at");
    let names: Vec<&str> = scans.iter().map(|scan| scan.roll.as_str()).collect();
    assert_eq!(names, ["R2", "b"]);

    let cancel = Cancel::new();
    cancel.cancel();
    let read = add_rolls(&mut production, &[shelf], &like(), &cancel, &mut Quiet).expect("told");
    assert_eq!((read.stopped, read.read, read.is_whole()), (2, 0, false));
    assert_eq!(production.rolls().expect("rolls").len(), 1);
    for job in production.jobs().expect("jobs") {
        assert_eq!(job.state, JobState::Cancelled);
    }
    let nothing: Vec<PathBuf> = Vec::new();
    let refused = add_rolls(
        &mut production,
        &nothing,
        &like(),
        &Cancel::new(),
        &mut Quiet,
    );
    assert_eq!(refused.expect_err("no scan").code(), "production.unfit");
    let unknown = AddRoll {
        base: "wood".to_owned(),
        ..like()
    };
    let file = [dir.path().join("shelf/b.mkv")];
    let refused = add_rolls(&mut production, &file, &unknown, &Cancel::new(), &mut Quiet);
    assert_eq!(
        refused.expect_err("no such base").code(),
        "production.unfit"
    );
}
