//! Lettering that moves: credits and crawls.

use crate::title_error::{TitleError, within};

/// Lettering moved by the same step on every frame on which there is any of it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Crawl {
    /// Where the middle of the lettering lies on its first frame, east and south of the
    /// middle of the field. Unit: millimetres on the artwork.
    pub from_mm: (f64, f64),
    /// The step of every frame after that; a crawl upwards goes north, below 0.
    /// Unit: millimetres on the artwork.
    pub step_mm: (f64, f64),
}

/// What is known of what crawls, to judge its step.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CrawlMeasures {
    /// Width and height of what is shown. Unit: millimetres on the artwork.
    pub shown_mm: [f64; 2],
    /// The thinnest stroke of the letters. Unit: millimetres on the artwork.
    pub stroke_mm: Option<f64>,
    /// From the top to the foot of the safe field. Unit: millimetres on the artwork.
    pub safe_high_mm: f64,
    /// How long a line must be in view to be read. Unit: frames.
    pub line_hold: u32,
}

/// What is wrong with the step of a crawl.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum CrawlFault {
    /// More than the stroke: letters show twice.
    OverStroke {
        /// The thinnest stroke. Unit: millimetres.
        stroke_mm: f64,
    },
    /// More than half the stroke: edges shimmer.
    OverHalfStroke {
        /// The thinnest stroke. Unit: millimetres.
        stroke_mm: f64,
    },
    /// More than the animators' 1/120 of the field's width.
    Strobes {
        /// The most by that rule. Unit: millimetres.
        most_mm: f64,
    },
    /// A line is not in view as long as it takes to read it.
    TooFast {
        /// Frames that a line is within the safe field.
        in_view: u32,
        /// Frames that it wants.
        wanted: u32,
    },
}

/// The most a thing moves from frame to frame before it is seen to jump: 0.1 in on a field
/// of 12 in, an animation handbook. Unit: parts of the width of the field.
pub const STROBE_PART: f64 = 1.0 / 120.0;

impl Crawl {
    /// Upwards, from wholly below what is shown to wholly above it.
    ///
    /// Returns the crawl and its frames.
    ///
    /// # Errors
    /// [`TitleError::OutOfRange`] for a step outside 0.01 to 100 mm or heights outside
    /// 1 mm to 20 m.
    ///
    /// ```
    /// # use onestrand_title::Crawl;
    /// let (crawl, frames) = Crawl::upwards(400.0, 169.1, 1.0)?;
    /// assert_eq!(frames, 571);
    /// assert!(crawl.from_mm.1 > 284.0);
    /// assert!(Crawl::upwards(400.0, 169.1, 0.0).is_err());
    /// # Ok::<(), onestrand_title::TitleError>(())
    /// ```
    pub fn upwards(
        text_high_mm: f64,
        shown_high_mm: f64,
        step_mm: f64,
    ) -> Result<(Self, u32), TitleError> {
        let hint = "a step of a crawl is some tenths of a millimetre";
        let step = within("the step of the crawl in mm", step_mm, (0.01, 100.0), hint)?;
        let hint = "measure the lettering and the field from top to foot";
        let text = within("the height in mm", text_high_mm, (1.0, 20_000.0), hint)?;
        let shown = within("the height in mm", shown_high_mm, (1.0, 20_000.0), hint)?;
        let way = text + shown;
        let crawl = Self {
            from_mm: (0.0, way / 2.0),
            step_mm: (0.0, -step),
        };
        // The way has as many steps, and one frame more than steps; at most 4 million.
        Ok((crawl, (way / step - 1e-9).ceil() as u32 + 1))
    }

    /// Where the lettering lies so many frames after its first. Unit: millimetres, east
    /// and south.
    #[must_use]
    pub fn at(&self, frames: u32) -> (f64, f64) {
        let n = f64::from(frames);
        (
            self.from_mm.0 + self.step_mm.0 * n,
            self.from_mm.1 + self.step_mm.1 * n,
        )
    }

    /// The length of the step. Unit: millimetres.
    #[must_use]
    pub fn step_length_mm(&self) -> f64 {
        self.step_mm.0.hypot(self.step_mm.1)
    }

    /// What is wrong with its step.
    ///
    /// Source: not over the stroke, and better half of it: the stage sheet of the job, an
    /// editable figure of the trade, and common practice from memory; 1/120 of the width:
    /// [`STROBE_PART`]; every line in view as long as its hold.
    #[must_use]
    pub fn faults(&self, seen: &CrawlMeasures) -> Vec<CrawlFault> {
        let step = self.step_length_mm();
        let mut all = Vec::new();
        if step <= 0.0 {
            return all;
        }
        if let Some(stroke_mm) = seen.stroke_mm {
            if step > stroke_mm {
                all.push(CrawlFault::OverStroke { stroke_mm });
            } else if step > stroke_mm / 2.0 {
                all.push(CrawlFault::OverHalfStroke { stroke_mm });
            }
        }
        let most_mm = seen.shown_mm[0] * STROBE_PART;
        if step > most_mm {
            all.push(CrawlFault::Strobes { most_mm });
        }
        // A line that stands in the safe field for h mm does so for h ÷ step frames.
        let in_view = (seen.safe_high_mm / step).floor().min(1e9) as u32;
        if self.step_mm.1 != 0.0 && in_view < seen.line_hold {
            all.push(CrawlFault::TooFast {
                in_view,
                wanted: seen.line_hold,
            });
        }
        all
    }

    /// The largest step that has no fault, for these measures. Unit: millimetres.
    #[must_use]
    pub fn largest_good_step_mm(seen: &CrawlMeasures) -> f64 {
        let by_stroke = seen.stroke_mm.map_or(f64::INFINITY, |mm| mm / 2.0);
        let by_view = seen.safe_high_mm / f64::from(seen.line_hold.max(1));
        by_stroke.min(seen.shown_mm[0] * STROBE_PART).min(by_view)
    }

    pub(crate) fn check(&self) -> Result<(), TitleError> {
        let hint = "millimetres on the artwork, a step of some tenths of a millimetre";
        for mm in [self.from_mm.0, self.from_mm.1] {
            within(
                "where the crawl begins in mm",
                mm,
                (-20_000.0, 20_000.0),
                hint,
            )?;
        }
        for mm in [self.step_mm.0, self.step_mm.1] {
            within("the step of the crawl in mm", mm, (-100.0, 100.0), hint)?;
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const SEEN: CrawlMeasures = CrawlMeasures {
        shown_mm: [224.0, 169.1],
        stroke_mm: Some(1.0),
        safe_high_mm: 135.3,
        line_hold: 54,
    };

    fn up(step: f64) -> Crawl {
        Crawl::upwards(300.0, 169.1, step).expect("a crawl").0
    }

    #[test]
    fn a_step_is_judged_by_stroke_width_and_reading() {
        assert_eq!(up(0.5).faults(&SEEN), []);
        let half = CrawlFault::OverHalfStroke { stroke_mm: 1.0 };
        assert_eq!(up(0.6).faults(&SEEN), [half]);
        let bold = CrawlMeasures {
            stroke_mm: Some(9.0),
            ..SEEN
        };
        assert!(matches!(
            up(1.9).faults(&bold)[..],
            [CrawlFault::Strobes { .. }]
        ));
        let all = up(3.0).faults(&SEEN);
        assert!(matches!(all[0], CrawlFault::OverStroke { .. }));
        assert!(matches!(
            all[2],
            CrawlFault::TooFast {
                in_view: 45,
                wanted: 54
            }
        ));
        let best = Crawl::largest_good_step_mm(&SEEN);
        assert_eq!(up(best).faults(&SEEN), []);
        assert_ne!(up(best * 1.01).faults(&SEEN), []);
    }

    /// Check values, O052: on a field of 12 in the rule is 0.1 in a frame.
    #[test]
    fn the_strobe_rule_is_that_of_the_handbook() {
        assert!((12.0 * STROBE_PART - 0.1).abs() < 1e-12);
    }

    #[test]
    fn a_crawl_begins_below_and_ends_above() {
        let (crawl, frames) = Crawl::upwards(300.0, 170.0, 1.5).expect("a crawl");
        assert!((crawl.at(0).1 - 235.0).abs() < 1e-9);
        assert!(crawl.at(frames - 1).1 <= -235.0);
        assert!(crawl.at(frames - 2).1 > -235.0);
    }
}
