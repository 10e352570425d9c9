//! What is seen and heard of a projector.

/// What happened.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Seen {
    /// The motor was switched on with this running frame in the gate; before the picture it
    /// is negative.
    Started {
        /// The running frame.
        frame: f64,
    },
    /// A key was pressed as a cut came. `cut` is its running frame where the hand said which
    /// it meant, else nothing.
    Tap {
        /// The first running frame behind the cut.
        cut: Option<u32>,
    },
    /// The counter of the machine was read.
    Counter {
        /// What it said, in running frames.
        frame: f64,
        /// How far the reading may be off, one standard deviation. Unit: frames.
        error: f64,
    },
    /// So many frames have gone by since somebody listens.
    Heard {
        /// How many.
        count: f64,
        /// One standard deviation. Unit: frames.
        error: f64,
    },
    /// What was heard begins to count at this running frame: the start of the run was heard.
    Counts {
        /// The running frame at count 0.
        from: f64,
        /// How likely it is that it begins two and one frame later, there, one and two
        /// frames sooner: the softest ticks of a run-up may not be heard.
        shares: [f64; 5],
    },
    /// What was heard was lost for a while: the count may have slipped by so much.
    Slipped {
        /// One standard deviation; infinite where nothing is known. Unit: frames.
        frames: f64,
    },
}

/// An event with its time.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Event {
    /// When, on any clock that runs evenly. Unit: seconds.
    pub at: f64,
    /// What.
    pub seen: Seen,
}
