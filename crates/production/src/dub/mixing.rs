//! The mix of a version: what is heard where, written out, measured.

use std::collections::BTreeMap;
use std::path::Path;

use onestrand_film::SoundTrack;
use onestrand_intake::Cancel;
use onestrand_sound::{
    Bext, Compressor, Ducked, Equaliser, Fade, FadeShape, LevelPoint, LoudnessMeter, Mix,
    MixColumn, MixCue, MixRun, RATE, Round, SoundError, SoundReader, StripeMachine, WaveOut,
    band_of, splice_dropout_s,
};
use onestrand_store::Production;
use serde::Serialize;

use super::document::dub_document;
use super::kept::Kept;
use super::loudness_of::LoudnessDocument;
use super::mix_kept::{mix_of, speed_of};
use super::sound_file::SoundFile;
use crate::documents::{
    ColumnWords, CueDocument, CueStateWord, DubDocument, FadeShapeWord, FadeWords, SoundWords,
};
use crate::error::unfit;
use crate::{ProductionError, Progress};

/// A mix and the files it plays: all that is needed to hear it, without the film.
#[derive(Debug, Clone, PartialEq)]
pub struct MixSet {
    /// The mix.
    pub mix: Mix,
    /// The columns, by their numbers.
    pub columns: Vec<i64>,
    /// What the columns are called.
    pub names: Vec<String>,
    /// How it sounds from the stripe; nothing where nothing is known of the track.
    pub stripe: Option<StripeMachine>,
    files: Vec<SoundFile>,
}

/// What else may be asked of a mix.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct MixAsked {
    /// The speed; the one that is kept when not said.
    pub speed: Option<String>,
    /// The leader, in frames; the one that is kept when not said.
    pub leader: Option<u32>,
    /// Columns heard alone, by their numbers; all when empty.
    pub alone: Vec<i64>,
}

impl MixSet {
    /// The mix of a version.
    ///
    /// # Errors
    /// [`ProductionError::Store`] when there is no such version; [`ProductionError::Unit`]
    /// for a speed that cannot be read.
    pub fn of(
        production: &Production,
        cut: &str,
        asked: &MixAsked,
    ) -> Result<Self, ProductionError> {
        let document = dub_document(production, cut)?;
        let mut words = mix_of(production)?;
        if let Some(speed) = &asked.speed {
            words.speed.clone_from(speed);
        }
        if let Some(leader) = asked.leader {
            words.leader = leader;
        }
        let speed = speed_of(production, &words)?;
        let sounds = Kept::<SoundWords>::all(production)?;
        let columns: Vec<i64> = document.columns.iter().map(|known| known.id).collect();
        let place = |id: i64| columns.iter().position(|known| *known == id);
        let at: BTreeMap<i64, usize> = sounds.iter().enumerate().map(|(n, s)| (s.id, n)).collect();
        let cues = document
            .cues
            .iter()
            .filter(|cue| cue.state != CueStateWord::Orphan);
        let cues = cues.filter_map(|cue| {
            let sound = cue.cue.sound?;
            let nth = *at.get(&sound)?;
            Some(mix_cue(
                cue,
                place(cue.cue.column)?,
                nth,
                &sounds[nth].words,
            ))
        });
        let mix = Mix {
            speed,
            leader: words.leader,
            frames: document.frames,
            channels: if words.two_channels { 2 } else { 1 },
            db: tenths(words.gain),
            ceiling_db: tenths(words.ceiling),
            start_mark: (words.pop > 0).then_some(words.pop),
            cues: cues.collect(),
            columns: document
                .columns
                .iter()
                .map(|known| {
                    let silent = !asked.alone.is_empty() && !asked.alone.contains(&known.id);
                    mix_column(&known.column, silent, &place)
                })
                .collect(),
        };
        let stripe = stripe(production, &document, &mix, words.optical);
        let files = sounds
            .iter()
            .map(|kept| SoundFile::of(production, &kept.words));
        Ok(Self {
            files: files.collect(),
            names: document
                .columns
                .iter()
                .map(|known| known.column.name.clone())
                .collect(),
            columns,
            stripe,
            mix,
        })
    }

    /// Opens its sounds; those that are not ready are made so.
    ///
    /// # Errors
    /// [`ProductionError::Sound`].
    pub fn run(&self) -> Result<MixRun, ProductionError> {
        let mut readers: Vec<Box<dyn SoundReader>> = Vec::with_capacity(self.files.len());
        for (nth, file) in self.files.iter().enumerate() {
            let used = self.mix.cues.iter().any(|cue| cue.sound == nth);
            // A sound that no cue plays need not be there.
            readers.push(if used {
                Box::new(file.reader()?)
            } else {
                Box::new(onestrand_sound::MemorySound::new(Vec::new(), 1))
            });
        }
        Ok(MixRun::new(self.mix.clone(), readers))
    }
}

fn tenths(level: i32) -> f64 {
    f64::from(level) / 10.0
}

fn fade(words: FadeWords) -> Fade {
    Fade {
        frames: words.frames,
        shape: match words.shape {
            FadeShapeWord::EqualPower => FadeShape::EqualPower,
            FadeShapeWord::Linear => FadeShape::Linear,
        },
    }
}

fn mix_column(
    words: &ColumnWords,
    silent: bool,
    place: &dyn Fn(i64) -> Option<usize>,
) -> MixColumn {
    MixColumn {
        db: tenths(words.gain),
        silent: words.silent || silent,
        equaliser: Equaliser {
            low_cut_hz: words.low_cut.map(f64::from),
            lows_db: tenths(words.lows),
            presence_db: tenths(words.presence),
            highs_db: tenths(words.highs),
        },
        compressor: words.compressor.map(|press| Compressor {
            threshold_db: tenths(press.threshold),
            ratio: f64::from(press.ratio) / 10.0,
            make_up_db: tenths(press.make_up),
        }),
        ducked: words.ducked.and_then(|ducked| {
            Some(Ducked {
                under: place(ducked.under)?,
                by_db: f64::from(ducked.by) / 10.0,
            })
        }),
    }
}

/// A place in a kept sound, as it is at 48 kHz when it is played.
pub(super) fn at_48(sound: &SoundWords, sample: u64) -> u64 {
    let over = u128::from(sample) * u128::from(RATE) * 1_000_000;
    let under = u128::from(sound.facts.rate.max(1)) * u128::from(sound.play.max(1));
    u64::try_from((over + under / 2) / under).unwrap_or(u64::MAX)
}

fn mix_cue(cue: &CueDocument, column: usize, nth: usize, sound: &SoundWords) -> MixCue {
    let words = &cue.cue;
    let round = sound.round.filter(|_| words.looped).map(|round| Round {
        from: at_48(sound, round.from),
        to: at_48(sound, round.to),
        crossed: at_48(sound, round.crossed),
    });
    MixCue {
        column,
        sound: nth,
        first: at_48(sound, words.from),
        last: words.to.map_or(u64::MAX, |to| at_48(sound, to)),
        round,
        at: cue.at,
        frames: cue.frames,
        db: tenths(words.level),
        line: words
            .line
            .iter()
            .map(|point| LevelPoint {
                at: point.at,
                db: tenths(point.level),
            })
            .collect(),
        fade_in: fade(words.fade_in),
        fade_out: fade(words.fade_out),
        balance: f64::from(words.balance) / 100.0,
    }
}

/// The lap of a cement join on Super 8. Unit: mm (check value S017).
const LAP_MM: f64 = 1.40;

/// How the track of the film sounds, with a moment lost where each join is heard.
fn stripe(
    production: &Production,
    document: &DubDocument,
    mix: &Mix,
    optical: bool,
) -> Option<StripeMachine> {
    let gauge = production.meta().gauge;
    let track = if optical {
        SoundTrack::Optical
    } else {
        SoundTrack::Magnetic
    };
    let speed = mix.speed.as_f64();
    let band = band_of(gauge, track, speed)?;
    let pitch_mm = f64::from(gauge.spec().pitch_um) / 1000.0;
    let long = (splice_dropout_s(LAP_MM, pitch_mm, speed) * f64::from(RATE)).round() as u64;
    let lost = document.joins.iter().filter_map(|join| {
        let at = u64::try_from(mix.sample_of(join.heard_at)).ok()?;
        Some((at, long))
    });
    Some(StripeMachine {
        low_hz: band.low_hz,
        high_hz: band.high_hz,
        noise_db: band.noise_db,
        flutter_percent: band.flutter_percent,
        lost: lost.collect(),
        one_track: true,
    })
}

/// A mix that was written.
#[derive(Debug, Clone, PartialEq, Serialize, utoipa::ToSchema)]
pub struct MixWritten {
    /// The version.
    pub cut: String,
    /// The file.
    pub path: String,
    /// Its speed.
    pub speed: String,
    /// Leader before the first picture. Unit: frames.
    pub leader: u32,
    /// The film. Unit: frames.
    pub frames: u32,
    /// How long it is. Unit: samples.
    pub samples: u64,
    /// Its channels.
    pub channels: usize,
    /// Cues that are heard in it.
    pub cues: usize,
    /// How loud it is.
    pub loudness: LoudnessDocument,
}

/// Samples that are worked out between two looks at the clock and the stop.
const PIECE: usize = 48_000;

/// Writes the mix of a version as a Broadcast Wave; `stem` writes one column of it alone.
///
/// # Errors
/// As [`MixSet::of`] and [`MixSet::run`]; [`ProductionError::Sound`] of the disk, or when it
/// was stopped: nothing half-made is left.
pub fn write_mix(
    set: &MixSet,
    said: &MixSaid,
    out: &Path,
    stem: Option<usize>,
    cancel: &Cancel,
    progress: &mut dyn Progress,
) -> Result<MixWritten, ProductionError> {
    let mut run = set.run()?;
    if let Some(column) = stem {
        run = run.stem(column);
    }
    let channels = run.channels();
    let samples = set.mix.samples();
    progress.begin_in("samples", "mixing", Some(samples));
    let mut file = WaveOut::create(out, channels, said.bext(set))?;
    let mut meter = LoudnessMeter::new(channels, RATE)
        .ok_or_else(|| unfit("no such channels".to_owned(), "one or two"))?;
    let mut piece = vec![0.0; PIECE * channels];
    let mut at = 0_u64;
    while at < samples {
        if cancel.is_cancelled() {
            return Err(SoundError::Stopped.into());
        }
        let count = usize::try_from(samples - at).unwrap_or(PIECE).min(PIECE);
        let piece = &mut piece[..count * channels];
        run.render(at, piece)?;
        file.write(piece)?;
        meter.hear(piece);
        at += count as u64;
        progress.at(at);
    }
    let loudness = meter.done();
    let written = file.done(Some(&loudness))?;
    Ok(MixWritten {
        cut: said.cut.clone(),
        path: crate::film_frames::path_text(out),
        speed: set.mix.speed.to_string(),
        leader: set.mix.leader,
        frames: set.mix.frames,
        samples: written,
        channels,
        cues: set.mix.cues.len(),
        loudness: loudness.into(),
    })
}

/// What a mix says of itself.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MixSaid {
    /// The film.
    pub title: String,
    /// The version.
    pub cut: String,
    /// What it is beside the mix, such as a column.
    pub part: String,
    /// When it was written: `yyyy-mm-ddThh:mm:ss`.
    pub now: String,
}

impl MixSaid {
    /// What the mix of a version, or a part of it, says of itself, written now.
    #[must_use]
    pub fn of(production: &Production, cut: &str, part: &str) -> Self {
        Self {
            title: production.meta().title.clone(),
            cut: cut.to_owned(),
            part: part.to_owned(),
            now: jiff::Timestamp::now().to_string(),
        }
    }

    fn bext(&self, set: &MixSet) -> Bext {
        let part = if self.part.is_empty() {
            "mix"
        } else {
            &self.part
        };
        let mode = if set.mix.channels == 2 {
            "stereo"
        } else {
            "mono"
        };
        Bext {
            description: format!(
                "{}, {}, {part}: {} f/s, leader {} frames, film {} frames",
                self.title, self.cut, set.mix.speed, set.mix.leader, set.mix.frames
            ),
            originator: "Onestrand".to_owned(),
            reference: self.cut.clone(),
            date: self.now.get(..10).unwrap_or_default().to_owned(),
            time: self.now.get(11..19).unwrap_or_default().to_owned(),
            history: vec![format!("A=PCM,F=48000,W=24,M={mode},T=Onestrand")],
        }
    }
}
