//! Test media, made by FFmpeg's own pattern sources; nothing is stored.

use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::sync::OnceLock;

use onestrand_intake::{
    Cancel, Ffmpeg, FileFrame, IntakeError, ReadEnd, ReadOptions, Source, Warning, read,
};
use tempfile::TempDir;

/// The checked FFmpeg of this machine.
pub(crate) fn ffmpeg() -> Ffmpeg {
    static FOUND: OnceLock<Ffmpeg> = OnceLock::new();
    FOUND.get_or_init(|| Ffmpeg::locate().unwrap()).clone()
}

/// A fresh folder that goes away by itself.
pub(crate) fn folder() -> TempDir {
    tempfile::tempdir().unwrap()
}

/// Runs `ffmpeg` with these arguments, split at spaces, and then `out`.
pub(crate) fn make(arguments: &str, out: &Path) -> PathBuf {
    let status = Command::new(ffmpeg().ffmpeg_path())
        .args(["-nostdin", "-v", "error", "-y"])
        .args(arguments.split_ascii_whitespace())
        .arg(out)
        .stdin(Stdio::null())
        .status()
        .unwrap();
    assert!(status.success(), "{arguments} {}", out.display());
    out.to_owned()
}

/// Moving pattern with a frame counter and noise, so that no two frames agree.
pub(crate) fn pattern(size: &str, rate: &str, frames: u32) -> String {
    format!(
        "-f lavfi -i testsrc2=s={size}:r={rate},noise=alls=12:allf=t:all_seed=7 -frames:v {frames}"
    )
}

/// Opens one path.
pub(crate) fn open(path: &Path) -> Result<(Source, Vec<Warning>), IntakeError> {
    Source::open(&ffmpeg(), &[path.to_owned()])
}

/// Opens what must be openable, with its warnings.
pub(crate) fn opened(path: &Path) -> Source {
    open(path).unwrap().0
}

/// Reads everything.
pub(crate) fn read_all(
    source: &Source,
    options: &ReadOptions,
) -> Result<(Vec<FileFrame>, ReadEnd), IntakeError> {
    let mut frames = Vec::new();
    let end = read(&ffmpeg(), source, options, &Cancel::new(), &mut |frame| {
        frames.push(frame);
        std::ops::ControlFlow::Continue(())
    })?;
    Ok((frames, end))
}

/// Frames that a bare FFmpeg decodes of the file: the count to be met.
pub(crate) fn bare_count(path: &Path) -> u64 {
    let output = Command::new(ffmpeg().ffmpeg_path())
        .args(["-nostdin", "-v", "error", "-i"])
        .arg(path)
        .args([
            "-map",
            "0:v:0",
            "-fps_mode",
            "passthrough",
            "-f",
            "framemd5",
            "-",
        ])
        .stdin(Stdio::null())
        .output()
        .unwrap();
    let text = String::from_utf8(output.stdout).unwrap();
    text.lines().filter(|line| !line.starts_with('#')).count() as u64
}
