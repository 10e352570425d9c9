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
    /// Frames lost inside it.
    pub inside: i64,
    /// How it lies now, where that changed.
    pub laid: Option<Laid>,
    /// Whether it is not seen at all any more.
    pub left_out: bool,
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
        let mut at = 0;
        let mut changes = Vec::new();
        for strip in 0..strips.strips.len() {
            let (old, new) = (seen(&was, strip), seen(&is, strip));
            changes.extend(change(strip, &old, &new, at));
            at += old.frames;
        }
        let spoiled = |s: &BenchState| -> u64 {
            let torn = s.gone().iter().filter(|g| g.how != How::Eaten);
            torn.map(|g| u64::from(g.frames.len().count())).sum()
        };
        let parts = |m: &AsMade| i64::try_from(m.parts.len()).unwrap_or(i64::MAX);
        Self {
            strips: changes,
            frames: (was.frames(), is.frames()),
            joins: parts(&is) - parts(&was),
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

fn seen(made: &AsMade, strip: usize) -> Seen {
    let mut seen = Seen {
        first: u32::MAX,
        ..Seen::default()
    };
    for part in made.parts.iter().filter(|p| p.strip == Some(strip)) {
        seen.frames += u64::from(part.film.frames());
        if part.laid != Laid::Right {
            seen.laid = part.laid;
        }
        if let Film::Roll { begin, end, .. } = &part.film {
            seen.first = seen.first.min(*begin);
            seen.end = seen.end.max(*end);
        }
    }
    seen
}

fn change(strip: usize, old: &Seen, new: &Seen, at: u64) -> Option<StripChange> {
    if old == new {
        return None;
    }
    let signed = |n: u64| i64::try_from(n).unwrap_or(i64::MAX);
    let left_out = new.frames == 0;
    let (head, tail) = match left_out {
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
        inside: if left_out { all } else { all - head - tail },
        laid: (old.laid != new.laid).then_some(new.laid),
        left_out,
        at,
    })
}
