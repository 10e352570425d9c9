//! The sound, kept part by part.

use onestrand_store::{Act, DubKind, DubRecord, Production, Touched};

use crate::owner::meta;

fn part(kind: DubKind, body: &str, place: i64) -> DubRecord {
    let body = body.to_owned();
    DubRecord { kind, place, body }
}

fn put(production: &mut Production, record: &DubRecord) -> i64 {
    let id = production.next_dub_id().expect("a number");
    let part = Some(Box::new(record.clone()));
    let act = Act::PutDub { id, part };
    assert_eq!(act.touches(), [Touched::Dub(id)].into());
    production.act("a part", &act).expect("kept");
    id
}

#[test]
fn parts_stand_among_their_like_and_outlive_the_program() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = Production::create(dir.path(), &meta()).expect("new");
    let music = part(DubKind::Column, "music", 20);
    let voice = part(DubKind::Column, "voice", 10);
    let bell = part(DubKind::Cue, "bell", 15);
    for one in [&music, &voice, &bell] {
        put(&mut production, one);
    }
    drop(production);
    let production = Production::open(dir.path()).expect("open again");
    let columns = production.dub(DubKind::Column).expect("columns");
    assert_eq!(columns, [(2, voice), (1, music)]);
    assert_eq!(production.dub_part(3).expect("it"), bell);
    assert!(production.dub_part(9).is_err());
    assert_eq!(production.dub(DubKind::Pass).expect("none"), []);
}

#[test]
fn a_part_changed_or_taken_away_comes_back_as_it_was() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = Production::create(dir.path(), &meta()).expect("new");
    let id = put(&mut production, &part(DubKind::Cue, "first", 10));
    let changed = Some(Box::new(part(DubKind::Cue, "second", 5)));
    let act = Act::PutDub { id, part: changed };
    production.act("elsewhere", &act).expect("kept");
    let gone = Act::PutDub { id, part: None };
    production.act("no cue", &gone).expect("kept");
    assert_eq!(production.dub(DubKind::Cue).expect("none"), []);
    assert_eq!(production.next_dub_id().expect("a number"), id + 1);
    production.undo().expect("undone");
    let body = |production: &Production| {
        let kept = production.dub_part(id).expect("it");
        (kept.body, kept.place)
    };
    assert_eq!(body(&production), ("second".to_owned(), 5));
    production.undo().expect("undone");
    assert_eq!(body(&production), ("first".to_owned(), 10));
    production.redo().expect("done again");
    assert_eq!(body(&production), ("second".to_owned(), 5));
}
