//! Setup 4A: Ida sees the ferry go.

use tiny_skia::Transform;

use super::super::{Moment, Set};
use super::{Look, back, blink, features};
use crate::paper::shape::{oval, poly, smooth};
use crate::paper::{Paper, Papers, Stage, turned};
use crate::world::motion::{bump, ease};

pub(in super::super) fn build_ida(papers: &Papers) -> Set {
    back(papers, 143, 286.0)
}

pub(in super::super) fn play_ida(stage: &mut Stage<'_>, set: &Set, moment: &Moment) {
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
