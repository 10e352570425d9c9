//! Kind and size of a single picture, out of its first bytes.
//!
//! Thousands of pictures are looked at before a run is read, so that one of
//! another size or a broken one is known beforehand; asking FFmpeg for each
//! would take minutes.

use std::fmt;
use std::fs::File;
use std::io::{self, Read, Seek, SeekFrom};

/// A kind of picture file that can be one frame of a run.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum PictureKind {
    /// SMPTE ST 268.
    Dpx,
    /// TIFF 6.0, and BigTIFF.
    Tiff,
    /// ISO/IEC 15948.
    Png,
    /// ISO/IEC 10918-1.
    Jpeg,
}

impl PictureKind {
    /// The kind by the file's first bytes.
    pub(crate) fn from_head(head: &[u8]) -> Option<Self> {
        let marks: [(&[u8], Self); 8] = [
            (b"SDPX", Self::Dpx),
            (b"XPDS", Self::Dpx),
            (b"II*\0", Self::Tiff),
            (b"MM\0*", Self::Tiff),
            (b"II+\0", Self::Tiff),
            (b"MM\0+", Self::Tiff),
            (b"\x89PNG\r\n\x1a\n", Self::Png),
            (b"\xff\xd8\xff", Self::Jpeg),
        ];
        marks
            .iter()
            .find(|(mark, _)| head.starts_with(mark))
            .map(|(_, kind)| *kind)
    }

    /// The kind that a file's name promises, by its extension.
    pub(crate) fn from_extension(extension: &str) -> Option<Self> {
        match extension.to_ascii_lowercase().as_str() {
            "dpx" => Some(Self::Dpx),
            "tif" | "tiff" => Some(Self::Tiff),
            "png" => Some(Self::Png),
            "jpg" | "jpeg" => Some(Self::Jpeg),
            _ => None,
        }
    }

    /// The extension that we give, which is also how FFmpeg names the decoder.
    pub(crate) fn extension(self) -> &'static str {
        match self {
            Self::Dpx => "dpx",
            Self::Tiff => "tiff",
            Self::Png => "png",
            Self::Jpeg => "jpg",
        }
    }
}

impl fmt::Display for PictureKind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Dpx => "DPX",
            Self::Tiff => "TIFF",
            Self::Png => "PNG",
            Self::Jpeg => "JPEG",
        })
    }
}

/// Kind and size in pixels; nothing when the header makes no sense.
pub(crate) fn read_header(file: &mut File) -> io::Result<Option<(PictureKind, u32, u32)>> {
    let mut head = Vec::with_capacity(1024);
    file.take(1024).read_to_end(&mut head)?;
    let Some(kind) = PictureKind::from_head(&head) else {
        return Ok(None);
    };
    let size = match kind {
        PictureKind::Dpx => dpx_size(&head),
        PictureKind::Png => png_size(&head),
        PictureKind::Jpeg => jpeg_size(file)?,
        PictureKind::Tiff => tiff_size(file, &head)?,
    };
    Ok(size
        .filter(|(w, h)| *w > 0 && *h > 0)
        .map(|(w, h)| (kind, w, h)))
}

fn number(bytes: &[u8], at: usize, width: usize, little: bool) -> Option<u64> {
    let slice = bytes.get(at..at.checked_add(width)?)?;
    let join = |sum: u64, b: &u8| sum << 8 | u64::from(*b);
    Some(if little {
        slice.iter().rev().fold(0, join)
    } else {
        slice.iter().fold(0, join)
    })
}

fn size32(w: Option<u64>, h: Option<u64>) -> Option<(u32, u32)> {
    Some((u32::try_from(w?).ok()?, u32::try_from(h?).ok()?))
}

/// SMPTE ST 268: pixels per line at 772, lines at 776, in the file's byte order.
fn dpx_size(head: &[u8]) -> Option<(u32, u32)> {
    let little = head.starts_with(b"XPDS");
    size32(number(head, 772, 4, little), number(head, 776, 4, little))
}

/// ISO/IEC 15948 §11.2.2: the header chunk comes first, big-endian.
fn png_size(head: &[u8]) -> Option<(u32, u32)> {
    (head.get(12..16) == Some(b"IHDR")).then_some(())?;
    size32(number(head, 16, 4, false), number(head, 20, 4, false))
}

/// ISO/IEC 10918-1 §B.2: marker segments up to a start of frame (SOF0–SOF15
/// without the tables DHT, JPG and DAC).
fn jpeg_size(file: &mut File) -> io::Result<Option<(u32, u32)>> {
    let mut at = 2_u64;
    for _ in 0..1000 {
        let mut segment = [0; 9];
        file.seek(SeekFrom::Start(at))?;
        if file.read_exact(&mut segment).is_err() || segment[0] != 0xff {
            return Ok(None);
        }
        match segment[1] {
            0xff => at += 1,
            0xc0..=0xcf if !matches!(segment[1], 0xc4 | 0xc8 | 0xcc) => {
                return Ok(size32(
                    number(&segment, 7, 2, false),
                    number(&segment, 5, 2, false),
                ));
            }
            0x01 | 0xd0..=0xd8 => at += 2,
            0xd9 | 0xda => return Ok(None),
            _ => at += 2 + number(&segment, 2, 2, false).unwrap_or(0).max(2),
        }
    }
    Ok(None)
}

/// TIFF 6.0 §2: the first directory, tags 256 (width) and 257 (length).
fn tiff_size(file: &mut File, head: &[u8]) -> io::Result<Option<(u32, u32)>> {
    let little = head.starts_with(b"II");
    let big = matches!(head.get(2..4), Some(b"+\0" | b"\0+"));
    let (offset_at, offset_width, count_width, entry) =
        if big { (8, 8, 8, 20) } else { (4, 4, 2, 12) };
    let Some(offset) = number(head, offset_at, offset_width, little) else {
        return Ok(None);
    };
    let mut directory = Vec::new();
    file.seek(SeekFrom::Start(offset.min(i64::MAX as u64)))?;
    file.take(8 + 20 * 64).read_to_end(&mut directory)?;
    let Some(count) = number(&directory, 0, count_width, little) else {
        return Ok(None);
    };
    let value_of = |tag: u64| {
        (0..usize::try_from(count).unwrap_or(0).min(64)).find_map(|n| {
            let from = count_width + n * entry;
            (number(&directory, from, 2, little)? == tag).then_some(())?;
            let width = match number(&directory, from + 2, 2, little)? {
                3 => 2,
                4 => 4,
                16 => 8,
                _ => return None,
            };
            number(&directory, from + if big { 12 } else { 8 }, width, little)
        })
    };
    Ok(size32(value_of(256), value_of(257)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::io::Write;

    fn header(bytes: &[u8]) -> Option<(PictureKind, u32, u32)> {
        let mut file = tempfile::tempfile().unwrap();
        file.write_all(bytes).unwrap();
        file.rewind().unwrap();
        read_header(&mut file).unwrap()
    }

    #[test]
    fn made_headers() {
        let mut dpx = vec![0; 1024];
        dpx[..4].copy_from_slice(b"XPDS");
        dpx[772..774].copy_from_slice(&[0x00, 0x08]);
        dpx[776..778].copy_from_slice(&[0x40, 0x06]);
        assert_eq!(header(&dpx), Some((PictureKind::Dpx, 2048, 1600)));
        assert_eq!(header(&dpx[..100]), None);
        let png = b"\x89PNG\r\n\x1a\n\0\0\0\x0dIHDR\0\0\x02\0\0\0\x01\x80";
        assert_eq!(header(png), Some((PictureKind::Png, 512, 384)));
        let jpeg = b"\xff\xd8\xff\xe0\0\x04ab\xff\xff\xc0\0\x11\x08\x01\x20\x01\x60\x03";
        assert_eq!(header(jpeg), Some((PictureKind::Jpeg, 0x160, 0x120)));
        let tiff = b"MM\0*\0\0\0\x08\0\x02\x01\x00\0\x03\0\0\0\x01\x01\xe0\0\0\x01\x01\0\x04\0\0\0\x01\0\0\x01\x70";
        assert_eq!(header(tiff), Some((PictureKind::Tiff, 480, 368)));
    }

    #[test]
    fn nonsense_is_nothing_and_ends() {
        for bytes in [
            &b""[..],
            b"II*\0\xff\xff\xff\xff",
            b"\xff\xd8\xff\xe0\0\0",
            b"\x89PNG\r\n\x1a\n",
            b"SDPX",
            b"words",
        ] {
            assert_eq!(header(bytes), None, "{bytes:?}");
        }
    }
}
