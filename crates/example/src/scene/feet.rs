//! Setup 2B: her feet on the boards of the landing.

use tiny_skia::Transform;

use super::run::wrapped;
use super::{Moment, Set, stand};
use crate::draw::figure;
use crate::draw::nature::tuft;
use crate::draw::water::{Bed, Water};
use crate::noise::unit;
use crate::paper::shape::{curve, oval, poly, ridge, sheet};
use crate::paper::{Paper, Papers, Stage, at};
use crate::world::ida_runs;

pub(super) fn build(papers: &Papers) -> Set {
    let bed = Bed {
        top: 150.0,
        bottom: 330.0,
        strips: 4,
        wave: 150.0,
        seed: 33,
    };
    Set::new(papers, |stage| {
        let id = Transform::identity();
        stage.lift = 3.5;
        stage.sheet(&sheet(-60.0, -10.0, 720.0, 490.0, 0.0), Paper::HillMid, id);
        stage.piece(
            &ridge(91, 640.0, 60.0, 300.0, 40.0, 160.0),
            Paper::HillNear,
            id,
        );
        stage.piece(
            &ridge(92, 640.0, 116.0, 300.0, 20.0, 110.0),
            Paper::HillDark,
            id,
        );
    })
    .with_water(Water::new(papers, bed))
}

pub(super) fn play(stage: &mut Stage<'_>, set: &Set, moment: &Moment) {
    let t = moment.time;
    set.water[0].lay_all(stage, moment.river());
    let passed = t * 23.0;
    for index in 0..7_u64 {
        let x = wrapped(unit(95, index) * 1000.0 - passed * 0.55, 1000.0) - 180.0;
        tuft(stage, at(x, 334.0, 3.6), index + 9, Paper::Leaf);
    }
    planks(stage, passed);
    let pose = ida_runs(t, t * 0.055);
    let x = 316.0 + (t * 0.06).sin() * 14.0;
    figure::ida(
        stage,
        stand(Transform::identity(), x, 424.0, 8.2, 1.0),
        &moment.restless(pose, 2),
    );
}

/// The boards of the landing going by under her feet.
fn planks(stage: &mut Stage<'_>, passed: f32) {
    let id = Transform::identity();
    stage.lift = 3.5;
    stage.piece(
        &sheet(-20.0, 326.0, 660.0, 500.0, 0.0),
        Paper::PlankLight,
        id,
    );
    for index in 0..9 {
        let number = index as f32 * 118.0;
        let x = wrapped(number - passed, 1062.0) - 200.0;
        let seam = poly(&[
            (x, 328.0),
            (x + 4.0, 328.0),
            (x - 44.0, 448.0),
            (x - 50.0, 448.0),
        ]);
        stage.fill(&seam, [104, 74, 46, 235], id);
        for nail in [342.0, 428.0] {
            let slip = (nail - 328.0) * 0.4;
            stage.fill(
                &oval(x + 14.0 - slip, nail, 3.4, 2.2),
                [72, 58, 48, 255],
                id,
            );
        }
        let grain = curve(&[(x + 40.0, 360.0), (x + 66.0, 366.0), (x + 82.0, 360.0)]);
        stage.line(&grain, 2.0, [166, 128, 82, 200], id);
    }
    stage.piece(&sheet(-20.0, 446.0, 660.0, 520.0, 0.0), Paper::Plank, id);
    stage.lift = 3.0;
}
