//! The arguments that keep FFmpeg to one kind of file and to that file.

use std::ffi::{OsStr, OsString};
use std::os::unix::ffi::{OsStrExt, OsStringExt};
use std::path::Path;

use tempfile::TempDir;

use crate::{Container, IntakeError, PictureKind, Sequence, Source, SourceKind};

/// A list of arguments being written.
#[derive(Debug, Default)]
pub(crate) struct Arguments(Vec<OsString>);

impl Arguments {
    pub(crate) fn add(&mut self, words: &str) -> &mut Self {
        self.0
            .extend(words.split_ascii_whitespace().map(OsString::from));
        self
    }

    pub(crate) fn push(&mut self, word: impl Into<OsString>) -> &mut Self {
        self.0.push(word.into());
        self
    }

    pub(crate) fn extend(&mut self, more: Vec<OsString>) -> &mut Self {
        self.0.extend(more);
        self
    }

    pub(crate) fn into_vec(self) -> Vec<OsString> {
        self.0
    }
}

/// The `file:` form of a path: neither a dash at its head nor a colon in it
/// can then mean anything else.
fn file_url(path: &Path) -> OsString {
    let mut name = OsString::from("file:");
    name.push(path);
    name
}

fn guarded(demuxer: &str) -> Arguments {
    let mut arguments = Arguments::default();
    arguments.add(&format!(
        "-protocol_whitelist file,pipe -format_whitelist {demuxer} -f {demuxer}"
    ));
    arguments
}

/// A film file as input.
pub(crate) fn film_input(path: &Path, container: Container) -> Vec<OsString> {
    let mut arguments = guarded(container.demuxer());
    if !container.keeps_damaged_packets() {
        arguments.add("-fflags +discardcorrupt");
    }
    arguments.add("-i").push(file_url(path));
    arguments.into_vec()
}

/// A sound file as input, for the prober; FFmpeg wants `-i` before the last of it.
pub(crate) fn sound_input(path: &Path, demuxer: &str) -> Vec<OsString> {
    let mut arguments = guarded(demuxer);
    arguments.push(file_url(path));
    arguments.into_vec()
}

/// A private folder of links 00000000.ext, 00000001.ext … in reading order.
///
/// FFmpeg gets an explicit list that way, without a pattern over the user's
/// names; the number of a link is the time (pts) that FFmpeg gives its picture,
/// so a picture that fails to decode never shifts the others.
#[derive(Debug)]
pub(crate) struct LinkFolder {
    folder: TempDir,
    kind: PictureKind,
}

impl LinkFolder {
    pub(crate) fn of<'a>(
        sequence: &Sequence,
        pictures: impl Iterator<Item = &'a Path>,
    ) -> Result<Self, IntakeError> {
        let place = std::env::temp_dir();
        let failed =
            |source| IntakeError::from_io("listing the pictures for FFmpeg", place.clone(), source);
        let folder = tempfile::Builder::new()
            .prefix("onestrand-")
            .tempdir()
            .map_err(failed)?;
        let kind = sequence.kind();
        for (n, picture) in pictures.enumerate() {
            let link = folder.path().join(format!("{n:08}.{}", kind.extension()));
            std::os::unix::fs::symlink(picture, link).map_err(failed)?;
        }
        Ok(Self { folder, kind })
    }

    /// The links as input. The links' extension, given by content and not by
    /// the user's name, tells FFmpeg which decoder to take.
    pub(crate) fn input(&self) -> Vec<OsString> {
        let mut arguments = guarded("image2");
        arguments.add("-pattern_type sequence -start_number 0 -framerate 25 -i");
        let mut pattern = percent_escaped(file_url(self.folder.path()).as_os_str());
        pattern.push(format!("/%08d.{}", self.kind.extension()));
        arguments.push(pattern);
        arguments.into_vec()
    }
}

/// A whole source as input, with the links it needs if it is a run.
pub(crate) fn whole_input(
    source: &Source,
) -> Result<(Vec<OsString>, Option<LinkFolder>), IntakeError> {
    match source.kind() {
        SourceKind::Film(container) => Ok((film_input(source.path(), *container), None)),
        SourceKind::Sequence(sequence) => {
            let links = LinkFolder::of(sequence, sequence.readable().map(|p| p.path.as_path()))?;
            Ok((links.input(), Some(links)))
        }
    }
}

/// Doubles every `%`, as the pattern reader wants it for a plain one.
fn percent_escaped(name: &OsStr) -> OsString {
    let mut out = Vec::with_capacity(name.len());
    for byte in name.as_bytes() {
        if *byte == b'%' {
            out.push(b'%');
        }
        out.push(*byte);
    }
    OsString::from_vec(out)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn percent_signs_are_doubled() {
        assert_eq!(
            percent_escaped(OsStr::new("/a%b/%%")),
            OsStr::new("/a%%b/%%%%")
        );
    }
}
