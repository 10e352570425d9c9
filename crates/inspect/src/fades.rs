//! Light that comes up out of black or goes down into it.

use std::collections::VecDeque;

use crate::finding::{Finding, GradualKind};

/// What of a frame tells of a fade.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Light {
    /// Mean level.
    pub(crate) mean: f32,
    /// Mean distance of the levels from their mean.
    pub(crate) contrast: f32,
    /// Level of the lightest things.
    pub(crate) lightest: f32,
}

impl Light {
    /// Nothing to be seen, and dark: grain alone has less contrast.
    pub(crate) fn is_black(self) -> bool {
        self.contrast < BLACK_CONTRAST && self.mean < BLACK_MEAN
    }
}

const BLACK_CONTRAST: f32 = 5.0;
const BLACK_MEAN: f32 = 56.0;
/// Less of the light than this is dark enough for a fade to begin or end there.
const DARK: f32 = 0.3;
/// The picture is fully there when so many frames bring no more contrast.
pub(crate) const SETTLED: usize = 8;
/// The longest fade. Unit: frames; more than five seconds at 18.
pub(crate) const LONGEST: usize = 100;
/// The shortest; below it the eye sees a cut. Unit: frames.
pub(crate) const SHORTEST: usize = 6;
/// The most of the full light that one frame may add: a cut adds all of it.
pub(crate) const LARGEST_STEP: f32 = 0.4;
/// How far mean and contrast may differ in the share of the light they show. A
/// fade dims everything alike; a hand or a closing door does not.
const UNLIKE: f32 = 0.25;

/// How far the light has come up, going from black outwards.
#[derive(Debug)]
pub(crate) enum Rise {
    /// More frames are needed.
    Unsettled,
    /// It is no fade.
    None,
    /// A fade of so many frames.
    Frames(usize),
}

/// Judges frames that go away from a dark one, nearest first: for a fade in
/// onwards, for a fade out backwards. `exponent` leads from levels to
/// light; `ended` says that there will be no more.
pub(crate) fn rise(frames: &[Light], exponent: f32, ended: bool) -> Rise {
    let Some((settled, full)) = settled(frames, exponent, ended) else {
        return Rise::Unsettled;
    };
    let share = |light: &Light| (light.contrast / full.contrast).powf(exponent);
    let low = frames[..settled]
        .iter()
        .position(|light| share(light) >= 0.25);
    let high = frames[..settled]
        .iter()
        .rposition(|light| share(light) < 0.75);
    let (Some(low), Some(high)) = (low, high) else {
        return Rise::None;
    };
    // The light rises evenly; flicker blurs where it ends, less where it is in
    // the middle.
    let frames_of = (high as f32 + 1.0) + (high as f32 + 1.0 - low as f32) / 2.0;
    let frames_of = (frames_of.round() as usize).min(LONGEST);
    if frames_of < SHORTEST || high < low || share(&frames[0]) >= 0.25 {
        return Rise::None;
    }
    let steps = frames[..settled].windows(2);
    let even = steps
        .map(|two| share(&two[1]) - share(&two[0]))
        .all(|step| step < LARGEST_STEP);
    // What mean there is where nothing is left to see.
    let first = frames[0].contrast / full.contrast;
    let black = (frames[0].mean - first * full.mean) / (1.0 - first);
    let alike = frames[low..=high].iter().all(|light| {
        let by_mean = (light.mean - black) / (full.mean - black).max(1.0);
        (by_mean - light.contrast / full.contrast).abs() < UNLIKE
    });
    // Where a pan leaves something light behind, what is still there is as light
    // as it was.
    let left = (frames[0].lightest - black) / (full.lightest - black).max(1.0);
    let dims = left - first < UNLIKE;
    if even && alike && dims {
        Rise::Frames(frames_of)
    } else {
        Rise::None
    }
}

/// After how many frames the picture is fully there, and its light then.
fn settled(frames: &[Light], exponent: f32, ended: bool) -> Option<(usize, Light)> {
    let mut most: f32 = 0.0;
    let mut since = 0;
    for (number, light) in frames.iter().enumerate() {
        // Another picture begins.
        let jump = most > 0.0 && (light.contrast / most).powf(exponent) > 1.0 + LARGEST_STEP;
        if jump && number >= SHORTEST && light.contrast - most > BLACK_CONTRAST && since > 2 {
            return Some((number, middle(&frames[number.saturating_sub(3)..number])));
        }
        if light.contrast > most * 1.01 {
            most = light.contrast;
            since = 0;
        } else {
            since += 1;
        }
        if since == SETTLED || number + 1 == LONGEST + SETTLED {
            return Some((number + 1, middle(&frames[number + 1 - SETTLED..=number])));
        }
    }
    (ended && !frames.is_empty()).then(|| {
        (
            frames.len(),
            middle(&frames[frames.len().saturating_sub(4)..]),
        )
    })
}

fn middle(frames: &[Light]) -> Light {
    let of = |value: fn(&Light) -> f32| crate::light::middle_of(frames.iter().map(value).collect());
    Light {
        mean: of(|light| light.mean),
        contrast: of(|light| light.contrast),
        lightest: of(|light| light.lightest),
    }
}

/// Follows the light of a roll and finds fades.
#[derive(Debug)]
pub(crate) struct FadeWatch {
    lights: VecDeque<Light>,
    /// Frames seen, held or gone.
    seen: usize,
    /// First frame of light that comes up, while it is not known how.
    rises_from: Option<usize>,
    exponent: f32,
}

impl FadeWatch {
    /// Frames held: a fade, its settled picture and the black beside it.
    const KEPT: usize = LONGEST + SETTLED + 2;

    /// A watch before the first frame.
    pub(crate) fn new(exponent: f32) -> Self {
        Self {
            lights: VecDeque::with_capacity(Self::KEPT),
            seen: 0,
            rises_from: None,
            exponent,
        }
    }

    /// Takes in the next frame; gives the fades that are now sure.
    pub(crate) fn push(&mut self, light: Light) -> Vec<Finding> {
        let mut found = Vec::new();
        let last = self.lights.back().copied();
        let (falls, rises) = last.map_or((false, light.is_black()), |last| {
            (self.drops(last, light), self.drops(light, last))
        });
        if rises {
            found.extend(self.gone_down());
        }
        if falls {
            found.extend(self.come_up(true));
            if light.is_black() {
                found.extend(self.gone_down());
            }
            self.rises_from = Some(self.seen);
        }
        if self.lights.len() == Self::KEPT {
            self.lights.pop_front();
        }
        self.lights.push_back(light);
        self.seen += 1;
        if light.is_black() {
            self.rises_from = Some(self.seen);
        } else {
            found.extend(self.come_up(false));
        }
        found
    }

    /// The end of the roll.
    pub(crate) fn finish(&mut self) -> Option<Finding> {
        self.come_up(true)
    }

    /// Whether the light goes from `high` to `low` at once: into black, or to
    /// less than a third.
    fn drops(&self, high: Light, low: Light) -> bool {
        let dark = (low.contrast / high.contrast.max(1.0)).powf(self.exponent) < DARK;
        !high.is_black() && (low.is_black() || dark)
    }

    /// The fade in that began where the light was least.
    fn come_up(&mut self, ended: bool) -> Option<Finding> {
        let from = self.rises_from?;
        let first = self.seen - self.lights.len();
        let lights = self.lights.make_contiguous();
        let rising = lights.get(from.checked_sub(first)?..)?;
        let risen = rise(rising, self.exponent, ended);
        if !matches!(risen, Rise::Unsettled) {
            self.rises_from = None;
        }
        let Rise::Frames(frames) = risen else {
            return None;
        };
        Some(gradual(GradualKind::FadeIn, from, from + frames))
    }

    /// The fade out that ends with the last frame.
    fn gone_down(&self) -> Option<Finding> {
        let back: Vec<Light> = self
            .lights
            .iter()
            .rev()
            .take_while(|light| !light.is_black())
            .copied()
            .collect();
        let Rise::Frames(frames) = rise(&back, self.exponent, true) else {
            return None;
        };
        Some(gradual(
            GradualKind::FadeOut,
            self.seen.saturating_sub(frames),
            self.seen,
        ))
    }
}

pub(crate) fn gradual(kind: GradualKind, from: usize, until: usize) -> Finding {
    Finding::Gradual {
        kind,
        from: from as u32,
        until: until as u32,
    }
}
