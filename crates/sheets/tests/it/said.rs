//! What people write is printed as it stands and never becomes an order to
//! the form.

use onestrand_sheets::{Paper, Standing, cutting_sheet, pull_list};
use proptest::prelude::*;

use crate::{boat, paper};

/// Words that would mean something to a template, a page or a shell.
const AWKWARD: [&str; 14] = [
    "#panic()",
    "#import \"x\": *",
    "*bold* _slant_ `raw`",
    "$x^2$ = 10 $",
    "back\\slash \\u{41} \\n",
    "<b>not bold</b> <label>",
    "\"double\" 'single' “curly”",
    "@ref [square] {curly} ~tilde",
    "= Heading",
    "- list",
    "// gone? /* gone? */",
    "a -- b --- c ... d",
    "50 % & 7 < 8; rm -rf",
    "https://example.org/a_b",
];

/// A cutting sheet with the words at every place a person can write.
fn said(words: &str) -> Vec<u8> {
    let mut sheet = boat::cutting(Paper::A4, false);
    sheet.rows.truncate(2);
    sheet.head.title = words.to_owned();
    sheet.rows[0].note = words.to_owned();
    if let Standing::Piece(piece) = &mut sheet.rows[0].what {
        piece.action = words.to_owned();
    }
    sheet.rows[1].what = Standing::Card {
        frames: boat::frames(9),
        title: words.to_owned(),
    };
    cutting_sheet(&sheet).expect("words never break the form")
}

#[test]
fn awkward_words_are_printed_as_they_stand() {
    for words in AWKWARD {
        let text = paper::tight(&paper::flat(&said(words)));
        let found = text.matches(&paper::tight(words)).count();
        assert_eq!(found, 4, "“{words}” in: {text}");
    }
}

#[test]
fn awkward_landmarks_are_printed_as_they_stand() {
    let mut list = boat::pull(Paper::A4, false);
    let strips = list.mounts.iter_mut().flat_map(|mount| &mut mount.strips);
    for (strip, words) in strips.zip(AWKWARD) {
        strip.landmark.words = words.to_owned();
    }
    let text = paper::flat(&pull_list(&list).expect("words never break the form"));
    paper::assert_in_order(&paper::tight(&text), &AWKWARD.map(paper::tight));
}

#[test]
fn a_very_long_word_stays_whole_in_the_text_and_inside_its_column() {
    let word = "Donaudampfschifffahrtsgesellschaftskapitänsmütze".repeat(3);
    let pdf = said(&word);
    let text = paper::text(&pdf).replace(['\u{200b}', '\n'], "");
    assert_eq!(text.matches(&word).count(), 4, "{text}");
    paper::assert_tidy(&pdf);
}

#[test]
fn a_title_longer_than_a_page_is_cut_short_in_the_head_and_whole_at_the_end() {
    let words: Vec<String> = (0..1_500).map(|number| format!("title{number}")).collect();
    let mut sheet = boat::cutting(Paper::A4, false);
    sheet.head.title = words.join(" ");
    let pages = paper::pages(&cutting_sheet(&sheet).expect("it is shortened"));
    for page in &pages {
        assert!(page.contains("title11 tit…, v1."), "{page}");
    }
    let text = pages.concat();
    let missing: Vec<&String> = words.iter().filter(|word| !text.contains(*word)).collect();
    assert!(missing.is_empty(), "{missing:?}");
}

#[test]
fn a_note_longer_than_a_page_is_printed_to_its_end() {
    let mut sheet = boat::cutting(Paper::A4, false);
    let note: Vec<String> = (0..900).map(|number| format!("word{number}")).collect();
    sheet.rows[2].note = note.join(" ");
    let text = paper::text(&cutting_sheet(&sheet).expect("it runs on to the next sheet"));
    let missing: Vec<&String> = note.iter().filter(|word| !text.contains(*word)).collect();
    assert!(missing.is_empty(), "{missing:?}");
}

#[test]
fn letters_the_typefaces_lack_are_admitted_on_the_sheet() {
    let admits = |words| paper::flat(&said(words)).contains("An empty box stands for");
    assert!(admits("the ferry ⛴"));
    assert!(admits("\u{5e9}\u{5dc}\u{5d5}\u{5dd}"));
    assert!(!admits("Père Noël, Ærø, Łódź, Паром"));
}

#[test]
fn signs_that_turn_the_writing_round_do_not_reach_the_paper() {
    let text = paper::flat(&said(
        "\u{202e}boat\u{202c} \u{2067}rope\u{2069}\u{0}\ttied",
    ));
    assert_eq!(text.matches("boat rope tied").count(), 4, "{text}");
}

/// Found by the test below: writing that turns round inside a line.
#[test]
fn scripts_mixed_within_a_line_are_printed() {
    let mut sheet = boat::cutting(Paper::A4, false);
    sheet.head.title = "\u{1eea1}0 \u{113bb}𐧒𐠿 Aെ A A𑎋𖩠  0 ".to_owned();
    assert!(cutting_sheet(&sheet).is_ok());
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn no_words_break_the_form(words in "\\PC{0,60}") {
        let mut sheet = boat::cutting(Paper::A4, false);
        sheet.rows.truncate(1);
        sheet.head.title = words.clone();
        sheet.rows[0].note = words;
        prop_assert!(cutting_sheet(&sheet).is_ok());
    }
}
