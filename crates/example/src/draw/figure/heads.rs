//! The two heads, necks at the origin, facing right.

use tiny_skia::Transform;

use crate::paper::shape::{curve, oval, poly, smooth};
use crate::paper::{Paper, Stage};
use crate::world::Pose;

pub(super) fn bram_head(stage: &mut Stage<'_>, at: Transform, pose: &Pose) {
    stage.sheet(
        &poly(&[(-4.0, -2.0), (4.5, -2.0), (5.0, 4.0), (-4.0, 4.0)]),
        Paper::SkinWarm,
        at,
    );
    let face = smooth(&[
        (-8.0, -9.0),
        (-5.0, -17.0),
        (4.0, -17.5),
        (8.2, -12.0),
        (11.6, -7.2),
        (8.2, -5.0),
        (6.0, 0.6),
        (-1.0, 2.0),
        (-7.0, -2.5),
    ]);
    stage.piece(&face, Paper::Skin, at);
    let beard = smooth(&[
        (-7.6, -8.5),
        (-4.0, -6.0),
        (2.0, -4.6),
        (7.6, -5.2),
        (9.2, -2.6),
        (6.8, 3.4),
        (2.0, 6.6),
        (-3.6, 4.4),
        (-7.4, -1.0),
    ]);
    stage.piece(&beard, Paper::Beard, at);
    eye(stage, at, (5.2, -9.0), pose.blink);
    let crown = smooth(&[
        (-10.0, -13.0),
        (-11.0, -19.5),
        (-4.0, -23.5),
        (5.0, -22.5),
        (9.5, -18.0),
        (8.5, -13.5),
        (0.0, -12.0),
    ]);
    stage.piece(&crown, Paper::Navy, at);
    stage.piece(
        &smooth(&[(3.0, -14.6), (9.0, -14.8), (15.0, -11.4), (9.0, -11.8)]),
        Paper::Boot,
        at,
    );
    stage.line(
        &curve(&[(-9.6, -14.4), (0.0, -13.2), (8.6, -14.8)]),
        1.3,
        [211, 162, 60, 255],
        at,
    );
}

pub(super) fn ida_head(stage: &mut Stage<'_>, at: Transform, pose: &Pose) {
    let blow = pose.wind;
    let tail = poly(&[
        (-5.0, -3.0),
        (-15.0 - blow * 3.0, -4.0 - blow * 5.0),
        (-12.0 - blow * 3.0, 1.5 - blow * 3.0),
        (-16.0 - blow * 2.0, 5.0 - blow * 2.0),
        (-4.0, 2.0),
    ]);
    stage.piece(&tail, Paper::BerryDark, at);
    let face = smooth(&[
        (-5.0, -14.0),
        (3.0, -16.0),
        (8.0, -11.0),
        (10.8, -7.0),
        (8.2, -5.2),
        (6.6, -0.4),
        (1.0, 2.0),
        (-5.0, -1.0),
    ]);
    stage.piece(&face, Paper::Skin, at);
    stage.fill(&oval(4.6, -4.2, 2.0, 1.6), [214, 106, 88, 150], at);
    eye(stage, at, (5.0, -9.0), pose.blink);
    stage.line(
        &curve(&[(5.0, -2.6), (6.6, -2.2), (7.6, -2.9)]),
        0.8,
        [140, 50, 48, 255],
        at,
    );
    stage.sheet(
        &smooth(&[(1.0, -16.5), (8.0, -14.0), (8.4, -11.2), (3.0, -12.6)]),
        Paper::Hair,
        at,
    );
    let scarf = smooth(&[
        (-1.0, 2.6),
        (-8.4, -1.0),
        (-10.6, -10.0),
        (-6.0, -18.6),
        (2.0, -20.4),
        (8.4, -16.6),
        (6.4, -13.6),
        (1.0, -11.0),
        (-0.6, -5.0),
        (2.6, 1.0),
    ]);
    stage.piece(&scarf, Paper::Berry, at);
    for (x, y) in [(-6.0, -9.0), (-3.0, -15.0), (2.5, -17.0), (-4.5, -3.5)] {
        stage.sheet(&oval(x, y, 1.05, 1.05), Paper::Cream, at);
    }
    stage.piece(&oval(1.6, 2.2, 2.6, 2.0), Paper::Berry, at);
}

fn eye(stage: &mut Stage<'_>, at: Transform, place: (f32, f32), shut: bool) {
    let (x, y) = place;
    if shut {
        stage.line(
            &curve(&[(x - 1.3, y), (x, y + 0.5), (x + 1.3, y)]),
            0.7,
            [50, 34, 30, 255],
            at,
        );
    } else {
        stage.fill(&oval(x, y, 1.45, 1.9), [38, 28, 30, 255], at);
    }
}
