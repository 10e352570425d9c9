//! A version as the dubbing chart sees it.

use std::collections::BTreeMap;

use onestrand_cut::PieceKind;
use onestrand_dub::{Placed, Shows};
use onestrand_store::{Production, TakeRecord};

use crate::ProductionError;
use crate::documents::PieceOnChartDocument;

/// A version: its pieces placed, and what the chart says beside them.
#[derive(Debug, Clone)]
pub(crate) struct Version {
    pub(crate) name: String,
    pub(crate) placed: Placed,
    pub(crate) pieces: Vec<PieceOnChartDocument>,
}

impl Version {
    /// A version by its name.
    pub(crate) fn of(production: &Production, name: &str) -> Result<Self, ProductionError> {
        let takes = production.takes()?;
        let cut = crate::strand::cut(production, name)?;
        let kinds = cut.pieces().iter().map(|piece| {
            let (frames, shows) = match &piece.kind {
                PieceKind::Shot(span) => {
                    let roll = span.roll.as_str().to_owned();
                    let first = span.range.begin().index();
                    (span.range.len().count(), Some(Shows { roll, first }))
                }
                PieceKind::Leader(frames) | PieceKind::Card { frames, .. } => {
                    (frames.count(), None)
                }
            };
            (frames, shows)
        });
        let placed = Placed::new(kinds.collect::<Vec<_>>(), starts(&takes));
        let both = placed.pieces().iter().zip(cut.pieces()).enumerate();
        let pieces = both.map(|(nth, (placed, piece))| PieceOnChartDocument {
            position: nth + 1,
            at: placed.at,
            frames: placed.frames,
            roll: placed.shows.as_ref().map(|shows| shows.roll.clone()),
            first: placed.shows.as_ref().map_or(0, |shows| shows.first),
            says: match (&piece.kind, &placed.shows) {
                (PieceKind::Card { title, .. }, _) => format!("card {title}"),
                (_, Some(shows)) => take_says(&takes, shows),
                (_, None) => "leader".to_owned(),
            },
        });
        let pieces = pieces.collect();
        let name = name.to_owned();
        Ok(Self {
            name,
            placed,
            pieces,
        })
    }

    /// How long it is. Unit: frames.
    pub(crate) fn frames(&self) -> u32 {
        u32::try_from(self.placed.frames()).unwrap_or(u32::MAX)
    }
}

/// The running frames at which the pieces of a version begin: its cuts, the first picture too.
pub(crate) fn version_cuts(
    production: &Production,
    name: &str,
) -> Result<Vec<u32>, ProductionError> {
    let version = Version::of(production, name)?;
    let starts = version
        .pieces
        .iter()
        .filter_map(|piece| u32::try_from(piece.at).ok());
    Ok(starts.collect())
}

fn starts(takes: &[TakeRecord]) -> BTreeMap<String, Vec<u32>> {
    let mut starts: BTreeMap<String, Vec<u32>> = BTreeMap::new();
    for take in takes {
        starts
            .entry(take.roll.clone())
            .or_default()
            .push(take.first);
    }
    starts
}

/// The slate and what happens, of the take that a piece begins in.
fn take_says(takes: &[TakeRecord], shows: &Shows) -> String {
    let holds = |take: &&TakeRecord| {
        take.roll == shows.roll && (take.first..take.thrown).contains(&shows.first)
    };
    let Some(take) = takes.iter().find(holds) else {
        return String::new();
    };
    let slate = match (&take.setup, take.take) {
        (Some(setup), Some(number)) => format!("{setup}-T{number}"),
        (Some(setup), None) => setup.clone(),
        (None, _) => String::new(),
    };
    let parts = [slate.as_str(), take.action.trim()];
    let parts: Vec<&str> = parts.into_iter().filter(|part| !part.is_empty()).collect();
    parts.join(" ")
}
