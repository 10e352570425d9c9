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
    let found = written(&String::from_utf8_lossy(&told.output));
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

fn arguments(plan: &FinishPlan, list: &Path, half: &Path) -> Vec<OsString> {
    let container = Container::of(&plan.path);
    let rate = plan.pattern.file_rate();
    let mut all: Vec<OsString> = Vec::new();
    let add = |all: &mut Vec<OsString>, words: &str| {
        all.extend(words.split_whitespace().map(OsString::from));
    };
    add(
        &mut all,
        "-hide_banner -nostats -loglevel error -xerror -progress pipe:1 -stats_period 10 \
         -protocol_whitelist file,pipe -f concat -safe 1 -i",
    );
    all.push(list.into());
    if let Some(sound) = &plan.sound {
        add(&mut all, "-protocol_whitelist file,pipe -f wav -i");
        let mut input = OsString::from("file:");
        input.push(&sound.path);
        all.push(input);
    }
    // The pictures are the first stream, as players expect. They are not counted off
    // here (`-frames:v`): FFmpeg ends all streams of a file with the last picture of one,
    // and the sound, which may lie behind, would lose its end.
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

/// Pictures that FFmpeg says it has put into the file: the last of its `-progress` lines
/// `frame=N`, of which it writes one every now and then and one at the end.
fn written(told: &str) -> u64 {
    let mut counts = told.lines().filter_map(|line| line.strip_prefix("frame="));
    counts
        .next_back()
        .map_or(0, |count| count.trim().parse().unwrap_or(0))
}

#[cfg(test)]
mod tests {
    use super::written;

    #[test]
    fn the_last_count_is_taken() {
        let told = "frame=12\nfps=0.0\nprogress=continue\nframe=35\nprogress=end\n";
        assert_eq!(written(told), 35);
        assert_eq!(written("nothing"), 0);
    }
}
