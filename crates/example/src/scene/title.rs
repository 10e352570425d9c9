//! The titles: letters cut from paper over artwork, shot in the camera.
//!
//! The lettering lies on a clear cel that is slid over the artwork frame by
//! frame: in the main title 36 frames of artwork, 126 lettered, 18 of artwork are used; in the
//! end title 36 and 45 (story 10).

use tiny_skia::Transform;

use super::{Moment, Set, on_picture, stand};
use crate::draw::ferry::{self, DECK, Trim};
use crate::draw::figure;
use crate::draw::landing::{Landing, bell_post, landing};
use crate::draw::nature::{Horizon, gull, horizon, tuft};
use crate::draw::water::{Bed, Water};
use crate::lettering::cut;
use crate::noise::signed;
use crate::paper::shape::{curve, oval, ridge, sheet, smooth};
use crate::paper::{Paper, Papers, Stage, at, turned};
use crate::world::{Held, Pose, bell};

/// Frames of the take on which the lettering lies: main, end.
const MAIN_LETTERS: core::ops::Range<u32> = 48..174;
const END_LETTERS: core::ops::Range<u32> = 48..108;

/// Frames in which the cel slides in, and out again.
const SLIDE: u32 = 10;

/// How far above its place the lettering lies on a frame of the take, if it is
/// on the artwork at all. Unit: pixels.
///
/// It slides as a hand would move it: a cel that lay there from one frame to
/// the next would look like a stop of the camera.
fn above(frames: &core::ops::Range<u32>, since: u32, leaves: bool) -> Option<i32> {
    if !frames.contains(&since) {
        return None;
    }
    let arrived = (since - frames.start).min(SLIDE);
    let leaving = if leaves { frames.end - since } else { SLIDE };
    let rest = 1.0 - arrived.min(leaving) as f32 / SLIDE as f32;
    Some(-(rest * rest * 320.0).round() as i32)
}

fn river(papers: &Papers, seed: u64, top: f32, build: impl FnOnce(&mut Stage<'_>)) -> Set {
    let bed = Bed {
        top,
        bottom: 486.0,
        strips: 7,
        wave: 96.0,
        seed,
    };
    Set::new(papers, build).with_water(Water::new(papers, bed))
}

pub(super) fn build_main(papers: &Papers) -> Set {
    river(papers, 193, 312.0, |stage| {
        horizon(
            stage,
            Horizon {
                seed: 195,
                water: 316.0,
                zoom: 1.0,
                sun: None,
            },
        );
    })
    .with_layer(papers, (640, 480), |stage| {
        let id = Transform::identity();
        stage.lift = 3.0;
        let plan = Landing {
            left: -20.0,
            right: 128.0,
            deck: 396.0,
            size: 0.85,
        };
        landing(stage, plan, id);
        bell_post(stage, at(56.0, 395.0, 0.72), bell(0.0));
        stage.piece(
            &ridge(196, 640.0, 440.0, 520.0, 16.0, 120.0),
            Paper::Grass,
            id,
        );
        for index in 0..10_u64 {
            tuft(
                stage,
                at(330.0 + 34.0 * index as f32, 468.0, 1.7),
                index,
                Paper::Leaf,
            );
        }
    })
    .with_layer(papers, (640, 480), main_letters)
}

fn main_letters(stage: &mut Stage<'_>) {
    stage.lift = 4.0;
    words(stage, "The", (320.0, 82.0), 46.0, Paper::Berry);
    words(stage, "Ten-Past", (320.0, 160.0), 96.0, Paper::Navy);
    words(stage, "Boat", (320.0, 240.0), 96.0, Paper::Navy);
    stage.lift = 3.0;
    let band = sheet(100.0, 258.0, 540.0, 300.0, 2.5);
    stage.piece(&band, Paper::Cream, Transform::identity());
    stage.lift = 1.2;
    words(
        stage,
        "a paper film of a ferry and a loaf",
        (320.0, 289.0),
        27.0,
        Paper::Plum,
    );
}

/// Lays a line of cut letters about a middle, each a little askew.
fn words(stage: &mut Stage<'_>, line: &str, middle: (f32, f32), size: f32, paper: Paper) {
    let (letters, wide) = cut(line, size, size * 0.02);
    let left = middle.0 - wide / 2.0;
    for (index, letter) in letters.iter().enumerate() {
        let off = |n: u64| signed(size as u64 + n, index as u64);
        let place = turned(
            Transform::identity(),
            left + letter.x,
            middle.1 + off(1) * size * 0.018,
            off(2) * 1.6,
        );
        // A paler sheet under each letter keeps the words clear of the picture.
        stage.line(&letter.path, size * 0.09, [250, 243, 224, 255], place);
        stage.piece(&letter.path, paper, place);
    }
}

pub(super) fn play_main(stage: &mut Stage<'_>, set: &Set, moment: &Moment) {
    let t = moment.since as f32;
    set.water[0].behind(stage, moment.river(), 422.0);
    let boat = at(396.0 + t * 0.05, 420.0 + (t * 0.1).sin(), 0.92);
    let trim = Trim {
        ramp: 40.0,
        smoke: None,
        wash: 0.0,
        time: t,
    };
    ferry::side(stage, boat, trim);
    let (x, y) = on_picture(boat, -40.0, DECK);
    let pose = Pose::standing(t);
    figure::bram(
        stage,
        stand(Transform::identity(), x, y, 0.76, -1.0),
        &moment.restless(pose, 1),
    );
    ferry::rail(stage, boat, -80.0, 8.0);
    set.water[0].before(stage, moment.river(), 422.0);
    set.lay_layer(stage, 0, 0, 0);
    clock(stage, at(116.0, 330.0, 0.9));
    gull(
        stage,
        at(556.0 + 6.0 * (t * 0.05).sin(), 250.0, 0.9),
        (t * 0.4).sin() * 0.7,
    );
    if let Some(above) = above(&MAIN_LETTERS, moment.since, true) {
        set.lay_layer(stage, 1, 0, above);
    }
}

/// The landing clock, which says ten past.
fn clock(stage: &mut Stage<'_>, at: Transform) {
    stage.piece(&sheet(-3.5, 20.0, 3.5, 74.0, 0.4), Paper::Iron, at);
    stage.piece(&oval(0.0, 0.0, 26.0, 26.0), Paper::Iron, at);
    stage.sheet(&oval(0.0, 0.0, 21.5, 21.5), Paper::Cream, at);
    for hour in 0..12 {
        let tick = turned(at, 0.0, 0.0, 30.0 * hour as f32);
        let long = if hour % 3 == 0 { 5.0 } else { 3.0 };
        stage.line(
            &curve(&[(0.0, -19.5), (0.0, -19.5 + long)]),
            1.8,
            [44, 50, 60, 255],
            tick,
        );
    }
    let minute = turned(at, 0.0, 0.0, 60.0);
    stage.line(
        &curve(&[(0.0, 3.0), (0.0, -17.0)]),
        2.2,
        [44, 50, 60, 255],
        minute,
    );
    let hour = turned(at, 0.0, 0.0, 305.0);
    stage.line(
        &curve(&[(0.0, 2.0), (0.0, -11.0)]),
        3.2,
        [44, 50, 60, 255],
        hour,
    );
    stage.fastener(0.0, 0.0, 2.6, at);
}

pub(super) fn build_end(papers: &Papers) -> Set {
    river(papers, 203, 262.0, |stage| {
        horizon(
            stage,
            Horizon {
                seed: 205,
                water: 266.0,
                zoom: 1.2,
                sun: Some((322.0, 178.0)),
            },
        );
    })
    .with_layer(papers, (640, 480), |stage| {
        let id = Transform::identity();
        stage.lift = 4.0;
        stage.piece(
            &sheet(-20.0, 404.0, 660.0, 520.0, 1.0),
            Paper::PlankLight,
            id,
        );
        for index in 0..7 {
            let x = 40.0 + 96.0 * index as f32;
            let lean = (x - 320.0) * 0.14;
            stage.line(
                &curve(&[(x, 406.0), (x + lean, 480.0)]),
                3.0,
                [120, 88, 56, 230],
                id,
            );
        }
        let wrap = smooth(&[
            (430.0, 432.0),
            (470.0, 420.0),
            (560.0, 422.0),
            (588.0, 438.0),
            (540.0, 452.0),
            (454.0, 450.0),
        ]);
        stage.piece(&wrap, Paper::Cream, id);
        figure::loaf(stage, at(512.0, 426.0, 3.0), 1.0);
    })
    .with_layer(papers, (640, 480), |stage| {
        stage.lift = 4.0;
        words(stage, "The End", (320.0, 132.0), 96.0, Paper::Berry);
    })
}

pub(super) fn play_end(stage: &mut Stage<'_>, set: &Set, moment: &Moment) {
    let t = moment.since as f32;
    set.water[0].behind(stage, moment.river(), 314.0);
    let boat = at(372.0 + t * 0.2, 312.0 + (t * 0.1).sin(), 0.56);
    let trim = Trim {
        ramp: 42.0,
        smoke: Some(t),
        wash: -1.0,
        time: t,
    };
    ferry::side(stage, boat, trim);
    let mut pose = Pose::standing(t);
    pose.held = Held::HalfLoaf;
    for (place, facing) in [(-58.0, 1.0), (-26.0, -1.0)] {
        let (x, y) = on_picture(boat, place, DECK);
        let stand_at = stand(Transform::identity(), x, y, 0.48, facing);
        if facing > 0.0 {
            figure::ida(stage, stand_at, &moment.restless(pose, 2));
        } else {
            figure::bram(stage, stand_at, &moment.restless(pose, 1));
        }
    }
    ferry::rail(stage, boat, -80.0, 8.0);
    set.water[0].before(stage, moment.river(), 314.0);
    set.lay_layer(stage, 0, 0, 0);
    if let Some(above) = above(&END_LETTERS, moment.since, false) {
        set.lay_layer(stage, 1, 0, above);
    }
}
