//! Setup 6A: Bram's face thaws.

use tiny_skia::Transform;

use super::super::{Moment, Set};
use super::{Look, back, blink, features};
use crate::paper::shape::{curve, oval, poly, sheet, smooth};
use crate::paper::{Paper, Papers, Stage, turned};
use crate::world::motion::{bump, ease};

pub(in super::super) fn build_bram(papers: &Papers) -> Set {
    back(papers, 153, 276.0).with_layer(papers, (200, 480), |stage| {
        let id = Transform::identity();
        stage.lift = 4.0;
        stage.piece(&sheet(40.0, -20.0, 220.0, 520.0, 2.0), Paper::Cabin, id);
        stage.piece(&sheet(84.0, 70.0, 220.0, 280.0, 1.0), Paper::Cream, id);
        stage.sheet(&sheet(98.0, 84.0, 220.0, 266.0, 1.0), Paper::Glass, id);
        stage.line(
            &curve(&[(118.0, 250.0), (176.0, 100.0)]),
            10.0,
            [190, 214, 210, 120],
            id,
        );
    })
}

pub(in super::super) fn play_bram(stage: &mut Stage<'_>, set: &Set, moment: &Moment) {
    let t = moment.time;
    set.water[0].lay_all(stage, moment.river());
    stage.lift = 5.0;
    set.lay_layer(stage, 0, 470, (3.0 * (t * 0.1).sin()).round() as i32);
    let thaw = ease(176.0, 212.0, t);
    let chew = bump(236.0, 300.0, 8.0, t) * (t * 0.7).sin();
    let look = Look {
        gaze: (-0.7, 0.15 + 0.25 * (t * 0.05).sin()),
        brow: -0.35 + 1.1 * thaw,
        worry: 0.15 * thaw,
        smile: thaw,
        lids: blink(t, 55.0).max(0.22 - 0.1 * thaw),
        open: 0.0,
    };
    let breath = 2.5 * (t * 0.15).sin();
    let body = Transform::from_translate(-12.0, breath);
    let coat = smooth(&[
        (150.0, 430.0),
        (240.0, 384.0),
        (400.0, 384.0),
        (500.0, 428.0),
        (570.0, 560.0),
        (70.0, 560.0),
    ]);
    stage.piece(&coat, Paper::Coat, body);
    stage.piece(
        &poly(&[
            (250.0, 374.0),
            (318.0, 470.0),
            (280.0, 510.0),
            (196.0, 408.0),
        ]),
        Paper::CoatShade,
        body,
    );
    stage.piece(
        &poly(&[
            (396.0, 374.0),
            (330.0, 470.0),
            (372.0, 510.0),
            (456.0, 408.0),
        ]),
        Paper::CoatShade,
        body,
    );
    let head = turned(
        body,
        322.0,
        370.0,
        -3.0 - 4.0 * thaw + 0.8 * (t * 0.09).sin(),
    )
    .pre_translate(-322.0, -370.0);
    bram_head(stage, head, &look, thaw, chew);
}

fn bram_head(stage: &mut Stage<'_>, head: Transform, look: &Look, thaw: f32, chew: f32) {
    for x in [226.0, 420.0] {
        stage.piece(&oval(x, 222.0, 20.0, 30.0), Paper::SkinWarm, head);
    }
    let face = smooth(&[
        (322.0, 96.0),
        (396.0, 116.0),
        (420.0, 196.0),
        (410.0, 290.0),
        (322.0, 352.0),
        (236.0, 290.0),
        (226.0, 196.0),
        (250.0, 116.0),
    ]);
    stage.piece(&face, Paper::Skin, head);
    for x in [262.0, 384.0] {
        stage.fill(
            &oval(x, 258.0 - 6.0 * thaw, 23.0, 15.0),
            [206, 96, 76, 120],
            head,
        );
    }
    let jaw = 5.0 * chew;
    let beard = smooth(&[
        (222.0, 214.0),
        (242.0, 266.0),
        (282.0, 284.0),
        (324.0, 276.0),
        (364.0, 284.0),
        (404.0, 266.0),
        (424.0, 214.0),
        (426.0, 300.0),
        (388.0, 372.0 + jaw),
        (324.0, 404.0 + jaw),
        (258.0, 372.0 + jaw),
        (220.0, 300.0),
    ]);
    stage.piece(&beard, Paper::Beard, head);
    features(
        stage,
        head,
        (322.0, 206.0),
        &Look {
            smile: 0.0,
            ..*look
        },
    );
    // A mouth in the beard, and the moustache that hides half of it.
    let (x, y) = (324.0, 308.0 + jaw * 0.6);
    let bend = 4.0 + 12.0 * thaw;
    let lips = smooth(&[
        (x - 30.0, y - bend * 0.6),
        (x, y + bend * 0.4),
        (x + 30.0, y - bend * 0.6),
        (x + 14.0, y + bend),
        (x - 14.0, y + bend),
    ]);
    stage.sheet(&lips, Paper::BerryDark, head);
    for side in [-1.0, 1.0] {
        let flip = head.pre_translate(x, 0.0).pre_scale(side, 1.0);
        let tip = 300.0 - 14.0 * thaw;
        let half = smooth(&[
            (-2.0, 268.0),
            (30.0, 270.0),
            (64.0, tip - 4.0),
            (76.0, tip - 16.0),
            (62.0, tip + 10.0),
            (26.0, 302.0),
            (-2.0, 296.0),
        ]);
        stage.piece(&half, Paper::Cream, flip);
    }
    cap(stage, head);
}

fn cap(stage: &mut Stage<'_>, head: Transform) {
    let crown = smooth(&[
        (206.0, 138.0),
        (184.0, 92.0),
        (226.0, 44.0),
        (322.0, 28.0),
        (420.0, 44.0),
        (462.0, 92.0),
        (438.0, 138.0),
        (322.0, 122.0),
    ]);
    stage.piece(&crown, Paper::Navy, head);
    let band = smooth(&[
        (210.0, 118.0),
        (322.0, 98.0),
        (436.0, 118.0),
        (436.0, 154.0),
        (322.0, 136.0),
        (212.0, 154.0),
    ]);
    stage.piece(&band, Paper::Coat, head);
    stage.line(
        &curve(&[(216.0, 150.0), (322.0, 132.0), (432.0, 150.0)]),
        6.0,
        [211, 162, 60, 255],
        head,
    );
    let brim = smooth(&[
        (206.0, 156.0),
        (260.0, 138.0),
        (322.0, 134.0),
        (386.0, 138.0),
        (440.0, 156.0),
        (322.0, 176.0),
    ]);
    stage.piece(&brim, Paper::Boot, head);
    stage.fastener(322.0, 112.0, 13.0, head);
}
