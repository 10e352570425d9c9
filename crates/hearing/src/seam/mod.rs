//! An atmosphere joined to itself.

mod colour;
mod crossfade;

use colour::Colours;

use crate::tone::in_range;
use crate::{Heard, HearingError, middle};

/// What a loop should be.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LoopWish {
    /// The shortest that will do. Unit: seconds, from 1.
    pub least: f64,
    /// How long its two ends pass into each other. Unit: seconds, 0.02 to 10,
    /// and at most half of `least`.
    pub fade: f64,
}

/// A stretch of a sound that can be played round and round.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Seam {
    /// First sample of the loop.
    pub from: usize,
    /// The sample after its last: the loop has `to − from` samples.
    pub to: usize,
    /// The last so many samples of the loop pass into what lies before `from`.
    pub fade: usize,
    /// How alike the two ends are from sample to sample, −1 to 1; the fade keeps
    /// its power whatever it is.
    pub alike: f64,
    /// How far the two ends differ in colour and level, over all bands. Unit: dB.
    pub off_db: f64,
    /// How far the loudest event of the loop stands out of its pitch's usual
    /// level: each turn it is heard again, and above 7 dB it gives a beat.
    /// Unit: dB.
    pub stands_out_db: f64,
    /// What changes at the seam over what changes anywhere else in the loop, as
    /// it was made: about 1 and below, nobody hears it; above 2 one does.
    pub times_usual: f64,
}

/// What longer loops are worth, and what an event that stands out costs: dB of
/// difference a doubling, dB a dB above [`BEAT_DB`]. Our own choice.
const LONGER: f64 = 0.7;
const EVENT: f64 = 0.6;

/// From here on a single event is heard to come again. Unit: dB.
const BEAT_DB: f64 = 7.0;

/// Finds the best seam of an atmosphere: where colour and level are most alike,
/// with no loud single event inside, and rather long than short.
///
/// # Errors
/// [`HearingError::OutOfRange`] for a wish that cannot be, [`HearingError::NoLoop`]
/// when the sound is too short for it, [`HearingError::Silent`].
pub fn best_seam(heard: Heard<'_>, wish: LoopWish) -> Result<Seam, HearingError> {
    in_range("the shortest loop", wish.least, 1.0, 3_600.0)?;
    in_range("the fade", wish.fade, 0.02, (wish.least / 2.0).min(10.0))?;
    let seconds = heard.seconds();
    let none = HearingError::NoLoop {
        least: wish.least,
        seconds,
    };
    if seconds < wish.least + wish.fade + 0.2 {
        return Err(none);
    }
    let heard = heard.long_enough(1.0)?;
    let colours = Colours::of(heard);
    let (from, to) = colours.best_pair(wish).ok_or(none)?;
    let rate = heard.rate();
    let fade = (wish.fade * rate) as usize;
    let (from, to) = ((from * rate) as usize, (to * rate) as usize);
    let (from, alike) = crossfade::slid(heard, from, to, fade);
    let mut seam = Seam {
        from,
        to,
        fade,
        alike,
        off_db: colours.apart_at(from as f64 / rate, to as f64 / rate, wish.fade),
        stands_out_db: colours.stands_out(from as f64 / rate, to as f64 / rate),
        times_usual: 0.0,
    };
    let made = seam.carry_out(heard);
    seam.times_usual = times_usual(&made, heard.rate() as u32, fade)?;
    Ok(seam)
}

impl Seam {
    /// The loop itself: `to − from` samples, to be played round and round.
    ///
    /// Where the seam does not lie inside the sound, what is missing is silence.
    #[must_use]
    pub fn carry_out(&self, heard: Heard<'_>) -> Vec<f32> {
        crossfade::carry_out(self, heard.samples())
    }

    /// Whether a listener will find it: a change at the seam or an event that
    /// comes again.
    #[must_use]
    pub fn has_a_beat(&self) -> bool {
        self.times_usual > 2.0 || self.stands_out_db > BEAT_DB
    }
}

/// The greatest change of colour round the seam, over the change that only one
/// place in twenty of the rest exceeds.
fn times_usual(made: &[f32], rate: u32, fade: usize) -> Result<f64, HearingError> {
    // Turned so that the middle of the fade lies in the middle.
    let mut turned = made.to_vec();
    let middle_of_fade = made.len().saturating_sub(fade / 2);
    turned.rotate_left((middle_of_fade + made.len() / 2) % made.len().max(1));
    let colours = Colours::of(Heard::new(&turned, rate)?);
    let changes = colours.changes();
    let here = changes.len() / 2;
    let reach = colours.instants(fade as f64 / f64::from(rate) / 2.0) + 2;
    let near = here.saturating_sub(reach)..(here + reach + 1).min(changes.len());
    let at_seam = changes[near.clone()].iter().copied().fold(0.0, f64::max);
    let numbered = changes.iter().enumerate();
    let rest: Vec<f64> = numbered
        .filter(|(at, _)| !near.contains(at))
        .map(|(_, &change)| change)
        .collect();
    Ok(at_seam / middle::quantile(&rest, 0.95).max(0.05))
}
