//! The march played.

use super::instruments::{CHORD, HORN, Note, REED, cymbals, drum, snare};
use super::score::{CHORDS, TUNE};
use super::{MARCH_BARS, MARCH_BPM, finish, samples_of};

/// Beats in a bar.
pub(super) const BEATS_A_BAR: u32 = 4;
/// How long the last chord rings after the last bar. Unit: seconds.
const RINGS: f64 = 1.2;
/// Root mean square: −19 dBFS, which comes to about −18 LUFS.
const LEVEL: f64 = 0.112;
/// Bars before the tune begins.
const BEFORE_TUNE: usize = 2;

/// The march: whole bars, and a last chord that rings.
pub(super) fn march() -> Vec<f32> {
    let bars = f64::from(MARCH_BARS * BEATS_A_BAR) * 60.0 / MARCH_BPM;
    let mut sound = vec![0.0; samples_of(bars + RINGS)];
    tune(&mut sound);
    for (bar, chords) in CHORDS.iter().enumerate() {
        let is_last = bar + 1 == CHORDS.len();
        if is_last {
            close(&mut sound, bar);
            continue;
        }
        for (half, chord) in chords.iter().enumerate() {
            let beat = 4.0 * bar as f64 + 2.0 * half as f64;
            bass(&mut sound, beat, chord.bass()[half]);
            after(&mut sound, beat + 1.0, chord.keys());
        }
        drums(&mut sound, bar);
    }
    let tail = samples_of(0.3);
    let length = sound.len();
    for (at, sample) in sound[length - tail..].iter_mut().enumerate() {
        *sample *= 1.0 - at as f64 / tail as f64;
    }
    finish::to_level(sound, LEVEL)
}

/// The sample on which a beat falls, counted from the first.
fn at(beat: f64) -> usize {
    samples_of(beat * 60.0 / MARCH_BPM)
}

fn seconds(beats: f64) -> f64 {
    beats * 60.0 / MARCH_BPM
}

fn tune(sound: &mut [f64]) {
    for (number, bar) in TUNE.iter().enumerate() {
        let mut beat = 4.0 * (number + BEFORE_TUNE) as f64;
        for &(beats, key) in *bar {
            if key > 0 {
                let note = Note {
                    from: at(beat),
                    lasts: seconds(beats) * 0.92,
                    key: f64::from(key),
                    loud: if beat.fract() == 0.0 { 0.30 } else { 0.24 },
                };
                REED.play(sound, note);
            }
            beat += beats;
        }
    }
}

fn bass(sound: &mut [f64], beat: f64, key: u8) {
    let note = Note {
        from: at(beat),
        lasts: seconds(0.85),
        key: f64::from(key),
        loud: if beat % 4.0 == 0.0 { 0.5 } else { 0.38 },
    };
    HORN.play(sound, note);
}

fn after(sound: &mut [f64], beat: f64, keys: &[u8]) {
    for key in keys {
        let note = Note {
            from: at(beat),
            lasts: seconds(0.4),
            key: f64::from(*key),
            loud: 0.09,
        };
        CHORD.play(sound, note);
    }
}

fn drums(sound: &mut [f64], bar: usize) {
    let first = 4.0 * bar as f64;
    drum(sound, at(first), 0.75);
    drum(sound, at(first + 2.0), 0.5);
    for (number, (beat, loud)) in [(1.0, 0.3), (1.5, 0.12), (3.0, 0.3), (3.5, 0.16)]
        .into_iter()
        .enumerate()
    {
        snare(
            sound,
            at(first + beat),
            loud,
            (bar * 4 + number) as u64 + 100,
        );
    }
    // Every eighth bar is announced by a roll, and begins with cymbals.
    if bar % 8 == 1 {
        for stroke in 0..4 {
            let beat = first + 3.0 + 0.25 * f64::from(stroke);
            snare(
                sound,
                at(beat),
                0.16 + 0.04 * f64::from(stroke),
                900 + u64::from(stroke as u8),
            );
        }
    }
    if bar >= BEFORE_TUNE && (bar - BEFORE_TUNE).is_multiple_of(8) {
        cymbals(sound, at(first), 0.12, 77);
    }
}

/// The last bar: a stroke, a rest, and the chord that stays.
fn close(sound: &mut [f64], bar: usize) {
    let first = 4.0 * bar as f64;
    for (beat, lasts, loud) in [(0.0, 0.5, 1.0), (2.0, 4.0, 1.2)] {
        let from = at(first + beat);
        for key in [62, 66, 69] {
            CHORD.play(
                sound,
                Note {
                    from,
                    lasts: seconds(lasts),
                    key: f64::from(key),
                    loud: 0.1 * loud,
                },
            );
        }
        HORN.play(
            sound,
            Note {
                from,
                lasts: seconds(lasts),
                key: 38.0,
                loud: 0.5 * loud,
            },
        );
        drum(sound, from, 0.8);
        cymbals(sound, from, 0.14 * loud, 78);
    }
}
