//! A recipe as it is kept, and read back.

use std::fmt;

use crate::recipe::Recipe;

/// Most file frames and film frames that a recipe which is read back may have; one
/// of ours has eight of the one and fewer than thirty of the other.
const MOST: usize = 64;

/// Which file frame is the best, which film frame is wanted, and of each file frame
/// its number and its shares of the film frames: `1 0 5:0.25,0.75 6:0,1`. The weights
/// follow from them.
impl fmt::Display for Recipe {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} {}", self.best, self.place)?;
        for (file_frame, row) in self.file_frames.iter().zip(&self.rows) {
            write!(f, " {file_frame}:")?;
            for (at, share) in row.iter().enumerate() {
                let comma = if at == 0 { "" } else { "," };
                // Shares are worked out as such short numbers.
                write!(f, "{comma}{}", *share as f32)?;
            }
        }
        Ok(())
    }
}

impl Recipe {
    /// The recipe that [`fmt::Display`] wrote; nothing for any other text.
    #[must_use]
    pub fn parse(text: &str) -> Option<Self> {
        let mut words = text.split(' ');
        let best: usize = words.next()?.parse().ok()?;
        let place: usize = words.next()?.parse().ok()?;
        let share = |word: &str| {
            let share: f32 = word.parse().ok()?;
            (0.0..=1.0).contains(&share).then_some(f64::from(share))
        };
        let (mut file_frames, mut rows) = (Vec::new(), Vec::new());
        for word in words {
            let (file_frame, shares) = word.split_once(':')?;
            let row: Vec<f64> = shares.split(',').map(share).collect::<Option<_>>()?;
            if row.len() > MOST || rows.len() == MOST {
                return None;
            }
            file_frames.push(file_frame.parse().ok()?);
            rows.push(row);
        }
        let is_rising = file_frames.is_sorted_by(|a: &u64, b| a < b);
        let is_there = best < rows.len() && rows.iter().any(|row| place < row.len());
        (is_rising && is_there).then_some(())?;
        Self::of(file_frames, rows, place, best)
    }
}

#[cfg(test)]
mod tests {
    use crate::recipe::recipe;
    use crate::shown::Shown;

    use super::*;

    #[test]
    fn a_recipe_that_was_kept_is_the_same() {
        let shown = |first, weights| Shown { first, weights };
        let around = [
            (70, shown(10, [1.0, 0.0, 0.0])),
            (71, shown(10, [0.123_456, 0.876_544, 0.0])),
            (72, shown(11, [0.7, 0.3, 0.0])),
            (73, shown(12, [1.0, 0.0, 0.0])),
        ];
        let made = recipe(&around, 11, 71).expect("a recipe");
        let kept = made.to_string();
        assert_eq!(Recipe::parse(&kept), Some(made), "{kept}");
    }

    #[test]
    fn other_texts_are_none() {
        for text in [
            "",
            "1",
            "0 0",
            "0 0 5",
            "0 0 5:2",
            "0 0 5:x",
            "2 0 5:1 6:1",
            "0 4 5:1",
            "0 0 6:1 5:1",
            "0 0 5:NaN",
        ] {
            assert_eq!(Recipe::parse(text), None, "{text}");
        }
        let long = format!("0 0 5:{}", ["0"; 100].join(","));
        assert_eq!(Recipe::parse(&long), None);
    }
}
