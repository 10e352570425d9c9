//! From measures to signs: one file for each kind, and all of them asked in
//! turn.

mod blanks;
mod dust;
mod exposure;
mod flicker;
mod fogs;
mod hairs;
mod lines;
mod soft;
mod steadiness;
mod track;

use crate::limits::SignLimits;
use crate::record::{SignRecord, Take};
use crate::sign::Sign;

/// Every sign of every kind.
pub(crate) fn all(record: &SignRecord, takes: &[Take], limits: &SignLimits) -> Vec<Sign> {
    let mut signs = Vec::new();
    let weave = steadiness::usual_weave(record, takes);
    for take in takes {
        signs.extend(soft::of_take(record, take, limits));
        signs.extend(exposure::of_take(record, take, limits));
        signs.extend(steadiness::of_take(record, take, weave, limits));
        signs.extend(fogs::of_take(record, take, limits));
        signs.extend(flicker::of_take(record, take, limits));
        signs.extend(dust::of_take(record, take, limits));
    }
    signs.extend(blanks::of_roll(record, limits));
    signs.extend(hairs::of_roll(record, takes, limits));
    signs.extend(lines::of_roll(record, takes, limits));
    signs
}
