//! Cues laid to samples, and the sound of each from any place of it.

use std::f64::consts::PI;

use super::envelope::Envelope;
use super::{Mix, MixCue, Round};
use crate::{SoundError, SoundReader};

/// A cue laid to samples.
#[derive(Debug)]
pub(super) struct LaidCue {
    pub(super) column: usize,
    pub(super) sound: usize,
    pub(super) start: i64,
    /// Unit: samples.
    pub(super) length: u64,
    pub(super) first: u64,
    pub(super) last: u64,
    pub(super) round: Option<Round>,
    /// How alike both ends of the round are where they are heard together, once it was
    /// measured: 1 the same, 0 nothing in common.
    pub(super) likeness: Option<f64>,
    pub(super) envelope: Envelope,
    pub(super) sides: [f32; 2],
}

/// Cues laid to samples; what plays nothing is left out.
pub(super) fn laid(mix: &Mix, readers: &[Box<dyn SoundReader>]) -> Vec<LaidCue> {
    let one = |cue: &MixCue| {
        let reader = readers.get(cue.sound)?;
        let start = mix.sample_of(cue.at);
        let end = mix.sample_of(cue.at + i64::from(cue.frames));
        let length = u64::try_from(end - start).ok()?;
        let last = cue.last.min(reader.length());
        let there = last.checked_sub(cue.first)?;
        let cut_off = cue.round.is_some() || there > length || last < reader.length();
        if cue.column >= mix.columns.len() || length == 0 {
            return None;
        }
        let heard = if cue.round.is_some() {
            length
        } else {
            length.min(there)
        };
        let side = |toward: f64| (1.0 - toward.clamp(0.0, 1.0)) as f32;
        Some(LaidCue {
            column: cue.column,
            sound: cue.sound,
            start,
            length: heard,
            first: cue.first,
            last,
            round: cue
                .round
                .filter(|round| round.from < round.to && round.to <= reader.length()),
            likeness: None,
            envelope: Envelope::of(mix, cue, length, heard, cut_off),
            sides: [side(cue.balance), side(-cue.balance)],
        })
    };
    mix.cues.iter().filter_map(one).collect()
}

impl Round {
    /// How long both ends are heard together, as far as there is sound for it.
    fn together(&self) -> u64 {
        self.crossed.min(self.from).min(self.to - self.from)
    }
}

/// Ends less alike than this are crossed as if they were so: the lift stays below 3 dB.
const LEAST_ALIKE: f64 = -0.5;

/// How alike both ends of a round are: the normalised product of the two, all channels.
fn likeness(round: &Round, reader: &mut dyn SoundReader) -> Result<f64, SoundError> {
    let samples = usize::try_from(round.together()).unwrap_or(0) * reader.channels();
    let (mut goes, mut comes) = (vec![0.0; samples], vec![0.0; samples]);
    reader.read(round.to - round.together(), &mut goes)?;
    reader.read(round.from - round.together(), &mut comes)?;
    let product = |one: &[f32], other: &[f32]| -> f64 {
        let both = one.iter().zip(other);
        both.map(|(a, b)| f64::from(*a) * f64::from(*b)).sum()
    };
    let loud = (product(&goes, &goes) * product(&comes, &comes)).sqrt();
    match loud > 0.0 {
        true => Ok((product(&goes, &comes) / loud).clamp(LEAST_ALIKE, 1.0)),
        false => Ok(0.0),
    }
}

/// The sound of a cue from so far into it, round and round where it does.
pub(super) fn played(
    cue: &mut LaidCue,
    reader: &mut dyn SoundReader,
    into: u64,
    out: &mut [f32],
    crossing: &mut Vec<f32>,
) -> Result<(), SoundError> {
    let channels = reader.channels();
    let Some(round) = cue.round else {
        reader.read(cue.first + into, out)?;
        let left = usize::try_from(cue.last.saturating_sub(cue.first + into)).unwrap_or(usize::MAX);
        if let Some(behind) = out.get_mut(left.saturating_mul(channels)..) {
            behind.fill(0.0);
        }
        return Ok(());
    };
    let alike = match cue.likeness {
        Some(known) => known,
        None => *cue.likeness.insert(likeness(&round, reader)?),
    };
    let period = round.to - round.from;
    let mut done = 0;
    while done < out.len() {
        let straight = cue.first + into + (done / channels) as u64;
        let at = match straight.checked_sub(round.to) {
            None => straight,
            Some(over) => round.from + over % period,
        };
        let left = usize::try_from(round.to - at).unwrap_or(usize::MAX);
        let count = left.min((out.len() - done) / channels);
        let part = &mut out[done..done + count * channels];
        reader.read(at, part)?;
        let crossed = round.together();
        let begins = round.to - crossed;
        if crossed > 0 && at + count as u64 > begins {
            crossing.resize(part.len(), 0.0);
            // What is heard as well lies a whole round earlier.
            let earlier = at.max(begins) - period;
            let skip = usize::try_from(begins.saturating_sub(at)).unwrap_or(0) * channels;
            let both = &mut crossing[skip..];
            reader.read(earlier, both)?;
            for (nth, place) in (skip..part.len()).step_by(channels).enumerate() {
                let way = (at.max(begins) - begins + nth as u64) as f64 / crossed as f64;
                let (comes, goes) = (way * PI / 2.0).sin_cos();
                // Two that are alike add up to more than their powers do.
                let evened = (1.0 + 2.0 * alike * comes * goes).sqrt();
                let (comes, goes) = (comes / evened, goes / evened);
                for side in place..place + channels {
                    let mixed = f64::from(part[side]) * goes + f64::from(crossing[side]) * comes;
                    part[side] = mixed as f32;
                }
            }
        }
        done += count * channels;
    }
    Ok(())
}
