//! Where joins are heard. The sound head lies S frames behind the gate, so that while running
//! frame k is in the gate the strip passes the head at frame k − S: a join of running frame q
//! clicks while frame q + S is on the screen. The sound leads of the gauges, with their
//! sources, are in `film`.

/// A cue this near to what is heard of a join is pointed out. Unit: frames.
pub const NEAR: i64 = 3;

/// The running frame at which a join is heard.
#[must_use]
pub const fn heard_at(join: i64, lead: i64) -> i64 {
    join + lead
}

/// A join that is heard near a cue.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Echo {
    /// The running frame of the join.
    pub join_at: i64,
    /// The running frame at which it is heard.
    pub heard_at: i64,
    /// How far from the cue that is; negative when it is heard before. Unit: frames.
    pub frames_away: i64,
}

/// The join that is heard nearest to a cue's first frame, within [`NEAR`] frames of it.
#[must_use]
pub fn echo_near(cue: i64, joins: &[i64], lead: i64) -> Option<Echo> {
    let echo = |join: &i64| Echo {
        join_at: *join,
        heard_at: heard_at(*join, lead),
        frames_away: heard_at(*join, lead) - cue,
    };
    let near = joins
        .iter()
        .map(echo)
        .filter(|e| e.frames_away.abs() <= NEAR);
    near.min_by_key(|e| (e.frames_away.abs(), e.join_at))
}
