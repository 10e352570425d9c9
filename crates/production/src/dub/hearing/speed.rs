//! How fast a sound ran.

use onestrand_hearing::{Mains, hum, tone};

use super::ear::InTheEar;
use super::{rounded, unheard};
use crate::ProductionError;
use crate::documents::SpeedDocument;
use crate::error::unfit;

/// How far a tape may be off: a tenth covers any machine that runs.
const WITHIN: f64 = 0.1;
/// The same for hum: more would take 55 Hz for either of both mains.
const WITHIN_HUM: f64 = 0.08;

/// By a tone whose true pitch is known.
pub(super) fn of_tone(heard: &InTheEar, hertz: f64) -> Result<SpeedDocument, ProductionError> {
    let found = tone(heard.heard()?, hertz, WITHIN).map_err(|why| unheard(&why))?;
    let play = found.play(hertz);
    Ok(SpeedDocument {
        true_hertz: hertz,
        heard_hertz: rounded(found.hertz, 3),
        error_hertz: rounded(found.error_hertz, 4),
        play: rounded(play, 6),
        play_millionths: (play * 1e6).round() as u32,
        wander_percent: Some(rounded(found.wander_percent, 3)),
        above_rest_db: Some(rounded(found.above_rest_db, 1)),
        harmonics: Vec::new(),
    })
}

/// By the hum of the mains.
pub(super) fn of_hum(heard: &InTheEar, mains: u32) -> Result<SpeedDocument, ProductionError> {
    let mains = match mains {
        50 => Mains::Fifty,
        60 => Mains::Sixty,
        other => {
            return Err(unfit(
                format!("no mains have {other} Hz"),
                "50 Hz in most of the world, 60 Hz in the Americas and parts of Asia",
            ));
        }
    };
    let found = hum(heard.heard()?, mains, WITHIN_HUM).map_err(|why| unheard(&why))?;
    let play = found.play(mains);
    Ok(SpeedDocument {
        true_hertz: mains.hertz(),
        heard_hertz: rounded(found.hertz, 3),
        error_hertz: rounded(found.error_hertz, 4),
        play: rounded(play, 6),
        play_millionths: (play * 1e6).round() as u32,
        wander_percent: None,
        above_rest_db: None,
        harmonics: found.harmonics,
    })
}
