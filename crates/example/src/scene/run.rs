//! Setups 2 and 2A: Ida runs for the boat with a loaf.

use tiny_skia::Transform;

use super::{Moment, Set, stand};
use crate::draw::figure;
use crate::draw::nature::{Horizon, horizon, tree, tuft};
use crate::draw::water::{Bed, Water};
use crate::noise::unit;
use crate::paper::shape::{oval, poly, ridge, sheet, smooth};
use crate::paper::{Paper, Papers, Stage, at};
use crate::world::ida_runs;

/// Turns of her legs in a frame: a little over one a second at 18 f/s.
const STRIDE: f32 = 0.061;

/// Where she is on the path in the far shot. Unit: pixels.
fn far_place(time: f32) -> f32 {
    -40.0 + (time - 6.0) * 3.1
}

pub(super) fn build_far(papers: &Papers) -> Set {
    let bed = Bed {
        top: 196.0,
        bottom: 300.0,
        strips: 4,
        wave: 60.0,
        seed: 13,
    };
    Set::new(papers, |stage| {
        horizon(
            stage,
            Horizon {
                seed: 15,
                water: 200.0,
                zoom: 0.9,
                sun: None,
            },
        );
    })
    .with_water(Water::new(papers, bed))
    .with_layer(papers, (640, 480), meadow)
}

fn meadow(stage: &mut Stage<'_>) {
    let id = Transform::identity();
    stage.lift = 3.0;
    stage.piece(
        &ridge(61, 640.0, 268.0, 500.0, 18.0, 120.0),
        Paper::GrassLight,
        id,
    );
    for (x, y, s) in [
        (70.0, 300.0, 1.05),
        (560.0, 292.0, 0.85),
        (612.0, 300.0, 1.1),
    ] {
        tree(stage, at(x, y, s), x as u64);
    }
    stage.piece(
        &ridge(62, 640.0, 304.0, 500.0, 14.0, 150.0),
        Paper::Grass,
        id,
    );
    let path = smooth(&[
        (-60.0, 338.0),
        (120.0, 346.0),
        (320.0, 338.0),
        (520.0, 345.0),
        (720.0, 336.0),
        (720.0, 362.0),
        (520.0, 374.0),
        (320.0, 366.0),
        (120.0, 374.0),
        (-60.0, 366.0),
    ]);
    stage.piece(&path, Paper::Path, id);
    stage.piece(
        &ridge(64, 640.0, 404.0, 500.0, 16.0, 110.0),
        Paper::GrassLight,
        id,
    );
    for index in 0..26_u64 {
        let x = unit(71, index) * 640.0;
        let y = 420.0 + unit(72, index) * 44.0;
        tuft(
            stage,
            at(x, y, 1.0 + (y - 410.0) / 60.0),
            index,
            if index % 3 == 0 {
                Paper::Leaf
            } else {
                Paper::Grass
            },
        );
    }
    for index in 0..14_u64 {
        let (x, y) = (unit(73, index) * 640.0, 418.0 + unit(74, index) * 46.0);
        let paper = if index % 2 == 0 {
            Paper::Cream
        } else {
            Paper::Berry
        };
        stage.piece(&oval(x, y, 3.4, 3.4), paper, id);
        stage.sheet(&oval(x, y, 1.3, 1.3), Paper::Mustard, id);
    }
}

pub(super) fn play_far(stage: &mut Stage<'_>, set: &Set, moment: &Moment) {
    let t = moment.time;
    set.water[0].lay_all(stage, moment.river());
    set.lay_layer(stage, 0, 0, 0);
    let x = far_place(t);
    let y = 358.0 + (x * 0.031).sin() * 4.0;
    let pose = ida_runs(t, t * STRIDE * 1.06);
    figure::ida(
        stage,
        stand(Transform::identity(), x, y, 1.0, 1.0),
        &moment.restless(pose, 2),
    );
}

pub(super) fn build_near(papers: &Papers) -> Set {
    let bed = Bed {
        top: 252.0,
        bottom: 372.0,
        strips: 4,
        wave: 110.0,
        seed: 23,
    };
    Set::new(papers, |stage| {
        horizon(
            stage,
            Horizon {
                seed: 25,
                water: 256.0,
                zoom: 1.35,
                sun: None,
            },
        );
    })
    .with_water(Water::new(papers, bed))
    .with_layer(papers, (640, 140), |stage| {
        stage.lift = 3.0;
        stage.piece(
            &ridge(81, 640.0, 8.0, 160.0, 10.0, 140.0),
            Paper::Grass,
            Transform::identity(),
        );
        stage.piece(
            &sheet(-20.0, 52.0, 660.0, 108.0, 3.0),
            Paper::Path,
            Transform::identity(),
        );
        stage.piece(
            &ridge(82, 640.0, 108.0, 180.0, 10.0, 90.0),
            Paper::GrassLight,
            Transform::identity(),
        );
    })
}

pub(super) fn play_near(stage: &mut Stage<'_>, set: &Set, moment: &Moment) {
    let t = moment.time;
    // In the first take she runs the other way.
    let way = if moment.take == 1 { -1.0 } else { 1.0 };
    set.water[0].lay_all(stage, moment.river());
    set.lay_layer(stage, 0, 0, 344);
    let passed = t * 8.2 * way;
    passing_bank(stage, passed);
    let sway = (t * 0.05).sin() * 16.0;
    let pose = ida_runs(t, t * STRIDE);
    figure::ida(
        stage,
        stand(Transform::identity(), 316.0 + sway * way, 432.0, 3.0, way),
        &moment.restless(pose, 2),
    );
    for index in 0..9_u64 {
        let x = wrapped(unit(84, index) * 980.0 - passed * 1.25, 980.0) - 160.0;
        tuft(stage, at(x, 478.0, 2.2), index, Paper::Leaf);
    }
}

/// Fence and bushes that pass behind her.
fn passing_bank(stage: &mut Stage<'_>, passed: f32) {
    for index in 0..8 {
        let x = wrapped(index as f32 * 120.0 - passed * 0.8, 960.0) - 150.0;
        let id = at(x, 366.0, 1.0);
        stage.piece(&sheet(-5.0, -52.0, 5.0, 18.0, 1.0), Paper::PlankDark, id);
        stage.piece(
            &poly(&[(-62.0, -40.0), (62.0, -38.0), (62.0, -31.0), (-62.0, -33.0)]),
            Paper::Plank,
            id,
        );
    }
    for index in 0..5_u64 {
        let x = wrapped(unit(86, index) * 1100.0 - passed * 0.8, 1100.0) - 200.0;
        let bush = smooth(&[
            (-44.0, 16.0),
            (-38.0, -14.0),
            (-14.0, -30.0),
            (16.0, -26.0),
            (40.0, -10.0),
            (46.0, 16.0),
        ]);
        stage.piece(
            &bush,
            if index % 2 == 0 {
                Paper::HillDark
            } else {
                Paper::Leaf
            },
            at(x, 372.0, 1.0),
        );
    }
    for index in 0..12_u64 {
        let x = wrapped(unit(85, index) * 900.0 - passed, 900.0) - 120.0;
        let y = 404.0 + 36.0 * unit(87, index);
        stage.piece(
            &oval(x, y, 7.0, 3.0),
            Paper::CabinShade,
            Transform::identity(),
        );
    }
}

/// A place that comes round again after `period`.
pub(super) fn wrapped(x: f32, period: f32) -> f32 {
    x.rem_euclid(period)
}
