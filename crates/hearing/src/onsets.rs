//! Where a sound begins to sound: attacks, and how strong they are.

use crate::rises::{A_SECOND, Rises};
use crate::{Heard, HearingError, attack, middle};

/// An attack.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Onset {
    /// When it begins. Unit: seconds from the first sample.
    pub seconds: f64,
    /// How strong it is: 1 is what just counts, 2 twice as much above what goes
    /// on around it.
    pub strength: f64,
}

/// Least time between two attacks. Unit: seconds.
const APART: f64 = 0.05;

/// What the energy must grow by at an attack, unless its rise is [`CLEAR`]: the
/// beats of a dying bell and the grain of noise do not.
const GROWS: f64 = 1.35;
const CLEAR: f64 = 4.0;

/// A sound that is there from its first sample does not strike there, nor does
/// one that is cut off strike at its end. Unit: seconds.
const EDGE: f64 = 0.06;

/// Reach of the running middle that an attack must stand above. Unit: seconds.
const AROUND: f64 = 0.6;

/// Finds the attacks of a sound, in order.
///
/// The curve of rises (`docs/HEARING.md`) is compared with what it does around
/// each place; the place of an attack is then sought in the samples, where noise
/// before it and sound after it part best. A clap is placed within a millisecond
/// or two, a bowed note within twenty.
///
/// # Errors
/// [`HearingError::TooShort`] below a tenth of a second, [`HearingError::Silent`].
///
pub fn onsets(heard: Heard<'_>) -> Result<Vec<Onset>, HearingError> {
    let heard = heard.long_enough(0.1)?;
    let rises = Rises::of(heard).all;
    let peaks = peaks(&rises);
    let inside = |near: f64| near > EDGE && near < heard.seconds() - EDGE;
    let mut found: Vec<Onset> = Vec::new();
    for (at, strength) in peaks {
        let near = at as f64 / A_SECOND;
        let after = found.last().map_or(0.0, |last| last.seconds + APART / 2.0);
        let seconds = attack::place(heard, near).max(after);
        let swells = attack::growth(heard, seconds) > GROWS || (strength > CLEAR && inside(near));
        if swells && seconds < heard.seconds() {
            found.push(Onset { seconds, strength });
        }
    }
    Ok(found)
}

/// Instants whose rise is the highest near them and stands above their
/// surroundings, each with by how much.
fn peaks(rises: &[f64]) -> Vec<(usize, f64)> {
    let reach = (AROUND * A_SECOND) as usize;
    let apart = (APART * A_SECOND) as usize;
    // What a rise must exceed everywhere: a share of the strong ones.
    let strong = middle::quantile(rises, 0.995);
    let least = (0.08 * strong).max(2.0);
    let mut found: Vec<(usize, f64)> = Vec::new();
    for (at, &rise) in rises.iter().enumerate() {
        let near = &rises[at.saturating_sub(apart)..(at + apart + 1).min(rises.len())];
        if rise < least || near.iter().any(|&other| other > rise) {
            continue;
        }
        let around = &rises[at.saturating_sub(reach)..(at + reach / 2).min(rises.len())];
        let bar = 1.4 * middle::mean(around) + least;
        let fresh = found.last().is_none_or(|last| at > last.0 + apart);
        if rise > bar && fresh {
            found.push((at, rise / bar));
        }
    }
    found
}
