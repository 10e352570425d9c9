//! Bringing a production file to the newest form.

use std::path::Path;

use rusqlite::Connection;

use crate::{StoreError, backup, schema};

/// The form a file has; 0 for an empty one.
pub(crate) fn form(db: &Connection) -> Result<u32, StoreError> {
    let number: i64 = db.query_row("PRAGMA user_version", [], |row| row.get(0))?;
    u32::try_from(number).map_err(|_| StoreError::unreadable("the form number", number))
}

/// Runs every step that is missing, each in its own transaction, and keeps a
/// copy of the file as it was before each.
pub(crate) fn to_newest(db: &mut Connection, dir: &Path, steps: &[&str]) -> Result<(), StoreError> {
    let known = u32::try_from(steps.len()).unwrap_or(u32::MAX);
    let found = form(db)?;
    if found > known {
        return Err(StoreError::TooNew { found, known });
    }
    for (index, step) in steps.iter().enumerate().skip(found as usize) {
        if index > 0 {
            let copy = dir.join(format!("production-before-form-{}.db", index + 1));
            backup::copy(db, &copy)?;
        }
        let change = db.transaction()?;
        change.execute_batch(step)?;
        let number = i64::try_from(index + 1).unwrap_or(i64::MAX);
        change.pragma_update(None, "user_version", number)?;
        change.commit()?;
    }
    debug_assert!(steps.len() != schema::STEPS.len() || form(db).ok() == Some(schema::newest()));
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    const LATER: &[&str] = &[
        "CREATE TABLE a (x INTEGER) STRICT; INSERT INTO a VALUES (7);",
        "ALTER TABLE a ADD COLUMN y INTEGER NOT NULL DEFAULT 3;",
    ];

    #[test]
    fn a_file_of_an_older_form_is_brought_forward_and_kept() {
        let dir = tempfile::tempdir().expect("a folder");
        let path = dir.path().join("production.db");
        let mut db = Connection::open(&path).expect("a file");
        to_newest(&mut db, dir.path(), &LATER[..1]).expect("form 1");
        to_newest(&mut db, dir.path(), LATER).expect("form 2");
        let row: (i64, i64) = db
            .query_row("SELECT x, y FROM a", [], |r| Ok((r.get(0)?, r.get(1)?)))
            .expect("the row is still there");
        assert_eq!(row, (7, 3));
        let copy =
            Connection::open(dir.path().join("production-before-form-2.db")).expect("a copy");
        assert_eq!(form(&copy).expect("a form"), 1);
    }

    #[test]
    fn a_file_of_a_later_form_is_left_alone() {
        let dir = tempfile::tempdir().expect("a folder");
        let mut db = Connection::open_in_memory().expect("a file");
        to_newest(&mut db, dir.path(), LATER).expect("form 2");
        let refused = to_newest(&mut db, dir.path(), &LATER[..1]);
        assert!(matches!(
            refused,
            Err(StoreError::TooNew { found: 2, known: 1 })
        ));
    }
}
