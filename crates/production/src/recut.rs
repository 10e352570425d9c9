//! What it costs to make a new version of a film that is already cut.

use std::collections::BTreeMap;

use onestrand_bench::{BenchHabits, BenchTimes, MOST_SHIFT, Price, Recut, Winding};
use onestrand_cut::{Conflict, JoinKind, Strand, TrialCut, check, compare};
use onestrand_film::Span;
use onestrand_store::{Act, CutRecord, Production};

use crate::cut_sheet::sheet_of;
use crate::documents::{
    ChangeLineDocument, LostDocument, NearDocument, NearVersionDocument, PriceDocument,
    RecutDocument, RecutWorkDocument, ShiftDocument,
};
use crate::error::unfit;
use crate::recut_words::{change_words, named};
use crate::recut_work::work;
use crate::versions::free_name;
use crate::{ProductionError, strand};

/// How the new version is to be made.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct RecutOptions {
    /// Another join than the versions' own usual ones, for both.
    pub join: Option<JoinKind>,
    /// Up to so many frames earlier or later each piece may begin and end, to look
    /// for cheaper versions; 12 at most.
    pub tolerance: Option<u32>,
    /// With so many pins, and wound so, a work order is made too.
    pub bench: Option<(u32, Winding)>,
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
    let document = pair.document(production, options).0;
    Ok(RecutDocument {
        // With joins of another kind nothing was made yet.
        from_the_bench: match options.join {
            None => crate::bench_room::remade(production, from, to)?,
            Some(_) => None,
        },
        ..document
    })
}

/// The same, and the cheapest version near the new one is kept under a name of its
/// own; it can be taken back.
///
/// # Errors
/// As [`recut`]; [`ProductionError::Unfit`] when the name is taken or nothing near is
/// cheaper.
pub fn keep_near(
    production: &mut Production,
    (from, to): (&str, &str),
    options: RecutOptions,
    name: &str,
) -> Result<RecutDocument, ProductionError> {
    let name = free_name(production, name)?;
    let pair = VersionPair::open(production, (from, to), options)?;
    let (mut document, cheapest) = pair.document(production, options);
    let Some((tolerance, cut)) = cheapest else {
        return Err(unfit(
            format!("no version near {to} is cheaper, so nothing was kept"),
            "allow more frames with --tolerance, 12 at most",
        ));
    };
    let frames = match tolerance {
        1 => "1 frame".to_owned(),
        n => format!("{n} frames"),
    };
    let note = format!("{to}, with ends up to {frames} elsewhere, so that {from} is changed less");
    let act = Act::PutCut {
        name: name.clone(),
        cut: Some(CutRecord::new(&cut, &note)),
    };
    production.act(&format!("keep {name}, near {to}"), &act)?;
    document.kept_as = Some(name);
    Ok(document)
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
        if let Some(frames) = options.tolerance.filter(|frames| *frames > MOST_SHIFT) {
            return Err(unfit(
                format!("{frames} frames is too much to be near"),
                "a tolerance of 12 frames is the most",
            ));
        }
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

    /// The whole answer, and the cheapest version near.
    fn document(
        &self,
        production: &Production,
        options: RecutOptions,
    ) -> (RecutDocument, Option<(u32, TrialCut)>) {
        let near = options.tolerance.map(|frames| self.near(frames));
        let (near, cheapest) = near.unzip();
        let work = options.bench.map(|bench| self.work(bench));
        let mut assumptions = self.assumptions();
        if work.is_some() {
            assumptions.extend([
                "the reel is made and every roll stands heads out; trims are still on their rolls"
                    .to_owned(),
                "a join is opened in the time of a cut, at a beginner's times, not measured"
                    .to_owned(),
            ]);
        }
        let document = RecutDocument {
            near,
            work,
            assumptions,
            ..self.priced(production)
        };
        (document, cheapest.flatten())
    }

    fn near(&self, tolerance: u32) -> (NearDocument, Option<(u32, TrialCut)>) {
        let found = Recut::near(&self.old, &self.new, &self.strand, &self.rules, tolerance);
        let version = |near: &onestrand_bench::NearVersion| NearVersionDocument {
            tolerance: near.tolerance,
            shifted: near.shifted,
            shifts: near.shifts.iter().map(|s| self.shift(s)).collect(),
            opened: near.price.opened,
            made: near.price.made,
            kept: near.price.kept,
            leader_opened: near.price.leader_opened,
            leader_made: near.price.leader_made,
            put_back: near.price.put_back,
            lost: near.price.lost,
            lost_outs: near.price.lost_outs,
            planned_frames: near.price.planned.count(),
            real_frames: near.price.real.count(),
            csv: sheet_of(&near.cut),
        };
        let document = NearDocument {
            tolerance: tolerance.min(MOST_SHIFT),
            best: found.best,
            found: found.found.iter().map(version).collect(),
        };
        let cheapest = found.found.into_iter().last();
        (document, cheapest.map(|near| (near.tolerance, near.cut)))
    }

    fn shift(&self, shift: &onestrand_bench::Shift) -> ShiftDocument {
        let (end, verb) = match shift.at_end {
            true => ("out", "ends"),
            false => ("in", "begins"),
        };
        let way = if shift.frames > 0 { "later" } else { "earlier" };
        let frames = match shift.frames.unsigned_abs() {
            1 => "1 frame".to_owned(),
            n => format!("{n} frames"),
        };
        ShiftDocument {
            position: shift.position,
            end: end.to_owned(),
            frames: shift.frames,
            words: format!(
                "{} {verb} {frames} {way}",
                named(&[shift.position], &self.new)
            ),
        }
    }

    fn priced(&self, production: &Production) -> RecutDocument {
        let table = &self.rules.table;
        let found = Recut::price(&self.old, &self.new, &self.strand, table);
        let compared = compare(&self.old, &self.new);
        let gauge = production.meta().gauge;
        let lines = compared.changes().iter();
        RecutDocument {
            from: self.names.0.to_owned(),
            to: self.names.1.to_owned(),
            from_the_bench: None,
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
            near: None,
            kept_as: None,
            work: None,
            proved: self.proved(),
            assumptions: self.assumptions(),
        }
    }

    fn work(&self, (pins, winding): (u32, Winding)) -> RecutWorkDocument {
        let habits = BenchHabits {
            pins,
            winding,
            times: BenchTimes::default(),
        };
        let table = &self.rules.table;
        let order = Recut::order(&self.old, &self.new, &self.strand, table, &habits);
        work(&order, &habits)
    }

    fn assumptions(&self) -> Vec<String> {
        vec![
            format!("the film is cut and joined as {} says", self.names.0),
            "a join in both versions stays as it is, of the kind it has".to_owned(),
        ]
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
