//! The journal: acts with their inverses, undo and redo.

use rusqlite::{Connection, OptionalExtension, TransactionBehavior};

use crate::production::{now, read_revision};
use crate::{Act, Production, Revision, StoreError};

/// One line of the journal.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct JournalEntry {
    /// Its number; grows.
    pub seq: i64,
    /// When, in UTC.
    pub at: String,
    /// What was done, in the user's words.
    pub words: String,
    /// `done`, `undone` or `dropped` (undone, and something else done since).
    pub state: String,
}

impl Production {
    /// Carries an act out and writes it into the journal, in one transaction.
    ///
    /// When it returns, the act is on the disk. Acts undone before can no
    /// longer be redone then; they stay in the journal as dropped.
    ///
    /// # Errors
    /// Whatever refuses the act; nothing is changed then.
    pub fn act(&mut self, words: &str, act: &Act) -> Result<Revision, StoreError> {
        let change = self
            .db
            .transaction_with_behavior(TransactionBehavior::Immediate)?;
        let inverse = act.carry_out(&change)?;
        change.execute(
            "UPDATE journal SET state = 'dropped' WHERE state = 'undone'",
            [],
        )?;
        change
            .prepare_cached(
                "INSERT INTO journal (at, words, act, inverse, state) VALUES (?1, ?2, ?3, ?4, 'done')",
            )?
            .execute((
                now(),
                words,
                serde_json::to_string(act)?,
                serde_json::to_string(&inverse)?,
            ))?;
        let revision = bump(&change)?;
        change.commit()?;
        Ok(revision)
    }

    /// The same, only if nothing has changed since `seen`.
    ///
    /// # Errors
    /// [`StoreError::Stale`] when it has; otherwise as [`Production::act`].
    pub fn act_on(
        &mut self,
        seen: Revision,
        words: &str,
        act: &Act,
    ) -> Result<Revision, StoreError> {
        let now = self.revision()?;
        if now != seen {
            return Err(StoreError::Stale {
                found: seen.number(),
                now: now.number(),
            });
        }
        self.act(words, act)
    }

    /// Undoes the last act that is done, and gives its words.
    ///
    /// # Errors
    /// [`StoreError::NothingTo`] or [`StoreError::Sql`].
    pub fn undo(&mut self) -> Result<String, StoreError> {
        let last = "SELECT seq, words, inverse FROM journal WHERE state = 'done' ORDER BY seq DESC LIMIT 1";
        self.step("undo", last, "undone")
    }

    /// Does again the act that was undone last, and gives its words.
    ///
    /// # Errors
    /// [`StoreError::NothingTo`] or [`StoreError::Sql`].
    pub fn redo(&mut self) -> Result<String, StoreError> {
        let next =
            "SELECT seq, words, act FROM journal WHERE state = 'undone' ORDER BY seq LIMIT 1";
        self.step("redo", next, "done")
    }

    fn step(&mut self, what: &'static str, query: &str, state: &str) -> Result<String, StoreError> {
        let change = self
            .db
            .transaction_with_behavior(TransactionBehavior::Immediate)?;
        let row: Option<(i64, String, String)> = change
            .query_row(query, [], |r| Ok((r.get(0)?, r.get(1)?, r.get(2)?)))
            .optional()?;
        let (seq, words, act) = row.ok_or(StoreError::NothingTo { what })?;
        let act: Act = serde_json::from_str(&act)?;
        act.carry_out(&change)?;
        change.execute("UPDATE journal SET state = ?1 WHERE seq = ?2", (state, seq))?;
        bump(&change)?;
        change.commit()?;
        Ok(words)
    }

    /// The newest lines of the journal, newest first.
    ///
    /// # Errors
    /// [`StoreError::Sql`].
    pub fn journal(&self, most: u32) -> Result<Vec<JournalEntry>, StoreError> {
        let mut query = self
            .db
            .prepare("SELECT seq, at, words, state FROM journal ORDER BY seq DESC LIMIT ?1")?;
        let rows = query.query_map([most], |r| {
            Ok(JournalEntry {
                seq: r.get(0)?,
                at: r.get(1)?,
                words: r.get(2)?,
                state: r.get(3)?,
            })
        })?;
        Ok(rows.collect::<Result<_, _>>()?)
    }
}

fn bump(db: &Connection) -> Result<Revision, StoreError> {
    db.execute("UPDATE production SET revision = revision + 1", [])?;
    read_revision(db)
}
