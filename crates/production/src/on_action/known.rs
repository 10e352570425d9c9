//! Twins for the strand check: by the user's marks, and by what was found.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::OnceLock;

use onestrand_cut::{Slate, Twin, TwinBy, Twins};
use onestrand_film::{FramePos, FrameRange, RollId, Span};
use onestrand_store::{Production, TakeRecord, Workprints};
use onestrand_twins::TimeMap;

use super::found::FoundTwins;
use super::moments::{KeptMoments, kept};
use super::movement::pictures_of;
use crate::ProductionError;

/// The twins that a production knows of.
///
/// What was found is read from its file when the first twin is asked for, which is
/// when a check has something to mend.
#[derive(Debug)]
pub(crate) struct KnownTwins {
    dir: PathBuf,
    takes: Vec<TakeRecord>,
    marks: Vec<KeptMoments>,
    found: OnceLock<FoundTwins>,
}

impl KnownTwins {
    pub(crate) fn of(production: &Production) -> Result<Self, ProductionError> {
        let marks = kept(production)?;
        // The check is asked after every change: where nobody knows of a twin it is quick.
        let knows = !marks.is_empty() || FoundTwins::is_there(production.dir());
        let takes = if knows {
            production.takes()?
        } else {
            Vec::new()
        };
        Ok(Self {
            takes,
            marks,
            found: OnceLock::new(),
            dir: production.dir().to_owned(),
        })
    }

    /// The twin of a span by a map between two takes.
    fn by_map(
        &self,
        span: &Span,
        (here, there): (&TakeRecord, &TakeRecord),
        map: &TimeMap,
    ) -> Option<Twin> {
        let (begin, end) = (span.range.begin(), span.range.end());
        let holds = here.roll == span.roll.as_str()
            && here.first <= begin.index()
            && end.index() <= here.thrown;
        if !holds {
            return None;
        }
        // The end is that of the last frame, which a found map knows.
        let first = map.there(begin)?.nearest()?;
        let last = map.there(span.range.last())?.nearest()?;
        let range = match map.found_over() {
            None => FrameRange::new(first, map.there(end)?.nearest()?).ok()?,
            Some(_) => FrameRange::new(first, FramePos::new(last.index() + 1).ok()?).ok()?,
        };
        let inside = there.first <= range.begin().index() && range.end().index() <= there.thrown;
        let slate = there.setup.as_deref().zip(there.take);
        (inside && !range.is_empty()).then_some(Twin {
            span: Span::new(RollId::new(&there.roll).ok()?, range),
            slate: slate.and_then(|(setup, take)| Slate::new(setup, take).ok()),
            by: TwinBy::Map,
        })
    }

    fn both_ways(
        &self,
        span: &Span,
        (here, there): (&TakeRecord, &TakeRecord),
        map: &TimeMap,
    ) -> Option<Twin> {
        self.by_map(span, (here, there), map)
            .or_else(|| self.by_map(span, (there, here), &map.reversed()))
    }

    fn take_of(&self, roll: &str, first: u32, thrown: u32) -> Option<&TakeRecord> {
        let is = |take: &&TakeRecord| {
            (take.roll.as_str(), take.first, take.thrown) == (roll, first, thrown)
        };
        self.takes.iter().find(is)
    }
}

impl Twins for KnownTwins {
    fn twins_of(&self, span: &Span) -> Vec<Twin> {
        let by_marks = self.marks.iter().filter_map(|marks| {
            let pair = marks.takes(&self.takes)?;
            self.both_ways(span, pair, &marks.map().ok()?)
        });
        let mut twins: Vec<Twin> = by_marks.collect();
        let found = self.found.get_or_init(|| still_true(&self.dir));
        for pair in &found.pairs {
            let touches = [&pair.here, &pair.there]
                .iter()
                .any(|t| t.roll == span.roll.as_str());
            let of =
                |seen: &super::found::SeenTake| self.take_of(&seen.roll, seen.first, seen.thrown);
            let twin = || {
                let pair_of = (of(&pair.here)?, of(&pair.there)?);
                self.both_ways(span, pair_of, &pair.map()?)
            };
            if touches
                && let Some(twin) = twin()
                // The user's marks are final.
                && twins.iter().all(|known| !same_take(&self.takes, known, &twin))
            {
                twins.push(twin);
            }
        }
        twins
    }
}

/// What was found in the pictures that the rolls have now: film that was read anew may
/// be counted otherwise.
fn still_true(dir: &Path) -> FoundTwins {
    let mut found = FoundTwins::read(dir);
    let Ok(mut prints) = Workprints::open(dir) else {
        return FoundTwins::default();
    };
    let mut now: BTreeMap<String, String> = BTreeMap::new();
    found.pairs.retain(|pair| {
        [&pair.here, &pair.there].into_iter().all(|seen| {
            let word = now.entry(seen.roll.clone()).or_insert_with(|| {
                let word = pictures_of(&mut prints, &seen.roll);
                word.unwrap_or_default()
            });
            *word == seen.pictures
        })
    });
    found
}

fn same_take(takes: &[TakeRecord], one: &Twin, other: &Twin) -> bool {
    let of = |twin: &Twin| {
        let first: FramePos = twin.span.range.begin();
        super::takes::holding(takes, twin.span.roll.as_str(), first.index())
    };
    one.span.roll == other.span.roll && of(one) == of(other)
}
