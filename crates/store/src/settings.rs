//! What a person has set for the whole production: words under a name.

use rusqlite::{Connection, OptionalExtension};

use crate::{Production, StoreError};

impl Production {
    /// What was set under a name, as it was given; nothing when nothing was.
    ///
    /// # Errors
    /// [`StoreError::Sql`].
    pub fn setting(&self, name: &str) -> Result<Option<String>, StoreError> {
        get(&self.db, name)
    }

    /// Keeps words under a name, or strikes them off, that are no decision on the film:
    /// they stand in no journal, and undo knows nothing of them.
    ///
    /// # Errors
    /// [`StoreError::Sql`].
    pub fn keep_beside(&self, name: &str, value: Option<&str>) -> Result<(), StoreError> {
        put(&self.db, name, value)?;
        Ok(())
    }
}

fn get(db: &Connection, name: &str) -> Result<Option<String>, StoreError> {
    Ok(db
        .prepare_cached("SELECT value FROM setting WHERE name = ?1")?
        .query_row([name], |r| r.get(0))
        .optional()?)
}

/// Sets, or strikes off, and gives what stood there.
pub(crate) fn put(
    db: &Connection,
    name: &str,
    value: Option<&str>,
) -> Result<Option<String>, StoreError> {
    let before = get(db, name)?;
    match value {
        None => db.execute("DELETE FROM setting WHERE name = ?1", [name])?,
        Some(value) => db.execute(
            "INSERT INTO setting (name, value) VALUES (?1, ?2)
             ON CONFLICT (name) DO UPDATE SET value = ?2",
            (name, value),
        )?,
    };
    Ok(before)
}
