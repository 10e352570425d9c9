//! The cutting sheet on paper.

use onestrand_film::Fps;
use onestrand_sheets::{
    After, CuttingRow, CuttingSheet, JoinKind, Paper, Proof, Standing, cutting_sheet,
};

use crate::{boat, paper};

fn printed(sheet: &CuttingSheet) -> Vec<u8> {
    cutting_sheet(sheet).expect("a sound sheet")
}

/// A row that is no piece, joined with tape.
fn row(what: Standing) -> CuttingRow {
    CuttingRow {
        what,
        after: After::Join(JoinKind::Tape),
        note: String::new(),
    }
}

/// Where the pieces of the first cut begin, as the story gives them.
const STARTS: [u32; 23] = [
    0, 180, 324, 432, 558, 630, 756, 816, 942, 987, 1203, 1275, 1383, 1437, 1581, 1653, 1761, 1923,
    2103, 2157, 2229, 2373, 2643,
];

/// A count with a comma in the thousands.
fn comma(number: u32) -> String {
    if number < 1_000 {
        number.to_string()
    } else {
        format!("{},{:03}", number / 1_000, number % 1_000)
    }
}

#[test]
fn every_piece_stands_in_order_with_its_frames_and_its_running_place() {
    let text = paper::flat(&printed(&boat::cutting(Paper::A4, true)));
    let words: Vec<String> = boat::V1
        .iter()
        .zip(STARTS)
        .zip(1..)
        .flat_map(|(((roll, begin, end, slate, action), start), number)| {
            [
                format!(
                    " {number} {slate} {action} {roll}·{begin} to {} {}",
                    end - 1,
                    end - begin
                ),
                format!("{} ft {} fr {} fr, ", start / 72, start % 72, comma(start)),
                "tape".to_owned(),
            ]
        })
        .collect();
    paper::assert_in_order(&text, &words);
}

#[test]
fn the_lengths_of_the_first_cut_stand_at_head_and_foot() {
    let text = paper::flat(&printed(&boat::cutting(Paper::A4, true)));
    for figure in [
        "37 ft 60 fr running length",
        "2,724 frames",
        "2:31.3 min at 18 f/s",
        "23 pieces",
        "24 joins",
        "37 ft 60 fr, 2,724 frames, 2:31.3",
    ] {
        assert!(text.contains(figure), "{figure} is not in: {text}");
    }
}

#[test]
fn the_text_of_the_sheet() {
    insta::assert_snapshot!(paper::text(&printed(&boat::cutting(Paper::A4, false))));
}

#[test]
fn leader_and_card_take_their_place_in_the_running_length() {
    let mut sheet = boat::cutting(Paper::A4, false);
    sheet.rows.truncate(1);
    sheet.rows.insert(
        0,
        row(Standing::Leader {
            frames: boat::frames(36),
        }),
    );
    let title = "Where the river bends".to_owned();
    sheet.rows.push(row(Standing::Card {
        frames: boat::frames(126),
        title,
    }));
    let text = paper::flat(&printed(&sheet));
    let words = [
        "342 frames",
        "4 joins",
        "1 leader",
        "1 card to shoot",
        "1 leader 36 0 ft 0 fr",
        "2 3075 3254 M-T1 main title R3·3075 to 3254 180 0 ft 36 fr 36 fr, 0:02.0",
        "to shoot card to shoot Where the river bends 126 3 ft 0 fr 216 fr, 0:12.0",
    ];
    let words: Vec<String> = words.map(str::to_owned).to_vec();
    paper::assert_in_order(&text, &words);
}

#[test]
fn each_kind_of_join_is_named_and_an_unbroken_strip_is_no_join() {
    let mut sheet = boat::cutting(Paper::A4, false);
    sheet.rows.truncate(4);
    sheet.head_join = None;
    sheet.rows[0].after = After::Join(JoinKind::Cement);
    sheet.rows[1].after = After::RunsOn;
    sheet.rows[2].after = After::Join(JoinKind::Weld);
    sheet.rows[3].after = After::End;
    let text = paper::flat(&printed(&sheet));
    assert!(text.contains("2 joins"), "{text}");
    assert!(
        !text.contains("head leader") || !text.contains("tail leader"),
        "{text}"
    );
    let order = ["0:00.0 cement", "0:10.0 runs on", "0:18.0 weld"].map(str::to_owned);
    paper::assert_in_order(&text, &order);
}

#[test]
fn missing_pictures_leave_an_empty_frame_with_its_number() {
    let text = paper::flat(&printed(&boat::cutting(Paper::A4, false)));
    assert!(text.contains("2 402 545 1-T2"), "{text}");
    let drawn = paper::flat(&printed(&boat::cutting(Paper::A4, true)));
    assert!(!drawn.contains("2 402 545 1-T2"), "{drawn}");
}

#[test]
fn a_fractional_speed_is_printed_as_it_is() {
    let mut sheet = boat::cutting(Paper::Letter, false);
    sheet.head.speed = Fps::new(50, 3).expect("a speed");
    let text = paper::flat(&printed(&sheet));
    // 2,724 frames at 16⅔ a second: 163.44 s.
    assert!(text.contains("2:43.4 min at 50/3 f/s"), "{text}");
}

#[test]
fn not_proved_stands_here_too() {
    let mut sheet = boat::cutting(Paper::A4, false);
    assert!(!paper::text(&printed(&sheet)).contains("NOT PROVED"));
    sheet.head.rolls[2].proof = Proof::PaperOnly;
    for page in paper::pages(&printed(&sheet)) {
        assert_eq!(page.matches("NOT PROVED").count(), 1, "{page}");
    }
}

#[test]
fn an_empty_cut_prints_its_form_and_says_so() {
    let mut sheet = boat::cutting(Paper::Letter, false);
    sheet.rows.clear();
    let text = paper::flat(&printed(&sheet));
    assert!(text.contains("Nothing is cut yet"), "{text}");
    assert!(text.contains("0 frames"), "{text}");
}

#[test]
fn nothing_lies_outside_the_margins_or_on_another_word() {
    for paper in [Paper::A4, Paper::Letter] {
        let mut sheet = boat::cutting(paper, false);
        sheet.rows[3].note = "Ida says one frame later; look again with the sound.".to_owned();
        sheet.rows[4].after = After::Join(JoinKind::Cement);
        sheet.rows[5].after = After::RunsOn;
        paper::assert_tidy(&printed(&sheet));
    }
}

#[test]
fn both_papers_have_their_size() {
    let size = |paper| paper::size(&printed(&boat::cutting(paper, false)));
    assert!((size(Paper::A4).0 - 595.276).abs() < 0.01);
    assert_eq!(size(Paper::Letter), (612.0, 792.0));
}

#[test]
fn three_hundred_rows_with_six_hundred_pictures_are_all_there() {
    let mut sheet = boat::cutting(Paper::A4, true);
    let once = sheet.rows.clone();
    sheet.rows = once.iter().cycle().take(300).cloned().collect();
    let pdf = printed(&sheet);
    let text = paper::flat(&pdf);
    let words: Vec<String> = (1..)
        .zip(boat::V1.iter().cycle().take(300))
        .map(|(number, (_, _, _, slate, action)): (u32, _)| format!(" {number} {slate} {action}"))
        .collect();
    paper::assert_in_order(&text, &words);
    let pages = paper::pages(&pdf).len();
    assert!(text.contains(&format!("sheet {pages} of {pages}")));
    // The pictures are small and grey: a megabyte a hundred at the most.
    assert!(pdf.len() < 6_000_000, "{} bytes", pdf.len());
}

#[test]
fn the_same_sheet_gives_the_same_bytes() {
    let sheet = boat::cutting(Paper::A4, true);
    assert!(printed(&sheet) == printed(&sheet), "two printings differ");
}
