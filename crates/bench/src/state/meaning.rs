//! What a deed means for the picture and the sound.

use onestrand_cut::{JoinTable, Strips};

use super::{AsMade, BenchState, Film, How, Laid};

/// How one strip is seen otherwise than before.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StripChange {
    /// The strip, counted from 0.
    pub strip: usize,
    /// Frames it is longer at its head; shorter when negative.
    pub head: i64,
    /// Frames it is longer at its tail.
    pub tail: i64,
    /// Frames more inside it; lost when negative. Of a strip that was not to be
    /// seen before, or is not any more, all of it.
    pub inside: i64,
    /// How it lies now, where that changed.
    pub laid: Option<Laid>,
    /// Whether it is not seen at all any more.
    pub left_out: bool,
    /// Whether it comes at another place among the strips.
    pub moved: bool,
    /// Where it begins on the reel, before. Unit: frames.
    pub at: u64,
}

/// What changes between two states of the bench.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Meaning {
    /// The strips that are seen otherwise.
    pub strips: Vec<StripChange>,
    /// Length of the film, before and after. Unit: frames.
    pub frames: (u64, u64),
    /// Joins it will have more than before; fewer when negative.
    pub joins: i64,
    /// Frames torn or spoiled.
    pub spoiled: u64,
}

impl Meaning {
    /// What changed from one state to another.
    #[must_use]
    pub fn between(
        before: &BenchState,
        after: &BenchState,
        strips: &Strips,
        table: &JoinTable,
    ) -> Self {
        let (was, is) = (
            AsMade::of(before, strips, table),
            AsMade::of(after, strips, table),
        );
        let count = strips.strips.len();
        let (old, new) = (seen(&was, count), seen(&is, count));
        let moved = moved(&was, &is, count);
        let begins = begins(&was, count);
        let changes = (0..count).filter_map(|s| change(s, &old[s], &new[s], moved[s], begins[s]));
        let spoiled = |s: &BenchState| -> u64 {
            let torn = s.gone().iter().filter(|g| g.how != How::Eaten);
            torn.map(|g| u64::from(g.frames.len().count())).sum()
        };
        // With the leaders, n lengths have n + 1 joins, and none has none.
        let joins = |m: &AsMade| match m.parts.len() {
            0 => 0,
            n => i64::try_from(n + 1).unwrap_or(i64::MAX),
        };
        Self {
            strips: changes.collect(),
            frames: (was.frames(), is.frames()),
            joins: joins(&is) - joins(&was),
            spoiled: spoiled(after).saturating_sub(spoiled(before)),
        }
    }

    /// Whether nothing is seen otherwise.
    #[must_use]
    pub fn is_nothing(&self) -> bool {
        self.strips.is_empty() && self.frames.0 == self.frames.1 && self.joins == 0
    }
}

/// A strip as it is seen.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
struct Seen {
    first: u32,
    end: u32,
    frames: u64,
    laid: Laid,
}

fn seen(made: &AsMade, strips: usize) -> Vec<Seen> {
    let none = Seen {
        first: u32::MAX,
        ..Seen::default()
    };
    let mut all = vec![none; strips];
    for part in &made.parts {
        let Some(seen) = part.strip.and_then(|s| all.get_mut(s)) else {
            continue;
        };
        seen.frames += u64::from(part.film.frames());
        if part.laid != Laid::Right {
            seen.laid = part.laid;
        }
        if let Film::Roll { begin, end, .. } = &part.film {
            seen.first = seen.first.min(*begin);
            seen.end = seen.end.max(*end);
        }
    }
    all
}

/// Where each strip begins; one that is not there, where it would come.
fn begins(made: &AsMade, strips: usize) -> Vec<u64> {
    let mut begins = vec![None; strips];
    let mut at = 0;
    for part in &made.parts {
        if let Some(begin) = part.strip.and_then(|s| begins.get_mut(s)) {
            begin.get_or_insert(at);
        }
        at += u64::from(part.film.frames());
    }
    let mut behind = at;
    let mut all: Vec<u64> = Vec::with_capacity(strips);
    for begin in begins.iter().rev() {
        behind = begin.unwrap_or(behind);
        all.push(behind);
    }
    all.reverse();
    all
}

/// For each strip whether it comes at another place among those seen before and
/// after: all but the longest row of strips that keep their order.
fn moved(was: &AsMade, is: &AsMade, strips: usize) -> Vec<bool> {
    let order = |made: &AsMade| {
        let mut place = vec![None; strips];
        let all = made.parts.iter().filter_map(|p| p.strip);
        for (n, strip) in all.enumerate().filter(|(_, s)| *s < strips) {
            place[strip].get_or_insert(n);
        }
        place
    };
    let (old, new) = (order(was), order(is));
    let mut both: Vec<(usize, usize, usize)> = (0..strips)
        .filter_map(|s| Some((new[s]?, old[s]?, s)))
        .collect();
    both.sort_unstable();
    // The smallest last place of a row of each length, and the row before each.
    let mut rows: Vec<usize> = Vec::new();
    let mut before: Vec<Option<usize>> = vec![None; both.len()];
    for (i, (_, place, _)) in both.iter().enumerate() {
        let length = rows.partition_point(|r| both[*r].1 < *place);
        before[i] = length.checked_sub(1).map(|l| rows[l]);
        match rows.get_mut(length) {
            Some(row) => *row = i,
            None => rows.push(i),
        }
    }
    let mut moved = vec![false; strips];
    both.iter().for_each(|(.., strip)| moved[*strip] = true);
    let mut at = rows.last().copied();
    while let Some(i) = at {
        moved[both[i].2] = false;
        at = before[i];
    }
    moved
}

fn change(strip: usize, old: &Seen, new: &Seen, moved: bool, at: u64) -> Option<StripChange> {
    if old == new && !moved {
        return None;
    }
    let signed = |n: u64| i64::try_from(n).unwrap_or(i64::MAX);
    let left_out = new.frames == 0;
    let (head, tail) = match left_out || old.frames == 0 {
        true => (0, 0),
        false => (
            i64::from(old.first) - i64::from(new.first),
            i64::from(new.end) - i64::from(old.end),
        ),
    };
    let all = signed(new.frames) - signed(old.frames);
    Some(StripChange {
        strip,
        head,
        tail,
        inside: all - head - tail,
        laid: (old.laid != new.laid).then_some(new.laid),
        left_out,
        moved,
        at,
    })
}
