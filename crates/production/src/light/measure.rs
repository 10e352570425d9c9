//! Patches measured on browsing pictures.

use onestrand_light::{PatchLight, PatchPlace, Transfer, measure_patch};
use onestrand_store::{Production, Workprints};

use super::frames::transfer_of_roll;
use crate::ProductionError;
use crate::documents::{LightMeasured, PatchMeasured, PatchWords};
use crate::error::unfit;
use crate::small_pictures::{Small, scaled_down};

/// What a patch's sides are counted in.
const PARTS: f64 = 10_000.0;

/// The light of a patch, measured on the browsing picture of its frame.
///
/// # Errors
/// [`ProductionError::Light`], [`ProductionError::Unfit`] for a frame without a picture,
/// [`ProductionError::Store`].
pub fn measure_light(
    production: &Production,
    patch: &PatchWords,
) -> Result<LightMeasured, ProductionError> {
    let mut prints = Workprints::open(production.dir())?;
    let (transfer, is_said) = transfer_of_roll(production, &patch.roll);
    let found = measured(&mut prints, patch, transfer)?;
    Ok(LightMeasured {
        measured: told(patch, &found),
        light: found.light,
        pixels: found.pixels,
        transfer: transfer.word().to_owned(),
        transfer_is_said: is_said,
    })
}

pub(super) fn measured(
    prints: &mut Workprints,
    patch: &PatchWords,
    transfer: Transfer,
) -> Result<PatchLight, ProductionError> {
    let share = |parts: u32| f64::from(parts) / PARTS;
    let place = PatchPlace::new(
        share(patch.left),
        share(patch.top),
        share(patch.width),
        share(patch.height),
    )?;
    let picture = picture(prints, &patch.roll, patch.frame)?;
    let size = (picture.width as usize, picture.height as usize);
    Ok(measure_patch(&picture.rgb, size, place, transfer)?)
}

pub(super) fn told(patch: &PatchWords, found: &PatchLight) -> PatchMeasured {
    PatchMeasured {
        patch: patch.clone(),
        log: found.log(),
        blown: found.blown,
        black: found.black,
        usable: found.is_usable(),
    }
}

/// A browsing picture at half its size: a patch of a hundredth is still five pixels wide.
pub(super) fn picture(
    prints: &mut Workprints,
    roll: &str,
    frame: u32,
) -> Result<Small, ProductionError> {
    let jpeg = prints.picture(roll, frame)?.ok_or_else(|| {
        unfit(
            format!("{roll}·{frame} has no picture"),
            "choose another frame, or read the roll again",
        )
    })?;
    scaled_down(&jpeg, (480, 360))
}
