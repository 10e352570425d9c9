//! Setups 5A and 5B: what Bram sees from the ferry, and the ferry backing.

use tiny_skia::Transform;

use super::{Moment, Set, arm_to, on_picture, stand};
use crate::draw::ferry::{self, DECK, Trim};
use crate::draw::figure;
use crate::draw::landing::{Landing, bell_post, bollard, landing};
use crate::draw::nature::{Horizon, horizon, tree, tuft};
use crate::draw::water::{Bed, Water};
use crate::paper::shape::{poly, ridge, sheet, smooth};
use crate::paper::{Paper, Papers, Stage, at};
use crate::world::motion::{bump, ease, mix, mix2};
use crate::world::{BellState, Held, Pose, bell};

pub(super) fn build_seen(papers: &Papers) -> Set {
    let bed = Bed {
        top: 300.0,
        bottom: 486.0,
        strips: 6,
        wave: 104.0,
        seed: 103,
    };
    let far = Horizon {
        seed: 105,
        water: 250.0,
        zoom: 1.0,
        sun: None,
    };
    Set::new(papers, |stage| {
        horizon(stage, far);
        near_bank(stage);
    })
    .with_water(Water::new(papers, bed))
    .with_layer(papers, (680, 130), |stage| {
        let id = Transform::identity();
        stage.lift = 5.0;
        for x in [70.0, 245.0, 420.0, 595.0] {
            stage.piece(&sheet(x - 8.0, 14.0, x + 8.0, 150.0, 0.8), Paper::Iron, id);
        }
        stage.piece(&sheet(-20.0, 6.0, 700.0, 24.0, 1.0), Paper::Iron, id);
        stage.piece(&sheet(-20.0, 66.0, 700.0, 78.0, 1.0), Paper::Iron, id);
    })
}

/// The bank behind the landing, with the path she came by.
fn near_bank(stage: &mut Stage<'_>) {
    let id = Transform::identity();
    stage.lift = 3.0;
    stage.piece(
        &ridge(111, 640.0, 206.0, 340.0, 26.0, 150.0),
        Paper::GrassLight,
        id,
    );
    for (x, y, s) in [
        (60.0, 262.0, 1.0),
        (118.0, 268.0, 0.75),
        (560.0, 266.0, 1.1),
        (500.0, 262.0, 0.7),
    ] {
        tree(stage, at(x, y, s), x as u64);
    }
    stage.piece(
        &ridge(112, 640.0, 262.0, 340.0, 16.0, 120.0),
        Paper::Grass,
        id,
    );
    let path = smooth(&[
        (300.0, 330.0),
        (356.0, 300.0),
        (440.0, 282.0),
        (560.0, 272.0),
        (680.0, 270.0),
        (680.0, 282.0),
        (560.0, 286.0),
        (470.0, 300.0),
        (430.0, 330.0),
    ]);
    stage.piece(&path, Paper::Path, id);
    stage.piece(
        &ridge(113, 640.0, 300.0, 340.0, 8.0, 70.0),
        Paper::PlankDark,
        id,
    );
}

pub(super) fn play_seen(stage: &mut Stage<'_>, set: &Set, moment: &Moment) {
    let t = moment.time;
    set.water[0].behind(stage, moment.river(), 352.0);
    let plan = Landing {
        left: 176.0,
        right: 478.0,
        deck: 330.0,
        size: 0.95,
    };
    stage.lift = 2.6;
    let gangway = poly(&[
        (396.0, 322.0),
        (452.0, 322.0),
        (508.0, 292.0),
        (470.0, 290.0),
    ]);
    stage.piece(&gangway, Paper::Plank, Transform::identity());
    landing(stage, plan, Transform::identity());
    let ringing = bump(170.0, 300.0, 20.0, t);
    let turn = (t * core::f32::consts::PI / 18.5).cos();
    let state = BellState {
        swing: 20.0 * ringing * turn,
        clapper: 30.0 * ringing * turn,
        pull: ringing * (0.5 - 0.5 * turn),
        ..bell(0.0)
    };
    let post = (250.0, 328.0, 1.1);
    bell_post(stage, at(post.0, post.1, post.2), state);
    bollard(stage, at(446.0, 329.0, 0.75));
    let ida_at = stand(Transform::identity(), 330.0, 323.0, 1.3, -1.0);
    let mut pose = Pose::standing(t);
    let cord = (
        post.0 + (27.0 - 10.0 * state.pull) * post.2,
        post.1 + (-76.0 + 16.0 * state.pull) * post.2,
    );
    pose.far_arm = mix2((10.0, 10.0), arm_to(ida_at, &pose, cord), ringing);
    // Between pulls she holds the loaf up for him to see.
    let up = bump(196.0, 236.0, 12.0, t);
    pose.near_arm = mix2((26.0, 74.0), (198.0, 8.0 + 14.0 * (t * 0.6).sin()), up);
    pose.held = Held::Loaf;
    figure::ida(stage, ida_at, &moment.restless(pose, 2));
    set.water[0].before(stage, moment.river(), 352.0);
    stage.lay(
        &set.layers[0],
        -20,
        388 + (5.0 * (t * 0.1).sin()).round() as i32,
    );
}

pub(super) fn build_backs(papers: &Papers) -> Set {
    let bed = Bed {
        top: 206.0,
        bottom: 486.0,
        strips: 9,
        wave: 110.0,
        seed: 123,
    };
    let far = Horizon {
        seed: 75,
        water: 210.0,
        zoom: 1.0,
        sun: None,
    };
    Set::new(papers, |stage| horizon(stage, far))
        .with_water(Water::new(papers, bed))
        .with_layer(papers, (640, 480), |stage| {
            stage.lift = 4.0;
            stage.piece(
                &sheet(-20.0, 432.0, 660.0, 520.0, 1.0),
                Paper::PlankLight,
                Transform::identity(),
            );
            for index in 0..8 {
                let x = 20.0 + 86.0 * index as f32;
                let lean = (x - 320.0) * 0.12;
                let seam = poly(&[
                    (x, 433.0),
                    (x + 3.0, 433.0),
                    (x + lean + 4.0, 480.0),
                    (x + lean, 480.0),
                ]);
                stage.fill(&seam, [118, 86, 54, 230], Transform::identity());
            }
            bollard(stage, at(96.0, 462.0, 2.0));
            for index in 0..3_u64 {
                tuft(
                    stage,
                    at(586.0 + 24.0 * index as f32, 474.0, 2.0),
                    index,
                    Paper::Leaf,
                );
            }
        })
}

pub(super) fn play_backs(stage: &mut Stage<'_>, set: &Set, moment: &Moment) {
    let t = moment.time;
    let come = ease(-60.0, 270.0, t);
    let size = mix(0.8, 2.1, come * come);
    let line = mix(266.0, 382.0, come * come);
    let waterline = line + 9.0 * size;
    set.water[0].behind(stage, moment.river(), waterline);
    let boat = at(mix(392.0, 334.0, come), line + (t * 0.1).sin() * 1.5, size)
        .pre_concat(Transform::from_rotate((t * 0.08).sin() * 0.8));
    let trim = Trim {
        ramp: 60.0,
        smoke: Some(t),
        wash: 1.0,
        time: t,
    };
    let (x, y) = on_picture(boat, -22.0, DECK - 9.0);
    let mut pose = Pose::standing(t);
    let hail = bump(70.0, 200.0, 16.0, t);
    pose.near_arm = mix2(pose.near_arm, (150.0 + 16.0 * (t * 0.5).sin(), 16.0), hail);
    figure::bram(
        stage,
        stand(Transform::identity(), x, y, size * 0.8, -1.0),
        &moment.restless(pose, 1),
    );
    ferry::end_on(stage, boat, trim);
    set.water[0].before(stage, moment.river(), waterline);
    ferry::bow_wave(stage, boat, trim);
    set.lay_layer(stage, 0, 0, 0);
}
