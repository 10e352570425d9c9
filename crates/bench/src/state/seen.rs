//! The bench brought up to what a scan of its reel shows.

use std::fmt;

use onestrand_cut::{JoinTable, Strips};
use onestrand_film::RollId;

use super::left::pos;
use super::{BenchState, CannotBe, Deed, Film, Laid, Link, Taking, WorkLeft, WorkStep};

/// Film of a roll as a scan of the reel shows it, in one run.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SeenFilm {
    /// The roll.
    pub roll: RollId,
    /// The lowest frame.
    pub begin: u32,
    /// The first behind the highest.
    pub end: u32,
    /// How it lies.
    pub laid: Laid,
}

impl fmt::Display for SeenFilm {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let last = self.end.saturating_sub(1);
        write!(f, "{}·{}–{last}", self.roll, self.begin)
    }
}

/// Why the bench cannot be brought up to what a scan shows.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum NotSeen {
    /// The log already has film on the reel where the scan shows something else.
    #[error("the log has {logged} on the reel where the scan shows {seen}")]
    Otherwise {
        /// What the log has.
        logged: SeenFilm,
        /// What the scan shows there.
        seen: SeenFilm,
    },
    /// The log has more on the reel than the scan shows.
    #[error("the log has {logged} on the reel, and the scan does not show it")]
    Less {
        /// The first film that is not seen.
        logged: SeenFilm,
    },
    /// What the scan shows is not what comes next.
    #[error("the scan shows {seen}, which cannot come next by the version on the bench")]
    NotNext {
        /// What the scan shows.
        seen: SeenFilm,
    },
    /// A deed that would have been needed cannot have happened.
    #[error("the scan shows {seen}, but {why}")]
    Cannot {
        /// What the scan shows.
        seen: SeenFilm,
        /// Why not.
        why: CannotBe,
    },
}

/// A cut that lies this far from where it was planned is taken for that cut. Unit: frames.
const FARTHEST: u32 = 24;

/// Frames that the scan may show of the last length beyond its end by the log: those that a
/// join is still to eat. Unit: frames.
const LAST_MAY_HAVE: u32 = 2;

/// Film on the reel as a scan would show it: leader and cards left out, film that goes on
/// across a join taken together.
#[must_use]
pub fn film_on_the_reel(reel: &[Link]) -> Vec<SeenFilm> {
    let mut out: Vec<SeenFilm> = Vec::new();
    for link in reel {
        let Film::Roll { roll, begin, end } = &link.film else {
            continue;
        };
        let (roll, begin, end, laid) = (roll.clone(), *begin, *end, link.laid);
        join_on(
            &mut out,
            SeenFilm {
                roll,
                begin,
                end,
                laid,
            },
        );
    }
    out
}

/// Adds film, to what is before it where it goes on from there.
fn join_on(to: &mut Vec<SeenFilm>, film: SeenFilm) {
    if let Some(last) = to.last_mut()
        && last.roll == film.roll
        && last.laid == film.laid
    {
        if !film.laid.is_tail_first() && last.end == film.begin {
            last.end = film.end;
            return;
        }
        if film.laid.is_tail_first() && film.end == last.begin {
            last.begin = film.begin;
            return;
        }
    }
    to.push(film);
}

/// Of an order the strips that a scan shows. The others may have been taken off their rolls
/// before, or not: a scan of the reel does not know, and a cut is not made up.
#[must_use]
pub fn takings_seen(order: &[Taking], strips: &Strips, seen: &[SeenFilm]) -> Vec<Taking> {
    let is_seen = |taking: &&Taking| {
        let span = strips.strips.get(taking.strip);
        span.and_then(|strip| strip.span.as_ref())
            .is_some_and(|span| {
                let (begin, end) = (span.range.begin().index(), span.range.end().index());
                seen.iter()
                    .any(|s| s.roll == span.roll && s.begin < end && begin < s.end)
            })
    };
    order.iter().filter(is_seen).copied().collect()
}

/// The deeds by which a bench comes to have on its reel what a scan shows there, from
/// head to tail: those that are left of the version, with each cut where the scan shows
/// it and each length laid as it is seen. `left` tells what is left from a state of the
/// bench, of the strips that are seen ([`takings_seen`]). What joined with what, which frames a join ate and what hangs where is taken as
/// planned: a scan does not show it; and so is the end of the last length where the scan
/// stops within it.
///
/// # Errors
/// [`NotSeen`].
pub fn deeds_to_show(
    state: &BenchState,
    (strips, table): (&Strips, &JoinTable),
    left: &mut dyn FnMut(&BenchState) -> Result<WorkLeft, CannotBe>,
    seen: &[SeenFilm],
) -> Result<Vec<Deed>, NotSeen> {
    let mut wanted = Vec::new();
    for film in seen {
        join_on(&mut wanted, film.clone());
    }
    let mut state = state.clone();
    let mut deeds = Vec::new();
    // Each strip is mounted for, wound to, cut twice, hung and joined, and some more.
    let most = 12 * (strips.strips.len() + wanted.len() + 4);
    let mut next = next_seen(&state, &wanted)?;
    for _ in 0..most {
        let Some(film) = next else {
            return Ok(deeds);
        };
        let cannot = |why| NotSeen::Cannot {
            seen: film.clone(),
            why,
        };
        let steps = left(&state).map_err(cannot)?.steps;
        let deed = deed_as_seen(&state, (strips, table), &steps, (&wanted, film))?;
        state.apply(&deed, table, usize::MAX).map_err(cannot)?;
        deeds.push(deed);
        // What does not fit now, the log does not say: the version would have had it.
        let not_next = |_| NotSeen::NotNext { seen: film.clone() };
        next = next_seen(&state, &wanted).map_err(not_next)?;
    }
    match next {
        None => Ok(deeds),
        Some(film) => Err(NotSeen::NotNext { seen: film.clone() }),
    }
}

/// The film that is still to come on the reel; none where the reel is as it is seen.
fn next_seen<'a>(
    state: &BenchState,
    wanted: &'a [SeenFilm],
) -> Result<Option<&'a SeenFilm>, NotSeen> {
    let reel = film_on_the_reel(state.reel());
    for (at, logged) in reel.iter().enumerate() {
        let Some(seen) = wanted.get(at) else {
            return Err(NotSeen::Less {
                logged: logged.clone(),
            });
        };
        if logged == seen {
            continue;
        }
        // The next join may still eat of the last length, or film of the same shot go on.
        let is_last = at + 1 == reel.len();
        if is_last && begins_alike(logged, seen) {
            let is_all = at + 1 == wanted.len() && ends_alike(logged, seen);
            return Ok(wanted.get(at + 1).or(Some(seen)).filter(|_| !is_all));
        }
        return Err(NotSeen::Otherwise {
            logged: logged.clone(),
            seen: seen.clone(),
        });
    }
    Ok(wanted.get(reel.len()))
}

fn begins_alike(a: &SeenFilm, b: &SeenFilm) -> bool {
    let same_end = match a.laid.is_tail_first() {
        true => a.end == b.end,
        false => a.begin == b.begin,
    };
    a.roll == b.roll && a.laid == b.laid && same_end
}

/// Of the last length, which begins alike, the scan may not show the end: it lies under
/// leader, or the scanner was stopped before it.
fn ends_alike(logged: &SeenFilm, seen: &SeenFilm) -> bool {
    match logged.laid.is_tail_first() {
        true => seen.begin + LAST_MAY_HAVE >= logged.begin,
        false => seen.end <= logged.end + LAST_MAY_HAVE,
    }
}

/// The next step as it must have been done.
fn deed_as_seen(
    state: &BenchState,
    (strips, table): (&Strips, &JoinTable),
    steps: &[WorkStep],
    (wanted, next): (&[SeenFilm], &SeenFilm),
) -> Result<Deed, NotSeen> {
    let not_next = || NotSeen::NotNext { seen: next.clone() };
    let step = steps.first().ok_or_else(not_next)?;
    let laid_as = |deed: &Deed| match deed {
        Deed::Join { next: of, kind, .. } => {
            let laid = match of {
                super::Next::Film(name) => laid_of(wanted, &name.roll, name.frame.index()),
                _ => None,
            };
            Deed::Join {
                next: of.clone(),
                kind: *kind,
                laid: laid.unwrap_or_default(),
            }
        }
        other => other.clone(),
    };
    let Deed::Cut { roll, before } = &step.deed else {
        return Ok(laid_as(&step.deed));
    };
    let by = step
        .strip
        .map_or(0, |strip| moved(strips, strip, before.index(), wanted));
    let at = before.index().saturating_add_signed(by);
    let cut = Deed::Cut {
        roll: roll.clone(),
        before: pos(at),
    };
    // Where it is cut already, what is left would trim what the scan shows untrimmed.
    match state.clone().apply(&cut, table, usize::MAX) {
        Ok(()) => Ok(cut),
        Err(_) => {
            // The strip that would be trimmed is hung or joined as it is.
            let goes_on = |s: &&WorkStep| {
                let deed = matches!(s.deed, Deed::Join { .. } | Deed::Hang { .. });
                s.strip == step.strip && deed
            };
            let join = steps.iter().find(goes_on).ok_or_else(not_next)?;
            Ok(laid_as(&join.deed))
        }
    }
}

fn laid_of(wanted: &[SeenFilm], roll: &RollId, frame: u32) -> Option<Laid> {
    let holds = |s: &&SeenFilm| s.roll == *roll && (s.begin..s.end).contains(&frame);
    wanted.iter().find(holds).map(|s| s.laid)
}

/// How far the cut at an end of a strip lies from its plan, by what is seen of the strip.
fn moved(strips: &Strips, strip: usize, before: u32, wanted: &[SeenFilm]) -> i32 {
    let Some(span) = strips.strips.get(strip).and_then(|s| s.span.as_ref()) else {
        return 0;
    };
    let (begin, end) = (span.range.begin().index(), span.range.end().index());
    let shared = |s: &SeenFilm| s.end.min(end).saturating_sub(s.begin.max(begin));
    let of_strip = wanted.iter().filter(|s| s.roll == span.roll);
    let Some(seen) = of_strip.max_by_key(|s| shared(s)).filter(|s| shared(s) > 0) else {
        return 0;
    };
    let (planned, found) = match before.abs_diff(begin) <= before.abs_diff(end) {
        true => (begin, seen.begin),
        false => (end, seen.end),
    };
    // What a join is to eat can still be seen where nothing is joined on yet.
    let eaten = strips.extent(strip).unwrap_or((found.into(), found.into()));
    let is_uneaten = i64::from(found) == eaten.0 || i64::from(found) == eaten.1;
    match planned.abs_diff(found) <= FARTHEST && !is_uneaten {
        true => i32::try_from(i64::from(found) - i64::from(planned)).unwrap_or(0),
        false => 0,
    }
}
