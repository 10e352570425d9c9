//! A roll's scan read anew by the command.

use std::path::Path;
use std::process::Command;

use serde_json::json;

use crate::program::call;

fn ffmpeg(words: &str, dir: &Path) {
    let mut command = Command::new("ffmpeg");
    command.current_dir(dir).args(["-v", "error", "-y"]);
    let made = command.args(words.split(' ')).status();
    assert!(made.expect("ffmpeg starts").success());
}

#[test]
fn a_scan_is_read_again_only_where_something_lacks_and_only_if_it_is_the_same() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = dir.path().join("film");
    let text = film.to_str().expect("plain");
    call(["new", text, "--title", "A Boat", "--speed", "18"]).ok();
    call(["roll", "paper", text, "R2", "--frames", "100"]).ok();
    let scan = dir.path().join("R1.mkv");
    let make = |pattern: &str| {
        let words = format!("-f lavfi -i {pattern}=s=64x48:r=18:d=2 -c:v ffv1 R1.mkv");
        ffmpeg(&words, dir.path());
    };
    make("testsrc2");
    call(["roll", "add", text, "R1", scan.to_str().expect("plain")]).ok();

    let again = || call(["roll", "again", text]);
    let said = |read: bool, lacked: &[&str]| {
        json!({ "rolls": [
            { "roll": "R1", "read": read, "lacked": lacked },
            { "roll": "R2", "read": false, "lacked": [] },
        ] })
    };
    let sorted = |mut found: serde_json::Value| {
        let rolls = found["rolls"].as_array_mut().expect("rolls");
        rolls.sort_by_key(|one| one["roll"].to_string());
        found
    };
    assert_eq!(sorted(again().ok()), said(false, &[]));
    let prints = film.join("workprints");
    std::fs::remove_dir_all(&prints).expect("thrown away");
    assert_eq!(sorted(again().ok()), said(true, &["pictures"]));
    assert!(prints.exists());
    let rolls = call(["roll", "list", text]).ok();
    assert_eq!(sorted(rolls)["rolls"][0]["frames"], 36);
    assert_eq!(sorted(again().ok()), said(false, &[]));

    // Another film under the same name is not taken for it.
    std::fs::remove_dir_all(&prints).expect("thrown away");
    make("testsrc");
    let changed = call(["roll", "again", text, "R1"]).refused();
    assert_eq!(changed["code"], "production.scan_changed");
    let unknown = call(["roll", "again", text, "R9"]).refused();
    assert_eq!(unknown["code"], "store.not_found");
}
