//! The hand on the stop lever.

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

/// A handle that stops a reading from another thread.
///
/// Clones pull the same lever. Once pulled it stays pulled: a new job takes a
/// new handle. The child process is killed within a tenth of a second, or, when
/// the caller's sink is at work, as soon as it returns.
///
/// ```
/// use onestrand_intake::Cancel;
///
/// let lever = Cancel::new();
/// let in_another_thread = lever.clone();
/// in_another_thread.cancel();
/// assert!(lever.is_cancelled());
/// ```
#[derive(Debug, Clone, Default)]
pub struct Cancel(Arc<AtomicBool>);

impl Cancel {
    /// A lever that nobody has pulled yet.
    #[must_use]
    pub fn new() -> Self {
        Self::default()
    }

    /// Pulls the lever.
    pub fn cancel(&self) {
        self.0.store(true, Ordering::SeqCst);
    }

    /// Whether the lever was pulled.
    #[must_use]
    pub fn is_cancelled(&self) -> bool {
        self.0.load(Ordering::SeqCst)
    }
}
