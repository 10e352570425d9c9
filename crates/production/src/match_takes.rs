//! Match on action: two takes laid beside each other, by two marks or by what moves.

use onestrand_film::{FramePos, FrameRange};
use onestrand_intake::Cancel;
use onestrand_store::{Production, TakeRecord, Workprints};
use onestrand_twins::{
    GreyPicture, MatchWish, MovementReader, SameMoment, TakeMovement, TimeMap, lay_beside,
    match_points,
};

use crate::documents::{MatchedDocument, MatchedTake, decimal};
use crate::error::unfit;
use crate::small_pictures::scaled_down;
use crate::{ProductionError, Progress};

/// How small a picture will do: an eighth of a workprint's. Unit: pixels.
const LEAST_SIZE: (u16, u16) = (90, 60);

/// Pictures fetched at a time.
const AT_ONCE: u32 = 64;

/// What is to be matched.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MatchRequest {
    /// The take that is left, by its roll and first frame.
    pub from: (String, u32),
    /// The take that is entered.
    pub to: (String, u32),
    /// Frames that show the same moment: none, or two pairs.
    pub marks: Vec<(u32, u32)>,
    /// The first frame thrown away of the take that is left, where it is settled.
    pub leave: Option<u32>,
}

/// Lays two takes beside each other and tells where to cut.
///
/// With two marks no pictures are looked at. Without them both takes are read from
/// the workprints; pictures that tell nothing are refused with the reason.
///
/// # Errors
/// [`ProductionError::Unfit`] for takes that are not there, marks that are no pair,
/// rolls without pictures and takes that cannot be told; [`ProductionError::Store`],
/// [`ProductionError::Picture`], [`ProductionError::Stopped`].
pub fn match_takes(
    production: &Production,
    prints: &mut Workprints,
    request: &MatchRequest,
    cancel: &Cancel,
    progress: &mut dyn Progress,
) -> Result<MatchedDocument, ProductionError> {
    let from = take(production, &request.from)?;
    let to = take(production, &request.to)?;
    let (here, there) = (range(&from)?, range(&to)?);
    let moving = match request.marks.is_empty() {
        true => {
            let frames = u64::from(here.len().count()) + u64::from(there.len().count());
            progress.begin("looking at what moves", Some(frames));
            let mut seen = 0;
            let mut read = |take: &TakeRecord, of| {
                movement(prints, take, of, cancel, &mut |by| {
                    seen += by;
                    progress.at(seen);
                })
            };
            Some((read(&from, here)?, read(&to, there)?))
        }
        false => None,
    };
    let map = match &moving {
        Some((left, entered)) => lay_beside(left, entered).map_err(|why| {
            let hint = format!("{}: --mark FRAME=FRAME, twice", why.hint());
            unfit(why.to_string(), &hint)
        })?,
        None => by_marks(&request.marks)?,
    };
    let leave = match request.leave {
        Some(frame) => FrameRange::of(frame, frame.saturating_add(1))?,
        None => here,
    };
    let both = moving.as_ref().map(|(left, entered)| (left, entered));
    let turned = moving.as_ref().map(|(left, entered)| (entered, left));
    let points = match_points(&map, both, &MatchWish::new(leave, there), |_, _| true);
    let back = match_points(
        &map.reversed(),
        turned,
        &MatchWish::new(there, here),
        |_, _| true,
    );
    Ok(MatchedDocument {
        from: place(&from),
        to: place(&to),
        by: if moving.is_some() {
            "pictures"
        } else {
            "marks"
        },
        pace: decimal(map.pace()),
        pace_exact: map.pace().to_string(),
        strength: map
            .strength()
            .map(|strength| (strength * 10.0).round() / 10.0),
        points: points.iter().map(Into::into).collect(),
        back: back.iter().map(Into::into).collect(),
    })
}

fn take(
    production: &Production,
    (roll, first): &(String, u32),
) -> Result<TakeRecord, ProductionError> {
    let found = production
        .takes_of(roll)?
        .into_iter()
        .find(|take| take.first == *first);
    found.ok_or_else(|| {
        unfit(
            format!("no take begins at {roll}·{first}"),
            "look at the roll once more; another window may have changed it",
        )
    })
}

fn range(take: &TakeRecord) -> Result<FrameRange, ProductionError> {
    Ok(FrameRange::of(take.first, take.thrown)?)
}

fn place(take: &TakeRecord) -> MatchedTake {
    let slate = take.setup.as_deref().zip(take.take);
    MatchedTake {
        roll: take.roll.clone(),
        first: take.first,
        thrown: take.thrown,
        slate: slate.map(|(setup, number)| format!("{setup}-T{number}")),
    }
}

fn by_marks(marks: &[(u32, u32)]) -> Result<TimeMap, ProductionError> {
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

/// What moves in a take, read from its workprint.
fn movement(
    prints: &mut Workprints,
    take: &TakeRecord,
    range: FrameRange,
    cancel: &Cancel,
    seen: &mut dyn FnMut(u64),
) -> Result<TakeMovement, ProductionError> {
    let mut reader = MovementReader::new(range.begin());
    let mut has_pictures = false;
    let (mut from, end) = (range.begin().index(), range.end().index());
    while from < end {
        if cancel.is_cancelled() {
            return Err(ProductionError::Stopped);
        }
        let to = end.min(from.saturating_add(AT_ONCE));
        for jpeg in prints.run(&take.roll, FrameRange::of(from, to)?)? {
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
            "read its scan, or set two marks by hand: --mark FRAME=FRAME, twice",
        ));
    }
    reader
        .finish()
        .map_err(|problem| unfit(problem.to_string(), problem.hint()))
}
