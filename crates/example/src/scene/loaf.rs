//! Setup 6: the loaf offered from the landing; Ida steps aboard.

use tiny_skia::Transform;

use super::{Moment, Set, stand};
use crate::draw::figure;
use crate::draw::nature::{Horizon, horizon};
use crate::draw::water::{Bed, Water};
use crate::paper::shape::{curve, oval, poly, sheet};
use crate::paper::{Paper, Papers, Stage, at};
use crate::world::motion::{bump, ease, mix};
use crate::world::{bram_aboard, ida_aboard};

pub(super) fn build(papers: &Papers) -> Set {
    let bed = Bed {
        top: 232.0,
        bottom: 500.0,
        strips: 7,
        wave: 140.0,
        seed: 133,
    };
    let far = Horizon {
        seed: 135,
        water: 236.0,
        zoom: 1.35,
        sun: None,
    };
    Set::new(papers, |stage| horizon(stage, far))
        .with_water(Water::new(papers, bed))
        .with_layer(papers, (320, 480), dock)
        .with_layer(papers, (360, 480), deck)
}

fn dock(stage: &mut Stage<'_>) {
    let id = Transform::identity();
    stage.lift = 4.0;
    stage.piece(
        &poly(&[
            (250.0, 440.0),
            (276.0, 440.0),
            (272.0, 520.0),
            (252.0, 520.0),
        ]),
        Paper::Timber,
        id,
    );
    stage.piece(
        &poly(&[
            (-20.0, 400.0),
            (262.0, 402.0),
            (292.0, 430.0),
            (-20.0, 430.0),
        ]),
        Paper::PlankLight,
        id,
    );
    for x in [30.0, 92.0, 154.0, 216.0] {
        stage.line(
            &curve(&[(x, 403.0), (x + 28.0, 429.0)]),
            2.2,
            [138, 104, 64, 220],
            id,
        );
    }
    stage.piece(&sheet(-20.0, 428.0, 295.0, 456.0, 1.2), Paper::Plank, id);
}

/// The ferry's end: hull, deck, rail and a corner of the cabin.
fn deck(stage: &mut Stage<'_>) {
    let id = Transform::identity();
    stage.lift = 4.0;
    stage.piece(&sheet(272.0, 96.0, 380.0, 420.0, 1.0), Paper::Cabin, id);
    stage.piece(&sheet(296.0, 170.0, 380.0, 270.0, 1.0), Paper::Cream, id);
    stage.sheet(&sheet(304.0, 178.0, 380.0, 262.0, 1.0), Paper::Glass, id);
    stage.piece(
        &poly(&[(250.0, 102.0), (266.0, 66.0), (380.0, 66.0), (380.0, 104.0)]),
        Paper::Roof,
        id,
    );
    for x in [84.0, 158.0, 232.0] {
        stage.piece(&sheet(x - 4.0, 318.0, x + 4.0, 416.0, 0.5), Paper::Iron, id);
    }
    for y in [318.0, 364.0] {
        stage.piece(&sheet(80.0, y - 4.0, 276.0, y + 4.0, 0.6), Paper::Iron, id);
    }
    stage.piece(
        &poly(&[(6.0, 412.0), (380.0, 412.0), (380.0, 520.0), (40.0, 520.0)]),
        Paper::Hull,
        id,
    );
    stage.piece(
        &poly(&[(2.0, 400.0), (380.0, 400.0), (380.0, 422.0), (8.0, 422.0)]),
        Paper::Cream,
        id,
    );
    stage.sheet(
        &poly(&[(22.0, 450.0), (380.0, 450.0), (380.0, 470.0), (28.0, 470.0)]),
        Paper::HullBand,
        id,
    );
    for x in [110.0, 220.0, 330.0] {
        stage.piece(&oval(x, 436.0, 8.0, 8.0), Paper::Iron, id);
    }
}

pub(super) fn play(stage: &mut Stage<'_>, set: &Set, moment: &Moment) {
    let t = moment.time;
    set.water[0].behind(stage, moment.river(), 450.0);
    // The deck gives a little under her foot.
    let dip = 5.0 * bump(415.0, 417.0, 3.0, t) * (1.0 - ease(417.0, 440.0, t));
    let heave = 2.4 * (t * 0.1).sin() + dip;
    set.lay_layer(stage, 1, 312, heave.round() as i32);
    set.lay_layer(stage, 0, 0, 0);
    set.water[0].before(stage, moment.river(), 450.0);
    let id = Transform::identity();
    let aside = ease(350.0, 400.0, t);
    let bram_at = stand(id, mix(414.0, 504.0, aside), 406.0 + heave, 3.0, -1.0);
    figure::bram(stage, bram_at, &moment.restless(bram_aboard(t), 1));
    let (over, _, pose) = ida_aboard(t);
    let x = mix(214.0, 388.0, over);
    let y = mix(420.0, 409.0 + heave, over);
    // She takes up her stand with a few short steps before she goes.
    let come = ease(300.0, 348.0, t) * (1.0 - over);
    figure::ida(
        stage,
        stand(id, x + 26.0 * come, y, 2.9, 1.0),
        &moment.restless(pose, 2),
    );
    plank(stage, heave);
}

/// The lip of the ramp, laid over the gap.
fn plank(stage: &mut Stage<'_>, heave: f32) {
    let lip = poly(&[
        (276.0, 424.0),
        (330.0, 412.0 + heave),
        (332.0, 419.0 + heave),
        (278.0, 432.0),
    ]);
    stage.piece(&lip, Paper::PlankDark, at(0.0, 0.0, 1.0));
}
