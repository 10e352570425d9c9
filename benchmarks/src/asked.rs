//! What the person asked for.

use std::ffi::{OsStr, OsString};
use std::os::unix::ffi::OsStrExt;
use std::path::PathBuf;

/// How to call.
pub(crate) const USAGE: &str = "\
usage: ./bench                     every part
       ./bench reading             reading beside a bare decode (FRAMES=N for longer clips)
       ./bench store               workprint frames, opening a large production
       ./bench check               strand check, remedies, edits
       ./bench recut               price and order of a new version of a cut film
       ./bench titles              cards lettered in every design
       ./bench mix                 a mix of eight columns and forty cues
       ./bench finish              the digital finish beside a plain transcode
       ./bench page                the page in the browser
       ./bench SET=DIR             score the clips of DIR against its shot_changes.csv";

/// Frames of the clips when nothing else is said: sixteen seconds of film.
const FRAMES: u32 = 288;
/// Fewest and most frames of a clip: one shot, and what the rolls of the
/// example film hold at [`crate::clips::picture`]'s way of taking them.
const BOUNDS: std::ops::RangeInclusive<u32> = 48..=9_000;

/// A part of the benchmarks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Part {
    /// Reading beside a bare decode.
    Reading,
    /// Workprints and opening.
    Store,
    /// Strand check and edits.
    Check,
    /// A new version of a film already cut.
    Recut,
    /// Cards lettered in every design.
    Titles,
    /// A mix.
    Mix,
    /// The digital finish.
    Finish,
}

/// Every part, in the order in which they run.
const EVERY: [Part; 7] = [
    Part::Reading,
    Part::Store,
    Part::Check,
    Part::Recut,
    Part::Titles,
    Part::Mix,
    Part::Finish,
];

/// What the person asked for.
#[derive(Debug, PartialEq, Eq)]
pub(crate) struct Asked {
    /// The parts, in the order in which they run.
    pub(crate) parts: Vec<Part>,
    /// A labelled folder to score.
    pub(crate) set: Option<PathBuf>,
    /// Frames of each clip for reading.
    pub(crate) frames: u32,
}

impl Asked {
    /// Reads the words of the command; all parts when none is named.
    ///
    /// # Errors
    /// The first word that means nothing here.
    pub(crate) fn read(words: impl Iterator<Item = OsString>) -> Result<Self, OsString> {
        let mut asked = Self {
            parts: Vec::new(),
            set: None,
            frames: FRAMES,
        };
        for word in words {
            if let Some(folder) = word.as_bytes().strip_prefix(b"SET=") {
                asked.set = Some(PathBuf::from(OsStr::from_bytes(folder)));
                continue;
            }
            match word.to_str() {
                Some("reading") => asked.parts.push(Part::Reading),
                Some("store") => asked.parts.push(Part::Store),
                Some("check") => asked.parts.push(Part::Check),
                Some("recut") => asked.parts.push(Part::Recut),
                Some("titles") => asked.parts.push(Part::Titles),
                Some("mix") => asked.parts.push(Part::Mix),
                Some("finish") => asked.parts.push(Part::Finish),
                other => {
                    let frames = other
                        .and_then(|text| text.strip_prefix("FRAMES=")?.parse().ok())
                        .filter(|frames| BOUNDS.contains(frames));
                    asked.frames = frames.ok_or(word)?;
                }
            }
        }
        if asked.parts.is_empty() && asked.set.is_none() {
            asked.parts = EVERY.to_vec();
        }
        Ok(asked)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(words: &[&str]) -> Result<Asked, OsString> {
        Asked::read(words.iter().map(OsString::from))
    }

    #[test]
    fn nothing_said_means_all_parts_and_a_set_alone_means_the_set_alone() {
        let all = EVERY.to_vec();
        assert_eq!(read(&[]).map(|a| a.parts), Ok(all.clone()));
        assert_eq!(
            read(&["FRAMES=96"]).map(|a| (a.parts, a.frames)),
            Ok((all, 96))
        );
        let set = read(&["SET=a=b"]).expect("a folder may hold an equals sign");
        assert_eq!((set.parts, set.set), (vec![], Some(PathBuf::from("a=b"))));
    }

    #[test]
    fn parts_are_picked_and_unknown_words_refused() {
        let picked = read(&["check", "SET=clips"]).expect("both are known");
        assert_eq!(
            (picked.parts.as_slice(), picked.set.is_some()),
            (&[Part::Check][..], true)
        );
        for word in ["cheque", "FRAMES=few", "FRAMES=2", "set=x"] {
            assert_eq!(read(&["store", word]), Err(OsString::from(word)));
        }
    }
}
