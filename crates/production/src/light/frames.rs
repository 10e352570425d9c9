//! Which shot a frame belongs to, and how its scan turns light into numbers.

use std::collections::HashMap;
use std::path::PathBuf;
use std::sync::{LazyLock, Mutex, PoisonError};

use onestrand_film::{FrameName, FramePos, RollId, Span};
use onestrand_intake::{Ffmpeg, Source};
use onestrand_light::Transfer;
use onestrand_store::Production;

use crate::error::unfit;
use crate::moved::whereabouts;
use crate::{ProductionError, strand};

/// What shots are.
pub(super) enum Shots {
    /// Takes.
    Takes,
    /// Pieces of a version.
    Pieces(Vec<Span>),
}

impl Shots {
    pub(super) fn of(production: &Production, cut: Option<&str>) -> Result<Self, ProductionError> {
        let Some(cut) = cut else {
            return Ok(Self::Takes);
        };
        let cut = strand::cut(production, cut)?;
        let spans = cut.pieces().iter().filter_map(|p| p.span().cloned());
        Ok(Self::Pieces(spans.collect()))
    }

    /// The shot that holds a frame: roll, first frame, first frame after it, slate.
    pub(super) fn holding(
        &self,
        production: &Production,
        roll: &str,
        frame: u32,
    ) -> Result<Shot, ProductionError> {
        let record = production.roll(roll)?;
        if frame >= record.frames {
            return Err(unfit(
                format!(
                    "{roll} has {} frames, {frame} is not one of them",
                    record.frames
                ),
                "frames are counted from 0",
            ));
        }
        let takes = production.takes_of(roll)?;
        let take = takes.iter().find(|t| (t.first..t.thrown).contains(&frame));
        let slate = take.and_then(|t| Some(format!("{}-T{}", t.setup.as_ref()?, t.take?)));
        let (first, thrown) = match self {
            Self::Takes => take.map_or((0, record.frames), |t| (t.first, t.thrown)),
            Self::Pieces(spans) => piece_holding(spans, roll, frame)?,
        };
        Ok(Shot {
            roll: roll.to_owned(),
            first,
            thrown,
            slate: slate.unwrap_or_default(),
        })
    }
}

fn piece_holding(spans: &[Span], roll: &str, frame: u32) -> Result<(u32, u32), ProductionError> {
    let name = FrameName {
        roll: RollId::new(roll)?,
        frame: FramePos::new(frame)?,
    };
    let holds = |span: &&Span| span.roll == name.roll && span.range.contains(name.frame);
    let span = spans.iter().find(holds).ok_or_else(|| {
        unfit(
            format!("no piece of the version shows {name}"),
            "choose frames that the version shows",
        )
    })?;
    Ok((span.range.begin().index(), span.range.end().index()))
}

/// First frame of the shot that holds a frame, and first frame after it: a piece of a
/// version, or a take.
///
/// # Errors
/// [`ProductionError::Unfit`] where there is none, [`ProductionError::Store`].
pub fn shot_holding(
    production: &Production,
    cut: Option<&str>,
    roll: &str,
    frame: u32,
) -> Result<(u32, u32), ProductionError> {
    let shot = Shots::of(production, cut)?.holding(production, roll, frame)?;
    Ok((shot.first, shot.thrown))
}

/// A stretch of a roll.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Shot {
    pub(super) roll: String,
    pub(super) first: u32,
    pub(super) thrown: u32,
    pub(super) slate: String,
}

/// What a scan's tag says of its transfer, asked once for each roll while the program runs.
type Known = HashMap<(PathBuf, String), Option<String>>;
static KNOWN: LazyLock<Mutex<Known>> = LazyLock::new(Mutex::default);

/// How a roll's scan turns light into numbers, and whether it says so itself. A scan that
/// is not there, or that says nothing, is taken for BT.709.
pub(super) fn transfer_of_roll(production: &Production, roll: &str) -> (Transfer, bool) {
    let place = (production.dir().to_owned(), roll.to_owned());
    let known = |all: &Known| all.get(&place).cloned();
    let found = known(&KNOWN.lock().unwrap_or_else(PoisonError::into_inner));
    let tag = found.unwrap_or_else(|| {
        let asked = tag_of_roll(production, roll);
        if let Some(tag) = &asked {
            let mut all = KNOWN.lock().unwrap_or_else(PoisonError::into_inner);
            all.insert(place.clone(), tag.clone());
        }
        asked.flatten()
    });
    named(tag.as_deref())
}

/// The transfer a tag names, and whether it names one that is known.
pub(super) fn named(tag: Option<&str>) -> (Transfer, bool) {
    match tag.and_then(Transfer::named) {
        Some(transfer) => (transfer, true),
        None => (Transfer::default(), false),
    }
}

/// Nothing when the scan cannot be asked.
fn tag_of_roll(production: &Production, roll: &str) -> Option<Option<String>> {
    let record = production.roll(roll).ok()?;
    let paths = whereabouts(record.scans.first()?, production.dir());
    let (source, _warnings) = Source::open(&Ffmpeg::locate().ok()?, &paths).ok()?;
    Some(source.facts().transfer.clone())
}
