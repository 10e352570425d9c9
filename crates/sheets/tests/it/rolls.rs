//! The sheets about rolls: the log, the labels, the inspection and the scans.

use onestrand_sheets::{
    Chosen, FoundByHand, FoundJoin, HandledEntry, HandledRoll, HandlingLedger, InspectedRoll,
    InspectionSheet, LogSheet, LoggedRoll, LoggedTake, Paper, Printed, Proof, ScanRow, ScanSheet,
    TrimLabel, TrimLabels, print_handling_ledger, print_inspection_sheet, print_log_sheet,
    print_scan_sheet, print_trim_labels,
};

use crate::{boat, paper};

/// Takes of roll 2 as its log has them: slate, first, thrown, action, chosen.
const TAKES: [(&str, u32, u32, &str, Chosen); 4] = [
    ("3A-T2", 18, 290, "Bram lifts the rope", Chosen::Hold),
    ("3B-T1", 290, 470, "The rope comes off", Chosen::NotUsed),
    ("3B-T2", 470, 668, "The rope comes off", Chosen::Circled),
    ("", 668, 1244, "", Chosen::NotSaid),
];

fn log(pictures: bool, words: Option<&str>) -> LogSheet {
    let take = |&(slate, first, thrown, action, chosen): &(&str, u32, u32, &str, Chosen)| {
        let said = |own: &str| words.unwrap_or(own).to_owned();
        LoggedTake {
            slate: slate.to_owned(),
            span: boat::range(first, thrown),
            begins: "camera stop".to_owned(),
            size: said("close"),
            camera_move: said("still"),
            direction: said(""),
            action: said(action),
            signs: vec!["hair 470 to 480, lower right: 0.3 % of the picture".to_owned()],
            chosen,
            note: said("rope slow"),
            picture: pictures.then(|| boat::drawn("R2", first)),
        }
    };
    LogSheet {
        head: boat::head(Paper::A4),
        rolls: vec![LoggedRoll {
            roll: boat::roll("R2"),
            frames: boat::frames(3600),
            takes: TAKES.iter().map(take).collect(),
        }],
    }
}

fn labels(count: usize) -> TrimLabels {
    let label =
        |(place, (slate, first, thrown, ..)): (usize, &(&str, u32, u32, &str, Chosen))| TrimLabel {
            pin: u32::try_from(place + 1).expect("few"),
            roll: boat::roll("R2"),
            slate: (*slate).to_owned(),
            span: boat::range(*first, *thrown),
            remark: String::new(),
            picture: Some(boat::drawn("R2", *first)),
        };
    TrimLabels {
        head: boat::head(Paper::A4),
        labels: TAKES
            .iter()
            .cycle()
            .take(count)
            .enumerate()
            .map(label)
            .collect(),
    }
}

fn inspection(rolls: usize) -> InspectionSheet {
    let roll = InspectedRoll {
        roll: boat::roll("R1"),
        frames: boat::frames(3600),
        base: "triacetate".to_owned(),
        measured: "50ft0".to_owned(),
        wind: "B".to_owned(),
        fit: "projecting".to_owned(),
        joins: "1 join, 9 camera stops".to_owned(),
        signs: vec!["fog 0 to 23: 24 frames".to_owned()],
        kept: String::new(),
        hundred: String::new(),
        wound: String::new(),
        half: String::new(),
        found: FoundByHand::default(),
        joins_found: Vec::new(),
        cautions: Vec::new(),
    };
    InspectionSheet {
        head: boat::head(Paper::A4),
        rolls: vec![roll; rolls],
    }
}

fn scans() -> ScanSheet {
    let scan = |name: &str, file: &str, first_of_roll: bool| ScanRow {
        roll: boat::roll(name),
        file: file.to_owned(),
        rate: "25".to_owned(),
        size: (1440, 1080),
        coding: "h264 yuv420p".to_owned(),
        bytes: 67_250_000,
        file_frames: 5000,
        checksum: "0123456789abcdef".repeat(4),
        film: first_of_roll.then(|| boat::range(0, 3600)),
        found: boat::frames(3599),
        expected: Some(boat::frames(3600)),
        first_of_roll,
    };
    ScanSheet {
        head: boat::head(Paper::A4),
        scans: vec![
            scan("R1", "R1-25.mp4", true),
            scan("R2", "R2-first.mkv", true),
            scan("R2", "R2-second.mkv", false),
        ],
    }
}

#[track_caller]
fn set(printed: Result<Printed, onestrand_sheets::SheetError>) -> Vec<u8> {
    let printed = printed.expect("a sound sheet");
    assert_eq!(printed.warnings, []);
    printed.pdf
}

#[test]
fn a_log_names_each_take_by_frames_and_feet_with_both_ends_in_it() {
    let text = paper::flat(&set(print_log_sheet(&log(false, None))));
    // 470 is 6 ft 38 fr at 72 frames a foot; the last frame of [470, 668) is 667.
    for words in [
        "R2 4 takes, 3,600 frames, 50 ft 0 fr",
        "3B-T2",
        "470 6 ft 38 fr",
        "667 9 ft 19 fr",
        "198 2 ft 54 fr",
        "The rope comes off",
        "rope slow",
        "hair 470 to 480",
    ] {
        assert!(text.contains(words), "{words}\n{text}");
    }
    for (word, times) in [("yes", 1), ("maybe", 1)] {
        let found = text.split(' ').filter(|w| *w == word).count();
        assert_eq!(found, times, "{word}\n{text}");
    }
}

#[test]
fn labels_carry_pin_slate_span_length_and_head() {
    let text = paper::flat(&set(print_trim_labels(&labels(4))));
    for words in [
        "3B-T1",
        "R2 290 to 469",
        "4 ft 2 fr to 6 ft 37 fr",
        "180 frames",
        "2 ft 36 fr",
    ] {
        assert!(text.contains(words), "{words}\n{text}");
    }
    assert_eq!(
        text.matches("head").count() - text.matches("the head").count(),
        4,
        "{text}"
    );
}

#[test]
fn an_inspection_is_filled_in_as_far_as_is_known_and_asks_the_rest() {
    let text = paper::flat(&set(print_inspection_sheet(&inspection(1))));
    for words in [
        "triacetate",
        "50ft0",
        "projecting",
        "1 join, 9 camera stops",
        "fog 0 to 23",
        "acid strip",
        "heads out",
        "perforations",
        "can, accession number",
        "cupped",
        "slight",
    ] {
        assert!(text.contains(words), "{words}\n{text}");
    }
}

/// A roll that somebody has had in the hand from head to tail.
fn inspected() -> InspectionSheet {
    let mut sheet = inspection(1);
    let found = |frame, kind: &str, note: &str| FoundJoin {
        frame: boat::range(frame, frame + 1).begin(),
        kind: kind.to_owned(),
        note: note.to_owned(),
    };
    let text = str::to_owned;
    let roll = &mut sheet.rolls[0];
    roll.kept = text("club reel, part 2; 1974/12");
    roll.hundred = text("377.6 mm, new 381.0");
    roll.wound = text("46 ft 58 fr, between 44 ft 70 fr and 48 ft 50 fr");
    roll.half = text(
        "side B of strip R4, beside R4a, not slit: in a scan of the whole strip it runs the other way",
    );
    roll.found = FoundByHand {
        picture: text("colour"),
        lies: text("tails out"),
        acid: text("1.5"),
        vinegar: text("slight"),
        warping: text("cupped"),
        perforations: text("nicked at the tail"),
        scratches: text("base"),
        fading: text("turned red"),
        sound: text("none"),
        by: text("M. Holm, 25 November"),
        note: text("the last turns stick"),
    };
    roll.joins_found = vec![
        found(720, "tape", "lifts at the edge"),
        found(2000, "cement", ""),
    ];
    roll.cautions = vec![text(
        "Vinegar: keep it apart from sound film, and ask an archive first.",
    )];
    sheet
}

#[test]
fn an_inspection_carries_all_that_the_hand_has_found() {
    let text = paper::flat(&set(print_inspection_sheet(&inspected())));
    for words in [
        "club reel, part 2; 1974/12",
        "(377.6 mm, new 381.0)",
        "between 44 ft 70 fr",
        "not slit",
        "tails out",
        "nicked at the tail",
        "M. Holm, 25 November",
        "before 720 (10 ft 0 fr): tape, lifts at the edge; before 2000 (27 ft 56 fr): cement.",
        "ask an archive first",
    ] {
        assert!(text.contains(words), "{words}\n{text}");
    }
    // What is known is not offered to be ringed once more.
    for words in ["heads out", "emulsion", "black and white"] {
        assert!(!text.contains(words), "{words}\n{text}");
    }
}

#[test]
fn a_label_says_what_to_know_before_the_cut() {
    let mut labels = labels(2);
    labels.labels[1].remark = "strip R4 is not slit".to_owned();
    labels.labels[1].pin = 14;
    let text = paper::flat(&set(print_trim_labels(&labels)));
    assert!(
        text.contains("strip R4 is not slit") && text.contains(" 14 "),
        "{text}"
    );
}

#[test]
fn a_scan_sheet_says_found_expected_and_their_difference_once_a_roll() {
    let text = paper::flat(&set(print_scan_sheet(&scans())));
    for words in [
        "R1-25.mp4",
        "film frames 0 to 3,599; 1440 × 1080, h264 yuv420p, 67.3 MB",
        "01234567 89abcdef",
        "3,599 3,600 − 1",
    ] {
        assert!(text.contains(words), "{words}\n{text}");
    }
    assert_eq!(text.matches("3,599 3,600 − 1").count(), 2, "{text}");
}

#[test]
fn a_roll_that_is_not_proved_says_so_across_each_of_them() {
    let mut log = log(false, None);
    log.head.rolls[1].proof = Proof::PaperOnly;
    let mut scans = scans();
    scans.head.rolls[1].proof = Proof::NotProved {
        found: boat::frames(3599),
        expected: Some(boat::frames(3600)),
        why: String::new(),
    };
    for pdf in [set(print_log_sheet(&log)), set(print_scan_sheet(&scans))] {
        assert!(paper::flat(&pdf).contains("NOT PROVED"));
    }
}

fn handled(entries: usize, note: &str) -> HandlingLedger {
    let entry = |place: usize| HandledEntry {
        on: format!("2026-03-{:02}", place % 28 + 1),
        what: if place.is_multiple_of(2) {
            "through the projector"
        } else {
            "cut"
        }
        .to_owned(),
        times: u32::try_from(place).expect("few"),
        by: "Ida".to_owned(),
        note: note.to_owned(),
    };
    let roll = |name: &str, entries: usize| HandledRoll {
        roll: boat::roll(name),
        sums: "run twice, of these 1 under a hot lamp; cut 12 times".to_owned(),
        entries: (0..entries).map(entry).collect(),
    };
    HandlingLedger {
        head: boat::head(Paper::A4),
        rolls: vec![roll("R1", entries), roll("R2", 0)],
    }
}

#[test]
fn a_ledger_says_each_entry_and_what_they_come_to() {
    let text = paper::flat(&set(print_handling_ledger(&handled(3, "jumped twice"))));
    for words in [
        "Handling ledger",
        "run twice, of these 1 under a hot lamp; cut 12 times",
        "2026-03-01",
        "through the projector",
        "2026-03-02",
        "jumped twice",
        "What nobody wrote down is not here.",
    ] {
        assert!(text.contains(words), "{words}\n{text}");
    }
    let none = HandlingLedger {
        rolls: Vec::new(),
        ..handled(0, "")
    };
    let text = paper::flat(&set(print_handling_ledger(&none)));
    assert!(
        text.contains("There is no roll of this film yet."),
        "{text}"
    );
}

#[test]
fn words_lie_inside_the_margins_and_none_on_another() {
    let long = "A very long remark about the rope, the bollard and the ferryman's patience, \
                and-a-word-without-any-blank-that-goes-on-and-on-and-on";
    for pdf in [
        set(print_log_sheet(&log(true, None))),
        set(print_log_sheet(&log(true, Some(long)))),
        set(print_trim_labels(&labels(31))),
        set(print_inspection_sheet(&inspection(3))),
        set(print_inspection_sheet(&inspected())),
        set(print_scan_sheet(&scans())),
        set(print_handling_ledger(&handled(40, ""))),
        set(print_handling_ledger(&handled(3, long))),
    ] {
        paper::assert_tidy(&pdf);
    }
}

#[test]
fn nothing_to_print_is_said_in_a_sentence() {
    let empty = [
        set(print_log_sheet(&LogSheet {
            rolls: Vec::new(),
            ..log(false, None)
        })),
        set(print_trim_labels(&labels(0))),
        set(print_inspection_sheet(&inspection(0))),
        set(print_scan_sheet(&ScanSheet {
            scans: Vec::new(),
            ..scans()
        })),
    ];
    for (pdf, words) in empty.iter().zip([
        "No roll is in this film yet.",
        "No take is logged yet",
        "No roll is in this film yet.",
        "No roll of this film has a scan.",
    ]) {
        let text = paper::flat(pdf);
        assert!(text.contains(words), "{words}\n{text}");
    }
}
