//! The ways out of one conflict of many, looked for when somebody stands at it.

use onestrand_cut::{CheckRules, Strand, TakeTwins, TrialCut, WaysOut, check};
use onestrand_store::{Production, StoreError};
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use crate::documents::{CutChange, RemedyDocument, WaysDocument};
use crate::error::unfit;
use crate::on_action::KnownTwins;
use crate::{ProductionError, strand};

/// Whose ways out are asked for.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, ToSchema)]
pub struct WaysRequest {
    /// What is on trial; nothing when the version is meant as it is kept.
    #[serde(default)]
    pub change: Option<CutChange>,
    /// Which conflict of its check; the first is 0.
    pub conflict: usize,
}

/// A question about ways out, with all that is needed of the production to answer it.
#[derive(Debug)]
pub struct WaysAsked {
    strand: Strand,
    rules: CheckRules,
    cut: TrialCut,
    known: KnownTwins,
    conflict: usize,
}

impl WaysAsked {
    /// # Errors
    /// [`ProductionError::Store`] when the change does not fit,
    /// [`ProductionError::Unfit`] when it cannot be read.
    pub fn new(
        production: &Production,
        name: &str,
        request: &WaysRequest,
    ) -> Result<Self, ProductionError> {
        let kept = strand::cut(production, name)?;
        let cut = match &request.change {
            None => kept,
            Some(change) => {
                let tried = kept.apply(&change.to_model()?);
                tried.map_err(StoreError::Refused)?.0
            }
        };
        Ok(Self {
            strand: strand::strand(production)?,
            rules: strand::rules(production),
            known: KnownTwins::of(production)?,
            conflict: request.conflict,
            cut,
        })
    }

    /// The ways out.
    ///
    /// # Errors
    /// [`ProductionError::Unfit`] where the check has no such conflict.
    pub fn answer(&self) -> Result<WaysDocument, ProductionError> {
        let Self {
            strand, rules, cut, ..
        } = self;
        let conflicts = check(cut, strand, rules).conflicts;
        let conflict = conflicts.get(self.conflict).ok_or_else(|| {
            unfit(
                format!("the check has {} conflicts", conflicts.len()),
                "look at the sheet once more; another window may have changed it",
            )
        })?;
        let twins = TakeTwins::new(strand, &self.known);
        let ways = WaysOut::new(cut, strand, rules, &twins);
        let drawn =
            |ways: Vec<onestrand_cut::Remedy>| ways.iter().map(RemedyDocument::of).collect();
        Ok(WaysDocument {
            remedies: drawn(ways.of(conflict)),
            mend_all: drawn(ways.all_at_once()),
        })
    }
}
