//! Takes of the same action laid beside each other, by command.

use std::path::{Path, PathBuf};
use std::process::Command;

use onestrand_example::world::action_time;
use onestrand_example::{ExampleTake, takes};
use serde_json::Value;

use crate::program::{boat, call, call_words};

fn logged(slate: &str, take: u8) -> &'static ExampleTake {
    let found = takes().iter().find(|t| t.slate == slate && t.take == take);
    found.expect("it is in the log")
}

/// How far a place in `there` is from the moment that a frame of `here` was drawn at.
fn off(here: &ExampleTake, there: &ExampleTake, frame: u32, place: f64) -> f64 {
    let time = f64::from(action_time(here, frame));
    let at = |frame: u32| f64::from(action_time(there, frame));
    let mut frames = there.span_in..there.span_out - 1;
    let before = frames.find(|&f| at(f) <= time && time < at(f + 1));
    let before = before.expect("the other take shows that moment");
    let truth = f64::from(before) + (time - at(before)) / (at(before + 1) - at(before));
    (place - truth).abs()
}

#[test]
fn cuts_on_the_action_of_the_example_lie_where_it_was_drawn() {
    let film = boat();
    for ((setup, one), (other_setup, other)) in [
        (("6", 1), ("6", 2)),
        (("5B", 1), ("5B", 2)),
        (("3", 2), ("3A", 1)),
    ] {
        let names = (format!("{setup}-T{one}"), format!("{other_setup}-T{other}"));
        let line = format!("match DIR --from {} --to {}", names.0, names.1);
        let found = call_words(&line, &film).ok();
        assert_eq!(found["by"], "pictures", "{names:?}");
        let (here, there) = (logged(setup, one), logged(other_setup, other));
        for (points, here, there) in [("points", here, there), ("back", there, here)] {
            let points = found[points].as_array().expect("points");
            assert!(!points.is_empty(), "{names:?}");
            for point in points {
                let leave = point["leave"].as_u64().expect("a frame") as u32;
                let due = point["due"].as_f64().expect("a place");
                let off = off(here, there, leave, due);
                assert!(off <= 2.0, "{names:?}: {point}, off by {off:.2}");
            }
        }
    }
    let still = call_words("match DIR --from M-T1 --to E-T1", &film).refused();
    assert!(
        still["hint"].as_str().expect("a hint").contains("--mark"),
        "{still}"
    );
}

fn ffmpeg(words: &str, dir: &Path) {
    let mut command = Command::new("ffmpeg");
    command.current_dir(dir).args(["-v", "error", "-y"]);
    let made = command.args(words.split(' ')).status();
    assert!(made.expect("ffmpeg starts").success());
}

/// Two takes of one thing, the second darker, and one of a scene of its own.
fn drawn(dir: &Path) -> PathBuf {
    let pattern = |of: &str, seconds: u32| format!("-f lavfi -i {of}=s=320x240:r=18:d={seconds}");
    let parts = "[1]eq=brightness=-0.12[d];[0][d][2]concat=n=3";
    ffmpeg(
        &format!(
            "{} {} {} -filter_complex {parts} -pix_fmt yuv420p -c:v ffv1 R1.mkv",
            pattern("testsrc2", 5),
            pattern("testsrc2", 5),
            pattern("smptebars", 2)
        ),
        dir,
    );
    let log = "roll,slate,take,in,out,size,move,direction,action,use,note\n\
               R1,1,1,0,90,wide,still,,it moves,yes,\n\
               R1,1,2,90,180,wide,still,,it moves once more,,\n\
               R1,2,1,180,216,wide,still,,it stands,,\n";
    std::fs::write(dir.join("log.csv"), log).expect("written");
    let film = dir.join("film");
    let text = film.to_str().expect("plain");
    let plain = |name: &str| dir.join(name).to_str().expect("plain").to_owned();
    call(["new", text, "--title", "A Boat", "--speed", "18"]).ok();
    call(["roll", "add", text, "R1", &plain("R1.mkv")]).ok();
    call(["log", "import", text, &plain("log.csv")]).ok();
    film
}

fn pairs(found: &Value) -> Vec<(String, String, String)> {
    let word = |of: &Value| of.as_str().unwrap_or_default().to_owned();
    let pairs = found["pairs"].as_array().expect("pairs");
    pairs
        .iter()
        .map(|p| {
            (
                word(&p["from"]["slate"]),
                word(&p["to"]["slate"]),
                word(&p["by"]),
            )
        })
        .collect()
}

#[test]
fn twins_are_looked_for_once_and_the_marks_that_are_kept_stand_before_them() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = drawn(dir.path());
    let (one, two) = ("1-T1".to_owned(), "1-T2".to_owned());
    let by = |how: &str| (one.clone(), two.clone(), how.to_owned());

    // Of each scene every pair; what stands alone is looked at when it is asked about.
    let found = call_words("twins DIR", &film).ok();
    assert_eq!(
        (pairs(&found), &found["looked_at"]),
        (vec![by("pictures")], &1.into())
    );
    let of = call_words("twins DIR --of 2-T1", &film).ok();
    assert_eq!((pairs(&of), &of["looked_at"]), (Vec::new(), &3.into()));

    let matched = call_words("match DIR --from 1-T1 --to 1-T2", &film).ok();
    for point in matched["points"].as_array().expect("points") {
        let (leave, due) = (point["leave"].as_f64(), point["due"].as_f64());
        let later = due.expect("a place") - leave.expect("a frame");
        assert!((later - 90.0).abs() <= 1.0, "{point}");
    }

    // A mark is the user's word, whatever the pictures say.
    let marks = "--mark 10=102 --mark 50=142";
    let kept = call_words(
        &format!("match DIR --from 1-T1 --to 1-T2 {marks} --keep"),
        &film,
    )
    .ok();
    assert_eq!(
        (&kept["by"], &kept["marks_kept"]),
        (&"marks".into(), &true.into())
    );
    let turned = call_words("match DIR --from 1-T2 --to 1-T1", &film).ok();
    assert_eq!(turned["marks"][0]["here"], 102);
    assert_eq!(turned["points"][0]["uncertain"], 0.0);
    let looked = call_words("match DIR --from 1-T1 --to 1-T2 --by-pictures", &film).ok();
    assert_eq!(looked["by"], "pictures");
    let found = call_words("twins DIR", &film).ok();
    assert_eq!(pairs(&found), [by("marks"), by("pictures")]);
    call_words("undo DIR", &film).ok();
    let found = call_words("twins DIR", &film).ok();
    assert_eq!(pairs(&found), [by("pictures")]);

    // What was found of a take that is divided otherwise now is no longer told.
    let film_text = film.to_str().expect("plain");
    let log = dir.path().join("anew.csv");
    let rows = "roll,slate,take,in,out,size,move,direction,action,use,note\n\
                R1,1,1,0,80,,,,,,\nR1,1,2,80,180,,,,,,\nR1,2,1,180,216,,,,,,\n";
    std::fs::write(&log, rows).expect("written");
    call(["log", "import", film_text, log.to_str().expect("plain")]).ok();
    let prints = film.join("workprints").join("twins.json");
    assert!(prints.is_file());
    let anew = call_words("twins DIR", &film).ok();
    assert_eq!(anew["looked_at"], 1);
    for pair in anew["pairs"].as_array().expect("pairs") {
        assert_eq!(
            (&pair["from"]["out"], &pair["to"]["in"]),
            (&80.into(), &80.into())
        );
    }

    // A file that is damaged is looked for anew.
    std::fs::write(&prints, b"{").expect("spoilt");
    assert_eq!(call_words("twins DIR", &film).ok()["looked_at"], 1);
}
