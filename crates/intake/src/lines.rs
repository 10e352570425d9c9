//! Lines of bounded length from a child's standard error.

use std::io::{BufRead, ErrorKind};

/// The most of a line that is kept; the rest is read and forgotten.
const LINE_MOST: usize = 2048;

/// Calls `each` with every line, without its line end, until the end of `from`.
pub(crate) fn read_lines(mut from: impl BufRead, mut each: impl FnMut(&[u8])) {
    let mut line = Vec::with_capacity(LINE_MOST);
    loop {
        let (used, ended) = {
            let piece = match from.fill_buf() {
                Ok(piece) => piece,
                Err(error) if error.kind() == ErrorKind::Interrupted => continue,
                Err(_) => break,
            };
            if piece.is_empty() {
                break;
            }
            let end = memchr::memchr2(b'\n', b'\r', piece);
            let part = &piece[..end.unwrap_or(piece.len())];
            let room = LINE_MOST - line.len();
            line.extend_from_slice(&part[..part.len().min(room)]);
            (end.map_or(piece.len(), |at| at + 1), end.is_some())
        };
        from.consume(used);
        if ended {
            if !line.is_empty() {
                each(&line);
            }
            line.clear();
        }
    }
    if !line.is_empty() {
        each(&line);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_are_split_bounded_and_complete() {
        let text = [b"one\r\ntwo\n".as_slice(), &[b'x'; 5000], b"\nlast"].concat();
        let mut lines = Vec::new();
        read_lines(
            std::io::BufReader::with_capacity(7, text.as_slice()),
            |line| lines.push(line.to_vec()),
        );
        assert_eq!(lines[0], b"one");
        assert_eq!(lines[1], b"two");
        assert_eq!(lines[2].len(), LINE_MOST);
        assert_eq!(lines[3], b"last");
        assert_eq!(lines.len(), 4);
    }
}
