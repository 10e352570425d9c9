//! Whole parts and the sound become one file.

use std::ffi::OsString;
use std::fs;
use std::path::{Path, PathBuf};
use std::time::Duration;

use onestrand_intake::process::{Launch, Limits};
use onestrand_intake::{Cancel, Ffmpeg, IntakeError};

use crate::parts::at;
use crate::{Container, FinishError, FinishPlan};

/// What FFmpeg may say at most; it is asked to say nothing.
const SAID_MOST: usize = 1 << 20;

/// Puts the parts of a list together, with the sound, under the finish's name.
///
/// # Errors
/// [`FinishError::Intake`] with what FFmpeg said, [`FinishError::FramesLost`],
/// [`FinishError::File`].
pub(crate) fn put_together(
    ffmpeg: &Ffmpeg,
    plan: &FinishPlan,
    list: &Path,
    frames: u64,
    cancel: &Cancel,
) -> Result<(), FinishError> {
    let mut half = OsString::from(".");
    half.push(plan.path.file_name().unwrap_or_default());
    half.push(".part");
    let half = Half(plan.path.with_file_name(half));
    fs::File::create(&half.0).map_err(at(&plan.path))?;
    let launch = Launch::new(
        ffmpeg.ffmpeg_path(),
        arguments(plan, list, &half.0, frames),
        Limits::writes_a_file(),
    );
    let ended = launch
        .collect(cancel, Duration::from_secs(24 * 3600), SAID_MOST)
        .map_err(|problem| match problem {
            IntakeError::Cancelled { .. } => FinishError::Cancelled { frames },
            other => other.into(),
        })?
        .ended;
    if !ended.is_success() {
        return Err(ended.into_error(frames).into());
    }
    let found = count(ffmpeg, &half.0, cancel)?;
    if found != frames {
        return Err(FinishError::FramesLost {
            found,
            wanted: frames,
        });
    }
    fs::rename(&half.0, &plan.path).map_err(at(&plan.path))
}

/// Goes when it is not put under its name.
struct Half(PathBuf);

impl Drop for Half {
    fn drop(&mut self) {
        let _gone = fs::remove_file(&self.0);
    }
}

fn arguments(plan: &FinishPlan, list: &Path, half: &Path, frames: u64) -> Vec<OsString> {
    let container = Container::of(&plan.path);
    let rate = plan.pattern.file_rate();
    let mut all: Vec<OsString> = Vec::new();
    let add = |all: &mut Vec<OsString>, words: &str| {
        all.extend(words.split_whitespace().map(OsString::from));
    };
    add(
        &mut all,
        "-hide_banner -nostats -loglevel error -protocol_whitelist file,pipe -f concat -safe 1 -i",
    );
    all.push(list.into());
    if let Some(sound) = &plan.sound {
        add(&mut all, "-protocol_whitelist file,pipe -f wav -i");
        let mut input = OsString::from("file:");
        input.push(&sound.path);
        all.push(input);
    }
    // The pictures are the first stream, as players expect.
    add(&mut all, "-map 0:v -c:v copy");
    if let Some(sound) = &plan.sound {
        let (from, to) = (sound.skip, sound.skip + sound.samples);
        add(
            &mut all,
            &format!(
                "-map 1:a:0 -af atrim=start_sample={from}:end_sample={to},asetpts=N/SR/TB {}",
                container.sound()
            ),
        );
    }
    if plan.coding.container_of_parts() == Container::Matroska {
        // Its times are thousandths; every frame is a key frame, so they can be counted
        // anew.
        let (num, den) = (rate.num(), rate.den());
        let times = format!("-bsf:v setts=ts=N*{den}/{num}/TB");
        add(&mut all, &times);
    }
    if container != Container::Matroska {
        add(&mut all, "-movflags +faststart+write_colr");
    }
    add(&mut all, &format!("-frames:v {frames}"));
    all.push("-metadata".into());
    all.push(format!("title={}", plan.title).into());
    // Without it Matroska draws a number of its own by lot, and no two files are alike.
    add(
        &mut all,
        &format!("-fflags +bitexact -y -f {}", container.muxer()),
    );
    let mut target = OsString::from("file:");
    target.push(half);
    all.push(target);
    all
}

/// Frames in the file, counted without decoding them.
fn count(ffmpeg: &Ffmpeg, path: &Path, cancel: &Cancel) -> Result<u64, FinishError> {
    let mut all: Vec<OsString> = "-v error -protocol_whitelist file,pipe -count_packets \
        -select_streams v:0 -show_entries stream=nb_read_packets -of default=nw=1:nk=1"
        .split_whitespace()
        .map(OsString::from)
        .collect();
    let mut input = OsString::from("file:");
    input.push(path);
    all.push(input);
    let launch = Launch::new(ffmpeg.ffprobe_path(), all, Limits::pipes_only());
    let told = launch.collect(cancel, Duration::from_secs(600), SAID_MOST)?;
    let text = String::from_utf8_lossy(&told.output);
    Ok(text.trim().parse().unwrap_or(0))
}
