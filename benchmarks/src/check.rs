//! The strand check, its remedies, and an edit written into the journal.

use std::hint::black_box;

use onestrand_cut::{NoTwins, Strand, TakeTwins, TrialCut, WaysOut, check};
use onestrand_store::Production;

use crate::figures::{Figures, seconds_each};
use crate::invented::{self, PIECES, ROLLS};
use crate::say;
use crate::table::Table;
use crate::trouble::{Trouble, make_sure};

/// What a check of 300 pieces may take. Source: issue 2. Unit: seconds.
const AT_MOST: f64 = 1e-3;

/// Measures, and prints the table.
///
/// # Errors
/// [`Trouble`] when the invented production cannot be made.
pub(crate) fn measure() -> Result<(), Trouble> {
    say("checking cuts of 300 pieces");
    let strand = invented::strand()?;
    let good = checks(&invented::cut()?, &strand, 2_000, 0)?;
    let one = checks(&invented::cut_with_conflict()?, &strand, 2_000, 1)?;
    let worst = checks(&invented::cut_of_one_span()?, &strand, 100, 1)?;
    let ways = ways_out(&invented::cut_with_conflict()?, &strand)?;
    say("writing edits into a journal");
    let edits = edits()?;
    println!("Strand check, {PIECES} pieces of {ROLLS} rolls.\n");
    let mut table = Table::new(&["", "time", "target", ""]);
    table.time("check, median", good.median(), Some(AT_MOST));
    table.time("check, 99th of 100", good.ninety_ninth(), Some(AT_MOST));
    table.time("check, worst of 2,000", good.worst(), Some(AT_MOST));
    table.time("check with a conflict, median", one.median(), Some(AT_MOST));
    table.time(
        "check with a conflict, worst of 2,000",
        one.worst(),
        Some(AT_MOST),
    );
    table.time(
        "check, every piece of the same frames, median",
        worst.median(),
        None,
    );
    table.time("remedies for one conflict, median", ways.median(), None);
    table.time(
        "remedies for one conflict, worst of 500",
        ways.worst(),
        None,
    );
    table.time(
        "an edit on the disk, with its journal line, median",
        edits.median(),
        None,
    );
    table.time(
        "an edit on the disk, 99th of 100",
        edits.ninety_ninth(),
        None,
    );
    println!("{table}");
    Ok(())
}

/// Times the check. `refused` is 0 for a cut that must pass, 1 for one that must
/// not.
fn checks(cut: &TrialCut, strand: &Strand, times: u32, refused: u64) -> Result<Figures, Trouble> {
    let rules = invented::rules();
    let answer = check(cut, strand, &rules);
    make_sure("cuts refused", u64::from(!answer.is_ok()), refused)?;
    make_sure("strips of the cut", answer.pieces as u64, PIECES.into())?;
    // The first runs fetch code and memory.
    seconds_each(50, |_| checked(cut, strand))?;
    seconds_each(times, |_| checked(cut, strand))
}

fn checked(cut: &TrialCut, strand: &Strand) -> Result<(), Trouble> {
    black_box(check(black_box(cut), black_box(strand), &invented::rules()));
    Ok(())
}

fn ways_out(cut: &TrialCut, strand: &Strand) -> Result<Figures, Trouble> {
    let rules = invented::rules();
    let answer = check(cut, strand, &rules);
    let mut refused = answer.refused();
    let Some(conflict) = refused.next() else {
        make_sure("conflicts of the cut", 0, 1)?;
        return Ok(Figures::of([]));
    };
    let twins = TakeTwins::new(strand, &NoTwins);
    let found = WaysOut::new(cut, strand, &rules, &twins).of(conflict).len();
    make_sure("conflicts with a way out", u64::from(found > 0), 1)?;
    seconds_each(500, |_| {
        // All that an edit asks for: the cut laid out, and the ways of one conflict.
        black_box(WaysOut::new(black_box(cut), strand, &rules, &twins).of(conflict));
        Ok(())
    })
}

/// Edits of the cut in a production on the disk: when each returns, it is kept.
fn edits() -> Result<Figures, Trouble> {
    let temp = std::env::temp_dir();
    let room = tempfile::tempdir().map_err(Trouble::file("make a folder", &temp))?;
    let cut = invented::cut()?;
    let mut production = Production::create(&room.path().join("production"), &invented::meta())?;
    production.act("bring everything in", &invented::everything(&cut))?;
    let acts = (0..PIECES).map(|turn| invented::trim_act(&cut, turn));
    let acts = acts.collect::<Result<Vec<_>, _>>()?;
    let before = production.revision()?.number();
    let figures = seconds_each(PIECES, |turn| {
        production
            .act("trim a piece", &acts[turn as usize])
            .map(drop)
    })?;
    let kept = production.revision()?.number() - before;
    make_sure("edits in the journal", kept, PIECES.into())?;
    Ok(figures)
}
