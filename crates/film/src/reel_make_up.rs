//! What goes on which reel: fewest reels, the order kept.

use crate::Frames;

/// A length that is wound in one: a film, or a piece of one that may be divided
/// at its joins.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ToWind {
    /// Its length.
    pub frames: Frames,
    /// Spacing before it where it is not the first on its reel; none where it
    /// continues the one before.
    pub spacing: Frames,
}

/// What there is to wind on.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ReelsAtHand {
    /// What the largest of those takes of which there are as many as are wanted,
    /// beside the leaders; none where only single ones are to be used.
    pub plenty: Option<Frames>,
    /// What each single reel takes beside the leaders, each to be used once.
    pub single: Vec<Frames>,
}

/// More single reels than this are not all tried: the largest are taken.
pub const MOST_SINGLE: usize = 12;

/// A reel and what is wound on it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Filled {
    /// Which of the single reels; none for one of the plenty.
    pub single: Option<usize>,
    /// The first that is wound on it.
    pub first: usize,
    /// The first that is not any more.
    pub thrown: usize,
}

impl ReelsAtHand {
    /// Fills as few reels as can be, in the order given. Exact: for each number of
    /// plenty reels and each choice of single ones, the furthest that can be
    /// reached is known, and to have come further is never worse.
    ///
    /// Nothing when it does not go on them.
    ///
    /// ```
    /// # use onestrand_film::{Frames, ReelsAtHand, ToWind};
    /// let film = |n| ToWind { frames: Frames::new(n).unwrap(), spacing: Frames::new(10).unwrap() };
    /// let reels = ReelsAtHand { plenty: Some(Frames::new(3_600)?), single: Vec::new() };
    /// let filled = reels.fill(&[film(1_800), film(1_790), film(1)]).expect("two reels");
    /// assert_eq!(filled.iter().map(|r| (r.first, r.thrown)).collect::<Vec<_>>(), [(0, 2), (2, 3)]);
    /// assert!(reels.fill(&[film(3_601)]).is_none());
    /// # Ok::<(), onestrand_film::UnitError>(())
    /// ```
    #[must_use]
    pub fn fill(&self, films: &[ToWind]) -> Option<Vec<Filled>> {
        if films.is_empty() {
            return Some(Vec::new());
        }
        let single = self.largest_single();
        let masks = 1_usize << single.len();
        let mut rounds: Vec<Vec<Reached>> = Vec::new();
        let mut best: Option<(usize, usize, usize)> = None;
        for plenty in 0..=films.len() {
            if best.is_some_and(|(reels, ..)| plenty >= reels) {
                break;
            }
            let mut round = vec![Reached::default(); masks];
            for mask in 0..masks {
                let before = rounds.last().map(|round: &Vec<Reached>| round[mask]);
                round[mask] = self.furthest(films, &single, &round, mask, before);
                let reels = plenty + mask.count_ones() as usize;
                if round[mask].at == films.len() && best.is_none_or(|(least, ..)| reels < least) {
                    best = Some((reels, plenty, mask));
                }
            }
            rounds.push(round);
            if self.plenty.is_none() {
                break;
            }
        }
        let (_, plenty, mask) = best?;
        Some(walked_back(&rounds, &single, plenty, mask))
    }

    /// The single reels by number, the largest first, as many as are tried.
    fn largest_single(&self) -> Vec<(usize, Frames)> {
        let mut single: Vec<_> = self.single.iter().copied().enumerate().collect();
        single.sort_by_key(|(number, takes)| (std::cmp::Reverse(*takes), *number));
        single.truncate(MOST_SINGLE);
        single
    }

    fn furthest(
        &self,
        films: &[ToWind],
        single: &[(usize, Frames)],
        round: &[Reached],
        mask: usize,
        before: Option<Reached>,
    ) -> Reached {
        let mut best = Reached::default();
        let mut offer = |from: usize, takes: Frames, last: Last| {
            let at = wound_to(films, from, takes);
            if at > best.at {
                best = Reached { at, from, last };
            }
        };
        if let (Some(before), Some(takes)) = (before, self.plenty) {
            offer(before.at, takes, Last::Plenty);
        }
        for (place, (_, takes)) in single.iter().enumerate() {
            if mask & (1 << place) != 0 {
                offer(round[mask & !(1 << place)].at, *takes, Last::Single(place));
            }
        }
        best
    }
}

/// How far some reels go, and which was filled last.
#[derive(Debug, Clone, Copy, Default)]
struct Reached {
    at: usize,
    from: usize,
    last: Last,
}

#[derive(Debug, Clone, Copy, Default)]
enum Last {
    #[default]
    None,
    Plenty,
    Single(usize),
}

/// How far one reel goes that begins at `from`.
fn wound_to(films: &[ToWind], from: usize, takes: Frames) -> usize {
    let mut wound = 0_u64;
    for (at, film) in films.iter().enumerate().skip(from) {
        let spacing = if at == from { 0 } else { film.spacing.count() };
        wound += u64::from(film.frames.count()) + u64::from(spacing);
        if wound > u64::from(takes.count()) {
            return at;
        }
    }
    films.len()
}

fn walked_back(
    rounds: &[Vec<Reached>],
    single: &[(usize, Frames)],
    mut plenty: usize,
    mut mask: usize,
) -> Vec<Filled> {
    let mut filled = Vec::new();
    loop {
        let reached = rounds[plenty][mask];
        let number = match reached.last {
            Last::None => break,
            Last::Plenty => {
                plenty -= 1;
                None
            }
            Last::Single(place) => {
                mask &= !(1 << place);
                Some(single[place].0)
            }
        };
        filled.push(Filled {
            single: number,
            first: reached.from,
            thrown: reached.at,
        });
    }
    filled.reverse();
    filled
}

#[cfg(test)]
mod tests {
    use super::*;

    fn frames(count: u32) -> Frames {
        Frames::new(count).expect("fits")
    }

    /// Every way to part the order into reels, with every assignment of reels.
    fn fewest_by_hand(
        films: &[ToWind],
        from: usize,
        plenty: Option<Frames>,
        single: &[Frames],
    ) -> Option<usize> {
        if from == films.len() {
            return Some(0);
        }
        let mut least: Option<usize> = None;
        for to in from + 1..=films.len() {
            let whole: u32 = films[from..to]
                .iter()
                .map(|f| f.frames.count())
                .sum::<u32>()
                + films[from + 1..to]
                    .iter()
                    .map(|f| f.spacing.count())
                    .sum::<u32>();
            let mut rest = Vec::new();
            if plenty.is_some_and(|takes| whole <= takes.count()) {
                rest.push(fewest_by_hand(films, to, plenty, single));
            }
            for (place, takes) in single.iter().enumerate() {
                if whole <= takes.count() {
                    let mut left = single.to_vec();
                    left.remove(place);
                    rest.push(fewest_by_hand(films, to, plenty, &left));
                }
            }
            let here = rest.into_iter().flatten().min().map(|n| n + 1);
            least = match (least, here) {
                (Some(a), Some(b)) => Some(a.min(b)),
                (a, b) => a.or(b),
            };
        }
        least
    }

    /// A row of numbers that repeats itself; no clock, no chance.
    fn next(state: &mut u32, below: u32) -> u32 {
        *state = state.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
        (*state >> 16) % below
    }

    #[test]
    fn as_few_reels_as_the_search_through_all_ways_finds() {
        let mut state = 7;
        let mut fits = 0;
        for case in 0..3_000 {
            let films: Vec<ToWind> = (0..1 + next(&mut state, 6))
                .map(|_| ToWind {
                    frames: frames(1 + next(&mut state, 9)),
                    spacing: frames(next(&mut state, 3)),
                })
                .collect();
            let plenty = (next(&mut state, 3) > 0).then(|| frames(4 + next(&mut state, 12)));
            let single: Vec<Frames> = (0..next(&mut state, 4))
                .map(|_| frames(3 + next(&mut state, 20)))
                .collect();
            let by_hand = fewest_by_hand(&films, 0, plenty, &single);
            let found = ReelsAtHand {
                plenty,
                single: single.clone(),
            }
            .fill(&films);
            assert_eq!(found.as_ref().map(Vec::len), by_hand, "case {case}");
            let Some(found) = found else { continue };
            fits += 1;
            let mut at = 0;
            let mut used = Vec::new();
            for reel in &found {
                assert_eq!(reel.first, at, "case {case}: the order is kept");
                at = reel.thrown;
                let takes = reel
                    .single
                    .map_or(plenty, |n| Some(single[n]))
                    .expect("one there is");
                assert_eq!(wound_to(&films[..at], reel.first, takes), at, "case {case}");
                used.extend(reel.single);
            }
            assert_eq!(at, films.len());
            used.sort_unstable();
            let all = used.len();
            used.dedup();
            assert_eq!(used.len(), all, "case {case}: a single reel is used once");
        }
        assert!(fits > 1_000 && fits < 3_000, "{fits} of 3,000 fit");
    }
}
