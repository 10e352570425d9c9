//! Reads frame after frame of a roll.

use crate::gate_watch::GateWatch;
use crate::kept::KeptFrame;
use crate::light::{LightPath, SAME};
use crate::movement::{Step, movement};
use crate::pyramid::Pyramid;
use crate::record::SignRecord;
use crate::sharpness::sharpness;
use crate::specks::specks;
use crate::standing_picture::StandingPicture;
use crate::tone::{black_and_white, darkest_places, mean_levels};
use crate::upright_lines::upright_lines;
use onestrand_inspect::PlaneRef;

/// Frames whose light differs by less are held against each other for dust.
/// Unit: stops.
const STEADY_LIGHT: f32 = 0.2;

/// Share of the picture that must move alike: else what moves is large, and
/// would be taken for dust.
const OF_ONE_MIND: f32 = 0.5;

/// Reads the planes of a roll, in order, and keeps about 170 bytes of
/// each.
#[derive(Debug, Default)]
pub struct SignReader {
    frames: Vec<KeptFrame>,
    light: LightPath,
    gate: GateWatch,
    standing: StandingPicture,
    before: Option<Pyramid>,
    /// The frame before that, and the movement from it.
    earlier: Option<(Pyramid, Step)>,
}

impl SignReader {
    /// A reader that has seen nothing yet.
    #[must_use]
    pub fn new() -> Self {
        Self::default()
    }

    /// Takes in the plane of the next film frame.
    pub fn push(&mut self, plane: PlaneRef<'_>) {
        let pyramid = Pyramid::of(plane);
        let step = self
            .before
            .as_ref()
            .and_then(|before| movement(before, &pyramid))
            .unwrap_or_default();
        let light = self.light.push(&pyramid.quarter, step);
        let sharp = sharpness(plane.bytes());
        let (black, white) = black_and_white(&pyramid.half);
        self.frames.push(KeptFrame {
            seen: true,
            across: sharp.across,
            along: sharp.along,
            light: light.light,
            alike: light.alike,
            right: step.right,
            down: step.down,
            agree: step.agree,
            went: (0.0, 0.0),
            white,
            black,
            specks: None,
            lines: upright_lines(plane.bytes()),
            darkest: darkest_places(&pyramid.quarter),
            means: mean_levels(&pyramid.quarter),
        });
        self.stand(&pyramid, step, light.alike < SAME);
        if light.alike < SAME {
            self.gate.another_picture();
        }
        self.gate.push(plane.bytes());
        self.count_specks(&pyramid, step);
        self.earlier = self.before.take().map(|before| (before, step));
        self.before = Some(pyramid);
    }

    /// What the picture is sure to have moved, spread over the last frames.
    fn stand(&mut self, pyramid: &Pyramid, step: Step, is_another: bool) {
        let went = self.standing.push(&pyramid.smooth_half, step, is_another);
        let Some(went) = went else { return };
        let first = self.frames.len().saturating_sub(went.frames);
        let part = 1.0 / went.frames as f32;
        for frame in &mut self.frames[first..] {
            frame.went = (part * went.right, part * went.down);
        }
    }

    /// A film frame that no scan shows: it keeps its number.
    pub fn push_missing(&mut self) {
        self.frames.push(KeptFrame::missing());
        self.gate.skip();
        self.earlier = None;
    }

    /// Specks are told by the frames on both sides: one frame later.
    fn count_specks(&mut self, after: &Pyramid, goes: Step) {
        let (Some((before, came)), Some(here)) = (&self.earlier, &self.before) else {
            return;
        };
        let [.., earlier, frame, later] = self.frames.as_mut_slice() else {
            return;
        };
        let apart = |other: &KeptFrame| (other.light - frame.light).abs();
        let steady = apart(earlier) < STEADY_LIGHT && apart(later) < STEADY_LIGHT;
        if steady && frame.agree.min(later.agree) >= OF_ONE_MIND {
            frame.specks = Some(specks((before, here, after), (*came, goes)));
        }
    }

    /// Frames taken in so far, missing ones counted.
    #[must_use]
    pub fn frames(&self) -> u32 {
        self.frames.len() as u32
    }

    /// What was kept of the roll.
    #[must_use]
    pub fn finish(self) -> SignRecord {
        SignRecord::new(self.frames, self.gate.finish())
    }
}
