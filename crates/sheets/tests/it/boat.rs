//! "The Ten-Past Boat", first cut, as models for the sheets: our own invented
//! film of three Super 8 rolls, joined with tape, pulled in the order of the
//! cut. Pictures are drawn here.

use std::collections::BTreeMap;
use std::io::Cursor;

use image::{ImageFormat, Rgb, RgbImage};
use onestrand_film::{Fps, FrameDelta, FramePos, FrameRange, Frames, Gauge, RollId, Span};
use onestrand_sheets::{
    After, CuttingRow, CuttingSheet, Head, JoinBite, JoinKind, Landmark, Lies, Mount, Paper, Piece,
    Pin, Proof, PullList, PullOrder, RollState, Standing, Strip,
};

/// A piece of the first cut: roll, first kept, first thrown, slate, action.
pub(crate) type Shot = (&'static str, u32, u32, &'static str, &'static str);

/// The 23 pieces of the first cut in order.
pub(crate) const V1: [Shot; 23] = [
    ("R3", 3075, 3255, "M-T1", "main title"),
    ("R1", 402, 546, "1-T2", "The landing"),
    ("R1", 1068, 1176, "2-T2", "Ida runs with a loaf"),
    ("R1", 2623, 2749, "3-T2", "Bram waits"),
    ("R1", 1590, 1662, "2A-T2", "Ida runs, nearer"),
    ("R1", 2813, 2939, "3-T2", "Bram lifts the rope"),
    ("R2", 547, 607, "3B-T2", "The rope comes off"),
    ("R1", 2996, 3122, "3-T2", "The ferry leaves"),
    ("R1", 1822, 1867, "2B-T1", "Her feet"),
    ("R2", 1280, 1496, "4-T2", "Too late"),
    ("R2", 2075, 2147, "4A-T2", "She sees it go"),
    ("R2", 1532, 1640, "4-T2", "She goes to the bell"),
    ("R2", 2432, 2486, "4B-T2", "She rings"),
    ("R2", 2621, 2765, "5-T1", "Bram turns"),
    ("R2", 3170, 3242, "5A-T2", "What he sees"),
    ("R2", 2801, 2909, "5-T1", "The lever"),
    ("R3", 57, 219, "5B-T2", "The ferry backs"),
    ("R3", 930, 1110, "6-T2", "The loaf is offered"),
    ("R3", 1830, 1884, "6B-T2", "Hands break it"),
    ("R3", 1503, 1575, "6A-T1", "Bram tastes"),
    ("R3", 1218, 1362, "6-T2", "She steps aboard"),
    ("R3", 2505, 2775, "7-T2", "The crossing"),
    ("R3", 3279, 3360, "E-T1", "end title"),
];

/// Where takes and marks begin: roll, frame, words.
const LANDMARKS: [(&str, u32, &str); 23] = [
    ("R1", 390, "camera stop 1-T2"),
    ("R1", 1050, "camera stop 2-T2"),
    ("R1", 1568, "camera stop 2A-T2"),
    ("R1", 1801, "camera stop 2B-T1"),
    ("R1", 2611, "camera stop 3-T2"),
    ("R1", 2971, "splash"),
    ("R2", 470, "camera stop 3B-T2"),
    ("R2", 1244, "camera stop 4-T2"),
    ("R2", 2054, "camera stop 4A-T2"),
    ("R2", 2405, "camera stop 4B-T2"),
    ("R2", 2558, "camera stop 5-T1"),
    ("R2", 3152, "camera stop 5A-T2"),
    ("R3", 21, "camera stop 5B-T2"),
    ("R3", 327, "camera stop 6-T1"),
    ("R3", 885, "camera stop 6-T2"),
    ("R3", 1479, "camera stop 6A-T1"),
    ("R3", 1677, "camera stop 6B-T1"),
    ("R3", 1803, "camera stop 6B-T2"),
    ("R3", 1947, "camera stop 7-T1"),
    ("R3", 2469, "camera stop 7-T2"),
    ("R3", 3063, "camera stop M-T1"),
    ("R3", 3267, "camera stop E-T1"),
    ("R3", 3375, "end of takes"),
];

pub(crate) fn roll(name: &str) -> RollId {
    RollId::new(name).expect("a good name")
}

pub(crate) fn frames(count: u32) -> Frames {
    Frames::new(count).expect("in range")
}

pub(crate) fn pos(index: u32) -> FramePos {
    FramePos::new(index).expect("in range")
}

pub(crate) fn range(begin: u32, end: u32) -> FrameRange {
    FrameRange::of(begin, end).expect("not reversed")
}

/// A bite of so many frames out and in.
pub(crate) fn bite(kind: JoinKind, out_tail: u32, in_head: u32) -> JoinBite {
    JoinBite {
        kind,
        out_tail: frames(out_tail),
        in_head: frames(in_head),
    }
}

/// The head of every sheet: three proved rolls, tape.
pub(crate) fn head(paper: Paper) -> Head {
    let proved = |name| RollState {
        roll: roll(name),
        gauge: onestrand_film::Gauge::Super8,
        proof: Proof::Proved,
        shrinkage: None,
        measured_by: String::new(),
    };
    Head {
        title: "The Ten-Past Boat".to_owned(),
        version: "v1".to_owned(),
        gauge: Gauge::Super8,
        speed: Fps::EIGHTEEN,
        joins: vec![bite(JoinKind::Tape, 0, 0)],
        rolls: vec![proved("R1"), proved("R2"), proved("R3")],
        paper,
    }
}

/// The cutting sheet of the first cut, with or without pictures.
pub(crate) fn cutting(paper: Paper, pictures: bool) -> CuttingSheet {
    let rows = V1
        .iter()
        .map(|&(name, begin, end, slate, action)| CuttingRow {
            what: Standing::Piece(Piece {
                slate: slate.to_owned(),
                action: action.to_owned(),
                span: Span::new(roll(name), range(begin, end)),
                first: pictures.then(|| drawn(name, begin)),
                last: pictures.then(|| drawn(name, end - 1)),
            }),
            after: After::Join(JoinKind::Tape),
            note: String::new(),
        })
        .collect();
    CuttingSheet {
        head: head(paper),
        head_join: Some(JoinKind::Tape),
        rows,
    }
}

/// The pull list of the first cut in cut order, with or without pictures.
pub(crate) fn pull(paper: Paper, pictures: bool) -> PullList {
    let mut mounts: Vec<Mount> = Vec::new();
    // Where each roll was left, and the cuts already made in it.
    let mut left: BTreeMap<&str, (u32, Vec<u32>)> = BTreeMap::new();
    let mut wound = 0;
    for (position, &(name, begin, end, ..)) in (1_u32..).zip(&V1) {
        let (at, made) = left.entry(name).or_default();
        let wind = i32::try_from(begin).expect("small") - i32::try_from(*at).expect("small");
        wound += wind.unsigned_abs() + (end - begin);
        let strip = Strip {
            kept: range(begin, end),
            cut: range(begin, end),
            landmark: landmark(name, begin, made),
            wind: FrameDelta::new(wind).expect("small"),
            pin: Pin::ToBeWritten,
            position,
            last_position: position,
            picture: pictures.then(|| drawn(name, begin)),
        };
        *at = end;
        made.push(end);
        if mounts
            .last()
            .is_none_or(|mount| mount.roll.as_str() != name)
        {
            let again = mounts.iter().any(|mount| mount.roll.as_str() == name);
            mounts.push(Mount {
                roll: roll(name),
                lies: if again { Lies::AsLeft } else { Lies::HeadsOut },
                strips: Vec::new(),
            });
        }
        mounts.last_mut().expect("just pushed").strips.push(strip);
    }
    PullList {
        head: head(paper),
        order: PullOrder::Cut,
        mounts,
        running: frames(2_724),
        cuts: 46,
        joins: 24,
        leftovers: 26,
        wound: frames(wound),
    }
}

/// The nearest landmark at or before a frame: a take, a mark, or a cut made.
fn landmark(name: &str, frame: u32, made: &[u32]) -> Landmark {
    let fixed = LANDMARKS
        .iter()
        .filter(|(roll, ..)| *roll == name)
        .map(|&(_, at, words)| (at, words));
    let cuts = made.iter().map(|&at| (at, "last cut"));
    let (at, words) = fixed
        .chain(cuts)
        .filter(|(at, _)| *at <= frame)
        .max_by_key(|(at, _)| *at)
        .expect("every piece has a take before it");
    Landmark {
        words: words.to_owned(),
        at: pos(at),
    }
}

/// A small drawn picture as a JPEG file: sky, hills, water, a boat that moves
/// with the frame number. Its tones are dull, as workprints are.
pub(crate) fn drawn(name: &str, frame: u32) -> Vec<u8> {
    let (width, height) = (320_u32, 240_u32);
    let hill = 20 * u32::from(name.as_bytes()[1] - b'0');
    let boat = 20 + frame / 8 % 240;
    let picture = RgbImage::from_fn(width, height, |x, y| {
        let ridge = 110 + hill.abs_diff(x / 3 % 60);
        let in_hull = y > 140 && y < 165 && x > boat && x < boat + 60 + (165 - y);
        let in_house = y > 115 && y <= 140 && x > boat + 25 && x < boat + 45;
        if in_hull {
            Rgb([60, 52, 50])
        } else if in_house {
            Rgb([190, 186, 176])
        } else if y < ridge {
            Rgb([168, 184, 190])
        } else if y < 145 {
            Rgb([112, 128, 100])
        } else {
            let wave = u8::try_from((x + 5 * y) % 17).expect("small");
            Rgb([96 + wave, 132 + wave, 140 + wave])
        }
    });
    let mut file = Cursor::new(Vec::new());
    picture
        .write_to(&mut file, ImageFormat::Jpeg)
        .expect("memory takes it");
    file.into_inner()
}
