//! Whether so many pins suffice, whatever the roll changes.

use super::course::{Course, NONE};

/// Rolls and the places they can be had from, made ready to be asked.
#[derive(Debug)]
pub(crate) struct Pins {
    outer: Vec<Course>,
    /// The roll whose standings are the bits of one word.
    inner: Course,
    strides: Vec<usize>,
    words: usize,
}

impl Pins {
    /// Rolls with these courses.
    pub(crate) fn new(courses: &[Course]) -> Self {
        let mut outer = courses.to_vec();
        let fits = |c: &&Course| c.len() <= 64;
        let longest = outer.iter().filter(fits).map(Course::len).max();
        let at = outer.iter().position(|c| Some(c.len()) == longest);
        let inner = match at {
            Some(at) => outer.remove(at),
            // A roll without strips: nothing of it is ever missing.
            None => {
                let turns = outer.iter().filter_map(|c| c.missing.last()).max();
                Course::in_order(&[], turns.copied().map_or(0, usize::from))
            }
        };
        let mut strides = vec![1; outer.len()];
        for r in (0..outer.len().saturating_sub(1)).rev() {
            strides[r] = strides[r + 1] * outer[r + 1].len();
        }
        Self {
            words: outer.iter().map(Course::len).product(),
            outer,
            inner,
            strides,
        }
    }

    /// How many words one question goes through.
    pub(crate) fn words(&self) -> usize {
        self.words
    }

    /// The fewest pins that suffice, if fewer than `known`, which do.
    pub(crate) fn fewest(&self, known: usize) -> usize {
        let (mut too_few, mut enough) = (None, known);
        // Mostly nothing is fewer than what is known: ask that first.
        let mut ask = known.checked_sub(1);
        while let Some(pins) = ask {
            match self.suffice(pins) {
                true => enough = pins,
                false => too_few = Some(pins),
            }
            let low = too_few.map_or(0, |few: usize| few + 1);
            ask = (low < enough).then(|| low.midpoint(enough - 1).min(enough - 1));
        }
        enough
    }

    /// Whether the work can be done with so many pins.
    pub(crate) fn suffice(&self, pins: usize) -> bool {
        let mut reached = vec![0_u64; self.words];
        reached[0] = 1;
        let allowed = Allowed::new(&self.inner, pins);
        let mut digits = vec![0_usize; self.outer.len()];
        for word in 0..self.words {
            if word > 0 {
                self.count_on(&mut digits);
            }
            if reached[word] == 0 {
                continue;
            }
            let courses = self.outer.iter().zip(&digits);
            let (mut taken, mut missing) = (0_u16, u16::MAX);
            for (course, s) in courses {
                taken += course.taken[*s];
                missing = missing.min(course.missing[*s]);
            }
            let bits = self.along(reached[word], allowed.bits(taken, missing));
            reached[word] = bits;
            if bits == 0 {
                continue;
            }
            for (r, s) in digits.iter().enumerate() {
                for to in self.outer[r].ways[*s].into_iter().filter(|to| *to != NONE) {
                    reached[word + (to as usize - s) * self.strides[r]] |= bits;
                }
            }
        }
        let last = reached.last().copied().unwrap_or(0);
        last >> (self.inner.len() - 1) & 1 == 1
    }

    /// The standings of the inner roll reached from those given, one of which a
    /// strip hangs too much in left out.
    fn along(&self, reached: u64, allowed: u64) -> u64 {
        let mut bits = reached & allowed;
        let mut at = bits;
        while at != 0 {
            let s = at.trailing_zeros() as usize;
            at &= at - 1;
            for to in self.inner.ways[s].into_iter().filter(|to| *to != NONE) {
                // A way always leads up: what is added is still to come.
                let new = (1 << to) & allowed & !bits;
                bits |= new;
                at |= new;
            }
        }
        bits
    }

    fn count_on(&self, digits: &mut [usize]) {
        for r in (0..digits.len()).rev() {
            digits[r] += 1;
            if digits[r] < self.outer[r].len() {
                return;
            }
            digits[r] = 0;
        }
    }
}

/// For the strips taken from the outer rolls, and the first turn missing there:
/// the standings of the inner roll at which no more hang than there are pins.
struct Allowed {
    bits: Vec<u64>,
    all: usize,
}

impl Allowed {
    fn new(inner: &Course, pins: usize) -> Self {
        let own = inner.missing.last().copied().unwrap_or(0);
        let all = usize::from(own) + 1;
        let mut bits = vec![0; all * all];
        for taken in 0..all {
            for missing in 0..all {
                bits[taken * all + missing] = allowed(inner, pins, taken, missing);
            }
        }
        Self { bits, all }
    }

    fn bits(&self, taken: u16, missing: u16) -> u64 {
        let missing = usize::from(missing).min(self.all - 1);
        let at = usize::from(taken) * self.all + missing;
        self.bits.get(at).copied().unwrap_or(0)
    }
}

fn allowed(inner: &Course, pins: usize, taken: usize, missing: usize) -> u64 {
    let hangs = |s: usize| {
        let next = usize::from(inner.missing[s]).min(missing);
        (taken + usize::from(inner.taken[s])).saturating_sub(next)
    };
    let standings = (0..inner.len()).filter(|s| hangs(*s) <= pins);
    standings.map(|s| 1_u64 << s).sum()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn two_rolls_that_lie_crosswise_want_a_pin_each_time() {
        let courses = [[1, 0], [3, 2]].map(|turns| Course::in_order(&turns, 4));
        let pins = Pins::new(&courses);
        assert!(!pins.suffice(0));
        assert!(pins.suffice(1));
        assert_eq!(pins.fewest(4), 1);
        let either = [[1, 0], [3, 2]].map(|turns| Course::from_either_end(&turns, 4));
        assert_eq!(Pins::new(&either).fewest(4), 0);
    }

    #[test]
    fn a_roll_with_more_strips_than_a_word_has_bits() {
        let turns: Vec<usize> = (0..100).rev().collect();
        let pins = Pins::new(&[Course::in_order(&turns, 100)]);
        assert!(!pins.suffice(98));
        assert_eq!(pins.fewest(100), 99);
        let two = [(0..70).collect(), (70..140).rev().collect()];
        let two = two.map(|turns: Vec<usize>| Course::in_order(&turns, 140));
        assert_eq!(Pins::new(&two).fewest(140), 69);
    }
}
