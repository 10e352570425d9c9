//! The strand and the cuts of a production, as the model sees them.

use onestrand_cut::{
    CheckRules, Conflict, JoinKind, JoinTable, Roll, Strand, Take, TrialCut, check,
};
use onestrand_store::{Production, RollRecord, StoreError, TakeRecord};

use crate::ProductionError;

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

/// A version and what the strand check says of it.
pub(crate) struct Checked {
    pub(crate) strand: Strand,
    pub(crate) cut: TrialCut,
    pub(crate) rules: CheckRules,
    pub(crate) join: JoinKind,
    /// What is refused; nothing where it can be made.
    pub(crate) refused: Vec<Conflict>,
}

/// A version with its own usual join or another, checked.
pub(crate) fn checked(
    production: &Production,
    name: &str,
    join: Option<JoinKind>,
) -> Result<Checked, ProductionError> {
    let strand = strand(production)?;
    let cut = cut(production, name)?;
    let join = join.unwrap_or(cut.usual_join());
    let cut = cut.joined_by(join);
    let rules = rules(production);
    let refused = check(&cut, &strand, &rules).refused().cloned().collect();
    Ok(Checked {
        strand,
        cut,
        rules,
        join,
        refused,
    })
}

/// The same, if it can be made.
///
/// # Errors
/// [`ProductionError::CutRefused`] with what is refused.
pub(crate) fn cuttable(
    production: &Production,
    name: &str,
    join: Option<JoinKind>,
) -> Result<Checked, ProductionError> {
    let checked = checked(production, name, join)?;
    if !checked.refused.is_empty() {
        return Err(ProductionError::CutRefused {
            cut: name.to_owned(),
            conflicts: checked.refused,
        });
    }
    Ok(checked)
}
