//! Splitting the stream of browsing pictures that FFmpeg's `mpjpeg` muxer writes.
//!
//! Each picture comes as a part of a multipart stream (RFC 2046 §5.1) with a
//! `Content-length`, so no byte of a picture is ever searched.

use std::io::{self, BufRead, Read};

/// The largest browsing picture taken, in bytes; 960×720 at the best quality
/// stays below a tenth of it.
pub(crate) const PICTURE_MOST: usize = 16 << 20;

/// The longest header line.
const LINE_MOST: u64 = 256;

/// The next picture, or nothing at the end of the stream.
pub(crate) fn next_picture(from: &mut impl BufRead) -> io::Result<Option<Vec<u8>>> {
    let malformed = || io::Error::new(io::ErrorKind::InvalidData, "malformed part header");
    let mut length = None;
    let mut seen_any = false;
    loop {
        let mut line = Vec::new();
        from.by_ref().take(LINE_MOST).read_until(b'\n', &mut line)?;
        if line.is_empty() {
            return if seen_any {
                Err(io::ErrorKind::UnexpectedEof.into())
            } else {
                Ok(None)
            };
        }
        if line.pop() != Some(b'\n') {
            return Err(malformed());
        }
        let text = line.trim_ascii();
        if text.is_empty() {
            // The line end behind the last picture, or the end of the header.
            if length.is_some() {
                break;
            }
            continue;
        }
        seen_any |= !text.ends_with(b"--");
        if let Some((name, value)) = text
            .iter()
            .position(|b| *b == b':')
            .map(|at| text.split_at(at))
            && name.eq_ignore_ascii_case(b"content-length")
        {
            let value = std::str::from_utf8(&value[1..])
                .ok()
                .and_then(|v| v.trim().parse::<usize>().ok());
            length = Some(value.filter(|l| *l <= PICTURE_MOST).ok_or_else(malformed)?);
        }
    }
    let mut picture = vec![0; length.ok_or_else(malformed)?];
    from.read_exact(&mut picture)?;
    Ok(Some(picture))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn parts_are_split_whatever_they_hold() {
        let stream = b"--ffmpeg\r\nContent-type: image/jpeg\r\nContent-length: 12\r\n\r\nab\r\n--ffmpeg\r\n--ffmpeg\r\nContent-type: image/jpeg\r\nContent-length: 0\r\n\r\n\r\n";
        let mut from = stream.as_slice();
        assert_eq!(next_picture(&mut from).unwrap().unwrap(), b"ab\r\n--ffmpeg");
        assert_eq!(next_picture(&mut from).unwrap().unwrap(), b"");
        assert!(next_picture(&mut from).unwrap().is_none());
    }

    #[test]
    fn broken_parts_are_errors() {
        for stream in [
            &b"--ffmpeg\r\nContent-length: 99999999999\r\n\r\n"[..],
            b"--ffmpeg\r\nContent-length: x\r\n\r\n",
            b"--ffmpeg\r\nContent-length: 5\r\n\r\nab",
            b"--ffmpeg\r\nContent-type: image/jpeg\r\n",
            &[b'x'; 1000],
        ] {
            assert!(next_picture(&mut &*stream).is_err(), "{stream:?}");
        }
    }
}
