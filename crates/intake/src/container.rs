//! What a file is, by its first bytes and never by its name.
//!
//! FFmpeg would also follow playlists and scripts. So we look ourselves, take
//! only kinds on our list, and force FFmpeg to that one kind.

mod wholeness;

use std::fs::File;
use std::io::Read;
use std::path::Path;

pub(crate) use self::wholeness::{Wholeness, wholeness};
use crate::{IntakeError, PictureKind};

/// A kind of film file on our list.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum Container {
    /// QuickTime and MP4 (ISO/IEC 14496-12).
    Mov,
    /// Matroska and WebM (RFC 9559).
    Matroska,
    /// AVI (RIFF).
    Avi,
    /// MPEG programme stream (ISO/IEC 13818-1), as on a DVD.
    MpegPs,
    /// MPEG transport stream (ISO/IEC 13818-1).
    MpegTs,
    /// Bare MPEG-1 or MPEG-2 pictures.
    MpegVideo,
    /// MXF (SMPTE ST 377-1).
    Mxf,
    /// Ogg (RFC 3533).
    Ogg,
    /// Windows Media (ASF).
    Asf,
    /// Bare DV, as from a DV deck.
    Dv,
    /// Bare JPEG pictures one after another.
    MotionJpeg,
    /// Uncompressed YUV4MPEG2.
    Y4m,
}

impl Container {
    /// FFmpeg's name of the reader that is forced.
    pub(crate) fn demuxer(self) -> &'static str {
        match self {
            Self::Mov => "mov",
            Self::Matroska => "matroska",
            Self::Avi => "avi",
            Self::MpegPs => "mpeg",
            Self::MpegTs => "mpegts",
            Self::MpegVideo => "mpegvideo",
            Self::Mxf => "mxf",
            Self::Ogg => "ogg",
            Self::Asf => "asf",
            Self::Dv => "dv",
            Self::MotionJpeg => "mjpeg",
            Self::Y4m => "yuv4mpegpipe",
        }
    }

    /// The kind in words.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::Mov => "QuickTime/MP4",
            Self::Matroska => "Matroska",
            Self::Avi => "AVI",
            Self::MpegPs => "MPEG programme stream",
            Self::MpegTs => "MPEG transport stream",
            Self::MpegVideo => "MPEG video",
            Self::Mxf => "MXF",
            Self::Ogg => "Ogg",
            Self::Asf => "Windows Media",
            Self::Dv => "DV",
            Self::MotionJpeg => "Motion JPEG",
            Self::Y4m => "YUV4MPEG2",
        }
    }

    /// Whether packets damaged in transport keep their place when decoded, so
    /// that leaving them out would shift all later frames.
    pub(crate) fn keeps_damaged_packets(self) -> bool {
        self == Self::MpegTs
    }
}

/// What the first bytes say.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Sniffed {
    Film(Container),
    Picture(PictureKind),
}

/// Bytes looked at; enough for three transport packets.
const HEAD: usize = 1024;

pub(crate) fn sniff(path: &Path) -> Result<Sniffed, IntakeError> {
    let failed =
        |source| IntakeError::from_io("looking at the first bytes", path.to_owned(), source);
    let meta = std::fs::metadata(path).map_err(failed)?;
    if !meta.is_file() {
        return Err(IntakeError::NotAFile {
            path: path.to_owned(),
        });
    }
    let mut head = Vec::with_capacity(HEAD);
    File::open(path)
        .and_then(|file| file.take(HEAD as u64).read_to_end(&mut head))
        .map_err(failed)?;
    if head.is_empty() {
        return Err(IntakeError::EmptyFile {
            path: path.to_owned(),
        });
    }
    if let Some(kind) = PictureKind::from_head(&head) {
        let bare = path
            .extension()
            .is_some_and(|e| e.eq_ignore_ascii_case("mjpeg") || e.eq_ignore_ascii_case("mjpg"));
        return Ok(match kind {
            PictureKind::Jpeg if bare => Sniffed::Film(Container::MotionJpeg),
            kind => Sniffed::Picture(kind),
        });
    }
    match container_from_head(&head) {
        Some(container) => Ok(Sniffed::Film(container)),
        None => Err(refusal(&head, path)),
    }
}

/// Sources: the standards named at [`Container`]; ISO 14496-12 §4.2 for box
/// types; RFC 9559 for the EBML mark; SMPTE ST 377-1 §7.1 for the partition
/// key; IEC 61834-2 for the DV header block.
fn container_from_head(head: &[u8]) -> Option<Container> {
    let at = |from: usize, mark: &[u8]| head.get(from..from + mark.len()) == Some(mark);
    let boxes: [&[u8; 4]; 7] = [
        b"ftyp", b"moov", b"mdat", b"free", b"skip", b"wide", b"pnot",
    ];
    if boxes.iter().any(|name| at(4, *name)) {
        return Some(Container::Mov);
    }
    if at(0, b"RIFF") && at(8, b"AVI ") {
        return Some(Container::Avi);
    }
    let marks: [(&[u8], Container); 9] = [
        (b"\x1a\x45\xdf\xa3", Container::Matroska),
        (b"\x00\x00\x01\xba", Container::MpegPs),
        (b"\x00\x00\x01\xb3", Container::MpegVideo),
        (
            b"\x06\x0e\x2b\x34\x02\x05\x01\x01\x0d\x01\x02",
            Container::Mxf,
        ),
        (b"OggS", Container::Ogg),
        (b"\x30\x26\xb2\x75\x8e\x66\xcf\x11", Container::Asf),
        (b"\x1f\x07\x00", Container::Dv),
        (b"\x1f\x07\x80", Container::Dv),
        (b"YUV4MPEG2 ", Container::Y4m),
    ];
    if let Some((_, container)) = marks.iter().find(|(mark, _)| at(0, mark)) {
        return Some(*container);
    }
    let in_step =
        |first: usize, step: usize| (0..3).all(|n| head.get(first + n * step) == Some(&0x47));
    (in_step(0, 188) || in_step(4, 192)).then_some(Container::MpegTs)
}

fn refusal(head: &[u8], path: &Path) -> IntakeError {
    let path = path.to_owned();
    if head.starts_with(b"\x80\x2a\x5f\xd7") || head.starts_with(b"\xd7\x5f\x2a\x80") {
        return IntakeError::Cineon { path };
    }
    let text = head
        .strip_prefix(b"\xef\xbb\xbf")
        .unwrap_or(head)
        .trim_ascii_start();
    let begins = |mark: &str| {
        text.get(..mark.len())
            .is_some_and(|t| t.eq_ignore_ascii_case(mark.as_bytes()))
    };
    let lists = [
        ("#EXTM3U", "M3U"),
        ("ffconcat", "FFmpeg concat"),
        ("[playlist]", "PLS"),
        ("<MPD", "DASH"),
        ("<smil", "SMIL"),
        ("<asx", "ASX"),
    ];
    if let Some((_, kind)) = lists.iter().find(|(mark, _)| begins(mark)) {
        return IntakeError::Playlist { kind, path };
    }
    if begins("<?xml") && memchr::memmem::find(text, b"<MPD").is_some() {
        return IntakeError::Playlist { kind: "DASH", path };
    }
    let sounds: [(&[u8], usize); 5] = [
        (b"fLaC", 0),
        (b"ID3", 0),
        (b"WAVE", 8),
        (b"\xff\xfb", 0),
        (b"AIFF", 8),
    ];
    let looks_like = if sounds
        .iter()
        .any(|(mark, from)| head.get(*from..from + mark.len()) == Some(*mark))
    {
        "a sound file"
    } else if is_text(text) {
        "text"
    } else {
        "a kind of file that is not on the list"
    };
    IntakeError::UnknownKind { looks_like, path }
}

fn is_text(head: &[u8]) -> bool {
    head.iter()
        .all(|b| matches!(b, b'\t' | b'\n' | b'\r' | 0x20..=0x7e | 0x80..))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn kinds_by_their_first_bytes() {
        assert_eq!(
            container_from_head(b"\0\0\0\x20ftypisom"),
            Some(Container::Mov)
        );
        assert_eq!(
            container_from_head(b"\x1a\x45\xdf\xa3...."),
            Some(Container::Matroska)
        );
        assert_eq!(
            container_from_head(b"RIFF....AVI LIST"),
            Some(Container::Avi)
        );
        assert_eq!(container_from_head(b"RIFF....WAVEfmt "), None);
        let mut stream = vec![0; 600];
        for at in [0, 188, 376] {
            stream[at] = 0x47;
        }
        assert_eq!(container_from_head(&stream), Some(Container::MpegTs));
        stream[188] = 0;
        assert_eq!(container_from_head(&stream), None);
        assert_eq!(container_from_head(b"#EXTM3U"), None);
        assert_eq!(container_from_head(b""), None);
    }

    #[test]
    fn refusals_say_what_it_is() {
        let code = |head: &[u8]| refusal(head, Path::new("x.mov")).code();
        assert_eq!(code(b"#EXTM3U\n/etc/passwd"), "intake.playlist");
        assert_eq!(
            code(b"\xef\xbb\xbf ffconcat version 1.0"),
            "intake.playlist"
        );
        assert_eq!(code(b"<?xml version='1.0'?><MPD>"), "intake.playlist");
        assert_eq!(code(b"\x80\x2a\x5f\xd7"), "intake.cineon");
        assert_eq!(code(b"fLaC"), "intake.unknown_kind");
        assert!(
            refusal(b"just words", Path::new("x"))
                .to_string()
                .contains("text")
        );
    }
}
