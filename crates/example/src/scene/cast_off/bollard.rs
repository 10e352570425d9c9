//! Setup 3B: the rope comes off the bollard, close.

use tiny_skia::Transform;

use super::super::{Moment, Set};
use crate::draw::landing::{bollard as post, loop_half};
use crate::draw::nature::{Horizon, horizon};
use crate::draw::water::{Bed, Water, splash};
use crate::paper::shape::{curve, oval, poly, sheet, smooth};
use crate::paper::{Paper, Papers, Stage, at, turned};
use crate::world::motion::{ease, mix, mix2};
use crate::world::rope;

const POST: (f32, f32, f32) = (250.0, 404.0, 4.6);
const WET: (f32, f32) = (536.0, 408.0);

pub(in super::super) fn build(papers: &Papers) -> Set {
    let bed = Bed {
        top: 96.0,
        bottom: 520.0,
        strips: 6,
        wave: 250.0,
        seed: 63,
    };
    let far = Horizon {
        seed: 66,
        water: 100.0,
        zoom: 1.7,
        sun: None,
    };
    Set::new(papers, |stage| horizon(stage, far))
        .with_water(Water::new(papers, bed))
        .with_layer(papers, (440, 480), planks)
}

fn planks(stage: &mut Stage<'_>) {
    let id = Transform::identity();
    stage.lift = 4.0;
    let top = poly(&[
        (-20.0, 366.0),
        (372.0, 368.0),
        (416.0, 442.0),
        (-20.0, 446.0),
    ]);
    stage.piece(&top, Paper::PlankLight, id);
    for x in [40.0, 128.0, 216.0, 304.0] {
        let seam = poly(&[
            (x, 368.0),
            (x + 4.0, 368.0),
            (x + 46.0, 444.0),
            (x + 40.0, 444.0),
        ]);
        stage.fill(&seam, [110, 80, 50, 235], id);
        for (dx, y) in [(20.0, 380.0), (48.0, 430.0)] {
            stage.fill(&oval(x + dx, y, 3.6, 2.4), [70, 56, 46, 255], id);
        }
    }
    stage.piece(&sheet(-20.0, 440.0, 420.0, 520.0, 1.5), Paper::Plank, id);
}

pub(in super::super) fn play(stage: &mut Stage<'_>, set: &Set, moment: &Moment) {
    let t = moment.time;
    let state = rope(t);
    set.water[0].lay_all(stage, moment.river());
    set.lay_layer(stage, 0, 0, 0);
    let post_at = at(POST.0, POST.1, POST.2);
    let shade = oval(POST.0 + 26.0, POST.1 + 2.0, 84.0, 15.0);
    stage.fill(&shade, [40, 28, 30, 80], Transform::identity());
    if state.on_bollard {
        loop_half(stage, post_at, state.lift, false);
    }
    post(stage, post_at);
    if let Some(age) = state.splash_age {
        sunk_rope(stage, t);
        splash(stage, at(WET.0, WET.1, 4.0), age);
    } else {
        dry_rope(stage, post_at, t);
    }
    if t > 222.0 {
        hand(stage, t);
    }
}

/// Where the hand is: comes in, lifts, swings out, leaves.
fn hand_place(t: f32) -> (f32, f32) {
    let y = POST.1 + (-24.0 - 42.0 * rope(t).lift) * POST.2;
    let come = mix2(
        (720.0, 60.0),
        (POST.0 + 84.0, y + 10.0),
        ease(222.0, 256.0, t),
    );
    let out = mix2(come, (452.0, 170.0), ease(312.0, 334.0, t));
    mix2(out, (760.0, 40.0), ease(338.0, 372.0, t))
}

fn dry_rope(stage: &mut Stage<'_>, post_at: Transform, t: f32) {
    let state = rope(t);
    let id = Transform::identity();
    let away = (690.0, 214.0);
    if state.on_bollard {
        let y = POST.1 + (-24.0 - 42.0 * state.lift) * POST.2;
        let held = (POST.0 + 70.0, y);
        let slack = 70.0 - 40.0 * ease(230.0, 262.0, t) + 5.0 * (t * 0.11).sin();
        let middle = ((held.0 + away.0) / 2.0, held.1.max(away.1) + slack * 0.6);
        stage.cord(&curve(&[held, middle, away]), 21.0, Paper::Rope, id);
        loop_half(stage, post_at, state.lift, true);
        return;
    }
    let fall = state.fall.unwrap_or(0.0);
    let hand = hand_place(t.min(335.0));
    let (x, y) = (
        mix(hand.0, WET.0, fall),
        mix(hand.1, WET.1 - 40.0, fall * fall),
    );
    let swing = (t * 0.42).sin() * 12.0;
    let eye = curve(&[
        (x, y),
        (x - 60.0 + swing, y + 30.0),
        (x - 50.0 + swing, y + 104.0),
        (x + 8.0 + swing, y + 110.0),
        (x + 22.0, y + 40.0),
        (x, y),
    ]);
    stage.cord(&eye, 21.0, Paper::Rope, id);
    let middle = (
        (x + away.0) / 2.0,
        y.max(away.1) + 46.0 * (1.0 - fall * 0.4),
    );
    stage.cord(&curve(&[(x, y), middle, away]), 21.0, Paper::Rope, id);
}

/// Once wet: the rope runs from the water up to the boat, drawn away.
fn sunk_rope(stage: &mut Stage<'_>, t: f32) {
    let pull = ease(366.0, 440.0, t);
    let wet = (mix(WET.0 + 4.0, 690.0, pull), WET.1 + 6.0);
    let up = (mix(700.0, 800.0, pull), 190.0);
    let middle = ((wet.0 + up.0) / 2.0 + 8.0, 312.0);
    stage.cord(
        &curve(&[wet, middle, up]),
        21.0,
        Paper::Rope,
        Transform::identity(),
    );
}

fn hand(stage: &mut Stage<'_>, t: f32) {
    let (x, y) = hand_place(t);
    let open = ease(333.0, 338.0, t);
    let base = turned(
        Transform::identity(),
        x,
        y,
        -26.0 + 10.0 * ease(262.0, 312.0, t),
    );
    let sleeve = poly(&[(52.0, -44.0), (420.0, -96.0), (430.0, 60.0), (56.0, 44.0)]);
    stage.piece(&sleeve, Paper::Coat, base);
    stage.piece(
        &poly(&[(44.0, -50.0), (84.0, -54.0), (88.0, 52.0), (48.0, 50.0)]),
        Paper::CoatShade,
        base,
    );
    for by in [-26.0, 22.0] {
        stage.piece(&oval(68.0, by, 8.0, 8.0), Paper::Brass, base);
    }
    let palm = smooth(&[
        (50.0, -34.0),
        (10.0, -40.0),
        (-22.0, -22.0),
        (-24.0, 16.0),
        (8.0, 36.0),
        (50.0, 34.0),
    ]);
    stage.piece(&palm, Paper::Skin, base);
    for finger in 0..4 {
        let fy = -30.0 + 19.0 * finger as f32;
        let curl = turned(base, -10.0, fy, -30.0 * open + 6.0 * finger as f32);
        let shape = smooth(&[
            (18.0, -9.0),
            (-20.0, -9.0),
            (-33.0, 0.0),
            (-20.0, 9.0),
            (18.0, 9.0),
        ]);
        stage.piece(&shape, Paper::Skin, curl);
    }
    let thumb = turned(base, 18.0, 30.0, 150.0 + 26.0 * open);
    stage.piece(
        &smooth(&[
            (-8.0, -10.0),
            (34.0, -9.0),
            (44.0, 0.0),
            (34.0, 10.0),
            (-8.0, 10.0),
        ]),
        Paper::SkinWarm,
        thumb,
    );
}
