//! What the picture of a film frame is made of.

use std::fmt;

/// The file frames of one scan that give a film frame, and how.
#[derive(Debug, Clone, PartialEq)]
pub enum MadeOf {
    /// One file frame as it is.
    One(u64),
    /// Several file frames, each with its weight; the weights sum to 1.
    Mixed(Vec<(u64, f32)>),
    /// The lines 0, 2, 4, … of one file frame and the lines 1, 3, 5, … of another.
    Woven {
        /// The file frame of the even lines.
        top: u64,
        /// The file frame of the odd lines.
        bottom: u64,
    },
}

impl MadeOf {
    /// The file frames that are needed, rising, each once.
    #[must_use]
    pub fn file_frames(&self) -> Vec<u64> {
        let mut needed = match self {
            Self::One(frame) => vec![*frame],
            Self::Mixed(parts) => parts.iter().map(|part| part.0).collect(),
            Self::Woven { top, bottom } => vec![*top, *bottom],
        };
        needed.sort_unstable();
        needed.dedup();
        needed
    }

    /// The least and the greatest file frame that is needed.
    #[must_use]
    pub fn ends(&self) -> (u64, u64) {
        let needed = self.file_frames();
        let first = needed.first().copied().unwrap_or(0);
        (first, needed.last().copied().unwrap_or(first))
    }

    /// The value that [`fmt::Display`] wrote; nothing for any other text.
    #[must_use]
    pub fn parse(text: &str) -> Option<Self> {
        let mut words = text.split(' ');
        match words.next()? {
            "woven" => {
                let (top, bottom) = (words.next()?.parse().ok()?, words.next()?.parse().ok()?);
                words
                    .next()
                    .is_none()
                    .then_some(Self::Woven { top, bottom })
            }
            "mixed" => {
                let part = |word: &str| {
                    let (frame, weight) = word.split_once(':')?;
                    let weight: f32 = weight.parse().ok()?;
                    weight.is_finite().then_some((frame.parse().ok()?, weight))
                };
                let parts: Vec<(u64, f32)> = words.map(part).collect::<Option<_>>()?;
                (!parts.is_empty()).then_some(Self::Mixed(parts))
            }
            one => {
                let frame = one.parse().ok()?;
                words.next().is_none().then_some(Self::One(frame))
            }
        }
    }
}

/// As it is kept: `7`, `woven 7 8`, `mixed 7:-0.5 8:1.5`.
impl fmt::Display for MadeOf {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::One(frame) => write!(f, "{frame}"),
            Self::Woven { top, bottom } => write!(f, "woven {top} {bottom}"),
            Self::Mixed(parts) => {
                f.write_str("mixed")?;
                parts
                    .iter()
                    .try_for_each(|(frame, weight)| write!(f, " {frame}:{weight}"))
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_was_kept_is_read_back() {
        for made_of in [
            MadeOf::One(0),
            MadeOf::Woven { top: 9, bottom: 8 },
            MadeOf::Mixed(vec![(4, -0.123_456_79), (5, 1.1), (7, 0.023_456_7)]),
        ] {
            assert_eq!(MadeOf::parse(&made_of.to_string()), Some(made_of));
        }
        for wrong in [
            "",
            "x",
            "1 2",
            "woven 1",
            "woven 1 2 3",
            "mixed",
            "mixed 1:NaN",
            "mixed 1",
        ] {
            assert_eq!(MadeOf::parse(wrong), None, "{wrong}");
        }
    }

    #[test]
    fn file_frames_rise_and_stand_once() {
        assert_eq!(MadeOf::Woven { top: 9, bottom: 8 }.ends(), (8, 9));
        assert_eq!(MadeOf::Woven { top: 8, bottom: 8 }.file_frames(), [8]);
        assert_eq!(
            MadeOf::Mixed(vec![(6, 1.5), (5, -0.5)]).file_frames(),
            [5, 6]
        );
    }
}
