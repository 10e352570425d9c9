//! Setups 3 and 3A: Bram waits, lifts the rope, the ferry leaves. One world,
//! seen whole and from nearer by.

pub(super) mod bollard;

use tiny_skia::Transform;

use super::{Moment, Set, arm_to, on_picture, stand};
use crate::draw::ferry::{self, DECK, Trim};
use crate::draw::figure;
use crate::draw::landing::{Landing, bollard as post, landing, loop_half};
use crate::draw::nature::{Horizon, gull, horizon};
use crate::draw::water::{Bed, Water, splash};
use crate::paper::shape::curve;
use crate::paper::{Paper, Papers, Stage, at};
use crate::world::motion::{ease, mix, mix2};
use crate::world::{RopeState, bram_casts_off, ferry_leaving, rope};

/// Where the bollard stands, and its size. Unit: pixels of the master shot.
const POST: (f32, f32, f32) = (198.0, 352.0, 0.95);
/// Size of the ferry and its place at rest.
const BOAT: (f32, f32, f32) = (419.0, 374.0, 1.75);
/// Where the rope meets the water.
const WET: (f32, f32) = (236.0, 392.0);

pub(super) fn build(papers: &Papers) -> Set {
    let bed = Bed {
        top: 214.0,
        bottom: 486.0,
        strips: 8,
        wave: 104.0,
        seed: 43,
    };
    let far = Horizon {
        seed: 44,
        water: 218.0,
        zoom: 1.05,
        sun: None,
    };
    Set::new(papers, |stage| horizon(stage, far))
        .with_water(Water::new(papers, bed))
        .with_layer(papers, (250, 480), |stage| {
            dock(stage, Transform::identity())
        })
}

pub(super) fn build_near(papers: &Papers) -> Set {
    let bed = Bed {
        top: 190.0,
        bottom: 500.0,
        strips: 7,
        wave: 170.0,
        seed: 53,
    };
    let far = Horizon {
        seed: 44,
        water: 194.0,
        zoom: 1.6,
        sun: None,
    };
    Set::new(papers, |stage| horizon(stage, far))
        .with_water(Water::new(papers, bed))
        .with_layer(papers, (400, 480), |stage| dock(stage, near_camera()))
}

/// The camera of 3A: twice as near, on Bram and the bollard.
fn near_camera() -> Transform {
    Transform::from_translate(-148.0, -178.0)
        .post_scale(2.0, 2.0)
        .post_translate(80.0, 50.0)
}

fn dock(stage: &mut Stage<'_>, cam: Transform) {
    stage.lift = 3.0;
    let plan = Landing {
        left: -20.0,
        right: 226.0,
        deck: 356.0,
        size: 1.0,
    };
    landing(stage, plan, cam);
}

pub(super) fn play(stage: &mut Stage<'_>, set: &Set, moment: &Moment) {
    scene(stage, set, moment, Transform::identity(), 396.0);
}

pub(super) fn play_near(stage: &mut Stage<'_>, set: &Set, moment: &Moment) {
    scene(stage, set, moment, near_camera(), 478.0);
}

fn scene(stage: &mut Stage<'_>, set: &Set, moment: &Moment, cam: Transform, waterline: f32) {
    let t = moment.time;
    let ferry = ferry_leaving(t);
    let state = rope(t);
    set.water[0].behind(stage, moment.river(), waterline);
    let boat = cam
        .pre_concat(at(BOAT.0 + ferry.away, BOAT.1 + ferry.heave, BOAT.2))
        .pre_concat(Transform::from_rotate(ferry.roll));
    let trim = Trim {
        ramp: mix(-3.0, 46.0, ease(340.0, 372.0, t)),
        smoke: ferry.under_way.then_some(t),
        wash: -ease(380.0, 420.0, t),
        time: t,
    };
    ferry::side(stage, boat, trim);
    set.lay_layer(stage, 0, 0, 0);
    let post_at = cam.pre_concat(at(POST.0, POST.1, POST.2));
    if state.on_bollard {
        loop_half(stage, post_at, state.lift, false);
    }
    post(stage, post_at);
    let hand = bram(stage, cam, boat, moment);
    ferry::rail(stage, boat, -66.0, 6.0);
    draw_rope(stage, (cam, boat, post_at), &state, (t, hand));
    set.water[0].before(stage, moment.river(), waterline);
    if let Some(age) = state.splash_age {
        splash(stage, cam.pre_concat(at(WET.0, WET.1 + 4.0, 1.1)), age);
    }
    let (x, y) = (t * 1.2 - 150.0, 96.0 + 14.0 * (t * 0.05).sin());
    gull(stage, at(x, y, 1.0), (t * 0.5).sin());
}

/// Lays Bram; gives the place of the hand that works the rope.
fn bram(stage: &mut Stage<'_>, cam: Transform, boat: Transform, moment: &Moment) -> (f32, f32) {
    let t = moment.time;
    let (mut pose, on_rope) = bram_casts_off(t);
    let (x, y) = on_picture(boat, -88.0, DECK);
    let size = (cam.sx * cam.sx + cam.ky * cam.ky).sqrt() * 1.5;
    let figure_at = stand(Transform::identity(), x, y, size, -1.0);
    let target = hand_target(cam, t);
    if on_rope > 0.001 {
        pose.near_arm = mix2(pose.near_arm, arm_to(figure_at, &pose, target), on_rope);
    }
    figure::bram(stage, figure_at, &moment.restless(pose, 1));
    target
}

/// Where the working hand goes: to the loop, up and off with it, out, away.
fn hand_target(cam: Transform, t: f32) -> (f32, f32) {
    let lift = rope(t).lift;
    let on_post = (POST.0 + 15.0, POST.1 - (22.0 + 42.0 * lift) * POST.2);
    let out = mix2(on_post, (222.0, 306.0), ease(312.0, 334.0, t));
    on_picture(cam, out.0, out.1)
}

fn draw_rope(
    stage: &mut Stage<'_>,
    (cam, boat, post_at): (Transform, Transform, Transform),
    state: &RopeState,
    (t, hand): (f32, (f32, f32)),
) {
    let size = (cam.sx * cam.sx + cam.ky * cam.ky).sqrt();
    let cleat = on_picture(boat, -73.0, DECK + 1.0);
    let id = Transform::identity();
    let sag = |a: (f32, f32), b: (f32, f32), by: f32| {
        curve(&[a, ((a.0 + b.0) / 2.0, a.1.max(b.1) + by * size), b])
    };
    if state.on_bollard {
        let held = on_picture(post_at, 14.0, -24.0 - 42.0 * state.lift);
        let slack = 9.0 - 3.0 * ease(200.0, 250.0, t) + 2.0 * (t * 0.11).sin();
        stage.cord(&sag(held, cleat, slack), 4.2 * size, Paper::Rope, id);
        loop_half(stage, post_at, state.lift, true);
    } else if let Some(age) = state.splash_age {
        // The end drags in the water until Bram has it in.
        let drawn = ease(380.0, 520.0, t);
        let wet = on_picture(
            cam,
            mix(WET.0, WET.0 + 40.0, (age / 40.0).min(1.0)),
            WET.1 + 10.0,
        );
        let end = mix2(wet, (cleat.0 - 6.0 * size, cleat.1 + 34.0 * size), drawn);
        stage.cord(&sag(end, cleat, -6.0), 4.2 * size, Paper::Rope, id);
    } else {
        let fall = state.fall.unwrap_or(0.0);
        let wet = on_picture(cam, WET.0, WET.1);
        let drop = fall * fall;
        let end = (mix(hand.0, wet.0, fall), mix(hand.1, wet.1, drop));
        loose_end(stage, end, size, t);
        stage.cord(
            &sag(end, cleat, 12.0 * (1.0 - fall)),
            4.2 * size,
            Paper::Rope,
            id,
        );
    }
}

/// The open loop in the air.
fn loose_end(stage: &mut Stage<'_>, end: (f32, f32), size: f32, t: f32) {
    let swing = (t * 0.5).sin() * 4.0;
    let (x, y) = end;
    let s = size;
    let eye = curve(&[
        (x, y),
        (x - (13.0 - swing) * s, y + 8.0 * s),
        (x - (9.0 - swing) * s, y + 22.0 * s),
        (x + (3.0 + swing) * s, y + 21.0 * s),
        (x + 4.0 * s, y + 7.0 * s),
        (x, y),
    ]);
    stage.cord(&eye, 4.2 * s, Paper::Rope, Transform::identity());
}
