//! What a retake takes from the rolls that are still in hand.

use onestrand_film::Frames;

/// What is left of a roll.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RollLeft {
    /// The roll.
    pub roll: String,
    /// The counter, in frames from the head, where the last take ended.
    pub used_to: Frames,
    /// The frame up to which the roll can be used: its length without the loss at the
    /// tail.
    pub usable_to: Frames,
}

impl RollLeft {
    /// Frames that can still be used.
    #[must_use]
    pub const fn left(&self) -> Frames {
        self.usable_to.saturating_sub(self.used_to)
    }
}

/// A retake on one roll: a question, with its price. Nothing is decided here.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RetakeOn {
    /// The roll.
    pub roll: String,
    /// Frames usable before it.
    pub left: Frames,
    /// Frames usable after it; none when it does not fit.
    pub left_after: Option<Frames>,
    /// By how many frames that falls short of what is still to be shot there; zero when
    /// it does not, or when the retake does not fit.
    pub short_by: Frames,
}

/// What a retake of so many frames, run-up included, does to each roll. `still_wanted`
/// are frames still to be shot, such as titles, that will have to fit one roll.
///
/// ```
/// # use onestrand_film::Frames;
/// # use onestrand_plan::{RollLeft, retake};
/// let frames = |n| Frames::new(n).expect("in range");
/// let roll = RollLeft { roll: "R3".into(), used_to: frames(3063), usable_to: frames(3576) };
/// let on = &retake(frames(438), &[roll], frames(309))[0];
/// assert_eq!((on.left, on.left_after, on.short_by), (frames(513), Some(frames(75)), frames(234)));
/// ```
#[must_use]
pub fn retake(needs: Frames, rolls: &[RollLeft], still_wanted: Frames) -> Vec<RetakeOn> {
    let on = |roll: &RollLeft| {
        let left = roll.left();
        let left_after = (needs <= left).then(|| left.saturating_sub(needs));
        // Where there was no room for it before, the retake takes nothing from it.
        let short_by = left_after
            .filter(|_| still_wanted <= left)
            .map_or(Frames::ZERO, |after| still_wanted.saturating_sub(after));
        RetakeOn {
            roll: roll.roll.clone(),
            left,
            left_after,
            short_by,
        }
    };
    rolls.iter().map(on).collect()
}
