//! The shelf as a class: films from templates, and the roster that is kept there.

use serde_json::json;

use crate::served::Served;

#[test]
fn films_are_made_from_templates_and_like_others() {
    let dir = tempfile::tempdir().expect("a folder");
    let served = Served::on(dir.path());
    let window = served.enter();
    let shelf = window.get("/api/shelf").ok();
    let templates = shelf["templates"].as_array().expect("templates").clone();
    assert!(templates.len() >= 4);
    for template in &templates {
        let new = json!({
            "title": template["title"], "gauge": template["gauge"], "speed": template["speed"],
            "template": template["template"],
        });
        let film = window.post("/api/films", &new).ok();
        assert_eq!(film["cuts"], u8::from(!template["join"].is_null()));
        assert_eq!(film["scenes"], u8::from(template["script"] == true));
    }
    let like = json!({
        "title": "Like it", "gauge": "16", "speed": "24", "like": "16-mm-joined-with-cement",
    });
    let film = window.post("/api/films", &like).ok();
    assert_eq!((&film["cuts"], &film["scenes"]), (&json!(1), &json!(0)));
    let settings = window.get("/api/films/like-it").ok();
    assert_eq!(settings["cuts"][0]["usual_join"], "cement");

    // What there is not is refused before a folder is made for it.
    let before = std::fs::read_dir(dir.path()).expect("the shelf").count();
    for (word, name) in [("template", "feature"), ("like", "nothing")] {
        let mut new = json!({ "title": "None", "gauge": "super8", "speed": "18" });
        new[word] = json!(name);
        assert_eq!(window.post("/api/films", &new).status, 404);
    }
    assert_eq!(
        std::fs::read_dir(dir.path()).expect("the shelf").count(),
        before
    );
    assert_eq!(window.get("/api/films/like-it/face").status, 204);
}

#[test]
fn the_roster_of_a_shelf_is_kept_once_for_all_windows() {
    let dir = tempfile::tempdir().expect("a folder");
    let served = Served::on(dir.path());
    let window = served.enter();
    let empty = window.get("/api/roster").ok();
    assert_eq!(
        (&empty["revision"], &empty["plan"]),
        (&json!(0), &json!(null))
    );
    assert_eq!(empty["problem"]["code"], "plan.problems");
    for title in ["The Kite", "The Well"] {
        let new = json!({ "title": title, "gauge": "super8", "speed": "18" });
        window.post("/api/films", &new).ok();
    }
    let begun = window.get("/api/roster").ok();
    // Nothing is proved, so nothing is cut.
    assert_eq!(begun["plan"]["waiting"].as_array().map(Vec::len), Some(8));

    let mut form = begun["form"].clone();
    form["films"] = json!([
        { "film": "the-kite", "proved_from": 2 }, { "film": "the-well", "proved_from": 2 },
    ]);
    let keep = |revision: u64, form: &serde_json::Value| {
        let body = json!({ "revision": revision, "form": form });
        window.request("PUT", "/api/roster").json(&body).send()
    };
    let kept = keep(0, &form).ok();
    assert_eq!(kept["revision"], 1);
    assert_eq!(kept["plan"]["waiting"], json!([]));
    assert!(kept["plan"]["sessions"].as_u64() >= kept["plan"]["lower_bound"]["at_least"].as_u64());
    assert_eq!(keep(0, &form).status, 409, "another window was first");

    // What cannot be planned is kept all the same, and said.
    form["steps"][0]["hours"] = json!("soon");
    let kept = keep(1, &form).ok();
    assert_eq!(
        (&kept["revision"], &kept["plan"]),
        (&json!(2), &json!(null))
    );
    let place = &kept["problem"]["details"]["problems"][0]["place"];
    assert_eq!(place, "step 1");
    assert_eq!(window.get("/api/roster/sheet").status, 422);

    form["steps"][0]["hours"] = json!("0:30");
    keep(2, &form).ok();
    let sheet = window.get("/api/roster/sheet?paper=letter&title=Our%20class");
    assert_eq!(sheet.status, 200);
    assert!(sheet.body.starts_with(b"%PDF"));
    let csv = window.get("/api/roster/csv");
    assert!(csv.body.starts_with(b"session,from,to,team"));
}
