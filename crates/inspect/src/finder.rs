//! Finding breaks while a roll is read.

use crate::blank::{BlankWatch, bare};
use crate::dissolves::DissolveWatch;
use crate::fades::{self, FadeWatch, Light};
use crate::finding::Finding;
use crate::fog::FogWatch;
use crate::frame::HeldFrame;
use crate::held::Held;
use crate::judge::{Judge, Verdict};
use crate::measures::FrameMeasures;
use crate::passing::{self, Past};
use crate::plane::PlaneRef;
use crate::settings::BreakSettings;
use crate::window::Window;
use std::collections::VecDeque;

/// Finds the breaks between takes in a roll, frame after frame.
///
/// Memory does not grow with the roll: some two dozen small pictures are kept.
/// What is found does not depend on anything but the planes and the settings.
///
/// # Examples
/// ```
/// use onestrand_inspect::{BreakFinder, BreakSettings, Finding, PLANE_BYTES, PlaneRef};
/// let mut finder = BreakFinder::new(BreakSettings::default());
/// let plane = vec![20; PLANE_BYTES];
/// for _ in 0..40 {
///     let seen = finder.push(PlaneRef::new(&plane)?);
///     assert!(seen.findings.is_empty(), "nothing changes in dark leader");
/// }
/// assert_eq!(finder.finish(), [Finding::Black { from: 0, until: 40 }]);
/// # Ok::<(), onestrand_inspect::InspectError>(())
/// ```
#[derive(Debug)]
pub struct BreakFinder {
    settings: BreakSettings,
    window: Window,
    past: Past,
    fog: FogWatch,
    blank: BlankWatch,
    fades: FadeWatch,
    dissolves: DissolveWatch,
    /// The next frame before which a break is to be sought.
    next: usize,
    /// First frame of the take being read.
    take_start: usize,
    /// Last frame of the last flash told.
    flash_end: usize,
    /// Breaks that something may have made which passes before the lens.
    doubtful: VecDeque<usize>,
    /// Findings that may still turn out otherwise.
    held: Held,
}

/// What came of one more frame.
#[derive(Debug, Clone, PartialEq)]
pub struct Seen {
    /// Measures of the frame just pushed.
    pub measures: FrameMeasures,
    /// What is now sure, of frames a little earlier, in order of place.
    pub findings: Vec<Finding>,
}

impl BreakFinder {
    /// A finder before the first frame of a roll.
    pub fn new(settings: BreakSettings) -> Self {
        let settings = BreakSettings {
            window: settings
                .window
                .clamp(BreakSettings::LEAST_WINDOW, BreakSettings::MOST_WINDOW),
            ..settings
        };
        Self {
            settings,
            window: Window::new(2 * settings.window + 4),
            past: Past::default(),
            fog: FogWatch::default(),
            blank: BlankWatch::default(),
            fades: FadeWatch::new(settings.light_exponent),
            dissolves: DissolveWatch::new(),
            next: 1,
            take_start: 0,
            flash_end: 0,
            doubtful: VecDeque::new(),
            held: Held::default(),
        }
    }

    /// How long a finding may wait until it is told, in frames after its first:
    /// until the longest fade that it may be part of has settled.
    pub const LONGEST_WAIT: usize = fades::LONGEST + fades::SETTLED + 2;

    /// Takes in the next frame of the roll.
    ///
    /// Findings are told [`BreakFinder::LONGEST_WAIT`] frames late, in order of
    /// place; those in stray light wait until it is over, and stretches of
    /// leader and black until they end.
    pub fn push(&mut self, plane: PlaneRef<'_>) -> Seen {
        let frame = HeldFrame::new(plane, self.window.newest());
        let measures = frame.measures;
        self.slow_changes(&frame);
        if let Some(gone) = self.window.push(frame) {
            self.past.push(gone);
        }
        let seen = self.window.seen();
        self.judge_up_to(seen.saturating_sub(self.settings.window + 1));
        self.clear_passings(seen.saturating_sub(passing::REACH));
        let sure = seen.saturating_sub(Self::LONGEST_WAIT);
        let findings = self
            .held
            .take_before(sure.min(self.fog.tail().unwrap_or(usize::MAX)));
        Seen { measures, findings }
    }

    /// Ends the roll: what the last frames hold. Push nothing after it.
    pub fn finish(&mut self) -> Vec<Finding> {
        let seen = self.window.seen();
        self.judge_up_to(seen);
        self.clear_passings(seen);
        let slow = self.fades.finish().into_iter().chain(self.blank.finish());
        slow.for_each(|finding| self.held.add(finding));
        if let Some(start) = self.fog.tail() {
            self.held.clear_breaks(&(start..seen));
            self.held.clear_flashes(&(start..seen));
            self.held.add_fog(start, seen);
        }
        self.held.take_before(usize::MAX)
    }

    /// What is seen over many frames: fog, leader, black, fades, dissolves.
    fn slow_changes(&mut self, frame: &HeldFrame) {
        let measures = &frame.measures;
        let bare = bare(frame, self.window.newest());
        if let Some(finding) = self.blank.push(bare, measures.mean) {
            self.held.add(finding);
        }
        if let Some(end) = self.fog.push(measures, bare) {
            self.held.add_fog(0, end);
        }
        let light = Light {
            mean: measures.mean,
            contrast: measures.contrast,
            lightest: frame.coarse().lightest(),
        };
        let fades = self.fades.push(light);
        let slow = fades.into_iter().chain(self.dissolves.push(frame.coarse()));
        slow.for_each(|finding| self.held.add(finding));
    }

    /// Judges all frames below `end` that are not judged yet.
    fn judge_up_to(&mut self, end: usize) {
        while self.next < end {
            let at = self.next;
            self.next += 1;
            if self.fog.hides(at) {
                continue;
            }
            if let Some(finding) = self.judge(at) {
                if matches!(finding, Finding::Break { .. }) {
                    self.doubtful.push_back(at);
                }
                self.held.add(finding);
            }
        }
    }

    /// Drops the breaks below `end` that something made which passed before the
    /// lens.
    fn clear_passings(&mut self, end: usize) {
        while let Some(at) = self.doubtful.front().copied().filter(|at| *at < end) {
            self.doubtful.pop_front();
            if let Some(frames) = self.past.passing(&self.window, at) {
                self.held.clear_breaks(&(at..at + 1));
                self.held.clear_flashes(&frames);
            }
        }
    }

    fn judge(&mut self, at: usize) -> Option<Finding> {
        let judge = Judge {
            settings: &self.settings,
            window: &self.window,
        };
        match judge.frame(at)? {
            Verdict::Break(finding) => {
                self.take_start = at;
                Some(finding)
            }
            // The end of a start flash, or of the flash just told.
            Verdict::Flash { .. }
                if at <= self.take_start + Judge::LONGEST_FLASH || at <= self.flash_end =>
            {
                None
            }
            Verdict::Flash { frames, stops } => {
                self.flash_end = at + frames as usize;
                Some(Finding::Flash {
                    at: at as u32,
                    frames,
                    stops,
                })
            }
        }
    }
}
