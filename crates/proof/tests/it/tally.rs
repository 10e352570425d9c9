//! What came of many photographs, told against their truth.

use onestrand_proof::{Beyond, RollSketches, StripPlace};

use crate::film::Film;
use crate::photograph::Photograph;

/// A place is told as sure from here on.
pub(crate) const SURE: f32 = 0.9;

/// What a strip is in truth.
#[derive(Clone, Copy)]
pub(crate) struct Truth<'a> {
    /// Its roll, `None` when it is of no roll that was handed in.
    pub(crate) roll: Option<usize>,
    pub(crate) first: usize,
    pub(crate) film: &'a Film,
}

/// How an answer stands to the truth.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Came {
    /// The right roll, and a span that holds what is seen.
    Right,
    /// The right place is among several, none of them told as sure.
    OneOfSeveral,
    /// Nothing is told, or nothing of what is told is said to be sure.
    Unknown,
    /// Right as far as it goes, and told to be the least it is: more may lie under a hand.
    AtLeast,
    /// Right as far as it goes, told as sure and as the whole: it is not.
    PartSure,
    /// Another place than the right one, told as a guess.
    WrongGuess,
    /// Another place than the right one, told as sure.
    WrongSure,
}

/// What came of many photographs.
#[derive(Debug, Default)]
pub(crate) struct Tally {
    of: usize,
    right: usize,
    right_and_sure: usize,
    /// Right answers whose span is longer than the strip.
    still: usize,
    /// Frames that these spans are longer.
    excess: usize,
    /// Of these the ones longer than the pictures of the clip call for.
    too_long: usize,
    one_of_several: usize,
    unknown: usize,
    at_least: usize,
    part_sure: usize,
    /// Right answers that say that more may be hidden, and no frame is.
    needlessly_open: usize,
    wrong_guess: usize,
    wrong_sure: usize,
    /// Strips of no roll, and those of them that were named as sure.
    of_no_roll: usize,
    of_no_roll_sure: usize,
}

impl Tally {
    pub(crate) fn add(
        &mut self,
        told: &[StripPlace],
        truth: Truth<'_>,
        photo: &Photograph,
    ) -> Came {
        let came = came(told, truth, photo);
        if truth.roll.is_none() {
            self.of_no_roll += 1;
            self.of_no_roll_sure += usize::from(came == Came::WrongSure);
            return came;
        }
        self.of += 1;
        match came {
            Came::Right => self.right += 1,
            Came::OneOfSeveral => self.one_of_several += 1,
            Came::Unknown => self.unknown += 1,
            Came::AtLeast => self.at_least += 1,
            Came::PartSure => self.part_sure += 1,
            Came::WrongGuess => self.wrong_guess += 1,
            Came::WrongSure => self.wrong_sure += 1,
        }
        if let (Came::Right, Some(best)) = (came, told.first()) {
            self.right_and_sure += usize::from(best.confidence >= SURE);
            self.still += usize::from(best.still);
            let is_open = best.beyond != (Beyond::Ends, Beyond::Ends);
            self.needlessly_open += usize::from(is_open && !photo.open.contains(&false));
            self.excess += (best.end - best.first).saturating_sub(photo.open.len());
            self.too_long += usize::from(is_too_long(best, truth, photo));
        }
        came
    }
}

/// Tells an answer by the truth.
pub(crate) fn came(told: &[StripPlace], truth: Truth<'_>, photo: &Photograph) -> Came {
    let Some(best) = told.first() else {
        return Came::Unknown;
    };
    let (low, high) = open(photo);
    let (low, high) = (low + truth.first, high + truth.first);
    let whole = (truth.first, truth.first + photo.open.len());
    // Everything that is seen; a still shot may say more, nothing else may.
    let is_right = |told: &StripPlace| {
        let covers = told.first <= low && told.end >= high;
        let inside = told.first >= whole.0 && told.end <= whole.1;
        Some(told.roll) == truth.roll && covers && (told.still || inside)
    };
    let is_part = Some(best.roll) == truth.roll && best.first >= whole.0 && best.end <= whole.1;
    if is_right(best) {
        Came::Right
    } else if is_part && photo.open.contains(&false) && best.confidence >= SURE {
        let goes_on = |is_short: bool, beyond: Beyond| !is_short || beyond != Beyond::Ends;
        let before = goes_on(best.first > low, best.beyond.0);
        let behind = goes_on(best.end < high, best.beyond.1);
        if before && behind {
            Came::AtLeast
        } else {
            Came::PartSure
        }
    } else if best.confidence >= SURE {
        Came::WrongSure
    } else if told.iter().any(is_right) {
        Came::OneOfSeveral
    } else {
        Came::WrongGuess
    }
}

/// First and one behind the last frame that nothing lies over.
fn open(photo: &Photograph) -> (usize, usize) {
    let first = photo.open.iter().position(|o| *o).unwrap_or(0);
    let last = photo.open.iter().rposition(|o| *o).unwrap_or(0);
    (first, last + 1)
}

/// Whether a span is so long that at one of its ends the clip's own pictures, without
/// any photograph between, are clearly other ones than the strip's: by more than a
/// tenth of how much a frame of another shot is other.
fn is_too_long(told: &StripPlace, truth: Truth<'_>, photo: &Photograph) -> bool {
    let clean = truth.film.sketched();
    let (low, high) = open(photo);
    let low_end = told.first as i64 - (truth.first + low) as i64;
    let high_end = told.end as i64 - (truth.first + high) as i64;
    [low_end, high_end].into_iter().any(|off| {
        let at = |frame: usize| usize::try_from(frame as i64 + off).unwrap_or(0);
        let frames = truth.first + low..truth.first + high;
        let count = frames.len() as f32;
        let unlike = |frame: usize| {
            let other = clean.get(at(frame))?;
            Some(1.0 - clean[frame].likeness(other))
        };
        frames.filter_map(unlike).sum::<f32>() / count > 0.1
    })
}

/// All rolls, with one of them left out: its frames become blank, its number stays.
pub(crate) fn without(rolls: &[RollSketches], gone: usize) -> Vec<RollSketches> {
    let mut kept = rolls.to_vec();
    kept[gone] = RollSketches::new();
    kept
}
