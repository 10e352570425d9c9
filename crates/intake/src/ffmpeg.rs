//! Finding FFmpeg and making sure that it is new enough.

use std::ffi::OsString;
use std::fmt;
use std::path::{Path, PathBuf};
use std::time::Duration;

use crate::process::{Launch, Limits};
use crate::{Cancel, IntakeError};

/// A version as FFmpeg counts it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Version {
    /// The number before the first point.
    pub major: u32,
    /// The number after it.
    pub minor: u32,
}

impl fmt::Display for Version {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}.{}", self.major, self.minor)
    }
}

/// The oldest FFmpeg that will do.
///
/// Source: FFmpeg's Changelog; 5.1 (2022) brought `-fps_mode`, without which
/// frames may be dropped or doubled to make the rate even.
pub(crate) const OLDEST: Version = Version { major: 5, minor: 1 };

/// `ffmpeg` and `ffprobe`, found and checked.
///
/// ```no_run
/// # use onestrand_intake::Ffmpeg;
/// let ffmpeg = Ffmpeg::locate()?;
/// println!("FFmpeg {}", ffmpeg.version());
/// # Ok::<(), onestrand_intake::IntakeError>(())
/// ```
#[derive(Debug, Clone)]
pub struct Ffmpeg {
    ffmpeg: PathBuf,
    ffprobe: PathBuf,
    version: Version,
    said: String,
}

impl Ffmpeg {
    /// Finds both programs: where `ONESTRAND_FFMPEG` and `ONESTRAND_FFPROBE`
    /// say, else along `PATH`.
    ///
    /// # Errors
    /// [`IntakeError::ProgramMissing`], [`IntakeError::ProgramTooOld`] below
    /// 5.1, [`IntakeError::ProgramUnknown`] when it does not say a version,
    /// [`IntakeError::StartFailed`].
    pub fn locate() -> Result<Self, IntakeError> {
        let named = |variable: &str, name: &str| {
            std::env::var_os(variable)
                .filter(|v| !v.is_empty())
                .map_or_else(|| PathBuf::from(name), PathBuf::from)
        };
        Self::at(
            &named("ONESTRAND_FFMPEG", "ffmpeg"),
            &named("ONESTRAND_FFPROBE", "ffprobe"),
        )
    }

    /// Takes the two programs at these places (a bare name is looked for along
    /// `PATH`).
    ///
    /// # Errors
    /// As [`Ffmpeg::locate`].
    pub fn at(ffmpeg: &Path, ffprobe: &Path) -> Result<Self, IntakeError> {
        let ffmpeg = resolve(ffmpeg)?;
        let ffprobe = resolve(ffprobe)?;
        let (version, said) = ask_version(&ffmpeg)?;
        ask_version(&ffprobe)?;
        Ok(Self {
            ffmpeg,
            ffprobe,
            version,
            said,
        })
    }

    /// The version of `ffmpeg`; at least 5.1.
    #[must_use]
    pub fn version(&self) -> Version {
        self.version
    }

    /// What `ffmpeg` calls itself, for example `5.1.9-0+deb12u1`.
    #[must_use]
    pub fn version_text(&self) -> &str {
        &self.said
    }

    /// Where `ffmpeg` is.
    #[must_use]
    pub fn ffmpeg_path(&self) -> &Path {
        &self.ffmpeg
    }

    /// Where `ffprobe` is.
    #[must_use]
    pub fn ffprobe_path(&self) -> &Path {
        &self.ffprobe
    }
}

/// A bare name along `PATH`, anything else as it stands.
fn resolve(program: &Path) -> Result<PathBuf, IntakeError> {
    let missing = || IntakeError::ProgramMissing {
        program: program.to_owned(),
    };
    if program.components().count() > 1 {
        return if program.is_file() {
            Ok(program.to_owned())
        } else {
            Err(missing())
        };
    }
    let path = std::env::var_os("PATH").unwrap_or_default();
    std::env::split_paths(&path)
        .filter(|folder| folder.is_absolute())
        .map(|folder| folder.join(program))
        .find(|candidate| candidate.is_file())
        .ok_or_else(missing)
}

fn ask_version(program: &Path) -> Result<(Version, String), IntakeError> {
    let launch = Launch::new(
        program,
        vec![OsString::from("-version")],
        Limits::short_question(),
    );
    let answer = launch.collect(&Cancel::new(), Duration::from_secs(20), 64 * 1024)?;
    let text = String::from_utf8_lossy(&answer.output).into_owned();
    let unknown = || IntakeError::ProgramUnknown {
        program: program.to_owned(),
        said: text
            .lines()
            .next()
            .unwrap_or_default()
            .chars()
            .take(80)
            .collect(),
    };
    let (version, said) = parse_version(&text).ok_or_else(unknown)?;
    if version < OLDEST {
        return Err(IntakeError::ProgramTooOld {
            program: program.to_owned(),
            found: version,
            needed: OLDEST,
        });
    }
    Ok((version, said))
}

/// Reads the first line; a build made from FFmpeg's own store of changes has
/// no release number, so its libavutil is looked up instead.
fn parse_version(text: &str) -> Option<(Version, String)> {
    let first = text.lines().next()?;
    let said = first
        .strip_prefix("ffmpeg version ")
        .or_else(|| first.strip_prefix("ffprobe version "))?;
    let said = said.split_whitespace().next()?;
    let mut numbers = said
        .strip_prefix('n')
        .unwrap_or(said)
        .split(['.', '-', '+', '~']);
    let major = numbers.next().and_then(|n| n.parse().ok());
    let minor = numbers.next().and_then(|n| n.parse().ok());
    if let Some(major) = major {
        return Some((
            Version {
                major,
                minor: minor.unwrap_or(0),
            },
            said.to_owned(),
        ));
    }
    let libavutil = text
        .lines()
        .find_map(|line| line.strip_prefix("libavutil"))?;
    let mut parts = libavutil
        .split('/')
        .next()?
        .split('.')
        .map(|p| p.trim().parse::<u32>());
    let (major, minor) = (parts.next()?.ok()?, parts.next()?.ok()?);
    Some((release_from_libavutil(major, minor), said.to_owned()))
}

/// Source: FFmpeg's doc/APIchanges and RELEASE notes: 5.1 carries libavutil
/// 57.28, 6.0 carries 58, 7.0 carries 59, and one more with each major since.
fn release_from_libavutil(major: u32, minor: u32) -> Version {
    match (major, minor) {
        (58.., _) => Version {
            major: major - 52,
            minor: 0,
        },
        (57, 28..) => OLDEST,
        _ => Version {
            major: major.saturating_sub(52),
            minor: 0,
        },
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn versions_are_read() {
        let read = |text: &str| parse_version(text).map(|(v, _)| v);
        assert_eq!(
            read("ffmpeg version 5.1.9-0+deb12u1 Copyright"),
            Some(Version { major: 5, minor: 1 })
        );
        assert_eq!(
            read("ffprobe version n7.1 Copyright"),
            Some(Version { major: 7, minor: 1 })
        );
        assert_eq!(
            read("ffmpeg version 8.0"),
            Some(Version { major: 8, minor: 0 })
        );
        assert_eq!(
            read("ffmpeg version 4.4.2-0ubuntu0"),
            Some(Version { major: 4, minor: 4 })
        );
        let built =
            "ffmpeg version N-109542-gabc Copyright\nlibavutil      57. 44.100 / 57. 44.100\n";
        assert_eq!(read(built), Some(OLDEST));
        let old = "ffmpeg version git-2021 Copyright\nlibavutil      57. 17.100 / 57. 17.100\n";
        assert!(read(old).is_some_and(|v| v < OLDEST));
        assert_eq!(read("bash: something else"), None);
        assert_eq!(read(""), None);
    }
}
