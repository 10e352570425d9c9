//! What another version of the made film costs, reckoned on the bench as it is.

use std::collections::BTreeSet;

use onestrand_cut::{JoinTable, Strips};
use onestrand_film::RollId;

use super::{Anew, BenchState, Deed, Film, How, NoOrder, WorkLeft, plan_anew};

/// A version made of the film on the reel: its price, and the order of its work.
///
/// Unlike [`crate::Recut::price`] it is told from what was really made: film that joins
/// ate or that was torn is no more, what was let be longer is there, and snippets too
/// short to be joined back are left out.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Remade {
    /// Joins that are opened, with those of the leaders.
    pub opened: usize,
    /// Joins that are made, with those of the leaders.
    pub made: usize,
    /// Joins of the made film that stay, with those of the leaders.
    pub kept: usize,
    /// Cuts with the blade.
    pub cuts: usize,
    /// Frames lost that the new version wants.
    pub lost: usize,
    /// Frames of film that goes out spoiled by opening; what it gives to new joins is not
    /// counted.
    pub lost_outs: usize,
    /// Frames that the new version wants and that are not to be had: too short to be
    /// joined, or no more before anything is opened.
    pub missing: usize,
    /// The length it will have. Unit: frames.
    pub frames: u64,
    /// The order of the work.
    pub order: Anew,
}

impl Remade {
    /// The price and the order, within so many pins. `others` as in
    /// [`Deed::TurnBack`].
    ///
    /// # Errors
    /// [`NoOrder::TooFewPins`] with the number that would do; [`NoOrder::Cannot`] when
    /// nothing is made.
    pub fn of(
        state: &BenchState,
        others: &[(usize, usize)],
        strips: &Strips,
        table: &JoinTable,
        pins: u32,
    ) -> Result<Self, NoOrder> {
        let mut bench = state.clone();
        let others = others.to_vec();
        bench.apply(&Deed::TurnBack { others }, table, usize::MAX)?;
        let order = plan_anew(&bench, strips, table, pins)?;
        let left = WorkLeft::of(&bench, strips, &order.order, &[], table)?;
        let gone = bench.gone().len();
        for step in &left.steps {
            bench.apply(&step.deed, table, usize::MAX)?;
        }
        let wanted: BTreeSet<(RollId, u32)> = strips
            .strips
            .iter()
            .filter_map(|s| s.span.as_ref())
            .flat_map(|s| {
                let frames = s.range.begin().index()..s.range.end().index();
                frames.map(|f| (s.roll.clone(), f))
            })
            .collect();
        let went = bench.gone()[gone..].iter().flat_map(|g| {
            let frames = g.frames.begin().index()..g.frames.end().index();
            frames.map(|f| ((g.roll.clone(), f), g.how))
        });
        let (lost, outs): (Vec<_>, Vec<_>) = went.partition(|(frame, _)| wanted.contains(frame));
        let spoiled = outs.iter().filter(|(_, how)| *how == How::Opened);
        let shown = bench.reel().iter().filter_map(|l| match &l.film {
            Film::Roll { .. } => Some(l.film.frames() as usize),
            Film::Other { .. } => None,
        });
        let shown: usize = shown.sum();
        let count = |code: &str| left.steps.iter().filter(|s| s.deed.code() == code).count();
        let joins = bench.reel().len() + usize::from(bench.is_ended());
        Ok(Self {
            opened: count("unjoin"),
            made: count("join"),
            kept: joins.saturating_sub(count("join")),
            cuts: count("cut"),
            lost: lost.len(),
            lost_outs: spoiled.count(),
            missing: wanted.len().saturating_sub(shown + lost.len()),
            frames: bench
                .reel()
                .iter()
                .map(|l| u64::from(l.film.frames()))
                .sum(),
            order,
        })
    }
}
