//! The price of a new version of a film already cut, and what goes with it.

use std::hint::black_box;

use onestrand_bench::{BenchHabits, Recut};
use onestrand_cut::{Strand, TrialCut, check};

use crate::figures::{Figures, seconds_each};
use crate::invented::{self, PIECES, ROLLS};
use crate::say;
use crate::table::Table;
use crate::trouble::{Trouble, make_sure};

/// What the price of a re-cut of 300 pieces may take. Source: issue 6. Unit: seconds.
const AT_MOST: f64 = 50e-3;
/// Frames that ends may lie elsewhere: the most that can be asked.
const TOLERANCE: u32 = 12;

/// Measures, and prints the table.
///
/// # Errors
/// [`Trouble`] when the invented versions cannot be made.
pub(crate) fn measure() -> Result<(), Trouble> {
    say("pricing re-cuts of 300 pieces");
    let strand = invented::strand()?;
    let old = invented::cut()?;
    let few = invented::cut_with_few_changes()?;
    let all = invented::cut_with_every_end_trimmed()?;
    let inner = u64::from(PIECES) - 1;
    let least = prices(&old, &old, &strand, [0, 0, inner])?;
    // Two lifted, two in each other's place: 8 joins gone, 6 new.
    let some = prices(&old, &few, &strand, [8, 6, inner - 8])?;
    let most = prices(&old, &all, &strand, [inner, inner, 0])?;
    let near_few = near(&old, &few, &strand)?;
    let near_all = near(&old, &all, &strand)?;
    let order = order(&old, &few, &strand)?;
    println!("Re-cut, {PIECES} pieces of {ROLLS} rolls, cement.\n");
    let mut table = Table::new(&["", "time", "target", ""]);
    table.time(
        "price, nothing changed, median",
        least.median(),
        Some(AT_MOST),
    );
    table.time(
        "price, four pieces changed, median",
        some.median(),
        Some(AT_MOST),
    );
    table.time(
        "price, every piece trimmed, median",
        most.median(),
        Some(AT_MOST),
    );
    table.time(
        "price, every piece trimmed, worst of 100",
        most.worst(),
        Some(AT_MOST),
    );
    table.time(
        "cheaper versions within 12 frames, four pieces changed",
        near_few.median(),
        None,
    );
    table.time(
        "cheaper versions within 12 frames, every piece trimmed",
        near_all.median(),
        None,
    );
    table.time(
        "work order, four pieces changed, median",
        order.median(),
        None,
    );
    println!("{table}");
    Ok(())
}

/// Times the price, which must open, make and keep so many joins.
fn prices(
    old: &TrialCut,
    new: &TrialCut,
    strand: &Strand,
    joins: [u64; 3],
) -> Result<Figures, Trouble> {
    let rules = invented::rules();
    let can = check(new, strand, &rules).is_ok();
    make_sure("versions that can be made", can.into(), 1)?;
    let found = Recut::price(old, new, strand, &rules.table);
    let names = ["joins opened", "joins made", "joins kept"];
    let told = [found.opened, found.made, found.kept];
    for (name, (told, wanted)) in names.iter().zip(told.into_iter().zip(joins)) {
        make_sure(name, told as u64, wanted)?;
    }
    let price = |_| {
        black_box(Recut::price(black_box(old), new, strand, &rules.table));
        Ok(())
    };
    seconds_each(5, price)?;
    seconds_each(100, price)
}

fn near(old: &TrialCut, new: &TrialCut, strand: &Strand) -> Result<Figures, Trouble> {
    let rules = invented::rules();
    let found = Recut::near(old, new, strand, &rules, TOLERANCE);
    make_sure("answers proved", found.best.into(), 1)?;
    make_sure("answers found", (!found.found.is_empty()).into(), 1)?;
    seconds_each(10, |_| {
        black_box(Recut::near(black_box(old), new, strand, &rules, TOLERANCE));
        Ok(())
    })
}

fn order(old: &TrialCut, new: &TrialCut, strand: &Strand) -> Result<Figures, Trouble> {
    let rules = invented::rules();
    let habits = BenchHabits {
        pins: 12,
        ..BenchHabits::default()
    };
    let order = || Recut::order(black_box(old), new, strand, &rules.table, &habits);
    make_sure("orders within 12 pins", order().plan.is_some().into(), 1)?;
    seconds_each(10, |_| {
        black_box(order());
        Ok(())
    })
}
