//! The light of a view, followed through its scene.

use std::collections::BTreeMap;

use super::{Facts, Question, QuestionKey, QuestionKind, View, question};

/// A view is held against the one of the same setup that was last seen in the
/// scene, whatever stands between: what goes to a closer angle and comes back is
/// known again. Two setups are not compared, since a picture is light because of
/// what is in it. Another scene, leader or a title ends what is followed.
pub(super) fn asked(views: &[Option<View<'_>>], facts: &Facts<'_>) -> Vec<Question> {
    let mut out = Vec::new();
    let mut seen: BTreeMap<&str, &View<'_>> = BTreeMap::new();
    let mut in_scene = None;
    for view in views {
        let scene = view.as_ref().and_then(View::scene);
        if scene.is_none() || scene != in_scene {
            seen.clear();
        }
        in_scene = scene;
        let (Some(view), Some(_)) = (view, scene) else {
            continue;
        };
        let Some(slate) = &view.slate else {
            continue;
        };
        if let Some(before) = seen.insert(slate.setup(), view) {
            out.extend(step(before, view, facts));
        }
    }
    out
}

fn step(before: &View<'_>, after: &View<'_>, facts: &Facts<'_>) -> Option<Question> {
    let (was, is) = (before.piece.span()?, after.piece.span()?);
    let step = facts.light.step(was, is)?;
    if !step.is_finite() || step.abs() <= facts.limits.light_points {
        return None;
    }
    let word = if step > 0.0 { "lighter" } else { "darker" };
    let text = format!(
        "{} is {:.0} points ({:.1} stop) {word} than {}, the same view: is the step meant?",
        after.called(),
        step.abs(),
        step.abs() / 12.0,
        before.called()
    );
    let sides = [was.last().to_string(), is.first().to_string()];
    let key = QuestionKey::new(QuestionKind::Light, "", sides);
    let positions = [before.position, after.position];
    Some(question(QuestionKind::Light, positions, text, key))
}
