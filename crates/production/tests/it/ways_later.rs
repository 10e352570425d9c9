//! Of very many conflicts the ways out are looked for one by one, and are the same.

use onestrand_film::Gauge;
use onestrand_production::documents::{CutChange, PieceForm};
use onestrand_production::{
    FilmChange, NewCut, Production, WaysAsked, WaysRequest, check_cut, cut_document, try_cut,
};

use crate::in_the_hand::{change, film};

fn shot(first: u32, thrown: u32) -> PieceForm {
    let form = serde_json::json!({ "kind": "shot", "roll": "R1", "in": first, "out": thrown });
    serde_json::from_value(form).expect("a piece")
}

/// So many pieces, each of which wants the first two frames of the next.
fn entangled(production: &mut Production, pieces: u32) {
    let cut = NewCut {
        cut: "v1".to_owned(),
        ..NewCut::default()
    };
    change(production, &FilmChange::NewCut(cut)).expect("a version");
    let changes = (0..pieces).map(|at| CutChange::Insert {
        at: at as usize,
        piece: shot(100 + 40 * at, 142 + 40 * at),
    });
    let all = CutChange::All {
        changes: changes.collect(),
    };
    let laid = FilmChange::ChangeCut {
        cut: "v1".to_owned(),
        cut_change: all,
    };
    change(production, &laid).expect("laid");
}

fn asked(production: &Production, change: Option<CutChange>, conflict: usize) -> WaysAsked {
    let request = WaysRequest { change, conflict };
    WaysAsked::new(production, "v1", &request).expect("asked")
}

#[test]
fn few_are_told_at_once_and_of_many_each_when_it_is_asked_for() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut few = film(&dir.path().join("few"), Gauge::Super8, &["R1"]);
    entangled(&mut few, 4);
    let drawn = cut_document(&few, "v1").expect("drawn");
    assert_eq!((drawn.check.conflicts.len(), drawn.ways_later), (3, false));
    assert!(drawn.check.conflicts.iter().all(|c| !c.remedies.is_empty()));
    assert!(!drawn.check.mend_all.is_empty());

    let mut many = film(&dir.path().join("many"), Gauge::Super8, &["R1"]);
    entangled(&mut many, 12);
    let drawn = cut_document(&many, "v1").expect("drawn");
    assert_eq!((drawn.check.conflicts.len(), drawn.ways_later), (11, true));
    assert!(drawn.check.conflicts.iter().all(|c| c.remedies.is_empty()));
    assert!(drawn.check.mend_all.is_empty());
    // The command that is asked for all of it tells all of it.
    let whole = check_cut(&many, "v1", None).expect("checked");
    assert_eq!(whole.conflicts.len(), 11);
    for (at, conflict) in whole.conflicts.iter().enumerate() {
        let one = asked(&many, None, at).answer().expect("answered");
        assert!(!one.remedies.is_empty());
        assert_eq!(one.remedies, conflict.remedies, "conflict {at}");
        assert_eq!(one.mend_all, whole.mend_all);
    }
}

#[test]
fn they_are_those_of_what_is_on_trial() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut many = film(&dir.path().join("many"), Gauge::Super8, &["R1"]);
    entangled(&mut many, 12);
    // The first piece ends two frames earlier: its conflict is gone, the next is the first.
    let trimmed = CutChange::Replace {
        at: 0,
        piece: shot(100, 140),
    };
    let trial = try_cut(&many, "v1", &trimmed).expect("tried");
    assert_eq!(trial.check.conflicts.len(), 10);
    let first = asked(&many, Some(trimmed), 0).answer().expect("answered");
    let whole = check_cut(&many, "v1", None).expect("checked");
    assert_eq!(first.remedies, whole.conflicts[1].remedies);
    let none = asked(&many, None, 11).answer().expect_err("there are 11");
    assert!(none.to_string().contains("11 conflicts"), "{none}");
}
