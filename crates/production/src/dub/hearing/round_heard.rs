//! A loop as it will be heard, before it is kept: by the mix itself.

use onestrand_film::Fps;
use onestrand_sound::{Fade, FadeShape, Mix, MixColumn, MixCue, MixRun, RATE, Round, SoundReader};
use onestrand_store::Production;

use crate::ProductionError;
use crate::documents::{LoopWords, SoundWords};
use crate::dub::kept::Kept;
use crate::dub::mixing::at_48;
use crate::dub::sound_file::SoundFile;
use crate::error::unfit;

/// What is heard before the seam and after it. Unit: seconds.
const AROUND: u64 = 3;

/// Some seconds round the seam of a loop, as the mix will play them: two channels side by
/// side at 48 kHz, the seam in the middle.
///
/// # Errors
/// [`ProductionError::Store`] when there is no such sound, [`ProductionError::Unfit`] for a
/// loop that is none, [`ProductionError::Sound`] of the disk.
pub fn round_heard(
    production: &Production,
    sound: i64,
    round: LoopWords,
) -> Result<impl FnOnce() -> Result<Vec<f32>, ProductionError> + Send + use<>, ProductionError> {
    let words = Kept::<SoundWords>::one(production, sound)?.words;
    if round.from >= round.to || round.to > words.facts.samples {
        return Err(unfit(
            "the loop does not lie inside the sound".to_owned(),
            "look for the seam again",
        ));
    }
    let file = SoundFile::of(production, &words);
    let at = |sample| at_48(&words, sample);
    let round = Round {
        from: at(round.from),
        to: at(round.to),
        crossed: at(round.crossed),
    };
    Ok(move || play(&file, round))
}

fn play(file: &SoundFile, round: Round) -> Result<Vec<f32>, ProductionError> {
    let reader = file.reader()?;
    let around = AROUND * u64::from(RATE);
    let before = around.min(round.to);
    let samples = before + around;
    // One frame a second: the cue is as many frames long as seconds are heard.
    let speed: Fps = "1".parse()?;
    let mix = Mix {
        speed,
        leader: 0,
        frames: u32::try_from(samples.div_ceil(u64::from(RATE))).unwrap_or(1),
        // As many as it has: what is in the middle of two is softer than alone.
        channels: reader.channels(),
        db: 0.0,
        ceiling_db: 0.0,
        start_mark: None,
        columns: vec![MixColumn::default()],
        cues: vec![MixCue {
            column: 0,
            sound: 0,
            first: round.to - before,
            last: u64::MAX,
            round: Some(round),
            at: 0,
            frames: u32::try_from(samples.div_ceil(u64::from(RATE))).unwrap_or(1),
            db: 0.0,
            line: Vec::new(),
            fade_in: plain(),
            fade_out: plain(),
            balance: 0.0,
        }],
    };
    let mut run = MixRun::new(mix, vec![Box::new(reader)]);
    let channels = run.channels();
    let mut all = vec![0.0; samples as usize * channels];
    run.render(0, &mut all)?;
    let both = all.chunks(channels);
    Ok(both
        .flat_map(|frame| [frame[0], frame[channels - 1]])
        .collect())
}

fn plain() -> Fade {
    Fade {
        frames: 0,
        shape: FadeShape::EqualPower,
    }
}
