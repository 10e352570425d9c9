//! FFmpeg's complaints during a decode.

/// Complaints counted; only the first is kept in words.
#[derive(Debug, Default)]
pub(crate) struct Complaints {
    /// How many.
    pub(crate) count: u64,
    /// Frames reported by then, and the words.
    pub(crate) first: Option<(u64, String)>,
    /// Whether one of them says that the file ends too early.
    pub(crate) breaks_off: bool,
}

impl Complaints {
    pub(crate) fn add(&mut self, frames: u64, words: String) {
        // FFmpeg's words for a file that is shorter than its own tables say,
        // in its readers of QuickTime/MP4 and Matroska.
        if words.contains("partial file") || words.contains("ended prematurely") {
            self.breaks_off = true;
        }
        self.count += 1;
        self.first.get_or_insert((frames, words));
    }
}
