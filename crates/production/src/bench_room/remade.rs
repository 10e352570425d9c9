//! Another version of the film that is made: what it is made of, and what it costs.

use onestrand_bench::{NoOrder, Recut, Remade, Winding};
use onestrand_cut::{Strips, TrialCut, check};
use onestrand_store::{CutRecord, Production};

use super::begin::{MOST_PINS, lengths, no_order};
use super::line::{Begin, BenchLine, TurnBack};
use super::room::{MadeAs, Room};
use super::write::Said;
use crate::documents::RemadeDocument;
use crate::{ProductionError, strand};

/// A version as it can be made of the film on the reel.
struct Remake {
    version: TrialCut,
    strips: Strips,
    others: Vec<(usize, usize)>,
}

impl Room {
    /// The version that the film on the reel was made as; none while the reel is empty.
    pub(super) fn made(&self) -> Option<&MadeAs> {
        let made = self.made_as.as_ref();
        made.filter(|_| !self.log.state().reel().is_empty())
    }

    fn remake(&self, made: &MadeAs, checked: &strand::Checked) -> Remake {
        let (reel, table) = (self.log.state().reel(), self.log.table());
        let version = Recut::as_was_made(reel, &made.version, &checked.cut, table);
        // What was let be on the reel may be in the way of another piece: then the
        // version stands as it was planned.
        let version = match check(&version, &checked.strand, &checked.rules).is_ok() {
            true => version,
            false => Recut::as_made(&made.version, &checked.cut, table),
        };
        Remake {
            others: Recut::others(&made.version, &version, table),
            strips: Strips::of(&version, table),
            version,
        }
    }

    fn price(&self, remake: &Remake, pins: u32) -> Result<Remade, NoOrder> {
        let (state, table) = (self.log.state(), self.log.table());
        Remade::of(state, &remake.others, &remake.strips, table, pins)
    }
}

/// Another version goes on the bench: the reel is turned back, run from head to tail,
/// and only what differs is opened.
pub(super) fn begin_remake(
    production: &Production,
    room: &Room,
    made: &MadeAs,
    (cut, pins): (&str, u32),
) -> Result<Said, ProductionError> {
    let checked = strand::cuttable(production, cut, None)?;
    let remake = room.remake(made, &checked);
    let price = room.price(&remake, pins).map_err(no_order)?;
    let begin = Begin {
        cut: cut.to_owned(),
        version: CutRecord::new(&remake.version, ""),
        winding: Winding::OnePass.code().to_owned(),
        pins,
        rolls: lengths(&checked.strand),
        order: price.order.order.into_iter().map(Into::into).collect(),
        through: Vec::new(),
        turn_back: Some(TurnBack {
            before: room.log.state().turned_back(),
            others: remake.others,
        }),
    };
    let words = format!("{cut} goes on the bench, made of {}", made.name);
    Ok((words, vec![BenchLine::Begin(Box::new(begin))]))
}

/// What a version costs, made of the film on the reel; none while no film is there, or
/// when the reel is of another version than `from`, where one is asked for.
pub(crate) fn remade(
    production: &Production,
    from: &str,
    to: &str,
) -> Result<Option<RemadeDocument>, ProductionError> {
    let room = Room::of(production)?;
    let Some(made) = room.made().filter(|m| m.name == from) else {
        return Ok(None);
    };
    room.remade(production, made, to)
}

impl Room {
    /// The same in a room that is read already.
    pub(super) fn remade(
        &self,
        production: &Production,
        made: &MadeAs,
        to: &str,
    ) -> Result<Option<RemadeDocument>, ProductionError> {
        let checked = strand::checked(production, to, None)?;
        let film = checked.cut.pieces().iter().any(|p| p.span().is_some());
        if !checked.refused.is_empty() || !film {
            return Ok(None);
        }
        let remake = self.remake(made, &checked);
        // The price does not hang on the pins. Where there is no order at all, the room is
        // shown without it, and beginning the version says why.
        let Ok(price) = self.price(&remake, MOST_PINS) else {
            return Ok(None);
        };
        Ok(Some(RemadeDocument {
            from: made.name.clone(),
            opened: price.opened,
            made: price.made,
            kept: price.kept,
            cuts: price.cuts,
            lost: price.lost,
            lost_outs: price.lost_outs,
            missing: price.missing,
            frames: price.frames,
            pins: price.order.pins_peak,
            roll_changes: price.order.roll_changes,
            wound_frames: price.order.wound,
        }))
    }
}
