//! Beats and bars of a music.

use crate::rises::{A_SECOND, Rises};
use crate::tempo::{Candidate, FASTEST, Repeats, SLOWEST, candidates, lag_of};
use crate::{Heard, HearingError, attack, middle};

/// The beat of a music.
#[derive(Debug, Clone, PartialEq)]
pub struct Beats {
    /// Tempo, out of all beats together. Unit: beats a minute.
    pub bpm: f64,
    /// When each beat falls. Unit: seconds, forward.
    pub seconds: Vec<f64>,
    /// Beats in a bar: 2, 3 or 4.
    pub in_a_bar: u32,
    /// The first beat of the list that begins a bar, from 0.
    pub first_bar: usize,
    /// How sure the tempo is: the share of it that the next likeliest tempo does
    /// not have, 0 to 1. Half and double tempo count: they are the usual doubt.
    pub sure: f64,
    /// How sure the bars are, likewise.
    pub sure_of_bars: f64,
    /// Other tempos that the music allows, likeliest first. Unit: beats a minute.
    pub or_bpm: Vec<f64>,
    /// How far the beats lie from even ones: root mean square. Unit: milliseconds.
    pub uneven_ms: f64,
}

/// What holds a beat to the tempo, against the pull of what is heard: the
/// higher, the stiffer. Our own choice on marches and loops.
const STIFF: f64 = 300.0;

/// Finds tempo, beats and bars of a piece of music.
///
/// Unit of `slowest` and `fastest`: beats a minute, between 30 and 300; narrow
/// them when half or double the tempo is meant. The way is the usual one: how the
/// curve of rises repeats gives the tempo, and dynamic programming lays beats on
/// what is heard at about this distance (D. P. W. Ellis, Beat tracking by dynamic
/// programming, 2007).
///
/// # Errors
/// [`HearingError::TooShort`] below three seconds, [`HearingError::Silent`],
/// [`HearingError::OutOfRange`], or [`HearingError::NoBeat`].
pub fn beats(heard: Heard<'_>, slowest: f64, fastest: f64) -> Result<Beats, HearingError> {
    let heard = heard.long_enough(3.0)?;
    in_order(slowest, fastest)?;
    let rises = Rises::of(heard);
    let tempos = candidates(&Repeats::of(&rises.all), slowest, fastest);
    let best = tempos.first().ok_or(HearingError::NoBeat)?;
    let places = laid(&rises.all, lag_of(best.bpm));
    if places.len() < 4 {
        return Err(HearingError::NoBeat);
    }
    let tops: Vec<f64> = places
        .iter()
        .map(|&at| finer(&rises.all, at) / A_SECOND)
        .collect();
    let seconds = on_their_attacks(heard, &tops);
    let (every, uneven) = even(&seconds);
    let bars = bars(&rises, &places);
    let (seconds, first_bar) = with_the_very_first(heard, seconds, every, &bars);
    Ok(Beats {
        bpm: 60.0 / every,
        in_a_bar: bars.beats,
        first_bar,
        sure: sure(&tempos),
        sure_of_bars: bars.sure,
        or_bpm: tempos.iter().skip(1).map(|tempo| tempo.bpm).collect(),
        uneven_ms: 1000.0 * uneven,
        seconds,
    })
}

/// How far from the head of the sound its first beat may be expected to fall and still be taken
/// to be its head. Unit: beats.
const HEAD: f64 = 0.15;

/// A sound that is cut to its first beat begins with it: nothing rises there, for nothing comes
/// before. Where a beat is due at the head and the sound is there at once, it is one; gives the
/// beats and which of them begins a bar.
fn with_the_very_first(
    heard: Heard<'_>,
    seconds: Vec<f64>,
    every: f64,
    bars: &Bars,
) -> (Vec<f64>, usize) {
    let due = seconds.first().map_or(f64::INFINITY, |first| first - every);
    let power = |samples: &[f32]| {
        let sum: f64 = samples.iter().map(|v| f64::from(*v).powi(2)).sum();
        sum / samples.len().max(1) as f64
    };
    let all = heard.samples();
    let head = &all[..((0.15 * every * heard.rate()) as usize).min(all.len())];
    if due.abs() > HEAD * every || power(head) < 0.25 * power(all) {
        return (seconds, bars.first);
    }
    let first_bar = (bars.first + 1) % bars.beats.max(1) as usize;
    let with = std::iter::once(due.max(0.0)).chain(seconds);
    (with.collect(), first_bar)
}

/// The tempo of a loop: a piece that is played round and round, so that whole
/// beats go into it. Unit: beats a minute; how many beats it has.
///
/// # Errors
/// As [`beats`], but half a second is enough.
pub fn loop_beats(
    heard: Heard<'_>,
    slowest: f64,
    fastest: f64,
) -> Result<(f64, u32), HearingError> {
    let heard = heard.long_enough(0.5)?;
    in_order(slowest, fastest)?;
    let turns = (16.0 / heard.seconds()).ceil().clamp(2.0, 40.0) as usize;
    let round = heard.samples().repeat(turns);
    let around = Heard::new(&round, heard.rate() as u32)?;
    let repeats = Repeats::of(&Rises::of(around).all);
    let least = (heard.seconds() * slowest / 60.0).ceil().max(1.0) as u32;
    let most = (heard.seconds() * fastest / 60.0).floor() as u32;
    let tempos = candidates(&repeats, slowest, fastest);
    let off_whole = |tempo: &&Candidate| {
        let beats = tempo.bpm * heard.seconds() / 60.0;
        (beats - beats.round()).abs()
    };
    let fitting = tempos.iter().find(|tempo| off_whole(tempo) < 0.15);
    let best = fitting.or(tempos.first()).ok_or(HearingError::NoBeat)?;
    let whole = (best.bpm * heard.seconds() / 60.0).round() as u32;
    let beats = whole.clamp(least, most.max(least));
    Ok((60.0 * f64::from(beats) / heard.seconds(), beats))
}

fn in_order(slowest: f64, fastest: f64) -> Result<(), HearingError> {
    crate::tone::in_range("the slowest tempo", slowest, 30.0, 300.0)?;
    crate::tone::in_range("the fastest tempo", fastest, slowest, 300.0)
}

impl Beats {
    /// The slowest and fastest tempo looked for when nothing is known.
    /// Unit: beats a minute.
    pub const USUAL: (f64, f64) = (SLOWEST, FASTEST);

    /// When each bar begins. Unit: seconds.
    pub fn bars(&self) -> impl Iterator<Item = f64> + '_ {
        let every = self.in_a_bar.max(1) as usize;
        self.seconds
            .iter()
            .copied()
            .skip(self.first_bar)
            .step_by(every)
    }
}

/// What the best has before the next, as a share of the best.
fn sure(tempos: &[Candidate]) -> f64 {
    match tempos {
        [best, next, ..] => (1.0 - next.worth / best.worth).clamp(0.0, 1.0),
        [_] => 1.0,
        [] => 0.0,
    }
}

/// Beats laid on a curve at about a distance: at each instant the best of all
/// that end there.
fn laid(rises: &[f64], lag: f64) -> Vec<usize> {
    let spread = middle::mean(&rises.iter().map(|rise| rise * rise).collect::<Vec<_>>()).sqrt();
    let heard: Vec<f64> = smoothed(rises, lag / 32.0)
        .iter()
        .map(|rise| rise / spread.max(1e-12))
        .collect();
    let (near, far) = ((lag * 0.5).ceil() as usize, (lag * 2.0).floor() as usize);
    let price = |steps: usize| STIFF * (steps as f64 / lag).ln().powi(2);
    let prices: Vec<f64> = (near..=far).map(price).collect();
    let mut worth = heard.clone();
    let mut from = vec![usize::MAX; heard.len()];
    for at in near..heard.len() {
        let steps = near..=far.min(at);
        let best = steps
            .map(|steps| (worth[at - steps] - prices[steps - near], at - steps))
            .max_by(|a, b| a.0.total_cmp(&b.0));
        if let Some((before, place)) = best.filter(|best| best.0 > 0.0) {
            worth[at] += before;
            from[at] = place;
        }
    }
    // The last beat is the best place within the last two beats' length.
    let last = heard.len().saturating_sub(lag as usize);
    let mut at = (last..heard.len()).max_by(|&a, &b| worth[a].total_cmp(&worth[b]));
    let mut places = Vec::new();
    while let Some(place) = at {
        places.push(place);
        at = Some(from[place]).filter(|&before| before != usize::MAX);
    }
    places.reverse();
    trimmed(places, &heard)
}

/// Beats before the first sound and after the last are none.
fn trimmed(places: Vec<usize>, heard: &[f64]) -> Vec<usize> {
    let strength: Vec<f64> = places.iter().map(|&at| heard[at]).collect();
    let bar = 0.3 * middle::median(&strength);
    let first = strength.iter().position(|&beat| beat > bar).unwrap_or(0);
    let last = strength.iter().rposition(|&beat| beat > bar).unwrap_or(0);
    places.get(first..=last).unwrap_or_default().to_vec()
}

/// A curve blurred over some instants as a bell.
fn smoothed(rises: &[f64], width: f64) -> Vec<f64> {
    let reach = (3.0 * width).ceil() as isize;
    let bell: Vec<f64> = (-reach..=reach)
        .map(|at| (-0.5 * (at as f64 / width.max(0.5)).powi(2)).exp())
        .collect();
    let value = |at: isize| {
        usize::try_from(at)
            .ok()
            .and_then(|at| rises.get(at))
            .copied()
    };
    (0..rises.len() as isize)
        .map(|at| {
            let near = (at - reach..=at + reach).zip(&bell);
            near.map(|(place, weight)| weight * value(place).unwrap_or(0.0))
                .sum()
        })
        .collect()
}

/// The top of a curve near an instant, between instants by a parabola.
fn finer(rises: &[f64], at: usize) -> f64 {
    let near = at.saturating_sub(4)..(at + 5).min(rises.len());
    let top = near
        .max_by(|&a, &b| rises[a].total_cmp(&rises[b]))
        .unwrap_or(at);
    let value = |at: usize| rises.get(at).copied().unwrap_or(0.0);
    let [before, here, after] = [top.wrapping_sub(1), top, top + 1].map(value);
    let bend = before - 2.0 * here + after;
    if bend < 0.0 {
        top as f64 + (0.5 * (before - after) / bend).clamp(-0.5, 0.5)
    } else {
        top as f64
    }
}

/// The curve rises a little before a sound begins, for it looks over a stretch:
/// all beats moved by the middle of what lies between them and their attacks.
fn on_their_attacks(heard: Heard<'_>, tops: &[f64]) -> Vec<f64> {
    let gaps: Vec<f64> = tops
        .iter()
        .map(|&top| attack::place(heard, top) - top)
        .collect();
    let moved = middle::median(&gaps).clamp(-0.02, 0.02);
    tops.iter()
        .map(|top| (top + moved).clamp(0.0, heard.seconds()))
        .collect()
}

/// The straight line through all beats: its step, and what is left beside it.
fn even(seconds: &[f64]) -> (f64, f64) {
    let count = seconds.len() as f64;
    let middle_number = (count - 1.0) / 2.0;
    let mean = middle::mean(seconds);
    let pairs = || {
        seconds
            .iter()
            .enumerate()
            .map(|(at, time)| (at as f64 - middle_number, time - mean))
    };
    let square: f64 = pairs().map(|(number, _)| number * number).sum();
    let every = pairs().map(|(number, time)| number * time).sum::<f64>() / square.max(1e-12);
    let left: f64 = pairs()
        .map(|(number, time)| (time - every * number).powi(2))
        .sum();
    (every, (left / count).sqrt())
}

#[derive(Clone, Copy)]
struct Bars {
    beats: u32,
    first: usize,
    sure: f64,
}

/// Bars of 2, 3 or 4 beats: the first beat of a bar strikes harder, in the bass
/// above all. Two or three beats are told apart first; a bar of two is one of
/// four when every other one strikes harder still.
fn bars(rises: &Rises, places: &[usize]) -> Bars {
    let accents = accents(rises, places);
    let mut found: Vec<Bars> = [2, 3]
        .into_iter()
        .flat_map(|beats| (0..beats).map(move |first| (beats, first)))
        .map(|(beats, first)| Bars {
            beats: beats as u32,
            first,
            sure: standing_out(&accents, beats, first),
        })
        .collect();
    found.sort_by(|a, b| b.sure.total_cmp(&a.sure));
    let best = &found[0];
    let next = found.iter().find(|other| other.beats != best.beats);
    let beyond = best.sure - next.map_or(0.0, |next| next.sure.max(0.0));
    let sure = (beyond / best.sure.max(1e-12)).clamp(0.0, 1.0);
    if best.beats == 3 {
        return Bars { sure, ..*best };
    }
    let twos: Vec<f64> = accents
        .iter()
        .copied()
        .skip(best.first)
        .step_by(2)
        .collect();
    let late = usize::from(standing_out(&twos, 2, 1) > 0.0);
    let four = standing_out(&twos, 2, late) > FOUR;
    Bars {
        beats: if four { 4 } else { 2 },
        first: best.first + if four { 2 * late } else { 0 },
        sure,
    }
}

/// How far every other bar of two must stand out to make them bars of four, in
/// errors of chance.
const FOUR: f64 = 2.0;

/// How hard each beat strikes, bass counted double.
fn accents(rises: &Rises, places: &[usize]) -> Vec<f64> {
    let near = |curve: &[f64], at: usize| {
        let reach = at.saturating_sub(6)..(at + 7).min(curve.len());
        curve[reach].iter().copied().fold(0.0, f64::max)
    };
    let parts = |curve: &[f64]| -> Vec<f64> {
        let strength: Vec<f64> = places.iter().map(|&at| near(curve, at)).collect();
        let mean = middle::mean(&strength).max(1e-12);
        strength.iter().map(|one| one / mean).collect()
    };
    let (low, all) = (parts(&rises.low), parts(&rises.all));
    let both = low.iter().zip(&all);
    both.map(|(low, all)| low + 0.5 * all).collect()
}

/// How far the first beats of bars stand above the others, over the error that
/// chance would give: a longer bar must earn its place.
fn standing_out(accents: &[f64], beats: usize, first: usize) -> f64 {
    let of = |is_first: bool| -> Vec<f64> {
        let numbered = accents.iter().enumerate();
        numbered
            .filter(|(at, _)| (at % beats == first) == is_first)
            .map(|(_, &accent)| accent)
            .collect()
    };
    let (firsts, rest) = (of(true), of(false));
    let spread = |list: &[f64]| {
        let mean = middle::mean(list);
        list.iter().map(|one| (one - mean).powi(2)).sum::<f64>()
    };
    let count = accents.len().max(3) as f64;
    let variance = (spread(&firsts) + spread(&rest)) / (count - 2.0) + 1e-3;
    let error =
        (variance / firsts.len().max(1) as f64 + variance / rest.len().max(1) as f64).sqrt();
    (middle::mean(&firsts) - middle::mean(&rest)) / error
}
