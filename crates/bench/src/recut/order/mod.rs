//! The work order of a re-cut: the reel as it is made is run from head to tail, what
//! stays goes straight on, the rest hangs until its turn; new pieces come off their
//! rolls.
//!
//! To the search the made reel is one roll more. What is best and what is proved is
//! therefore what it is for a work order.

mod lengths;
mod steps;

use std::collections::BTreeSet;

use onestrand_cut::{JoinTable, Strand, Strips, TrialCut};
use onestrand_film::{FrameName, RollId};

use super::gone::Film;
use super::joints::{Films, Joints};
use super::{Recut, apart};
use crate::habits::{ActCount, BenchHabits, Winding};
use crate::plan::{Figures, Plan};
use crate::search::best::{Best, Bound, best};
use crate::search::corners::{Beside, corners_of, winds_back};
use crate::search::one_way::Found;
use crate::steps::Towards;
use crate::wanted::Wanted;
use crate::{FewestPins, LowerBound};
use lengths::{Source, lengths, wanted};
use steps::steps;

/// What is done with the made reel.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum RecutDeed {
    /// Put the reel or a roll on the rewinds.
    Mount,
    /// Wind it until a place lies at the splicer.
    Wind,
    /// Open the join there.
    Open,
    /// Cut before the frame there.
    Cut,
    /// Hang the length just freed on a pin.
    Hang,
    /// Lead a length to the take-up reel: the one just freed, one from a pin, or
    /// leader or a card that lie ready.
    TakeUp,
    /// Join it to what is on the reel; the last one joins the tail leader.
    Join,
    /// Take the reel or roll off the rewinds, where it stands.
    Unmount,
}

impl RecutDeed {
    /// The word in commands and files.
    #[must_use]
    pub const fn code(self) -> &'static str {
        match self {
            Self::Mount => "mount",
            Self::Wind => "wind",
            Self::Open => "open",
            Self::Cut => "cut",
            Self::Hang => "hang",
            Self::TakeUp => "take_up",
            Self::Join => "join",
            Self::Unmount => "unmount",
        }
    }
}

/// What lies on the rewinds, or where a length comes from.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum RecutSource {
    /// The reel as it is made.
    Reel,
    /// What is left of a roll.
    Roll(RollId),
}

/// One act.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RecutStep {
    /// What is done.
    pub deed: RecutDeed,
    /// With what; none for leader, cards and joins of them.
    pub source: Option<RecutSource>,
    /// The running frame of the old version, or the frame of the roll, that then lies
    /// at the splicer.
    pub place: Option<u32>,
    /// Its name.
    pub frame: Option<FrameName>,
    /// Position of the old version before a join that is opened, from 1; none at the
    /// head leader.
    pub opens_after: Option<usize>,
    /// Position of the old version behind it; none at the tail leader.
    pub opens_before: Option<usize>,
    /// The pin, from 1.
    pub pin: Option<u32>,
    /// First and last position of the new version on the length; none at the tail
    /// leader.
    pub positions: Option<(usize, usize)>,
    /// Whether a join is inside a piece: film is joined back there.
    pub put_back: bool,
    /// Which way it is wound.
    pub direction: Option<Towards>,
}

/// An order with other figures.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RecutCorner {
    /// Lengths hanging at the worst moment.
    pub pins_peak: u32,
    /// Mountings after the first.
    pub roll_changes: usize,
    /// Frames wound.
    pub wound_frames: u64,
    /// What is worked from its tail.
    pub tails: Vec<RecutSource>,
    /// Whether anything is wound to and fro.
    pub to_and_fro: bool,
}

/// The order to work by.
#[derive(Debug, Clone, PartialEq)]
pub struct RecutPlan {
    /// Whether it is proved that no order of the way asked for is better: fewest
    /// changes, then fewest frames wound, then fewest pins.
    pub best: bool,
    /// Its figures.
    pub corner: RecutCorner,
    /// Reel and rolls in the order of their first mounting.
    pub mounted: Vec<RecutSource>,
    /// Estimated time; a join is taken to be opened as fast as a cut is made. Unit:
    /// minutes.
    pub minutes: f64,
    /// The acts in order.
    pub steps: Vec<RecutStep>,
}

/// The work order of a re-cut.
#[derive(Debug, Clone, PartialEq)]
pub struct RecutOrder {
    /// Lengths the new version is joined of; whole where nothing is changed.
    pub lengths: usize,
    /// Joins that are opened.
    pub opened: usize,
    /// Joins of the old version that are not in the new one and may stay: all beside
    /// them goes out.
    pub left_joined: usize,
    /// Cuts with the blade.
    pub cuts: usize,
    /// Joins that are made, with the leaders and those inside pieces.
    pub joined: usize,
    /// The order; none when the pins do not suffice, or none was found.
    pub plan: Option<RecutPlan>,
    /// Without one: the fewest pins of each way of winding.
    pub fewest: Vec<FewestPins>,
    /// Other corners of changes, winding and pins.
    pub alternatives: Vec<RecutCorner>,
    /// What no order can go below.
    pub lower_bound: LowerBound,
}

impl Recut {
    /// The work order of a re-cut, with the pins and habits of a bench.
    ///
    /// Both versions have passed the strand check, and `new` has the joins it shares
    /// with the old one as they are there ([`Recut::as_made`]).
    #[must_use]
    pub fn order(
        old: &TrialCut,
        new: &TrialCut,
        strand: &Strand,
        table: &JoinTable,
        habits: &BenchHabits,
    ) -> RecutOrder {
        let mut films = Films::default();
        let olds = Joints::of(old, &Strips::of(old, table), &mut films);
        let news = Joints::of(new, &Strips::of(new, table), &mut films);
        let found = apart::changes(&olds, &news).found;
        let opened: BTreeSet<usize> = found.iter().flat_map(|c| c.opened.clone()).collect();
        let made: BTreeSet<usize> = found.iter().flat_map(|c| c.made.clone()).collect();
        let film = Film::new((&olds, &news), &films, strand, table, new.usual_join());
        let lengths = lengths((&olds, &news), &film, &opened, &made);
        let bench = Bench {
            olds: &olds,
            films: &films,
            strand,
            lengths: &lengths,
            // Only the reel as it is, from leader to leader: nothing to be done.
            idle: opened.is_empty() && made.is_empty(),
            tail_made: made.contains(&news.strips.len()),
        };
        bench.order(&opened, habits)
    }
}

/// All that the order is made of.
struct Bench<'a> {
    olds: &'a Joints,
    films: &'a Films,
    strand: &'a Strand,
    lengths: &'a [lengths::Length],
    idle: bool,
    /// Whether the tail leader is joined anew.
    tail_made: bool,
}

impl Bench<'_> {
    fn order(&self, opened: &BTreeSet<usize>, habits: &BenchHabits) -> RecutOrder {
        let (wanted, sources) = wanted(self.lengths, self.olds, self.films, self.strand);
        let asked = match self.idle || wanted.turns() == 0 {
            true => nothing_to_fetch(),
            false => best(&wanted, habits.winding, habits.pins as usize),
        };
        let counted = self.counted();
        let to_and_fro = habits.winding == Winding::ToAndFro;
        let corner = |found: &Found, fro| corner(&wanted, &sources, found, fro);
        let plan = asked.found.as_ref().map(|found| {
            let steps = match self.idle {
                true => Vec::new(),
                false => steps(self, &found.plan, &wanted, &sources),
            };
            RecutPlan {
                best: asked.proved,
                corner: corner(found, to_and_fro && winds_back(&wanted, &found.plan)),
                mounted: mounted(&found.plan, &sources),
                minutes: habits.times.minutes(
                    &ActCount {
                        cuts: counted.opened + counted.cuts,
                        joins: counted.joined,
                        mountings: match steps.is_empty() || wanted.turns() == 0 {
                            true => 0,
                            false => found.figures.changes + 1,
                        },
                        wound: found.figures.wound,
                    },
                    self.strand.gauge(),
                ),
                steps,
            }
        });
        let beside = (!self.idle && wanted.turns() > 0).then(|| Beside::new(&wanted));
        let figures = asked.found.as_ref().map(|f| f.figures);
        let others = beside.as_ref().map(|b| corners_of(b.all(), figures));
        let fewest = match (&plan, &beside) {
            (None, Some(beside)) => beside.fewest_of_each(),
            _ => Vec::new(),
        };
        let fewest = fewest
            .into_iter()
            .map(|(winding, pins, at_least)| FewestPins {
                winding,
                pins: count(pins),
                at_least: count(at_least),
            });
        RecutOrder {
            lengths: self.lengths.len(),
            opened: counted.opened,
            left_joined: opened.len() - counted.opened,
            cuts: counted.cuts,
            joined: counted.joined,
            plan,
            fewest: fewest.collect(),
            alternatives: others
                .iter()
                .flatten()
                .map(|(found, fro)| corner(found, *fro))
                .collect(),
            lower_bound: LowerBound {
                roll_changes: asked.bound.changes,
                wound_frames: asked.bound.wound,
                pins_peak: count(asked.bound.pins),
            },
        }
    }

    fn counted(&self) -> Counted {
        let mut opened = BTreeSet::new();
        let mut cuts = BTreeSet::new();
        for length in self.lengths {
            for edge in [&length.head, &length.tail] {
                match edge.freed {
                    lengths::Freed::Open(joint) => drop(opened.insert(joint)),
                    lengths::Freed::Cut => drop(cuts.insert((length.source, edge.place))),
                    lengths::Freed::Loose => {}
                }
            }
        }
        let joined = self.lengths.iter().filter(|l| l.joined).count();
        Counted {
            opened: opened.len(),
            cuts: cuts.len(),
            joined: joined + usize::from(self.tail_made),
        }
    }
}

struct Counted {
    opened: usize,
    cuts: usize,
    joined: usize,
}

/// Nothing comes off a reel or roll: an order without any winding.
fn nothing_to_fetch() -> Best {
    let figures = Figures {
        changes: 0,
        wound: 0,
        pins: 0,
    };
    Best {
        found: Some(Found {
            plan: Plan::default(),
            figures,
        }),
        proved: true,
        bound: Bound {
            changes: 0,
            wound: 0,
            pins: 0,
        },
    }
}

fn count(n: usize) -> u32 {
    u32::try_from(n).unwrap_or(u32::MAX)
}

fn corner(wanted: &Wanted, sources: &[Source], found: &Found, to_and_fro: bool) -> RecutCorner {
    let tail = |r: &usize| found.plan.through.get(*r).copied().unwrap_or(false);
    RecutCorner {
        pins_peak: count(found.figures.pins),
        roll_changes: found.figures.changes,
        wound_frames: found.figures.wound,
        tails: (0..wanted.rolls.len())
            .filter(tail)
            .map(|r| sources[r].named.clone())
            .collect(),
        to_and_fro,
    }
}

fn mounted(plan: &Plan, sources: &[Source]) -> Vec<RecutSource> {
    let mut order: Vec<RecutSource> = Vec::new();
    for take in &plan.takes {
        let source = &sources[take.roll].named;
        if !order.contains(source) {
            order.push(source.clone());
        }
    }
    order
}
