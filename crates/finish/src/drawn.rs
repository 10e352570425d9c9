//! Titles that are drawn, brought into the form of the scans.

use std::ffi::OsString;
use std::io::{Read, Write};

use onestrand_intake::process::{Launch, Limits};
use onestrand_intake::{Ffmpeg, PixelLayout};

use crate::coding::ColourWay;
use crate::{CardFilm, FinishError, PictureForm};

/// Hands on the pictures of these frames of a card in the form of the scans, as large as
/// they go into it, black around. A picture is brought over once while it stands.
///
/// # Errors
/// [`FinishError::Intake`] when FFmpeg cannot bring one over, and what `sink` raises.
pub(crate) fn draw(
    ffmpeg: &Ffmpeg,
    card: &dyn CardFilm,
    frames: &[u32],
    form: &PictureForm,
    sink: &mut dyn FnMut(&mut [u8]) -> Result<(), FinishError>,
) -> Result<(), FinishError> {
    let alike: Vec<u32> = frames.iter().map(|n| card.first_alike(*n)).collect();
    let stands: Vec<(u32, usize)> = alike
        .chunk_by(|a, b| a == b)
        .map(|run| (run[0], run.len()))
        .collect();
    let launch = Launch::new(
        ffmpeg.ffmpeg_path(),
        arguments(card.size(), form),
        Limits::pipes_only(),
    );
    let mut running = launch.fed().start()?;
    let (stdin, stdout) = (running.take_stdin(), running.take_stdout());
    let (Some(mut stdin), Some(mut stdout)) = (stdin, stdout) else {
        return Err(FinishError::NoCard);
    };
    let bytes = usize::try_from(form.bytes()).unwrap_or(usize::MAX);
    let is_whole = std::thread::scope(|scope| -> Result<bool, FinishError> {
        let pictures: Vec<u32> = stands.iter().map(|(frame, _)| *frame).collect();
        scope.spawn(move || {
            for frame in pictures {
                // A closed pipe is told by the reading end, with what FFmpeg said.
                if stdin.write_all(&card.frame(frame)).is_err() {
                    return;
                }
            }
        });
        let mut picture = vec![0; bytes];
        for (_, times) in &stands {
            if stdout.read_exact(&mut picture).is_err() {
                return Ok(false);
            }
            for _ in 0..*times {
                if let Err(problem) = sink(&mut picture) {
                    // Closed, so that the thread that writes comes to its end.
                    drop(stdout);
                    running.kill();
                    return Err(problem);
                }
            }
        }
        Ok(true)
    })?;
    let ended = running.wait()?;
    match ended.is_success() && is_whole {
        true => Ok(()),
        false => Err(ended.into_error(0).into()),
    }
}

/// The card is laid into the middle of the scan's picture. It was drawn in sRGB; a scan
/// without a tag is taken to be in ITU-R BT.601, as FFmpeg reads it.
fn arguments((width, height): (u32, u32), form: &PictureForm) -> Vec<OsString> {
    let (across, down) = (form.width, form.height);
    let as_rgb = PictureForm {
        width: across,
        height: down,
        layout: PixelLayout::nearest("rgb24"),
        pixel_aspect: (1, 1),
        colour: [Some("pc".to_owned()), None, None, None],
    };
    let way = ColourWay::between(&as_rgb, form);
    let mut all: Vec<OsString> = Vec::new();
    let mut add = |words: &str| all.extend(words.split_whitespace().map(OsString::from));
    add("-hide_banner -nostats -loglevel error -protocol_whitelist file,pipe");
    add(&format!(
        "-f rawvideo -pix_fmt rgb24 -s {width}x{height} -i pipe:0 -map 0:v"
    ));
    add(&format!(
        "-vf scale={across}:{down}:force_original_aspect_ratio=decrease:flags=lanczos,\
         pad={across}:{down}:-1:-1:black,{way}"
    ));
    add("-fps_mode passthrough -c:v rawvideo -f rawvideo pipe:1");
    all
}
