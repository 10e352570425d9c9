//! The beat of a music.

use onestrand_hearing::{Beats, beats as find};

use super::ear::InTheEar;
use super::{rounded, unheard};
use crate::ProductionError;
use crate::documents::{BeatsDocument, BeatsWords, SoundWords};

/// Tempo, beats and bars.
pub(super) fn beats(
    heard: &InTheEar,
    sound: &SoundWords,
    (slowest, fastest): (Option<f64>, Option<f64>),
) -> Result<BeatsDocument, ProductionError> {
    let (slow, fast) = Beats::USUAL;
    let slowest = slowest.unwrap_or(slow);
    let fastest = fastest.unwrap_or(fast.max(slowest));
    let found = find(heard.heard()?, slowest, fastest).map_err(|why| unheard(&why))?;
    let behind_first = found.seconds.len().saturating_sub(found.first_bar);
    Ok(BeatsDocument {
        bpm: rounded(found.bpm, 3),
        played_bpm: rounded(found.bpm * f64::from(sound.play) / 1e6, 3),
        sure: rounded(found.sure, 2),
        sure_of_bars: rounded(found.sure_of_bars, 2),
        or_bpm: found.or_bpm.iter().map(|bpm| rounded(*bpm, 1)).collect(),
        uneven_ms: rounded(found.uneven_ms, 1),
        bars: behind_first / found.in_a_bar.max(1) as usize,
        beats: BeatsWords {
            at: found.seconds.iter().map(|s| heard.sample(*s)).collect(),
            in_a_bar: found.in_a_bar,
            first_bar: u32::try_from(found.first_bar).unwrap_or(0),
            tempo: (found.bpm * 1000.0).round() as u32,
        },
    })
}
