//! Readings take turns: a shelf of scans dropped in at once must not fill the
//! memory with as many decoders.

use std::collections::BTreeSet;
use std::sync::{Condvar, Mutex, MutexGuard, PoisonError};
use std::time::Duration;

use onestrand_production::Cancel;

/// How many readings run at a time: one waits for the disk while the other
/// decodes.
const AT_A_TIME: usize = 2;

/// How often one that waits looks whether it was stopped.
const LOOK_UP: Duration = Duration::from_millis(100);

/// Whose turn it is, in the order in which they came.
#[derive(Debug, Default)]
pub(crate) struct Turns {
    queue: Mutex<Queue>,
    moved: Condvar,
}

#[derive(Debug, Default)]
struct Queue {
    next: u64,
    waiting: BTreeSet<u64>,
    running: usize,
}

/// A turn; it ends with this value.
#[derive(Debug)]
pub(crate) struct Turn<'a>(&'a Turns);

impl Turns {
    /// Waits for a turn; nothing when it was stopped before. `must_wait` is
    /// called once if there is none at once.
    pub(crate) fn take(&self, cancel: &Cancel, must_wait: impl FnOnce()) -> Option<Turn<'_>> {
        let mut queue = self.queue();
        let ticket = queue.next;
        queue.next += 1;
        queue.waiting.insert(ticket);
        let mut must_wait = Some(must_wait);
        while !queue.is_turn_of(ticket) && !cancel.is_cancelled() {
            if let Some(tell) = must_wait.take() {
                tell();
            }
            let waited = self.moved.wait_timeout(queue, LOOK_UP);
            queue = waited.unwrap_or_else(PoisonError::into_inner).0;
        }
        queue.waiting.remove(&ticket);
        let is_turn = !cancel.is_cancelled();
        queue.running += usize::from(is_turn);
        drop(queue);
        self.moved.notify_all();
        is_turn.then(|| Turn(self))
    }

    fn queue(&self) -> MutexGuard<'_, Queue> {
        self.queue.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

impl Queue {
    fn is_turn_of(&self, ticket: u64) -> bool {
        self.running < AT_A_TIME && self.waiting.first() == Some(&ticket)
    }
}

impl Drop for Turn<'_> {
    fn drop(&mut self) {
        self.0.queue().running -= 1;
        self.0.moved.notify_all();
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_third_waits_and_goes_when_it_is_stopped() {
        let turns = Turns::default();
        let go_on = Cancel::new();
        let first = turns.take(&go_on, || panic!("at once")).expect("a turn");
        let _second = turns.take(&go_on, || panic!("at once")).expect("a turn");
        let stopped = Cancel::new();
        let told = stopped.clone();
        assert!(turns.take(&stopped, || told.cancel()).is_none());
        std::thread::scope(|scope| {
            let (tell, told) = std::sync::mpsc::channel();
            let turns = &turns;
            let third = scope.spawn(move || {
                let tell = || tell.send(()).expect("heard");
                turns.take(&Cancel::new(), tell).is_some()
            });
            told.recv().expect("it waits");
            drop(first);
            assert!(third.join().expect("ended"));
        });
        // All are given back.
        drop(turns.take(&go_on, || panic!("at once")).expect("a turn"));
    }
}
