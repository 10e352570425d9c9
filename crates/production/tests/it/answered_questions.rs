//! The user's word on a question: given, noted beside, changed and taken back, also
//! after the join was nudged.

use onestrand_film::Gauge;
use onestrand_production::documents::{CutChange, PieceForm, PieceWord, QuestionDocument};
use onestrand_production::{
    AnswerQuestion, AskAgain, FilmChange, NewCut, Production, ProductionError, check_cut,
};

use crate::in_the_hand::{change, film};

fn piece(first: u32, thrown: u32) -> PieceForm {
    PieceForm {
        kind: PieceWord::Shot,
        roll: Some("R1".to_owned()),
        first: Some(first),
        thrown: Some(thrown),
        frames: None,
        title: None,
        slate: Some("1-T1".to_owned()),
        join: None,
        effect: None,
        note: String::new(),
    }
}

fn lay(production: &mut Production, cut_change: CutChange) {
    let cut = "v1".to_owned();
    change(production, &FilmChange::ChangeCut { cut, cut_change }).expect("laid");
}

/// One take joined to itself across thirty frames.
fn hopping(dir: &std::path::Path) -> Production {
    let mut production = film(dir, Gauge::Super8, &["R1"]);
    let new = NewCut {
        cut: "v1".to_owned(),
        ..NewCut::default()
    };
    change(&mut production, &FilmChange::NewCut(new)).expect("begun");
    for (at, (first, thrown)) in [(100, 140), (170, 220)].into_iter().enumerate() {
        let piece = piece(first, thrown);
        lay(&mut production, CutChange::Insert { at, piece });
    }
    production
}

fn answer(production: &mut Production, key: &str, note: &str) -> Result<(), String> {
    let said = AnswerQuestion {
        key: key.to_owned(),
        note: note.to_owned(),
    };
    change(production, &FilmChange::AnswerQuestion(said))
}

fn again(production: &mut Production, key: &str) -> Result<(), String> {
    let key = key.to_owned();
    change(production, &FilmChange::AskAgain(AskAgain { key }))
}

/// The open and the answered questions of the version.
fn asked(production: &Production) -> (Vec<QuestionDocument>, Vec<QuestionDocument>) {
    let check = check_cut(production, "v1", None).expect("checked");
    (check.questions, check.answered)
}

#[test]
fn an_answer_has_a_note_that_can_be_changed_and_taken_away() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = hopping(&dir.path().join("film"));
    let key = asked(&production).0[0].key.clone();
    answer(&mut production, &key, "").expect("answered");
    let note = |production: &Production| {
        let (open, answered) = asked(production);
        assert!(open.is_empty(), "{open:?}");
        assert_eq!(answered.len(), 1, "one answer, however often it is written");
        answered[0].note.clone().expect("answered")
    };
    assert_eq!(note(&production), "");
    answer(&mut production, &key, "  the cat hops too ").expect("noted");
    assert_eq!(note(&production), "the cat hops too");
    answer(&mut production, &key, "").expect("the note is gone, the answer is not");
    assert_eq!(note(&production), "");
    production.undo().expect("undone");
    assert_eq!(note(&production), "the cat hops too");
    again(&mut production, &key).expect("open again");
    assert_eq!(asked(&production).0.len(), 1);
    let refused = again(&mut production, &key).expect_err("it has no answer");
    assert!(refused.contains("has no answer"), "{refused}");
}

#[test]
fn a_nudged_join_is_still_the_one_that_was_answered_for() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = hopping(&dir.path().join("film"));
    let key = asked(&production).0[0].key.clone();
    answer(&mut production, &key, "a breath").expect("answered");
    let nudge = |production: &mut Production, thrown| {
        let piece = piece(100, thrown);
        lay(production, CutChange::Replace { at: 0, piece });
    };
    nudge(&mut production, 147);
    let (open, answered) = asked(&production);
    assert!(open.is_empty(), "{open:?}");
    let moved = answered[0].key.clone();
    assert_ne!(moved, key, "the question is by the frames as they are now");
    // Its note is changed, and it is asked again, by the key that it has now.
    answer(&mut production, &moved, "a breath, or two").expect("noted");
    let answered = asked(&production).1;
    assert_eq!(answered.len(), 1);
    assert_eq!(answered[0].note.as_deref(), Some("a breath, or two"));
    again(&mut production, &moved).expect("open again");
    let (open, answered) = asked(&production);
    assert_eq!((open.len(), answered.len()), (1, 0));
    // A join far away is another: the answer stays where it was given.
    answer(&mut production, &moved, "").expect("answered");
    nudge(&mut production, 128);
    assert_eq!(asked(&production).0.len(), 1);
}

#[test]
fn what_is_no_question_is_refused() {
    let dir = tempfile::tempdir().expect("a folder");
    let production = hopping(&dir.path().join("film"));
    let said = AnswerQuestion {
        key: "jump".to_owned(),
        note: String::new(),
    };
    let refused = FilmChange::AnswerQuestion(said).act(&production);
    assert!(matches!(refused, Err(ProductionError::Unfit { .. })));
    let key = "hop||R1·1|R1·2".to_owned();
    let refused = FilmChange::AskAgain(AskAgain { key }).act(&production);
    assert!(matches!(refused, Err(ProductionError::Unfit { .. })));
}
