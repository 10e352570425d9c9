//! Changes that have a name of their own, so that one sent twice is carried out
//! once.
//!
//! A page that has sent a change and lost the answer, because the program was
//! killed between the two, cannot know whether it was kept. It sends the change
//! again under the same key, and the key, written in the same transaction as the
//! change, tells.

use std::collections::BTreeSet;

use rusqlite::{Connection, OptionalExtension};

use crate::production::now;
use crate::{Act, Production, Revision, StoreError, Touched};

/// How many changes back a key is still known. A page asks again within
/// seconds; this is days of cutting.
const KNOWN: u64 = 10_000;

/// What the key of a change begins with to which none was given. No key that is
/// given may begin so.
pub(crate) const OWN_KEY: char = '#';

/// How many changes back a newly opened production tells what they touched: as
/// far as any window that still stands open will have looked.
const TOLD: u32 = 1_000;

/// What the last changes have touched.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Lately {
    /// Of all changes after this revision it is known.
    pub after: Revision,
    /// What each of them touched, newest first.
    pub touched: Vec<(Revision, BTreeSet<Touched>)>,
}

/// That a change is kept.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Kept {
    /// The revision it led to.
    pub revision: Revision,
    /// Whether it was kept before, and nothing was done now.
    pub already: bool,
}

/// A step through the journal, or any change that was kept under a key.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Stepped {
    /// What was done, undone or done again, in the user's words.
    pub words: String,
    /// What it changed.
    pub touched: BTreeSet<Touched>,
    /// The revision it led to.
    pub revision: Revision,
    /// Whether it was kept before, and nothing was done now.
    pub already: bool,
}

impl Production {
    /// Carries an act out as [`Production::act`] does, once for a key.
    ///
    /// When a change was kept under the key before, whatever it was, nothing is
    /// done. A key is known for 10,000 changes; it must not begin with `#`.
    ///
    /// # Errors
    /// As [`Production::act`]; a refused act leaves no key.
    pub fn act_once(&mut self, key: &str, words: &str, act: &Act) -> Result<Kept, StoreError> {
        self.keep(Some(key), words, act)
    }

    /// The change that was kept under a key, if there was one: asked before a
    /// change is worked out that would not fit a second time.
    ///
    /// # Errors
    /// [`StoreError::Sql`].
    pub fn kept(&self, key: &str) -> Result<Option<Stepped>, StoreError> {
        find(&self.db, key)
    }

    /// What the last changes have touched, whoever made them and whenever, as
    /// far back as it is known without a gap, and a thousand at most.
    ///
    /// # Errors
    /// [`StoreError::Sql`] or [`StoreError::Json`].
    pub fn lately(&self) -> Result<Lately, StoreError> {
        let mut query = self.db.prepare(
            "SELECT revision, act FROM kept_key JOIN journal ON seq = line ORDER BY revision DESC LIMIT ?1",
        )?;
        let rows = query.query_map([TOLD], |r| Ok((r.get(0)?, r.get(1)?)))?;
        let mut lately = Lately {
            after: self.revision()?,
            touched: Vec::new(),
        };
        for row in rows {
            let (revision, act): (i64, String) = row?;
            // A form of the file before this one did not write all down.
            if u64::try_from(revision) != Ok(lately.after.number()) {
                break;
            }
            let act: Act = serde_json::from_str(&act)?;
            lately.touched.push((lately.after, act.touches()));
            lately.after = Revision(lately.after.number().saturating_sub(1));
        }
        Ok(lately)
    }
}

pub(crate) fn find(db: &Connection, key: &str) -> Result<Option<Stepped>, StoreError> {
    let found: Option<(i64, String, String)> = db
        .prepare_cached(
            "SELECT revision, words, act FROM kept_key JOIN journal ON seq = line WHERE key = ?1",
        )?
        .query_row([key], |r| Ok((r.get(0)?, r.get(1)?, r.get(2)?)))
        .optional()?;
    let Some((revision, words, act)) = found else {
        return Ok(None);
    };
    let act: Act = serde_json::from_str(&act)?;
    Ok(Some(Stepped {
        words,
        touched: act.touches(),
        revision: Revision(u64::try_from(revision).unwrap_or(0)),
        already: true,
    }))
}

/// Writes down that the change under a key was kept, inside the transaction of
/// the change, and forgets the keys that are too old.
pub(crate) fn write(
    db: &Connection,
    key: &str,
    line: i64,
    revision: Revision,
) -> Result<(), StoreError> {
    let signed = |n: u64| i64::try_from(n).unwrap_or(i64::MAX);
    db.prepare_cached("INSERT INTO kept_key (key, line, revision, at) VALUES (?1,?2,?3,?4)")?
        .execute((key, line, signed(revision.number()), now()))?;
    db.prepare_cached("DELETE FROM kept_key WHERE revision <= ?1")?
        .execute([signed(revision.number().saturating_sub(KNOWN))])?;
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_key_is_known_for_so_many_changes_and_then_forgotten() {
        let db = Connection::open_in_memory().expect("a file");
        for step in crate::schema::STEPS {
            db.execute_batch(step).expect("the newest form");
        }
        let act = r#"{"act":"put_cut","name":"v1","cut":null}"#;
        db.execute(
            "INSERT INTO journal (seq, at, words, act, inverse, state) VALUES (1, '', 'x', ?1, ?1, 'done')",
            [act],
        )
        .expect("a line");
        write(&db, "first", 1, Revision(1)).expect("written");
        write(&db, "last but one", 1, Revision(KNOWN)).expect("written");
        assert!(find(&db, "first").expect("asked").is_some());
        write(&db, "last", 1, Revision(KNOWN + 1)).expect("written");
        assert_eq!(find(&db, "first").expect("asked"), None);
        let left = find(&db, "last but one").expect("asked").expect("known");
        assert_eq!((left.revision, left.already), (Revision(KNOWN), true));
        assert_eq!(
            left.touched,
            BTreeSet::from([Touched::Cut("v1".to_owned())])
        );
    }
}
