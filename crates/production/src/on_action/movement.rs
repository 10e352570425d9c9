//! What moves in a take, read from its workprint and kept in memory for a while.

use std::collections::VecDeque;
use std::sync::Arc;

use onestrand_film::FrameRange;
use onestrand_intake::Cancel;
use onestrand_store::{StoreError, TakeRecord, Workprints};
use onestrand_twins::{CannotTell, GreyPicture, MovementReader, TakeMovement, TimeMap};

use super::takes::range;
use crate::ProductionError;
use crate::error::unfit;
use crate::small_pictures::scaled_down;

/// How small a picture will do: an eighth of a workprint's. Unit: pixels.
const LEAST_SIZE: (u16, u16) = (90, 60);

/// Pictures fetched at a time.
const AT_ONCE: u32 = 64;

/// Frames of takes kept in memory; each is 3.5 kB.
const MOST_FRAMES: usize = 16_000;
/// Pairs of takes laid beside each other that are kept.
const MOST_LAID: usize = 64;

/// A take by its pictures: another reading of its roll, or another end, is another.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Key {
    roll: String,
    pictures: String,
    ends: (u32, u32),
}

impl Key {
    fn of(take: &TakeRecord, pictures: &str) -> Self {
        Self {
            roll: take.roll.clone(),
            pictures: pictures.to_owned(),
            ends: (take.first, take.thrown),
        }
    }
}

/// What two takes laid beside each other came to.
pub(super) type Laid = Result<TimeMap, CannotTell>;

/// Takes that were looked at lately, so that a second question does not look again.
#[derive(Debug, Default)]
pub struct MatchMemory {
    takes: VecDeque<(Key, Arc<TakeMovement>)>,
    laid: VecDeque<((Key, Key), Laid)>,
}

/// Where pictures of rolls are fetched, by whoever holds them.
pub trait PictureSource {
    /// The pictures of some frames, as JPEGs in order; nothing where there is none.
    ///
    /// # Errors
    /// [`StoreError::Sql`] or [`StoreError::File`].
    fn run(&mut self, roll: &str, range: FrameRange) -> Result<Vec<Option<Vec<u8>>>, StoreError>;

    /// A word that changes when a roll's pictures do; nothing where it has none.
    ///
    /// # Errors
    /// [`StoreError::Sql`].
    fn identity(&mut self, roll: &str) -> Result<Option<String>, StoreError>;
}

impl PictureSource for Workprints {
    fn run(&mut self, roll: &str, range: FrameRange) -> Result<Vec<Option<Vec<u8>>>, StoreError> {
        Workprints::run(self, roll, range)
    }

    fn identity(&mut self, roll: &str) -> Result<Option<String>, StoreError> {
        Workprints::identity(self, roll)
    }
}

impl MatchMemory {
    /// What moves in a take.
    pub(super) fn movement(
        &mut self,
        source: &mut dyn PictureSource,
        take: &TakeRecord,
        cancel: &Cancel,
        seen: &mut dyn FnMut(u64),
    ) -> Result<Arc<TakeMovement>, ProductionError> {
        let key = Key::of(take, &pictures_of(source, &take.roll)?);
        if let Some((_, known)) = self.takes.iter().find(|(k, _)| *k == key) {
            seen(u64::from(take.thrown - take.first));
            return Ok(Arc::clone(known));
        }
        let moving = Arc::new(read(source, take, cancel, seen)?);
        self.takes.push_back((key, Arc::clone(&moving)));
        let held = |(k, _): &(Key, Arc<TakeMovement>)| (k.ends.1 - k.ends.0) as usize;
        while self.takes.len() > 2 && self.takes.iter().map(held).sum::<usize>() > MOST_FRAMES {
            self.takes.pop_front();
        }
        Ok(moving)
    }

    /// Two takes laid beside each other; `lay` does it when nobody remembers.
    pub(super) fn laid(
        &mut self,
        source: &mut dyn PictureSource,
        (here, there): (&TakeRecord, &TakeRecord),
        lay: impl FnOnce() -> Laid,
    ) -> Result<Laid, ProductionError> {
        let key = |take: &TakeRecord, source: &mut dyn PictureSource| {
            pictures_of(source, &take.roll).map(|pictures| Key::of(take, &pictures))
        };
        let pair = (key(here, source)?, key(there, source)?);
        if let Some((_, known)) = self.laid.iter().find(|(k, _)| *k == pair) {
            return Ok(known.clone());
        }
        let turned = (pair.1.clone(), pair.0.clone());
        if let Some((_, Ok(known))) = self.laid.iter().find(|(k, _)| *k == turned) {
            return Ok(Ok(known.reversed()));
        }
        let found = lay();
        self.laid.push_back((pair, found.clone()));
        while self.laid.len() > MOST_LAID {
            self.laid.pop_front();
        }
        Ok(found)
    }
}

/// The word for a roll's pictures; empty where it has none.
pub(super) fn pictures_of(
    source: &mut dyn PictureSource,
    roll: &str,
) -> Result<String, ProductionError> {
    Ok(source.identity(roll)?.unwrap_or_default())
}

fn read(
    source: &mut dyn PictureSource,
    take: &TakeRecord,
    cancel: &Cancel,
    seen: &mut dyn FnMut(u64),
) -> Result<TakeMovement, ProductionError> {
    let range = range(take)?;
    let mut reader = MovementReader::new(range.begin());
    let mut has_pictures = false;
    let (mut from, end) = (range.begin().index(), range.end().index());
    while from < end {
        if cancel.is_cancelled() {
            return Err(ProductionError::Stopped);
        }
        let to = end.min(from.saturating_add(AT_ONCE));
        for jpeg in source.run(&take.roll, FrameRange::of(from, to)?)? {
            let Some(jpeg) = jpeg else {
                reader.push_missing();
                continue;
            };
            has_pictures = true;
            let small = scaled_down(&jpeg, LEAST_SIZE)?;
            let grey = small.grey();
            let picture = GreyPicture::new(small.width as usize, small.height as usize, &grey)
                .and_then(|picture| reader.push(picture));
            picture.map_err(|problem| unfit(problem.to_string(), problem.hint()))?;
        }
        seen(u64::from(to - from));
        from = to;
    }
    if !has_pictures {
        return Err(unfit(
            format!("{} has no pictures to look at", take.roll),
            "read its scan, or mark the same two moments by hand in both takes",
        ));
    }
    reader
        .finish()
        .map_err(|problem| unfit(problem.to_string(), problem.hint()))
}
