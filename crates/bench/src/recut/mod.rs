//! What it costs to make a new version of a film that is already cut.

mod apart;
mod chain;
mod gone;
mod joints;
mod near;
mod order;
mod priced;

use std::collections::{BTreeMap, BTreeSet};

use onestrand_cut::{JoinKind, JoinTable, Strand, Strips, TrialCut};
use onestrand_film::{Frames, Span};

pub use near::{MOST_SHIFT, NearVersion, NearVersions, Shift};
pub use order::{RecutCorner, RecutDeed, RecutOrder, RecutPlan, RecutSource, RecutStep};

use gone::{Film, frames};
use joints::{Films, Joints};
use priced::price;

/// What one change does, as far as its strips tell.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum RecutAct {
    /// Strips go out.
    Lift,
    /// Strips come in that the film did not have.
    Insert,
    /// Strips go out and others come in.
    Exchange,
    /// Strips become shorter or longer.
    Trim,
    /// Strips go to another place.
    Move,
}

impl RecutAct {
    /// The word in commands and files.
    #[must_use]
    pub const fn code(self) -> &'static str {
        match self {
            Self::Lift => "lift",
            Self::Insert => "insert",
            Self::Exchange => "exchange",
            Self::Trim => "trim",
            Self::Move => "move",
        }
    }
}

/// One change by itself: what it would cost if it were the only one.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Price {
    /// What it does.
    pub act: RecutAct,
    /// Positions of the old version that go out, move or change their length,
    /// counted from 1.
    pub old_positions: Vec<usize>,
    /// Positions of the new version that come in, move or change their length.
    pub new_positions: Vec<usize>,
    /// Joins opened, leaders left out.
    pub opened: usize,
    /// Joins made, leaders left out.
    pub made: usize,
    /// Joins with head or tail leader opened.
    pub leader_opened: usize,
    /// Joins with head or tail leader made.
    pub leader_made: usize,
    /// Places inside a strip of the new version where film was cut before and is
    /// joined back.
    pub put_back: usize,
    /// Frames lost that the new version wants.
    pub lost: usize,
    /// Frames lost from what is lifted.
    pub lost_outs: usize,
    /// Which frames are lost that the new version wants.
    pub lost_film: Vec<Span>,
    /// Which frames are lost from what is lifted.
    pub lost_outs_film: Vec<Span>,
}

/// The cost of a new version.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Recut {
    /// Joins that only the old version has, leaders left out.
    pub opened: usize,
    /// Joins that only the new version has, leaders left out.
    pub made: usize,
    /// Joins of both.
    pub kept: usize,
    /// Joins with head or tail leader opened.
    pub leader_opened: usize,
    /// Joins with head or tail leader made.
    pub leader_made: usize,
    /// Joins inside strips of the new version, where film was cut before.
    pub put_back: usize,
    /// Frames lost that the new version wants.
    pub lost: usize,
    /// Frames lost from what is lifted.
    pub lost_outs: usize,
    /// Which frames are lost that the new version wants.
    pub lost_film: Vec<Span>,
    /// Which frames are lost from what is lifted.
    pub lost_outs_film: Vec<Span>,
    /// Length of the new version as it is written.
    pub planned: Frames,
    /// Length it will have.
    pub real: Frames,
    /// Every change by itself, in the order of the old version. Together they
    /// cost what all cost at once.
    pub prices: Vec<Price>,
}

impl Recut {
    /// The old version with one change alone, for each change in the order of the
    /// prices; without slates and notes. None where that is not one film.
    #[must_use]
    pub fn each_alone(old: &TrialCut, new: &TrialCut, table: &JoinTable) -> Vec<Option<TrialCut>> {
        let mut films = Films::default();
        let olds = Joints::of(old, &Strips::of(old, table), &mut films);
        let news = Joints::of(new, &Strips::of(new, table), &mut films);
        let changes = apart::changes(&olds, &news);
        let found = changes.found.iter();
        let alone = found.map(|change| changes.alone(change, (&olds, &news), &films));
        alone.collect()
    }

    /// The new version with every join that it shares with the old one of the kind
    /// it has there: such a join is not made anew, whatever the paper says.
    #[must_use]
    pub fn as_made(old: &TrialCut, new: &TrialCut, table: &JoinTable) -> TrialCut {
        let mut films = Films::default();
        let olds = Joints::of(old, &Strips::of(old, table), &mut films);
        let news = Joints::of(new, &Strips::of(new, table), &mut films);
        let ends = |of: &Joints, joint: usize| {
            let before = joint.checked_sub(1).and_then(|i| of.strips.get(i));
            let behind = of.strips.get(joint);
            let before = before.map(|s| (s.film, s.end));
            (before, behind.map(|s| (s.film, s.begin)))
        };
        let kinds: BTreeMap<_, JoinKind> = (0..olds.joints.len())
            .map(|joint| (ends(&olds, joint), olds.joints[joint].kind))
            .collect();
        let mut pieces = new.pieces().to_vec();
        for (index, strip) in news.strips.iter().enumerate() {
            // What the head leader is joined by is the usual kind of the cut.
            if let Some(kind) = kinds.get(&ends(&news, index + 1)) {
                pieces[strip.positions.1 - 1].join = Some(*kind);
            }
        }
        TrialCut::new(pieces, new.usual_join())
    }

    /// Leader and cards of the old version by their position, from 1, each with the
    /// position it has in the new one; those that go out have positions behind all of
    /// it.
    #[must_use]
    pub fn others(old: &TrialCut, new: &TrialCut, table: &JoinTable) -> Vec<(usize, usize)> {
        let mut films = Films::default();
        let olds = Joints::of(old, &Strips::of(old, table), &mut films);
        let news = Joints::of(new, &Strips::of(new, table), &mut films);
        let others = olds.strips.iter().filter(|s| s.roll().is_none());
        let now = |film: usize| news.strips.iter().find(|s| s.film == film);
        others
            .map(|was| {
                let at = was.positions.0;
                let behind = new.pieces().len() + at;
                (at, now(was.film).map_or(behind, |s| s.positions.0))
            })
            .collect()
    }

    /// From a film made as `old` says to `new`; both are joined by `table` and
    /// have passed the strand check.
    ///
    /// A join is the pair of its last and first frame by name. What is opened and
    /// what a new join eats is lost where no film is left beside it; where a strip
    /// goes on beyond its new end, the frame behind it is given instead.
    #[must_use]
    pub fn price(old: &TrialCut, new: &TrialCut, strand: &Strand, table: &JoinTable) -> Self {
        let mut films = Films::default();
        let olds = Joints::of(old, &Strips::of(old, table), &mut films);
        let news = Joints::of(new, &Strips::of(new, table), &mut films);
        let changes = apart::changes(&olds, &news);
        let all: BTreeSet<usize> = (0..changes.found.len()).collect();
        let film = Film::new((&olds, &news), &films, strand, table, new.usual_join());
        let whole = film.cost(&changes.found, &all);
        let prices: Vec<Price> = changes
            .found
            .iter()
            .enumerate()
            .map(|(i, change)| {
                let cost = film.cost(&changes.found, &BTreeSet::from([i]));
                price(change, cost, (&olds, &news))
            })
            .collect();
        let planned = new.frames();
        let lost = frames(&whole.lost);
        let shorter = Frames::new(u32::try_from(lost).unwrap_or(u32::MAX));
        let sum = |of: fn(&Price) -> usize| prices.iter().map(of).sum::<usize>();
        let made = sum(|p| p.made);
        // Every join of the new version that is not made was there.
        let inner = news.strips.len().saturating_sub(1);
        Self {
            opened: sum(|p| p.opened),
            made,
            kept: inner - made,
            leader_opened: sum(|p| p.leader_opened),
            leader_made: sum(|p| p.leader_made),
            put_back: whole.put_back,
            lost,
            lost_outs: frames(&whole.lost_outs),
            lost_film: whole.lost,
            lost_outs_film: whole.lost_outs,
            planned,
            real: planned.saturating_sub(shorter.unwrap_or(Frames::MAX)),
            prices,
        }
    }
}
