//! The address as a square of dark and light that the camera of a tablet reads
//! (QR code, ISO/IEC 18004).

use qrcode::{EcLevel, QrCode};

/// The rows of the square: `1` is dark, `0` light. Empty where the words are too long
/// for one; the margin of four modules is the reader's due and not in it.
pub(crate) fn square(words: &str) -> Vec<String> {
    let Ok(code) = QrCode::with_error_correction_level(words, EcLevel::M) else {
        return Vec::new();
    };
    let dark = |color: &qrcode::Color| {
        if *color == qrcode::Color::Dark {
            '1'
        } else {
            '0'
        }
    };
    let colors = code.to_colors();
    let rows = colors.chunks(code.width());
    rows.map(|row| row.iter().map(dark).collect()).collect()
}

#[cfg(test)]
mod tests {
    use super::square;

    /// Four light modules all round (ISO/IEC 18004, quiet zone).
    const MARGIN: usize = 4;
    /// So many dots a module.
    const DOTS: usize = 4;

    /// Read by another's program.
    fn read(rows: &[String]) -> String {
        let side = (rows.len() + 2 * MARGIN) * DOTS;
        let shade = |x: usize, y: usize| {
            let at = |dot: usize| (dot / DOTS).checked_sub(MARGIN);
            let row = at(y).and_then(|y| rows.get(y));
            let module = row.and_then(|row| at(x).and_then(|x| row.as_bytes().get(x)));
            if module == Some(&b'1') { 0 } else { 255 }
        };
        let mut image = rqrr::PreparedImage::prepare_from_greyscale(side, side, shade);
        let grids = image.detect_grids();
        assert_eq!(grids.len(), 1, "one square is found");
        grids[0].decode().expect("it can be read").1
    }

    #[test]
    fn another_program_reads_what_was_written() {
        for words in [
            "http://192.168.1.20:7419/#code=48291753",
            "http://[fd12:3456:789a:1:abcd:ef01:2345:6789]:65535/#code=00000000",
        ] {
            let rows = square(words);
            assert!(rows.iter().all(|row| row.len() == rows.len()), "a square");
            assert_eq!(read(&rows), words);
        }
    }

    #[test]
    fn words_that_are_too_long_give_none() {
        assert!(square(&"x".repeat(5_000)).is_empty());
    }
}
