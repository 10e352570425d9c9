//! Acts: the only way the state of a production changes.

use rusqlite::Connection;
use serde::{Deserialize, Serialize};

use crate::{ChangeRecord, CutRecord, RollRecord, StoreError, TakeRecord, cuts, rolls, takes};

/// One act on a production.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(tag = "act", rename_all = "snake_case")]
#[non_exhaustive]
pub enum Act {
    /// Put a roll in the place of whatever stood under its name, or take it away.
    PutRoll {
        /// The name of the roll.
        name: String,
        /// What stands there afterwards.
        roll: Option<RollRecord>,
    },
    /// Put all takes of a roll in the place of those it had.
    PutTakes {
        /// The name of the roll.
        roll: String,
        /// Its takes afterwards.
        takes: Vec<TakeRecord>,
    },
    /// Put a whole cut in the place of whatever stood under its name, or take
    /// it away.
    PutCut {
        /// The name of the version.
        name: String,
        /// What stands there afterwards.
        cut: Option<CutRecord>,
    },
    /// Change a cut.
    ChangeCut {
        /// The name of the version.
        name: String,
        /// The change.
        change: ChangeRecord,
    },
    /// Several acts as one, in order.
    All {
        /// In order.
        acts: Vec<Act>,
    },
}

impl Act {
    /// Carries the act out inside the caller's transaction, and gives the act
    /// that undoes it.
    pub(crate) fn carry_out(&self, db: &Connection) -> Result<Self, StoreError> {
        match self {
            Self::PutRoll { name, roll } => {
                let before = rolls::put(db, name, roll.as_ref())?;
                Ok(Self::PutRoll {
                    name: name.clone(),
                    roll: before,
                })
            }
            Self::PutTakes { roll, takes } => {
                let before = takes::put(db, roll, takes)?;
                Ok(Self::PutTakes {
                    roll: roll.clone(),
                    takes: before,
                })
            }
            Self::PutCut { name, cut } => {
                let before = cuts::put(db, name, cut.as_ref())?;
                Ok(Self::PutCut {
                    name: name.clone(),
                    cut: before,
                })
            }
            Self::ChangeCut { name, change } => {
                let inverse = cuts::change(db, name, change)?;
                Ok(Self::ChangeCut {
                    name: name.clone(),
                    change: inverse,
                })
            }
            Self::All { acts } => carry_out_all(acts, db),
        }
    }
}

fn carry_out_all(acts: &[Act], db: &Connection) -> Result<Act, StoreError> {
    let mut inverses = Vec::with_capacity(acts.len());
    for act in acts {
        inverses.push(act.carry_out(db)?);
    }
    inverses.reverse();
    Ok(Act::All { acts: inverses })
}
