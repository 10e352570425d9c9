//! Fountain text by the published syntax, and script tables. All texts are our own.

use onestrand_film::{Frames, Gauge};
use onestrand_plan::{
    Pasted, Scene, read_camera_report, read_fountain, read_pasted, read_script_sheet,
};
use proptest::prelude::*;

const BOAT: &str = "\
Title:
	The Ten-Past Boat
Author: nobody in particular

EXT. LANDING - DAY

The ferry lies at the landing.
Its chain hangs slack.

BRAM
(to himself)
Ten past.

IDA ^
Wait!

/* Not now:

INT. BAKERY - DAY

*/INT. FERRY - DAY #2B#

!BRAM LETS GO
@McBram (off)
~Hey ho

[[the rope must
be heard]]
CUT TO:

.THE LANDING AGAIN

...and he comes back.

> THE END <
";

fn told(scenes: &[Scene]) -> Vec<String> {
    let action = |a: &onestrand_plan::Action| {
        let speaker = a
            .speaker
            .as_ref()
            .map(|s| format!("{s}: "))
            .unwrap_or_default();
        format!(
            "{} @{} {speaker}{}",
            a.name,
            a.line.unwrap_or(0),
            a.text.replace('\n', "|")
        )
    };
    scenes
        .iter()
        .flat_map(|s| {
            let head = format!("{} @{} {}", s.number, s.line.unwrap_or(0), s.heading);
            std::iter::once(head)
                .chain(s.actions.iter().map(action))
                .collect::<Vec<_>>()
        })
        .collect()
}

const EXPECTED: &[&str] = &[
    "1 @5 EXT. LANDING - DAY",
    "1a @7 The ferry lies at the landing.|Its chain hangs slack.",
    "1b @10 BRAM: (to himself)|Ten past.",
    "1c @14 IDA: Wait!",
    "2B @21 INT. FERRY - DAY",
    "2Ba @23 BRAM LETS GO",
    "2Bb @24 McBram: Hey ho",
    "2 @31 THE LANDING AGAIN",
    "2a @33 ...and he comes back.",
    "2b @35 THE END",
];

#[test]
fn a_screenplay_becomes_scenes_and_actions() {
    let read = read_fountain(BOAT).expect("sound");
    assert_eq!(told(&read.script.scenes), EXPECTED);
    assert_eq!(read.notes, [(27, "the rope must\nbe heard".to_owned())]);
    let page: Vec<_> = read.title_page.iter().map(|(k, v)| (&**k, &**v)).collect();
    assert_eq!(
        page,
        [
            ("Title", "The Ten-Past Boat"),
            ("Author", "nobody in particular")
        ]
    );
    assert!(read.remarks.is_empty() && read.script.check().is_ok());
}

#[test]
fn ends_of_lines_and_marks_of_other_machines_change_nothing() {
    for ends in ["\r\n", "\r"] {
        let text = format!("\u{FEFF}{}", BOAT.replace('\n', ends));
        assert_eq!(
            told(&read_fountain(&text).expect("sound").script.scenes),
            EXPECTED
        );
    }
    let sheet = "setup,actions,seconds\r\n1,1a,5\r\n";
    let with_mark = format!("\u{FEFF}{sheet}");
    let tabs = sheet.replace(',', "\t");
    for text in [&with_mark, &tabs] {
        assert_eq!(
            read_script_sheet(text).expect("sound").script.setups.len(),
            1
        );
    }
}

#[test]
fn a_small_dot_case_is_told_apart() {
    let cases: &[(&str, usize)] = &[
        ("int. house - night\n\nHe waits.", 1),
        ("EXTRA BREAD\n\nEXT LANDING\n\nA.", 1),
        (
            "INT./EXT. CAR - DAY\n\nA.\n\nI/E CAR - DAY\n\nB.\n\nEST. TOWN\n\nC.",
            3,
        ),
        (".1\n\n..two dots are none\n\nB.", 1),
        ("INT. A\n\nA.\nEXT. B\n\nno empty line before it.", 1),
        ("FADE IN:\n\nINT. A\n\nx", 1),
    ];
    for (text, scenes) in cases {
        let read = read_fountain(text).expect("sound");
        assert_eq!(read.script.scenes.len(), *scenes, "{text}");
    }
    let early = read_fountain("Fog.\n\nINT. A\n\nx").expect("sound");
    assert_eq!(early.remarks.len(), 1);
    assert_eq!(early.remarks[0].line, Some(1));
    let long = format!("INT. A\n\n{}", "x\n\n".repeat(30));
    let named: Vec<_> = read_fountain(&long)
        .expect("sound")
        .script
        .actions()
        .map(|a| a.name.clone())
        .collect();
    assert_eq!(
        (&*named[25], &*named[26], &*named[29]),
        ("1z", "1aa", "1ad")
    );
}

#[test]
fn a_screenplay_that_cannot_be_used_says_why() {
    let said = |text: &str| -> Vec<String> {
        let refused = read_fountain(text).expect_err("wrong");
        refused.problems().iter().map(ToString::to_string).collect()
    };
    assert_eq!(said("").len(), 1);
    assert!(said("Ida runs.")[0].starts_with("line 1, the script: has no scene"));
    let both = said("INT. A #1#\n\nx\n\nINT. B #1#\n\n/* y");
    assert_eq!(
        both,
        [
            "line 5, scene 1: stands twice, first on line 1; give the second another number",
            "line 7: a part put aside with /* is never closed; close it with */",
        ]
    );
}

#[test]
fn five_thousand_scenes() {
    let scene = "EXT. LANDING - DAY\r\n\r\nThe ferry leaves. [[bell]]\r\n\r\nIDA\r\nWait!\r\n\r\n";
    let read = read_fountain(&scene.repeat(5000)).expect("sound");
    assert_eq!(
        (read.script.scenes.len(), read.script.actions().count()),
        (5000, 10_000)
    );
    assert_eq!(read.script.scenes[4999].number, "5000");
    assert_eq!(read.notes.len(), 5000);
}

#[test]
fn all_that_is_wrong_in_a_table_is_told_with_its_line() {
    let text =
        "setup,actions,seconds,takes,mood\n2,,15,2,\n2,2a,0,2,calm\n2!,2a,5,many,\n3,3a,5,0,\n";
    let refused = read_script_sheet(text).expect_err("wrong");
    let said: Vec<String> = refused.problems().iter().map(ToString::to_string).collect();
    assert_eq!(
        said,
        [
            "line 2, setup 2: shows no action; name what it covers, such as 2a;2b",
            "line 3, setup 2: stands twice, first on line 2; give the second another letter",
            "line 3, setup 2: has no length; give the seconds of a take",
            "line 4, column takes: cannot read \"many\" as a number of takes, 1 to 999",
            "line 4, column setup: cannot read \"2!\" as a setup, such as 2A",
            "line 5, setup 3: has no take; plan one, or leave the setup out",
        ]
    );
    let refused = read_script_sheet("setup,seconds\n1,5\n").expect_err("no actions");
    assert!(
        refused
            .problems()
            .iter()
            .any(|p| p.message.contains("no column actions"))
    );
    let fine = read_script_sheet("setup,actions,seconds,mood\n2,2a,4.5,calm\n").expect("sound");
    assert_eq!(fine.strange_columns, ["mood"]);
    assert_eq!(fine.script.setups[0].note, "mood: calm");
}

#[test]
fn what_is_pasted_is_told_apart() {
    let table = "Scene\tSetup\tActions\tSeconds\n2\t2A\t2a\t4\n";
    assert!(
        matches!(read_pasted(table), Ok(Pasted::Sheet(read)) if read.script.setups[0].name == "2A")
    );
    let text = "INT. A\n\nThe setup, as it was.\n";
    assert!(matches!(read_pasted(text), Ok(Pasted::Screenplay(_))));
    assert!(read_pasted("setup, they said\n").is_err());
}

/// Bits of which texts are made that mean something, or nearly do.
fn bits() -> impl Strategy<Value = String> {
    let known = prop::sample::select(vec![
        "INT. A",
        "EXT",
        "I/E",
        "\n",
        "\n\n",
        "\r\n",
        "\r",
        "\u{FEFF}",
        "/*",
        "*/",
        "[[",
        "]]",
        "#",
        "#1#",
        "===",
        ">",
        "<",
        "@",
        "!",
        ".",
        "..",
        "~",
        "(",
        ")",
        "BRAM",
        "ß",
        "Ä",
        "é:",
        ":",
        "  ",
        "\t",
        ",",
        ";",
        "\"",
        "setup",
        "actions",
        "seconds",
        "takes",
        "roll,slate,take,start,end\n",
        "setup,actions,seconds\n",
        "2a",
        "12+34",
        "-1",
        "99999999999",
        "4.5",
        "0",
    ]);
    prop::collection::vec(known, 0..40).prop_map(|parts| parts.concat())
}

proptest! {
    /// Whatever comes in, it is read or told of, and a line that is named is there.
    #[test]
    fn hostile_texts_are_told_of(text in bits()) {
        let lines = text.replace("\r\n", "\n").replace('\r', "\n").split('\n').count() as u64;
        let frames = Frames::new(3600).expect("in range");
        let refused = [
            read_fountain(&text).err(),
            read_script_sheet(&text).err(),
            read_camera_report(&text, Gauge::Super8, frames).err(),
        ];
        for problem in refused.iter().flatten().flat_map(|refused| refused.problems()) {
            prop_assert!(problem.line.is_none_or(|line| (1..=lines).contains(&line)), "{}", problem);
        }
        if let Ok(read) = read_fountain(&text) {
            let mut before = 0;
            for scene in &read.script.scenes {
                let line = scene.line.expect("it was read");
                prop_assert!(line > before && line <= lines);
                before = line;
            }
        }
    }
}
