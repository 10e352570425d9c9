//! What is asked of the two pieces at one join.

use std::collections::BTreeMap;

use onestrand_film::RollId;

use crate::{Base, TrialCut};

use super::{Facts, Question, QuestionKey, QuestionKind, View, question};

pub(super) fn asked(views: &[Option<View<'_>>], facts: &Facts<'_>) -> Vec<Question> {
    let mut out = Vec::new();
    for pair in views.windows(2) {
        let [Some(before), Some(after)] = pair else {
            continue;
        };
        if let Some(jump) = jump(before, after, facts) {
            out.push(jump);
        } else {
            out.extend(size(before, after, facts));
        }
    }
    out
}

/// The rolls of unlike wind that are joined, titles too: asked once for two
/// rolls, at their first join.
pub(super) fn mixed_winds(cut: &TrialCut, facts: &Facts<'_>) -> Vec<Question> {
    let mut winds: BTreeMap<(RollId, RollId), Vec<[usize; 2]>> = BTreeMap::new();
    for (at, pair) in cut.pieces().windows(2).enumerate() {
        let [Some(one), Some(other)] = [pair[0].span(), pair[1].span()] else {
            continue;
        };
        if let Some(rolls) = unlike_winds(&one.roll, &other.roll, facts) {
            winds.entry(rolls).or_default().push([at + 1, at + 2]);
        }
    }
    let one = |(rolls, joins): ((RollId, RollId), Vec<[usize; 2]>)| wind(&rolls, &joins, facts);
    winds.into_iter().map(one).collect()
}

const fn places(before: &View<'_>, after: &View<'_>) -> [usize; 2] {
    [before.position, after.position]
}

/// The same view joined to itself across a gap, or to another take of itself.
fn jump(before: &View<'_>, after: &View<'_>, facts: &Facts<'_>) -> Option<Question> {
    let (one, other) = (before.slate.as_ref()?, after.slate.as_ref()?);
    let (first, second) = (before.piece.span()?, after.piece.span()?);
    if one.setup() != other.setup() {
        return None;
    }
    let sides = [first.last().to_string(), second.first().to_string()];
    let key = QuestionKey::new(QuestionKind::Jump, "", sides);
    let text = if one == other && first.roll == second.roll {
        let gap = second.range.begin().since(first.range.end()).frames();
        if gap == 0 {
            return None;
        }
        let seconds = f64::from(gap.unsigned_abs()) / facts.fps.as_f64();
        let how = if gap > 0 { "across" } else { "back over" };
        format!(
            "{one} is joined to itself {how} {} frames ({seconds:.1} s): is the hop meant?",
            gap.unsigned_abs()
        )
    } else {
        format!("{one} and {other} are the same view: is the hop meant?")
    };
    Some(question(
        QuestionKind::Jump,
        places(before, after),
        text,
        key,
    ))
}

/// Two views of one scene, of nearly the same size, from nearly the same place.
fn size(before: &View<'_>, after: &View<'_>, facts: &Facts<'_>) -> Option<Question> {
    let (one, other) = (before.words.size?, after.words.size?);
    if before.scene()? != after.scene()? || one.half_steps_to(other) >= facts.limits.size_half_steps
    {
        return None;
    }
    if before.slate.as_ref()?.setup() == after.slate.as_ref()?.setup() {
        return None;
    }
    let angles = before.words.angle.zip(after.words.angle);
    if angles.is_some_and(|(a, b)| degrees_between(a, b) >= facts.limits.angle_degrees) {
        return None;
    }
    if subjects_differ(before, after) {
        return None;
    }
    let sides = [before.named(), after.named()];
    let text = format!(
        "{} and {} show one scene at nearly one size: does the step look like a slip?",
        before.called(),
        after.called()
    );
    let key = QuestionKey::new(QuestionKind::Size, "", sides);
    Some(question(
        QuestionKind::Size,
        places(before, after),
        text,
        key,
    ))
}

fn degrees_between(a: f64, b: f64) -> f64 {
    let turn = (a - b).abs() % 360.0;
    turn.min(360.0 - turn)
}

/// Whether both takes name who moves, and it is nobody that both name.
fn subjects_differ(before: &View<'_>, after: &View<'_>) -> bool {
    let names = |view: &View<'_>| -> Vec<String> {
        let named = view.words.movers.iter().filter(|m| !m.who.is_empty());
        named.map(|m| m.who.to_lowercase()).collect()
    };
    let (one, other) = (names(before), names(after));
    !one.is_empty() && !other.is_empty() && one.iter().all(|who| !other.contains(who))
}

/// The two rolls at a join, when it is known that their winds differ.
fn unlike_winds(one: &RollId, other: &RollId, facts: &Facts<'_>) -> Option<(RollId, RollId)> {
    let wind = |roll: &RollId| facts.strand.roll(roll)?.wind;
    let differ = wind(one)? != wind(other)?;
    differ.then(|| (one.min(other).clone(), one.max(other).clone()))
}

fn wind(rolls: &(RollId, RollId), joins: &[[usize; 2]], facts: &Facts<'_>) -> Question {
    let letter = |roll: &RollId| match facts.strand.roll(roll).and_then(|r| r.wind) {
        Some(crate::Wind::A) => "A-wind",
        Some(crate::Wind::B) => "B-wind",
        None => "of a wind not known",
    };
    let (one, other) = (&rolls.0, &rolls.1);
    let places = match joins.len() {
        1 => "at this join".to_owned(),
        n => format!("here and at {} more joins", n - 1),
    };
    let text = format!(
        "{one} is {} and {other} is {}: the focus jumps by the thickness of the base, {}, {places}. Is it meant?",
        letter(one),
        letter(other),
        base_thickness(rolls, facts)
    );
    let sides = [one.to_string(), other.to_string()];
    let key = QuestionKey::new(QuestionKind::Wind, "", sides);
    let first = joins.first().copied().unwrap_or_default();
    question(QuestionKind::Wind, first, text, key)
}

/// How thick the base is that the focus jumps by, as far as one may say: the
/// figures are those of `docs/QUESTIONS.md`, and none of this roll was measured.
fn base_thickness(rolls: &(RollId, RollId), facts: &Facts<'_>) -> &'static str {
    let base = |roll: &RollId| facts.strand.roll(roll).map(|r| r.base).unwrap_or_default();
    match (base(&rolls.0), base(&rolls.1)) {
        (Base::Triacetate, Base::Triacetate) => "about 0.13 mm of triacetate",
        (Base::Polyester, Base::Polyester) => "about 0.1 mm of polyester",
        _ => "0.1 to 0.13 mm",
    }
}
