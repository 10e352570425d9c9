//! Bram and Ida: paper puppets a hundred units tall, feet at the origin,
//! facing right, their limbs held by brass fasteners.

mod heads;

use heads::{bram_head, ida_head};
use tiny_skia::Transform;

use crate::paper::shape::{curve, limb, oval, poly, smooth};
use crate::paper::{Paper, Stage, turned};
use crate::world::{Held, Pose};

/// Where the arms hang. Unit: of the puppet.
pub(crate) const SHOULDER: (f32, f32) = (0.0, -70.0);
/// Length of upper arm and forearm to the palm. Unit: of the puppet.
pub(crate) const ARM: (f32, f32) = (16.0, 16.5);
/// Where the body bends. Unit: of the puppet.
pub(crate) const HIP: (f32, f32) = (0.0, -40.0);
const LEG: (f32, f32) = (18.0, 18.0);

/// What a puppet wears.
struct Dress {
    sleeve: Paper,
    sleeve_far: Paper,
    leg: Paper,
    leg_far: Paper,
    boot: Paper,
}

const BRAM: Dress = Dress {
    sleeve: Paper::Coat,
    sleeve_far: Paper::CoatShade,
    leg: Paper::Trouser,
    leg_far: Paper::Iron,
    boot: Paper::Boot,
};
const IDA: Dress = Dress {
    sleeve: Paper::Mustard,
    sleeve_far: Paper::MustardShade,
    leg: Paper::Plum,
    leg_far: Paper::BerryDark,
    boot: Paper::Boot,
};

/// The frame of the upper body: what leans about the hips.
pub(crate) fn trunk(at: Transform, pose: &Pose) -> Transform {
    turned(at, HIP.0, HIP.1 - pose.hop, pose.lean).pre_translate(-HIP.0, -HIP.1)
}

/// Lays Bram.
pub(crate) fn bram(stage: &mut Stage<'_>, at: Transform, pose: &Pose) {
    let trunk = trunk(at, pose);
    arm(stage, trunk, pose.far_arm, (&BRAM, true), far_held(pose));
    legs(stage, at, pose, &BRAM);
    let coat = smooth(&[
        (-7.5, -76.0),
        (6.0, -76.5),
        (10.5, -68.0),
        (11.5, -52.0),
        (13.0, -33.0),
        (0.0, -30.5),
        (-12.5, -32.5),
        (-11.0, -54.0),
        (-11.0, -69.0),
    ]);
    stage.piece(&coat, Paper::Coat, trunk);
    stage.line(
        &curve(&[(3.5, -74.0), (5.0, -55.0), (5.5, -33.0)]),
        0.8,
        [20, 25, 38, 200],
        trunk,
    );
    for y in [-66.0, -57.0, -48.0] {
        stage.sheet(&oval(7.6, y, 1.3, 1.3), Paper::Brass, trunk);
    }
    bram_head(stage, turned(trunk, 0.5, -78.0, pose.head), pose);
    arm(stage, trunk, pose.near_arm, (&BRAM, false), near_held(pose));
}

/// Lays Ida.
pub(crate) fn ida(stage: &mut Stage<'_>, at: Transform, pose: &Pose) {
    let trunk = trunk(at, pose);
    arm(stage, trunk, pose.far_arm, (&IDA, true), Held::Nothing);
    legs(stage, at, pose, &IDA);
    let blow = pose.wind;
    let coat = smooth(&[
        (-5.5, -75.5),
        (5.0, -76.0),
        (9.0, -66.0),
        (11.0, -50.0),
        (15.0 - blow * 1.5, -26.0),
        (0.0, -23.5),
        (-16.0 - blow * 4.0, -26.0 - blow * 1.5),
        (-10.0, -52.0),
        (-9.0, -68.0),
    ]);
    stage.piece(&coat, Paper::Mustard, trunk);
    stage.line(
        &curve(&[(3.0, -72.0), (5.0, -52.0), (6.0, -26.0)]),
        0.8,
        [160, 104, 22, 220],
        trunk,
    );
    stage.sheet(
        &poly(&[(-7.0, -46.0), (-0.5, -45.2), (-0.8, -39.5), (-7.4, -40.4)]),
        Paper::MustardShade,
        trunk,
    );
    ida_head(stage, turned(trunk, 0.5, -77.5, pose.head), pose);
    arm(stage, trunk, pose.near_arm, (&IDA, false), pose.held);
}

fn far_held(pose: &Pose) -> Held {
    if pose.held == Held::Watch {
        Held::Watch
    } else {
        Held::Nothing
    }
}

fn near_held(pose: &Pose) -> Held {
    if pose.held == Held::Watch {
        Held::Nothing
    } else {
        pose.held
    }
}

fn arm(
    stage: &mut Stage<'_>,
    trunk: Transform,
    bend: (f32, f32),
    dress: (&Dress, bool),
    held: Held,
) {
    let (dress, far) = dress;
    let sleeve = if far { dress.sleeve_far } else { dress.sleeve };
    let side = if far { 2.5 } else { -1.5 };
    let upper = turned(trunk, SHOULDER.0 + side, SHOULDER.1, -bend.0);
    let lower = turned(upper, 0.0, ARM.0, -bend.1);
    if held != Held::Nothing {
        thing_in_hand(stage, lower, bend.0 + bend.1, held);
    }
    stage.sheet(&oval(0.0, ARM.1, 3.3, 3.5), Paper::Skin, lower);
    stage.piece(&limb(ARM.1 - 4.5, 3.7, 3.6), sleeve, lower);
    stage.piece(&limb(ARM.0, 4.4, 3.7), sleeve, upper);
    stage.fastener(0.0, ARM.0, 1.15, upper);
    if !far {
        stage.fastener(0.0, 0.0, 1.3, upper);
    }
}

fn thing_in_hand(stage: &mut Stage<'_>, lower: Transform, bent: f32, held: Held) {
    // Held level, whatever the arm does.
    let palm = turned(lower, 0.0, ARM.1 + 1.5, bent);
    match held {
        Held::Loaf => loaf(stage, palm, 1.0),
        Held::HalfLoaf => half_loaf(stage, palm),
        Held::Watch => {
            stage.piece(&oval(0.0, 1.0, 3.0, 3.0), Paper::Brass, palm);
            stage.sheet(&oval(0.0, 1.0, 2.0, 2.0), Paper::Cream, palm);
        }
        Held::Nothing => {}
    }
}

/// A round-ended loaf with three cuts, 22 units long at size 1.
pub(crate) fn loaf(stage: &mut Stage<'_>, at: Transform, size: f32) {
    let at = at.pre_scale(size, size);
    let body = smooth(&[
        (-11.0, 0.5),
        (-9.0, -4.6),
        (0.0, -6.4),
        (9.0, -4.6),
        (11.0, 0.5),
        (8.0, 4.2),
        (-8.0, 4.2),
    ]);
    stage.piece(&body, Paper::Crust, at);
    for x in [-5.6, 0.0, 5.6] {
        stage.line(
            &curve(&[(x - 1.6, 1.4), (x + 0.4, -1.4), (x + 1.2, -4.6)]),
            1.5,
            [239, 221, 178, 255],
            at,
        );
    }
}

fn half_loaf(stage: &mut Stage<'_>, at: Transform) {
    let body = smooth(&[
        (-6.0, -5.0),
        (3.0, -4.6),
        (5.6, 0.0),
        (3.0, 4.0),
        (-6.0, 4.2),
    ]);
    stage.piece(&body, Paper::Crust, at);
    stage.sheet(&oval(-5.4, -0.4, 2.2, 4.6), Paper::Crumb, at);
}

fn legs(stage: &mut Stage<'_>, at: Transform, pose: &Pose, dress: &Dress) {
    leg(
        stage,
        at,
        pose,
        pose.far_leg,
        (dress.leg_far, dress.boot, 3.0),
    );
    leg(
        stage,
        at,
        pose,
        pose.near_leg,
        (dress.leg, dress.boot, -3.0),
    );
}

fn leg(
    stage: &mut Stage<'_>,
    at: Transform,
    pose: &Pose,
    bend: (f32, f32),
    look: (Paper, Paper, f32),
) {
    let (paper, boot, side) = look;
    let thigh = turned(at, HIP.0 + side, HIP.1 - pose.hop + 0.5, -bend.0);
    let shin = turned(thigh, 0.0, LEG.0, bend.1);
    // The sole keeps nearly level unless the foot is swung far.
    let level = (bend.0 - bend.1).clamp(-28.0, 34.0);
    let foot = turned(shin, 0.0, LEG.1, level * 0.72);
    let shoe = smooth(&[
        (-3.8, -5.0),
        (2.6, -5.0),
        (4.0, -1.8),
        (9.0, 0.2),
        (9.4, 3.6),
        (-4.2, 3.6),
    ]);
    stage.piece(&shoe, boot, foot);
    stage.piece(&limb(LEG.1 - 2.5, 4.0, 3.4), paper, shin);
    stage.piece(&limb(LEG.0, 5.0, 4.0), paper, thigh);
    stage.fastener(0.0, LEG.0, 1.15, thigh);
}
