//! `title card`: a card as a picture, or a refusal that leaves nothing behind.

use std::io::Write as _;
use std::path::Path;
use std::process::Stdio;

use serde_json::Value;

use crate::program::{Called, call, onestrand};

/// Calls `title card` in a folder; further words are split at spaces.
fn card(dir: &Path, words: &str, further: &str) -> Called {
    let file = dir.join("words.txt");
    std::fs::write(&file, words).expect("written");
    let mut arguments = vec!["title".to_owned(), "card".to_owned(), "--words".to_owned()];
    arguments.push(file.display().to_string());
    let folder = dir.display().to_string();
    let further = further.split(' ').filter(|word| !word.is_empty());
    arguments.extend(further.map(|word| word.replace("DIR", &folder)));
    call(arguments)
}

const USUAL: &str = "--design brush --gauge super8 --out DIR/card.png --size 480x360";

/// The head of a PNG: its signature, then width and height (ISO/IEC 15948, 5 and 11.2.2).
fn png_size(path: &Path) -> (u32, u32) {
    let bytes = std::fs::read(path).expect("the card is there");
    assert_eq!(&bytes[..8], b"\x89PNG\r\n\x1a\n");
    let side =
        |at: usize| u32::from_be_bytes([bytes[at], bytes[at + 1], bytes[at + 2], bytes[at + 3]]);
    (side(16), side(20))
}

#[test]
fn the_line_of_the_command_reference_makes_a_card() {
    let dir = tempfile::tempdir().expect("a folder");
    let made = card(dir.path(), "The Ten-Past Boat\n\na film by Ada", USUAL).ok();
    assert_eq!(png_size(&dir.path().join("card.png")), (480, 360));
    assert_eq!(made["lines"].as_array().map(Vec::len), Some(2));
    assert_eq!(made["aperture_mm"], serde_json::json!([5.31, 4.01]));
    assert_eq!(made["contrast"]["enough"], Value::Bool(true));
    assert_eq!(made["warnings"], serde_json::json!([]));
    // Nothing else is left in the folder.
    let mut names: Vec<String> = std::fs::read_dir(dir.path())
        .expect("a folder")
        .filter_map(|entry| entry.ok()?.file_name().into_string().ok())
        .collect();
    names.sort();
    assert_eq!(names, ["card.png", "words.txt"]);
}

#[test]
fn words_may_come_from_standard_input_and_are_told_for_a_person() {
    let dir = tempfile::tempdir().expect("a folder");
    let out = dir.path().join("end.png");
    let mut child = onestrand()
        .args([
            "title", "card", "--words", "-", "--design", "silent", "--gauge", "16",
        ])
        .args(["--size", "320x240", "--out"])
        .arg(&out)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .expect("it starts");
    let mut input = child.stdin.take().expect("a pipe");
    input.write_all("The End\n".as_bytes()).expect("read");
    drop(input);
    let output = child.wait_with_output().expect("it ends");
    let said = String::from_utf8_lossy(&output.stdout);
    assert!(output.status.success());
    assert!(said.contains("320 × 240, silent, 2 words"), "{said}");
    assert!(
        said.contains("The End") && said.contains("9.65 × 7.21 mm"),
        "{said}"
    );
    assert_eq!(png_size(&out), (320, 240));
}

#[test]
fn letters_that_do_not_stand_out_are_told_of_with_what_is_enough() {
    let dir = tempfile::tempdir().expect("a folder");
    let pale = format!("{USUAL} --ground 85");
    let made = card(dir.path(), "Boat", &pale).ok();
    assert_eq!(made["contrast"]["enough"], Value::Bool(false));
    let remedies = made["contrast"]["remedies"].as_array().expect("a list");
    let done: Vec<&str> = remedies
        .iter()
        .filter_map(|r| r["remedy"]["do"].as_str())
        .collect();
    assert!(
        done.contains(&"plate") && done.contains(&"other_ink"),
        "{done:?}"
    );
    // Each of the two does what was said.
    for remedy in ["--plate", "--black"] {
        let mended = card(dir.path(), "Boat", &format!("{pale} {remedy}")).ok();
        assert_eq!(mended["contrast"]["enough"], Value::Bool(true), "{remedy}");
    }
}

#[test]
fn a_picture_of_another_shape_is_cut_and_told_of() {
    let dir = tempfile::tempdir().expect("a folder");
    // A card of another shape is a picture like any other.
    let wide = "--design plain --gauge super8 --out DIR/wide.png --size 960x360";
    card(dir.path(), "Wide", wide).ok();
    let made = card(
        dir.path(),
        "Boat",
        &format!("{USUAL} --picture DIR/wide.png"),
    )
    .ok();
    assert_eq!(
        made["picture"]["cut_across_percent"],
        serde_json::json!(50.0)
    );
    let told = made["warnings"][0].as_str().expect("a warning");
    assert!(
        told.contains("50 % was cut away, at left and right"),
        "{told}"
    );
}

#[test]
fn what_cannot_be_is_refused_and_leaves_nothing() {
    let dir = tempfile::tempdir().expect("a folder");
    std::fs::write(dir.path().join("bad.png"), b"\x89PNG\r\n\x1a\nthen nothing").expect("written");
    let many = "word ".repeat(400);
    let endless = "Donaudampfschifffahrtsgesellschaftskapitänswitwenrentenauszahlungsstelle";
    for (words, further, code) in [
        (" \n", "", "lettering.no_words"),
        (many.as_str(), "", "lettering.too_many_words"),
        (endless, "", "lettering.word_too_wide"),
        ("नाव", "", "lettering.missing_characters"),
        ("Boat", "--font DIR/words.txt", "lettering.no_font"),
        ("Boat", "--picture DIR/bad.png", "lettering.corrupt_picture"),
        ("Boat", "--picture DIR/none.png", "production.file"),
        ("Boat", "--letter-height 200", "lettering.out_of_range"),
        ("Boat", "--safe 3", "lettering.out_of_range"),
        ("Boat", "--ground blue", "production.unfit"),
        ("Boat", "--where aloft", "production.unfit"),
    ] {
        let refused = card(dir.path(), words, &format!("{USUAL} {further}")).refused();
        assert_eq!(refused["code"], code, "{further}");
        assert!(!dir.path().join("card.png").exists(), "{further}");
    }
    for (line, code) in [
        (
            "--design brusque --gauge super8 --out DIR/card.png",
            "lettering.no_such_design",
        ),
        (
            "--design brush --gauge super8 --out DIR/card.png --size 9x9",
            "production.unfit",
        ),
        (
            "--design brush --gauge super8 --out DIR/none/card.png --size 96x72",
            "production.file",
        ),
    ] {
        assert_eq!(
            card(dir.path(), "Boat", line).refused()["code"],
            code,
            "{line}"
        );
    }
}

#[test]
fn a_card_is_never_written_over_what_it_is_made_of() {
    let dir = tempfile::tempdir().expect("a folder");
    card(dir.path(), "Boat", USUAL).ok();
    let before = std::fs::read(dir.path().join("card.png")).expect("there");
    let refused = card(
        dir.path(),
        "Boat",
        &format!("{USUAL} --picture DIR/card.png"),
    )
    .refused();
    assert_eq!(refused["code"], "production.unfit");
    let over_words = USUAL.replace("card.png", "words.txt");
    let refused = card(dir.path(), "Boat", &over_words).refused();
    assert_eq!(refused["code"], "production.unfit");
    assert_eq!(
        std::fs::read(dir.path().join("card.png")).expect("there"),
        before
    );
}
