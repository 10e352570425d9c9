//! Setup 4B: the landing bell and the hand that rings it.

use tiny_skia::Transform;

use super::{Moment, Set};
use crate::draw::landing::bell_body;
use crate::draw::nature::{Horizon, horizon};
use crate::draw::water::{Bed, Water};
use crate::paper::shape::{curve, oval, poly, sheet, smooth};
use crate::paper::{Paper, Papers, Stage, turned};
use crate::world::{BellState, bell};

/// Where the bell hangs, and its size.
const HANG: (f32, f32, f32) = (352.0, 96.0, 6.8);

pub(super) fn build(papers: &Papers) -> Set {
    let bed = Bed {
        top: 330.0,
        bottom: 500.0,
        strips: 4,
        wave: 170.0,
        seed: 83,
    };
    let far = Horizon {
        seed: 85,
        water: 334.0,
        zoom: 1.7,
        sun: None,
    };
    Set::new(papers, |stage| horizon(stage, far))
        .with_water(Water::new(papers, bed))
        .with_layer(papers, (640, 480), frame_of_bell)
}

fn frame_of_bell(stage: &mut Stage<'_>) {
    let id = Transform::identity();
    stage.lift = 5.0;
    stage.piece(&sheet(112.0, 30.0, 170.0, 500.0, 2.0), Paper::Timber, id);
    stage.line(
        &curve(&[(132.0, 120.0), (136.0, 300.0), (130.0, 470.0)]),
        2.0,
        [82, 58, 40, 220],
        id,
    );
    stage.line(
        &curve(&[(152.0, 90.0), (148.0, 240.0), (154.0, 420.0)]),
        1.6,
        [82, 58, 40, 200],
        id,
    );
    stage.piece(
        &poly(&[
            (160.0, 200.0),
            (262.0, 92.0),
            (286.0, 104.0),
            (166.0, 236.0),
        ]),
        Paper::Timber,
        id,
    );
    stage.piece(&sheet(60.0, 52.0, 560.0, 98.0, 2.0), Paper::Timber, id);
    stage.piece(
        &poly(&[(-20.0, 64.0), (60.0, -20.0), (640.0, -20.0), (600.0, 64.0)]),
        Paper::Roof,
        id,
    );
    for x in [40.0, 150.0, 260.0, 370.0, 480.0, 590.0] {
        stage.line(
            &curve(&[(x, 60.0), (x + 16.0, -10.0)]),
            2.6,
            [150, 64, 42, 210],
            id,
        );
    }
}

pub(super) fn play(stage: &mut Stage<'_>, set: &Set, moment: &Moment) {
    let t = moment.time;
    let state = bell(t);
    set.water[0].lay_all(stage, moment.river());
    let base = Transform::identity();
    stage.lift = 5.0;
    let clapper = turned(base, HANG.0, HANG.1, state.clapper * 0.8).pre_scale(HANG.2, HANG.2);
    stage.piece(&sheet(-0.8, 10.0, 0.8, 32.0, 0.0), Paper::Iron, clapper);
    stage.piece(&oval(0.0, 33.5, 3.4, 3.4), Paper::Iron, clapper);
    let hang = turned(base, HANG.0, HANG.1, state.swing * 0.8).pre_scale(HANG.2, HANG.2);
    bell_body(stage, hang);
    set.lay_layer(stage, 0, 0, 0);
    ringing(stage, &state);
    hand_on_cord(stage, clapper, &state);
}

/// Arcs of light paper that stand about the bell for a moment at each stroke.
fn ringing(stage: &mut Stage<'_>, state: &BellState) {
    let Some(age) = state.since_stroke.filter(|age| *age < 9.0) else {
        return;
    };
    let cover = (235.0 * (1.0 - age / 9.0)) as u8;
    for side in [-1.0, 1.0] {
        for ring in 0..3 {
            let r = 138.0 + 22.0 * ring as f32 + age * 4.0;
            let arc: Vec<_> = (-2..=2)
                .map(|step| {
                    let turn = 0.16 * step as f32;
                    (
                        HANG.0 + side * r * turn.cos(),
                        HANG.1 + 130.0 + r * turn.sin(),
                    )
                })
                .collect();
            stage.line(
                &curve(&arc),
                5.0 - ring as f32,
                [246, 232, 196, cover],
                Transform::identity(),
            );
        }
    }
}

fn hand_on_cord(stage: &mut Stage<'_>, clapper: Transform, state: &BellState) {
    let ball = super::on_picture(clapper, 0.0, 37.0);
    let hand = (392.0 + 26.0 * state.pull, 404.0 + 30.0 * state.pull);
    let cord = curve(&[
        ball,
        ((ball.0 + hand.0) / 2.0 + 6.0, (ball.1 + hand.1) / 2.0 + 8.0),
        hand,
        (hand.0 + 4.0, hand.1 + 60.0),
    ]);
    stage.cord(&cord, 9.0, Paper::Rope, Transform::identity());
    let base = turned(
        Transform::identity(),
        hand.0,
        hand.1,
        4.0 - 10.0 * state.pull,
    );
    stage.piece(
        &poly(&[(10.0, 26.0), (70.0, 2.0), (300.0, 120.0), (150.0, 220.0)]),
        Paper::Mustard,
        base,
    );
    stage.piece(
        &poly(&[(6.0, 34.0), (58.0, -6.0), (84.0, 14.0), (30.0, 56.0)]),
        Paper::MustardShade,
        base,
    );
    let fist = smooth(&[
        (-24.0, -22.0),
        (6.0, -30.0),
        (34.0, -14.0),
        (44.0, 10.0),
        (20.0, 34.0),
        (-14.0, 26.0),
        (-28.0, 4.0),
    ]);
    stage.piece(&fist, Paper::Skin, base);
    for finger in 0..4 {
        let fy = -20.0 + 13.5 * finger as f32;
        let shape = smooth(&[
            (6.0, fy - 6.5),
            (-22.0, fy - 6.0),
            (-30.0, fy),
            (-22.0, fy + 6.0),
            (6.0, fy + 6.5),
        ]);
        stage.piece(&shape, Paper::Skin, base);
    }
    stage.piece(
        &smooth(&[
            (14.0, -24.0),
            (-6.0, -34.0),
            (-26.0, -30.0),
            (-22.0, -20.0),
            (6.0, -14.0),
        ]),
        Paper::SkinWarm,
        base,
    );
}
