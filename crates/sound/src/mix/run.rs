//! A mix being played or written.

use std::collections::VecDeque;
use std::f64::consts::PI;

use super::laid::{LaidCue, laid, played};
use super::working::{Loudest, Meter, Working, on_two_threads};
use super::{Mix, START_MARK_DB};
use crate::decibel::amplitude;
use crate::limiter::Limiter;
use crate::{RATE, SoundError, SoundReader};

/// Samples that are worked out together, on a grid that does not depend on who asks.
pub(super) const BLOCK: u64 = 4096;

/// How far before a place a mix is begun that is asked for from its middle, so that filters,
/// compressors and the limiter are as they would be. Unit: samples; ten seconds.
pub const WARM_UP: u64 = 10 * RATE as u64;

/// How long the limiter and the sum before it are begun before a place: it lets go by the
/// 90th decibel within 2.1 s. What comes before is only listened to for compressors and
/// columns that go down. Unit: samples; two and a half seconds.
const LIMITER_WARM_UP: u64 = 5 * RATE as u64 / 2;

/// A mix being played or written, block by block.
pub struct MixRun {
    mix: Mix,
    readers: Vec<Box<dyn SoundReader>>,
    cues: Vec<LaidCue>,
    columns: Vec<Working>,
    limiter: Limiter,
    /// The next block to be worked out.
    next_block: u64,
    /// Blocks before this one are only warming up: what comes out of them is not used.
    limited_from: u64,
    /// Samples that are worked out and not asked for yet, and the place of the first.
    ready: VecDeque<f32>,
    ready_at: i64,
    stem: Option<usize>,
    meter: Loudest,
    scratch: Vec<f32>,
    crossing: Vec<f32>,
}

impl std::fmt::Debug for MixRun {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("MixRun")
            .field("mix", &self.mix)
            .finish_non_exhaustive()
    }
}

impl MixRun {
    /// A mix with the sounds its cues name by their places. Cues of sounds that are not
    /// there are silent.
    #[must_use]
    pub fn new(mix: Mix, readers: Vec<Box<dyn SoundReader>>) -> Self {
        let channels = mix.channels.clamp(1, 2);
        let mix = Mix { channels, ..mix };
        let mut run = Self {
            cues: laid(&mix, &readers),
            columns: Vec::new(),
            limiter: Limiter::new(mix.ceiling_db, channels),
            next_block: 0,
            limited_from: 0,
            ready: VecDeque::new(),
            ready_at: 0,
            stem: None,
            meter: Loudest::default(),
            scratch: Vec::new(),
            crossing: Vec::new(),
            mix,
            readers,
        };
        run.begin_at(0);
        run
    }

    /// One column of it alone, as it goes into the mix, before the ceiling is watched.
    #[must_use]
    pub fn stem(mut self, column: usize) -> Self {
        self.stem = Some(column);
        self.begin_at(0);
        self
    }

    /// The mix.
    #[must_use]
    pub const fn mix(&self) -> &Mix {
        &self.mix
    }

    /// 1 or 2.
    #[must_use]
    pub const fn channels(&self) -> usize {
        self.mix.channels
    }

    /// How loud each column and the whole were since this was last asked.
    pub fn meters(&mut self) -> (Vec<Meter>, Meter) {
        let columns = self.columns.iter_mut().map(|column| column.meter.take());
        (columns.collect(), self.meter.take())
    }

    /// What the limiter keeps back. Unit: samples.
    fn delay(&self) -> u64 {
        if self.stem.is_some() {
            0
        } else {
            Limiter::delay() as u64
        }
    }

    /// Everything as it is before the block in which a sample lies.
    fn begin_at(&mut self, sample: u64) {
        self.next_block = sample / BLOCK;
        self.limited_from = 0;
        let channels = self.channels();
        self.columns = self
            .mix
            .columns
            .iter()
            .map(|column| Working::of(column, channels))
            .collect();
        for ducked in self.mix.columns.iter().filter_map(|column| column.ducked) {
            if let Some(under) = self.columns.get_mut(ducked.under) {
                under.is_listened_to = true;
            }
        }
        self.limiter = Limiter::new(self.mix.ceiling_db, channels);
        self.ready.clear();
        let at = i64::try_from(self.next_block * BLOCK).unwrap_or(i64::MAX);
        self.ready_at = at - i64::try_from(self.delay()).unwrap_or(0);
        self.meter = Loudest::default();
    }

    /// Fills `out` with the mix from a sample on, channels side by side; what lies behind
    /// its end is silence. To go on where it stopped costs nothing; anywhere else it begins
    /// [`WARM_UP`] before.
    ///
    /// # Errors
    /// [`SoundError`] of a sound that cannot be read.
    pub fn render(&mut self, first: u64, out: &mut [f32]) -> Result<(), SoundError> {
        let channels = self.channels();
        let wanted = i64::try_from(first).unwrap_or(i64::MAX);
        let far = wanted - self.ready_at > i64::try_from(WARM_UP).unwrap_or(0) * 2;
        if wanted < self.ready_at || far {
            self.begin_at(first.saturating_sub(WARM_UP));
            // Exactly as it would be from the first sample on: nothing is left out there.
            if first > WARM_UP {
                self.limited_from = (first - LIMITER_WARM_UP) / BLOCK;
            }
        }
        let end = self.mix.samples();
        for (nth, frame) in out.chunks_mut(channels).enumerate() {
            let at = wanted + nth as i64;
            if at.unsigned_abs() >= end {
                frame.fill(0.0);
                continue;
            }
            while self.ready_at < at || self.ready.is_empty() {
                if self.ready.is_empty() {
                    self.block()?;
                    continue;
                }
                let skip = usize::try_from(at - self.ready_at).unwrap_or(usize::MAX);
                let skip = skip.min(self.ready.len() / channels);
                self.ready.drain(..skip * channels);
                self.ready_at += skip as i64;
            }
            for sample in frame {
                *sample = self.ready.pop_front().unwrap_or(0.0);
            }
            self.ready_at += 1;
        }
        Ok(())
    }

    /// Works the next block out.
    fn block(&mut self) -> Result<(), SoundError> {
        let channels = self.channels();
        let from = self.next_block * BLOCK;
        self.next_block += 1;
        for column in &mut self.columns {
            column.buffer.fill(0.0);
        }
        let is_warming = self.next_block <= self.limited_from;
        for nth in 0..self.cues.len() {
            let column = &self.columns[self.cues[nth].column];
            if !is_warming || column.is_listened_to {
                self.cue(nth, from)?;
            }
        }
        self.work_columns(is_warming);
        if is_warming {
            let silent = BLOCK as usize * channels;
            self.ready.extend(std::iter::repeat_n(0.0, silent));
            return Ok(());
        }
        let whole = amplitude(self.mix.db);
        for place in (0..BLOCK as usize * channels).step_by(channels) {
            let at = from + (place / channels) as u64;
            let mut sample = [0.0_f32; 2];
            for (side, out) in sample.iter_mut().take(channels).enumerate() {
                *out = self.summed(place + side, at, whole);
            }
            let sample = if self.stem.is_some() {
                sample
            } else {
                self.limiter.pass(sample)
            };
            for out in sample.iter().take(channels) {
                self.meter.hear(f64::from(*out));
                self.ready.push_back(*out);
            }
        }
        Ok(())
    }

    /// Filters and gains of all columns over the block, half of them on a thread of its own.
    /// How loud a column is depends on no other; how far one goes down depends on how loud
    /// others were a step before, so it comes second.
    fn work_columns(&mut self, is_warming: bool) {
        let channels = self.channels();
        let before: Vec<f64> = self.columns.iter().map(|column| column.level_db).collect();
        on_two_threads(&mut self.columns, &|column| {
            if !is_warming || column.is_listened_to {
                column.filter(channels);
            }
        });
        let levels: Vec<Vec<f64>> = self
            .columns
            .iter()
            .zip(before)
            .map(|(column, before)| {
                let earlier = column.levels.iter().copied();
                std::iter::once(before).chain(earlier).collect()
            })
            .collect();
        on_two_threads(&mut self.columns, &|column| {
            column.gains(channels, &levels, is_warming);
        });
    }

    /// What all columns, or the one that is wanted, come to at a place of the block.
    fn summed(&self, place: usize, at: u64, whole: f64) -> f32 {
        if let Some(stem) = self.stem {
            let column = self.columns.get(stem);
            let alone = column.map_or(0.0, |column| f64::from(column.buffer[place]));
            return (alone * whole) as f32;
        }
        let all: f64 = self
            .columns
            .iter()
            .map(|column| f64::from(column.buffer[place]))
            .sum();
        (all * whole + self.start_mark(at)) as f32
    }

    /// The start mark at a sample.
    fn start_mark(&self, at: u64) -> f64 {
        let Some(before) = self
            .mix
            .start_mark
            .filter(|n| (1..=self.mix.leader).contains(n))
        else {
            return 0.0;
        };
        let first = self.mix.sample_of(-i64::from(before));
        let last = self.mix.sample_of(1 - i64::from(before));
        let at = i64::try_from(at).unwrap_or(i64::MAX);
        if at < first || at >= last {
            return 0.0;
        }
        let turn = 2.0 * PI * 1000.0 * (at - first) as f64 / f64::from(RATE);
        amplitude(START_MARK_DB) * turn.sin()
    }

    /// Adds what a cue has in the block that begins at a sample.
    fn cue(&mut self, nth: usize, from: u64) -> Result<(), SoundError> {
        let cue = &mut self.cues[nth];
        let begin = i64::try_from(from).unwrap_or(i64::MAX);
        let start = cue.start.max(begin);
        let cue_end = cue
            .start
            .saturating_add(i64::try_from(cue.length).unwrap_or(i64::MAX));
        let end = cue_end.min(begin + BLOCK as i64);
        if start >= end {
            return Ok(());
        }
        let count = usize::try_from(end - start).unwrap_or(0);
        let into = u64::try_from(start - cue.start).unwrap_or(0);
        let reader = &mut self.readers[cue.sound];
        let own = reader.channels();
        self.scratch.resize(count * own, 0.0);
        played(
            cue,
            reader.as_mut(),
            into,
            &mut self.scratch,
            &mut self.crossing,
        )?;
        cue.envelope.lay_upon(into, &mut self.scratch, own);
        let channels = self.mix.channels;
        let offset = usize::try_from(start - begin).unwrap_or(0) * channels;
        let buffer = &mut self.columns[cue.column].buffer[offset..];
        let both = self.scratch.chunks(own).zip(buffer.chunks_mut(channels));
        for (sound, out) in both {
            let (left, right) = (sound[0], sound[own - 1]);
            match out {
                [one] => *one += f32::midpoint(left, right),
                [a, b] => {
                    *a += left * cue.sides[0];
                    *b += right * cue.sides[1];
                }
                _ => {}
            }
        }
        Ok(())
    }
}
