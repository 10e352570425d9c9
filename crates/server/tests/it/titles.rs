//! Titles over the wire: two windows, pictures frame by frame, and how long a browser may
//! keep them.

use serde_json::{Value, json};

use crate::served::{Bench, film};

fn title(id: Option<i64>, name: &str, words: &str) -> Value {
    let shooting = json!({ "hold": 10, "before": 3, "after": 2, "fade_in": 2 });
    let title = json!({ "name": name, "words": words, "shooting": shooting });
    json!({ "film_change": "titles", "id": id, "to": { "what": "title", "title": title } })
}

fn titles(bench: &Bench) -> Value {
    bench.window.get(&film("titles")).ok()
}

#[test]
fn the_later_change_of_a_title_is_told_and_another_is_not_in_its_way() {
    let bench = Bench::new();
    let seen = || titles(&bench)["revision"].as_u64().expect("a revision");
    let first = seen();
    bench
        .change("a", first, &title(None, "M", "The river"))
        .ok();
    // What is only added stands beside what another window has done.
    bench.change("b", first, &title(None, "E", "The end")).ok();
    let all = titles(&bench);
    let id = |nth: usize| all["titles"][nth]["id"].as_i64();
    let now = seen();
    bench
        .change("c", now, &title(id(0), "M", "The wide river"))
        .ok();
    bench.change("d", now, &title(id(1), "E", "End")).ok();
    let late = bench.change("e", now, &title(id(0), "M", "A river"));
    assert_eq!(late.refused(409), "store.stale");
    let twice = bench.change("f", seen(), &title(None, "e", "again"));
    assert_eq!(twice.refused(422), "production.unfit");
    let words = |all: &Value, nth: usize| all["titles"][nth]["title"]["words"].clone();
    let all = titles(&bench);
    assert_eq!(
        (words(&all, 0), words(&all, 1)),
        (json!("The wide river"), json!("End"))
    );
    assert_eq!(all["titles"][0]["whole"], 15);
}

#[test]
fn a_title_is_seen_frame_by_frame_and_kept_by_the_browser_under_its_name() {
    let bench = Bench::new();
    let seen = titles(&bench)["revision"].as_u64().expect("a revision");
    bench.change("a", seen, &title(None, "M", "The river")).ok();
    let of = |all: &Value| {
        let one = &all["titles"][0];
        let drawn = one["drawn"].as_str().expect("a name").to_owned();
        (one["id"].as_i64().expect("a number"), drawn)
    };
    let (id, drawn) = of(&titles(&bench));
    let frame = |n: u32, drawn: &str| {
        let asked = format!("titles/{id}/frames/{n}?width=320&drawn={drawn}");
        let answer = bench.window.get(&film(&asked));
        assert_eq!(answer.status, 200, "{answer:?}");
        let keep = answer.header("cache-control").map(str::to_owned);
        (answer.body, keep.unwrap_or_default())
    };
    let (dark, keep) = frame(0, &drawn);
    assert!(keep.contains("immutable"), "{keep}");
    assert_eq!(frame(0, "another").1, "no-store");
    let (lettered, _) = frame(5, &drawn);
    assert_ne!(dark, lettered);
    assert_eq!(frame(3, &drawn).0, lettered, "the lettering stands still");
    assert_eq!(
        frame(14, &drawn).0,
        frame(99, &drawn).0,
        "the last one stands on"
    );
    // The same frames in a run, each behind its length.
    let asked = format!("titles/{id}/run?first=3&count=4&width=320&drawn={drawn}");
    let run = bench.window.get(&film(&asked)).body;
    let length = u32::from_le_bytes(run[..4].try_into().expect("four bytes")) as usize;
    assert_eq!(run[4..4 + length], lettered);
    assert_eq!(run.len(), 4 * (4 + length));
    // One that is only written has a card and a picture too.
    let written = json!({ "words": "The wide river" });
    let card = bench.window.post(&film("titles/card"), &written).ok();
    assert_eq!(card["letters"]["words"], 3);
    assert_eq!(card["sheet"]["frames"], card["frames"]);
    let picture = bench.window.post(&film("titles/drawn?width=320"), &written);
    assert_eq!(picture.header("content-type"), Some("image/jpeg"));
    let huge = bench
        .window
        .post(&film("titles/drawn?width=90000"), &written);
    assert_eq!(huge.refused(422), "production.unfit");
    // Another stand, another name.
    let stand = json!({ "width": "180" });
    let change = json!({ "film_change": "titles", "to": { "what": "stand", "stand": stand } });
    let seen = titles(&bench)["revision"].as_u64().expect("a revision");
    bench.change("b", seen, &change).ok();
    assert_ne!(of(&titles(&bench)).1, drawn);
    let stand = bench.window.get(&film("titles/stand")).ok();
    assert_eq!(stand["field"]["field_mm"][0], 180.0);
    assert_eq!(stand["problems"], json!([]));
}

#[test]
fn a_crawl_and_a_stand_that_cannot_be_stop_no_list() {
    let bench = Bench::new();
    let revision = || titles(&bench)["revision"].as_u64().expect("a revision");
    let mut crawl = title(None, "C", "Ida\nTom\nthe ferryman");
    crawl["to"]["title"]["shooting"] = json!({ "crawl": 50 });
    bench.change("a", revision(), &crawl).ok();
    let kept = titles(&bench)["titles"][0]["title"].clone();
    let card = bench.window.post(&film("titles/card"), &kept).ok();
    assert_eq!(card["contrast"]["enough"], true, "{card}");
    assert!(card["frames"].as_u64().expect("frames") > 300, "{card}");
    // So near that no lens takes it in: the titles are listed, and the stand says why.
    let stand = json!({ "width": "", "distance": "5" });
    let change = json!({ "film_change": "titles", "to": { "what": "stand", "stand": stand } });
    bench.change("b", revision(), &change).ok();
    assert_eq!(titles(&bench)["titles"][0]["title"]["name"], "C");
    let told = bench.window.get(&film("titles/stand")).ok();
    assert_eq!(told["problems"][0]["refused"], true, "{told}");
    assert_eq!(bench.window.get(&film("")).ok()["titles"][0]["name"], "C");
    bench.window.get(&film("script")).ok();
}
