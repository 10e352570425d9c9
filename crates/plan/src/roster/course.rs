//! The course of sessions as one line of slots.

/// Sessions one behind the other. Where those that were given do not do, it goes on with
/// sessions as long as the longest of them.
#[derive(Debug, Clone)]
pub(crate) struct Course {
    /// First slot of each session, and the end of the last.
    begins: Vec<u32>,
    longest: u32,
}

impl Course {
    /// A course of at least `sessions` sessions.
    pub(crate) fn new(given: &[u16], sessions: usize) -> Self {
        let longest = given.iter().copied().max().unwrap_or(0);
        let mut begins = vec![0];
        let mut end = 0;
        for at in 0..given.len().max(sessions) {
            end += u32::from(given.get(at).copied().unwrap_or(longest));
            begins.push(end);
        }
        Self {
            begins,
            longest: u32::from(longest),
        }
    }

    pub(crate) fn sessions(&self) -> usize {
        self.begins.len() - 1
    }

    pub(crate) const fn longest(&self) -> u32 {
        self.longest
    }

    /// First slot of a session, counted from 0; the end of the course behind the last.
    pub(crate) fn begin(&self, session: usize) -> u32 {
        self.begins[session.min(self.begins.len() - 1)]
    }

    /// The session that a slot lies in, from 0.
    pub(crate) fn session_of(&self, slot: u32) -> usize {
        self.begins.partition_point(|begin| *begin <= slot).max(1) - 1
    }

    /// The first slot from `slot` on where something this long lies in one session.
    pub(crate) fn first_fit(&self, slot: u32, length: u32) -> Option<u32> {
        let mut session = self.session_of(slot);
        let mut at = slot;
        while session < self.sessions() {
            if at + length <= self.begin(session + 1) {
                return Some(at);
            }
            session += 1;
            at = self.begin(session);
        }
        None
    }

    /// The last slot up to which something this long, ending by `end`, may begin.
    pub(crate) fn last_fit(&self, end: u32, length: u32) -> Option<u32> {
        if end == 0 {
            return None;
        }
        let mut session = self.session_of(end - 1);
        let mut end = end;
        loop {
            if self.begin(session) + length <= end {
                return Some(end - length);
            }
            session = session.checked_sub(1)?;
            end = self.begin(session + 1);
        }
    }

    /// Lengths of the stretches of sessions between two slots.
    pub(crate) fn stretches(&self, from: u32, to: u32) -> impl Iterator<Item = u32> + '_ {
        let first = self.session_of(from);
        (first..self.sessions())
            .map(move |session| {
                let begin = self.begin(session).max(from);
                (begin, self.begin(session + 1).min(to))
            })
            .take_while(move |(begin, _)| *begin < to)
            .map(|(begin, end)| end.saturating_sub(begin))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_sitting_lies_in_one_session() {
        let course = Course::new(&[4, 2, 4], 4);
        assert_eq!((course.sessions(), course.longest()), (4, 4));
        assert_eq!(course.first_fit(0, 4), Some(0));
        assert_eq!(course.first_fit(1, 4), Some(6));
        assert_eq!(course.first_fit(3, 2), Some(4));
        assert_eq!(course.first_fit(11, 4), None);
        assert_eq!(course.last_fit(6, 3), Some(1));
        assert_eq!(course.last_fit(14, 4), Some(10));
        assert_eq!(course.last_fit(3, 4), None);
        assert_eq!(course.stretches(3, 7).collect::<Vec<_>>(), [1, 2, 1]);
    }
}
