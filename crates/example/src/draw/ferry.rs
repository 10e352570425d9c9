//! The chain ferry: 200 units long, its waterline at the origin, side on or
//! stern on.

use tiny_skia::Transform;

use crate::paper::shape::{curve, oval, poly, sheet, smooth};
use crate::paper::{Paper, Stage, turned};

/// Height of the deck over the waterline. Unit: of the ferry.
pub(crate) const DECK: f32 = -22.0;

/// How the ferry looks just now.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Trim {
    /// Ramp of the left end, degrees up from the level.
    pub(crate) ramp: f32,
    /// Puffs of smoke: time of the scene, or none at rest.
    pub(crate) smoke: Option<f32>,
    /// White water behind, -1 to the left, 1 to the right, 0 none.
    pub(crate) wash: f32,
    pub(crate) time: f32,
}

/// Lays the ferry side on, all but the people.
pub(crate) fn side(stage: &mut Stage<'_>, at: Transform, trim: Trim) {
    if let Some(time) = trim.smoke {
        smoke(stage, at.pre_translate(62.0, -104.0), time);
    }
    chains(stage, at, trim);
    ramp(stage, at.pre_translate(-98.0, DECK + 2.0), trim.ramp, -1.0);
    ramp(stage, at.pre_translate(98.0, DECK + 2.0), 34.0, 1.0);
    stage.piece(&sheet(55.0, -104.0, 69.0, -60.0, 0.5), Paper::Iron, at);
    stage.sheet(&sheet(55.0, -98.0, 69.0, -92.0, 0.2), Paper::HullBand, at);
    cabin(stage, at);
    let hull = poly(&[
        (-101.0, DECK),
        (101.0, DECK + 0.6),
        (90.0, 15.0),
        (-90.0, 15.0),
    ]);
    stage.piece(&hull, Paper::Hull, at);
    stage.piece(
        &poly(&[
            (-101.0, DECK - 1.0),
            (101.0, DECK),
            (99.6, DECK + 5.0),
            (-99.4, DECK + 5.0),
        ]),
        Paper::Cream,
        at,
    );
    stage.sheet(
        &poly(&[(-95.6, -2.0), (95.6, -1.4), (93.2, 5.0), (-93.2, 5.0)]),
        Paper::HullBand,
        at,
    );
    for x in [-70.0, -35.0, 0.0, 35.0, 70.0] {
        stage.piece(&oval(x, -10.0, 4.4, 4.4), Paper::Iron, at);
        stage.sheet(&oval(x, -10.0, 2.2, 2.2), Paper::Hull, at);
    }
    if trim.wash.abs() > 0.05 {
        wash(stage, at, trim);
    }
}

/// The rail along the near side, laid after the people.
pub(crate) fn rail(stage: &mut Stage<'_>, at: Transform, from: f32, to: f32) {
    let mut x = from;
    while x <= to + 0.1 {
        stage.piece(
            &sheet(x - 1.1, DECK - 21.0, x + 1.1, DECK + 1.0, 0.2),
            Paper::Iron,
            at,
        );
        x += 13.0;
    }
    for y in [DECK - 21.0, DECK - 11.0] {
        stage.piece(
            &sheet(from - 2.0, y - 1.0, to + 2.0, y + 1.0, 0.2),
            Paper::Iron,
            at,
        );
    }
}

fn ramp(stage: &mut Stage<'_>, hinge: Transform, up: f32, side: f32) {
    let at = turned(hinge, 0.0, 0.0, up * -side).pre_scale(side, 1.0);
    stage.piece(
        &poly(&[(-2.0, -2.6), (32.0, -1.6), (33.0, 1.6), (-2.0, 3.0)]),
        Paper::PlankDark,
        at,
    );
    stage.piece(&sheet(0.0, -3.4, 31.0, -0.8, 0.3), Paper::PlankLight, at);
}

fn cabin(stage: &mut Stage<'_>, at: Transform) {
    stage.piece(&sheet(14.0, -70.0, 84.0, DECK + 2.0, 0.7), Paper::Cabin, at);
    stage.sheet(
        &sheet(66.0, -69.0, 83.4, DECK + 1.0, 0.2),
        Paper::CabinShade,
        at,
    );
    for x in [21.0, 43.0] {
        stage.piece(
            &sheet(x - 1.4, -62.4, x + 16.4, -43.6, 0.3),
            Paper::Cream,
            at,
        );
        stage.sheet(&sheet(x, -61.0, x + 15.0, -45.0, 0.3), Paper::Glass, at);
        stage.line(
            &curve(&[(x + 3.0, -47.0), (x + 9.0, -59.0)]),
            1.3,
            [190, 214, 210, 160],
            at,
        );
    }
    stage.piece(&sheet(69.0, -60.0, 80.0, DECK + 1.0, 0.3), Paper::Roof, at);
    stage.piece(
        &poly(&[(8.0, -68.0), (12.0, -77.5), (86.0, -77.0), (90.0, -67.6)]),
        Paper::Roof,
        at,
    );
    let ring = oval(30.0, -33.5, 6.2, 6.2);
    stage.piece(&ring, Paper::Cream, at);
    stage.sheet(&oval(30.0, -33.5, 3.0, 3.0), Paper::CabinShade, at);
    for turn in [20.0, 110.0, 200.0, 290.0] {
        let part = turned(at, 30.0, -33.5, turn);
        stage.sheet(&sheet(3.2, -1.3, 6.2, 1.3, 0.0), Paper::HullBand, part);
    }
}

/// Puffs that rise, grow and drift off.
pub(crate) fn smoke(stage: &mut Stage<'_>, at: Transform, time: f32) {
    // Oldest first, so that a young puff lies over it.
    let mut ages: Vec<(f32, u32)> = (0..6)
        .map(|puff| ((time * 0.9 + puff as f32 * 15.0).rem_euclid(90.0), puff))
        .collect();
    ages.sort_by(|a, b| b.0.total_cmp(&a.0));
    for (age, puff) in ages {
        let r = 3.5 + age * 0.12;
        let x = age * age * 0.0075 + (age * 0.13 + puff as f32 * 2.4).sin() * (1.0 + age * 0.07);
        let y = -age * 0.85 + age * age * 0.0042;
        let shape = smooth(&[
            (x - r, y),
            (x - r * 0.3, y - r),
            (x + r * 0.8, y - r * 0.7),
            (x + r, y + r * 0.3),
            (x, y + r * 0.8),
        ]);
        let paper = if puff % 2 == 0 {
            Paper::Smoke
        } else {
            Paper::Cloud
        };
        stage.piece(&shape, paper, at);
    }
}

fn wash(stage: &mut Stage<'_>, at: Transform, trim: Trim) {
    let side = trim.wash.signum();
    for index in 0..4 {
        let beat = (trim.time * 0.5 + index as f32 * 1.7).sin();
        let x = side * (100.0 + index as f32 * 17.0) + beat * 4.0;
        let r = (13.0 - index as f32 * 2.2) * trim.wash.abs();
        let foam = smooth(&[
            (x - r * 1.5, 8.0),
            (x - r * 0.6, 3.0 - r * 0.4 * (1.0 + beat * 0.4)),
            (x + r * 0.5, 4.0 - r * 0.5 * (1.0 - beat * 0.4)),
            (x + r * 1.5, 8.0),
            (x, 12.0),
        ]);
        stage.piece(&foam, Paper::Foam, at);
    }
}

/// Lays the ferry stern on, as it comes towards the landing.
pub(crate) fn end_on(stage: &mut Stage<'_>, base: Transform, trim: Trim) {
    if let Some(time) = trim.smoke {
        smoke(stage, base.pre_translate(24.0, -112.0), time);
    }
    stage.piece(&sheet(18.0, -112.0, 32.0, -70.0, 0.5), Paper::Iron, base);
    stage.sheet(
        &sheet(18.0, -106.0, 32.0, -100.0, 0.2),
        Paper::HullBand,
        base,
    );
    stage.piece(&sheet(-4.0, -78.0, 46.0, DECK, 0.6), Paper::Cabin, base);
    for x in [2.0, 24.0] {
        stage.piece(
            &sheet(x - 1.4, -69.4, x + 17.4, -48.6, 0.3),
            Paper::Cream,
            base,
        );
        stage.sheet(&sheet(x, -68.0, x + 16.0, -50.0, 0.3), Paper::Glass, base);
    }
    stage.piece(
        &poly(&[(-10.0, -76.0), (-5.0, -85.0), (47.0, -85.0), (52.0, -76.0)]),
        Paper::Roof,
        base,
    );
    let hull = smooth(&[
        (-56.0, DECK - 2.0),
        (56.0, DECK - 2.0),
        (50.0, 8.0),
        (0.0, 14.0),
        (-50.0, 8.0),
    ]);
    stage.piece(&hull, Paper::Hull, base);
    stage.sheet(
        &poly(&[(-53.0, -6.0), (53.0, -6.0), (51.0, 2.0), (-51.0, 2.0)]),
        Paper::HullBand,
        base,
    );
    stage.piece(
        &poly(&[
            (-44.0, DECK + 3.0),
            (44.0, DECK + 3.0),
            (40.0, DECK - 26.0),
            (-40.0, DECK - 26.0),
        ]),
        Paper::PlankLight,
        base,
    );
    for x in [-27.0, -9.0, 9.0, 27.0] {
        stage.line(
            &curve(&[(x, DECK + 2.0), (x * 0.92, DECK - 25.0)]),
            1.0,
            [120, 88, 56, 220],
            base,
        );
    }
}

/// The water pushed up before the ferry as it comes.
///
/// Laid after the strips of river before it: a strip that came to lie behind
/// the hull would else uncover all of the foam between two frames, which looks
/// like a stop of the camera.
pub(crate) fn bow_wave(stage: &mut Stage<'_>, base: Transform, trim: Trim) {
    let beat = (trim.time * 0.45).sin();
    for side in [-1.0, 1.0] {
        let flip = base.pre_scale(side, 1.0);
        for index in 0..3 {
            let step = index as f32 * 24.0 * trim.wash.abs();
            let foam = smooth(&[
                (10.0 + step, 16.0),
                (26.0 + step, 4.0 + beat * side * 2.0),
                (46.0 + step, 9.0 + index as f32),
                (62.0 + step + beat * 3.0, 19.0 + index as f32 * 2.0),
                (30.0 + step, 21.0 + index as f32 * 2.0),
            ]);
            stage.piece(&foam, Paper::Foam, flip);
        }
    }
    let middle = smooth(&[
        (-40.0, 14.0),
        (-18.0, 7.0 - beat),
        (0.0, 10.0),
        (18.0, 7.0 + beat),
        (40.0, 14.0),
        (0.0, 22.0),
    ]);
    stage.piece(&middle, Paper::Foam, base);
}

/// The chain that comes up out of the river at both ends of the ferry.
fn chains(stage: &mut Stage<'_>, at: Transform, trim: Trim) {
    let run = if trim.smoke.is_some() {
        (trim.time * 0.22).rem_euclid(1.0)
    } else {
        0.0
    };
    for side in [-1.0, 1.0] {
        for link in 0..7 {
            let part = (link as f32 + run * side).clamp(0.0, 7.0) / 7.0;
            let x = side * (97.0 + 48.0 * part);
            let y = -9.0 + 24.0 * part * part;
            let place = turned(at, x, y, side * (8.0 + 44.0 * part));
            stage.line(&oval(0.0, 0.0, 3.0, 1.5), 1.4, [42, 48, 58, 255], place);
        }
    }
}
