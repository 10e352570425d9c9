//! The sounds of "The Ten-Past Boat", version 2, as plain models: our own invention.

use onestrand_film::{Fps, Gauge};
use onestrand_sheets::{
    CueAnchor, CueShape, CueStanding, DubColumn, DubCue, DubEcho, DubShot, DubbingChart,
    EffectPlace, EffectRow, EffectsList, HandMove, HandScore, LevelPoint, MixLog, MixPass,
    MusicList, MusicRow, Paper, PassKept, PlanHead, RightsStanding, TapeCount, TapeTable,
};

use crate::boat;

pub(crate) fn head(on: Paper) -> PlanHead {
    PlanHead {
        title: "The Ten-Past Boat".to_owned(),
        place: "v2, tape".to_owned(),
        day: String::new(),
        gauge: Gauge::Super8,
        speed: Fps::EIGHTEEN,
        paper: on,
    }
}

pub(crate) fn true_speed() -> Fps {
    Fps::new(1837, 100).expect("a speed")
}

/// The shots of v2 from 1,230 on, and one before them all.
fn shots() -> Vec<DubShot> {
    let rows: [(u32, &str); 16] = [
        (0, "The quay, a cat"),
        (180, "The ferry at the far bank"),
        (558, "Bram at the wheel"),
        (942, "She runs down the steps with a loaf under her arm"),
        (1_230, "She goes to the bell"),
        (1_338, "She rings"),
        (1_410, "Bram turns"),
        (1_554, "What he sees"),
        (1_626, "He pulls the lever"),
        (1_734, "The ferry backs"),
        (1_896, "The loaf offered"),
        (2_076, "Bram's face"),
        (2_148, "Loaf and hands"),
        (2_202, "She steps aboard"),
        (2_420, "A hand"),
        (2_430, "The quay, empty"),
    ];
    let ends = rows.iter().skip(1).map(|(from, _)| *from).chain([2_652]);
    let one = |(nth, ((from, action), to)): (usize, (&(u32, &str), u32))| DubShot {
        name: (nth + 1).to_string(),
        action: (*action).to_owned(),
        from: *from,
        to,
        pictures: (0..((to - from) / 54).max(1))
            .map(|n| boat::drawn("R1", nth as u32 * 211 + n * 40))
            .collect(),
    };
    rows.iter().zip(ends).enumerate().map(one).collect()
}

/// A cue that holds to a join, to be changed.
pub(crate) fn cue(name: &str, from: i64, to: i64) -> DubCue {
    DubCue {
        name: name.to_owned(),
        from,
        to,
        shape: CueShape::Block,
        anchor: CueAnchor::Join,
        standing: CueStanding::Held,
        outline: (0..600)
            .map(|n| 0.45 + 0.35 * f32::sin(n as f32 * 0.37) * f32::sin(n as f32 * 0.051))
            .collect(),
        level: Vec::new(),
        fade_in: 0,
        fade_out: 0,
        remark: String::new(),
    }
}

fn drop_at(name: &str, at: i64) -> DubCue {
    DubCue {
        shape: CueShape::Drop,
        anchor: CueAnchor::Frame,
        ..cue(name, at, at + 4)
    }
}

fn columns() -> Vec<DubColumn> {
    let point = |frame, db| LevelPoint { frame, db };
    let column = |name: &str, cues| DubColumn {
        name: name.to_owned(),
        cues,
    };
    let river = DubCue {
        fade_in: 36,
        fade_out: 90,
        level: vec![point(0, -6.0), point(1_700, -6.0), point(1_758, -24.0)],
        ..cue("river", 0, 2_652)
    };
    let engine = DubCue {
        fade_out: 36,
        level: vec![point(558, -12.0), point(900, -12.0), point(942, -3.0)],
        remark: "tape 3, 041".to_owned(),
        ..cue("engine", 558, 1_752)
    };
    let march = DubCue {
        fade_in: 18,
        anchor: CueAnchor::Clock,
        outline: Vec::new(),
        ..cue("march", 1_728, 2_640)
    };
    let standing = |at, standing| DubCue {
        standing,
        ..drop_at("bell", at)
    };
    let mut effects: Vec<DubCue> = [1_349, 1_368, 1_387]
        .map(|at| standing(at, CueStanding::Proposed))
        .into();
    effects.extend([1_392, 1_410, 1_429].map(|at| standing(at, CueStanding::Orphan)));
    effects.extend([
        drop_at("lever", 1_658),
        drop_at("rustle", 2_164),
        drop_at("foot", 2_284),
    ]);
    vec![
        column("atmosphere", vec![river]),
        column("machine", vec![engine]),
        column("effects", effects),
        column("music", vec![march]),
    ]
}

pub(crate) fn moves() -> Vec<HandMove> {
    let one = |what: &str, fader: &str, from, to, levels| HandMove {
        what: what.to_owned(),
        fader: fader.to_owned(),
        from,
        to,
        levels,
    };
    vec![
        one("river up", "atmosphere", 0, 36, (None, Some(-6.0))),
        one("engine up", "machine", 900, 942, (Some(-12.0), Some(-3.0))),
        one("engine down", "machine", 1_716, 1_752, (Some(-3.0), None)),
        one(
            "river down",
            "atmosphere",
            1_722,
            1_758,
            (Some(-6.0), Some(-24.0)),
        ),
        one("march up", "music", 1_728, 1_746, (None, Some(0.0))),
    ]
}

/// The chart of v2.
pub(crate) fn chart(on: Paper) -> DubbingChart {
    let shots = shots();
    let heard = |shot: &DubShot| {
        let near = (shot.from == 2_148).then(|| {
            (
                2,
                "join 2,148 is heard at 2,166: 2 frames from rustle".to_owned(),
            )
        });
        DubEcho {
            join_at: shot.from,
            heard_at: shot.from + 18,
            near,
        }
    };
    DubbingChart {
        head: head(on),
        true_speed: true_speed(),
        is_measured: true,
        lead: Some(18),
        frames: 2_652,
        feet_a_sheet: DubbingChart::USUAL_FEET,
        echoes: shots.iter().skip(1).map(heard).collect(),
        shots,
        columns: columns(),
        moves: moves(),
        hands: 2,
        remarks: vec![
            "Levels are those of the digital mix; the recorder's own set the rest.".to_owned(),
        ],
    }
}

pub(crate) fn score(on: Paper) -> HandScore {
    HandScore {
        head: head(on),
        true_speed: true_speed(),
        hands: 2,
        moves: moves(),
        most: (3, 1_728),
        remedies: vec!["Lay atmosphere and machine on one tape: then two at once.".to_owned()],
    }
}

pub(crate) fn effects(on: Paper) -> EffectsList {
    // The counter of the table below: T = a·C + b·C², turned round.
    let place = |frame: u32| {
        let (a, b, seconds) = (3.769_911_f64, 0.006_860_38, f64::from(frame) / 18.37);
        EffectPlace {
            frame,
            counter: Some(((a * a + 4.0 * b * seconds).sqrt() - a) / (2.0 * b)),
        }
    };
    let row = |number: &str, sound: &str, tape: &str, counter: &str, at: Vec<u32>| EffectRow {
        number: number.to_owned(),
        sound: sound.to_owned(),
        tape: tape.to_owned(),
        counter: counter.to_owned(),
        seconds: Some(2.4),
        first_sound: "0.35 s in".to_owned(),
        at: at.into_iter().map(place).collect(),
        note: String::new(),
    };
    EffectsList {
        head: head(on),
        true_speed: true_speed(),
        rows: vec![
            row(
                "E1",
                "bell, one stroke",
                "tape 2",
                "012",
                vec![1_349, 1_368, 1_387],
            ),
            row("E2", "lever", "tape 2", "031", vec![1_658]),
            row("E3", "rustle of paper", "", "", vec![2_164]),
        ],
        blank_rows: 6,
    }
}

pub(crate) fn log(on: Paper) -> MixLog {
    let pass = |pass: &str, speed, faults: Vec<(u32, String)>, kept| MixPass {
        pass: pass.to_owned(),
        start: 0,
        speed,
        faults,
        kept,
    };
    let late = vec![(1_728, "music late".to_owned()), (2_166, String::new())];
    MixLog {
        head: head(on),
        passes: vec![
            pass("1", Some(18.31), late, PassKept::GivenUp),
            pass("2", Some(18.37), Vec::new(), PassKept::Kept),
            pass("3", None, Vec::new(), PassKept::Open),
        ],
        blank_rows: 8,
    }
}

/// Story 11's tape: T = 3.769911·C + 0.00686038·C².
pub(crate) fn tape(on: Paper) -> TapeTable {
    let (a, b) = (3.769_911, 0.006_860_38);
    let row = |count: f64, cue: &str| {
        let seconds = a * count + b * count * count;
        let frame = (seconds * 18.37).floor();
        TapeCount {
            count,
            seconds,
            frame: (frame < 2_652.0).then_some(frame as u32),
            frames_a_count: (a + 2.0 * b * count) * 18.37,
            cue: cue.to_owned(),
        }
    };
    TapeTable {
        head: head(on),
        tape: "Quarter-inch at 9.5 cm/s, the grey machine, tape 3".to_owned(),
        law: (a, b),
        timings: vec![(50.0, 205.6), (100.0, 445.6), (150.0, 719.8)],
        true_speed: true_speed(),
        rows: vec![
            row(0.0, "first sound"),
            row(5.0, ""),
            row(7.9, "engine down"),
            row(10.0, ""),
            row(200.0, ""),
        ],
    }
}

pub(crate) fn music(on: Paper) -> MusicList {
    MusicList {
        head: head(on),
        rows: vec![
            MusicRow {
                title: "The Ten-Past March".to_owned(),
                written_by: "the program".to_owned(),
                played_by: "the program".to_owned(),
                recording: "made for the example".to_owned(),
                used: vec![(1_728, 2_640)],
                work: RightsStanding::NotNeeded,
                ask_for_work: String::new(),
                recorded: RightsStanding::NotNeeded,
                ask_for_recording: String::new(),
                agreed: String::new(),
            },
            MusicRow {
                title: "A waltz from the wireless".to_owned(),
                written_by: String::new(),
                played_by: "a band nobody remembers".to_owned(),
                recording: "shellac, about 1938".to_owned(),
                used: vec![(18, 198), (2_430, 2_652)],
                work: RightsStanding::NotKnown,
                ask_for_work: String::new(),
                recorded: RightsStanding::Asked,
                ask_for_recording: "the heirs of the band".to_owned(),
                agreed: "wrote to the society on 3 May".to_owned(),
            },
        ],
        blank_rows: 4,
    }
}
