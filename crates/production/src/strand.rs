//! The strand and the cuts of a production, as the model sees them.

use onestrand_cut::{CheckRules, JoinTable, Roll, Strand, Take, TrialCut};
use onestrand_store::{Production, RollRecord, StoreError, TakeRecord};

/// All rolls and takes.
pub(crate) fn strand(production: &Production) -> Result<Strand, StoreError> {
    let rolls: Vec<Roll> = production
        .rolls()?
        .iter()
        .map(RollRecord::to_model)
        .collect::<Result<_, _>>()?;
    let takes: Vec<Take> = production
        .takes()?
        .iter()
        .map(TakeRecord::to_model)
        .collect::<Result<_, _>>()?;
    Ok(Strand::new(production.meta().gauge, rolls, takes))
}

/// One version.
pub(crate) fn cut(production: &Production, name: &str) -> Result<TrialCut, StoreError> {
    production.cut(name)?.to_model()
}

/// By what joins are counted.
pub(crate) fn rules(production: &Production) -> CheckRules {
    CheckRules {
        table: JoinTable::usual(production.meta().gauge),
    }
}
