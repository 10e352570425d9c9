//! How far long work is, told to whoever waits.

/// Told how far long work is.
pub trait Progress {
    /// A piece of work begins: what it is, and how many frames it has, if known.
    fn begin(&mut self, words: &str, total: Option<u64>);
    /// So many frames are done.
    fn at(&mut self, frames: u64);
    /// Something the user should know.
    fn note(&mut self, words: &str);
}

/// Tells nobody.
#[derive(Debug, Clone, Copy, Default)]
pub struct Quiet;

impl Progress for Quiet {
    fn begin(&mut self, _words: &str, _total: Option<u64>) {}
    fn at(&mut self, _frames: u64) {}
    fn note(&mut self, _words: &str) {}
}
