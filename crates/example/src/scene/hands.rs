//! Setup 6B: hands and loaf, close. The paper is opened, the loaf is shared.

use tiny_skia::Transform;

use super::{Moment, Set};
use crate::draw::water::{Bed, Water};
use crate::paper::shape::{curve, poly, ridge, sheet, smooth};
use crate::paper::{Paper, Papers, Stage, turned};
use crate::world::motion::{ease, mix};

pub(super) fn build(papers: &Papers) -> Set {
    let bed = Bed {
        top: 120.0,
        bottom: 540.0,
        strips: 5,
        wave: 230.0,
        seed: 163,
    };
    Set::new(papers, |stage| {
        let id = Transform::identity();
        stage.sheet(&sheet(-60.0, -10.0, 720.0, 490.0, 0.0), Paper::HillMid, id);
        stage.piece(
            &ridge(164, 640.0, 40.0, 300.0, 40.0, 170.0),
            Paper::HillNear,
            id,
        );
    })
    .with_water(Water::new(papers, bed))
    .with_layer(papers, (640, 480), |stage| {
        let id = Transform::identity();
        stage.lift = 5.0;
        let ida = smooth(&[
            (-60.0, -40.0),
            (150.0, -40.0),
            (196.0, 120.0),
            (186.0, 300.0),
            (214.0, 540.0),
            (-60.0, 540.0),
        ]);
        stage.piece(&ida, Paper::Mustard, id);
        stage.line(
            &curve(&[(112.0, -20.0), (132.0, 200.0), (126.0, 500.0)]),
            4.0,
            [160, 104, 22, 220],
            id,
        );
        let bram = smooth(&[
            (700.0, -40.0),
            (520.0, -40.0),
            (474.0, 120.0),
            (490.0, 320.0),
            (456.0, 540.0),
            (700.0, 540.0),
        ]);
        stage.piece(&bram, Paper::Coat, id);
        for y in [90.0, 210.0, 330.0] {
            stage.fastener(520.0, y, 13.0, id);
        }
    })
}

pub(super) fn play(stage: &mut Stage<'_>, set: &Set, moment: &Moment) {
    let t = moment.time;
    set.water[0].lay_all(stage, moment.river());
    set.lay_layer(stage, 0, 0, 0);
    stage.lift = 4.5;
    let bob = 2.5 * (t * 0.15).sin();
    let base = Transform::from_translate(0.0, bob);
    let opened = ease(149.0, 162.0, t);
    let apart = ease(164.0, 172.0, t);
    let taken = ease(172.0, 196.0, t);
    arm(stage, base, (150.0 - 14.0 * apart, 268.0), Who::Ida);
    let reach = ease(118.0, 160.0, t) - 0.1 * taken;
    let right = (mix(640.0, 470.0, reach) + 44.0 * taken, 276.0);
    arm(stage, base, right, Who::Bram);
    wrapping(stage, base, opened);
    let left_half = turned(
        base,
        316.0 - 34.0 * apart,
        240.0 + 3.0 * apart,
        -5.0 * apart,
    );
    let right_half = turned(
        base,
        316.0 + 34.0 * apart + 40.0 * taken,
        240.0 - 4.0 * apart,
        7.0 * apart,
    );
    half(stage, left_half, -1.0);
    half(stage, right_half, 1.0);
    crumbs(stage, base, t - 165.0);
    folds(stage, base, opened);
    fingers(stage, base, (206.0 - 30.0 * apart, 262.0), 1.0);
    fingers(stage, base, (right.0 - 38.0, 262.0), -1.0);
}

/// Half of the loaf, its broken side at the origin; `side` 1 to the right.
fn half(stage: &mut Stage<'_>, at: Transform, side: f32) {
    let at = at.pre_scale(side, 1.0);
    let crust = smooth(&[
        (-3.0, -66.0),
        (60.0, -62.0),
        (116.0, -36.0),
        (136.0, 4.0),
        (110.0, 40.0),
        (50.0, 50.0),
        (-3.0, 50.0),
        (4.0, 20.0),
        (-4.0, -10.0),
        (5.0, -38.0),
    ]);
    stage.piece(&crust, Paper::Crust, at);
    let under = smooth(&[
        (2.0, 34.0),
        (60.0, 34.0),
        (112.0, 22.0),
        (104.0, 42.0),
        (50.0, 50.0),
        (0.0, 49.0),
    ]);
    stage.sheet(&under, Paper::CrustDark, at);
    let crumb = smooth(&[
        (-4.0, -62.0),
        (9.0, -40.0),
        (4.0, -10.0),
        (12.0, 18.0),
        (-2.0, 48.0),
        (-9.0, 20.0),
        (-6.0, -10.0),
        (-9.0, -36.0),
    ]);
    stage.piece(&crumb, Paper::Crumb, at);
    for x in [36.0, 78.0] {
        let cut = smooth(&[
            (x - 12.0, -12.0),
            (x + 2.0, -46.0),
            (x + 12.0, -52.0),
            (x + 6.0, -22.0),
            (x - 4.0, -6.0),
        ]);
        stage.piece(&cut, Paper::Crumb, at);
    }
}

/// The sheet under the loaf.
fn wrapping(stage: &mut Stage<'_>, base: Transform, opened: f32) {
    let wide = 30.0 * opened;
    let paper = poly(&[
        (168.0 - wide, 262.0),
        (230.0, 232.0),
        (410.0, 232.0),
        (462.0 + wide, 260.0),
        (430.0 + wide, 318.0),
        (330.0, 334.0),
        (200.0 - wide, 320.0),
    ]);
    stage.piece(&paper, Paper::Cream, base);
}

/// The flaps over the loaf, folded back as the paper is opened.
fn folds(stage: &mut Stage<'_>, base: Transform, opened: f32) {
    for side in [-1.0, 1.0] {
        let hinge =
            turned(base, 316.0 + side * 128.0, 300.0, side * 128.0 * opened).pre_scale(side, 1.0);
        let flap = poly(&[
            (34.0, 6.0),
            (-16.0, -84.0),
            (-96.0, -104.0),
            (-140.0, -60.0),
            (-128.0, 18.0),
            (-20.0, 34.0),
        ]);
        stage.piece(
            &flap,
            if side > 0.0 {
                Paper::Cream
            } else {
                Paper::Cloud
            },
            hinge,
        );
        stage.line(
            &curve(&[(16.0, -6.0), (-60.0, -40.0), (-116.0, -50.0)]),
            2.0,
            [196, 184, 154, 220],
            hinge,
        );
        stage.line(
            &curve(&[(-8.0, 20.0), (-70.0, -2.0)]),
            2.0,
            [196, 184, 154, 200],
            hinge,
        );
    }
}

fn crumbs(stage: &mut Stage<'_>, base: Transform, age: f32) {
    if !(0.0..26.0).contains(&age) {
        return;
    }
    for index in 0..7_u64 {
        let x = 316.0 + crate::noise::signed(171, index) * (20.0 + age * 1.6);
        let y = 280.0 + age * age * 0.35 + crate::noise::signed(172, index) * 16.0;
        let crumb = poly(&[(x, y - 5.0), (x + 5.0, y), (x, y + 4.0), (x - 5.0, y + 1.0)]);
        stage.piece(&crumb, Paper::Crumb, base);
    }
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Who {
    Ida,
    Bram,
}

fn arm(stage: &mut Stage<'_>, base: Transform, hand: (f32, f32), who: Who) {
    let (side, sleeve, cuff) = match who {
        Who::Ida => (1.0, Paper::Mustard, Paper::MustardShade),
        Who::Bram => (-1.0, Paper::Coat, Paper::CoatShade),
    };
    let at = turned(base, hand.0, hand.1, 0.0).pre_scale(side, 1.0);
    let cloth = poly(&[
        (-330.0, 30.0),
        (-40.0, -44.0),
        (-6.0, 52.0),
        (-300.0, 210.0),
    ]);
    stage.piece(&cloth, sleeve, at);
    let palm = smooth(&[
        (-30.0, -30.0),
        (24.0, -26.0),
        (70.0, 6.0),
        (110.0, 44.0),
        (70.0, 66.0),
        (10.0, 56.0),
        (-34.0, 44.0),
    ]);
    stage.piece(&palm, Paper::Skin, at);
    stage.piece(
        &poly(&[(-62.0, -48.0), (-22.0, -56.0), (8.0, 58.0), (-34.0, 72.0)]),
        cuff,
        at,
    );
}

/// Four fingers over the edge of the loaf and a thumb on top.
fn fingers(stage: &mut Stage<'_>, base: Transform, at: (f32, f32), side: f32) {
    let at = turned(base, at.0, at.1, 0.0).pre_scale(side, 1.0);
    for finger in 0..4 {
        let f = finger as f32;
        let part = turned(at, -6.0 + 15.0 * f, 38.0 + 5.0 * f, -64.0 + 9.0 * f);
        let shape = smooth(&[
            (-10.0, -10.0),
            (34.0, -9.0),
            (46.0, 0.0),
            (34.0, 9.0),
            (-10.0, 10.0),
        ]);
        stage.piece(&shape, Paper::Skin, part);
    }
    let thumb = turned(at, -24.0, -6.0, -22.0);
    let shape = smooth(&[
        (-14.0, -12.0),
        (34.0, -11.0),
        (50.0, 0.0),
        (34.0, 11.0),
        (-14.0, 13.0),
    ]);
    stage.piece(&shape, Paper::SkinWarm, thumb);
}
