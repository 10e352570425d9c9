//! The sheets of the dub, read back.

use onestrand_sheets::{
    CueStanding, DubColumn, DubbingChart, Paper, Printed, print_dubbing_chart, print_effects_list,
    print_hand_score, print_mix_log, print_music_list, print_tape_table,
};
use proptest::prelude::*;

use crate::{boat_dub, paper, titles_true_size};

const BOTH: [Paper; 2] = [Paper::A4, Paper::Letter];

/// Every sheet of the dub by its name.
fn all(on: Paper) -> Vec<(&'static str, Printed)> {
    vec![
        (
            "dubbing-chart",
            print_dubbing_chart(&boat_dub::chart(on)).expect("a chart"),
        ),
        (
            "effects-list",
            print_effects_list(&boat_dub::effects(on)).expect("a list"),
        ),
        ("mix-log", print_mix_log(&boat_dub::log(on)).expect("a log")),
        (
            "hand-score",
            print_hand_score(&boat_dub::score(on)).expect("a score"),
        ),
        (
            "tape-counter",
            print_tape_table(&boat_dub::tape(on)).expect("a table"),
        ),
        (
            "music-and-rights",
            print_music_list(&boat_dub::music(on)).expect("a list"),
        ),
    ]
}

#[track_caller]
fn assert_says(printed: &Printed, words: &[&str]) {
    let said = paper::tight(&paper::flat(&printed.pdf));
    for word in words {
        assert!(said.contains(&paper::tight(word)), "{word}: {said}");
    }
}

#[test]
fn every_sheet_is_set_without_a_remark_inside_its_margins() {
    for on in BOTH {
        for (name, printed) in all(on) {
            assert!(
                printed.warnings.is_empty(),
                "{name}: {:?}",
                printed.warnings
            );
            if name != "dubbing-chart" {
                paper::assert_tidy(&printed.pdf);
            }
        }
    }
}

/// Story 8: what the chart of v2 must say, with its running frames.
#[test]
fn the_chart_says_where_everything_is() {
    for on in BOTH {
        let printed = print_dubbing_chart(&boat_dub::chart(on)).expect("a chart");
        assert_says(
            &printed,
            &[
                "truly 18.37",
                "sound lead 18",
                "end of film, 2,652",
                "2:24.4",
                "bell 1,392",
                "bell 1,349",
                "lever 1,658",
                "a place for it",
                "down 1,716, out 1,752",
                "3 at once",
                "2 frames from rustle",
                "3 cues have no place",
                "holds to the clock",
                "Hearing",
                "… river",
            ],
        );
    }
}

/// 36 ft 60 fr are four sheets of ten feet; the last one is short, so that key and words
/// have room below it.
#[test]
fn a_sheet_holds_ten_feet() {
    for on in BOTH {
        let printed = print_dubbing_chart(&boat_dub::chart(on)).expect("a chart");
        assert_eq!(printed.pages.len(), 4);
        let pages = paper::pages(&printed.pdf);
        assert!(
            pages[0].contains("9 ft") && !pages[0].contains("10 ft"),
            "{}",
            pages[0]
        );
        assert!(
            pages[1].contains("10 ft") && pages[1].contains("19 ft"),
            "{}",
            pages[1]
        );
    }
}

/// The boat's chart, and more columns than one sheet has room for.
fn ten_columns() -> DubbingChart {
    let mut chart = boat_dub::chart(Paper::A4);
    for nth in chart.columns.len()..10 {
        let cues = vec![boat_dub::cue(&format!("sound {nth}"), 100, 700)];
        let name = format!("column {nth}");
        chart.columns.push(DubColumn { name, cues });
    }
    chart
}

/// Ten columns go on sheets side by side, with the same film on both and every cue on one.
#[test]
fn more_columns_than_a_sheet_holds_go_beside_it() {
    let had = boat_dub::chart(Paper::A4).columns.len();
    let chart = ten_columns();
    let printed = print_dubbing_chart(&chart).expect("a chart");
    assert_eq!(printed.pages.len(), 8);
    let pages = paper::pages(&printed.pdf);
    let pages: Vec<String> = pages.iter().map(|page| paper::tight(page)).collect();
    let says = |page: usize, words: &str| pages[page].contains(&paper::tight(words));
    for nth in 0..4 {
        assert!(says(2 * nth, "side 1 of 2"), "{}", pages[2 * nth]);
        assert!(says(2 * nth + 1, "side 2 of 2"), "{}", pages[2 * nth + 1]);
    }
    for nth in had..10 {
        let on = usize::from(nth >= 5);
        let name = format!("column {nth}");
        assert!(says(on, &name) && !says(1 - on, &name), "{name}");
        assert!(says(on, &format!("sound {nth}")), "{}", pages[on]);
    }
    for side in [2, 3] {
        assert!(
            says(side, "10 ft") && says(side, "19 ft"),
            "{}",
            pages[side]
        );
    }
    assert_says(&printed, &["10 columns on 2 sheets", "1 to 5", "6 to 10"]);
}

/// A frame lies where the scale says, measured in the page itself: the point of the lever's
/// drop at 1,658 lies under the line of the foot at 1,656 by two frames, and under that of
/// the second sheet's head by 218.
#[test]
fn frames_lie_to_one_scale() {
    let printed = print_dubbing_chart(&boat_dub::chart(Paper::A4)).expect("a chart");
    let all = titles_true_size::boxes(&printed.pdf, 3);
    // The grid's own lines: as wide as the drawing, a foot apart.
    let mut feet: Vec<f64> = all
        .iter()
        .filter(|[_, _, wide, high]| (wide - 190.0).abs() < 0.1 && *high < 0.1)
        .map(|[_, top, ..]| *top)
        .collect();
    feet.sort_by(f64::total_cmp);
    feet.dedup_by(|a, b| (*a - *b).abs() < 0.05);
    // Rules under title and heads, ten feet from the 20th on with the last's end, the foot's.
    assert_eq!(feet.len(), 14, "{feet:?}");
    let feet = &feet[1..13];
    let foot = (feet[11] - feet[1]) / 10.0;
    for two in feet[1..].windows(2) {
        assert!((two[1] - two[0] - foot).abs() < 0.05, "{feet:?}");
    }
    let lever = feet[1] + (1_658.0 - 1_440.0) * foot / 72.0;
    let drops = all
        .iter()
        .any(|[_, top, wide, high]| (*wide - 5.2).abs() < 0.1 && (top + high - lever).abs() < 0.1);
    assert!(drops, "no drop ends at {lever:.2}: {all:?}");
}

/// An anchor that is lost is crossed with many lines; one that is held with none.
#[test]
fn an_orphan_is_filled_with_x() {
    let lines = |standing| {
        let mut chart = boat_dub::chart(Paper::A4);
        chart.columns.truncate(1);
        chart.columns[0].cues = vec![boat_dub::cue("river", 100, 600)];
        chart.columns[0].cues[0].standing = standing;
        let printed = print_dubbing_chart(&chart).expect("a chart");
        titles_true_size::boxes(&printed.pdf, 1).len()
    };
    assert!(lines(CueStanding::Orphan) > lines(CueStanding::Proposed) + 60);
}

#[test]
fn the_lists_say_what_is_filled_in() {
    for on in BOTH {
        for (name, printed) in all(on) {
            let words: &[&str] = match name {
                "effects-list" => &[
                    "E1",
                    "bell, one stroke",
                    "1,349",
                    "18 ft 53 fr",
                    // 1,387 / 18.37 = 75.503… s; 18 ft are 1,296 frames: reckoned by hand.
                    "1:15.5",
                    "at 012",
                    // C = (−a + √(a² + 4bT)) / 2b for T = 73.435 s, reckoned by hand.
                    "018.8",
                    "2.4",
                    "5 places",
                ],
                "mix-log" => &[
                    "18.31",
                    "1,728: music late",
                    "give up",
                    "3 passes",
                    "Hearing",
                    "Mains",
                ],
                "hand-score" => &[
                    "river down",
                    "3 at once, 2 hands",
                    "Lay atmosphere",
                    "−6 to −24",
                    "1,716",
                ],
                "tape-counter" => &[
                    "200",
                    "17:08.4",
                    "0.00686038",
                    "engine down",
                    "50 at 205.6 s",
                ],
                "music-and-rights" => &[
                    "The Ten-Past March",
                    "not needed",
                    "written by the program",
                    "ask the heirs of the band",
                    "1,728–2,639",
                    "1",
                    "still to be cleared",
                    "People",
                ],
                _ => continue,
            };
            assert_says(&printed, words);
        }
    }
}

#[test]
fn a_film_with_no_sound_yet_still_has_its_sheets() {
    let mut chart = boat_dub::chart(Paper::A4);
    chart.columns.clear();
    chart.moves.clear();
    chart.shots.clear();
    chart.echoes.clear();
    chart.frames = 0;
    chart.is_measured = false;
    chart.lead = None;
    let printed = print_dubbing_chart(&chart).expect("a chart");
    assert_says(&printed, &["projector not measured"]);
    let mut score = boat_dub::score(Paper::A4);
    score.moves.clear();
    score.most = (0, 0);
    score.remedies.clear();
    assert_says(
        &print_hand_score(&score).expect("a score"),
        &["The hands are enough"],
    );
    let mut list = boat_dub::effects(Paper::A4);
    list.rows.clear();
    assert_says(
        &print_effects_list(&list).expect("a list"),
        &["No effect is laid yet"],
    );
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, failure_persistence: None, ..ProptestConfig::default() })]

    /// Cues anywhere, fades longer than they are, levels beyond all measure: the form is set.
    #[test]
    fn no_cue_breaks_the_chart(
        words in "\\PC{0,40}",
        from in -2_000_i64..4_000,
        long in 0_i64..4_000,
        fades in (0_u32..5_000, 0_u32..5_000),
        db in -400.0_f64..400.0,
        feet in 0_u32..100,
        standing in prop::sample::select(vec![CueStanding::Held, CueStanding::Proposed, CueStanding::Orphan]),
    ) {
        let mut chart = boat_dub::chart(Paper::A4);
        chart.shots.truncate(3);
        chart.feet_a_sheet = feet;
        let mut cue = boat_dub::cue(&words, from, from + long);
        cue.standing = standing;
        (cue.fade_in, cue.fade_out) = fades;
        cue.level = vec![onestrand_sheets::LevelPoint { frame: from, db }];
        chart.columns[0].cues.push(cue);
        prop_assert!(print_dubbing_chart(&chart).is_ok());
    }
}

/// To look at: `ONESTRAND_LOOK=folder`.
#[test]
fn pages_may_be_kept_to_look_at() {
    let Some(folder) = std::env::var_os("ONESTRAND_LOOK") else {
        return;
    };
    let wide = print_dubbing_chart(&ten_columns()).expect("a chart");
    for (name, printed) in all(Paper::A4).into_iter().chain([("ten-columns", wide)]) {
        let file = std::path::Path::new(&folder).join(format!("{name}.pdf"));
        std::fs::write(file, &printed.pdf).expect("the folder takes it");
    }
}
