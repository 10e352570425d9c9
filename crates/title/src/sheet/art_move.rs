//! The artwork moved under the camera, with a soft begin and end.

use crate::title_error::{TitleError, within};

/// The artwork moved E–W and N–S, from one place to another.
///
/// Eased: its steps grow evenly over the first `ease_in` frames and shrink evenly over the
/// last `ease_out`, so that nothing starts with a jerk.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ArtMove {
    /// Where it begins, east and south of the middle. Unit: millimetres on the artwork.
    pub from_mm: (f64, f64),
    /// Where it ends. Unit: millimetres on the artwork.
    pub to_mm: (f64, f64),
    /// The last frame on which it still lies where it began.
    pub first: u32,
    /// Steps, one a frame. Unit: frames. Range: 1 and more.
    pub frames: u32,
    /// Steps that grow.
    pub ease_in: u32,
    /// Steps that shrink. Together with those that grow no more than all.
    pub ease_out: u32,
}

impl ArtMove {
    /// The size of step `i`, from 1, against the steps in the middle.
    pub(crate) fn weight(&self, step: u32) -> f64 {
        let grows = f64::from(step) / f64::from(self.ease_in + 1);
        let left = self.frames + 1 - step;
        let shrinks = f64::from(left) / f64::from(self.ease_out + 1);
        grows.min(shrinks).min(1.0)
    }

    /// How much of the way is done after so many steps, by the sum of the series.
    /// Range: 0 to 1.
    pub(crate) fn share(&self, steps: u32) -> f64 {
        let up_to = |steps: u32| {
            let (ease_in, ease_out) = (f64::from(self.ease_in), f64::from(self.ease_out));
            let grown = f64::from(steps.min(self.ease_in));
            let flat_end = self.frames - self.ease_out;
            let flat = f64::from(steps.min(flat_end).saturating_sub(self.ease_in));
            let shrunk = f64::from(steps.saturating_sub(flat_end));
            grown * (grown + 1.0) / 2.0 / (ease_in + 1.0)
                + flat
                + shrunk * (2.0 * ease_out - shrunk + 1.0) / 2.0 / (ease_out + 1.0)
        };
        up_to(steps.min(self.frames)) / up_to(self.frames)
    }

    /// Where it lies on a frame. Unit: millimetres, east and south.
    pub(crate) fn at(&self, frame: u32) -> (f64, f64) {
        let share = self.share(frame.saturating_sub(self.first));
        (
            self.from_mm.0 + (self.to_mm.0 - self.from_mm.0) * share,
            self.from_mm.1 + (self.to_mm.1 - self.from_mm.1) * share,
        )
    }

    /// The largest step. Unit: millimetres.
    #[must_use]
    pub fn largest_step_mm(&self) -> f64 {
        let whole: f64 = (1..=self.frames).map(|step| self.weight(step)).sum();
        let largest = (1..=self.frames).map(|step| self.weight(step));
        let (east, south) = (self.to_mm.0 - self.from_mm.0, self.to_mm.1 - self.from_mm.1);
        east.hypot(south) * largest.fold(0.0, f64::max) / whole
    }

    pub(crate) fn check(&self, card: u32) -> Result<(), TitleError> {
        let hint = "millimetres east and south of the middle of the artwork";
        for mm in [self.from_mm.0, self.from_mm.1, self.to_mm.0, self.to_mm.1] {
            within(
                "a place of the artwork in mm",
                mm,
                (-5_000.0, 5_000.0),
                hint,
            )?;
        }
        let steps = f64::from(self.frames);
        let hint = "a move takes a step a frame, within the frames of the card";
        within("frames of the move", steps, (1.0, 100_000.0), hint)?;
        let end = u64::from(self.first) + u64::from(self.frames);
        let eased = u64::from(self.ease_in) + u64::from(self.ease_out);
        if end >= u64::from(card).max(1) || eased > u64::from(self.frames) {
            return Err(TitleError::CannotBoth {
                message: format!(
                    "a move over {} frames from frame {} on, {eased} of them eased, within a \
                     card of {card}",
                    self.frames, self.first
                ),
                hint: "let it begin earlier, take fewer frames, or ease fewer of them",
            });
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn some(frames: u32, ease_in: u32, ease_out: u32) -> ArtMove {
        ArtMove {
            from_mm: (-20.0, 0.0),
            to_mm: (20.0, 10.0),
            first: 3,
            frames,
            ease_in,
            ease_out,
        }
    }

    #[test]
    fn the_series_is_the_sum_of_its_steps() {
        for (frames, ease_in, ease_out) in [(1, 0, 0), (10, 3, 4), (9, 9, 0), (8, 4, 4)] {
            let one = some(frames, ease_in, ease_out);
            let whole: f64 = (1..=frames).map(|step| one.weight(step)).sum();
            let mut sum = 0.0;
            for step in 1..=frames {
                sum += one.weight(step);
                let apart = (one.share(step) - sum / whole).abs();
                assert!(apart < 1e-12, "{frames} {ease_in} {ease_out} step {step}");
            }
        }
    }

    #[test]
    fn it_begins_and_ends_softly() {
        let one = some(12, 4, 4);
        assert_eq!(one.at(0), (-20.0, 0.0));
        assert_eq!(one.at(3), (-20.0, 0.0));
        assert_eq!(one.at(15), (20.0, 10.0));
        let step = |n: u32| one.at(n + 1).0 - one.at(n).0;
        assert!(step(3) < step(4) && step(4) < step(8), "grows");
        assert!(step(14) < step(13), "shrinks");
        assert!(some(12, 0, 0).largest_step_mm() < one.largest_step_mm());
        assert!(one.check(15).is_err(), "it needs frame 15");
        assert!(one.check(16).is_ok());
    }
}
