//! Finding breaks while a roll is read.

use crate::finding::Finding;
use crate::fog::FogWatch;
use crate::frame::HeldFrame;
use crate::judge::{Judge, Verdict};
use crate::measures::FrameMeasures;
use crate::plane::PlaneRef;
use crate::settings::BreakSettings;
use crate::window::Window;

/// Finds the breaks between takes in a roll, frame after frame.
///
/// Memory does not grow with the roll: some two dozen small pictures are kept.
/// What is found does not depend on anything but the planes and the settings.
///
/// # Examples
/// ```
/// use onestrand_inspect::{BreakFinder, BreakSettings, PLANE_BYTES, PlaneRef};
/// let mut finder = BreakFinder::new(BreakSettings::default());
/// let plane = vec![20; PLANE_BYTES];
/// for _ in 0..40 {
///     let seen = finder.push(PlaneRef::new(&plane)?);
///     assert!(seen.findings.is_empty(), "nothing changes in dark leader");
/// }
/// assert!(finder.finish().is_empty());
/// # Ok::<(), onestrand_inspect::InspectError>(())
/// ```
#[derive(Debug)]
pub struct BreakFinder {
    settings: BreakSettings,
    window: Window,
    fog: FogWatch,
    /// The next frame before which a break is to be sought.
    next: usize,
    /// First frame of the take being read.
    take_start: usize,
    /// Last frame of the last flash told.
    flash_end: usize,
    /// Findings in a stretch that may turn out to be the fog at the tail.
    held: Vec<Finding>,
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
            fog: FogWatch::default(),
            next: 1,
            take_start: 0,
            flash_end: 0,
            held: Vec::new(),
        }
    }

    /// Takes in the next frame of the roll.
    ///
    /// Breaks are told [`BreakSettings::window`] + 1 frames late; those in
    /// stray light wait until it is over.
    pub fn push(&mut self, plane: PlaneRef<'_>) -> Seen {
        let frame = HeldFrame::new(plane, self.window.newest());
        let measures = frame.measures;
        let head = self.fog.push(&frame);
        self.window.push(frame);
        let mut findings: Vec<Finding> = head.map(|end| fog(0, end)).into_iter().collect();
        findings
            .extend(self.judge_up_to(self.window.seen().saturating_sub(self.settings.window + 1)));
        Seen { measures, findings }
    }

    /// Ends the roll: what the last frames hold. Push nothing after it.
    pub fn finish(&mut self) -> Vec<Finding> {
        let mut findings = self.judge_up_to(self.window.seen());
        let tail = self.fog.tail();
        let inside = |finding: &Finding| tail.is_some_and(|start| place_of(finding) >= start);
        findings.extend(self.held.drain(..).filter(|finding| !inside(finding)));
        findings.extend(tail.map(|start| fog(start, self.window.seen())));
        findings
    }

    /// Judges all frames below `end` that are not judged yet.
    fn judge_up_to(&mut self, end: usize) -> Vec<Finding> {
        while self.next < end {
            let at = self.next;
            self.next += 1;
            if !self.fog.hides(at) {
                let finding = self.judge(at);
                self.held.extend(finding);
            }
        }
        let sure_before = self.fog.tail().unwrap_or(usize::MAX);
        let sure = self
            .held
            .iter()
            .take_while(|finding| place_of(finding) < sure_before)
            .count();
        self.held.drain(..sure).collect()
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

fn fog(from: usize, until: usize) -> Finding {
    Finding::Fog {
        from: from as u32,
        until: until as u32,
    }
}

fn place_of(finding: &Finding) -> usize {
    match *finding {
        Finding::Break { at, .. } | Finding::Flash { at, .. } => at as usize,
        Finding::Fog { from, .. } => from as usize,
    }
}
