//! The lined script: lines through actions, over pages and side by side.

use onestrand_sheets::{
    LineShown, LinedAction, LinedScene, LinedScript, Paper, ScriptLine, print_lined_script,
};

use crate::plan::set;
use crate::{boat_plan, paper};

fn shown(action: &str) -> LineShown {
    LineShown {
        action: action.to_owned(),
        on_camera: true,
    }
}

/// One scene of so many actions, a line through all of them and one through each.
fn long(actions: usize, lines: usize) -> LinedScript {
    let name = |at: usize| format!("1.{at}");
    let line = |at: usize| ScriptLine {
        name: format!("1X{at}"),
        shot: false,
        circled: false,
        ng: false,
        shown: match at {
            0 => (0..actions).map(|at| shown(&name(at))).collect(),
            at => vec![shown(&name(at % actions))],
        },
    };
    LinedScript {
        scenes: vec![LinedScene {
            number: "1".to_owned(),
            heading: "The long scene".to_owned(),
            actions: (0..actions)
                .map(|at| LinedAction {
                    name: name(at),
                    speaker: String::new(),
                    text: format!("What happens is number {at}, and it takes a while to say."),
                })
                .collect(),
        }],
        lines: (0..lines).map(line).collect(),
        ..boat_plan::lined(Paper::A4, false)
    }
}

#[test]
fn slates_stand_over_the_lines_of_their_scene_only() {
    let text = paper::flat(&set(print_lined_script(&boat_plan::lined(Paper::A4, true))));
    for words in [
        "The ferry, at the landing, exterior, day",
        "3-T1 3-T2 3A-T1 3A-T2 3B-T1 3B-T2",
        "IDA Bram! I have got the bread.",
        "12 circled",
        // 5d is shown by nothing; 5b is off camera in 5 and on it in 5A.
        "1 action not shot",
        "0 setups not shot",
    ] {
        assert!(text.contains(words), "{words}\n{text}");
    }
    let planned = paper::flat(&set(print_lined_script(&boat_plan::lined(
        Paper::A4,
        false,
    ))));
    assert!(planned.contains("3 3A 3B") && !planned.contains("circled"));
}

/// Takes that are no good are told apart and show nothing: those of 5, which has 5a to
/// itself, leave one action more without a picture, and 3-T1 none, since 3-T2 is there.
#[test]
fn a_take_that_is_no_good_shows_nothing() {
    let mut script = boat_plan::lined(Paper::A4, true);
    let alone = |script: &LinedScript, action: &str| {
        let lines = script.lines.iter();
        let shows = lines.filter(|line| {
            let mut shown = line.shown.iter();
            shown.any(|one| one.action == action && one.on_camera)
        });
        shows.map(|line| line.name.clone()).collect::<Vec<_>>()
    };
    let by = alone(&script, "5a");
    for line in &mut script.lines {
        line.ng = by.contains(&line.name) || line.name == "3-T1";
        line.circled &= !line.ng;
    }
    let lost = script.scenes.iter().flat_map(|scene| &scene.actions);
    let good = |name: &&str| {
        let lines = script.lines.iter().filter(|line| !line.ng);
        let mut shown = lines.flat_map(|line| &line.shown);
        !shown.any(|one| one.action == *name && one.on_camera)
    };
    let lost = lost.map(|action| &*action.name).filter(good).count();
    assert!(lost > 1, "{lost}");
    let pdf = set(print_lined_script(&script));
    paper::assert_tidy(&pdf);
    let text = paper::flat(&pdf);
    for words in [
        "3-T1 NG 3-T2",
        &format!("{} NG", by.len() + 1),
        &format!("{lost} actions not shot"),
        "a take that is no good",
    ] {
        assert!(text.contains(words), "{words}\n{text}");
    }
}

#[test]
fn a_scene_over_pages_has_its_names_on_each_and_breaks_between_actions() {
    let pdf = set(print_lined_script(&long(60, 3)));
    paper::assert_tidy(&pdf);
    let pages = paper::pages(&pdf);
    assert!(pages.len() >= 3, "{} pages", pages.len());
    let mut number = 0;
    for (at, page) in pages.iter().enumerate() {
        let page = page.split_whitespace().collect::<Vec<_>>().join(" ");
        let rows = page.matches("What happens is number").count();
        if rows == 0 {
            continue;
        }
        assert!(page.contains("1X0 1X1 1X2"), "{page}");
        assert_eq!(page.contains("The long scene goes on"), at > 0, "{page}");
        for row in number..number + rows {
            let whole = format!("What happens is number {row}, and it takes a while to say.");
            assert!(page.contains(&whole), "{whole}\n{page}");
        }
        number += rows;
    }
    assert_eq!(number, 60);
}

#[test]
fn many_lines_go_on_beside_with_the_words_again() {
    let pdf = set(print_lined_script(&long(4, 20)));
    paper::assert_tidy(&pdf);
    let text = paper::flat(&pdf);
    for words in [
        "lines 1 to 8 of 20",
        "lines 9 to 16 of 20",
        "lines 17 to 20 of 20",
    ] {
        assert!(text.contains(words), "{words}\n{text}");
    }
    for line in 0..20 {
        assert_eq!(
            text.matches(&format!("1X{line} ")).count(),
            1,
            "1X{line}\n{text}"
        );
    }
    assert_eq!(text.matches("What happens is number 3,").count(), 3);
}

/// A speech of two pages is parted between words and none of it is lost.
#[test]
fn a_very_long_speech_goes_on() {
    let mut script = long(2, 2);
    let speech: Vec<String> = (0..900).map(|at| format!("word{at}")).collect();
    script.scenes[0].actions[0].speaker = "IDA".to_owned();
    script.scenes[0].actions[0].text = speech.join(" ");
    let pdf = set(print_lined_script(&script));
    paper::assert_tidy(&pdf);
    let text = paper::flat(&pdf);
    assert!(text.contains("IDA (goes on)"));
    for at in [0, 150, 449, 899] {
        assert!(text.contains(&format!("word{at} ")), "word{at}");
    }
}

#[test]
fn a_scene_that_nothing_shows_stands_with_its_words() {
    let pdf = set(print_lined_script(&long(3, 0)));
    let text = paper::flat(&pdf);
    assert!(text.contains("What happens is number 2"), "{text}");
}
