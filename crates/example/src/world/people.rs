//! How Bram and Ida hold themselves.

use super::motion::{bump, ease, mix, mix2};
use super::things::{bell, lever};

/// What a hand has hold of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Held {
    Nothing,
    Loaf,
    HalfLoaf,
    Watch,
}

/// A puppet's joints. Unit: degrees; positive goes the way the puppet faces.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Pose {
    pub(crate) lean: f32,
    pub(crate) head: f32,
    pub(crate) near_arm: (f32, f32),
    pub(crate) far_arm: (f32, f32),
    /// Thigh forward, knee bent back.
    pub(crate) near_leg: (f32, f32),
    pub(crate) far_leg: (f32, f32),
    /// Height above the ground, parts of a hundred of the puppet's height.
    pub(crate) hop: f32,
    pub(crate) blink: bool,
    pub(crate) held: Held,
    /// Wind in scarf and coat, -1 to 1.
    pub(crate) wind: f32,
}

impl Pose {
    /// Standing at ease, breathing a little.
    pub(crate) fn standing(time: f32) -> Self {
        let breath = (time * 0.16).sin();
        Self {
            lean: breath * 0.6,
            head: (time * 0.05).sin() * 2.5,
            near_arm: (-6.0 + breath, 14.0),
            far_arm: (5.0 - breath, 12.0),
            near_leg: (-3.0, 1.0),
            far_leg: (4.0, 2.0),
            hop: 0.0,
            blink: (time.max(0.0) as u32 + 11) % 61 < 3,
            held: Held::Nothing,
            wind: (time * 0.13).sin() * 0.5,
        }
    }

    /// A step of a walk; `phase` in whole turns, two steps a turn.
    fn walking(time: f32, phase: f32, stride: f32) -> Self {
        let turn = phase * core::f32::consts::TAU;
        let leg = |a: f32| {
            (
                a.sin() * stride,
                (6.0 + 30.0 * (a + 1.2).cos().max(0.0)) * stride / 26.0,
            )
        };
        Self {
            lean: stride * 0.16,
            near_leg: leg(turn),
            far_leg: leg(turn + core::f32::consts::PI),
            near_arm: (-turn.sin() * stride * 0.9, 22.0),
            far_arm: (turn.sin() * stride * 0.9, 22.0),
            hop: turn.cos().abs() * stride * 0.07,
            ..Self::standing(time)
        }
    }
}

/// Angles of upper and lower arm that bring a hand to `target`.
///
/// Both places in the puppet's own measure, facing right. The elbow drops back.
pub(crate) fn reach(
    shoulder: (f32, f32),
    target: (f32, f32),
    upper: f32,
    lower: f32,
) -> (f32, f32) {
    let (dx, dy) = (target.0 - shoulder.0, target.1 - shoulder.1);
    let far = (dx * dx + dy * dy)
        .sqrt()
        .clamp((upper - lower).abs() + 0.1, upper + lower - 0.1);
    let towards = dx.atan2(dy);
    let at_shoulder = ((upper * upper + far * far - lower * lower) / (2.0 * upper * far)).acos();
    let at_elbow = ((upper * upper + lower * lower - far * far) / (2.0 * upper * lower)).acos();
    (
        (towards - at_shoulder).to_degrees(),
        180.0 - at_elbow.to_degrees(),
    )
}

/// Ida at a full run. `phase`: whole turns, two steps a turn.
pub(crate) fn ida_runs(time: f32, phase: f32) -> Pose {
    let turn = phase * core::f32::consts::TAU;
    let leg = |a: f32| (a.sin() * 44.0 + 6.0, 16.0 + 62.0 * (a + 1.1).cos().max(0.0));
    Pose {
        lean: 13.0 + (turn * 2.0).sin() * 2.0,
        head: -6.0,
        near_leg: leg(turn),
        far_leg: leg(turn + core::f32::consts::PI),
        near_arm: (28.0 + turn.sin() * -8.0, 78.0),
        far_arm: (turn.sin() * 50.0, 70.0),
        hop: (turn * 2.0 + 0.6).sin().max(-0.3) * 4.5 + 1.4,
        held: Held::Loaf,
        wind: 0.9 + 0.3 * (time * 0.7).sin(),
        ..Pose::standing(time)
    }
}

/// Bram at the bow in scene 3, but for the arm that goes to the rope.
///
/// Also tells how much that arm is on the rope, 0 to 1.
pub(crate) fn bram_casts_off(time: f32) -> (Pose, f32) {
    let mut pose = Pose::standing(time);
    let watch = bump(62.0, 108.0, 16.0, time);
    pose.far_arm = (mix(5.0, 38.0, watch), mix(12.0, 92.0, watch));
    pose.head += 16.0 * watch;
    if watch > 0.5 {
        pose.held = Held::Watch;
    }
    let down = bump(236.0, 290.0, 34.0, time);
    let on_rope = bump(236.0, 333.0, 22.0, time);
    pose.lean += 30.0 * down + 6.0 * on_rope;
    pose.head += 8.0 * on_rope;
    pose.near_leg = (mix(-3.0, 30.0, down), mix(1.0, 42.0, down));
    pose.far_leg = (mix(4.0, -12.0, down), mix(2.0, 12.0, down));
    pose.hop -= 3.0 * down;
    // Under way he touches his cap to the empty landing.
    let salute = bump(430.0, 462.0, 16.0, time);
    pose.near_arm = (mix(pose.near_arm.0, 62.0, salute), mix(14.0, 118.0, salute));
    (pose, on_rope)
}

/// Ida on the landing of scene 4: place along the landing 0 to 1, facing, pose.
pub(crate) fn ida_at_landing(time: f32) -> (f32, f32, Pose) {
    if time < 96.0 {
        let place = mix(-0.75, 0.93, ((time - 14.0) / 82.0).clamp(0.0, 1.0));
        let mut pose = ida_runs(time, time * 0.062);
        if time < 14.0 {
            pose = Pose::standing(time);
        }
        return (place, 1.0, pose);
    }
    let walk = ease(292.0, 372.0, time);
    let place = mix(mix(0.93, 0.97, ease(96.0, 112.0, time)), 0.6, walk);
    let mut pose = if (292.0..372.0).contains(&time) {
        Pose::walking(time, (time - 292.0) * 0.034, 24.0)
    } else {
        Pose::standing(time)
    };
    pose.held = Held::Loaf;
    pose.near_arm = (26.0, 74.0);
    if time < 290.0 {
        stops_and_sees(&mut pose, time);
    } else {
        rings(&mut pose, time);
    }
    let facing = if walk > 0.01 { -1.0 } else { 1.0 };
    (place, facing, pose)
}

/// She pulls up, waves, and lets the arm sink.
fn stops_and_sees(pose: &mut Pose, time: f32) {
    let brake = 1.0 - ease(96.0, 124.0, time);
    pose.lean = -12.0 * brake + 3.0 * ease(200.0, 240.0, time);
    pose.near_leg = (28.0 * brake - 3.0, 6.0 * brake);
    pose.far_leg = (-14.0 * brake + 4.0, 20.0 * brake);
    let wave = bump(140.0, 212.0, 14.0, time);
    pose.far_arm = (
        mix(5.0, 152.0 + 14.0 * (time * 0.55).sin(), wave),
        mix(12.0, 18.0, wave),
    );
    pose.head = -8.0 * wave + 14.0 * ease(222.0, 250.0, time);
}

/// She goes to the bell and pulls the cord three times.
fn rings(pose: &mut Pose, time: f32) {
    let on_cord = ease(372.0, 400.0, time) * (1.0 - ease(500.0, 530.0, time));
    let pull = bell(time).pull;
    pose.far_arm = (
        mix(pose.far_arm.0, 138.0 - 58.0 * pull, on_cord),
        mix(pose.far_arm.1, 16.0 + 40.0 * pull, on_cord),
    );
    pose.lean += on_cord * (7.0 * pull - 3.0);
    pose.head -= 14.0 * on_cord;
}

/// Bram by the lever in scene 5: facing and pose.
pub(crate) fn bram_at_lever(time: f32) -> (f32, Pose) {
    let mut pose = Pose::standing(time);
    pose.far_arm = (34.0, 30.0);
    let hears = bump(96.0, 128.0, 10.0, time);
    pose.head -= 10.0 * hears;
    let turned = ease(128.0, 140.0, time) * (1.0 - ease(226.0, 238.0, time));
    let shade = bump(158.0, 200.0, 14.0, time);
    pose.near_arm = (mix(-6.0, 78.0, shade), mix(14.0, 108.0, shade));
    let pull = bump(252.0, 290.0, 14.0, time);
    pose.lean += pull * (8.0 - 18.0 * lever(time));
    pose.head += 6.0 * pull;
    let smile = ease(300.0, 320.0, time);
    pose.head -= 8.0 * smile;
    let facing = if turned > 0.5 { -1.0 } else { 1.0 };
    (facing, pose)
}

/// Bram on deck in scene 6, facing the landing.
pub(crate) fn bram_aboard(time: f32) -> Pose {
    let mut pose = Pose::standing(time + 40.0);
    let takes = bump(120.0, 250.0, 26.0, time);
    pose.near_arm = (mix(-6.0, 48.0, takes), mix(14.0, 34.0, takes));
    if (158.0..300.0).contains(&time) {
        pose.held = Held::HalfLoaf;
    }
    // He tries it, and is glad.
    let bite = bump(196.0, 226.0, 12.0, time);
    pose.near_arm = mix2(pose.near_arm, (62.0, 116.0), bite);
    pose.head += 6.0 * bite - 5.0 * ease(226.0, 250.0, time);
    // A hand to help her over.
    let help = bump(336.0, 424.0, 22.0, time);
    pose.far_arm = mix2(pose.far_arm, (62.0, 16.0), help);
    pose.lean += 7.0 * help + 4.0 * takes;
    pose
}

/// Ida in scene 6: way from landing (0) to deck (1), height over both, pose.
pub(crate) fn ida_aboard(time: f32) -> (f32, f32, Pose) {
    let offer = bump(52.0, 250.0, 26.0, time);
    let mut pose = Pose::standing(time);
    let over = ease(356.0, 432.0, time);
    if (356.0..432.0).contains(&time) {
        // One long step: the leading foot is down at the mark, 415.
        let lead = ease(356.0, 392.0, time) * (1.0 - ease(404.0, 432.0, time));
        pose.near_leg = (52.0 * lead, 34.0 * lead * (1.0 - ease(392.0, 415.0, time)));
        pose.far_leg = (
            -30.0 * ease(384.0, 410.0, time) * (1.0 - ease(416.0, 432.0, time)),
            18.0 * lead,
        );
        pose.lean = 10.0 * lead;
        pose.hop = 5.0 * bump(372.0, 398.0, 16.0, time);
    }
    pose.held = if time < 150.0 {
        Held::Loaf
    } else {
        Held::HalfLoaf
    };
    pose.near_arm = mix2((26.0, 74.0), (56.0, 26.0), offer);
    pose.far_arm = mix2((10.0, 18.0), (50.0, 40.0), bump(126.0, 160.0, 14.0, time));
    pose.head += -6.0 * offer + 5.0 * (time * 0.3).sin() * bump(240.0, 300.0, 20.0, time);
    (over, 0.0, pose)
}
