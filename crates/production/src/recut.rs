//! What it costs to make a new version of a film that is already cut.

use std::collections::BTreeMap;

use onestrand_bench::{Price, Recut};
use onestrand_cut::{Conflict, JoinKind, Strand, TrialCut, check, compare};
use onestrand_film::Span;
use onestrand_store::Production;

use crate::documents::{ChangeLineDocument, LostDocument, PriceDocument, RecutDocument};
use crate::error::unfit;
use crate::recut_words::change_words;
use crate::{ProductionError, strand};

/// How the new version is to be made.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct RecutOptions {
    /// Another join than the versions' own usual ones, for both.
    pub join: Option<JoinKind>,
}

/// The price of a new version, each change apart, with the change list.
///
/// The film is taken to be cut as the version `from` says.
///
/// # Errors
/// [`ProductionError::CutRefused`] when the strand check refuses either version,
/// [`ProductionError::Unfit`] when one of them is empty, [`ProductionError::Store`]
/// when there is no such version.
pub fn recut(
    production: &Production,
    (from, to): (&str, &str),
    options: RecutOptions,
) -> Result<RecutDocument, ProductionError> {
    let pair = VersionPair::open(production, (from, to), options)?;
    Ok(pair.document(production))
}

/// Two versions that can be made, one of them made.
struct VersionPair<'a> {
    names: (&'a str, &'a str),
    strand: Strand,
    rules: onestrand_cut::CheckRules,
    old: TrialCut,
    /// With the joins it shares with the old one as they are there.
    new: TrialCut,
}

impl<'a> VersionPair<'a> {
    fn open(
        production: &Production,
        (from, to): (&'a str, &'a str),
        options: RecutOptions,
    ) -> Result<Self, ProductionError> {
        let old = strand::checked(production, from, options.join)?;
        let new = strand::checked(production, to, options.join)?;
        not_empty(
            from,
            &old.cut,
            "nothing of it is cut yet; for a first cut there is `onestrand bench`",
        )?;
        not_empty(to, &new.cut, "lay pieces in first")?;
        refuse(from, old.refused)?;
        let made = Recut::as_made(&old.cut, &new.cut, &old.rules.table);
        let refused = check(&made, &old.strand, &old.rules);
        refuse(to, refused.refused().cloned().collect())?;
        Ok(Self {
            names: (from, to),
            strand: old.strand,
            rules: old.rules,
            old: old.cut,
            new: made,
        })
    }

    fn document(&self, production: &Production) -> RecutDocument {
        let table = &self.rules.table;
        let found = Recut::price(&self.old, &self.new, &self.strand, table);
        let compared = compare(&self.old, &self.new);
        let gauge = production.meta().gauge;
        let lines = compared.changes().iter();
        RecutDocument {
            from: self.names.0.to_owned(),
            to: self.names.1.to_owned(),
            from_join: self.old.usual_join().word().to_owned(),
            join: self.new.usual_join().word().to_owned(),
            opened: found.opened,
            made: found.made,
            kept: found.kept,
            leader_opened: found.leader_opened,
            leader_made: found.leader_made,
            put_back: found.put_back,
            lost: found.lost,
            lost_outs: found.lost_outs,
            lost_film: lost(&found.lost_film),
            lost_outs_film: lost(&found.lost_outs_film),
            planned_frames: found.planned.count(),
            real_frames: found.real.count(),
            held: compared.held().count(),
            moved: compared.moved().count(),
            out: compared.out().count(),
            new_frames: compared.new_frames().count(),
            changes: lines.map(|l| ChangeLineDocument::new(l, gauge)).collect(),
            stays: compared.stays().iter().map(Into::into).collect(),
            prices: found.prices.iter().map(|p| self.price(p)).collect(),
            proved: self.proved(),
            assumptions: vec![
                format!("the film is cut and joined as {} says", self.names.0),
                "a join in both versions stays as it is, of the kind it has".to_owned(),
            ],
        }
    }

    fn price(&self, price: &Price) -> PriceDocument {
        PriceDocument {
            change: change_words(price, &self.old, &self.new),
            act: price.act.code().to_owned(),
            from_positions: price.old_positions.clone(),
            to_positions: price.new_positions.clone(),
            opened: price.opened,
            made: price.made,
            leader_opened: price.leader_opened,
            leader_made: price.leader_made,
            put_back: price.put_back,
            lost: price.lost,
            lost_outs: price.lost_outs,
            lost_film: lost(&price.lost_film),
        }
    }

    fn proved(&self) -> BTreeMap<String, bool> {
        let both = self.old.pieces().iter().chain(self.new.pieces());
        let rolls = both.filter_map(|p| p.span()).map(|s| &s.roll);
        let is = |roll| self.strand.roll(roll).is_some_and(|r| r.proved);
        rolls.map(|roll| (roll.to_string(), is(roll))).collect()
    }
}

pub(crate) fn lost(spans: &[Span]) -> Vec<LostDocument> {
    spans.iter().map(Into::into).collect()
}

fn not_empty(name: &str, cut: &TrialCut, hint: &str) -> Result<(), ProductionError> {
    match cut.pieces().is_empty() {
        true => Err(unfit(format!("version {name} is empty"), hint)),
        false => Ok(()),
    }
}

fn refuse(name: &str, conflicts: Vec<Conflict>) -> Result<(), ProductionError> {
    match conflicts.is_empty() {
        true => Ok(()),
        false => Err(ProductionError::CutRefused {
            cut: name.to_owned(),
            conflicts,
        }),
    }
}
