//! Setups 4A and 6A: Ida's face and Bram's, close.

use tiny_skia::Transform;

use super::{Moment, Set};
use crate::draw::nature::{Horizon, horizon};
use crate::draw::water::{Bed, Water};
use crate::paper::shape::{curve, oval, poly, sheet, smooth};
use crate::paper::{Paper, Papers, Stage, turned};
use crate::world::motion::{bump, ease};

/// What a face shows.
#[derive(Debug, Clone, Copy)]
struct Look {
    /// Eyes to the side and down, -1 to 1.
    gaze: (f32, f32),
    /// Brows up (1) or down (-1).
    brow: f32,
    /// Inner ends of the brows up: worry, 0 to 1.
    worry: f32,
    /// Corners of the mouth up (1) or down (-1).
    smile: f32,
    /// Lids, 0 open to 1 shut.
    lids: f32,
    open: f32,
}

fn back(papers: &Papers, seed: u64, water: f32) -> Set {
    let bed = Bed {
        top: water - 4.0,
        bottom: 520.0,
        strips: 5,
        wave: 190.0,
        seed,
    };
    let far = Horizon {
        seed: seed + 2,
        water,
        zoom: 1.9,
        sun: None,
    };
    Set::new(papers, |stage| horizon(stage, far)).with_water(Water::new(papers, bed))
}

pub(super) fn build_ida(papers: &Papers) -> Set {
    back(papers, 143, 286.0)
}

pub(super) fn build_bram(papers: &Papers) -> Set {
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

fn blink(t: f32, every: f32) -> f32 {
    let at = (t + 7.0).rem_euclid(every);
    bump(1.5, 2.5, 1.5, at)
}

pub(super) fn play_ida(stage: &mut Stage<'_>, set: &Set, moment: &Moment) {
    let t = moment.time;
    set.water[0].lay_all(stage, moment.river());
    let dismay = ease(216.0, 244.0, t);
    let resolve = ease(266.0, 282.0, t);
    let look = Look {
        gaze: (0.75 - 1.3 * resolve, -0.1 + 0.5 * dismay * (1.0 - resolve)),
        brow: 0.6 - 0.5 * dismay - 0.3 * resolve,
        worry: dismay * (1.0 - resolve),
        smile: -0.15 - 0.75 * dismay + 1.0 * resolve,
        lids: blink(t, 47.0).max(0.25 * dismay * (1.0 - resolve)),
        open: bump(200.0, 222.0, 8.0, t),
    };
    let wind = (t * 0.13).sin();
    let breath = 2.5 * (t * 0.16).sin();
    let tilt = 2.0 + 4.0 * dismay - 7.0 * resolve + 0.8 * (t * 0.11).sin();
    stage.lift = 5.0;
    let body = Transform::from_translate(0.0, breath);
    let coat = smooth(&[
        (180.0, 420.0),
        (258.0, 372.0),
        (400.0, 372.0),
        (486.0, 416.0),
        (556.0, 540.0),
        (90.0, 540.0),
    ]);
    stage.piece(&coat, Paper::Mustard, body);
    stage.piece(
        &poly(&[
            (262.0, 372.0),
            (322.0, 462.0),
            (296.0, 492.0),
            (218.0, 398.0),
        ]),
        Paper::MustardShade,
        body,
    );
    stage.piece(
        &poly(&[
            (392.0, 372.0),
            (330.0, 462.0),
            (362.0, 492.0),
            (444.0, 396.0),
        ]),
        Paper::MustardShade,
        body,
    );
    let head = turned(body, 322.0, 360.0, tilt).pre_translate(-322.0, -360.0);
    ida_scarf_behind(stage, head, wind);
    ida_face(stage, head);
    features(stage, head, (322.0, 214.0), &look);
    ida_scarf_front(stage, head, wind);
}

fn ida_scarf_behind(stage: &mut Stage<'_>, head: Transform, wind: f32) {
    let w = wind * 8.0;
    let tail = poly(&[
        (250.0, 340.0),
        (132.0 - w, 330.0 + w),
        (166.0 - w, 366.0),
        (120.0 - w, 402.0 - w),
        (262.0, 384.0),
    ]);
    stage.piece(&tail, Paper::BerryDark, head);
    let hood = smooth(&[
        (322.0, 56.0),
        (408.0, 74.0),
        (452.0, 148.0),
        (448.0, 250.0),
        (404.0, 350.0),
        (322.0, 392.0),
        (240.0, 350.0),
        (194.0, 250.0),
        (192.0, 148.0),
        (236.0, 74.0),
    ]);
    stage.piece(&hood, Paper::Berry, head);
    for index in 0..30_u64 {
        let ring = 152.0 + 14.0 * (index % 2) as f32;
        let turn = index as f32 / 30.0 * core::f32::consts::TAU;
        let (x, y) = (322.0 + turn.cos() * ring * 0.78, 218.0 + turn.sin() * ring);
        if y < 330.0 && index % 2 == 0 {
            stage.sheet(&oval(x * 0.985 + 5.0, y, 6.5, 6.5), Paper::Cream, head);
        }
    }
}

fn ida_face(stage: &mut Stage<'_>, head: Transform) {
    let face = smooth(&[
        (322.0, 104.0),
        (386.0, 122.0),
        (412.0, 188.0),
        (404.0, 262.0),
        (366.0, 322.0),
        (326.0, 338.0),
        (282.0, 322.0),
        (242.0, 262.0),
        (234.0, 188.0),
        (258.0, 122.0),
    ]);
    stage.piece(&face, Paper::Skin, head);
    let fringe = smooth(&[
        (240.0, 176.0),
        (252.0, 116.0),
        (322.0, 98.0),
        (392.0, 116.0),
        (406.0, 172.0),
        (372.0, 140.0),
        (330.0, 152.0),
        (296.0, 132.0),
        (266.0, 152.0),
    ]);
    stage.piece(&fringe, Paper::Hair, head);
    for x in [264.0, 382.0] {
        stage.fill(&oval(x, 262.0, 22.0, 15.0), [214, 100, 84, 120], head);
    }
    for (x, y) in [
        (282.0, 246.0),
        (296.0, 254.0),
        (352.0, 254.0),
        (366.0, 246.0),
    ] {
        stage.fill(&oval(x, y, 2.4, 2.4), [176, 112, 76, 190], head);
    }
}

fn ida_scarf_front(stage: &mut Stage<'_>, head: Transform, wind: f32) {
    let w = wind * 5.0;
    stage.piece(
        &poly(&[
            (318.0, 366.0),
            (270.0 - w, 452.0),
            (304.0 - w, 444.0),
            (322.0, 470.0),
            (338.0, 372.0),
        ]),
        Paper::BerryDark,
        head,
    );
    stage.piece(
        &poly(&[
            (330.0, 368.0),
            (392.0 + w, 438.0),
            (362.0 + w, 440.0),
            (354.0, 466.0),
            (318.0, 380.0),
        ]),
        Paper::Berry,
        head,
    );
    stage.piece(
        &smooth(&[
            (296.0, 366.0),
            (322.0, 348.0),
            (352.0, 364.0),
            (346.0, 388.0),
            (320.0, 396.0),
            (298.0, 386.0),
        ]),
        Paper::Berry,
        head,
    );
}

/// Eyes, brows, nose and mouth about a middle between the eyes.
fn features(stage: &mut Stage<'_>, head: Transform, middle: (f32, f32), look: &Look) {
    let (x, y) = middle;
    for side in [-1.0, 1.0] {
        let ex = x + side * 44.0;
        stage.piece(&oval(ex, y, 22.0, 19.0), Paper::Cream, head);
        let (px, py) = (ex + look.gaze.0 * 9.0, y + look.gaze.1 * 7.0);
        stage.fill(&oval(px, py, 11.0, 11.5), [62, 48, 44, 255], head);
        stage.fill(
            &oval(px - 3.6, py - 4.0, 3.2, 3.2),
            [250, 244, 228, 255],
            head,
        );
        if look.lids > 0.03 {
            let drop = -20.0 + 40.0 * look.lids;
            let lid = smooth(&[
                (ex - 25.0, y - 6.0),
                (ex - 15.0, y - 23.0),
                (ex + 15.0, y - 23.0),
                (ex + 25.0, y - 6.0),
                (ex + 14.0, y + drop),
                (ex - 14.0, y + drop),
            ]);
            stage.sheet(&lid, Paper::SkinWarm, head);
        }
        let lift = y - 34.0 - 9.0 * look.brow;
        let inner = lift - 12.0 * look.worry;
        let outer = lift + 7.0 * look.worry + 4.0;
        let brow = curve(&[
            (ex - side * 20.0, inner),
            (ex, lift - 5.0),
            (ex + side * 24.0, outer),
        ]);
        stage.line(&brow, 7.0, [78, 52, 40, 255], head);
    }
    let nose = smooth(&[
        (x + 2.0, y + 8.0),
        (x + 17.0, y + 46.0),
        (x + 6.0, y + 56.0),
        (x - 9.0, y + 51.0),
        (x - 4.0, y + 28.0),
    ]);
    stage.piece(&nose, Paper::SkinWarm, head);
    mouth(stage, head, (x + 2.0, y + 84.0), look);
}

fn mouth(stage: &mut Stage<'_>, head: Transform, at: (f32, f32), look: &Look) {
    let (x, y) = at;
    let bend = look.smile * 13.0;
    let gape = look.open * 13.0;
    if gape > 1.0 {
        let lips = smooth(&[
            (x - 20.0, y),
            (x, y - gape * 0.7),
            (x + 20.0, y),
            (x, y + gape),
        ]);
        stage.sheet(&lips, Paper::BerryDark, head);
    } else {
        let lips = curve(&[
            (x - 28.0, y - bend * 0.7),
            (x - 10.0, y + bend * 0.5),
            (x + 10.0, y + bend * 0.5),
            (x + 28.0, y - bend * 0.7),
        ]);
        stage.line(&lips, 7.0, [150, 52, 56, 255], head);
    }
}

pub(super) fn play_bram(stage: &mut Stage<'_>, set: &Set, moment: &Moment) {
    let t = moment.time;
    set.water[0].lay_all(stage, moment.river());
    stage.lift = 5.0;
    stage.lay(&set.layers[0], 470, (3.0 * (t * 0.1).sin()).round() as i32);
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
