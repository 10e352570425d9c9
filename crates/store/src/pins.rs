//! The trim bin: which take hangs on which pin.

use std::collections::BTreeSet;

use rusqlite::Connection;
use serde::{Deserialize, Serialize};

use crate::{Production, StoreError, TakeRecord};

/// A take on a pin.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct HungTake {
    /// Its roll.
    pub roll: String,
    /// Its first frame.
    pub first: u32,
    /// The pin, counted from 1.
    pub pin: u32,
}

impl Production {
    /// All takes by their pins.
    ///
    /// # Errors
    /// [`StoreError::Sql`].
    pub fn pins(&self) -> Result<Vec<HungTake>, StoreError> {
        let mut query = self
            .db
            .prepare_cached("SELECT roll, first, pin FROM take WHERE pin > 0 ORDER BY pin")?;
        let rows = query.query_map([], |row| {
            Ok(HungTake {
                roll: row.get(0)?,
                first: row.get(1)?,
                pin: row.get(2)?,
            })
        })?;
        Ok(rows.collect::<Result<_, _>>()?)
    }
}

/// The pins for the takes that are about to be put, those they stand in the
/// place of being gone already.
///
/// A take keeps the pin it says, else the one that the take at its first frame
/// had, unless another holds it; whoever is left gets the lowest that is free,
/// in the order of the roll.
pub(crate) fn for_takes(
    db: &Connection,
    takes: &[TakeRecord],
    before: &[TakeRecord],
) -> Result<Vec<u32>, StoreError> {
    let mut held: BTreeSet<u32> = db
        .prepare_cached("SELECT pin FROM take WHERE pin > 0")?
        .query_map([], |row| row.get(0))?
        .collect::<Result<_, _>>()?;
    let mut pins: Vec<Option<u32>> = takes
        .iter()
        .map(|take| take.pin.filter(|pin| *pin > 0 && held.insert(*pin)))
        .collect();
    for (take, pin) in takes.iter().zip(&mut pins) {
        let stood = before.iter().find(|b| b.first == take.first);
        if pin.is_none() {
            *pin = stood.and_then(|b| b.pin).filter(|pin| held.insert(*pin));
        }
    }
    let mut free = (1..).filter(|pin| !held.contains(pin));
    let next = |pin: Option<u32>| pin.or_else(|| free.next()).unwrap_or(u32::MAX);
    Ok(pins.into_iter().map(next).collect())
}

/// Hangs takes anew, and gives how they hung before.
///
/// A pin holds one take: what would hang two on one is refused, since a roll
/// whose takes are put back could then not hang as it did.
pub(crate) fn hang(db: &Connection, pins: &[HungTake]) -> Result<Vec<HungTake>, StoreError> {
    let mut before = Vec::with_capacity(pins.len());
    for hung in pins {
        let pin = db
            .prepare_cached("SELECT pin FROM take WHERE roll = ?1 AND first = ?2")?
            .query_row((&hung.roll, hung.first), |row| row.get(0));
        let pin = match pin {
            Err(rusqlite::Error::QueryReturnedNoRows) => {
                return Err(StoreError::NotFound {
                    what: "take",
                    name: format!("{}\u{b7}{}", hung.roll, hung.first),
                });
            }
            other => other?,
        };
        before.push(HungTake {
            pin,
            ..hung.clone()
        });
    }
    for hung in pins {
        db.prepare_cached("UPDATE take SET pin = ?3 WHERE roll = ?1 AND first = ?2")?
            .execute((&hung.roll, hung.first, hung.pin))?;
    }
    let twice = db
        .prepare_cached("SELECT pin FROM take WHERE pin > 0 GROUP BY pin HAVING COUNT(*) > 1")?
        .query_row([], |row| row.get(0));
    match twice {
        Err(rusqlite::Error::QueryReturnedNoRows) => Ok(before),
        Err(other) => Err(other.into()),
        Ok(pin) => Err(StoreError::PinTaken { pin }),
    }
}
