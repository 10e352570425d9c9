//! Faults of the machine, planted where the test knows them.

/// A fault of the scanning machine.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Planted {
    /// The claw missed: from film frame `at` on, `frames` film frames are never
    /// in the gate.
    Skipped {
        /// The first film frame that is not shown.
        at: u32,
        /// How many are not shown.
        frames: u32,
    },
    /// The claw slipped: film frame `at` stays in the gate for two turns.
    Doubled {
        /// The film frame shown twice as long.
        at: u32,
    },
}

/// Which film frame is in the gate at each turn of the machine.
///
/// # Examples
/// ```
/// use onestrand_telecine::{Planted, gate_order};
/// let planted = [Planted::Doubled { at: 1 }, Planted::Skipped { at: 3, frames: 2 }];
/// assert_eq!(gate_order(7, &planted), [0, 1, 1, 2, 5, 6]);
/// ```
#[must_use]
pub fn gate_order(film_frames: u32, planted: &[Planted]) -> Vec<u32> {
    let turns = |frame: u32| {
        let mut turns = 1_usize;
        for fault in planted {
            match *fault {
                Planted::Skipped { at, frames } if (at..at + frames).contains(&frame) => turns = 0,
                Planted::Doubled { at } if at == frame => turns = 2,
                _ => {}
            }
        }
        turns
    };
    (0..film_frames)
        .flat_map(|frame| std::iter::repeat_n(frame, turns(frame)))
        .collect()
}
