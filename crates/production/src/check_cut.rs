//! The strand check of a version.

use onestrand_cut::{
    Answer, Certificate, CheckRules, Facts, JoinKind, Pace, Question, RollCount, Strand, TakeTwins,
    TrialCut, Twins, WaysOut, check, questions,
};
use onestrand_store::{Meta, Production};

use crate::answers::answers;
use crate::documents::{
    CheckDocument, ConflictDocument, PaceDocument, QuestionDocument, RemedyDocument,
    RollCountDocument,
};
use crate::light_of_rolls::LightOfRolls;
use crate::on_action::KnownTwins;
use crate::{ProductionError, strand};

/// Checks a version, with its own usual join or another.
///
/// # Errors
/// [`ProductionError::Store`].
pub fn check_cut(
    production: &Production,
    name: &str,
    join: Option<JoinKind>,
) -> Result<CheckDocument, ProductionError> {
    let strand = strand::strand(production)?;
    let cut = strand::cut(production, name)?;
    let cut = cut.joined_by(join.unwrap_or(cut.usual_join()));
    let rules = strand::rules(production);
    let answered = answers(production)?;
    let known = KnownTwins::of(production)?;
    let seen = Seen {
        strand: &strand,
        rules: &rules,
        meta: production.meta(),
        answered: &answered,
        known: &known,
        light: &LightOfRolls::of(production),
    };
    Ok(check_of(name, &cut, &seen, WaysNow::All).0)
}

/// What a cut is checked against.
pub(crate) struct Seen<'a> {
    pub(crate) strand: &'a Strand,
    pub(crate) rules: &'a CheckRules,
    pub(crate) meta: &'a Meta,
    /// The user's word on questions.
    pub(crate) answered: &'a [Answer],
    /// Whoever knows of twins beside those of a setup.
    pub(crate) known: &'a dyn Twins,
    /// How light the rolls are, as their scans were read.
    pub(crate) light: &'a LightOfRolls,
}

/// Which ways out are looked for at once.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum WaysNow {
    /// All of them.
    All,
    /// All where there are few conflicts; of many, none: each is looked for when
    /// somebody stands at it, so that an edit is answered as fast as the check goes.
    OfFew,
}

/// So many conflicts are few: a hand that works leaves two or three.
const FEW: usize = 6;

/// The same for a cut that may not be kept; and whether ways out are left for later.
pub(crate) fn check_of(
    name: &str,
    cut: &TrialCut,
    seen: &Seen<'_>,
    now: WaysNow,
) -> (CheckDocument, bool) {
    let &Seen {
        strand,
        rules,
        meta,
        answered,
        known,
        light,
    } = seen;
    let facts = Facts {
        light,
        ..Facts::of_log(strand, meta.speed)
    };
    let join = cut.usual_join();
    let answer = check(cut, strand, rules);
    let later = now == WaysNow::OfFew && answer.conflicts.len() > FEW;
    let twins = TakeTwins::new(strand, known);
    let ways = (!later).then(|| WaysOut::new(cut, strand, rules, &twins));
    let with_ways = |c| match &ways {
        Some(ways) => ConflictDocument::with_remedies(c, &ways.of(c)),
        None => ConflictDocument::plain(c),
    };
    let conflicts = answer.conflicts.iter().map(with_ways).collect();
    let mend_all = ways.as_ref().map_or_else(Vec::new, WaysOut::all_at_once);
    let (answered, open): (Vec<_>, Vec<_>) = questions(cut, &facts, answered)
        .into_iter()
        .partition(|question| question.answer.is_some());
    let bite = rules.table.row(join).bite;
    let document = CheckDocument {
        cut: name.to_owned(),
        join: join.word(),
        frames: answer.frames.count(),
        ok: answer.is_ok(),
        pieces: answer.pieces,
        joins: answer.joins,
        eaten: answer.eaten().count(),
        rolls: rolls(&answer),
        conflicts,
        mend_all: mend_all.iter().map(RemedyDocument::of).collect(),
        questions: open.into_iter().map(question).collect(),
        answered: answered.into_iter().map(question).collect(),
        pace: Pace::of(cut, meta.speed).map(|p| PaceDocument {
            mean_seconds: p.mean_seconds,
            median_seconds: p.median_seconds,
        }),
        assumptions: vec![format!(
            "a {join} join takes {} of the outgoing and {} of the incoming piece (table of {}, common practice: calibrate on your splicer)",
            bite.out_tail,
            bite.in_head,
            meta.gauge.spec().name
        )],
    };
    (document, later)
}

fn question(asked: Question) -> QuestionDocument {
    QuestionDocument {
        kind: asked.kind.code(),
        positions: asked.positions,
        text: asked.text,
        key: asked.key.to_string(),
        note: asked.answer.map(|answer| answer.note),
    }
}

fn rolls(answer: &Certificate) -> Vec<RollCountDocument> {
    let one = |r: &RollCount| RollCountDocument {
        roll: r.roll.to_string(),
        frames: r.frames.count(),
        used: r.used.count(),
        eaten: r.eaten.count(),
        left: r.left.count(),
        proved: r.proved,
    };
    answer.rolls.iter().map(one).collect()
}
