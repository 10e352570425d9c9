//! Says what is heard in a file of raw samples (32-bit floats, one channel,
//! lowest byte first): `listen FILE RATE [loop|seam]` prints onsets, tempo and beats
//! as JSON, to be laid beside what another ear says.

use std::error::Error;
use std::io::Write;

use onestrand_hearing::{Beats, Heard, LoopWish, beats, best_seam, loop_beats, onsets};

fn main() -> Result<(), Box<dyn Error>> {
    let words: Vec<String> = std::env::args().collect();
    let [_, file, rate, ..] = words.as_slice() else {
        return Err("which file, of which rate?".into());
    };
    let samples: Vec<f32> = std::fs::read(file)?
        .chunks_exact(4)
        .map(|four| f32::from_le_bytes([four[0], four[1], four[2], four[3]]))
        .collect();
    let heard = Heard::new(&samples, rate.parse()?)?;
    let (slowest, fastest) = Beats::USUAL;
    let mut out = std::io::stdout();
    if words.get(3).is_some_and(|word| word == "loop") {
        let (bpm, beats) = loop_beats(heard, slowest, fastest)?;
        writeln!(out, "{{\"bpm\":{bpm},\"beats\":{beats}}}")?;
        return Ok(());
    }
    if words.get(3).is_some_and(|word| word == "seam") {
        let least = (heard.seconds() / 2.5).max(1.0);
        let fade = (least / 8.0).min(1.0);
        writeln!(out, "{:?}", best_seam(heard, LoopWish { least, fade })?)?;
        return Ok(());
    }
    let found: Vec<f64> = onsets(heard)?.iter().map(|one| one.seconds).collect();
    let beat = beats(heard, slowest, fastest).ok();
    let times = beat.as_ref().map_or(&[][..], |beat| &beat.seconds);
    let bpm = beat.as_ref().map_or(0.0, |beat| beat.bpm);
    let sure = beat.as_ref().map_or(0.0, |beat| beat.sure);
    writeln!(
        out,
        "{{\"onsets\":{found:?},\"bpm\":{bpm},\"sure\":{sure},\"beats\":{times:?}}}"
    )?;
    Ok(())
}
