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

use crate::record::{SignRecord, Take};
use crate::settings::SignSettings;
use crate::sign::Sign;

/// Every sign of every kind.
pub(crate) fn all(record: &SignRecord, takes: &[Take], settings: &SignSettings) -> Vec<Sign> {
    let mut signs = Vec::new();
    let weave = steadiness::usual_weave(record, takes);
    for take in takes {
        signs.extend(soft::of_take(record, take, settings));
        signs.extend(exposure::of_take(record, take, settings));
        signs.extend(steadiness::of_take(record, take, weave, settings));
        signs.extend(fogs::of_take(record, take, settings));
        signs.extend(flicker::of_take(record, take, settings));
        signs.extend(dust::of_take(record, take, settings));
    }
    signs.extend(blanks::of_roll(record, settings));
    signs.extend(hairs::of_roll(record, takes, settings));
    signs.extend(lines::of_roll(record, takes, settings));
    signs
}
