//! The landing: planks on piles, the bollard, the bell on its post.

use tiny_skia::Transform;

use crate::paper::shape::{curve, limb, oval, poly, sheet, smooth};
use crate::paper::{Paper, Stage, turned};
use crate::world::BellState;

/// A landing stage seen from the side, its deck's edge along the top.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Landing {
    pub(crate) left: f32,
    pub(crate) right: f32,
    pub(crate) deck: f32,
    /// Size, 1 as in the master shots.
    pub(crate) size: f32,
}

/// Lays piles, planks and edge beam.
pub(crate) fn landing(stage: &mut Stage<'_>, plan: Landing, base: Transform) {
    let s = plan.size;
    let (left, right, deck) = (plan.left, plan.right, plan.deck);
    let mut x = right - 16.0 * s;
    while x > left - 20.0 {
        let pile = poly(&[
            (x - 6.0 * s, deck + 4.0),
            (x + 6.0 * s, deck + 4.0),
            (x + 5.0 * s, deck + 74.0 * s),
            (x - 7.0 * s, deck + 74.0 * s),
        ]);
        stage.piece(&pile, Paper::Timber, base);
        x -= 62.0 * s;
    }
    let brace = poly(&[
        (left, deck + 34.0 * s),
        (right - 10.0 * s, deck + 20.0 * s),
        (right - 10.0 * s, deck + 27.0 * s),
        (left, deck + 41.0 * s),
    ]);
    stage.piece(&brace, Paper::PlankDark, base);
    let top = poly(&[
        (left, deck - 15.0 * s),
        (right - 14.0 * s, deck - 14.0 * s),
        (right + 2.0 * s, deck + 2.0 * s),
        (left, deck + 2.0 * s),
    ]);
    stage.piece(&top, Paper::PlankLight, base);
    let mut x = right - 24.0 * s;
    while x > left {
        let seam = curve(&[(x - 13.0 * s, deck - 14.0 * s), (x, deck + 1.0 * s)]);
        stage.line(&seam, 1.1 * s, [140, 106, 66, 200], base);
        x -= 27.0 * s;
    }
    stage.piece(
        &sheet(
            left - 4.0,
            deck + 1.0 * s,
            right + 3.0 * s,
            deck + 14.0 * s,
            0.8,
        ),
        Paper::Plank,
        base,
    );
}

/// Lays the bollard, 60 units tall on its foot.
pub(crate) fn bollard(stage: &mut Stage<'_>, at: Transform) {
    stage.piece(
        &poly(&[(-13.0, 0.0), (-10.0, -46.0), (10.0, -46.0), (13.0, 0.0)]),
        Paper::Bollard,
        at,
    );
    for x in [-5.0, 3.0] {
        stage.line(
            &curve(&[(x, -6.0), (x + 0.6, -40.0)]),
            0.9,
            [58, 40, 30, 190],
            at,
        );
    }
    stage.piece(
        &poly(&[(-17.0, -44.0), (-13.0, -56.0), (13.0, -56.0), (17.0, -44.0)]),
        Paper::Iron,
        at,
    );
}

/// The turns of rope about the bollard, `lift` 0 resting to 1 clear of the top.
///
/// The back half is laid before the bollard, the front half after it.
pub(crate) fn loop_half(stage: &mut Stage<'_>, at: Transform, lift: f32, front: bool) {
    let y = -24.0 - 42.0 * lift;
    let tilt = 4.0 * lift;
    let bend = if front { 7.0 } else { -6.0 };
    let half = curve(&[(-16.0, y + tilt), (0.0, y + bend), (16.0, y - tilt)]);
    stage.cord(&half, 5.0, Paper::Rope, at);
}

/// Lays the bell on its post, 170 units tall on its foot; the bell to the right.
pub(crate) fn bell_post(stage: &mut Stage<'_>, at: Transform, bell: BellState) {
    stage.piece(&sheet(-5.0, -166.0, 5.0, 2.0, 0.6), Paper::Timber, at);
    stage.piece(
        &poly(&[(2.0, -128.0), (30.0, -154.0), (34.0, -150.0), (3.0, -120.0)]),
        Paper::Timber,
        at,
    );
    stage.piece(&sheet(-14.0, -162.0, 50.0, -152.0, 0.6), Paper::Timber, at);
    stage.piece(
        &poly(&[(-22.0, -160.0), (18.0, -182.0), (60.0, -160.0)]),
        Paper::Roof,
        at,
    );
    let hang = turned(at, 34.0, -150.0, bell.swing);
    let clapper = turned(at, 34.0, -150.0, bell.clapper);
    stage.piece(&oval(0.0, 32.0, 3.6, 3.6), Paper::Iron, clapper);
    bell_body(stage, hang);
    let cord = curve(&[
        (34.0 - bell.swing * 0.1, -116.0),
        (30.0 - 6.0 * bell.pull, -96.0 + 6.0 * bell.pull),
        (27.0 - 10.0 * bell.pull, -70.0 + 14.0 * bell.pull),
    ]);
    stage.cord(&cord, 2.2, Paper::Rope, at);
}

/// The bell alone, hung at the origin, 30 units tall.
pub(crate) fn bell_body(stage: &mut Stage<'_>, hang: Transform) {
    stage.piece(&limb(6.0, 2.6, 2.6), Paper::Iron, hang);
    let body = smooth(&[
        (-6.0, 5.0),
        (0.0, 2.6),
        (6.0, 5.0),
        (8.6, 16.0),
        (11.0, 24.0),
        (15.6, 29.0),
        (0.0, 31.0),
        (-15.6, 29.0),
        (-11.0, 24.0),
        (-8.6, 16.0),
    ]);
    stage.piece(&body, Paper::Brass, hang);
    stage.line(
        &curve(&[(-10.6, 23.4), (0.0, 25.0), (10.6, 23.4)]),
        1.2,
        [150, 106, 34, 255],
        hang,
    );
    stage.sheet(
        &smooth(&[(-5.0, 8.0), (-2.6, 7.0), (-4.6, 22.0), (-8.0, 22.0)]),
        Paper::Cream,
        hang,
    );
}
