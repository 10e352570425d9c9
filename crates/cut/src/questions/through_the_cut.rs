//! What is followed through the cut: who goes which way, and the line of action.

use std::collections::BTreeMap;

use super::{LineSide, Question, QuestionKey, QuestionKind, View, Way, question};

/// Where somebody was last seen going left or right, or a scene last seen from
/// one side: which view, and what it was.
type LastSeen<'v, T> = BTreeMap<String, (&'v View<'v>, T)>;

/// Somebody seen going the one way and then the other.
struct Turn<'v> {
    who: String,
    before: (&'v View<'v>, Way),
    after: (&'v View<'v>, Way),
}

/// What stands between two pieces of film, leader or a title, ends what is
/// followed: time passes there.
pub(super) fn asked(views: &[Option<View<'_>>]) -> Vec<Question> {
    let mut turns: Vec<Turn<'_>> = Vec::new();
    let mut lines = Vec::new();
    let mut going: LastSeen<'_, Way> = LastSeen::new();
    let mut sides: LastSeen<'_, LineSide> = LastSeen::new();
    for view in views {
        let Some(view) = view else {
            going.clear();
            sides.clear();
            continue;
        };
        follow_movers(view, &mut going, &mut turns);
        lines.extend(follow_side(view, &mut sides));
    }
    questions_of(turns, lines)
}

fn follow_movers<'v>(view: &'v View<'v>, going: &mut LastSeen<'v, Way>, turns: &mut Vec<Turn<'v>>) {
    for mover in &view.words.movers {
        // Who is not named can only be told within one scene.
        let who = match (mover.who.is_empty(), view.scene()) {
            (false, _) => mover.who.to_lowercase(),
            (true, Some(scene)) => format!("scene {scene}"),
            (true, None) => continue,
        };
        if mover.way == Way::Neutral {
            going.remove(&who);
            continue;
        }
        let seen = going.insert(who.clone(), (view, mover.way));
        if let Some(before) = seen.filter(|b| b.1 != mover.way && b.0.position != view.position) {
            let called = if mover.who.is_empty() {
                String::new()
            } else {
                mover.who.clone()
            };
            turns.push(Turn {
                who: called,
                before,
                after: (view, mover.way),
            });
        }
    }
}

fn follow_side<'v>(view: &'v View<'v>, sides: &mut LastSeen<'v, LineSide>) -> Option<Question> {
    let scene = view.scene()?.to_owned();
    let side = view.words.side?;
    if side == LineSide::OnTheLine {
        sides.remove(&scene);
        return None;
    }
    let (before, was) = sides.insert(scene, (view, side))?;
    (was != side).then(|| {
        let text = format!(
            "{} was seen from the other side of the line than {}: is the crossing meant?",
            view.called(),
            before.called()
        );
        line(before, view, text)
    })
}

fn line(before: &View<'_>, after: &View<'_>, text: String) -> Question {
    let sides = [before.named(), after.named()];
    let key = QuestionKey::new(QuestionKind::Line, "", sides);
    let positions = [before.position, after.position];
    question(QuestionKind::Line, positions, text, key)
}

/// Turns as questions. Where all that move turn at once it is the camera that
/// has crossed the line, and that is asked once.
fn questions_of(turns: Vec<Turn<'_>>, lines: Vec<Question>) -> Vec<Question> {
    let mut out = lines;
    let mut by_place: BTreeMap<[usize; 2], Vec<Turn<'_>>> = BTreeMap::new();
    for turn in turns {
        let place = [turn.before.0.position, turn.after.0.position];
        by_place.entry(place).or_default().push(turn);
    }
    for (place, turns) in by_place {
        if out
            .iter()
            .any(|q| q.kind == QuestionKind::Line && q.positions == place)
        {
            continue;
        }
        match turns.as_slice() {
            [one] => out.push(direction(one)),
            [first, ..] => {
                let names: Vec<&str> = turns.iter().map(|t| t.who.as_str()).collect();
                let text = format!(
                    "{} all go the other way in {} than in {}: has the camera crossed the line?",
                    names.join(" and "),
                    first.after.0.called(),
                    first.before.0.called()
                );
                out.push(line(first.before.0, first.after.0, text));
            }
            [] => {}
        }
    }
    out
}

fn direction(turn: &Turn<'_>) -> Question {
    let ((before, was), (after, is)) = (turn.before, turn.after);
    let who = if turn.who.is_empty() {
        "what moves"
    } else {
        turn.who.as_str()
    };
    let text = format!(
        "{who} goes {} in {} and {} in {}: is the turn meant?",
        was.words(),
        before.called(),
        is.words(),
        after.called()
    );
    let sides = [before.named(), after.named()];
    let key = QuestionKey::new(QuestionKind::Direction, &turn.who, sides);
    let positions = [before.position, after.position];
    question(QuestionKind::Direction, positions, text, key)
}
