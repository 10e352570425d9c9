//! What was written down at the bench, and its fold.

use onestrand_cut::JoinTable;
use onestrand_film::RollId;

use super::{BenchState, CannotBe, Deed};

/// One line of the log.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Entry {
    /// Something was done.
    Deed(Deed),
    /// An earlier line was wrong: it had not been done.
    Strike {
        /// The line, from 0.
        entry: usize,
    },
}

/// The log of a bench. Lines are added and never changed.
#[derive(Debug, Clone, PartialEq)]
pub struct BenchLog {
    rolls: Vec<(RollId, u32)>,
    table: JoinTable,
    entries: Vec<Entry>,
    state: BenchState,
}

impl BenchLog {
    /// An empty log of a bench with these rolls and this table of joins.
    #[must_use]
    pub fn new(rolls: Vec<(RollId, u32)>, table: JoinTable) -> Self {
        Self {
            state: BenchState::new(rolls.clone()),
            rolls,
            table,
            entries: Vec::new(),
        }
    }

    /// A log with these lines, as it was kept.
    ///
    /// # Errors
    /// [`CannotBe`] when the lines contradict each other.
    pub fn read(
        rolls: Vec<(RollId, u32)>,
        table: JoinTable,
        entries: Vec<Entry>,
    ) -> Result<Self, CannotBe> {
        let mut log = Self::new(rolls, table);
        log.state = log.fold(&entries).map_err(|(_, why)| why)?;
        log.entries = entries;
        Ok(log)
    }

    /// The lines, oldest first.
    #[must_use]
    pub fn entries(&self) -> &[Entry] {
        &self.entries
    }

    /// The table of joins that the log is read with.
    #[must_use]
    pub const fn table(&self) -> &JoinTable {
        &self.table
    }

    /// The bench after the last line.
    #[must_use]
    pub const fn state(&self) -> &BenchState {
        &self.state
    }

    /// Whether a line was struck out by a later one.
    #[must_use]
    pub fn is_struck(&self, entry: usize) -> bool {
        struck(&self.entries).any(|e| e == entry)
    }

    /// The last deed that stands.
    #[must_use]
    pub fn last(&self) -> Option<usize> {
        let stands = |i: &usize| matches!(self.entries[*i], Entry::Deed(_)) && !self.is_struck(*i);
        (0..self.entries.len()).rev().find(stands)
    }

    /// The bench as it was thought to be after so many lines.
    ///
    /// # Errors
    /// [`CannotBe`] when the lines contradict each other, which those added with
    /// [`BenchLog::add`] never do.
    pub fn at(&self, lines: usize) -> Result<BenchState, CannotBe> {
        let lines = lines.min(self.entries.len());
        self.fold(&self.entries[..lines]).map_err(|(_, why)| why)
    }

    /// Adds a line.
    ///
    /// # Errors
    /// [`CannotBe`] when it cannot be true; nothing is added then.
    pub fn add(&mut self, entry: Entry) -> Result<(), CannotBe> {
        let number = self.entries.len();
        match &entry {
            Entry::Deed(deed) => {
                let mut state = self.state.clone();
                state.apply(deed, &self.table, number)?;
                self.state = state;
                self.entries.push(entry);
            }
            Entry::Strike { entry: of } => {
                let is_deed = matches!(self.entries.get(*of), Some(Entry::Deed(_)));
                if !is_deed || self.is_struck(*of) {
                    return Err(CannotBe::NoEntry { entry: of + 1 });
                }
                let struck = of + 1;
                self.entries.push(entry);
                match self.fold(&self.entries) {
                    Ok(state) => self.state = state,
                    Err((later, _)) => {
                        self.entries.pop();
                        let later = later + 1;
                        return Err(CannotBe::LaterHoldsOn {
                            entry: struck,
                            later,
                        });
                    }
                }
            }
        }
        Ok(())
    }

    fn fold(&self, entries: &[Entry]) -> Result<BenchState, (usize, CannotBe)> {
        let out: Vec<usize> = struck(entries).collect();
        let mut state = BenchState::new(self.rolls.clone());
        for (number, entry) in entries.iter().enumerate() {
            if let Entry::Deed(deed) = entry
                && !out.contains(&number)
            {
                let done = state.apply(deed, &self.table, number);
                done.map_err(|why| (number, why))?;
            }
        }
        Ok(state)
    }
}

fn struck(entries: &[Entry]) -> impl Iterator<Item = usize> {
    entries.iter().filter_map(|e| match e {
        Entry::Strike { entry } => Some(*entry),
        Entry::Deed(_) => None,
    })
}
