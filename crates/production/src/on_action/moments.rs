//! Two marks set by hand in each of two takes: kept with the film, and final.

use onestrand_film::FramePos;
use onestrand_store::{Act, Production, TakeRecord};
use onestrand_twins::{SameMoment, TimeMap};
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use super::takes::holding;
use crate::ProductionError;
use crate::error::unfit;
use crate::kept_list;

/// Under what the marks are kept.
pub(crate) const SETTING: &str = "same moments";

/// More pairs of takes than any film has; a longer list is somebody's mistake.
const MOST: usize = 10_000;

/// The frames of one take that were marked.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct MarkedFrames {
    /// The roll.
    pub roll: String,
    /// The frame of the first moment.
    pub first: u32,
    /// The frame of the second.
    pub second: u32,
}

/// Two moments are marked in each of two takes. Marks that stood for the same two
/// takes go.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct MarkMoments {
    /// In the one take.
    pub here: MarkedFrames,
    /// In the other.
    pub there: MarkedFrames,
}

/// The marks of two takes are taken away.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct UnmarkMoments {
    /// In the one take, as they stand.
    pub here: MarkedFrames,
    /// In the other.
    pub there: MarkedFrames,
}

/// Marks as they are kept.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub(super) struct KeptMoments {
    pub(super) here: MarkedFrames,
    pub(super) there: MarkedFrames,
}

impl KeptMoments {
    /// The same, seen from the other take.
    fn turned(&self) -> Self {
        Self {
            here: self.there.clone(),
            there: self.here.clone(),
        }
    }

    /// As pairs of frames.
    pub(super) fn pairs(&self) -> [(u32, u32); 2] {
        [
            (self.here.first, self.there.first),
            (self.here.second, self.there.second),
        ]
    }

    pub(super) fn map(&self) -> Result<TimeMap, ProductionError> {
        by_marks(&self.pairs())
    }

    /// The two takes that the marks lie in, as takes are divided now; nothing where
    /// the marks of one no longer lie in one take.
    pub(super) fn takes<'a>(
        &self,
        all: &'a [TakeRecord],
    ) -> Option<(&'a TakeRecord, &'a TakeRecord)> {
        let of = |marks: &MarkedFrames| {
            let take = holding(all, &marks.roll, marks.first)?;
            (take.first..take.thrown)
                .contains(&marks.second)
                .then_some(take)
        };
        Some((of(&self.here)?, of(&self.there)?))
    }
}

/// The line through two pairs of marks.
///
/// # Errors
/// [`ProductionError::Unfit`] for marks that are no pair or no line.
pub(super) fn by_marks(marks: &[(u32, u32)]) -> Result<TimeMap, ProductionError> {
    let [first, second] = marks else {
        return Err(unfit(
            format!("{} of two pairs of marks", marks.len()),
            "two are needed: frames of both takes that show the same moment, early and late",
        ));
    };
    let moment = |(here, there): (u32, u32)| -> Result<SameMoment, ProductionError> {
        Ok(SameMoment {
            here: FramePos::new(here)?,
            there: FramePos::new(there)?,
        })
    };
    TimeMap::from_marks(moment(*first)?, moment(*second)?)
        .map_err(|problem| unfit(problem.to_string(), problem.hint()))
}

/// Every marked frame, by its roll.
pub(crate) fn marked_frames(
    production: &Production,
) -> Result<Vec<(String, u32)>, ProductionError> {
    let of = |marks: MarkedFrames| {
        let roll = marks.roll;
        [(roll.clone(), marks.first), (roll, marks.second)]
    };
    let all = kept(production)?.into_iter();
    Ok(all
        .flat_map(|one| [one.here, one.there])
        .flat_map(of)
        .collect())
}

/// All marks.
pub(super) fn kept(production: &Production) -> Result<Vec<KeptMoments>, ProductionError> {
    kept_list::read(production, SETTING)
}

/// The marks of two takes, whichever way round they were set, from the first of them.
pub(super) fn marks_of(
    production: &Production,
    here: &TakeRecord,
    there: &TakeRecord,
) -> Result<Option<KeptMoments>, ProductionError> {
    let lies = |marks: &MarkedFrames, take: &TakeRecord| {
        let range = take.first..take.thrown;
        marks.roll == take.roll && range.contains(&marks.first) && range.contains(&marks.second)
    };
    let found = kept(production)?.into_iter().find_map(|one| {
        if lies(&one.here, here) && lies(&one.there, there) {
            return Some(one);
        }
        (lies(&one.there, here) && lies(&one.here, there)).then(|| one.turned())
    });
    Ok(found)
}

impl MarkMoments {
    pub(crate) fn act(&self, production: &Production) -> Result<(String, Act), ProductionError> {
        let marks = KeptMoments {
            here: self.here.clone(),
            there: self.there.clone(),
        };
        marks.map()?;
        let takes = production.takes()?;
        let Some((here, there)) = marks.takes(&takes) else {
            return Err(unfit(
                "the marks of one side do not lie in one take".to_owned(),
                "mark two moments in each of two takes",
            ));
        };
        if (&here.roll, here.first) == (&there.roll, there.first) {
            return Err(unfit(
                "both sides are the same take".to_owned(),
                "mark the same two moments in another take",
            ));
        }
        let mut all = kept(production)?;
        let old = marks_of(production, here, there)?;
        all.retain(|one| Some(one) != old.as_ref() && Some(&one.turned()) != old.as_ref());
        if all.len() >= MOST {
            return Err(unfit(
                format!("{MOST} pairs of takes are marked already"),
                "take the marks of some away first",
            ));
        }
        all.push(marks);
        let called = |take: &TakeRecord| {
            super::takes::slate(take).unwrap_or_else(|| format!("{}·{}", take.roll, take.first))
        };
        let words = format!("marks in {} and {}", called(here), called(there));
        Ok((words, kept_list::put(SETTING, &all)))
    }
}

impl UnmarkMoments {
    pub(crate) fn act(&self, production: &Production) -> Result<(String, Act), ProductionError> {
        let gone = KeptMoments {
            here: self.here.clone(),
            there: self.there.clone(),
        };
        let mut all = kept(production)?;
        let before = all.len();
        all.retain(|one| *one != gone && one.turned() != gone);
        if all.len() == before {
            return Err(unfit(
                "these marks do not stand".to_owned(),
                "look at the two takes once more; another window may have moved them",
            ));
        }
        Ok((
            "take the marks of two takes away".to_owned(),
            kept_list::put(SETTING, &all),
        ))
    }
}
