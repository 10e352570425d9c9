//! What was laid wrongly on the reel, opened and laid as it should be.

use std::collections::BTreeMap;

use onestrand_cut::{JoinTable, Strips};
use onestrand_film::RollId;

use super::coming::Outlook;
use super::version::Version;
use super::writer::Writer;
use super::{BenchState, CannotBe, Deed, Film, Laid, Part, Taking, WorkLeft};

/// A place in the version: the strip, and the first frame.
type Turn = (usize, u32);

fn turn(part: &Part) -> Option<Turn> {
    match &part.film {
        Film::Roll { begin, .. } => Some((part.strip?, *begin)),
        Film::Other { .. } => Some((part.strip?, 0)),
    }
}

/// The joins of the reel that stand in the way of the version, the last one
/// first: beside film that is turned over or end for end, that the version does
/// not have, or that has another neighbour there.
fn wrong_joins(state: &BenchState, version: &Version<'_>) -> Vec<usize> {
    let outlook = Outlook::with_nothing_passed(state, version);
    let on_the_reel = outlook.reel.iter().map(|part| match part.laid {
        Laid::Right => turn(part),
        _ => None,
    });
    let on_the_reel: Vec<Option<Turn>> = on_the_reel.collect();
    let coming = outlook.coming.iter().filter_map(|c| turn(&c.part));
    let mut all: Vec<Turn> = outlook.reel.iter().filter_map(turn).chain(coming).collect();
    all.sort_unstable();
    all.dedup();
    let place: BTreeMap<Turn, usize> = all.iter().enumerate().map(|(i, t)| (*t, i)).collect();
    let place = |link: usize| {
        let turn = on_the_reel.get(link).copied().flatten()?;
        place.get(&turn).copied()
    };
    let links = on_the_reel.len();
    let is_right = |join: usize| match (join.checked_sub(1), join < links) {
        (None, true) => place(join) == Some(0),
        (Some(before), true) => {
            let next = place(before).map(|p| p + 1);
            next.is_some() && next == place(join)
        }
        (Some(before), false) => place(before).is_some_and(|p| p + 1 == all.len()),
        (None, false) => all.is_empty(),
    };
    let joins = links + usize::from(state.is_ended());
    (0..joins).rev().filter(|join| !is_right(*join)).collect()
}

impl WorkLeft {
    /// What is left when also what lies wrongly on the reel is to be mended: its
    /// joins are opened, from the tail of the reel on, and it is joined anew as
    /// the version has it. What hangs together rightly is led on again whole. A
    /// reel ended too early is opened at its tail leader.
    ///
    /// Opening costs what the table of joins says, and the new joins cost again;
    /// it is the user who asks for it. A join that would be made again between the
    /// same film is not opened.
    ///
    /// # Errors
    /// [`CannotBe`] when the order does not fit the bench.
    pub fn mending(
        state: &BenchState,
        strips: &Strips,
        order: &[Taking],
        through: &[RollId],
        table: &JoinTable,
    ) -> Result<Self, CannotBe> {
        let version = Version::of(strips, table);
        let mut wrong = wrong_joins(state, &version);
        while !wrong.is_empty() {
            let writer = opened(state, strips, order, through, &version, &wrong)?;
            // Opened and made again as it was, a join was opened for nothing.
            let again = 0..=writer.state.reel().len();
            let again: Vec<Sides<'_>> = again.map(|j| sides(&writer.state, j)).collect();
            let mended = |join: &usize| !again.iter().any(|a| is_same(&sides(state, *join), a));
            let kept: Vec<usize> = wrong.iter().copied().filter(mended).collect();
            if kept.len() == wrong.len() {
                return Ok(writer.left);
            }
            wrong = kept;
        }
        Self::of(state, strips, order, through, table)
    }
}

/// These joins opened, and then all that is left.
fn opened<'a>(
    state: &BenchState,
    strips: &Strips,
    order: &[Taking],
    through: &'a [RollId],
    version: &Version<'a>,
    wrong: &[usize],
) -> Result<Writer<'a>, CannotBe> {
    let mut opener = Writer::new(state, version.table, Outlook::default(), order, through);
    for join in wrong {
        // A snippet between two joins may be spoiled wholly by the first.
        let links = opener.state.reel().len();
        if *join < links || (*join == links && opener.state.is_ended()) {
            opener.does(Deed::Open { join: *join }, None)?;
        }
    }
    let outlook = Outlook::of(&opener.state, strips, version.table);
    let (state, table) = (&opener.state, version.table);
    let mut writer = Writer::new(state, table, outlook, order, through);
    writer.left.steps = opener.left.steps;
    writer.all(order)?;
    Ok(writer)
}

type Sides<'a> = [Option<(&'a Film, Laid)>; 2];

/// The film on either side of a join of the reel, and how it lies; none for leaders.
fn sides(state: &BenchState, join: usize) -> Sides<'_> {
    let film = |link: usize| state.reel().get(link).map(|l| (&l.film, l.laid));
    [join.checked_sub(1).and_then(film), film(join)]
}

/// Whether two joins are between the same film, a frame lost here and there.
fn is_same(one: &Sides<'_>, other: &Sides<'_>) -> bool {
    one.iter().zip(other).all(|pair| match pair {
        (None, None) => true,
        (Some((one, laid)), Some((other, lies))) if laid == lies => is_same_film(one, other),
        _ => false,
    })
}

fn is_same_film(one: &Film, other: &Film) -> bool {
    match (one, other) {
        (Film::Other { position: a, .. }, Film::Other { position: b, .. }) => a == b,
        (
            Film::Roll { roll, begin, end },
            Film::Roll {
                roll: r,
                begin: b,
                end: e,
            },
        ) => roll == r && begin < e && b < end,
        _ => false,
    }
}
