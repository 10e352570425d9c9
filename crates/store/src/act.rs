//! Acts: the only way the state of a production changes.

use std::collections::BTreeSet;

use rusqlite::Connection;
use serde::{Deserialize, Serialize};

use crate::{
    ChangeRecord, CutRecord, DubRecord, HungTake, NoteRecord, ReelRecord, RollRecord, ScriptRecord,
    StoreError, TakeRecord, TitleRecord, bench_lines, cuts, dub, notes, pins, reels, rolls, script,
    settings, takes, titles,
};

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
        roll: Option<Box<RollRecord>>,
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
    /// Hang takes on other pins of the trim bin, all at once.
    Hang {
        /// The takes and their pins afterwards.
        pins: Vec<HungTake>,
    },
    /// Put a reel or can in the place of whatever stood under its name, or take
    /// it away.
    PutReel {
        /// What it is called.
        name: String,
        /// What stands there afterwards.
        reel: Option<ReelRecord>,
    },
    /// Put a note in the place of whatever stood under its number, or take it
    /// away.
    PutNote {
        /// Its number, from [`crate::Production::next_note_id`] for a new one; chosen
        /// by the caller, so that a redo gives the same.
        id: i64,
        /// What stands there afterwards.
        note: Option<NoteRecord>,
    },
    /// Put a part of the script in the place of whatever stood under its number, or
    /// take it away.
    PutScript {
        /// Its number, from [`crate::Production::next_script_id`] for a new one; chosen
        /// by the caller, so that a redo gives the same.
        id: i64,
        /// What stands there afterwards.
        part: Option<Box<ScriptRecord>>,
    },
    /// Put a title in the place of whatever stood under its number, or take it away.
    PutTitle {
        /// Its number, from [`crate::Production::next_title_id`] for a new one; chosen by
        /// the caller, so that a redo gives the same.
        id: i64,
        /// What stands there afterwards.
        title: Option<TitleRecord>,
    },
    /// Put a part of the sound in the place of whatever stood under its number, or take it
    /// away.
    PutDub {
        /// Its number, from [`crate::Production::next_dub_id`] for a new one; chosen by the
        /// caller, so that a redo gives the same.
        id: i64,
        /// What stands there afterwards.
        part: Option<Box<DubRecord>>,
    },
    /// Set something for the whole production, or strike it off.
    PutSetting {
        /// Its name.
        name: String,
        /// What stands there afterwards.
        value: Option<String>,
    },
    /// Write lines into the log of the bench. What was done to film is not undone:
    /// undo stops before it.
    WriteBench {
        /// Who writes: empty on the main machine, else the name of a tablet.
        by: String,
        /// The lines, in order.
        lines: Vec<String>,
    },
    /// Several acts as one, in order.
    All {
        /// In order.
        acts: Vec<Act>,
    },
}

/// What an act changes, so that whoever shows it knows to look again.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[non_exhaustive]
pub enum Touched {
    /// The roll of this name: its facts or its scans.
    Roll(String),
    /// The takes of the roll of this name.
    Takes(String),
    /// The version of this name.
    Cut(String),
    /// The notes on frames.
    Notes,
    /// The reel or can of this name.
    Reel(String),
    /// The part of the script with this number.
    Script(i64),
    /// The title with this number.
    Title(i64),
    /// The part of the sound with this number.
    Dub(i64),
    /// What is set for the whole production under this name.
    Setting(String),
    /// The log of the bench.
    Bench,
}

impl Act {
    /// What it changes.
    #[must_use]
    pub fn touches(&self) -> BTreeSet<Touched> {
        match self {
            Self::PutRoll { name, .. } => BTreeSet::from([Touched::Roll(name.clone())]),
            Self::PutTakes { roll, .. } => BTreeSet::from([Touched::Takes(roll.clone())]),
            Self::PutCut { name, .. } | Self::ChangeCut { name, .. } => {
                BTreeSet::from([Touched::Cut(name.clone())])
            }
            Self::Hang { pins } => pins
                .iter()
                .map(|hung| Touched::Takes(hung.roll.clone()))
                .collect(),
            Self::PutReel { name, .. } => BTreeSet::from([Touched::Reel(name.clone())]),
            Self::PutSetting { name, .. } => BTreeSet::from([Touched::Setting(name.clone())]),
            Self::PutNote { .. } => BTreeSet::from([Touched::Notes]),
            Self::PutScript { id, .. } => BTreeSet::from([Touched::Script(*id)]),
            Self::PutTitle { id, .. } => BTreeSet::from([Touched::Title(*id)]),
            Self::PutDub { id, .. } => BTreeSet::from([Touched::Dub(*id)]),
            Self::WriteBench { .. } => BTreeSet::from([Touched::Bench]),
            Self::All { acts } => acts.iter().flat_map(Self::touches).collect(),
        }
    }

    /// Whether it, or a part of it, was done to film and is not undone.
    #[must_use]
    pub fn is_for_good(&self) -> bool {
        match self {
            Self::WriteBench { .. } => true,
            Self::All { acts } => acts.iter().any(Self::is_for_good),
            _ => false,
        }
    }

    /// Carries the act out inside the caller's transaction, and gives the act
    /// that undoes it.
    pub(crate) fn carry_out(&self, db: &Connection) -> Result<Self, StoreError> {
        match self {
            Self::PutRoll { name, roll } => {
                let before = rolls::put(db, name, roll.as_deref())?;
                Ok(Self::PutRoll {
                    name: name.clone(),
                    roll: before.map(Box::new),
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
            Self::PutSetting { name, value } => {
                let before = settings::put(db, name, value.as_deref())?;
                Ok(Self::PutSetting {
                    name: name.clone(),
                    value: before,
                })
            }
            Self::ChangeCut { name, change } => {
                let inverse = cuts::change(db, name, change)?;
                Ok(Self::ChangeCut {
                    name: name.clone(),
                    change: inverse,
                })
            }
            Self::Hang { pins } => Ok(Self::Hang {
                pins: pins::hang(db, pins)?,
            }),
            Self::PutReel { name, reel } => {
                let before = reels::put(db, name, reel.as_ref())?;
                Ok(Self::PutReel {
                    name: name.clone(),
                    reel: before,
                })
            }
            Self::PutNote { id, note } => {
                let before = notes::put(db, *id, note.as_ref())?;
                Ok(Self::PutNote {
                    id: *id,
                    note: before,
                })
            }
            Self::PutScript { id, part } => {
                let before = script::put(db, *id, part.as_deref())?;
                Ok(Self::PutScript {
                    id: *id,
                    part: before.map(Box::new),
                })
            }
            Self::PutTitle { id, title } => Ok(Self::PutTitle {
                id: *id,
                title: titles::put(db, *id, title.as_ref())?,
            }),
            Self::PutDub { id, part } => Ok(Self::PutDub {
                id: *id,
                part: dub::put(db, *id, part.as_deref())?.map(Box::new),
            }),
            Self::WriteBench { by, lines } => {
                bench_lines::add(db, by, lines)?;
                Ok(self.clone())
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
