//! Sky, clouds, hills, banks, gulls.

use tiny_skia::{Path, Transform};

use crate::noise::{signed, unit};
use crate::paper::shape::{curve, oval, poly, ridge, sheet, smooth};
use crate::paper::{Paper, Stage, at};

/// How a far bank is built.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Horizon {
    pub(crate) seed: u64,
    /// Where the water begins, pixels from the top.
    pub(crate) water: f32,
    /// How near the hills stand, 1 as in the wide shots.
    pub(crate) zoom: f32,
    pub(crate) sun: Option<(f32, f32)>,
}

/// Lays sky, clouds and three ranges of hills behind the water.
pub(crate) fn horizon(stage: &mut Stage<'_>, plan: Horizon) {
    let id = Transform::identity();
    stage.lift = 3.0;
    stage.sheet(
        &sheet(-60.0, -10.0, 720.0, plan.water + 20.0, 0.0),
        Paper::SkyHigh,
        id,
    );
    let low = plan.water - 108.0 * plan.zoom;
    stage.piece(
        &ridge(plan.seed + 40, 640.0, low, plan.water + 10.0, 16.0, 130.0),
        Paper::SkyLow,
        id,
    );
    if let Some((x, y)) = plan.sun {
        stage.piece(&oval(x, y, 30.0, 30.0), Paper::Sun, id);
    }
    for index in 0..4 {
        let x = 60.0 + 175.0 * index as f32 + 60.0 * signed(plan.seed, index);
        let y = 52.0 + 62.0 * unit(plan.seed + 1, index) - 12.0 * plan.zoom;
        cloud(
            stage,
            at(x, y, 0.8 + 0.5 * unit(plan.seed + 2, index)),
            plan.seed + index,
        );
    }
    let z = plan.zoom;
    let w = plan.water;
    let step = 74.0 * z;
    stage.piece(
        &ridge(
            plan.seed + 10,
            640.0,
            w - 92.0 * z,
            w + 20.0,
            50.0 * z,
            step * 1.5,
        ),
        Paper::HillFar,
        id,
    );
    stage.piece(
        &ridge(
            plan.seed + 20,
            640.0,
            w - 62.0 * z,
            w + 20.0,
            42.0 * z,
            step * 1.2,
        ),
        Paper::HillMid,
        id,
    );
    stage.piece(
        &ridge(
            plan.seed + 30,
            640.0,
            w - 34.0 * z,
            w + 20.0,
            26.0 * z,
            step * 0.9,
        ),
        Paper::HillNear,
        id,
    );
    far_bank(stage, plan);
    stage.lift = 2.2;
}

/// Trees and a few houses along the far bank.
fn far_bank(stage: &mut Stage<'_>, plan: Horizon) {
    let z = plan.zoom;
    for index in 0..22_u64 {
        let x = unit(plan.seed + 5, index) * 660.0 - 10.0;
        let r = (6.0 + 7.0 * unit(plan.seed + 6, index)) * z;
        let paper = if index % 3 == 0 {
            Paper::Leaf
        } else {
            Paper::HillDark
        };
        stage.piece(
            &oval(x, plan.water - r * 0.7, r, r * 0.95),
            paper,
            Transform::identity(),
        );
    }
    for index in 0..3_u64 {
        let x = 90.0 + unit(plan.seed + 7, index) * 480.0;
        house(stage, at(x, plan.water - 1.0, z * 0.8));
    }
    let shore = ridge(
        plan.seed + 50,
        640.0,
        plan.water - 7.0 * z,
        plan.water + 20.0,
        5.0 * z,
        50.0,
    );
    stage.piece(&shore, Paper::Grass, Transform::identity());
}

fn house(stage: &mut Stage<'_>, at: Transform) {
    stage.piece(&sheet(-10.0, -14.0, 10.0, 2.0, 0.4), Paper::Cabin, at);
    stage.piece(
        &poly(&[(-13.0, -13.0), (0.0, -24.0), (13.0, -13.0)]),
        Paper::Roof,
        at,
    );
    stage.sheet(&sheet(-4.0, -9.0, 1.0, -3.0, 0.2), Paper::Glass, at);
}

fn cloud(stage: &mut Stage<'_>, at: Transform, seed: u64) {
    let s = |i: u64| 0.85 + 0.35 * unit(seed, i);
    let shape = smooth(&[
        (-48.0, 6.0),
        (-40.0, -5.0 * s(1)),
        (-24.0, -8.0 * s(2)),
        (-12.0, -20.0 * s(3)),
        (6.0, -19.0 * s(4)),
        (17.0, -10.0 * s(5)),
        (34.0, -9.0 * s(6)),
        (48.0, 4.0),
        (20.0, 9.0),
        (-20.0, 9.0),
    ]);
    stage.piece(
        &shape,
        if seed.is_multiple_of(2) {
            Paper::Cloud
        } else {
            Paper::CloudGrey
        },
        at,
    );
}

/// A gull, wings at `beat` -1 to 1.
pub(crate) fn gull(stage: &mut Stage<'_>, at: Transform, beat: f32) {
    let up = 7.0 * beat;
    let bird = smooth(&[
        (0.0, 1.0),
        (-7.0, -3.5 - up * 0.6),
        (-16.0, -up),
        (-7.0, -0.4 - up * 0.4),
        (0.0, 4.0),
        (7.0, -0.4 - up * 0.4),
        (16.0, -up),
        (7.0, -3.5 - up * 0.6),
    ]);
    stage.piece(&bird, Paper::Foam, at);
    stage.fill(&oval(-13.5, -up * 0.86, 2.0, 1.2), [70, 78, 84, 255], at);
    stage.fill(&oval(13.5, -up * 0.86, 2.0, 1.2), [70, 78, 84, 255], at);
}

/// A corner of the near bank, low on the left, its top at `y`.
pub(crate) fn bank(y: f32) -> Path {
    smooth(&[
        (-40.0, y + 4.0),
        (30.0, y - 4.0),
        (88.0, y + 8.0),
        (132.0, y + 30.0),
        (176.0, y + 90.0),
        (-40.0, y + 90.0),
    ])
}

/// Reeds or grass: a tuft of thin blades.
pub(crate) fn tuft(stage: &mut Stage<'_>, at: Transform, seed: u64, paper: Paper) {
    let lift = stage.lift;
    stage.lift = 1.2;
    for index in 0..5_u64 {
        let lean = signed(seed, index) * 9.0;
        let tall = 12.0 + 10.0 * unit(seed ^ 1, index);
        let x = index as f32 * 2.6 - 5.0;
        let foot = 5.0 + 2.0 * unit(seed ^ 2, index);
        let blade = poly(&[(x - 1.5, 1.0), (x + lean, -tall), (x + 1.5, 1.0), (x, foot)]);
        stage.piece(&blade, paper, at);
    }
    stage.lift = lift;
}

/// A round tree on a trunk, 100 units tall.
pub(crate) fn tree(stage: &mut Stage<'_>, at: Transform, seed: u64) {
    stage.piece(
        &poly(&[(-4.0, 2.0), (-2.5, -60.0), (3.0, -60.0), (5.0, 2.0)]),
        Paper::Timber,
        at,
    );
    let r = |i: u64| 30.0 + 7.0 * signed(seed, i);
    let crown: Vec<_> = (0..9)
        .map(|i| {
            let turn = i as f32 / 9.0 * core::f32::consts::TAU;
            (turn.cos() * r(i), -72.0 + turn.sin() * r(i + 20) * 0.95)
        })
        .collect();
    stage.piece(&smooth(&crown), Paper::HillDark, at);
    stage.piece(&oval(-8.0, -80.0, 15.0, 13.0), Paper::Leaf, at);
    stage.line(
        &curve(&[(2.0, -40.0), (0.0, -62.0)]),
        2.0,
        [80, 58, 42, 255],
        at,
    );
}
