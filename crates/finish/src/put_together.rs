//! Whole parts and the sound become one file.

use std::ffi::OsString;
use std::fs;
use std::path::{Path, PathBuf};
use std::time::Duration;

use onestrand_intake::process::{Launch, Limits};
use onestrand_intake::{Cancel, Ffmpeg, IntakeError};

use crate::parts::at;
use crate::whole::{self, COUNTED};
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
        arguments(plan, list, &half.0),
        Limits::writes_a_file(),
    );
    let told = launch
        .collect(cancel, Duration::from_secs(24 * 3600), SAID_MOST)
        .map_err(|problem| match problem {
            IntakeError::Cancelled { .. } => FinishError::Cancelled { frames },
            other => other.into(),
        })?;
    if !told.ended.is_success() {
        return Err(told.ended.into_error(frames).into());
    }
    whole::has_all(&String::from_utf8_lossy(&told.output), frames)?;
    fs::rename(&half.0, &plan.path).map_err(at(&plan.path))
}

/// Goes when it is not put under its name.
struct Half(PathBuf);

impl Drop for Half {
    fn drop(&mut self) {
        let _gone = fs::remove_file(&self.0);
    }
}

fn arguments(plan: &FinishPlan, list: &Path, half: &Path) -> Vec<OsString> {
    let container = Container::of(&plan.path);
    let rate = plan.pattern.file_rate();
    let sound = plan.sound.as_ref();
    let mut all: Vec<OsString> = Vec::new();
    let add = |all: &mut Vec<OsString>, words: &str| {
        all.extend(words.split_whitespace().map(OsString::from));
    };
    add(&mut all, "-hide_banner -nostats -loglevel error -xerror");
    add(&mut all, COUNTED);
    add(
        &mut all,
        "-protocol_whitelist file,pipe -f concat -safe 1 -i",
    );
    all.push(list.into());
    all.extend(whole::sound_in(sound));
    // The pictures are the first stream, as players expect. They are not counted off
    // here (`-frames:v`): FFmpeg ends all streams of a file with the last picture of one,
    // and the sound, which may lie behind, would lose its end.
    add(&mut all, "-map 0:v -c:v copy");
    if plan.coding.container_of_parts() == Container::Matroska {
        // Its times are thousandths; every frame is a key frame, so they can be counted
        // anew.
        let (num, den) = (rate.num(), rate.den());
        let times = format!("-bsf:v setts=ts=N*{den}/{num}/TB");
        add(&mut all, &times);
    }
    all.extend(whole::ends(container, sound));
    all.push("-metadata".into());
    all.push(format!("title={}", plan.title).into());
    add(&mut all, &format!("-y -f {}", container.muxer()));
    let mut target = OsString::from("file:");
    target.push(half);
    all.push(target);
    all
}
