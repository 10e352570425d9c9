//! Ways out of a conflict, each tried before it is offered.

mod bounds;
mod faults;
mod lab;
mod layout;
mod lifted;
mod mend_all;
mod other_join;
mod replaced;
mod shift;
mod trouble;
mod words;

use faults::Faults;
use layout::{Layout, Seen, Trial};

use crate::{Change, CheckRules, Conflict, ConflictKind, Severity, Strand, TrialCut, Twins, check};

/// The kinds of way out, gentlest first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum RemedyKind {
    /// Make a join in another way, or as few as it takes.
    OtherJoin,
    /// Take off an effect that no bench can make.
    EffectOff,
    /// Begin or end pieces some frames elsewhere.
    Shift,
    /// Put the same action of another take in its place.
    Twin,
    /// Do without a piece that shows nothing but what is shown elsewhere too.
    Lift,
    /// Several ways out as one.
    MendAll,
    /// Note that a laboratory is to make a print. The note alone mends nothing.
    Lab,
}

impl RemedyKind {
    /// The word in commands and files.
    #[must_use]
    pub const fn code(self) -> &'static str {
        match self {
            Self::OtherJoin => "other_join",
            Self::EffectOff => "effect_off",
            Self::Shift => "shift",
            Self::Twin => "twin",
            Self::Lift => "lift",
            Self::MendAll => "mend_all",
            Self::Lab => "lab",
        }
    }
}

/// One way out.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Remedy {
    /// Its kind.
    pub kind: RemedyKind,
    /// In the user's words.
    pub text: String,
    /// Places of the cut it touches: joins at which an end moves or which are
    /// made otherwise.
    pub joins: usize,
    /// For a shift the frames by which ends move, all told; for a twin, or a
    /// piece to lift, how many frames it has. Unit: frames.
    pub frames: u32,
    /// Whether the conflict is gone after the change. A note for a laboratory
    /// does not make it go: it stays refused until the print has come, lies in
    /// a roll of its own, and takes the place of the piece.
    pub mends: bool,
    /// Whether the change brings a warning that was not there before: a piece
    /// too short to hold, or one that reaches out of its take.
    pub warns: bool,
    /// The change that does it.
    pub change: Change,
}

/// The ways out of the conflicts of one cut.
pub struct WaysOut<'a> {
    cut: &'a TrialCut,
    strand: &'a Strand,
    rules: &'a CheckRules,
    twins: &'a dyn Twins,
    layout: Layout,
    conflicts: Vec<Conflict>,
    faults: Faults,
}

/// One conflict as it is looked into.
struct Case<'a> {
    conflict: &'a Conflict,
    /// What may be wrong afterwards: all that was but this conflict.
    strict: Faults,
    /// The same, with new warnings let pass.
    loose: Faults,
    /// The pieces that quarrel, counted from 0.
    quarrel: Vec<usize>,
}

impl std::fmt::Debug for WaysOut<'_> {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("WaysOut")
            .field("conflicts", &self.conflicts)
            .finish_non_exhaustive()
    }
}

impl<'a> WaysOut<'a> {
    /// Looks at a cut; `twins` are what the caller knows of them.
    #[must_use]
    pub fn new(
        cut: &'a TrialCut,
        strand: &'a Strand,
        rules: &'a CheckRules,
        twins: &'a dyn Twins,
    ) -> Self {
        let layout = Layout::of(cut, strand, rules);
        let conflicts = check(cut, strand, rules).conflicts;
        let faults = layout.faults(conflicts.iter());
        Self {
            cut,
            strand,
            rules,
            twins,
            layout,
            conflicts,
            faults,
        }
    }

    /// The ways out of one conflict: those that mend, cheapest first, then the
    /// note for a laboratory.
    ///
    /// After each that mends the conflict is gone, and no frame and no join is
    /// refused that was not refused before. The first shift is the cheapest
    /// over all shifts of all ends, by joins touched and then by frames; no
    /// fewer joins made otherwise would do than those offered. When a cut is so
    /// entangled that a search gives up, that kind is not offered.
    #[must_use]
    pub fn of(&self, conflict: &Conflict) -> Vec<Remedy> {
        let case = self.case(conflict);
        let mut ways = self.other_joins(&case);
        ways.extend(self.effect_off(&case));
        if about_ends(conflict.kind) {
            let faults = (&case.strict, &case.loose);
            for (trial, cost) in shift::shifts(&self.layout, faults, &case.quarrel) {
                ways.push(self.shift(&trial, cost, &case.strict, &case.quarrel));
            }
        }
        ways.extend(self.twins(&case));
        ways.extend(self.lifts(&case));
        ways.sort_by_key(|way| (way.kind, way.joins, way.frames));
        if conflict.severity() == Severity::Refused {
            ways.extend(lab::noted(self.cut, conflict, ways.is_empty()));
        }
        ways
    }

    /// The first that [`WaysOut::of`] would give of those that mend.
    fn cheapest_of(&self, conflict: &Conflict) -> Option<Remedy> {
        let case = self.case(conflict);
        let joins = self.other_joins(&case).into_iter().next();
        joins
            .or_else(|| self.effect_off(&case))
            .or_else(|| self.cheapest_shift(&case))
            .or_else(|| self.twins(&case).into_iter().min_by_key(|way| way.frames))
    }

    fn cheapest_shift(&self, case: &Case<'_>) -> Option<Remedy> {
        if !about_ends(case.conflict.kind) {
            return None;
        }
        let goal = shift::Goal {
            layout: &self.layout,
            let_pass: &case.loose,
            watch: &case.quarrel,
            at_most: shift::ANY_COST,
            boxes: shift::BOXES,
        };
        let (trial, cost) = shift::cheapest(&goal, bounds::Bounds::default())?;
        Some(self.shift(&trial, cost, &case.strict, &case.quarrel))
    }

    fn other_joins(&self, case: &Case<'_>) -> Vec<Remedy> {
        if !about_joins(case.conflict.kind) {
            return Vec::new();
        }
        let trials = other_join::other_joins(&self.layout, &case.loose, &case.quarrel);
        let one = |trial| self.other_join(trial, &case.strict, &case.quarrel);
        trials.iter().map(one).collect()
    }

    fn case<'c>(&self, conflict: &'c Conflict) -> Case<'c> {
        let mine = self.layout.faults(std::iter::once(conflict));
        let strict = self.faults.without(&mine);
        Case {
            conflict,
            loose: strict.warnings_let_pass_but(&mine),
            strict,
            quarrel: conflict.positions.iter().map(|p| p - 1).collect(),
        }
    }

    /// Whether a trial leaves nothing wrong but what may be.
    fn reaches(&self, trial: &Trial, let_pass: &Faults, quarrel: &[usize]) -> bool {
        let seen = Seen {
            layout: &self.layout,
            trial,
        };
        seen.first_trouble(let_pass, quarrel).is_none()
    }
}

/// Kinds that another join may mend.
const fn about_joins(kind: ConflictKind) -> bool {
    matches!(
        kind,
        ConflictKind::Bite | ConflictKind::Base | ConflictKind::OutsideRoll | ConflictKind::Short
    )
}

/// Kinds that moving an end may mend.
const fn about_ends(kind: ConflictKind) -> bool {
    matches!(
        kind,
        ConflictKind::Doubled
            | ConflictKind::Bite
            | ConflictKind::OutsideRoll
            | ConflictKind::Short
            | ConflictKind::OutsideTake
    )
}
