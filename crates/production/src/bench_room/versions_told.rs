//! The versions that wait for the bench, and what is taken for granted there.

use onestrand_bench::WorkCount;
use onestrand_cut::{CheckRules, JoinTable, Strand};
use onestrand_film::RollId;
use onestrand_store::Production;

use super::room::Room;
use crate::documents::BenchVersionDocument;
use crate::{ProductionError, strand};

pub(super) fn assumptions(production: &Production, table: &JoinTable) -> Vec<String> {
    let gauge = production.meta().gauge;
    let rows = onestrand_cut::JoinKind::ALL.map(|kind| {
        let bite = table.row(kind).bite;
        format!("{} {}, {}", kind.word(), bite.out_tail, bite.in_head)
    });
    vec![
        format!(
            "{gauge}: frames a join eats of the outgoing and of the incoming piece: {}; try it on \
             numbered leader",
            rows.join(" · ")
        ),
        "every roll comes heads out at its first frame".to_owned(),
    ]
}

/// Every version: whether it can be begun, and what it would cost.
pub(super) fn versions(
    production: &Production,
    room: &Room,
    strand: &Strand,
) -> Result<Vec<BenchVersionDocument>, ProductionError> {
    let rules = CheckRules {
        table: JoinTable::usual(production.meta().gauge),
    };
    // While a version is being made, no other can be begun.
    let is_free = room.work.is_none() || room.log.state().is_ended();
    let made = room.made().filter(|_| is_free);
    let mut told = Vec::new();
    for name in production.cut_names()? {
        let cut = strand::cut(production, &name)?;
        let check = onestrand_cut::check(&cut, strand, &rules);
        let count = WorkCount::of(&cut, strand, &rules.table);
        let proved = |roll: &RollId| strand.roll(roll).is_some_and(|r| r.proved);
        let why_not = match check.refused().count() {
            _ if count.extents.is_empty() => Some("it takes film from no roll".to_owned()),
            0 => None,
            1 => Some("the strand check refuses it in one place".to_owned()),
            n => Some(format!("the strand check refuses it in {n} places")),
        };
        let rolls = count.rolls().into_iter();
        let remade = match made.filter(|m| m.name != name) {
            Some(made) => room.remade(production, made, &name)?,
            None => None,
        };
        told.push(BenchVersionDocument {
            name,
            remade,
            frames: cut.frames().count(),
            pieces: cut.pieces().len(),
            join: cut.usual_join().word().to_owned(),
            why_not,
            not_proved: rolls
                .filter(|r| !proved(r))
                .map(|r| r.to_string())
                .collect(),
        });
    }
    Ok(told)
}
