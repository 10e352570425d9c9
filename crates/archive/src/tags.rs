//! `bagit.txt` and `bag-info.txt`: labels and what stands behind them.

/// What every bag of version 1.0 begins with (RFC 8493, 2.1.1).
pub(crate) const DECLARATION: &str = "BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n";

/// The longest line that is written whole. Unit: letters (RFC 8493, 2.2.2, recommends 79).
const WIDTH: usize = 79;

/// `bag-info.txt`: long words go on in lines that begin with a space.
pub(crate) fn written(info: &[(String, String)]) -> String {
    let mut text = String::new();
    for (label, value) in info {
        let mut line = format!("{label}:");
        // Line ends in a value would begin a label of their own.
        for word in value.split_whitespace() {
            if line.chars().count() + 1 + word.chars().count() > WIDTH {
                text.push_str(&line);
                text.push('\n');
                line = " ".to_owned();
            }
            line.push(' ');
            line.push_str(word);
        }
        text.push_str(&line);
        text.push('\n');
    }
    text
}

/// Labels with what stands behind each; lines that are none are passed over.
pub(crate) fn read(text: &str) -> Vec<(String, String)> {
    let mut all: Vec<(String, String)> = Vec::new();
    for line in text.lines() {
        match (line.starts_with([' ', '\t']), all.last_mut()) {
            (true, Some((_, value))) => {
                value.push(' ');
                value.push_str(line.trim());
            }
            _ => {
                if let Some((label, value)) = line.split_once(':') {
                    all.push((label.trim().to_owned(), value.trim().to_owned()));
                }
            }
        }
    }
    all
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn long_words_are_folded_and_come_back() {
        let long = "a ferry ".repeat(40);
        let info = [
            ("Title".to_owned(), "The Ten-Past Boat: a film".to_owned()),
            ("About".to_owned(), long.trim().to_owned()),
            ("Two".to_owned(), "lines\nare: one".to_owned()),
        ];
        let text = written(&info);
        assert!(text.lines().all(|line| line.chars().count() <= WIDTH));
        let back = read(&text);
        assert_eq!(back[..2], info[..2]);
        assert_eq!(back[2].1, "lines are: one");
    }
}
