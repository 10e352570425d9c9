//! The script in two windows: the later change of one part is told, another part is not
//! in its way.

use serde_json::{Value, json};

use crate::served::{Bench, film};

fn scene(id: Option<i64>, heading: &str) -> Value {
    let scene = json!({ "number": "", "heading": heading, "actions": [], "note": "" });
    json!({ "film_change": "script", "id": id, "to": { "part": "scene", "scene": scene } })
}

fn scenes(bench: &Bench) -> Vec<(i64, String)> {
    let script = bench.window.get(&film("script")).ok();
    let scenes = script["scenes"].as_array().expect("scenes").iter();
    let one = |scene: &Value| {
        let heading = scene["scene"]["heading"].as_str().expect("a heading");
        (scene["id"].as_i64().expect("a number"), heading.to_owned())
    };
    scenes.map(one).collect()
}

#[test]
fn the_later_change_of_a_scene_is_told_and_another_scene_is_not_in_its_way() {
    let bench = Bench::new();
    let revision = || {
        let script = bench.window.get(&film("script")).ok();
        script["revision"].as_u64().expect("a revision")
    };
    let seen = revision();
    bench.change("a", seen, &scene(None, "the landing")).ok();
    // What is only added stands beside what another window has done.
    bench.change("b", seen, &scene(None, "the river")).ok();
    let [(one, _), (two, _)] = scenes(&bench)[..] else {
        panic!("two scenes")
    };
    let seen = revision();
    let write = |key: &str, id: i64, heading: &str| {
        let mut change = scene(Some(id), heading);
        let number = if id == one { "1" } else { "2" };
        change["to"]["scene"]["number"] = json!(number);
        bench.change(key, seen, &change)
    };
    write("c", one, "the landing, early").ok();
    write("d", two, "the river, late").ok();
    assert_eq!(write("e", one, "the quay").refused(409), "store.stale");
    let now = scenes(&bench);
    let headings: Vec<&str> = now.iter().map(|(_, heading)| heading.as_str()).collect();
    assert_eq!(headings, ["the landing, early", "the river, late"]);
}
