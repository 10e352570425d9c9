//! Real film taken again: slower and faster, closer, lit otherwise, with grain.

use std::ops::{ControlFlow, Range};
use std::path::PathBuf;
use std::sync::LazyLock;

use crate::drawn::retaken;
use crate::retake::{Chance, HEIGHT, Retake, WIDTH};
use onestrand_film::FramePos;
use onestrand_intake::{Cancel, Ffmpeg, FileFrame, Making, Plane, ReadOptions, Source, read};
use onestrand_twins::{CannotTell, lay_beside};

fn planes(clip: &str, frames: Range<usize>) -> Vec<Vec<u8>> {
    assert_eq!((Plane::WIDTH, Plane::HEIGHT), (WIDTH, HEIGHT));
    let media = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../tests/media/video");
    let ffmpeg = Ffmpeg::locate().expect("FFmpeg is here");
    let (source, _) = Source::open(&ffmpeg, &[media.join(clip)]).expect("a film");
    let options = ReadOptions {
        making: Making::PlanesOnly,
        decode_threads: 1,
        ..ReadOptions::default()
    };
    let mut planes = Vec::new();
    let mut sink = |frame: FileFrame| {
        planes.push(frame.plane.into_bytes());
        ControlFlow::Continue(())
    };
    read(&ffmpeg, &source, &options, &Cancel::new(), &mut sink).expect("it can be read");
    planes.drain(frames).collect()
}

/// One shot of each: gunfire, a man at a window in 1922, a fall of snow.
const SHOTS: [(&str, Range<usize>); 3] = [
    ("tears_of_steel_a.mp4", 309..560),
    ("nosferatu_1922_excerpt.mp4", 70..222),
    ("sintel_excerpt.mp4", 121..319),
];

/// The planes of [`SHOTS`], read once.
static PLANES: LazyLock<[Vec<Vec<u8>>; 3]> =
    LazyLock::new(|| SHOTS.map(|(clip, frames)| planes(clip, frames)));

#[test]
fn hidden_marks_are_found_within_two_frames_nine_times_in_ten() {
    let (mut marks, mut found, mut told) = (0, 0, 0);
    for (which, source) in PLANES.iter().enumerate() {
        let length = source.len() as f32;
        for (n, speed) in [0.9, 1.0, 1.1].into_iter().enumerate() {
            let mut chance = Chance((10 * which + n) as u64);
            let share = [0.5, 0.7, 1.0][(which + n) % 3];
            let here = Retake {
                seed: chance.bits() % 999,
                ..Retake::PLAIN
            };
            let there = Retake {
                start: 0.15 * length,
                speed,
                wavers: 1.0,
                view: (0.5 * (1.0 - share), 0.6 * (1.0 - share), share),
                exposure: [-1.0, 0.7, 0.0][n],
                mixes: n != 1,
                seed: chance.bits() % 999,
                ..Retake::PLAIN
            };
            let until = (0.85 * length) as usize;
            let map = lay_beside(
                &retaken(&source[..until], &here, 0),
                &retaken(source, &there, 0),
            );
            for _ in 0..10 {
                let frame = (length * (0.2 + 0.6 * chance.share())) as u32;
                marks += 1;
                let Ok(map) = &map else { continue };
                let Some(place) = map.there(FramePos::new(frame).expect("a frame")) else {
                    continue;
                };
                told += usize::from(place.uncertain <= 1.5);
                let truth = there.frame_at(here.moment(frame as f32));
                found += usize::from((place.decimal() - f64::from(truth)).abs() <= 2.0);
            }
        }
    }
    assert_eq!(marks, 90);
    assert!(
        found * 10 >= marks * 9,
        "{found} of {marks} within two frames"
    );
    assert!(told * 10 >= marks * 8, "{told} of {marks} told");
}

#[test]
fn a_title_of_1899_moves_too_little_to_tell() {
    let title = planes("edison_1899_coaches.mp4", 0..90);
    let again = Retake {
        seed: 2,
        speed: 1.05,
        ..Retake::PLAIN
    };
    let told = lay_beside(
        &retaken(&title, &Retake::PLAIN, 0),
        &retaken(&title, &again, 0),
    );
    let still = CannotTell::TooLittleMovement {
        here: true,
        there: true,
    };
    assert_eq!(told, Err(still));
}

#[test]
fn one_shot_is_not_laid_on_another() {
    let shots = PLANES.each_ref();
    let shots = shots.map(|planes| retaken(planes, &Retake::PLAIN, 0));
    for (one, two) in [(0, 1), (1, 2), (0, 2)] {
        assert!(lay_beside(&shots[one], &shots[two]).is_err(), "{one} {two}");
    }
}
