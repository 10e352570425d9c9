//! What still comes on the reel, piece by piece: which frames, where the blade
//! goes, and what stays joined.

use std::collections::{BTreeMap, BTreeSet};

use onestrand_cut::{JoinKind, JoinTable, Strips};

use super::on_reel::{end_of, on_the_reel, shorten};
use super::rests::{Rest, rests};
use super::version::Version;
use super::{BenchState, Film, Part};

/// A piece that still comes.
#[derive(Debug, Clone)]
pub(super) struct Coming {
    /// What will be seen of it.
    pub(super) part: Part,
    /// The join before it.
    pub(super) kind: JoinKind,
    /// Whether it hangs together with the piece before it, as it should.
    pub(super) joined_before: bool,
    /// Where film must end before and behind it, its joins' share left on; none
    /// where it is joined.
    pub(super) blades: [Option<u32>; 2],
}

/// The version on a bench.
#[derive(Debug, Default)]
pub(super) struct Outlook {
    pub(super) reel: Vec<Part>,
    pub(super) coming: Vec<Coming>,
    pub(super) passed: Vec<Part>,
    pub(super) too_short: Vec<Part>,
    /// The join with the tail leader that is still to be made.
    pub(super) tail: Option<JoinKind>,
    /// Whether the first piece that comes brings the head leader along, and the last
    /// one the tail leader.
    pub(super) leaders: [bool; 2],
}

impl Outlook {
    pub(super) fn of(state: &BenchState, strips: &Strips, table: &JoinTable) -> Self {
        let version = Version::of(strips, table);
        Self::seen(state, &version, true)
    }

    /// What would come if the reel had passed nothing.
    pub(super) fn with_nothing_passed(state: &BenchState, version: &Version<'_>) -> Self {
        Self::seen(state, version, false)
    }

    fn seen(state: &BenchState, version: &Version<'_>, pass: bool) -> Self {
        let mut reel = on_the_reel(state, version);
        let mut on_reel = vec![false; version.len()];
        for strip in reel.iter().filter_map(|p| p.strip) {
            on_reel[strip] = true;
        }
        let last = reel.iter().rev().find_map(|p| Some((p.strip?, end_of(p))));
        let is_passed = |rest: &Rest| {
            let behind = last.is_none_or(|(strip, end)| {
                rest.strip > strip || (rest.strip == strip && rest.end > end)
            });
            pass && (state.is_ended() || !behind)
        };
        let rests = rests(state, version, &on_reel);
        let (passed, left): (Vec<Rest>, Vec<Rest>) = rests.into_iter().partition(is_passed);
        let mut choice = Choice::new(state, version, on_reel, left);
        choice.settle();
        let coming = choice.coming();
        let leaders = choice.leaders;
        let last_kind = version.last_kind().filter(|_| !leaders[1]);
        let tail = last_kind.map(|kind| match coming.is_empty() {
            true => version.kind_onto_the_reel(state, kind),
            false => kind,
        });
        if !state.is_ended() {
            let next = coming.first().map(|c| c.kind).or(tail);
            if let (Some(part), Some(next)) = (reel.last_mut(), next) {
                shorten(part, version.out_tail(next));
            }
        }
        let part = |rest: &Rest| rest.part(version, rest.begin, rest.end);
        Self {
            reel,
            coming,
            tail,
            leaders,
            passed: passed.iter().map(part).collect(),
            too_short: choice.left_out.iter().map(part).collect(),
        }
    }
}

/// For each length and link the rests in it.
pub(super) type InLink = BTreeMap<(usize, usize), Vec<usize>>;

/// How an end of a rest is held.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Held {
    /// By nothing, or by film of its own roll.
    Free,
    /// By a join that stays.
    Joined,
    /// By a join that must be opened, which spoils so many frames.
    Spoiled(u32),
}

/// Which rests are joined, and how.
pub(super) struct Choice<'a> {
    pub(super) state: &'a BenchState,
    pub(super) version: &'a Version<'a>,
    on_reel: Vec<bool>,
    /// In the order of the version.
    pub(super) rests: Vec<Rest>,
    left_out: Vec<Rest>,
    /// For each rest whether it hangs together with the one before it.
    joined: Vec<bool>,
    /// Whether the first one keeps its head leader, and the last one its tail leader.
    leaders: [bool; 2],
    kinds: Vec<JoinKind>,
    /// For each rest what will be seen.
    seen: Vec<(u32, u32)>,
}

impl<'a> Choice<'a> {
    fn new(
        state: &'a BenchState,
        version: &'a Version<'a>,
        on_reel: Vec<bool>,
        rests: Vec<Rest>,
    ) -> Self {
        Self {
            state,
            version,
            on_reel,
            rests,
            left_out: Vec::new(),
            joined: Vec::new(),
            leaders: [false; 2],
            kinds: Vec::new(),
            seen: Vec::new(),
        }
    }

    /// Leaves out what joins would eat up or what would not hold, until the rest
    /// can be joined.
    fn settle(&mut self) {
        loop {
            self.look();
            let out = self.too_short();
            if !out.contains(&true) {
                return;
            }
            let mut kept = Vec::with_capacity(self.rests.len());
            for (rest, out) in std::mem::take(&mut self.rests).into_iter().zip(out) {
                if out {
                    self.left_out.push(rest);
                } else {
                    kept.push(rest);
                }
            }
            self.rests = kept;
        }
    }

    fn look(&mut self) {
        let in_link = self.in_link();
        self.joined = self.joined(&in_link);
        self.leaders = self.leaders(&in_link);
        let kind = |(i, rest): (usize, &Rest)| {
            let kind = self.version.kind_before(rest.strip);
            match i {
                0 => self.version.kind_onto_the_reel(self.state, kind),
                _ => kind,
            }
        };
        self.kinds = self.rests.iter().enumerate().map(kind).collect();
        self.seen = self.rests.iter().map(|r| (r.begin, r.end)).collect();
        for beside in in_link.values() {
            self.look_at(beside);
        }
    }

    /// The rests of each link, in the order of the roll.
    fn in_link(&self) -> InLink {
        let mut in_link = InLink::new();
        for (i, rest) in self.rests.iter().enumerate() {
            if let Some(place) = rest.place {
                in_link.entry(place).or_default().push(i);
            }
        }
        for beside in in_link.values_mut() {
            beside.sort_by_key(|i| self.rests[*i].begin);
        }
        in_link
    }

    /// What will be seen of the rests of one link.
    fn look_at(&mut self, beside: &[usize]) {
        let Some((c, l)) = beside.first().and_then(|i| self.rests[*i].place) else {
            return;
        };
        let Film::Roll { begin, end, .. } = self.state.lengths[c].links[l].film else {
            return;
        };
        for (n, i) in beside.iter().enumerate() {
            let rest = &self.rests[*i];
            let (head, tail) = (self.head(*i), self.tail(*i));
            let first = match self.held(*i, false) {
                _ if n > 0 => {
                    let before = beside[n - 1];
                    let gap = rest.begin - self.rests[before].end;
                    let given = self.tail(before).min(gap);
                    (self.rests[before].end + given + head).max(rest.begin)
                }
                Held::Joined => begin,
                Held::Free => (begin + head).max(rest.begin),
                Held::Spoiled(lost) => (begin + lost + head).max(rest.begin),
            };
            let last = match self.held(*i, true) {
                _ if n + 1 < beside.len() => {
                    let gap = self.rests[beside[n + 1]].begin - rest.end;
                    rest.end - tail.saturating_sub(gap).min(rest.end)
                }
                Held::Joined => end,
                Held::Free => end.saturating_sub(tail).min(rest.end),
                Held::Spoiled(lost) => end.saturating_sub(lost + tail).min(rest.end),
            };
            self.seen[*i] = (first, last);
        }
    }

    /// What the join before a rest eats of it.
    fn head(&self, i: usize) -> u32 {
        self.version.in_head(self.kinds[i])
    }

    /// What the join behind a rest eats of it.
    fn tail(&self, i: usize) -> u32 {
        let next = self.kinds.get(i + 1).copied();
        let kind = next.or(self.version.last_kind());
        kind.map_or(0, |k| self.version.out_tail(k))
    }

    /// What holds the head of a rest that is the first of its link, or the tail
    /// of one that is the last.
    fn held(&self, i: usize, tail: bool) -> Held {
        let stays = if tail { i + 1 } else { i };
        let leader = if tail {
            self.leaders[1] && stays == self.rests.len()
        } else {
            self.leaders[0] && i == 0
        };
        if leader || self.joined.get(stays).copied().unwrap_or(false) {
            return Held::Joined;
        }
        self.rests[i]
            .place
            .map_or(Held::Free, |place| match join_at(self.state, place, tail) {
                Some((join, behind)) => Held::Spoiled(self.spoils(place.0, join, behind)),
                None => Held::Free,
            })
    }

    fn spoils(&self, length: usize, join: usize, behind: bool) -> u32 {
        let length = &self.state.lengths[length];
        let made = length.links.get(join).map_or(length.tail, |l| l.join);
        made.map_or(0, |made| {
            let opened = self.version.table.row(made.kind).opened;
            u32::from(if behind {
                opened.in_head
            } else {
                opened.out_tail
            })
        })
    }

    /// What is wanted of a rest, without what is spoiled when it is parted from
    /// what it is wrongly joined to.
    fn unspoiled(&self, i: usize) -> (u32, u32) {
        let rest = &self.rests[i];
        let link = rest
            .place
            .map(|(c, l)| &self.state.lengths[c].links[l].film);
        let Some(Film::Roll { begin, end, .. }) = link else {
            return (rest.begin, rest.end);
        };
        let lost = |tail: bool| match self.held(i, tail) {
            Held::Spoiled(lost) => lost,
            Held::Free | Held::Joined => 0,
        };
        let first = rest.begin.max(begin + lost(false));
        (first, rest.end.min(end.saturating_sub(lost(true))))
    }

    /// For each rest whether it cannot be joined: first those of which joins leave
    /// nothing wanted; when there are none, those too short to hold.
    fn too_short(&self) -> Vec<bool> {
        let of_film = |i: &usize| {
            let strip = &self.version.strips.strips[self.rests[*i].strip];
            strip.span.is_some()
        };
        let eaten = |i: usize| {
            let (first, last) = self.seen[i];
            self.rests[i].end.min(last) <= self.rests[i].begin.max(first)
        };
        let all = 0..self.rests.len();
        let out: Vec<bool> = all.clone().map(|i| of_film(&i) && eaten(i)).collect();
        if out.contains(&true) {
            return out;
        }
        // Judged by what is wanted, which no join to come changes.
        let frames = |i: usize| {
            let (begin, end) = self.unspoiled(i);
            end.saturating_sub(begin)
        };
        let mut longest: BTreeMap<usize, usize> = BTreeMap::new();
        for i in all.clone() {
            let best = longest.entry(self.rests[i].strip).or_insert(i);
            if frames(i) > frames(*best) {
                *best = i;
            }
        }
        // By other film: a leader alone does not make a snippet long enough.
        let stays = |join: usize| self.joined.get(join).copied().unwrap_or(false);
        let is_joined = |i: usize| stays(i) || stays(i + 1);
        let joined: BTreeSet<usize> = all
            .clone()
            .filter(|i| is_joined(*i))
            .map(|i| self.rests[i].strip)
            .collect();
        let holds = |i: usize| {
            let strip = self.rests[i].strip;
            let is_there = self.on_reel[strip] || joined.contains(&strip);
            frames(i) >= self.version.shortest(strip)
                || is_joined(i)
                // A strip that is as short as that is wanted all the same; a
                // snippet of one whose rest is there is not.
                || (!is_there && longest[&strip] == i)
        };
        all.map(|i| of_film(&i) && !holds(i)).collect()
    }

    fn coming(&self) -> Vec<Coming> {
        let one = |(i, rest): (usize, &Rest)| {
            let (begin, end) = self.seen[i];
            let film = self.version.strips.strips[rest.strip].span.is_some();
            let blade = |tail: bool| {
                let cut = film && self.held(i, tail) != Held::Joined;
                let at = match tail {
                    true => end + self.tail(i),
                    false => begin.saturating_sub(self.head(i)),
                };
                cut.then_some(at)
            };
            Coming {
                part: rest.part(self.version, begin, end),
                kind: self.kinds[i],
                joined_before: self.joined[i],
                blades: [blade(false), blade(true)],
            }
        };
        self.rests.iter().enumerate().map(one).collect()
    }
}

/// The join at the head or tail of a link off the reel, as its film runs: its
/// number along the length, and whether the link lies behind it. Those with leaders are
/// the first and the last.
pub(super) fn join_at(
    state: &BenchState,
    (length, link): (usize, usize),
    tail: bool,
) -> Option<(usize, bool)> {
    let of = state.lengths.get(length)?;
    let behind = tail == (of.links.get(link)?.laid.is_tail_first());
    let join = if behind { link } else { link + 1 };
    let is_there = match join {
        0 => of.head().is_some(),
        n if n == of.links.len() => of.tail.is_some(),
        _ => true,
    };
    is_there.then_some((join, behind))
}
