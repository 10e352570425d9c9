//! A sum that anybody with a pencil can check.

/// One step of a sum: the formula, the figures put in, what comes out.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OpenedSum {
    /// What is reckoned: `far limit`.
    pub what: &'static str,
    /// The formula in words and signs.
    pub formula: &'static str,
    /// The same with the figures put in.
    pub figures: String,
    /// What comes out, with its unit.
    pub comes: String,
    /// Where the formula or its constant is from.
    pub source: &'static str,
}

/// A value with the sum behind it, opened.
#[derive(Debug, Clone, PartialEq)]
pub struct Reckoned<T> {
    /// What was asked for.
    pub value: T,
    /// The steps, in the order in which one would reckon.
    pub sums: Vec<OpenedSum>,
    /// What was taken for granted, each with its source or its doubt.
    pub taken: Vec<String>,
}
