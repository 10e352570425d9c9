//! The flash at a break that a person has set or moved: measured on the pictures that
//! are kept, for what was measured at another frame says nothing of this one.

use onestrand_film::FrameRange;
use onestrand_inspect::{BreakSettings, FLASH_FRAMES_WANTED, StartFlash, flash_at_start};
use onestrand_store::{Production, TakeRecord, Workprints};

use crate::ProductionError;
use crate::film_view::report;
use crate::reading::rounded;
use crate::small_pictures::scaled_down;

/// How small a picture will do. Unit: pixels.
const LEAST_SIZE: (u16, u16) = (90, 60);

/// What is known of the flash of a take that begins elsewhere from now on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Flash {
    /// What the first frames show.
    Measured(StartFlash),
    /// There is nothing to measure it on.
    NotKnown,
}

impl Flash {
    /// Writes it into the take.
    pub(crate) fn put(self, take: &mut TakeRecord) {
        let found = match self {
            Self::Measured(found) => found,
            Self::NotKnown => StartFlash::default(),
        };
        take.flash_frames = found.frames;
        take.flash_stops = (found.frames > 0).then(|| rounded(found.stops));
    }

    /// What the journal says of it; nothing where there was none and is none.
    pub(crate) fn words(self, had: u32) -> String {
        match self {
            Self::Measured(StartFlash { frames: 0, .. }) if had == 0 => String::new(),
            Self::Measured(StartFlash { frames: 0, .. }) => "; it has no flash there".to_owned(),
            Self::Measured(StartFlash { frames, stops }) => {
                let frames = if frames == 1 {
                    "its first frame is".to_owned()
                } else {
                    format!("its first {frames} frames are")
                };
                format!("; {frames} over there, by {stops:.1} stop")
            }
            Self::NotKnown if had == 0 => String::new(),
            Self::NotKnown => {
                "; its flash was that of another frame, and is no longer known".to_owned()
            }
        }
    }
}

/// Measures the flash of a take from `first` to `thrown`. Where the reading saw a
/// break at that very frame, its own measure is taken.
pub(crate) fn flash_of(
    production: &Production,
    roll: &str,
    first: u32,
    thrown: u32,
) -> Result<Flash, ProductionError> {
    let mut prints = Workprints::open(production.dir())?;
    let Some(info) = prints.info(roll)? else {
        return Ok(Flash::NotKnown);
    };
    let seen = report(&info.report).breaks;
    if let Some(seen) = seen.iter().find(|one| one.at == first) {
        return Ok(Flash::Measured(StartFlash {
            frames: seen.flash_frames,
            stops: seen.flash_stops as f32,
        }));
    }
    let wanted = u32::try_from(FLASH_FRAMES_WANTED).unwrap_or(u32::MAX);
    let end = thrown.min(first.saturating_add(wanted));
    let run = prints.run(roll, FrameRange::of(first, end)?)?;
    let mut greys = Vec::with_capacity(run.len());
    for picture in run {
        // A frame that no scan shows tells nothing of the light behind it.
        let Some(picture) = picture else { break };
        greys.push(scaled_down(&picture, LEAST_SIZE)?.grey());
    }
    let frames: Vec<&[u8]> = greys.iter().map(Vec::as_slice).collect();
    let found = flash_at_start(&frames, &BreakSettings::default());
    Ok(found.map_or(Flash::NotKnown, Flash::Measured))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_journal_says_what_became_of_the_flash() {
        let found = |frames, stops| Flash::Measured(StartFlash { frames, stops });
        assert_eq!(found(0, 0.0).words(0), "");
        assert_eq!(found(0, 0.0).words(1), "; it has no flash there");
        assert_eq!(
            found(1, 1.16).words(0),
            "; its first frame is over there, by 1.2 stop"
        );
        assert!(Flash::NotKnown.words(1).contains("no longer known"));
        assert_eq!(Flash::NotKnown.words(0), "");
    }
}
