//! The titles, kept one by one.

use onestrand_store::{Act, Production, TitleRecord, Touched};

use crate::owner::meta;

fn title(body: &str, place: i64) -> TitleRecord {
    let body = body.to_owned();
    TitleRecord { place, body }
}

fn put(production: &mut Production, record: &TitleRecord) -> i64 {
    let id = production.next_title_id().expect("a number");
    let title = Some(record.clone());
    let act = Act::PutTitle { id, title };
    assert_eq!(act.touches(), [Touched::Title(id)].into());
    production.act("a title", &act).expect("kept");
    id
}

#[test]
fn titles_stand_in_their_order_and_outlive_the_program() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = Production::create(dir.path(), &meta()).expect("new");
    let (end, main) = (title("{\"name\":\"E\"}", 20), title("{}", 10));
    put(&mut production, &end);
    put(&mut production, &main);
    drop(production);
    let production = Production::open(dir.path()).expect("open again");
    let all = production.titles().expect("the titles");
    assert_eq!(all, [(2, main), (1, end.clone())]);
    assert_eq!(production.title(1).expect("it"), end);
    assert!(production.title(9).is_err());
}

#[test]
fn a_title_changed_or_taken_away_comes_back_as_it_was() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = Production::create(dir.path(), &meta()).expect("new");
    let id = put(&mut production, &title("first", 10));
    let changed = Some(title("second", 5));
    let changed = Act::PutTitle { id, title: changed };
    production.act("other words", &changed).expect("kept");
    let gone = Act::PutTitle { id, title: None };
    production.act("no title", &gone).expect("kept");
    assert_eq!(production.titles().expect("the titles"), []);
    assert_eq!(production.next_title_id().expect("a number"), id + 1);
    production.undo().expect("undone");
    assert_eq!(production.title(id).expect("it"), title("second", 5));
    production.undo().expect("undone");
    assert_eq!(production.title(id).expect("it"), title("first", 10));
    production.redo().expect("done again");
    assert_eq!(production.title(id).expect("it"), title("second", 5));
}
