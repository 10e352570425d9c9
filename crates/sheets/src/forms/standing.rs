//! What stands at a position of the cut, as its row shows it.

use serde::Serialize;

use super::Press;
use super::record::FrameRecord;
use crate::cutting::Standing;
use crate::{SheetError, words};

/// The pictures and the names of a row.
#[derive(Serialize)]
pub(super) struct StandingRecord {
    /// First and last picture; empty for leader and card.
    pictures: Vec<FrameRecord>,
    kind: &'static str,
    slate: String,
    action: String,
    /// The frames on the roll, first and last kept.
    on_roll: String,
}

impl StandingRecord {
    pub(super) fn of(what: &Standing, press: &mut Press) -> Result<Self, SheetError> {
        let mut record = Self {
            pictures: Vec::new(),
            kind: "piece",
            slate: String::new(),
            action: String::new(),
            on_roll: String::new(),
        };
        match what {
            Standing::Piece(piece) => {
                let (first, last) = (piece.span.first(), piece.span.last());
                record.slate = words::plain(&piece.slate);
                record.action = words::plain(&piece.action);
                record.on_roll = format!("{first} to {}", last.frame);
                record.pictures = vec![
                    press.frame("first frame kept", &first, piece.first.as_deref())?,
                    press.frame("last frame kept", &last, piece.last.as_deref())?,
                ];
            }
            Standing::Leader { .. } => {
                record.kind = "leader";
                record.action = "leader".to_owned();
            }
            Standing::Card { title, .. } => {
                record.kind = "card";
                record.slate = "card to shoot".to_owned();
                record.action = words::plain(title);
            }
        }
        Ok(record)
    }

    /// How much is to be read in it. Unit: bytes of text.
    pub(super) fn words_long(&self) -> usize {
        self.slate.len() + self.action.len()
    }
}

/// What a person wrote of it.
pub(super) fn written(what: &Standing) -> Vec<&str> {
    match what {
        Standing::Piece(piece) => vec![piece.slate.as_str(), piece.action.as_str()],
        Standing::Card { title, .. } => vec![title],
        Standing::Leader { .. } => Vec::new(),
    }
}
