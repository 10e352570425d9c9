//! How rolls and takes are written down: plain records, apart from the model
//! itself, so that either can change without the other.

use onestrand_cut::{Base, Fit, Rating, Roll, Slate, Take, Wind};
use onestrand_film::{FrameRange, Frames, RollId, Span};
use serde::{Deserialize, Serialize};

use crate::{InspectionRecord, StoreError};

/// A roll as it is kept.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct RollRecord {
    /// Its name.
    pub name: String,
    /// Its gauge.
    pub gauge: String,
    /// The speed it was run at in the camera.
    pub film_speed: String,
    /// `triacetate`, `polyester` or `not-known`.
    pub base: String,
    /// `project`, `scan-only` or `never-cut`.
    pub fit: String,
    /// `A` or `B`, if known.
    pub wind: Option<String>,
    /// Film frames on it, missing ones counted.
    pub frames: u32,
    /// Film frames that no scan shows.
    pub missing: u32,
    /// Frames that the measured length holds, if it was measured.
    pub expected: Option<u32>,
    /// The measured length as it was given.
    pub measured: Option<String>,
    /// Shrinkage in per cent as it was given.
    pub shrinkage: Option<String>,
    /// Who said that the scan is complete although it was not measured.
    pub proved_by: Option<String>,
    /// What was found with the film in the hand.
    #[serde(default)]
    pub inspection: InspectionRecord,
    /// The scans, in order along the roll; none for a roll known on paper.
    pub scans: Vec<ScanRecord>,
}

/// A scan as it is kept.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct ScanRecord {
    /// The file, or the pictures of a sequence in order.
    pub paths: Vec<String>,
    /// Size of it all. Unit: bytes.
    pub bytes: u64,
    /// BLAKE3 of it all, in hexadecimal.
    pub blake3: String,
    /// What the stream says of itself.
    pub facts: ScanFacts,
}

/// What a scan's stream says of itself.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct ScanFacts {
    /// File frames decoded.
    pub frames: u64,
    /// File frames a second, as a fraction.
    pub rate: String,
    /// Width. Unit: pixels.
    pub width: u32,
    /// Height. Unit: pixels.
    pub height: u32,
    /// The coding, in words.
    pub coding: String,
}

/// A take as it is kept.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct TakeRecord {
    /// The roll.
    pub roll: String,
    /// The first frame.
    pub first: u32,
    /// The first frame after it.
    pub thrown: u32,
    /// Setup as the slate says it.
    pub setup: Option<String>,
    /// Take number.
    pub take: Option<u16>,
    /// `none`, `circled`, `hold` or `ng`.
    pub rating: String,
    /// Size of the view.
    pub size: String,
    /// What the camera does.
    pub camera_move: String,
    /// Who moves which way.
    pub direction: String,
    /// What happens.
    pub action: String,
    /// The user's note.
    pub note: String,
    /// How it begins: `roll_start`, `fog`, `camera_stop`, `join`, `cut`, `fade`.
    pub begins: String,
    /// Over-exposed frames at its start.
    pub flash_frames: u32,
    /// By how much the first is over-exposed. Unit: stops.
    pub flash_stops: Option<f64>,
    /// Whether a person has looked at where it begins, and let it stand.
    #[serde(default)]
    pub looked: bool,
    /// The pin of the trim bin it hangs on, counted from 1; where none is said,
    /// putting the takes of a roll gives the pin the take had, or the next free.
    #[serde(default)]
    pub pin: Option<u32>,
}

impl RollRecord {
    /// What the roll may be used for now: one half of a strip that is not slit
    /// cannot be cut without cutting the other.
    fn fit_as_it_is(&self) -> Result<Fit, StoreError> {
        let said = fit(&self.fit)?;
        let unslit = self.inspection.half.as_ref().is_some_and(|h| !h.slit);
        Ok(match said {
            Fit::Project if unslit => Fit::ScanOnly,
            other => other,
        })
    }

    /// The roll of the model.
    ///
    /// It is proved when a length was measured and exactly that many frames
    /// were found with none missing, or when the user has said so.
    ///
    /// # Errors
    /// [`StoreError::Unreadable`].
    pub fn to_model(&self) -> Result<Roll, StoreError> {
        let counted = self.missing == 0 && self.expected == Some(self.frames);
        Ok(Roll {
            id: roll_id(&self.name)?,
            gauge: self
                .gauge
                .parse()
                .map_err(|_| StoreError::unreadable("a gauge", &self.gauge))?,
            base: base(&self.base)?,
            fit: self.fit_as_it_is()?,
            wind: match self.wind.as_deref() {
                None => None,
                Some("A") => Some(Wind::A),
                Some("B") => Some(Wind::B),
                Some(other) => return Err(StoreError::unreadable("a wind", other)),
            },
            frames: Frames::new(self.frames)
                .map_err(|_| StoreError::unreadable("a roll's length", self.frames))?,
            proved: counted || self.proved_by.is_some(),
        })
    }
}

impl TakeRecord {
    /// The take of the model.
    ///
    /// # Errors
    /// [`StoreError::Unreadable`].
    pub fn to_model(&self) -> Result<Take, StoreError> {
        Ok(Take {
            span: span(&self.roll, self.first, self.thrown)?,
            slate: slate(self.setup.as_deref(), self.take)?,
            rating: rating(&self.rating)?,
            size: self.size.clone(),
            camera_move: self.camera_move.clone(),
            direction: self.direction.clone(),
            action: self.action.clone(),
            note: self.note.clone(),
        })
    }
}

pub(crate) fn span(roll: &str, first: u32, thrown: u32) -> Result<Span, StoreError> {
    let range = FrameRange::of(first, thrown)
        .map_err(|_| StoreError::unreadable("a span", format!("{roll} {first} {thrown}")))?;
    Ok(Span::new(roll_id(roll)?, range))
}

fn roll_id(name: &str) -> Result<RollId, StoreError> {
    RollId::new(name).map_err(|_| StoreError::unreadable("a roll's name", name))
}

pub(crate) fn slate(setup: Option<&str>, take: Option<u16>) -> Result<Option<Slate>, StoreError> {
    match (setup, take) {
        (Some(setup), Some(take)) => Slate::new(setup, take)
            .map(Some)
            .map_err(|e| StoreError::unreadable("a slate", e.found)),
        _ => Ok(None),
    }
}

fn base(word: &str) -> Result<Base, StoreError> {
    match word {
        "triacetate" => Ok(Base::Triacetate),
        "polyester" => Ok(Base::Polyester),
        "not-known" => Ok(Base::NotKnown),
        _ => Err(StoreError::unreadable("a base", word)),
    }
}

fn fit(word: &str) -> Result<Fit, StoreError> {
    match word {
        "project" => Ok(Fit::Project),
        "scan-only" => Ok(Fit::ScanOnly),
        "never-cut" => Ok(Fit::NeverCut),
        _ => Err(StoreError::unreadable("what a roll is fit for", word)),
    }
}

fn rating(word: &str) -> Result<Rating, StoreError> {
    match word {
        "none" => Ok(Rating::None),
        "circled" => Ok(Rating::Circled),
        "hold" => Ok(Rating::Hold),
        "ng" => Ok(Rating::Ng),
        _ => Err(StoreError::unreadable("a rating", word)),
    }
}
