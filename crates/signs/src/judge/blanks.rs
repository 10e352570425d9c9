//! Frames that are black or clear.

use crate::kept::KeptFrame;
use crate::limits::SignLimits;
use crate::record::SignRecord;
use crate::sign::{Sign, SignKind};
use crate::spans::{RunRule, greatest, runs};

pub(super) fn of_roll(record: &SignRecord, limits: &SignLimits) -> Vec<Sign> {
    let rule = RunRule {
        enter: limits.blank_above,
        stay: limits.blank_above,
        gap: 0,
        shortest: 1,
    };
    let mut signs = Vec::new();
    for kind in [SignKind::Black, SignKind::Clear] {
        let share = |frame: &KeptFrame| match kind {
            SignKind::Black => frame.black,
            _ => frame.white,
        };
        let shares: Vec<f32> = record.frames.iter().map(share).collect();
        for span in runs(&shares, 0, rule) {
            let most = greatest(span.clone(), |at| shares[at]);
            let before = span.start.checked_sub(1);
            let after = Some(span.end).filter(|&at| at < shares.len());
            let mean = shares[span.clone()].iter().sum::<f32>() / span.len() as f32;
            signs.push(Sign::new(kind, span, mean).beside(most, before.or(after)));
        }
    }
    signs
}
