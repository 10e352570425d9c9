//! Labels of the reel make-up, printed by the program.

use std::process::Command;

use crate::program::call;
use crate::reel_plan::second_cut;
use crate::sheets_and_cuts::text_of;

#[test]
fn labels_say_what_the_reel_plan_says() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = second_cut(dir.path());
    for (paper, width) in [("a4", "595"), ("letter", "612")] {
        let file = dir.path().join(format!("{paper}.pdf"));
        let plan = call([
            "reel",
            "plan",
            &film,
            "--cut",
            "v2",
            "--lies",
            "tails",
            "--sound",
            "silent",
            "--picture",
            "black and white",
            "--owner",
            "Ida",
            "--paper",
            paper,
            "--labels",
            file.to_str().expect("plain"),
        ])
        .ok();
        let pdf = std::fs::read(&file).expect("written");
        assert!(pdf.starts_with(b"%PDF"), "a PDF on {paper}");
        let text = text_of(file.to_str().expect("plain"));
        let reel = &plan["reels"][0]["labels"];
        for place in ["reel", "can", "head_leader", "tail_leader"] {
            for line in reel[place].as_array().expect("lines") {
                let line = line.as_str().expect("words");
                // What the plan says of the mark is drawn on paper.
                let line = match line.starts_with("START") {
                    true => "start mark",
                    false => line,
                };
                // The order of the words is another on paper: "with leaders 46 ft".
                for part in line.split(", ").flat_map(|part| part.split(" with ")) {
                    assert!(text.contains(part), "{place}, {part}: {text}");
                }
            }
        }
        // 210 mm are 595 points of 1/72 in, 8.5 in are 612.
        let info = Command::new("pdfinfo").arg(&file).output().expect("starts");
        let info = String::from_utf8_lossy(&info.stdout).into_owned();
        let size = info.lines().find(|line| line.starts_with("Page size"));
        assert!(size.is_some_and(|size| size.contains(width)), "{info}");
    }
}

#[test]
fn nothing_is_overwritten_and_nothing_printed_of_what_goes_on_no_reel() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = second_cut(dir.path());
    let file = dir.path().join("labels.pdf");
    std::fs::write(&file, "mine").expect("written");
    let print = |more: &[&str]| {
        let words = ["reel", "plan", &film, "--labels"];
        call(words.iter().copied().chain(more.iter().copied()))
    };
    let mine = file.to_str().expect("plain");
    print(&[mine, "--cut", "v2"]).refused();
    assert_eq!(std::fs::read(&file).expect("there"), b"mine");
    let other = dir.path().join("other.pdf");
    let new = other.to_str().expect("plain");
    print(&[new, "--cut", "v2", "--leader", "20ft0", "--reel", "50ft"]).refused();
    assert!(!other.exists());
    print(&[new, "--cut", "v9"]).refused();
    let nowhere = dir.path().join("no/such/folder.pdf");
    print(&[nowhere.to_str().expect("plain"), "--cut", "v2"]).refused();
}
