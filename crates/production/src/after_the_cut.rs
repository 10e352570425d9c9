//! Sheets for what comes after the cut: the outs, the labels, the joins.

use onestrand_bench::Extent;
use onestrand_cut::{Strips, Take};
use onestrand_film::{FrameName, FramePos, FrameRange, Frames, RollId};
use onestrand_sheets::{JoinSide, JoinToSee, JoinsInspection, Out, OutsList, OutsReel, ReelLabels};

use crate::ProductionError;
use crate::gather_sheets::SheetsToPrint;
use crate::joins_on_sheet::join_word;
use crate::work_order_sheet::count;

impl SheetsToPrint {
    /// What is left of every roll wanted, on that roll's own reel.
    pub(crate) fn outs_list(&mut self) -> Result<OutsList, ProductionError> {
        let work = self.to_pull()?.work;
        let mut reels = Vec::new();
        for roll in work.rolls() {
            let taken: Vec<&Extent> = work.extents.iter().filter(|e| e.roll == roll).collect();
            reels.push(self.outs_reel(&roll, &taken)?);
        }
        Ok(OutsList {
            head: self.head().clone(),
            reels,
        })
    }

    fn outs_reel(&mut self, roll: &RollId, taken: &[&Extent]) -> Result<OutsReel, ProductionError> {
        let frames = self.strand.roll(roll).map_or(Frames::ZERO, |r| r.frames);
        let extents: Vec<FrameRange> = taken.iter().map(|e| e.taken).collect();
        let kept = Frames::total(taken.iter().map(|e| e.shown.len()));
        let all = Frames::total(taken.iter().map(|e| e.taken.len()));
        let mut starts = Frames::ZERO;
        let mut outs = Vec::new();
        for left in left_of(frames.count(), &extents) {
            let picture = |frame: FramePos| FrameName {
                roll: roll.clone(),
                frame,
            };
            outs.push(Out {
                frames: left,
                starts,
                words: held(self.strand.takes_of(roll), left),
                first: self.picture(&picture(left.begin()))?,
                last: self.picture(&picture(left.last()))?,
            });
            starts = Frames::total([starts, left.len()]);
        }
        Ok(OutsReel {
            roll: roll.clone(),
            frames,
            kept,
            eaten: all.saturating_sub(kept),
            outs,
        })
    }

    pub(crate) fn reel_labels(&mut self) -> Result<ReelLabels, ProductionError> {
        let work = self.to_pull()?.work;
        let mut reels = self.labels.clone();
        // Joins are counted for the film whole.
        if let [one] = reels.as_mut_slice() {
            let kinds = self.head().joins.iter().map(|join| join.kind.word());
            let kinds: Vec<&str> = kinds.collect();
            one.joins = match work.joins {
                1 => format!("1 join, {}", kinds.join(" and ")),
                n => format!("{n} joins, {}", kinds.join(" and ")),
            };
        }
        Ok(ReelLabels {
            head: self.head().clone(),
            reels,
        })
    }

    pub(crate) fn joins_inspection(&mut self) -> Result<JoinsInspection, ProductionError> {
        self.to_pull()?;
        let strips = Strips::of(&self.cut, &self.rules.table);
        let mut joins = Vec::with_capacity(strips.joints.len());
        let mut at = Frames::ZERO;
        for (index, joint) in strips.joints.iter().enumerate() {
            let before = index.checked_sub(1).and_then(|i| strips.strips.get(i));
            joins.push(JoinToSee {
                before: before.map(|strip| JoinSide {
                    position: count(strip.positions.1 + 1),
                    frame: strip.span.as_ref().map(onestrand_film::Span::last),
                    frames: strip.frames,
                }),
                behind: strips.strips.get(index).map(|strip| JoinSide {
                    position: count(strip.positions.0 + 1),
                    frame: strip.span.as_ref().map(onestrand_film::Span::first),
                    frames: strip.frames,
                }),
                at,
                kind: join_word(joint.kind),
            });
            let next = strips.strips.get(index).map_or(Frames::ZERO, |s| s.frames);
            at = Frames::total([at, next]);
        }
        Ok(JoinsInspection {
            head: self.head().clone(),
            running: self.cut.frames(),
            joins,
        })
    }
}

/// What a stretch holds, take by take: `1-T1 whole, 1-T2 to 401`.
fn held(takes: &[Take], left: FrameRange) -> String {
    let one = |take: &Take| {
        let part = take.span.range.overlap(left)?;
        let slate = take.slate.as_ref();
        let name = slate.map_or_else(|| "a take without a name".to_owned(), ToString::to_string);
        let all = take.span.range;
        Some(
            match (part.begin() == all.begin(), part.end() == all.end()) {
                (true, true) => format!("{name} whole"),
                (true, false) => format!("head of {name}"),
                (false, true) => format!("tail of {name}"),
                (false, false) => format!("middle of {name}"),
            },
        )
    };
    let held: Vec<String> = takes.iter().filter_map(one).collect();
    match held.is_empty() {
        true => "no take".to_owned(),
        false => held.join(", "),
    }
}

/// Stretches of a roll outside what is taken from it.
fn left_of(frames: u32, taken: &[FrameRange]) -> Vec<FrameRange> {
    let mut taken = taken.to_vec();
    taken.sort_unstable();
    let mut at = 0;
    let mut left = Vec::new();
    for range in taken {
        left.extend(FrameRange::of(at, range.begin().index()).ok());
        at = at.max(range.end().index());
    }
    left.extend(FrameRange::of(at, frames).ok());
    left
}
