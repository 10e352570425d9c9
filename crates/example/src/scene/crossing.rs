//! Setup 7: the crossing, from far off, late in the day.

use tiny_skia::Transform;

use super::{Moment, Set, on_picture, stand};
use crate::draw::ferry::{self, DECK, Trim};
use crate::draw::figure;
use crate::draw::landing::{Landing, bell_post, landing};
use crate::draw::nature::{Horizon, gull, horizon, tuft};
use crate::draw::water::{Bed, Water};
use crate::paper::shape::{ridge, smooth};
use crate::paper::{Paper, Papers, Stage, at};
use crate::world::motion::{bump, mix2};
use crate::world::{Held, Pose, bell};

pub(super) fn build(papers: &Papers) -> Set {
    let bed = Bed {
        top: 224.0,
        bottom: 486.0,
        strips: 9,
        wave: 88.0,
        seed: 183,
    };
    let far = Horizon {
        seed: 185,
        water: 228.0,
        zoom: 1.1,
        sun: Some((432.0, 98.0)),
    };
    Set::new(papers, |stage| horizon(stage, far))
        .with_water(Water::new(papers, bed))
        .with_layer(papers, (640, 480), |stage| {
            let id = Transform::identity();
            stage.lift = 3.0;
            let plan = Landing {
                left: -20.0,
                right: 92.0,
                deck: 330.0,
                size: 0.7,
            };
            landing(stage, plan, id);
            bell_post(stage, at(30.0, 329.0, 0.6), bell(0.0));
            stage.piece(
                &ridge(186, 640.0, 424.0, 520.0, 30.0, 130.0),
                Paper::Grass,
                id,
            );
            for index in 0..16_u64 {
                let x = 14.0 + 41.0 * index as f32;
                tuft(
                    stage,
                    at(x, 462.0, 1.9),
                    index + 3,
                    if index % 2 == 0 {
                        Paper::Leaf
                    } else {
                        Paper::HillDark
                    },
                );
            }
        })
}

pub(super) fn play(stage: &mut Stage<'_>, set: &Set, moment: &Moment) {
    let t = moment.time;
    set.water[0].behind(stage, moment.river(), 340.0);
    let x = 128.0 + t * 0.74;
    let boat = at(x, 338.0 + 1.2 * (t * 0.1).sin(), 0.98)
        .pre_concat(Transform::from_rotate((t * 0.07).sin() * 0.5));
    let trim = Trim {
        ramp: 42.0,
        smoke: Some(t),
        wash: -1.0,
        time: t,
    };
    ferry::side(stage, boat, trim);
    people(stage, boat, moment);
    ferry::rail(stage, boat, -80.0, 8.0);
    set.water[0].before(stage, moment.river(), 340.0);
    glitter(stage, t);
    set.lay_layer(stage, 0, 0, 0);
    for n in 0..3 {
        let n = n as f32;
        let gx = x - 120.0 + 74.0 * n + 40.0 * (t * 0.03 + n).sin();
        let gy = 170.0 + 26.0 * n + 18.0 * (t * 0.05 + n * 2.1).sin();
        gull(
            stage,
            at(gx, gy, 0.85 - 0.1 * n),
            (t * 0.55 + n * 2.0).sin(),
        );
    }
}

/// Both at the rail, eating.
fn people(stage: &mut Stage<'_>, boat: Transform, moment: &Moment) {
    let t = moment.time;
    let id = Transform::identity();
    let eat = |shift: f32| bump(10.0, 34.0, 12.0, (t + shift).rem_euclid(96.0));
    let (x, y) = on_picture(boat, -58.0, DECK);
    let mut ida = Pose::standing(t);
    ida.held = Held::HalfLoaf;
    ida.near_arm = mix2((30.0, 60.0), (60.0, 118.0), eat(0.0));
    figure::ida(stage, stand(id, x, y, 0.8, 1.0), &moment.restless(ida, 2));
    let (x, y) = on_picture(boat, -24.0, DECK);
    let mut bram = Pose::standing(t + 30.0);
    bram.held = Held::HalfLoaf;
    bram.near_arm = mix2((30.0, 60.0), (60.0, 118.0), eat(44.0));
    figure::bram(
        stage,
        stand(id, x, y, 0.84, -1.0),
        &moment.restless(bram, 1),
    );
}

/// Slips of sun-coloured paper on the water.
fn glitter(stage: &mut Stage<'_>, t: f32) {
    for index in 0..11_u64 {
        let n = index as f32;
        let y = 262.0 + n * 13.0;
        let wide = (8.0 + n * 2.6) * (0.55 + 0.45 * (t * 0.16 + n * 2.4).sin());
        let x = 432.0 + 10.0 * (t * 0.05 + n * 1.3).sin();
        if wide > 4.0 {
            let slip = smooth(&[(x - wide, y), (x, y - 2.6), (x + wide, y), (x, y + 2.6)]);
            stage.fill(&slip, [244, 214, 150, 150], Transform::identity());
        }
    }
}
