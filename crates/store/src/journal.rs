//! The journal: acts with their inverses, undo and redo.

use rusqlite::{Connection, OptionalExtension, TransactionBehavior};

use crate::kept::OWN_KEY;
use crate::production::{now, read_revision};
use crate::{Act, Kept, Production, Revision, Stepped, StoreError, kept};

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
        Ok(self.keep(None, words, act)?.revision)
    }

    pub(crate) fn keep(
        &mut self,
        key: Option<&str>,
        words: &str,
        act: &Act,
    ) -> Result<Kept, StoreError> {
        let change = self
            .db
            .transaction_with_behavior(TransactionBehavior::Immediate)?;
        if let Some(before) = known(&change, key)? {
            return Ok(Kept {
                revision: before.revision,
                already: true,
            });
        }
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
        let revision = bump(&change, key, change.last_insert_rowid())?;
        change.commit()?;
        Ok(Kept {
            revision,
            already: false,
        })
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
        Ok(self.step(&UNDO, None)?.words)
    }

    /// Does again the act that was undone last, and gives its words.
    ///
    /// # Errors
    /// [`StoreError::NothingTo`] or [`StoreError::Sql`].
    pub fn redo(&mut self) -> Result<String, StoreError> {
        Ok(self.step(&REDO, None)?.words)
    }

    /// Undoes the last act that is done, once for a key if one is given, and
    /// says what changed by it.
    ///
    /// # Errors
    /// [`StoreError::NothingTo`] or [`StoreError::Sql`].
    pub fn undo_once(&mut self, key: Option<&str>) -> Result<Stepped, StoreError> {
        self.step(&UNDO, key)
    }

    /// Does again the act that was undone last, once for a key if one is given,
    /// and says what changed by it.
    ///
    /// # Errors
    /// [`StoreError::NothingTo`] or [`StoreError::Sql`].
    pub fn redo_once(&mut self, key: Option<&str>) -> Result<Stepped, StoreError> {
        self.step(&REDO, key)
    }

    /// What [`Production::undo`] would undo, in the user's words; nothing when
    /// there is nothing to undo.
    ///
    /// # Errors
    /// [`StoreError::Sql`].
    pub fn next_undo(&self) -> Result<Option<String>, StoreError> {
        let line = next_line(&self.db, &UNDO)?;
        // What was done to film is corrected at the bench.
        let undone = |line: &Line| {
            let act = serde_json::from_str::<Act>(&line.act);
            !act.is_ok_and(|act| act.is_for_good())
        };
        Ok(line.filter(undone).map(|line| line.words))
    }

    /// What [`Production::redo`] would do again, in the user's words; nothing
    /// when there is nothing to redo.
    ///
    /// # Errors
    /// [`StoreError::Sql`].
    pub fn next_redo(&self) -> Result<Option<String>, StoreError> {
        Ok(next_line(&self.db, &REDO)?.map(|line| line.words))
    }

    fn step(&mut self, way: &Way, key: Option<&str>) -> Result<Stepped, StoreError> {
        let change = self
            .db
            .transaction_with_behavior(TransactionBehavior::Immediate)?;
        if let Some(before) = known(&change, key)? {
            return Ok(before);
        }
        let line = next_line(&change, way)?.ok_or(StoreError::NothingTo { what: way.what })?;
        let act: Act = serde_json::from_str(&line.act)?;
        if act.is_for_good() {
            return Err(StoreError::ForGood { words: line.words });
        }
        act.carry_out(&change)?;
        change.execute(
            "UPDATE journal SET state = ?1 WHERE seq = ?2",
            (way.after, line.seq),
        )?;
        let revision = bump(&change, key, line.seq)?;
        change.commit()?;
        Ok(Stepped {
            words: line.words,
            touched: act.touches(),
            revision,
            already: false,
        })
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

/// One of the two ways through the journal.
struct Way {
    what: &'static str,
    line: &'static str,
    after: &'static str,
}

const UNDO: Way = Way {
    what: "undo",
    line: "SELECT seq, words, inverse FROM journal WHERE state = 'done' ORDER BY seq DESC LIMIT 1",
    after: "undone",
};

const REDO: Way = Way {
    what: "redo",
    line: "SELECT seq, words, act FROM journal WHERE state = 'undone' ORDER BY seq LIMIT 1",
    after: "done",
};

struct Line {
    seq: i64,
    words: String,
    act: String,
}

fn next_line(db: &Connection, way: &Way) -> Result<Option<Line>, StoreError> {
    let line = |r: &rusqlite::Row<'_>| {
        Ok(Line {
            seq: r.get(0)?,
            words: r.get(1)?,
            act: r.get(2)?,
        })
    };
    Ok(db
        .prepare_cached(way.line)?
        .query_row([], line)
        .optional()?)
}

fn known(db: &Connection, key: Option<&str>) -> Result<Option<Stepped>, StoreError> {
    key.map_or(Ok(None), |key| kept::find(db, key))
}

/// Counts the change, and writes its key down; one of its own if it has none,
/// so that it is known what every revision has changed.
fn bump(db: &Connection, key: Option<&str>, line: i64) -> Result<Revision, StoreError> {
    db.execute("UPDATE production SET revision = revision + 1", [])?;
    let revision = read_revision(db)?;
    let own = format!("{OWN_KEY}{}", revision.number());
    kept::write(db, key.unwrap_or(&own), line, revision)?;
    Ok(revision)
}
