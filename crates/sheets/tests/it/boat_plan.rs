//! "The Ten-Past Boat" before it is shot, as models for the sheets of the plan: our own
//! invented film, with the seconds, actions and setups of its first story.

use onestrand_film::{Fps, Frames, Gauge};
use onestrand_sheets::{
    CameraReportSheet, CameraReportTake, FloorCamera, FloorLine, FloorMark, FloorPlan,
    InCameraSheet, InCameraStep, LineShown, LinedAction, LinedScene, LinedScript, LocationFolder,
    PackedOn, Paper, PlanHead, PlanSheet, PlannedSound, RollPacked, ScriptLine, ScriptedScene,
    ScriptedSetup, ShootingScript, ShotGroup, ShotList, ShotToTake, SoundReportSheet, StockHeld,
    StockSheet, SunAt, Visit, VisitsSheet, WildSoundLine, WildSoundList,
};

pub(crate) fn head(paper: Paper) -> PlanHead {
    PlanHead {
        title: "The Ten-Past Boat".to_owned(),
        place: "the landing".to_owned(),
        day: "Saturday 9 May".to_owned(),
        gauge: Gauge::Super8,
        speed: Fps::EIGHTEEN,
        paper,
    }
}

pub(crate) fn frames(count: u32) -> Frames {
    Frames::new(count).expect("in range")
}

/// Scene, place, light, and its actions: name, speaker, words.
type SceneOf = (
    &'static str,
    &'static str,
    &'static [(&'static str, &'static str, &'static str)],
);

const SCENES: [SceneOf; 5] = [
    (
        "2",
        "The path by the river, exterior, day",
        &[(
            "2a",
            "",
            "Ida runs along the path with a loaf under her arm.",
        )],
    ),
    (
        "3",
        "The ferry, at the landing, exterior, day",
        &[
            (
                "3a",
                "",
                "Bram waits at the rail. He looks at his watch: ten past.",
            ),
            (
                "3b",
                "",
                "He lifts the rope off the bollard and lets it go. It splashes.",
            ),
            ("3c", "", "The ferry leaves."),
        ],
    ),
    (
        "4",
        "The landing, exterior, day",
        &[
            ("4a", "", "Ida comes to the last plank. Too late."),
            ("4b", "IDA", "Bram! I have got the bread."),
            ("4c", "", "She rings the landing bell. Three strokes."),
        ],
    ),
    (
        "5",
        "On the ferry, midstream, exterior, day",
        &[
            ("5a", "", "Bram turns."),
            ("5b", "", "What he sees: Ida, small, beside the bell."),
            ("5c", "", "He pulls the lever."),
            ("5d", "", "The ferry backs."),
        ],
    ),
    (
        "6",
        "The cabin of the ferry, interior, dusk",
        &[
            ("6a", "", "She offers the loaf. Hands break it."),
            ("6b", "", "She steps aboard."),
        ],
    ),
];

/// Setup, scene, what it shows, size, move, action, mover, direction, cast and props,
/// seconds of a take. `off:` before an action: it is off camera.
type SetupOf = [&'static str; 10];

const SETUPS: [SetupOf; 12] = [
    [
        "2",
        "2",
        "2a",
        "long",
        "pan",
        "Ida runs with a loaf",
        "Ida",
        "left to right",
        "Ida, loaf",
        "15",
    ],
    [
        "2A",
        "2",
        "2a",
        "medium",
        "",
        "Ida runs, nearer",
        "Ida",
        "left to right",
        "Ida, loaf",
        "11",
    ],
    [
        "2B",
        "2",
        "2a",
        "insert",
        "",
        "her feet",
        "Ida",
        "left to right",
        "Ida",
        "7",
    ],
    [
        "3",
        "3",
        "3a 3b 3c",
        "full",
        "",
        "Bram waits, casts off, and the ferry leaves",
        "ferry",
        "right to left",
        "Bram, watch, rope",
        "36",
    ],
    [
        "3A",
        "3",
        "3a 3b",
        "medium close",
        "",
        "Bram, his watch, the rope",
        "",
        "",
        "Bram, watch",
        "13",
    ],
    [
        "3B",
        "3",
        "3b",
        "close",
        "",
        "the rope leaves the bollard",
        "rope",
        "down",
        "rope, second rope",
        "10",
    ],
    [
        "4",
        "4",
        "4a 4b 4c",
        "long",
        "",
        "too late; she goes to the bell and rings",
        "Ida",
        "left to right",
        "Ida, loaf, bell",
        "32",
    ],
    [
        "4A",
        "4",
        "4b",
        "close",
        "",
        "she sees it go",
        "",
        "",
        "Ida",
        "10",
    ],
    [
        "4B",
        "4",
        "off:4b 4c",
        "insert",
        "",
        "the bell, three strokes",
        "bell",
        "",
        "bell",
        "7",
    ],
    [
        "5",
        "5",
        "5a off:5b 5c",
        "medium",
        "",
        "Bram turns and pulls the lever",
        "Bram",
        "right to left",
        "Bram, lever",
        "23",
    ],
    [
        "5A",
        "5",
        "5b",
        "point of view",
        "hand-held",
        "Ida, small, beside the bell",
        "",
        "",
        "Ida",
        "9",
    ],
    [
        "6",
        "6",
        "6a 6b",
        "full",
        "",
        "the loaf is offered, she steps aboard",
        "Ida",
        "left to right",
        "Bram, Ida, loaf, lamp",
        "31",
    ],
];

/// A take of so many seconds with 24 frames of run-up, as story 1 reckons it.
fn take(seconds: &str) -> Frames {
    frames(seconds.parse::<u32>().expect("whole seconds") * 18 + 24)
}

fn owned(text: &str) -> String {
    text.to_owned()
}

pub(crate) fn script(paper: Paper) -> ShootingScript {
    let setup = |of: &SetupOf| ScriptedSetup {
        name: owned(of[0]),
        shows: of[2].replace("off:", "").replace(' ', ", "),
        size: owned(of[3]),
        movement: owned(of[4]),
        action: owned(of[5]),
        sound: if of[0] == "4B" {
            owned("bell, close")
        } else {
            String::new()
        },
        mover: owned(of[6]),
        direction: owned(of[7]),
        needed: owned(of[8]),
        seconds: owned(of[9]),
        takes: 2,
        frames: take(of[9]),
    };
    let mut scenes: Vec<ScriptedScene> = SCENES
        .iter()
        .map(|(number, heading, _)| ScriptedScene {
            number: owned(number),
            heading: owned(heading),
            setups: SETUPS
                .iter()
                .filter(|of| of[1] == *number)
                .map(setup)
                .collect(),
        })
        .collect();
    scenes.push(ScriptedScene {
        number: String::new(),
        heading: owned("Titles"),
        setups: vec![ScriptedSetup {
            name: owned("M"),
            action: owned("main title over the river"),
            seconds: owned("10"),
            takes: 1,
            frames: frames(180),
            ..ScriptedSetup::default()
        }],
    });
    ShootingScript {
        head: head(paper),
        scenes,
    }
}

fn shown(text: &str) -> Vec<LineShown> {
    text.split(' ')
        .map(|word| LineShown {
            action: word.trim_start_matches("off:").to_owned(),
            on_camera: !word.starts_with("off:"),
        })
        .collect()
}

/// As planned, a line a setup; or as shot, two takes of each, the second circled.
pub(crate) fn lined(paper: Paper, shot: bool) -> LinedScript {
    let scenes = SCENES.iter().map(|(number, heading, actions)| LinedScene {
        number: owned(number),
        heading: owned(heading),
        actions: actions
            .iter()
            .map(|(name, speaker, text)| LinedAction {
                name: owned(name),
                speaker: owned(speaker),
                text: owned(text),
            })
            .collect(),
    });
    let lines = SETUPS.iter().flat_map(|of| {
        let takes = if shot { 1..=2 } else { 0..=0 };
        takes.map(|take| ScriptLine {
            name: match take {
                0 => owned(of[0]),
                take => format!("{}-T{take}", of[0]),
            },
            shot,
            circled: take == 2,
            ng: false,
            shown: shown(of[2]),
        })
    });
    LinedScript {
        head: head(paper),
        scenes: scenes.collect(),
        lines: lines.collect(),
    }
}

pub(crate) fn shots(paper: Paper) -> ShotList {
    let shot = |of: &SetupOf| ShotToTake {
        name: owned(of[0]),
        view: match of[4] {
            "" => owned(of[3]),
            movement => format!("{}, {movement}", of[3]),
        },
        action: owned(of[5]),
        needed: owned(of[8]),
        seconds: owned(of[9]),
        takes: if of[0] == "3" { 6 } else { 2 },
        frames: take(of[9]),
    };
    let group = |place: &str, inside: bool, scenes: &[&str]| ShotGroup {
        place: owned(place),
        sun: if inside {
            String::new()
        } else {
            owned("Sun from the south-east till noon, behind the far bank from half past three.")
        },
        inside,
        shots: SETUPS
            .iter()
            .filter(|of| scenes.contains(&of[1]))
            .map(shot)
            .collect(),
    };
    ShotList {
        head: head(paper),
        groups: vec![
            group(
                "The landing and the path, exterior, day",
                false,
                &["2", "3", "4"],
            ),
            group("On the ferry, exterior, day", false, &["5"]),
            group("The cabin, interior, dusk", true, &["6"]),
        ],
    }
}

pub(crate) fn camera_report(paper: Paper) -> CameraReportSheet {
    let take = |of: &SetupOf, take: u32| CameraReportTake {
        setup: owned(of[0]),
        take: take.to_string(),
        action: owned(of[5]),
    };
    CameraReportSheet {
        head: head(paper),
        roll: owned("R1"),
        batch: String::new(),
        camera: owned("the grey one"),
        takes: SETUPS
            .iter()
            .take(5)
            .flat_map(|of| (1..=2).map(move |n| take(of, n)))
            .collect(),
        blank_lines: 10,
    }
}

pub(crate) fn sound_report(paper: Paper) -> SoundReportSheet {
    let sound = |what: &str, distance: &str, wild| PlannedSound {
        what: owned(what),
        distance: owned(distance),
        wild,
    };
    SoundReportSheet {
        head: head(paper),
        sounds: vec![
            sound("the bell, three strokes", "2 m, then 20 m", true),
            sound("chain over the rollers", "on the deck, 1 m", true),
            sound("Ida calls Bram", "from the ferry", false),
        ],
        blank_lines: 6,
    }
}

pub(crate) fn wild_sounds(paper: Paper) -> WildSoundList {
    let sound = |sound: &str, place: &str, length: &str, distance: &str| WildSoundLine {
        sound: owned(sound),
        place: owned(place),
        length: owned(length),
        distance: owned(distance),
        note: String::new(),
    };
    WildSoundList {
        head: head(paper),
        sounds: vec![
            sound("the bell, three strokes", "landing", "30 s", "2 m and 20 m"),
            sound("chain over the rollers", "deck", "2 min", "1 m"),
            sound("river at the planks", "landing", "2 min", "low down"),
            sound("the quiet of the place", "landing", "1 min", ""),
        ],
        blank_lines: 12,
    }
}

/// Three blocks moved, three cartridges: the roll ends of story 1, the setups ours.
pub(crate) fn stock(paper: Paper) -> StockSheet {
    let block = |setup: &str, takes, count, moved| PackedOn {
        setup: owned(setup),
        takes,
        frames: frames(count),
        moved,
        part: None,
    };
    let roll = |name: &str, blocks: Vec<PackedOn>, kept: u32| {
        let shot: u32 = blocks.iter().map(|block| block.frames.count()).sum();
        RollPacked {
            name: owned(name),
            blocks,
            spare: frames(3_552 - shot - kept),
            kept_back: frames(kept),
        }
    };
    StockSheet {
        head: head(paper),
        held: vec![StockHeld {
            stock: owned("reversal, colour, daylight"),
            batch: owned("2241"),
            length: owned("50 ft"),
            rolls: owned("3"),
            bought: owned("March"),
            expires: owned("2027-11"),
            process_paid: None,
            price: owned("42.00"),
        }],
        rolls: vec![
            roll(
                "R1",
                vec![
                    block("1", 2, 732, false),
                    block("2", 2, 588, false),
                    block("2A", 2, 444, false),
                    block("3", 2, 1_344, false),
                    block("3B", 2, 408, false),
                ],
                0,
            ),
            roll(
                "R2",
                vec![
                    block("2B", 1, 150, true),
                    block("3A", 2, 516, true),
                    block("4", 2, 1_200, false),
                    block("4A", 2, 408, false),
                    block("4B", 2, 300, false),
                    block("5A", 2, 372, false),
                    block("5B", 2, 588, false),
                ],
                0,
            ),
            roll(
                "R3",
                vec![
                    block("5", 1, 438, true),
                    block("6", 2, 1_164, false),
                    block("6A", 1, 204, false),
                    block("6B", 2, 300, false),
                    block("7", 2, 1_128, false),
                ],
                309,
            ),
        ],
        usable: frames(3_552),
        run_up: frames(24),
        sums: vec![
            owned(
                "Ratio 3.9 : 1. Fewer than three rolls cannot do; three moved setups are the fewest.",
            ),
            owned("A shown second costs 0.83 of your money."),
        ],
    }
}

pub(crate) fn floor(paper: Paper) -> FloorPlan {
    let camera = |name: &str, at, towards, field, reach, lens: &str| FloorCamera {
        name: owned(name),
        at,
        towards,
        field,
        reach,
        lens: owned(lens),
    };
    let line = |name: &str, points: &[(f64, f64)]| FloorLine {
        name: owned(name),
        points: points.to_vec(),
    };
    let mark = |name: &str, at| FloorMark {
        name: owned(name),
        at,
        goes_to: (name == "Ida").then_some((9.0, 1.0)),
    };
    let sun = |hour: &str, azimuth, altitude| SunAt {
        hour: owned(hour),
        azimuth,
        altitude,
    };
    FloorPlan {
        head: head(paper),
        of: owned("The landing, scenes 3 and 4"),
        outlines: vec![
            line(
                "landing stage",
                &[(0.0, 0.0), (14.0, 0.0), (14.0, 4.0), (0.0, 4.0), (0.0, 0.0)],
            ),
            line("bank", &[(-6.0, 4.0), (0.0, 4.0), (0.0, 9.0)]),
        ],
        line_of_action: Some(line("line", &[(2.0, 2.0), (16.0, 2.6)])),
        marks: vec![
            mark("Ida", (3.0, 2.0)),
            mark("Bram", (12.0, 2.4)),
            mark("bell", (1.0, 3.2)),
        ],
        cameras: vec![
            camera("3", (6.0, -7.0), 20.0, 38.0, 11.0, "10 mm"),
            camera("3B", (11.0, -1.5), 20.0, 15.0, 4.5, "25 mm"),
            camera("4", (8.0, -4.0), 300.0, 38.0, 9.0, "10 mm"),
        ],
        north: Some(330.0),
        // Invented for the drawing, not reckoned.
        sun: vec![
            sun("09:00", 103.0, 35.0),
            sun("11:00", 141.0, 50.0),
            sun("13:00", 193.0, 55.0),
            sun("15:00", 236.0, 44.0),
            sun("17:00", 265.0, 26.0),
        ],
        sun_from: owned("Sun of an invented day."),
    }
}

pub(crate) fn folder(paper: Paper) -> LocationFolder {
    LocationFolder {
        head: head(paper),
        sun: owned("Sun up 05:21, down 20:34."),
        recce: vec![
            owned("The landing floods at spring tide. Park at the chapel, not on the slip."),
            owned("The bell is loud: warn the house beside it."),
        ],
        sheets: vec![
            PlanSheet::ShootingScript(script(paper)),
            PlanSheet::LinedScript(lined(paper, false)),
            PlanSheet::ShotList(shots(paper)),
            PlanSheet::FloorPlan(floor(paper)),
            PlanSheet::Stock(stock(paper)),
            PlanSheet::CameraReport(camera_report(paper)),
            PlanSheet::SoundReport(sound_report(paper)),
            PlanSheet::WildSounds(wild_sounds(paper)),
        ],
    }
}

/// A place with a photograph and many words, one with nothing at all.
pub(crate) fn visits(paper: Paper) -> VisitsSheet {
    let picture = image::GrayImage::from_fn(90, 160, |x, y| image::Luma([((x + y) % 256) as u8]));
    let mut bytes = std::io::Cursor::new(Vec::new());
    picture
        .write_to(&mut bytes, image::ImageFormat::Png)
        .expect("memory");
    VisitsSheet {
        head: head(paper),
        visits: vec![
            Visit {
                place: owned("The landing"),
                scenes: vec![owned("3"), owned("4")],
                words: "Light from the north until ten, then the hill takes it. ".repeat(60),
                photograph: Some(bytes.into_inner()),
                lost: String::new(),
            },
            Visit::default(),
            Visit {
                words: "Donaudampfschifffahrt".repeat(9),
                lost: owned("Without its photograph: it is not there."),
                ..Visit::default()
            },
        ],
    }
}

/// So many steps that they go on, and long words.
pub(crate) fn in_camera(paper: Paper) -> InCameraSheet {
    let take = |at: u32| InCameraStep::Take {
        setup: format!("{at}A"),
        action: "Ida runs along the planks with a loaf, and the rope falls. ".repeat(3),
        from: frames(at * 90),
        to: frames(at * 90 + 138),
        light_up: frames(48),
        light_down: frames(48),
    };
    let back = |at: u32| InCameraStep::WindBack {
        from: frames(at * 90 + 138),
        to: frames(at * 90 + 90),
    };
    let steps = (0..30).flat_map(|at| [take(at), back(at)]);
    InCameraSheet {
        head: head(paper),
        steps: std::iter::once(InCameraStep::Load { roll: 1 })
            .chain(steps)
            .collect(),
        frames: frames(2_748),
        wind_back: frames(90),
        problems: Vec::new(),
    }
}
