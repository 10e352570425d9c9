//! The strips of a version, found by the film they show.

use std::collections::BTreeMap;

use onestrand_cut::{JoinKind, JoinTable, Strips};
use onestrand_film::RollId;

use super::{BenchState, Film};

/// A version, made ready to be asked.
#[derive(Debug)]
pub(super) struct Version<'a> {
    pub(super) strips: &'a Strips,
    pub(super) table: &'a JoinTable,
    /// For each roll the frames that strips show, in the order of the roll.
    by_roll: BTreeMap<&'a RollId, Vec<(u32, u32, usize)>>,
    by_position: BTreeMap<usize, usize>,
}

impl<'a> Version<'a> {
    pub(super) fn of(strips: &'a Strips, table: &'a JoinTable) -> Self {
        let mut by_roll: BTreeMap<&RollId, Vec<(u32, u32, usize)>> = BTreeMap::new();
        let mut by_position = BTreeMap::new();
        for (index, strip) in strips.strips.iter().enumerate() {
            match &strip.span {
                Some(span) => {
                    let (begin, end) = (span.range.begin().index(), span.range.end().index());
                    by_roll
                        .entry(&span.roll)
                        .or_default()
                        .push((begin, end, index));
                }
                None => {
                    by_position.insert(strip.positions.0 + 1, index);
                }
            }
        }
        by_roll
            .values_mut()
            .for_each(|of_roll| of_roll.sort_unstable());
        Self {
            strips,
            table,
            by_roll,
            by_position,
        }
    }

    pub(super) fn len(&self) -> usize {
        self.strips.strips.len()
    }

    /// The strip that most of a length belongs to.
    pub(super) fn strip_of(&self, film: &Film) -> Option<usize> {
        match film {
            Film::Roll { roll, begin, end } => {
                let of_roll = self.by_roll.get(roll)?;
                let from = of_roll.partition_point(|(_, to, _)| to <= begin);
                let beside = of_roll[from..].iter().take_while(|(b, ..)| b < end);
                let shared = |(b, to, strip): &(u32, u32, usize)| {
                    ((*to).min(*end) - (*b).max(*begin), *strip)
                };
                beside.map(shared).max().map(|(_, strip)| strip)
            }
            Film::Other { position, .. } => self.by_position.get(position).copied(),
        }
    }

    /// The join before a strip.
    pub(super) fn kind_before(&self, strip: usize) -> JoinKind {
        let joint = self.strips.joints.get(strip);
        joint.map_or(JoinKind::Tape, |j| j.kind)
    }

    /// The join with the tail leader, if there is anything to join it to.
    pub(super) fn last_kind(&self) -> Option<JoinKind> {
        self.strips.joints.last().map(|j| j.kind)
    }

    pub(super) fn in_head(&self, kind: JoinKind) -> u32 {
        u32::from(self.table.row(kind).bite.in_head)
    }

    pub(super) fn out_tail(&self, kind: JoinKind) -> u32 {
        u32::from(self.table.row(kind).bite.out_tail)
    }

    /// The shortest piece that holds between the joins of a strip.
    pub(super) fn shortest(&self, strip: usize) -> u32 {
        let joints = self.strips.joints.get(strip..=strip + 1).unwrap_or(&[]);
        let each = joints.iter().map(|j| self.table.row(j.kind).shortest);
        each.max().unwrap_or(0)
    }

    /// The kind of join to what is on the reel: the one wanted, unless it would
    /// eat all that is wanted of the last link, or all there is; then the gentlest
    /// that does not.
    pub(super) fn kind_onto_the_reel(&self, state: &BenchState, wanted: JoinKind) -> JoinKind {
        let Some(link) = state.reel().last() else {
            return wanted;
        };
        let strip = self.strip_of(&link.film);
        let fits = |kind: &JoinKind| {
            let Film::Roll { roll, begin, end } = &link.film else {
                return true;
            };
            let eaten = self.out_tail(*kind);
            let (begin, end) = match link.laid.is_tail_first() {
                true => (*begin + eaten, *end),
                false => (*begin, end.saturating_sub(eaten)),
            };
            let roll = roll.clone();
            begin < end && self.strip_of(&Film::Roll { roll, begin, end }) == strip
        };
        let kinds = std::iter::once(wanted).chain(JoinKind::ALL);
        kinds.into_iter().find(fits).unwrap_or(wanted)
    }
}
