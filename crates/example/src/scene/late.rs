//! Setup 4: Ida comes too late, sees it go, rings the bell.

use tiny_skia::Transform;

use super::{Moment, Set, arm_to, on_picture, stand};
use crate::draw::ferry::{self, DECK, Trim};
use crate::draw::figure;
use crate::draw::landing::{Landing, bell_post, bollard, landing};
use crate::draw::nature::{Horizon, bank, horizon, tuft};
use crate::draw::water::{Bed, Water};
use crate::paper::{Paper, Papers, Stage, at};
use crate::world::motion::{bump, mix2};
use crate::world::{Pose, bell, ida_at_landing};

/// Foot of the bell post. Unit: pixels.
const POST: (f32, f32) = (146.0, 366.0);

pub(super) fn build(papers: &Papers) -> Set {
    let bed = Bed {
        top: 204.0,
        bottom: 486.0,
        strips: 9,
        wave: 98.0,
        seed: 73,
    };
    let far = Horizon {
        seed: 75,
        water: 208.0,
        zoom: 0.95,
        sun: None,
    };
    Set::new(papers, |stage| horizon(stage, far))
        .with_water(Water::new(papers, bed))
        .with_layer(papers, (400, 480), |stage| {
            stage.lift = 3.0;
            let plan = Landing {
                left: -20.0,
                right: 344.0,
                deck: 366.0,
                size: 1.0,
            };
            landing(stage, plan, Transform::identity());
            bollard(stage, at(322.0, 366.0, 0.72));
            stage.piece(&bank(430.0), Paper::Grass, Transform::identity());
            for index in 0..4_u64 {
                let x = 8.0 + 22.0 * index as f32;
                tuft(stage, at(x, 450.0, 1.5), index, Paper::Leaf);
            }
        })
}

pub(super) fn play(stage: &mut Stage<'_>, set: &Set, moment: &Moment) {
    let t = moment.time;
    set.water[0].behind(stage, moment.river(), 312.0);
    going_boat(stage, moment);
    set.water[0].before(stage, moment.river(), 312.0);
    set.lay_layer(stage, 0, 0, 0);
    let state = bell(t);
    bell_post(stage, at(POST.0, POST.1, 1.0), state);
    let (place, facing, mut pose) = ida_at_landing(t);
    let ida_at = stand(
        Transform::identity(),
        62.0 + 262.0 * place,
        361.0,
        1.16,
        facing,
    );
    let on_cord = bump(398.0, 500.0, 26.0, t);
    if on_cord > 0.0 {
        let cord = (
            POST.0 + 27.0 - 10.0 * state.pull,
            POST.1 - 76.0 + 16.0 * state.pull,
        );
        pose.far_arm = mix2(pose.far_arm, arm_to(ida_at, &pose, cord), on_cord);
    }
    figure::ida(stage, ida_at, &moment.restless(pose, 2));
}

/// The ferry draws away over the river.
fn going_boat(stage: &mut Stage<'_>, moment: &Moment) {
    let t = moment.time;
    let gone = 230.0 * (1.0 - (-(t.max(0.0)) / 420.0).exp());
    let x = 404.0 + gone * 0.72;
    let y = 306.0 - gone * 0.22;
    let size = 0.86 - gone * 0.0011;
    let boat = at(x, y + (t * 0.09).sin(), size)
        .pre_concat(Transform::from_rotate((t * 0.07).sin() * 0.5));
    let trim = Trim {
        ramp: 46.0,
        smoke: Some(t),
        wash: -1.0,
        time: t,
    };
    ferry::side(stage, boat, trim);
    let (bx, by) = on_picture(boat, -46.0, DECK);
    figure::bram(
        stage,
        stand(Transform::identity(), bx, by, size * 0.8, 1.0),
        &moment.restless(Pose::standing(t), 1),
    );
    ferry::rail(stage, boat, -80.0, 8.0);
}
