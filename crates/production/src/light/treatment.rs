//! What a finish may do to its pictures, when it is asked to.

use std::collections::{BTreeMap, HashMap};
use std::sync::Arc;

use onestrand_film::{FrameName, Span};
use onestrand_finish::{FinishError, Treat};
use onestrand_intake::Cancel;
use onestrand_light::{Blown, LightTables, Points, Transfer, translate};
use onestrand_store::Production;
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use super::card::{grading_card, light_of_frame, points_of};
use super::frames::named;
use super::measuring::{Found, Measuring, Part};
use crate::documents::{GradingCard, StretchTreated, TreatmentDocument};
use crate::{ProductionError, Progress};

/// What is done to the pictures. Nothing is, unless it is asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, ToSchema)]
#[serde(default)]
pub struct TreatmentChoice {
    /// Shots are given the light of the grading card.
    pub light: bool,
    /// Weave is taken out.
    pub steady: bool,
    /// Flicker is evened.
    pub flicker: bool,
}

impl TreatmentChoice {
    /// Whether anything is to be done.
    #[must_use]
    pub const fn is_none(self) -> bool {
        !(self.light || self.steady || self.flicker)
    }
}

/// What is done to one frame.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
struct FrameTreatment {
    points: Points,
    /// Unit: two-hundredths of a point: so few tables are needed, and no step is seen.
    more: i32,
    /// Unit: shares of the width.
    moved: [f64; 2],
}

/// Log exposure of a step of [`FrameTreatment::more`]. A tenth of a per cent of light.
const STEP: f64 = 0.000_5;

/// What is done to each frame of a finish.
#[derive(Debug)]
pub struct Treatment {
    choice: TreatmentChoice,
    transfer: Transfer,
    is_said: bool,
    frames: HashMap<(Arc<str>, u32), FrameTreatment>,
    rolls: BTreeMap<String, Arc<str>>,
    tables: HashMap<(Points, i32), LightTables>,
    blown: Blown,
    stretches: Vec<StretchTreated>,
}

/// Tables kept at a time, 400 kB each.
const MOST_TABLES: usize = 64;

/// Measures what is to be done to the frames of these stretches.
///
/// `transfer` is what the scans' file says of itself, in FFmpeg's words. Weave and flicker
/// are measured on the workprint, a little beyond each stretch where its take goes on.
///
/// # Errors
/// [`ProductionError::Stopped`], [`ProductionError::Store`], [`ProductionError::Light`] and
/// others.
pub fn treatment_of(
    production: &Production,
    stretches: &[Span],
    choice: TreatmentChoice,
    transfer: Option<&str>,
    cancel: &Cancel,
    progress: &mut dyn Progress,
) -> Result<Treatment, ProductionError> {
    let (transfer, is_said) = named(transfer);
    let mut treatment = Treatment {
        choice,
        transfer,
        is_said,
        frames: HashMap::new(),
        rolls: BTreeMap::new(),
        tables: HashMap::new(),
        blown: Blown::default(),
        stretches: Vec::new(),
    };
    if choice.light {
        let card = grading_card(production)?;
        for span in stretches {
            treatment.give_points(span, &card)?;
        }
    }
    if choice.steady || choice.flicker {
        let mut measuring = Measuring::of(production, transfer, cancel)?;
        let all = stretches
            .iter()
            .map(|s| u64::from(s.range.len().count()))
            .sum();
        progress.begin("measuring weave and flicker", Some(all));
        for span in stretches {
            for part in measuring.parts(span)? {
                let found = measuring.measure(&part, choice, progress)?;
                treatment.take(&part, &found);
            }
        }
    }
    Ok(treatment)
}

impl Treatment {
    /// Treats the picture of a frame: planes of 16 bits, low byte first, in the order green,
    /// blue, red (`gbrp16le`). A frame that nothing is known of is left as it is.
    ///
    /// # Errors
    /// [`ProductionError::Light`] for a picture of another size.
    pub fn apply(
        &mut self,
        name: &FrameName,
        planes: &mut [u8],
        width: u32,
        height: u32,
    ) -> Result<(), ProductionError> {
        let Some(roll) = self.rolls.get(name.roll.as_str()) else {
            return Ok(());
        };
        let key = (roll.clone(), name.frame.index());
        let Some(frame) = self.frames.get(&key).copied() else {
            return Ok(());
        };
        let moved = frame.moved.map(|share| share * f64::from(width));
        translate(planes, width, height, moved)?;
        if frame.points.is_none() && frame.more == 0 {
            return Ok(());
        }
        if self.tables.len() >= MOST_TABLES {
            self.tables.clear();
        }
        let transfer = self.transfer;
        let tables = self
            .tables
            .entry((frame.points, frame.more))
            .or_insert_with(|| {
                LightTables::new(frame.points, f64::from(frame.more) * STEP, transfer)
            });
        let blown = tables.apply(planes, width, height)?;
        self.blown = self.blown.and(blown);
        Ok(())
    }

    /// Whether a frame is changed at all.
    #[must_use]
    pub fn changes(&self, name: &FrameName) -> bool {
        let roll = self.rolls.get(name.roll.as_str());
        let key = roll.map(|roll| (roll.clone(), name.frame.index()));
        key.and_then(|key| self.frames.get(&key))
            .is_some_and(|frame| *frame != FrameTreatment::default())
    }

    /// What was done, for the label and the answer; after the last frame, with what met the
    /// top.
    #[must_use]
    pub fn document(&self) -> TreatmentDocument {
        let with_points = self.frames.values().filter(|f| !f.points.is_none());
        TreatmentDocument {
            light: self.choice.light,
            steadied: self.choice.steady,
            flicker: self.choice.flicker,
            transfer: self.transfer.word().to_owned(),
            transfer_is_said: self.is_said,
            frames_with_points: with_points.count() as u64,
            blown: self.blown.numbers as f64 / self.blown.of.max(1) as f64,
            stretches: self.stretches.clone(),
        }
    }

    /// Words that change whenever what is done does.
    #[must_use]
    pub fn mark(&self) -> String {
        let all: BTreeMap<(&str, u32), &FrameTreatment> = self
            .rolls
            .keys()
            .flat_map(|roll| {
                let of_roll = self.frames.iter().filter(move |(key, _)| *key.0 == **roll);
                of_roll.map(move |(key, frame)| ((roll.as_str(), key.1), frame))
            })
            .collect();
        let mut hash = blake3::Hasher::new();
        hash.update(self.transfer.word().as_bytes());
        for ((roll, frame), done) in all {
            hash.update(format!("{roll} {frame} {done:?}\n").as_bytes());
        }
        hash.finalize().to_hex().to_string()
    }

    /// The same for the places of a finish, each with the frame it shows.
    #[must_use]
    pub fn at_places(self, names: Vec<Option<FrameName>>) -> TreatedPlaces {
        TreatedPlaces {
            treatment: self,
            names,
        }
    }

    fn frame(&mut self, roll: &str, frame: u32) -> &mut FrameTreatment {
        let name = self
            .rolls
            .entry(roll.to_owned())
            .or_insert_with(|| Arc::from(roll))
            .clone();
        self.frames.entry((name, frame)).or_default()
    }

    fn give_points(&mut self, span: &Span, card: &GradingCard) -> Result<(), ProductionError> {
        let roll = span.roll.as_str();
        for frame in span.range.begin().index()..span.range.end().index() {
            if let Some(shot) = light_of_frame(card, roll, frame) {
                self.frame(roll, frame).points = points_of(shot)?;
            }
        }
        Ok(())
    }

    fn take(&mut self, part: &Part, found: &Found) {
        for at in part.own() {
            let frame = self.frame(&part.roll, part.grown.0 + at as u32);
            if let Some(moves) = &found.moves {
                frame.moved = moves[at];
            }
            if let Some(given) = &found.given {
                frame.more = (given[at] / STEP).round() as i32;
            }
        }
        self.stretches.push(found.told.clone());
    }
}

/// What is done at each place of a finish.
#[derive(Debug)]
pub struct TreatedPlaces {
    treatment: Treatment,
    names: Vec<Option<FrameName>>,
}

impl TreatedPlaces {
    /// What was done; see [`Treatment::document`].
    #[must_use]
    pub fn document(&self) -> TreatmentDocument {
        self.treatment.document()
    }
}

impl Treat for TreatedPlaces {
    fn treat(
        &mut self,
        place: u64,
        picture: &mut [u8],
        size: (u32, u32),
    ) -> Result<(), FinishError> {
        let place = usize::try_from(place).unwrap_or(usize::MAX);
        let Some(Some(name)) = self.names.get(place) else {
            return Ok(());
        };
        // Nothing but a picture of another size is refused.
        let wrong = FinishError::WrongPicture {
            found: picture.len(),
            wanted: u64::from(size.0) * u64::from(size.1) * 6,
        };
        self.treatment
            .apply(name, picture, size.0, size.1)
            .map_err(|_| wrong)
    }

    fn mark(&self) -> String {
        self.treatment.mark()
    }
}
