//! Weighing the evidence at one frame.

use crate::finding::{Begins, BreakEvidence, Finding};
use crate::frame::thousandths;
use crate::joins;
use crate::light::{middle_of, stops_over};
use crate::losses::{Turnover, third_greatest};
use crate::settings::BreakSettings;
use crate::small::{SMALL_HEIGHT, SMALL_WIDTH};
use crate::window::Window;

/// A change must last so many frames, or it is something that passed before
/// the lens. Longer would tie short takes together.
const LASTING: usize = 4;
/// When so much stays in its place the set-up went on.
const SAME_SETUP: f32 = 0.2;
/// Most frames that a tear or a scanning machine is taken to lose at once.
const MOST_LOST: i32 = 4;
/// So much of a change is left at most when lost frames made it. On the drawn
/// rolls leaps have 0.4 to 0.7 where figures walk, and stops 0.84 and more.
const LEAPT: f32 = 0.75;
/// A flash stands so many times above the usual change of light from frame to
/// frame.
const ABOVE_FLICKER: f32 = 3.0;
/// A frame so far out of its place is no weave. Unit: thousandths of its
/// height.
const LEAST_RACK: f32 = 40.0;
/// A line that stands out so much is no grain. Unit: levels.
const LEAST_EDGE: f32 = 10.0;
/// What grain alone may change, a share of the picture.
const GRAIN: f32 = 0.004;

/// What grain alone may change of a part of the picture.
const GRAIN_IN_ONE_PLACE: f32 = 0.03;

/// What a frame turned out to be.
pub(crate) enum Verdict {
    Break(Finding),
    /// Over-exposed frames that begin here, with no break.
    Flash {
        frames: u32,
        stops: f32,
    },
}

/// Weighs what the window holds.
pub(crate) struct Judge<'a> {
    pub(crate) settings: &'a BreakSettings,
    pub(crate) window: &'a Window,
}

impl Judge<'_> {
    /// Most frames that a camera takes to come to speed, or that lightning
    /// lasts.
    pub(crate) const LONGEST_FLASH: usize = 3;

    /// Judges the change before frame `at`.
    pub(crate) fn frame(&self, at: usize) -> Option<Verdict> {
        let here = self.window.turnover(at);
        let is_peak = here > self.window.turnover(at - 1) && here >= self.window.turnover(at + 1);
        let flashes = self.flash_begins(at);
        let may_be = is_peak && here >= self.settings.least_change;
        if !flashes && !may_be {
            return None;
        }
        let evidence = self.evidence(at, flashes);
        if (self.is_strong(&evidence) && !self.leapt(at, &evidence))
            || (flashes
                && at_flash(&evidence) >= self.settings.least_at_flash * self.restlessness(at))
        {
            return Some(Verdict::Break(self.told(at, flashes, evidence)));
        }
        flashes.then(|| Verdict::Flash {
            frames: self.flash_frames(at),
            stops: evidence.flash_stops,
        })
    }

    /// Whether the change alone, with no flash, speaks for a break: a strong
    /// one, or a weaker one that stands out in one place.
    fn is_strong(&self, evidence: &BreakEvidence) -> bool {
        let strength = evidence.strength();
        strength >= self.settings.least_strength
            || strength >= self.settings.least_strength_of_figures
                && evidence.in_one_place >= self.settings.least_strength_in_one_place
    }

    /// Whether the figures went on as they went, over a few frames that are lost:
    /// then most of the change is none. Only where the set-up goes on is it asked.
    fn leapt(&self, at: usize, evidence: &BreakEvidence) -> bool {
        let left = |gone| self.window.changed_but_for(gone, at, LASTING).whole;
        evidence.stays >= SAME_SETUP
            && (1..=MOST_LOST).any(|gone| left(gone) < LEAPT * evidence.changed)
    }

    fn told(&self, at: usize, flashes: bool, mut evidence: BreakEvidence) -> Finding {
        evidence.rack = joins::rack(self.window, at);
        evidence.edge = joins::edge(self.window, at);
        evidence.only_in_one_place = !flashes && evidence.strength() < self.settings.least_strength;
        let over = evidence.flash_stops >= self.least_flash(at);
        let same = evidence.stays >= SAME_SETUP;
        Finding::Break {
            at: at as u32,
            begins: if over || flashes {
                Begins::CameraStop
            } else if evidence.rack >= LEAST_RACK || evidence.edge >= LEAST_EDGE {
                Begins::Join
            } else if same {
                Begins::CameraStop
            } else {
                Begins::Cut
            },
            flash_frames: if over { self.flash_frames(at) } else { 0 },
            flash_stops: if over { evidence.flash_stops } else { 0.0 },
            evidence,
        }
    }

    /// Whether the light jumps up at `at` and settles a few frames later.
    fn flash_begins(&self, at: usize) -> bool {
        let rise = self.over(at, at - 1).min(self.over_settled(at, at));
        let settled = at + Self::LONGEST_FLASH + 2;
        // Another take that begins meanwhile says nothing of this light.
        let restlessness = self.restlessness(at);
        let goes_on = (at + 1..=settled).all(|after| {
            let change = self.window.turnover(after);
            change * change / restlessness < self.settings.least_strength
        });
        goes_on && rise >= self.settings.least_flash_stops && rise >= self.least_flash(at)
    }

    /// The least over-exposure that is no flicker here, in stops.
    fn least_flash(&self, at: usize) -> f32 {
        let reach = self.settings.window;
        let steps = (at.saturating_sub(reach)..=at + reach).filter(|&number| number > 0);
        let steps: Vec<f32> = steps
            .map(|number| self.over(number, number - 1).abs())
            .collect();
        self.settings
            .least_flash_stops
            .max(ABOVE_FLICKER * middle_of(steps))
    }

    /// What changes at the frames about `at`.
    fn about(&self, at: usize) -> Vec<&Turnover> {
        let reach = self.settings.window;
        (at.saturating_sub(reach)..=at + reach)
            .filter(|&number| number != at)
            .filter_map(|number| self.window.turnover_of_parts(number))
            .collect()
    }

    /// How much changes at the frames about `at`, breaks aside.
    fn restlessness(&self, at: usize) -> f32 {
        GRAIN + third_greatest(self.about(at).iter().map(|of| of.whole))
    }

    fn evidence(&self, at: usize, flashes: bool) -> BreakEvidence {
        let change = self.window.changed_before(at, LASTING);
        let about = self.about(at);
        let step = self.window.step(at - 1, at);
        let settled = at + Self::LONGEST_FLASH;
        BreakEvidence {
            changed: change.whole,
            stands_out: change.whole / self.restlessness(at),
            in_one_place: change.strength_in_one_place(&about, GRAIN_IN_ONE_PLACE),
            only_in_one_place: false,
            rack: 0.0,
            edge: 0.0,
            stays: self.window.stays(at - 1, at + 1),
            displaced: if flashes {
                self.window.displaced(at - 1, settled)
            } else {
                0.0
            },
            flash_stops: self.over_settled(at, at),
            exposure_step: -self.over_settled(at - 1, at),
            jump: (
                thousandths(step.right, SMALL_WIDTH),
                thousandths(step.down, SMALL_HEIGHT),
            ),
        }
    }

    /// Light of frame `number` against frame `other`, in stops; 0 where that
    /// cannot be told.
    fn over(&self, number: usize, other: usize) -> f32 {
        let frames = self.window.frame(number).zip(self.window.frame(other));
        frames
            .and_then(|(a, b)| stops_over(&a.small, &b.small, self.settings.light_exponent))
            .unwrap_or(0.0)
    }

    /// Light of frame `number` against the settled light of the take that
    /// begins at `at`: the middle one of three frames, for flicker's sake.
    fn over_settled(&self, number: usize, at: usize) -> f32 {
        let settled = at + Self::LONGEST_FLASH;
        let held = (settled..settled + 3).filter(|&other| self.window.frame(other).is_some());
        middle_of(held.map(|other| self.over(number, other)).collect())
    }

    fn flash_frames(&self, at: usize) -> u32 {
        let least = self.least_flash(at);
        (at..at + Self::LONGEST_FLASH)
            .take_while(|&number| self.over_settled(number, at) >= least)
            .count() as u32
    }
}

/// What speaks for a break at a flash: shares changed and displaced. What is
/// merely displaced counts a third, for weave and walking do a little of it.
fn at_flash(evidence: &BreakEvidence) -> f32 {
    evidence.changed + evidence.displaced / 3.0
}
