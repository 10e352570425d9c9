//! Whether a file is as long as its own outermost structure says.

use std::fs::File;
use std::io::{Read, Seek, SeekFrom};
use std::path::Path;

use crate::{Container, IntakeError};

/// What the file's own structure says about its end.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Wholeness {
    /// As long as it says, or it does not say.
    NoComplaint,
    /// It says that it is longer than it is.
    BreaksOff,
    /// QuickTime/MP4 without a table of frames.
    NoFrameTable,
}

/// Walks the outermost structure of the file.
pub(crate) fn wholeness(path: &Path, container: Container) -> Result<Wholeness, IntakeError> {
    let failed = |source| {
        IntakeError::from_io(
            "looking at the structure of the file",
            path.to_owned(),
            source,
        )
    };
    let mut file = File::open(path).map_err(failed)?;
    let length = file.metadata().map_err(failed)?.len();
    match container {
        Container::Mov => walk_boxes(&mut file, length).map_err(failed),
        Container::Matroska => matroska_end(&mut file, length).map_err(failed),
        Container::Avi => avi_end(&mut file, length).map_err(failed),
        _ => Ok(Wholeness::NoComplaint),
    }
}

/// ISO/IEC 14496-12 §4.2: 32-bit size, type, 64-bit size when the first is 1.
fn walk_boxes(file: &mut File, length: u64) -> std::io::Result<Wholeness> {
    let (mut at, mut table, mut broken) = (0_u64, false, false);
    while at + 8 <= length {
        let mut head = [0; 16];
        file.seek(SeekFrom::Start(at))?;
        let got = file.read(&mut head)?;
        if got < 8 {
            break;
        }
        table |= &head[4..8] == b"moov" || &head[4..8] == b"moof";
        let size = match u32::from_be_bytes([head[0], head[1], head[2], head[3]]) {
            0 => length - at,
            1 if got == 16 => u64::from_be_bytes(head[8..16].try_into().unwrap_or([0; 8])),
            size => u64::from(size),
        };
        if size < 8 {
            break;
        }
        match at.checked_add(size) {
            Some(end) if end <= length => at = end,
            _ => {
                broken = true;
                break;
            }
        }
    }
    Ok(match (table, broken) {
        (false, _) => Wholeness::NoFrameTable,
        (true, true) => Wholeness::BreaksOff,
        (true, false) => Wholeness::NoComplaint,
    })
}

/// RFC 8794 (EBML): the header element, then the Segment with its length,
/// where all bits set means unknown.
fn matroska_end(file: &mut File, length: u64) -> std::io::Result<Wholeness> {
    let mut head = vec![0; 4096];
    let got = file.read(&mut head)?;
    head.truncate(got);
    let Some((header, used)) = ebml_length(&head[4.min(got)..]) else {
        return Ok(Wholeness::NoComplaint);
    };
    let Some(segment) = header
        .and_then(|h| usize::try_from(h).ok())
        .and_then(|h| h.checked_add(4 + used))
    else {
        return Ok(Wholeness::NoComplaint);
    };
    if head.get(segment..segment.saturating_add(4)) != Some(b"\x18\x53\x80\x67") {
        return Ok(Wholeness::NoComplaint);
    }
    let end = ebml_length(&head[segment + 4..])
        .and_then(|(size, used)| size?.checked_add((segment + 4 + used) as u64));
    Ok(if end.is_some_and(|end| end > length) {
        Wholeness::BreaksOff
    } else {
        Wholeness::NoComplaint
    })
}

/// The value (none when unknown) and the bytes it takes.
fn ebml_length(bytes: &[u8]) -> Option<(Option<u64>, usize)> {
    let first = *bytes.first()?;
    let width = first.leading_zeros() as usize + 1;
    if width > 8 {
        return None;
    }
    let rest = bytes.get(1..width)?;
    let head = u64::from(first) & ((1 << (8 - width)) - 1);
    let value = rest.iter().fold(head, |sum, b| sum << 8 | u64::from(*b));
    let unknown = value == (1 << (7 * width)) - 1;
    Some(((!unknown).then_some(value), width))
}

/// RIFF: the length after the mark counts from byte 8; OpenDML files go on in
/// further RIFF chunks, each with its own length.
fn avi_end(file: &mut File, length: u64) -> std::io::Result<Wholeness> {
    let mut at = 0_u64;
    while at + 12 <= length {
        let mut head = [0; 8];
        file.seek(SeekFrom::Start(at))?;
        file.read_exact(&mut head)?;
        if &head[..4] != b"RIFF" {
            break;
        }
        let size = u64::from(u32::from_le_bytes([head[4], head[5], head[6], head[7]]));
        if size == 0 {
            // A recorder that never closed the file.
            return Ok(Wholeness::BreaksOff);
        }
        at += 8 + size + size % 2;
        if at > length + 1 {
            return Ok(Wholeness::BreaksOff);
        }
    }
    Ok(Wholeness::NoComplaint)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ebml_lengths() {
        assert_eq!(ebml_length(&[0x81]), Some((Some(1), 1)));
        assert_eq!(ebml_length(&[0x40, 0x7f]), Some((Some(0x7f), 2)));
        assert_eq!(ebml_length(&[0xff]), Some((None, 1)));
        assert_eq!(
            ebml_length(&[0x01, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff]),
            Some((None, 8))
        );
        assert_eq!(ebml_length(&[0x00]), None);
        assert_eq!(ebml_length(&[0x40]), None);
    }
}
