//! Which of two copies: the same frames of both found and compared.

use std::sync::Arc;

use onestrand_intake::Cancel;
use onestrand_proof::{ReelSpan, RollSketches, Wanted, prove_reel};
use onestrand_provenance::{SameFrames, ScanPicture, compare_copies};
use onestrand_store::Workprints;

use super::copy_words::document;
use super::pictures::fetch;
use super::reels::{FamilyReels, Reel};
use crate::documents::{CopiesDocument, CopyPlace};
use crate::error::unfit;
use crate::reading_back::SketchMemory;
use crate::{ProductionError, Progress};

/// Places at which two copies are compared.
const PLACES: usize = 10;
/// Frames left out at both ends of what both show.
const FROM_ENDS: usize = 2;
/// Fewest frames that both must show in one run.
const LEAST_RUN: usize = 12;

/// Two copies that are to be compared.
#[derive(Debug, Clone)]
pub struct CopiesAsked {
    first: Reel,
    second: Reel,
}

impl CopiesAsked {
    /// Two reels by name: `R1`, or `film/R1` on a shelf.
    ///
    /// # Errors
    /// [`ProductionError::Unfit`] when one is not there, or both are one.
    pub fn of(reels: &FamilyReels, first: &str, second: &str) -> Result<Self, ProductionError> {
        if first == second {
            return Err(unfit(
                format!("{first} is one reel, not two copies"),
                "name the two reels that show the same",
            ));
        }
        let reel = |name: &str| -> Result<Reel, ProductionError> {
            Ok(reels.reels[reels.number(name)?].clone())
        };
        Ok(Self {
            first: reel(first)?,
            second: reel(second)?,
        })
    }

    /// The names of both.
    #[must_use]
    pub fn names(&self) -> (String, String) {
        (self.first.name(), self.second.name())
    }
}

/// Looks where both reels show the same, and which is nearer the original there.
///
/// # Errors
/// [`ProductionError::Unfit`] when they do not show the same; those of the scans;
/// [`ProductionError::Stopped`].
pub fn compare_copies_of(
    asked: &CopiesAsked,
    cancel: &Cancel,
    progress: &mut dyn Progress,
) -> Result<CopiesDocument, ProductionError> {
    let first = sketches(&asked.first, cancel, progress)?;
    let second = sketches(&asked.second, cancel, progress)?;
    progress.begin("looking for the frames that both show", None);
    let plan = vec![Wanted::Anything; second.frames()];
    let proof = prove_reel(&second, &[first.as_ref().clone()], &plan);
    let (places, mirrored) = places(&proof.spans).ok_or_else(|| {
        let (first, second) = asked.names();
        unfit(
            format!("{first} and {second} do not show the same"),
            "only two reels of the same pictures can be compared; a copy that is turned over is scanned again from the other side",
        )
    })?;
    if cancel.is_cancelled() {
        return Err(ProductionError::Stopped);
    }
    progress.begin("comparing the copies", Some(places.len() as u64 * 6));
    let mut done = 0;
    let mut told = || {
        done += 1;
        progress.at(done);
    };
    let frames = |of: fn(&CopyPlace) -> u32| places.iter().map(of).collect::<Vec<u32>>();
    let ones = triples(&asked.first, &frames(|p| p.first), false, cancel, &mut told)?;
    let others = triples(
        &asked.second,
        &frames(|p| p.second),
        mirrored,
        cancel,
        &mut told,
    )?;
    let both = ones.into_iter().zip(others);
    let same: Vec<SameFrames> = both
        .filter_map(|(first, second)| {
            Some(SameFrames {
                first: first?,
                second: second?,
            })
        })
        .collect();
    let found = compare_copies(&same)?;
    Ok(document(asked.names(), &found, places, mirrored))
}

fn sketches(
    reel: &Reel,
    cancel: &Cancel,
    progress: &mut dyn Progress,
) -> Result<Arc<RollSketches>, ProductionError> {
    let mut prints = Workprints::open(&reel.dir)?;
    let of = (reel.record.name.as_str(), reel.record.frames);
    SketchMemory::default().of_roll(&reel.dir, of, &mut prints, cancel, progress)
}

/// Places spread over what both show, and whether the second is seen from the other side;
/// nothing where they show nothing alike.
fn places(spans: &[ReelSpan]) -> Option<(Vec<CopyPlace>, bool)> {
    let upright = |span: &&ReelSpan| !span.way.upside_down && span.end - span.first >= LEAST_RUN;
    let side = |mirrored: bool| {
        spans
            .iter()
            .filter(upright)
            .filter(move |span| span.way.mirrored == mirrored)
    };
    let long = |mirrored: bool| side(mirrored).map(|s| s.end - s.first).sum::<usize>();
    let mirrored = long(true) > long(false);
    let within = side(mirrored).flat_map(|span| {
        let frames = span.first + FROM_ENDS..span.end - FROM_ENDS;
        frames.map(move |frame| (frame, span.at + frame - span.first))
    });
    let mut all: Vec<(usize, usize)> = within.collect();
    all.sort_unstable();
    if all.len() < PLACES {
        return None;
    }
    let number = |n: usize| u32::try_from(n).unwrap_or(u32::MAX);
    let place = |n: usize| {
        let (first, second) = all[(2 * n + 1) * all.len() / (2 * PLACES)];
        CopyPlace {
            first: number(first),
            second: number(second),
        }
    };
    Some(((0..PLACES).map(place).collect(), mirrored))
}

/// Each frame with the one before and the one after; nothing where one of them is missing.
fn triples(
    reel: &Reel,
    frames: &[u32],
    mirrored: bool,
    cancel: &Cancel,
    told: &mut dyn FnMut(),
) -> Result<Vec<Option<[ScanPicture; 3]>>, ProductionError> {
    // Each wanted once and rising; places may lie beside each other.
    let mut wanted: Vec<u32> = frames.iter().flat_map(|&f| [f - 1, f, f + 1]).collect();
    wanted.sort_unstable();
    wanted.dedup();
    let mut held = vec![None; wanted.len()];
    let mut sink = |place: usize, picture: ScanPicture| {
        if cancel.is_cancelled() {
            return Err(ProductionError::Stopped);
        }
        held[place] = Some(if mirrored {
            picture.mirrored()
        } else {
            picture
        });
        told();
        Ok(())
    };
    fetch(reel, &wanted, cancel, &mut sink)?;
    let of = |frame: u32| held[wanted.binary_search(&frame).ok()?].clone();
    let triple = |&frame: &u32| Some([of(frame - 1)?, of(frame)?, of(frame + 1)?]);
    Ok(frames.iter().map(triple).collect())
}
