//! Setup 1: the landing, early; the ferry lies at rest.

use tiny_skia::Transform;

use super::{Moment, Set, stand};
use crate::draw::ferry::{self, DECK, Trim};
use crate::draw::figure;
use crate::draw::landing::{Landing, bell_post, bollard, landing};
use crate::draw::nature::{Horizon, bank, gull, horizon, tuft};
use crate::draw::water::{Bed, Water};
use crate::paper::{Paper, Papers, Stage, at};
use crate::world::{Pose, bell};

pub(super) fn build(papers: &Papers) -> Set {
    let bed = Bed {
        top: 232.0,
        bottom: 486.0,
        strips: 8,
        wave: 92.0,
        seed: 3,
    };
    Set::new(papers, |stage| {
        horizon(
            stage,
            Horizon {
                seed: 4,
                water: 236.0,
                zoom: 1.0,
                sun: Some((500.0, 92.0)),
            },
        );
    })
    .with_water(Water::new(papers, bed))
    .with_layer(papers, (330, 480), front)
}

/// Landing, post and bank, laid over the water.
fn front(stage: &mut Stage<'_>) {
    let id = Transform::identity();
    stage.lift = 3.0;
    let plan = Landing {
        left: -20.0,
        right: 262.0,
        deck: 344.0,
        size: 1.0,
    };
    landing(stage, plan, id);
    bell_post(stage, at(92.0, 344.0, 0.9), bell(0.0));
    bollard(stage, at(226.0, 345.0, 0.72));
    stage.piece(&bank(414.0), Paper::Grass, Transform::identity());
    for index in 0..5_u64 {
        tuft(
            stage,
            at(8.0 + 27.0 * index as f32, 428.0 + 9.0 * index as f32, 1.5),
            index,
            Paper::Leaf,
        );
    }
}

pub(super) fn play(stage: &mut Stage<'_>, set: &Set, moment: &Moment) {
    let t = moment.time;
    let id = Transform::identity();
    set.water[0].behind(stage, moment.river(), 378.0);
    let heave = (t * 0.1).sin() * 1.5;
    let boat =
        at(408.0, 368.0 + heave, 1.18).pre_concat(Transform::from_rotate((t * 0.07).sin() * 0.5));
    let trim = Trim {
        ramp: 4.0,
        smoke: None,
        wash: 0.0,
        time: t,
    };
    ferry::side(stage, boat, trim);
    let (x, y) = super::on_picture(boat, -38.0, DECK);
    let mut pose = Pose::standing(t);
    // He polishes the rail.
    pose.near_arm = (34.0 + 12.0 * (t * 0.42).sin(), 44.0);
    figure::bram(
        stage,
        stand(id, x, y, 0.92, -1.0),
        &moment.restless(pose, 1),
    );
    ferry::rail(stage, boat, -80.0, 8.0);
    set.water[0].before(stage, moment.river(), 378.0);
    set.lay_layer(stage, 0, 0, 0);
    gulls(stage, t);
}

fn gulls(stage: &mut Stage<'_>, t: f32) {
    for index in 0..3 {
        let n = index as f32;
        let x = (t * (0.9 + 0.25 * n) + 260.0 * n).rem_euclid(780.0) - 60.0;
        let y = 120.0 + 34.0 * n + 16.0 * (t * 0.045 + n * 2.0).sin();
        let beat = (t * 0.5 + n * 1.9).sin() * (0.45 + 0.55 * (t * 0.05 + n).sin().max(0.0));
        gull(stage, at(x, y, 0.95 - 0.16 * n), beat);
    }
}
