//! Twins sought by the pictures: takes laid beside each other, one pair after another.

use std::collections::BTreeMap;

use onestrand_intake::Cancel;
use onestrand_store::{Production, TakeRecord};
use onestrand_twins::lay_beside;

use super::found::{FoundTwins, SeenPair, SeenTake};
use super::moments::kept;
use super::movement::{MatchMemory, PictureSource, pictures_of};
use super::takes::{TakePlace, take_at, told};
use crate::documents::{SharedFramesDocument, TwinPairDocument, TwinsDocument, decimal};
use crate::{ProductionError, Progress};

/// A search for takes that show the same action, with all that it needs of the
/// production.
#[derive(Debug)]
pub struct TwinSearch {
    dir: std::path::PathBuf,
    pairs: Vec<(TakeRecord, TakeRecord)>,
}

/// The number at the head of a setup; takes of other scenes are not looked through
/// when nobody asks for one.
fn scene(take: &TakeRecord) -> Option<&str> {
    let setup = take.setup.as_deref()?;
    let end = setup
        .find(|letter: char| !letter.is_ascii_digit())
        .unwrap_or(setup.len());
    Some(&setup[..end])
}

impl TwinSearch {
    /// One take beside all others, or all takes of a scene beside each other.
    ///
    /// Takes of different scenes are looked at only when one of them is asked about;
    /// a take without a slate may be of any scene.
    ///
    /// # Errors
    /// [`ProductionError::Unfit`] for a take that is not there;
    /// [`ProductionError::Store`].
    pub fn new(production: &Production, of: Option<&TakePlace>) -> Result<Self, ProductionError> {
        let takes = production.takes()?;
        let pairs = match of {
            Some(place) => {
                let one = take_at(production, place)?;
                let others = takes.iter().filter(|other| **other != one);
                others.map(|other| (one.clone(), other.clone())).collect()
            }
            None => {
                let mut pairs = Vec::new();
                for (at, one) in takes.iter().enumerate() {
                    for other in takes.iter().skip(at + 1) {
                        let (a, b) = (scene(one), scene(other));
                        if a.is_none() || b.is_none() || a == b {
                            pairs.push((one.clone(), other.clone()));
                        }
                    }
                }
                pairs
            }
        };
        Ok(Self {
            dir: production.dir().to_owned(),
            pairs,
        })
    }

    /// Looks at every pair that was not looked at yet. What is found is kept pair by
    /// pair, so that a search that is stopped goes on where it was.
    ///
    /// # Errors
    /// [`ProductionError::Stopped`], [`ProductionError::File`],
    /// [`ProductionError::Store`], [`ProductionError::Picture`].
    pub fn look(
        &self,
        source: &mut dyn PictureSource,
        cancel: &Cancel,
        progress: &mut dyn Progress,
    ) -> Result<(), ProductionError> {
        let mut found = FoundTwins::read(&self.dir);
        let mut pictures: BTreeMap<&str, String> = BTreeMap::new();
        for take in self.pairs.iter().flat_map(|(a, b)| [a, b]) {
            if !pictures.contains_key(take.roll.as_str()) {
                pictures.insert(&take.roll, pictures_of(source, &take.roll)?);
            }
        }
        let word = |take: &TakeRecord| pictures.get(take.roll.as_str()).map_or("", String::as_str);
        // Pictures that are no more are forgotten.
        found.pairs.retain(|pair| {
            [&pair.here, &pair.there].iter().all(|seen| {
                pictures
                    .get(seen.roll.as_str())
                    .is_none_or(|now| *now == seen.pictures)
            })
        });
        let new: Vec<(SeenTake, SeenTake, &TakeRecord, &TakeRecord)> = self
            .pairs
            .iter()
            .filter(|(a, b)| !word(a).is_empty() && !word(b).is_empty())
            .map(|(a, b)| (SeenTake::of(a, word(a)), SeenTake::of(b, word(b)), a, b))
            .filter(|(a, b, ..)| !found.knows(a, b))
            .collect();
        progress.begin("looking for the same action", Some(new.len() as u64));
        let mut memory = MatchMemory::default();
        let mut kept_before = 0;
        for (done, (here, there, a, b)) in new.into_iter().enumerate() {
            if cancel.is_cancelled() {
                found.write(&self.dir)?;
                return Err(ProductionError::Stopped);
            }
            let mut movement =
                |take: &TakeRecord| memory.movement(source, take, cancel, &mut |_| {});
            let map = match (movement(a), movement(b)) {
                (Ok(left), Ok(entered)) => lay_beside(&left, &entered).ok(),
                (Err(ProductionError::Stopped), _) | (_, Err(ProductionError::Stopped)) => {
                    found.write(&self.dir)?;
                    return Err(ProductionError::Stopped);
                }
                // A take that the scan does not show has no twins by pictures.
                (Err(ProductionError::Unfit { .. }), _)
                | (_, Err(ProductionError::Unfit { .. })) => None,
                (Err(problem), _) | (_, Err(problem)) => return Err(problem),
            };
            found.pairs.push(SeenPair::new(here, there, map.as_ref()));
            if done >= kept_before + KEPT_EVERY {
                found.write(&self.dir)?;
                kept_before = done;
            }
            progress.at(done as u64 + 1);
        }
        found.write(&self.dir)
    }
}

/// Pairs between two times that what was found is kept: some seconds of work.
const KEPT_EVERY: usize = 12;

/// Which takes show the same action, by the user's marks and by what was found.
///
/// # Errors
/// [`ProductionError::Store`].
pub fn twins_document(
    production: &Production,
    source: &mut dyn PictureSource,
) -> Result<TwinsDocument, ProductionError> {
    let takes = production.takes()?;
    let mut pairs = Vec::new();
    for marks in kept(production)? {
        let (Some((here, there)), Ok(map)) = (marks.takes(&takes), marks.map()) else {
            continue;
        };
        pairs.push(TwinPairDocument {
            from: told(here),
            to: told(there),
            by: "marks",
            pace: decimal(map.pace()),
            strength: None,
            marks: marks.pairs().iter().map(Into::into).collect(),
            shared: None,
        });
    }
    let found = FoundTwins::read(production.dir());
    let mut looked_at = 0;
    let mut now: BTreeMap<String, String> = BTreeMap::new();
    for pair in &found.pairs {
        for seen in [&pair.here, &pair.there] {
            if !now.contains_key(&seen.roll) {
                now.insert(seen.roll.clone(), pictures_of(source, &seen.roll)?);
            }
        }
        let of = |seen: &SeenTake| {
            let is_now = now.get(&seen.roll) == Some(&seen.pictures);
            takes.iter().find(|take| is_now && seen.is(take))
        };
        let (Some(here), Some(there)) = (of(&pair.here), of(&pair.there)) else {
            continue;
        };
        looked_at += 1;
        let Some(map) = pair.map() else { continue };
        pairs.push(TwinPairDocument {
            from: told(here),
            to: told(there),
            by: "pictures",
            pace: decimal(map.pace()),
            strength: map.strength().map(|s| (s * 10.0).round() / 10.0),
            marks: Vec::new(),
            shared: map.found_over().map(|range| SharedFramesDocument {
                first: range.begin().index(),
                thrown: range.end().index(),
            }),
        });
    }
    Ok(TwinsDocument { pairs, looked_at })
}
