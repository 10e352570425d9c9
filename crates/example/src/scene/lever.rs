//! Setup 5: on the ferry, midstream. Bram hears the bell, turns, pulls the lever.

use tiny_skia::Transform;

use super::{Moment, Set, arm_to, on_picture, stand};
use crate::draw::figure;
use crate::draw::nature::{Horizon, horizon};
use crate::draw::water::{Bed, Water};
use crate::paper::shape::{curve, oval, poly, sheet, smooth};
use crate::paper::{Paper, Papers, Stage, turned};
use crate::world::motion::{bump, ease, mix2};
use crate::world::{bram_at_lever, lever, lever_is_home};

/// Foot of the lever and its length. Unit: pixels.
const FOOT: (f32, f32, f32) = (452.0, 400.0, 178.0);

pub(super) fn build(papers: &Papers) -> Set {
    let bed = Bed {
        top: 226.0,
        bottom: 480.0,
        strips: 6,
        wave: 150.0,
        seed: 93,
    };
    let far = Horizon {
        seed: 95,
        water: 230.0,
        zoom: 1.4,
        sun: None,
    };
    Set::new(papers, |stage| horizon(stage, far))
        .with_water(Water::new(papers, bed))
        .with_layer(papers, (660, 500), boat)
}

/// Rail, deck and the wall of the cabin.
fn boat(stage: &mut Stage<'_>) {
    let id = Transform::identity();
    stage.lift = 3.5;
    for x in [30.0, 150.0, 270.0, 390.0] {
        stage.piece(&sheet(x - 5.0, 292.0, x + 5.0, 452.0, 0.6), Paper::Iron, id);
    }
    for y in [292.0, 350.0] {
        stage.piece(&sheet(-20.0, y - 5.0, 560.0, y + 5.0, 0.8), Paper::Iron, id);
    }
    stage.piece(
        &sheet(-20.0, 420.0, 680.0, 520.0, 1.0),
        Paper::PlankLight,
        id,
    );
    for y in [436.0, 456.0, 478.0] {
        stage.line(
            &curve(&[(-20.0, y), (660.0, y + 2.0)]),
            2.4,
            [140, 106, 66, 220],
            id,
        );
    }
    stage.piece(&sheet(540.0, 84.0, 680.0, 450.0, 1.5), Paper::Cabin, id);
    stage.piece(&sheet(566.0, 150.0, 680.0, 268.0, 1.0), Paper::Cream, id);
    stage.sheet(&sheet(576.0, 160.0, 680.0, 258.0, 1.0), Paper::Glass, id);
    stage.line(
        &curve(&[(590.0, 250.0), (626.0, 168.0)]),
        7.0,
        [190, 214, 210, 130],
        id,
    );
    stage.piece(
        &poly(&[(514.0, 92.0), (532.0, 52.0), (690.0, 52.0), (690.0, 94.0)]),
        Paper::Roof,
        id,
    );
    stage.piece(&oval(500.0, 320.0, 35.0, 35.0), Paper::Cream, id);
    stage.sheet(&oval(500.0, 320.0, 18.0, 18.0), Paper::River2, id);
    for turn in [20.0, 110.0, 200.0, 290.0] {
        let part = turned(id, 500.0, 320.0, turn);
        stage.sheet(&sheet(18.0, -7.0, 35.0, 7.0, 0.0), Paper::HullBand, part);
    }
}

pub(super) fn play(stage: &mut Stage<'_>, set: &Set, moment: &Moment) {
    let t = moment.time;
    set.water[0].lay_all(stage, moment.river() * 1.25);
    // The boat rocks; the camera stands on it, so the river goes up and down.
    stage.lay(
        &set.layers[0],
        -10,
        (2.0 * (t * 0.09).sin()).round() as i32 - 6,
    );
    let pulled = lever(t);
    let knock = if lever_is_home(t) {
        5.0 * (-(t - 275.0) / 5.0).exp() * (t * 2.2).cos()
    } else {
        0.0
    };
    let arm = turned(
        Transform::identity(),
        FOOT.0,
        FOOT.1,
        27.0 - 54.0 * pulled + knock,
    );
    let knob = on_picture(arm, 0.0, -FOOT.2);
    stage.lift = 3.5;
    draw_lever(stage, arm);
    let (facing, mut pose) = bram_at_lever(t);
    let swing = ease(128.0, 140.0, t) * (1.0 - ease(226.0, 238.0, t));
    let turn = 1.0 - 2.0 * swing;
    let bram_at = stand(
        Transform::identity(),
        296.0,
        510.0,
        3.9,
        if facing < 0.0 {
            turn.min(-0.12)
        } else {
            turn.max(0.12)
        },
    );
    let on_lever = bump(246.0, 420.0, 12.0, t);
    if on_lever > 0.0 {
        pose.near_arm = mix2(pose.near_arm, arm_to(bram_at, &pose, knob), on_lever);
    }
    figure::bram(stage, bram_at, &moment.restless(pose, 1));
}

fn draw_lever(stage: &mut Stage<'_>, arm: Transform) {
    let id = Transform::identity();
    stage.piece(&sheet(-6.0, -FOOT.2, 6.0, 12.0, 0.5), Paper::Iron, arm);
    stage.piece(&oval(0.0, -FOOT.2, 16.0, 16.0), Paper::Berry, arm);
    stage.sheet(&oval(-5.0, -FOOT.2 - 5.0, 4.0, 4.0), Paper::Cream, arm);
    let quadrant = smooth(&[
        (FOOT.0 - 62.0, FOOT.1 + 8.0),
        (FOOT.0 - 46.0, FOOT.1 - 44.0),
        (FOOT.0, FOOT.1 - 62.0),
        (FOOT.0 + 46.0, FOOT.1 - 44.0),
        (FOOT.0 + 62.0, FOOT.1 + 8.0),
        (FOOT.0, FOOT.1 + 18.0),
    ]);
    stage.piece(&quadrant, Paper::Brass, id);
    stage.piece(
        &poly(&[
            (FOOT.0 - 36.0, FOOT.1),
            (FOOT.0 + 36.0, FOOT.1),
            (FOOT.0 + 46.0, 500.0),
            (FOOT.0 - 46.0, 500.0),
        ]),
        Paper::Iron,
        id,
    );
    for step in -2..=2 {
        let tick = turned(id, FOOT.0, FOOT.1, 20.0 * step as f32);
        stage.sheet(&sheet(-2.0, -56.0, 2.0, -42.0, 0.0), Paper::BrassDark, tick);
    }
    stage.fastener(FOOT.0, FOOT.1, 9.0, id);
}
