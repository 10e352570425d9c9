//! Plain tables, and what a measure is worth beside its target.

use std::fmt;

/// Rows of words under a head; the first and the last column begin at the
/// left, numbers between stand at the right.
#[derive(Debug)]
pub(crate) struct Table {
    rows: Vec<Vec<String>>,
}

impl Table {
    /// A table with these columns.
    pub(crate) fn new(head: &[&str]) -> Self {
        Self {
            rows: vec![head.iter().map(|&word| word.to_owned()).collect()],
        }
    }

    /// Adds a row.
    pub(crate) fn row(&mut self, cells: impl IntoIterator<Item = String>) {
        self.rows.push(cells.into_iter().collect());
    }

    /// Adds the row of a time: what, the time, its target if it has one.
    pub(crate) fn time(&mut self, what: &str, seconds: f64, at_most: Option<f64>) {
        let [target, verdict] = beside(seconds, at_most, crate::figures::time);
        let measure = crate::figures::time(seconds);
        self.row([what.to_owned(), measure, target, verdict]);
    }

    fn width(&self, column: usize) -> usize {
        let cells = self.rows.iter().filter_map(|row| row.get(column));
        cells.map(|cell| cell.chars().count()).max().unwrap_or(0)
    }
}

impl fmt::Display for Table {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let last = self
            .rows
            .iter()
            .map(Vec::len)
            .max()
            .unwrap_or(0)
            .saturating_sub(1);
        let widths: Vec<usize> = (0..=last).map(|column| self.width(column)).collect();
        for row in &self.rows {
            let mut line = String::new();
            for (column, (cell, &width)) in row.iter().zip(&widths).enumerate() {
                if column == 0 {
                    line.push_str(&format!("{cell:<width$}"));
                } else if column == last {
                    line.push_str(&format!("  {cell:<width$}"));
                } else {
                    line.push_str(&format!("  {cell:>width$}"));
                }
            }
            writeln!(f, "{}", line.trim_end())?;
        }
        Ok(())
    }
}

/// The cells for target and verdict: `meets`, or by how much it misses.
pub(crate) fn beside(measure: f64, at_most: Option<f64>, words: fn(f64) -> String) -> [String; 2] {
    let Some(at_most) = at_most else {
        return ["-".to_owned(), "reported".to_owned()];
    };
    // Not a number is no measure, and meets nothing.
    let verdict = if measure <= at_most {
        "meets".to_owned()
    } else {
        format!("misses by {}", words(measure - at_most))
    };
    [words(at_most), verdict]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::figures::{ratio, time};

    #[test]
    fn a_measure_meets_its_target_up_to_and_at_it() {
        assert_eq!(beside(1.25, Some(1.25), ratio), ["1.250", "meets"]);
        assert_eq!(beside(1.3, Some(1.25), ratio), ["1.250", "misses by 0.050"]);
        assert_eq!(
            beside(62e-6, Some(50e-6), time),
            ["50.0 µs", "misses by 12.0 µs"]
        );
        assert_eq!(beside(9.0, None, ratio), ["-", "reported"]);
        assert_ne!(beside(f64::NAN, Some(1.0), ratio)[1], "meets");
    }

    #[test]
    fn columns_stand_under_each_other_also_with_signs_of_two_bytes() {
        let mut table = Table::new(&["clip", "time", "verdict"]);
        table.row(["H.264", "1.0 µs", "meets"].map(str::to_owned));
        table.row(["a", "100.0 ms", "misses by 2"].map(str::to_owned));
        let wanted = "\
clip       time  verdict
H.264    1.0 µs  meets
a      100.0 ms  misses by 2
";
        assert_eq!(table.to_string(), wanted);
    }
}
