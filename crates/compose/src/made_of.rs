//! What the picture of a film frame is made of.

use std::fmt;

use onestrand_cadence::Recipe;

/// The file frames of one scan that give a film frame, and how.
#[derive(Debug, Clone, PartialEq)]
pub enum MadeOf {
    /// One file frame as it is.
    One(u64),
    /// Several file frames that blend it with its neighbours, put together where that
    /// is nearer the film than the best of them.
    Mixed(Box<Recipe>),
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
            Self::Mixed(recipe) => recipe.file_frames().to_vec(),
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
                let (_, recipe) = text.split_once(' ')?;
                Some(Self::Mixed(Box::new(Recipe::parse(recipe)?)))
            }
            one => {
                let frame = one.parse().ok()?;
                words.next().is_none().then_some(Self::One(frame))
            }
        }
    }
}

/// As it is kept: `7`, `woven 7 8`, `mixed 0 1 7:0.2,0.8 8:0,1`.
impl fmt::Display for MadeOf {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::One(frame) => write!(f, "{frame}"),
            Self::Woven { top, bottom } => write!(f, "woven {top} {bottom}"),
            Self::Mixed(recipe) => write!(f, "mixed {recipe}"),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_was_kept_is_read_back() {
        for made_of in [MadeOf::One(0), MadeOf::Woven { top: 9, bottom: 8 }] {
            assert_eq!(MadeOf::parse(&made_of.to_string()), Some(made_of));
        }
        let mixed = MadeOf::parse("mixed 1 1 7:0.8,0.2 8:0.3,0.7").expect("a recipe");
        assert_eq!(mixed.to_string(), "mixed 1 1 7:0.8,0.2 8:0.3,0.7");
        assert_eq!(mixed.file_frames(), [7, 8]);
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
    }
}
