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
            envelope: Envelope::of(mix, cue, length, heard, cut_off),
            sides: [side(cue.balance), side(-cue.balance)],
        })
    };
    mix.cues.iter().filter_map(one).collect()
}

/// The sound of a cue from so far into it, round and round where it does.
pub(super) fn played(
    cue: &LaidCue,
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
        let crossed = round.crossed.min(round.from).min(period);
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
