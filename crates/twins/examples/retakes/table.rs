//! Counts of pairs and marks, by what was done to the take.

use std::collections::BTreeMap;
use std::fmt;

use onestrand_twins::CannotTell;

/// A mark is right within so many frames.
const WITHIN: f64 = 2.0;
/// It is told when its place is known to so many, as match points ask.
const KNOWN_TO: f64 = 1.5;

/// What became of one pair, or of many.
#[derive(Debug, Clone, Default)]
pub(crate) struct Outcome {
    pairs: u32,
    still: u32,
    refused: u32,
    marks: u32,
    right: u32,
    told: u32,
    told_right: u32,
    offered: u32,
    offered_right: u32,
}

impl Outcome {
    pub(crate) fn laid() -> Self {
        Self {
            pairs: 1,
            ..Self::default()
        }
    }

    pub(crate) fn refused(why: CannotTell) -> Self {
        let still = matches!(why, CannotTell::TooLittleMovement { .. });
        Self {
            pairs: 1,
            still: u32::from(still),
            refused: u32::from(!still),
            ..Self::default()
        }
    }

    /// How far off a mark was found and how sure, or nothing where the map has no place.
    pub(crate) fn mark(&mut self, off: Option<f64>, uncertain: Option<f64>) {
        let right = off.is_some_and(|off| off <= WITHIN);
        let told = uncertain.is_some_and(|uncertain| uncertain <= KNOWN_TO);
        self.marks += 1;
        self.right += u32::from(right);
        self.told += u32::from(told);
        self.told_right += u32::from(told && right);
    }

    /// How far off an offered match point was.
    pub(crate) fn offer(&mut self, off: f64) {
        self.offered += 1;
        self.offered_right += u32::from(off <= WITHIN);
    }
}

impl std::ops::AddAssign<&Outcome> for Outcome {
    fn add_assign(&mut self, other: &Self) {
        self.pairs += other.pairs;
        self.still += other.still;
        self.refused += other.refused;
        self.marks += other.marks;
        self.right += other.right;
        self.told += other.told;
        self.told_right += other.told_right;
        self.offered += other.offered;
        self.offered_right += other.offered_right;
    }
}

#[derive(Debug, Default)]
pub(crate) struct Table(BTreeMap<String, Outcome>);

impl Table {
    pub(crate) const HEAD: &'static str = "                                          pairs  too still  cannot tell  marks  within 2  told  of those within 2  cuts offered  within 2";

    pub(crate) fn add(&mut self, name: &str, outcome: &Outcome) {
        *self.0.entry(name.to_owned()).or_default() += outcome;
    }
}

impl fmt::Display for Table {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let share = |part: u32, of: u32| 100.0 * f64::from(part) / f64::from(of.max(1));
        for (name, sum) in &self.0 {
            writeln!(
                f,
                "{name:<42} {:>4} {:>10} {:>12} {:>6} {:>8.1}% {:>4.0}% {:>18.1}% {:>13} {:>8.1}%",
                sum.pairs,
                sum.still,
                sum.refused,
                sum.marks,
                share(sum.right, sum.marks),
                share(sum.told, sum.marks),
                share(sum.told_right, sum.told),
                sum.offered,
                share(sum.offered_right, sum.offered),
            )?;
        }
        Ok(())
    }
}
