//! What the reading of a roll found.

use onestrand_inspect::{Finding, takes_from};

use crate::documents::{
    AnomalyDocument, FileDocument, RollReport, SignDocument, TakeDocument, WarningDocument,
};

/// What the reading of a roll found.
#[derive(Debug)]
pub(crate) struct Reading {
    pub(crate) frames: u32,
    pub(crate) missing: u32,
    pub(crate) map: Vec<Option<(u32, u64)>>,
    pub(crate) files: Vec<FileDocument>,
    pub(crate) anomalies: Vec<AnomalyDocument>,
    pub(crate) warnings: Vec<WarningDocument>,
    pub(crate) findings: Vec<Finding>,
}

impl Reading {
    pub(crate) fn takes(&self) -> Vec<TakeDocument> {
        takes_from(&self.findings, self.frames)
            .iter()
            .map(|take| TakeDocument {
                first: take.from,
                thrown: take.until,
                begins: take.begins.word(),
                flash_frames: take.flash_frames,
                flash_stops: rounded(take.flash_stops),
            })
            .collect()
    }

    /// What is kept beside the workprint.
    pub(crate) fn report(&self) -> RollReport {
        RollReport {
            signs: self.signs(),
            anomalies: self.anomalies.clone(),
            warnings: self.warnings.clone(),
        }
    }

    pub(crate) fn signs(&self) -> Vec<SignDocument> {
        let one = |finding: &Finding| match *finding {
            Finding::Fog { from, until } => Some(SignDocument {
                kind: "fog".to_owned(),
                first: from,
                thrown: until,
                measure: f64::from(until - from),
                unit: "frames".to_owned(),
                place: None,
            }),
            Finding::Flash { at, frames, stops } => Some(SignDocument {
                kind: "flash".to_owned(),
                first: at,
                thrown: at + frames,
                measure: rounded(stops),
                unit: "stops over the take".to_owned(),
                place: None,
            }),
            _ => None,
        };
        self.findings.iter().filter_map(one).collect()
    }
}

/// A measured value to a hundredth: more is noise.
fn rounded(value: f32) -> f64 {
    (f64::from(value) * 100.0).round() / 100.0
}
