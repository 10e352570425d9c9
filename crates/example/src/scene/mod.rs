//! The setups: for each, the set as built and how a moment of it is played.

mod aboard;
mod bell;
mod cast_off;
mod crossing;
mod face;
mod feet;
mod hands;
mod landing;
mod late;
mod lever;
mod loaf;
mod run;
mod title;

use tiny_skia::{Color, Pixmap, Transform};

use crate::draw::figure::{ARM, SHOULDER, trunk};
use crate::draw::water::Water;
use crate::log::ExampleTake;
use crate::noise::signed;
use crate::paper::{Papers, Stage};
use crate::world::{Pose, reach};
use crate::{HEIGHT, WIDTH};

/// The table beyond either side of the picture, pixels: room to frame a take.
pub(crate) const TABLE_SPARE: u32 = 16;
/// The background beyond either side of the picture, pixels.
const BACK_SPARE: u32 = 40;

/// Every camera position of the film, by its slate.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Setup {
    Landing,
    RunFar,
    RunNear,
    Feet,
    CastOff,
    CastOffNear,
    Bollard,
    Late,
    IdaFace,
    Bell,
    Lever,
    Seen,
    Backs,
    Loaf,
    BramFace,
    Hands,
    Crossing,
    MainTitle,
    EndTitle,
}

/// What a camera sees at one frame.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Moment {
    /// Time on the scene's clock, frames.
    pub(crate) time: f32,
    /// Frames since the take began.
    pub(crate) since: u32,
    /// Take of the setup, from 1.
    pub(crate) take: u8,
    /// Frame of the roll.
    pub(crate) frame: u32,
}

impl Moment {
    /// Time of the river, which is never the same in two takes.
    pub(crate) fn river(&self) -> f32 {
        self.time + 211.0 * f32::from(self.take - 1)
    }

    /// Paper moved by hand is never quite still: limbs shift a hair every
    /// third frame, another way for each puppet.
    pub(crate) fn restless(&self, mut pose: Pose, puppet: u64) -> Pose {
        let step = u64::from(self.frame / 3);
        let hair = |limb: u64| 0.8 * signed(puppet * 16 + limb, step);
        pose.head += hair(0);
        pose.near_arm.0 += hair(1);
        pose.near_arm.1 += hair(2);
        pose.far_arm.0 += hair(3);
        pose.lean += 0.4 * hair(4);
        pose
    }
}

/// What is built once for a setup.
#[derive(Debug)]
pub(crate) struct Set {
    /// All that never moves, behind everything; wider than the picture.
    back: Pixmap,
    /// Rivers, the far one first.
    pub(crate) water: Vec<Water>,
    /// Pieces laid over moving things or slid about.
    layers: Vec<Pixmap>,
}

impl Set {
    /// A set whose background is laid by `build`.
    pub(crate) fn new(papers: &Papers, build: impl FnOnce(&mut Stage<'_>)) -> Self {
        let mut back = Pixmap::new(WIDTH + 2 * BACK_SPARE, HEIGHT).expect("a frame has a size");
        back.fill(Color::BLACK);
        build(&mut Stage::with_spare(&mut back, papers, BACK_SPARE));
        Self {
            back,
            water: Vec::new(),
            layers: Vec::new(),
        }
    }

    /// Lays the background.
    ///
    /// The camera never stands twice in quite the same place: each take of a
    /// setup has its background a little aside.
    pub(crate) fn lay_back(&self, stage: &mut Stage<'_>, take: &ExampleTake) {
        let (aside, _) = stance(take, 17.0, 7.0);
        stage.lay(&self.back, aside - BACK_SPARE as i32, 0);
    }

    /// Lays one of the sheets of [`Self::with_layer`].
    pub(crate) fn lay_layer(&self, stage: &mut Stage<'_>, which: usize, x: i32, y: i32) {
        stage.lay(&self.layers[which], x - TABLE_SPARE as i32, y);
    }

    pub(crate) fn with_water(mut self, water: Water) -> Self {
        self.water.push(water);
        self
    }

    /// Adds a clear sheet of a given size on which `build` lays pieces.
    pub(crate) fn with_layer(
        mut self,
        papers: &Papers,
        size: (u32, u32),
        build: impl FnOnce(&mut Stage<'_>),
    ) -> Self {
        let wide = size.0 + 2 * TABLE_SPARE;
        let mut layer = Pixmap::new(wide, size.1).expect("a layer has a size");
        build(&mut Stage::with_spare(&mut layer, papers, TABLE_SPARE));
        self.layers.push(layer);
        self
    }
}

impl Setup {
    /// The setup of a take, by its slate.
    pub(crate) fn of(take: &ExampleTake) -> Self {
        match take.slate {
            "1" => Self::Landing,
            "2" => Self::RunFar,
            "2A" => Self::RunNear,
            "2B" => Self::Feet,
            "3" => Self::CastOff,
            "3A" => Self::CastOffNear,
            "3B" => Self::Bollard,
            "4" => Self::Late,
            "4A" => Self::IdaFace,
            "4B" => Self::Bell,
            "5" => Self::Lever,
            "5A" => Self::Seen,
            "5B" => Self::Backs,
            "6" => Self::Loaf,
            "6A" => Self::BramFace,
            "6B" => Self::Hands,
            "7" => Self::Crossing,
            "M" => Self::MainTitle,
            _ => Self::EndTitle,
        }
    }

    /// Builds the set.
    pub(crate) fn build(self, papers: &Papers) -> Set {
        match self {
            Self::Landing => landing::build(papers),
            Self::RunFar => run::build_far(papers),
            Self::RunNear => run::build_near(papers),
            Self::Feet => feet::build(papers),
            Self::CastOff => cast_off::build(papers),
            Self::CastOffNear => cast_off::build_near(papers),
            Self::Bollard => cast_off::bollard::build(papers),
            Self::Late => late::build(papers),
            Self::IdaFace => face::ida::build_ida(papers),
            Self::Bell => bell::build(papers),
            Self::Lever => lever::build(papers),
            Self::Seen => aboard::build_seen(papers),
            Self::Backs => aboard::build_backs(papers),
            Self::Loaf => loaf::build(papers),
            Self::BramFace => face::bram::build_bram(papers),
            Self::Hands => hands::build(papers),
            Self::Crossing => crossing::build(papers),
            Self::MainTitle => title::build_main(papers),
            Self::EndTitle => title::build_end(papers),
        }
    }

    /// Plays a moment on the set; the background already lies.
    pub(crate) fn play(self, stage: &mut Stage<'_>, set: &Set, moment: &Moment) {
        match self {
            Self::Landing => landing::play(stage, set, moment),
            Self::RunFar => run::play_far(stage, set, moment),
            Self::RunNear => run::play_near(stage, set, moment),
            Self::Feet => feet::play(stage, set, moment),
            Self::CastOff => cast_off::play(stage, set, moment),
            Self::CastOffNear => cast_off::play_near(stage, set, moment),
            Self::Bollard => cast_off::bollard::play(stage, set, moment),
            Self::Late => late::play(stage, set, moment),
            Self::IdaFace => face::ida::play_ida(stage, set, moment),
            Self::Bell => bell::play(stage, set, moment),
            Self::Lever => lever::play(stage, set, moment),
            Self::Seen => aboard::play_seen(stage, set, moment),
            Self::Backs => aboard::play_backs(stage, set, moment),
            Self::Loaf => loaf::play(stage, set, moment),
            Self::BramFace => face::bram::play_bram(stage, set, moment),
            Self::Hands => hands::play(stage, set, moment),
            Self::Crossing => crossing::play(stage, set, moment),
            Self::MainTitle => title::play_main(stage, set, moment),
            Self::EndTitle => title::play_end(stage, set, moment),
        }
    }
}

/// Where the camera of a take stands against the setup's own place, pixels.
///
/// About `far` to one side or the other, more or less by up to `more`.
pub(crate) fn stance(take: &ExampleTake, far: f32, more: f32) -> (i32, i32) {
    let seed = u64::from(take.roll) << 32 | u64::from(take.span_in);
    let side = if take.take.is_multiple_of(2) {
        1.0
    } else {
        -1.0
    };
    let aside = far * side + more * signed(seed, 5);
    (aside.round() as i32, (3.4 * signed(seed, 6)).round() as i32)
}

/// Where a puppet stands; `facing` 1 to the right, -1 to the left.
pub(crate) fn stand(cam: Transform, x: f32, y: f32, scale: f32, facing: f32) -> Transform {
    // A paper figure turns round through its edge, which still has a thickness.
    let facing = if facing.abs() < 0.12 {
        0.12_f32.copysign(facing)
    } else {
        facing
    };
    cam.pre_concat(Transform::from_row(scale * facing, 0.0, 0.0, scale, x, y))
}

/// A place in the measure of `at`, as it lies on the picture.
pub(crate) fn on_picture(at: Transform, x: f32, y: f32) -> (f32, f32) {
    (at.sx * x + at.kx * y + at.tx, at.ky * x + at.sy * y + at.ty)
}

/// Angles that bring a puppet's hand to a place on the picture.
pub(crate) fn arm_to(at: Transform, pose: &Pose, target: (f32, f32)) -> (f32, f32) {
    let local = trunk(at, pose)
        .invert()
        .map_or(target, |back| on_picture(back, target.0, target.1));
    reach(SHOULDER, local, ARM.0, ARM.1)
}
