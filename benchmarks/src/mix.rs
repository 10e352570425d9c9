//! The mix: how many times as fast as it runs, and a piece of it asked for from its middle.

use std::hint::black_box;
use std::time::Instant;

use onestrand_film::Fps;
use onestrand_sound::{
    Compressor, Ducked, Equaliser, Fade, LevelPoint, MemorySound, Mix, MixColumn, MixCue, MixRun,
    Peaks, Round, SoundReader,
};

use crate::figures::Figures;
use crate::say;
use crate::table::Table;
use crate::titles::processor;
use crate::trouble::{Trouble, make_sure};

/// How many times as fast as it runs a mix of eight columns and forty cues is made, at least.
/// Source: issue 9.
const TIMES: f64 = 60.0;
/// After a change of a level, the first piece of sound is there. Source: issue 9 gives
/// 200 ms until it is heard. Unit: seconds.
const PIECE: f64 = 0.2;
/// The outline of a sound of 20 minutes. Source: issue 9. Unit: seconds.
const OUTLINE: f64 = 1.0;
const COLUMNS: usize = 8;
const CUES: usize = 40;
/// Three minutes at 18 frames a second.
const FRAMES: u32 = 3240;
const RATE: usize = 48_000;
const TURNS: u32 = 5;

/// Measures, and prints the table.
///
/// # Errors
/// [`Trouble`] when a sound cannot be read or the mix is silent.
pub(crate) fn measure() -> Result<(), Trouble> {
    say("mixing eight columns of forty cues, all that a column has at work");
    let mix = mix();
    let seconds = mix.samples() as f64 / RATE as f64;
    let mut whole = Vec::new();
    let mut piece = Vec::new();
    for _ in 0..TURNS {
        let mut run = MixRun::new(mix.clone(), sounds());
        let mut out = vec![0.0; RATE * 2];
        let begun = processor()?;
        let mut loud = 0.0_f32;
        for second in 0..mix.samples() / RATE as u64 {
            run.render(second * RATE as u64, &mut out)?;
            loud = out.iter().fold(loud, |most, sample| most.max(sample.abs()));
        }
        whole.push(processor()? - begun);
        make_sure("mixes with sound", u64::from(loud > 0.1), 1)?;
        // A level was changed: the mix is opened anew, and asked for where one listens.
        let mut run = MixRun::new(mix.clone(), sounds());
        let mut out = vec![0.0; RATE / 10 * 2];
        let begun = processor()?;
        run.render(90 * RATE as u64, &mut out)?;
        piece.push(processor()? - begun);
        black_box(out);
    }
    let took = Figures::of(whole).median();
    println!(
        "A mix of {seconds:.0} s, {COLUMNS} columns, {CUES} cues, two channels, in processor time of \
         all its threads: {:.0} times as fast as it runs (at least {TIMES:.0}).\n",
        seconds / took
    );
    let mut table = Table::new(&["", "time", "target", ""]);
    table.time("the whole mix", took, Some(seconds / TIMES));
    table.time(
        "0.1 s of it from its middle, opened anew",
        Figures::of(piece).median(),
        Some(PIECE),
    );
    let peaks = long_sound();
    let begun = Instant::now();
    let columns = black_box(peaks.columns(0, 1200 * RATE as u64, 2048));
    let outline = begun.elapsed().as_secs_f64();
    make_sure("columns of an outline", columns.len() as u64, 2048)?;
    table.time(
        "the outline of 20 minutes in 2,048 columns",
        outline,
        Some(OUTLINE),
    );
    println!("{table}");
    Ok(())
}

/// Noise that comes and goes like words.
fn noise(seed: u32, seconds: usize) -> Vec<f32> {
    let mut state = seed | 1;
    let sample = |n: usize| {
        state = state.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
        let height = if (n / 17_000) % 3 == 2 { 0.01 } else { 0.3 };
        height * ((state >> 8) as f32 / (1_u32 << 23) as f32 - 1.0)
    };
    (0..seconds * RATE).map(sample).collect()
}

fn long_sound() -> Peaks {
    let mut peaks = Peaks::default();
    let minute = noise(9, 60);
    for _ in 0..20 {
        peaks.add(&minute, 1);
    }
    peaks.finish();
    peaks
}

fn sounds() -> Vec<Box<dyn SoundReader>> {
    let one = |n: u32| {
        let sound = MemorySound::new(noise(n * 7919, 20), 1);
        Box::new(sound) as Box<dyn SoundReader>
    };
    (1..=COLUMNS as u32).map(one).collect()
}

fn mix() -> Mix {
    let column = |n: usize| MixColumn {
        db: -6.0,
        equaliser: Equaliser {
            low_cut_hz: Some(80.0),
            lows_db: 2.0,
            presence_db: 3.0,
            highs_db: -2.0,
        },
        compressor: Some(Compressor {
            threshold_db: -24.0,
            ratio: 2.5,
            make_up_db: 4.0,
        }),
        ducked: (n > 0).then_some(Ducked {
            under: 0,
            by_db: 9.0,
        }),
        ..MixColumn::default()
    };
    let cue = |n: usize| MixCue {
        column: n % COLUMNS,
        sound: n % COLUMNS,
        first: 0,
        last: u64::MAX,
        round: Some(Round {
            from: 48_000,
            to: 900_000,
            crossed: 9_600,
        }),
        at: (n / COLUMNS * 648) as i64,
        frames: 660,
        db: -3.0,
        line: vec![
            LevelPoint { at: 40, db: 0.0 },
            LevelPoint { at: 300, db: -9.0 },
        ],
        fade_in: Fade {
            frames: 12,
            ..Fade::default()
        },
        fade_out: Fade {
            frames: 18,
            ..Fade::default()
        },
        balance: 0.2,
    };
    Mix {
        speed: Fps::EIGHTEEN,
        leader: 0,
        frames: FRAMES,
        channels: 2,
        db: 0.0,
        ceiling_db: -1.0,
        start_mark: None,
        columns: (0..COLUMNS).map(column).collect(),
        cues: (0..CUES).map(cue).collect(),
    }
}
