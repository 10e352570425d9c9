//! How the sound is mixed, kept with the production.

use onestrand_film::Fps;
use onestrand_store::{Act, Production};

use crate::ProductionError;
use crate::documents::MixWords;
use crate::error::unfit;

/// The name under which it is kept.
pub(crate) const MIX: &str = "mix";

/// The longest leader. Unit: frames, ten minutes at 24.
const LONGEST_LEADER: u32 = 24 * 600;

/// How the mix was set, or as the program begins. What a later version of the program wrote
/// in a way that cannot be read here counts as nothing.
pub(crate) fn mix_of(production: &Production) -> Result<MixWords, ProductionError> {
    let text = production.setting(MIX)?;
    let kept = text.and_then(|text| serde_json::from_str::<MixWords>(&text).ok());
    Ok(kept.unwrap_or_default())
}

/// The speed that is mixed for: the projector's, where it was measured, else the film's own.
pub(crate) fn speed_of(production: &Production, mix: &MixWords) -> Result<Fps, ProductionError> {
    match mix.speed.trim() {
        "" => Ok(production.meta().speed),
        measured => Ok(measured.replace(',', ".").parse()?),
    }
}

/// The act that keeps it.
pub(crate) fn put(mix: &MixWords) -> Result<Act, ProductionError> {
    fits(mix)?;
    Ok(Act::PutSetting {
        name: MIX.to_owned(),
        value: serde_json::to_string(mix).ok(),
    })
}

fn fits(mix: &MixWords) -> Result<(), ProductionError> {
    if !mix.speed.trim().is_empty() {
        let _readable: Fps = mix.speed.trim().replace(',', ".").parse()?;
    }
    if mix.leader > LONGEST_LEADER {
        return Err(unfit(
            format!(
                "a leader of {} frames is longer than ten minutes",
                mix.leader
            ),
            "write frames: 180 at 18 frames a second are ten seconds",
        ));
    }
    if mix.ceiling > 0 || mix.ceiling < -600 {
        return Err(unfit(
            "the most that is let through lies between -60 and 0 dB".to_owned(),
            "write -1, as is usual",
        ));
    }
    if mix.hands == 0 || mix.hands > 40 {
        return Err(unfit(
            format!("{} hands cannot be meant", mix.hands),
            "write 2 for each person at the faders",
        ));
    }
    super::fits::level_fits("the level of the whole", mix.gain)
}
