//! The sheets of a screening: lines to write on, and what is then changed.

use onestrand_film::{FrameDelta, FrameName, Span};
use onestrand_sheets::{
    ChangeList, ChangeRow, ChangedFilm, LinedRow, LinedSheet, Paper, Printed, Proof, ScreeningNote,
    SheetError, Standing, print_change_list, print_lined_sheet,
};

use crate::{boat, paper};

#[track_caller]
fn set(printed: Result<Printed, SheetError>) -> Vec<u8> {
    let printed = printed.expect("a sound sheet");
    assert_eq!(printed.warnings, []);
    printed.pdf
}

fn noted(writer: &str, roll: &str, frame: u32, at: u32, words: &str) -> ScreeningNote {
    ScreeningNote {
        writer: writer.to_owned(),
        frame: FrameName {
            roll: boat::roll(roll),
            frame: boat::pos(frame),
        },
        at: boat::frames(at),
        words: words.to_owned(),
    }
}

/// The first cut with notes of three people on its second piece.
fn lined(paper: Paper, pictures: bool) -> LinedSheet {
    let cutting = boat::cutting(paper, pictures);
    let mut rows: Vec<LinedRow> = cutting
        .rows
        .into_iter()
        .map(|row| LinedRow {
            what: row.what,
            note: row.note,
            notes: Vec::new(),
        })
        .collect();
    rows[1].note = "the long one".to_owned();
    rows[1].notes = vec![
        noted("Bram", "R1", 410, 188, "starts late"),
        noted("Ida", "R1", 500, 278, "#strong[hold]\nthis"),
        noted("Bram", "R1", 540, 318, "cut before she turns"),
        noted("", "R1", 545, 323, "a scratch?"),
    ];
    LinedSheet {
        head: cutting.head,
        not_cuttable: Vec::new(),
        rows,
    }
}

#[test]
fn every_row_stands_with_its_place_and_its_notes_writer_by_writer() {
    let text = paper::flat(&set(print_lined_sheet(&lined(Paper::A4, true))));
    for words in [
        "Lined cutting sheet",
        "37 ft 60 fr running length",
        "2,724 frames",
        "4 notes so far",
        // Piece 2 begins at 180: 2 ft 36 fr at 72 frames a foot, 10 s at 18 f/s.
        "R1·402 to 545",
        "2 ft 36 fr",
        "0:10.0",
        "144 fr, 8.0 s",
        "the long one",
        // 188 is 2 ft 44 fr, 318 is 4 ft 30 fr.
        "Bram: starts late (2 ft 44 fr · R1·410); cut before she turns (4 ft 30 fr · R1·540)",
        "Ida: #strong[hold] this (3 ft 62 fr · R1·500)",
        "a scratch? (4 ft 35 fr · R1·545)",
        // The last piece begins at 2,643.
        "36 ft 51 fr",
    ] {
        assert!(text.contains(words), "{words}\n{text}");
    }
    assert!(!text.contains("NOT PROVED"));
    assert!(!text.contains("NOT CUTTABLE"));
}

#[test]
fn the_note_of_a_piece_is_printed_also_where_the_log_says_the_same() {
    let mut sheet = lined(Paper::A4, false);
    sheet.rows.truncate(1);
    sheet.rows[0].note = "main title".to_owned();
    let text = paper::flat(&set(print_lined_sheet(&sheet)));
    assert_eq!(text.matches("main title").count(), 2, "{text}");
}

#[test]
fn a_version_that_cannot_be_made_says_so_on_every_page_and_why() {
    let mut sheet = lined(Paper::A4, true);
    sheet.not_cuttable = vec!["2 and 9: 36 frames shown twice, R1·402 to 437.".to_owned()];
    let pages = paper::pages(&set(print_lined_sheet(&sheet)));
    assert!(pages.len() > 2);
    for page in &pages {
        let page = page.split_whitespace().collect::<Vec<_>>().join(" ");
        for words in ["NOT CUTTABLE", "36 frames shown twice", "For notes only"] {
            assert!(page.contains(words), "{words}\n{page}");
        }
    }
    // Beside NOT PROVED there is still room for the rows.
    sheet.head.rolls[0].proof = Proof::PaperOnly;
    sheet.not_cuttable = (1..=12).map(|n| format!("{n}: will not hold.")).collect();
    let pdf = set(print_lined_sheet(&sheet));
    paper::assert_tidy(&pdf);
    let text = paper::flat(&pdf);
    for words in [
        "NOT PROVED",
        "3: will not hold. And at 9 other places, see the last sheet.",
        "Not cuttable, 12: will not hold.",
    ] {
        assert!(text.contains(words), "{words}\n{text}");
    }
}

#[test]
fn leader_and_card_have_lines_too_and_an_empty_cut_says_so() {
    let mut sheet = lined(Paper::Letter, false);
    sheet.rows.truncate(2);
    sheet.rows[0].what = Standing::Leader {
        frames: boat::frames(36),
    };
    sheet.rows[1].what = Standing::Card {
        frames: boat::frames(126),
        title: "Where the river bends".to_owned(),
    };
    let text = paper::flat(&set(print_lined_sheet(&sheet)));
    for words in [
        "leader",
        "card to shoot",
        "Where the river bends",
        "126 fr, 7.0 s",
    ] {
        assert!(text.contains(words), "{words}\n{text}");
    }
    sheet.rows.clear();
    let text = paper::flat(&set(print_lined_sheet(&sheet)));
    assert!(text.contains("Nothing is cut yet"), "{text}");
}

#[test]
fn nothing_hangs_over_an_edge_however_much_was_noted() {
    let mut sheet = lined(Paper::A4, true);
    let long = "she looks into the lens and away again, ".repeat(60);
    sheet.rows[3].notes = (0..40)
        .map(|n| {
            noted(
                "Wilhelmina",
                "R1",
                2623 + n,
                432 + n,
                &long[..20 + n as usize * 40],
            )
        })
        .collect();
    sheet.rows[4].notes = vec![noted(&"W".repeat(80), "R1", 1600, 568, &"Q".repeat(300))];
    let pdf = set(print_lined_sheet(&sheet));
    paper::assert_tidy(&pdf);
    paper::assert_tidy(&set(print_change_list(&changes(Paper::Letter))));
}

fn change(act: &str, at: u32, frames: u32, to: Option<u32>, offset: i32) -> ChangeRow {
    ChangeRow {
        at: boat::frames(at),
        act: act.to_owned(),
        frames: boat::frames(frames),
        film: ChangedFilm::Piece {
            span: Span::new(boat::roll("R1"), boat::range(1822, 1822 + frames)),
            slate: "2B-T1".to_owned(),
        },
        to: to.map(boat::frames),
        offset_after: FrameDelta::new(offset).expect("in range"),
        picture: Some(boat::drawn("R1", 1822)),
    }
}

/// Some changes as a second version has them.
fn changes(paper: Paper) -> ChangeList {
    let mut leader = change("lay in", 1203, 36, Some(1158), -9);
    leader.film = ChangedFilm::Leader;
    let mut card = change("lay in", 2724, 54, Some(2715), 45);
    card.film = ChangedFilm::Card {
        title: "The end".to_owned(),
    };
    let mut head = boat::head(paper);
    head.version = "v2".to_owned();
    ChangeList {
        head,
        old: "v1".to_owned(),
        old_frames: boat::frames(2724),
        new_frames: boat::frames(2652),
        rows: vec![
            change("lift", 942, 45, None, -45),
            leader,
            change("move", 1275, 108, Some(1500), -117),
            card,
        ],
    }
}

#[test]
fn a_change_list_says_where_what_whereto_and_what_it_does_to_the_rest() {
    let text = paper::flat(&set(print_change_list(&changes(Paper::A4))));
    let in_order = [
        "Change list from v1 to v2",
        "4 changes",
        "37 ft 60 fr v1 now",
        "36 ft 60 fr v2 then",
        "− 72 frames in all",
        // 942 is 13 ft 6 fr.
        "1 13 ft 6 fr frame 942 lift 45 2B-T1 R1·1822 to 1866 − 45 0 ft 45 fr",
        "2 16 ft 51 fr frame 1,203 lay in 36 leader 16 ft 6 fr frame 1,158 − 9",
        "3 17 ft 51 fr frame 1,275 move 108",
        "20 ft 60 fr frame 1,500 − 117 1 ft 45 fr",
        "card to shoot The end 37 ft 51 fr frame 2,715 + 45",
    ];
    let in_order: Vec<String> = in_order.map(str::to_owned).to_vec();
    paper::assert_in_order(&text, &in_order);
    let mut same = changes(Paper::A4);
    same.rows.clear();
    let text = paper::flat(&set(print_change_list(&same)));
    assert!(text.contains("nothing is to be changed"), "{text}");
}

#[test]
fn an_unproved_roll_marks_these_sheets_too() {
    let mut list = changes(Paper::A4);
    list.head.rolls[0].proof = Proof::PaperOnly;
    let mut sheet = lined(Paper::A4, false);
    sheet.head.rolls[0].proof = Proof::PaperOnly;
    for pdf in [
        set(print_change_list(&list)),
        set(print_lined_sheet(&sheet)),
    ] {
        let pages = paper::pages(&pdf);
        assert!(pages.iter().all(|page| page.contains("NOT PROVED")));
    }
}
