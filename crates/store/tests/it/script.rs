//! The shooting script, kept part by part.

use onestrand_store::{
    Act, ActionRecord, Production, RecceRecord, SceneRecord, ScriptPart, ScriptRecord, SetupRecord,
    WildSoundRecord,
};

use crate::owner::meta;

fn scene(number: &str, place: i64) -> ScriptRecord {
    ScriptRecord {
        place,
        part: ScriptPart::Scene(SceneRecord {
            number: number.to_owned(),
            heading: "EXT. LANDING - DAY".to_owned(),
            actions: vec![ActionRecord {
                name: format!("{number}a"),
                text: "Ida runs.".to_owned(),
                speaker: None,
            }],
            note: String::new(),
        }),
    }
}

fn setup(name: &str, place: i64) -> ScriptRecord {
    ScriptRecord {
        place,
        part: ScriptPart::Setup(SetupRecord {
            name: name.to_owned(),
            seconds: "7.5".to_owned(),
            takes: 2,
            ..SetupRecord::default()
        }),
    }
}

fn put(production: &mut Production, record: &ScriptRecord) -> i64 {
    let id = production.next_script_id().expect("a number");
    let part = Some(Box::new(record.clone()));
    let act = Act::PutScript { id, part };
    production.act("a part", &act).expect("kept");
    id
}

fn other_kinds() -> [ScriptRecord; 2] {
    let sound = ScriptPart::WildSound(WildSoundRecord {
        sound: "water".to_owned(),
        ..WildSoundRecord::default()
    });
    let recce = ScriptPart::Recce(RecceRecord {
        place: "the landing".to_owned(),
        ..RecceRecord::default()
    });
    [sound, recce].map(|part| ScriptRecord { place: 0, part })
}

#[test]
fn parts_stand_in_their_order_and_outlive_the_program() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = Production::create(dir.path(), &meta()).expect("new");
    let late = scene("2", 20);
    let early = scene("1", 10);
    let one = setup("1", 10);
    let [sound, recce] = other_kinds();
    for part in [&late, &one, &early, &sound, &recce] {
        put(&mut production, part);
    }
    drop(production);
    let production = Production::open(dir.path()).expect("open again");
    let all = production.script().expect("the script");
    let expected = [
        (5, recce),
        (3, early),
        (1, late.clone()),
        (2, one),
        (4, sound),
    ];
    assert_eq!(all, expected);
    assert_eq!(production.script_part(1).expect("it"), late);
    assert!(production.script_part(9).is_err());
}

#[test]
fn a_part_changed_or_taken_away_comes_back_as_it_was() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = Production::create(dir.path(), &meta()).expect("new");
    let id = put(&mut production, &setup("2A", 10));
    let changed = Act::PutScript {
        id,
        part: Some(Box::new(setup("2B", 5))),
    };
    production.act("another letter", &changed).expect("kept");
    let gone = Act::PutScript { id, part: None };
    production.act("no setup", &gone).expect("kept");
    assert_eq!(production.script().expect("the script"), []);
    assert_eq!(production.next_script_id().expect("a number"), id + 1);
    production.undo().expect("undone");
    assert_eq!(production.script_part(id).expect("it"), setup("2B", 5));
    production.undo().expect("undone");
    assert_eq!(production.script_part(id).expect("it"), setup("2A", 10));
    production.redo().expect("done again");
    assert_eq!(production.script_part(id).expect("it"), setup("2B", 5));
}
