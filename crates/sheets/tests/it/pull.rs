//! The pull list on paper.

use onestrand_film::{FrameDelta, Shrinkage};
use onestrand_sheets::{
    JoinKind, Lies, Mount, Paper, Pin, Proof, PullList, RollState, Strip, pull_list,
};

use crate::{boat, paper};

fn printed(list: &PullList) -> Vec<u8> {
    pull_list(list).expect("a sound list")
}

/// The first cut again and again until so many strips are listed.
fn long(strips: usize) -> PullList {
    let mut list = boat::pull(Paper::A4, false);
    let mounts = list.mounts.clone();
    let mut left = strips;
    list.mounts.clear();
    for mut mount in mounts.into_iter().cycle() {
        if left == 0 {
            break;
        }
        mount.strips.truncate(left);
        left -= mount.strips.len();
        list.mounts.push(mount);
    }
    list
}

#[test]
fn every_strip_of_the_first_cut_stands_in_order_with_its_figures() {
    let list = boat::pull(Paper::A4, true);
    let text = paper::flat(&printed(&list));
    let mut words = vec!["Pull list".to_owned(), "The Ten-Past Boat".to_owned()];
    for (number, (_, begin, end, ..)) in (1..).zip(boat::V1) {
        words.push(format!(" {number} "));
        words.push(format!("{begin} {}", end - 1));
        words.push(format!("{}", end - begin));
    }
    paper::assert_in_order(&text, &words);
}

#[test]
fn the_figures_of_story_seven_stand_at_the_head_and_in_their_row() {
    let text = paper::flat(&printed(&boat::pull(Paper::A4, true)));
    let head = [
        "23 pieces",
        "46 cuts",
        "24 joins",
        "26 left over",
        "5 roll changes",
        "320.0 ft wound",
    ];
    for figure in head {
        assert!(text.contains(figure), "{figure} is not in: {text}");
    }
    // Shot 7: camera stop + 77 = 1 ft 5 fr = 326.0 mm, last cut + 137 = 580.1.
    assert!(
        text.contains(
            "camera stop 3B-T2 R2·470 + 77 1 ft 5 fr, 326.0 mm + 137 580.1 mm 547 606 60"
        ),
        "{text}"
    );
    assert!(text.contains("37 ft 60 fr, 2,724 frames, 2:31.3"), "{text}");
    assert!(text.contains("scans proved complete: R1 R2 R3"), "{text}");
}

#[test]
fn the_text_of_the_list() {
    insta::assert_snapshot!(paper::text(&printed(&boat::pull(Paper::A4, false))));
}

#[test]
fn every_sheet_says_its_number_and_how_many_there_are() {
    for strips in [1, 23, 300] {
        let pages = paper::pages(&printed(&long(strips)));
        assert!((strips > 25) == (pages.len() > 3), "{} sheets", pages.len());
        for (number, page) in (1..).zip(&pages) {
            let says = format!("sheet {number} of {}\n", pages.len());
            assert_eq!(page.matches(&says).count(), 1, "{says} in {page}");
        }
    }
}

#[test]
fn no_strip_of_three_hundred_is_lost_at_the_turn_of_a_page() {
    let list = long(300);
    let text = paper::flat(&printed(&list));
    let words: Vec<String> = (1..)
        .zip(list.mounts.iter().flat_map(|mount| &mount.strips))
        .flat_map(|(number, strip): (u32, _)| {
            [
                format!(" {number} "),
                format!("{} {}", strip.kept.begin(), strip.kept.last()),
            ]
        })
        .collect();
    assert_eq!(words.len(), 600);
    paper::assert_in_order(&text, &words);
}

#[test]
fn the_heading_of_a_roll_is_never_left_alone_at_the_foot() {
    // One to ten strips of a first roll, then a heading for every strip: in
    // some of these a heading comes to lie where only it would still fit.
    let all = long(40);
    let strips: Vec<Strip> = all
        .mounts
        .into_iter()
        .flat_map(|mount| mount.strips)
        .collect();
    for first in 1..=10 {
        let mut list = boat::pull(Paper::A4, false);
        let (together, single) = strips.split_at(first);
        let mount = |strips: &[Strip]| Mount {
            roll: boat::roll("R1"),
            lies: Lies::HeadsOut,
            strips: strips.to_vec(),
        };
        list.mounts = vec![mount(together)];
        list.mounts.extend(single.chunks(1).map(mount));
        for page in paper::pages(&printed(&list)) {
            let rows = page
                .lines()
                .take_while(|line| !line.starts_with("The landmark"));
            let last = rows.last().expect("a page with rows");
            assert!(
                !last.contains("mount,"),
                "left alone after {first} strips: {page}"
            );
        }
    }
}

#[test]
fn nothing_lies_outside_the_margins_or_on_another_word() {
    for paper in [Paper::A4, Paper::Letter] {
        let mut list = boat::pull(paper, false);
        paper::assert_tidy(&printed(&list));
        list.head.rolls[2].proof = Proof::PaperOnly;
        list.head.joins = vec![boat::bite(JoinKind::Cement, 1, 1)];
        for strip in list.mounts.iter_mut().flat_map(|mount| &mut mount.strips) {
            let (begin, end) = (strip.kept.begin().index(), strip.kept.end().index());
            strip.cut = boat::range(begin - 1, end + 1);
            strip.landmark.at = boat::pos(begin / 3);
            strip.landmark.words = "the loaf leaves the picture at its left edge".to_owned();
        }
        paper::assert_tidy(&printed(&list));
    }
}

#[test]
fn both_papers_have_their_size() {
    let size = |paper| paper::size(&printed(&boat::pull(paper, false)));
    let (width, height) = size(Paper::A4);
    assert!((width - 595.276).abs() < 0.01 && (height - 841.89).abs() < 0.01);
    assert_eq!(size(Paper::Letter), (612.0, 792.0));
}

#[test]
fn not_proved_stands_on_every_sheet_when_one_roll_is_not_and_only_then() {
    let mut list = boat::pull(Paper::A4, false);
    for page in paper::pages(&printed(&list)) {
        assert!(!page.contains("NOT PROVED"), "{page}");
    }
    list.head.rolls[1].proof = Proof::NotProved {
        found: boat::frames(3_598),
        expected: Some(boat::frames(3_600)),
        why: "The scanner slipped.".to_owned(),
    };
    let pages = paper::pages(&printed(&list));
    assert!(pages.len() > 1);
    for page in pages {
        assert_eq!(page.matches("NOT PROVED").count(), 1, "{page}");
        let page = page.split_whitespace().collect::<Vec<_>>().join(" ");
        let why = "R2: 3,598 frames found, 3,600 expected by its measured length, 2 short. The scanner slipped.";
        assert!(page.contains(why), "{page}");
        assert!(!page.contains("cut on the line"), "it says cut: {page}");
    }
}

#[test]
fn many_rolls_that_are_not_proved_leave_room_for_the_list() {
    let mut list = boat::pull(Paper::A4, false);
    let state = list.head.rolls[0].clone();
    list.head.rolls.extend((4..40).map(|number| RollState {
        roll: boat::roll(&format!("R{number}")),
        gauge: onestrand_film::Gauge::Super8,
        proof: Proof::NotProved {
            found: boat::frames(number),
            expected: None,
            why: "A long story about the scanner. ".repeat(9),
        },
        ..state.clone()
    }));
    let pages = paper::pages(&printed(&list));
    assert!(pages[0].contains("36 rolls: R4, R5,"), "{}", pages[0]);
    let text = pages.concat();
    let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        text.contains("R39: 39 frames found, none expected"),
        "{text}"
    );
    assert!(text.contains("scans proved complete: R1 R2 R3 "), "{text}");
    for roll in &mut list.head.rolls {
        roll.proof = Proof::Proved;
    }
    assert!(paper::flat(&printed(&list)).contains("39 of 39 scans proved complete"));
    let last = [" 23 ".to_owned(), "3279 3359".to_owned()];
    paper::assert_in_order(&text, &last);
}

#[test]
fn a_roll_without_a_measured_length_or_without_a_scan_is_not_proved() {
    let says = |proof| {
        let mut list = boat::pull(Paper::A4, false);
        list.head.rolls[0].proof = proof;
        paper::flat(&printed(&list))
    };
    let unmeasured = says(Proof::NotProved {
        found: boat::frames(3_600),
        expected: None,
        why: String::new(),
    });
    assert!(
        unmeasured.contains("R1: 3,600 frames found, none expected: its length was not measured.")
    );
    let unscanned = says(Proof::PaperOnly);
    assert!(unscanned.contains("R1: known on paper only, never scanned."));
    assert!(unscanned.contains("NOT PROVED") && unmeasured.contains("NOT PROVED"));
}

#[test]
fn the_counts_go_to_the_cuts_and_a_tongue_is_named() {
    let mut list = boat::pull(Paper::A4, false);
    list.head.joins = vec![boat::bite(JoinKind::Cement, 1, 0)];
    let strip = &mut list.mounts[2].strips[0];
    strip.cut = boat::range(547, 608);
    let text = paper::flat(&printed(&list));
    // One frame later than the 137 of tape: 138 × 4.234 = 584.292.
    assert!(
        text.contains("+ 138 584.3 mm 547 606 60 + 1 at tail"),
        "{text}"
    );
    assert!(
        text.contains("cement eats 1 frame of the outgoing and 0 of the incoming piece"),
        "{text}"
    );
    assert!(
        text.contains("Frames a join eats, out + in: cement 1 + 0."),
        "{text}"
    );
}

#[test]
fn solvent_is_warned_of_with_cement_and_not_with_tape() {
    let mut list = boat::pull(Paper::A4, false);
    let tape = paper::flat(&printed(&list));
    assert!(tape.contains("Blades.") && tape.contains("Polyester.") && !tape.contains("vapour"));
    list.head.joins = vec![boat::bite(JoinKind::Cement, 1, 0)];
    let cement = paper::flat(&printed(&list));
    assert!(cement.contains("vapour"), "{cement}");
    assert!(cement.contains("safety sheet of a product, or a licensed or competent person"));
}

#[test]
fn shrinkage_shortens_the_ruler_and_is_named() {
    let mut list = boat::pull(Paper::A4, false);
    list.head.rolls[1].shrinkage = Some("1".parse::<Shrinkage>().expect("per cent"));
    let text = paper::flat(&printed(&list));
    // 77 × 4.234 × 0.99 = 322.758.
    assert!(text.contains("+ 77 1 ft 5 fr, 322.8 mm"), "{text}");
    assert!(text.contains("R2 1.00 %"), "{text}");
    assert!(
        text.contains("not measured on R1 and R3, taken as none"),
        "{text}"
    );
}

#[test]
fn a_landmark_that_lies_behind_is_counted_back_and_explained() {
    let mut list = boat::pull(Paper::A4, false);
    assert!(!paper::flat(&printed(&list)).contains("with a minus"));
    list.mounts[0].strips[0].landmark.at = boat::pos(3_100);
    list.mounts[0].strips[0].wind = FrameDelta::new(-1_045).expect("in range");
    let text = paper::flat(&printed(&list));
    assert!(text.contains("− 25 105.9 mm"), "{text}");
    assert!(text.contains("back 1,045"), "{text}");
    assert!(
        text.contains("A count with a minus goes back, towards the head."),
        "{text}"
    );
}

#[test]
fn pins_and_merged_positions_are_printed() {
    let mut list = boat::pull(Paper::A4, false);
    let strip = &mut list.mounts[0].strips[0];
    (strip.pin, strip.last_position) = (Pin::Number(9), 3);
    list.mounts[0].lies = Lies::TailsOut;
    let text = paper::flat(&printed(&list));
    assert!(text.contains("180 9 1 to 3"), "{text}");
    assert!(
        text.contains("R3 mount, tails out: 1 piece, 180 frames"),
        "{text}"
    );
}

#[test]
fn an_empty_cut_prints_its_form_and_says_so() {
    let mut list = boat::pull(Paper::A4, false);
    list.mounts.clear();
    let text = paper::flat(&printed(&list));
    assert!(text.contains("Nothing is to be pulled"), "{text}");
    assert!(text.contains("sheet 1 of 1"), "{text}");
    list.mounts.push(Mount {
        roll: boat::roll("R1"),
        lies: Lies::HeadsOut,
        strips: Vec::new(),
    });
    assert!(paper::flat(&printed(&list)).contains("R1 mount, heads out: 0 pieces, 0 frames"));
}

#[test]
fn an_unreadable_picture_is_refused_by_name_with_the_next_step() {
    let mut list = boat::pull(Paper::A4, false);
    list.mounts[2].strips[0].picture = Some(b"no picture at all".to_vec());
    let refused = pull_list(&list).expect_err("there is no picture in it");
    assert_eq!(refused.code(), "sheets.picture");
    assert!(refused.to_string().contains("R2·547"), "{refused}");
    assert!(refused.hint().contains("read the roll again"));
}

#[test]
fn the_same_list_gives_the_same_bytes() {
    let list = boat::pull(Paper::A4, true);
    assert!(printed(&list) == printed(&list), "two printings differ");
}
