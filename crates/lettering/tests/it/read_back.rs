//! Cards read by a machine that knows nothing of how they were made: Tesseract, with
//! its own data. The size is that of a workprint of a scan of 1440×1080.

use std::process::Command;

use onestrand_lettering::{Design, SetCard, laid_over};

use crate::{SUPER_8, card, grey};

const WORKPRINT: (u32, u32) = (960, 720);

/// Words as the machine reads them: signs at their ends taken away, small letters, and
/// without what holds neither letter nor figure (it takes a border for a bracket).
fn read(words: &str, design: Design, language: &str, size: (u32, u32)) -> String {
    let card = card(words, design);
    let layer = card.draw(size.0, size.1, 0.0);
    let mut picture = laid_over(&grey(28, size), &layer, 1.0, 1.0);
    if design == Design::Silent {
        without_border(&mut picture, &card, size);
    }
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("card.png");
    image::save_buffer(&file, &picture, size.0, size.1, image::ColorType::Rgb8).expect("written");
    let out = Command::new("tesseract")
        .arg(&file)
        .args(["-", "-l", language, "--psm", "6"])
        // Without it a wait for other threads costs more than the work.
        .env("OMP_THREAD_LIMIT", "1")
        .output()
        .expect("tesseract is there: ./test installs it");
    let said = String::from_utf8_lossy(&out.stderr);
    assert!(
        out.status.success(),
        "tesseract has the data for {language}: {said}"
    );
    plain(&String::from_utf8(out.stdout).expect("text"))
}

/// Paints over all that is farther than a capital from the words: the machine takes
/// leaves and lozenges of a border for letters.
fn without_border(picture: &mut [u8], card: &SetCard, (width, height): (u32, u32)) {
    let ink = card.bounds();
    let scale = (f64::from(width) / SUPER_8.0 * SUPER_8.1).min(f64::from(height));
    let left = (f64::from(width) - scale * SUPER_8.0 / SUPER_8.1) / 2.0;
    let top = (f64::from(height) - scale) / 2.0;
    let far = card.capital_height();
    for (at, rgb) in picture.chunks_exact_mut(3).enumerate() {
        let x = (f64::from(at as u32 % width) - left) / scale;
        let y = (f64::from(at as u32 / width) - top) / scale;
        let near = (ink.left - far..ink.right + far).contains(&x)
            && (ink.top - far..ink.bottom + far).contains(&y);
        if !near {
            rgb.fill(28);
        }
    }
}

fn plain(words: &str) -> String {
    let words = words.split_whitespace().map(|word| {
        word.trim_matches(|c: char| !c.is_alphanumeric())
            .to_lowercase()
    });
    words
        .filter(|word| !word.is_empty())
        .collect::<Vec<_>>()
        .join(" ")
}

fn every_design_reads(words: &str, language: &str) {
    let wrong: Vec<String> = Design::ALL
        .iter()
        .map(|design| (design, read(words, *design, language, WORKPRINT)))
        .filter(|(_, read)| *read != plain(words))
        .map(|(design, read)| format!("{design}: {read}"))
        .collect();
    assert!(
        wrong.is_empty(),
        "“{words}” was read as:\n{}",
        wrong.join("\n")
    );
}

#[test]
fn a_title_in_every_design() {
    every_design_reads(
        "The Ten-Past Boat\n\na film by the pupils of the river school",
        "eng",
    );
}

#[test]
fn an_intertitle_in_every_design() {
    every_design_reads(
        "Nobody on the quay had ever seen the boat leave late, not once in forty years.",
        "eng",
    );
}

#[test]
fn accents_in_every_design() {
    every_design_reads("Le bac de dix heures\nest déjà parti à la fête", "fra");
}

#[test]
fn at_half_a_workprint_a_title_still_reads_in_the_plain_designs() {
    for design in [Design::Plain, Design::Brush, Design::Pen, Design::CutPaper] {
        let words = "The Ten-Past Boat";
        assert_eq!(
            read(words, design, "eng", (480, 360)),
            plain(words),
            "{design}"
        );
    }
}

#[test]
fn hebrew_and_arabic_read_from_right_to_left() {
    for (words, language) in [
        ("הסירה יוצאת בעשר", "heb"),
        ("القارب يغادر في العاشرة", "ara"),
    ] {
        for design in [Design::Pen, Design::Silent] {
            assert_eq!(read(words, design, language, WORKPRINT), words, "{design}");
        }
    }
}

#[test]
fn greek_reads() {
    let words = "Το καράβι φεύγει νωρίς";
    for design in [Design::Plain, Design::CutPaper, Design::WoodType] {
        assert_eq!(
            read(words, design, "ell", WORKPRINT),
            plain(words),
            "{design}"
        );
    }
}

#[test]
fn words_that_do_not_stand_there_are_not_read() {
    assert_ne!(
        read("The Ten-Past Boat", Design::Plain, "eng", WORKPRINT),
        plain("The Ten-Past Coat")
    );
}
