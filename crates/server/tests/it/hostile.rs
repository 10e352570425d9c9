//! Every request of the description, with values nobody means well by: each is
//! answered, none with a failure of the program, and the film is whole after it.

use serde_json::{Value, json};

use crate::sample::{body_samples, parameter, requests};
use crate::served::{Answer, Bench, FILM, film};

/// Values in the place of any other.
fn values() -> Vec<Value> {
    let long = "x".repeat(5_000);
    let deep = (0..60).fold(json!([]), |inner, _| json!([inner]));
    let mut all = vec![
        Value::Null,
        json!(true),
        json!(-1),
        json!(0),
        json!(1.5),
        json!(99_999_999),
        json!(u32::MAX),
        json!(u64::from(u32::MAX) + 1),
        json!(i64::MIN),
        json!(u64::MAX),
        json!(1e300),
        json!([]),
        json!({}),
        deep,
    ];
    let texts = [
        "",
        " ",
        "\0",
        "a\0b",
        "\u{202e}\u{feff}\u{10ffff}é",
        "../../etc",
        "R1\nR2",
    ];
    let odd = [
        "'); DROP TABLE roll; --",
        "%s%n%00",
        "999999999999ft",
        "0/0",
        "1e9",
        "-0",
        &long,
    ];
    all.extend(texts.into_iter().chain(odd).map(|text| json!(text)));
    all
}

fn in_address(text: &str) -> String {
    text.bytes().map(|b| format!("%{b:02x}")).collect()
}

fn as_text(value: &Value) -> String {
    value
        .as_str()
        .map_or_else(|| value.to_string(), str::to_owned)
}

/// What must be true of every answer.
fn sound(answer: Option<&Answer>, asked: &str) {
    let answer = answer.unwrap_or_else(|| panic!("no answer to {asked:.300}"));
    assert!(answer.status < 500, "{asked:.300}: {answer:?}");
    if answer.status >= 400 {
        answer.refused(answer.status);
    }
}

/// Drawing the example takes a minute of both processors, and the stream of
/// events never ends; both take nothing from the sender.
fn is_left_out(path: &str) -> bool {
    ["/api/example", "/api/events"].contains(&path)
}

#[test]
fn hostile_words_in_addresses() {
    let bench = Bench::new();
    let mut asked = 0;
    for request in requests().filter(|r| !is_left_out(&r.path)) {
        for hostile in 0..request.parameters.len() {
            for value in values().iter().filter(|v| !v.is_array()) {
                let target = request.target(|at, name| match at == hostile {
                    true => in_address(&as_text(value)),
                    false => in_address(&parameter(name)),
                });
                let ask = bench.window.request(&request.method, &target);
                let ask = match body_samples(&request).first() {
                    Some(body) => ask.json(body),
                    None => ask,
                };
                sound(ask.try_send().as_ref(), &target);
                asked += 1;
            }
        }
        for bytes in ["%ff%fe", "%", "%2", "%zz", "%c0%80", "", "//", "%2e%2e"] {
            let target = request.target(|_, _| bytes.to_owned());
            let answer = bench.window.request(&request.method, &target).try_send();
            sound(answer.as_ref(), &target);
        }
    }
    assert!(asked > 600, "{asked}");
    whole(&bench);
}

/// A document with a value in the place of another, for each place in it.
fn spoiled(whole: &Value, values: &[Value]) -> Vec<Value> {
    let mut all: Vec<Value> = values.to_vec();
    match whole {
        Value::Object(fields) => {
            for (name, inner) in fields {
                for other in spoiled(inner, values) {
                    let mut document = whole.clone();
                    document[name] = other;
                    all.push(document);
                }
                let mut without = fields.clone();
                without.remove(name);
                all.push(Value::Object(without));
            }
        }
        Value::Array(items) if !items.is_empty() => {
            for other in spoiled(&items[0], values) {
                all.push(json!([other]));
            }
        }
        _ => {}
    }
    all
}

/// Sends a change against the newest revision, so that it comes as far as it
/// can.
fn send_newest(
    bench: &Bench,
    method: &str,
    target: &str,
    document: &mut Value,
    revision: &mut u64,
) {
    for _ in 0..2 {
        if document.get("revision").is_some_and(|r| *r == 0) {
            document["revision"] = json!(*revision);
        }
        let answer = bench
            .window
            .request(method, target)
            .json(document)
            .try_send();
        let text = document.to_string();
        sound(answer.as_ref(), &format!("{target} {text:.250}"));
        let told = answer.expect("an answer").document();
        if let Some(now) = told["details"]["now"].as_u64() {
            if document.get("revision").is_some_and(|r| *r == *revision) {
                document["revision"] = json!(0);
            }
            *revision = now;
        } else {
            if let Some(now) = told["revision"].as_u64() {
                *revision = now;
            }
            return;
        }
    }
}

#[test]
fn hostile_documents() {
    let bench = Bench::new();
    let lay_in = json!({ "change": "insert", "at": 0, "piece": { "kind": "leader", "frames": 9 } });
    let lay_in = json!({ "film_change": "change_cut", "cut": "v1", "cut_change": lay_in });
    bench.change("some", 3, &lay_in).ok();
    let (values, mut revision, mut asked) = (values(), 4, 0);
    for request in requests().filter(|r| !is_left_out(&r.path)) {
        let target = request.target(|_, name| in_address(&parameter(name)));
        for sample in body_samples(&request) {
            for mut document in spoiled(&sample, &values) {
                if document["key"] == "KEY" {
                    document["key"] = json!(format!("k{asked}"));
                }
                send_newest(
                    &bench,
                    &request.method,
                    &target,
                    &mut document,
                    &mut revision,
                );
                asked += 1;
            }
        }
    }
    assert!(asked > 2_000, "{asked}");
    whole(&bench);
}

#[test]
fn what_is_no_document_at_all() {
    let bench = Bench::new();
    let deep = |open: &str, close: &str, levels: usize| {
        format!("{}{}", open.repeat(levels), close.repeat(levels)).into_bytes()
    };
    let bodies: Vec<Vec<u8>> = vec![
        Vec::new(),
        b"{".to_vec(),
        b"nul".to_vec(),
        b"{\"key\":\"\\ud800\"}".to_vec(),
        b"{\"key\":\"\xff\xfe\"}".to_vec(),
        b"{\"key\":\"a\",\"key\":\"b\"}".to_vec(),
        b"\xef\xbb\xbf{}".to_vec(),
        format!("{{\"revision\":{}}}", "9".repeat(100_000)).into_bytes(),
        format!("{{\"revision\":1e{}}}", "9".repeat(1_000)).into_bytes(),
        deep("[", "]", 100_000),
        deep("{\"a\":", "}", 100_000),
        deep("{\"change\":\"all\",\"changes\":[", "]}", 30_000),
    ];
    for request in requests().filter(|r| r.has_body) {
        let target = request.target(|_, name| in_address(&parameter(name)));
        for body in &bodies {
            for kind in [
                "application/json",
                "text/plain",
                "application/x-www-form-urlencoded",
                "\u{1}",
            ] {
                let ask = bench.window.request(&request.method, &target);
                let answer = ask.body(kind, body).try_send();
                // A header that is none is refused before anybody looks at it.
                if kind != "\u{1}" {
                    sound(answer.as_ref(), &target);
                }
            }
        }
    }
    whole(&bench);
}

/// Several changes as one may hold several as one: as deep as a document may
/// be, and as wide as one may be long.
#[test]
fn changes_in_changes_in_changes() {
    let bench = Bench::new();
    let nested = |levels: usize, innermost: Value| {
        (0..levels).fold(
            innermost,
            |inner, _| json!({ "change": "all", "changes": [inner] }),
        )
    };
    let trial = film("cuts/v1/trial");
    let tape = json!({ "change": "usual_join", "join": "cement" });
    let mut deepest = 0;
    for levels in [1, 10, 30, 50, 58, 60, 62, 64, 70, 100, 1_000] {
        let change = nested(levels, tape.clone());
        let tried = bench.window.post(&trial, &change);
        sound(Some(&tried), "a trial");
        let change = json!({ "film_change": "change_cut", "cut": "v1", "cut_change": change });
        let seen = bench.window.get(&film("")).ok()["revision"]
            .as_u64()
            .expect("one");
        let kept = bench.change(&format!("deep {levels}"), seen, &change);
        sound(Some(&kept), "a change");
        if kept.status == 200 {
            deepest = levels;
            // It can be read back from the journal as well.
            let key = json!({ "key": format!("back {levels}") });
            bench.window.post(&film("undo"), &key).ok();
            let key = json!({ "key": format!("forth {levels}") });
            bench.window.post(&film("redo"), &key).ok();
        }
    }
    assert!(deepest >= 10, "{deepest}");
    let leader = json!({ "kind": "leader", "frames": 100_000_000 });
    let insert = json!({ "change": "insert", "at": 0, "piece": leader });
    let wide = json!({ "change": "all", "changes": vec![insert; 1_900] });
    let wide = json!({ "film_change": "change_cut", "cut": "v1", "cut_change": wide });
    let seen = bench.window.get(&film("")).ok()["revision"]
        .as_u64()
        .expect("one");
    sound(Some(&bench.change("wide", seen, &wide)), "a wide change");
    whole(&bench);
}

/// Whatever was sent, the film opens, and all of it can be looked at; also
/// after a new start.
fn whole(bench: &Bench) {
    let window = &bench.window;
    let shelf = window.get("/api/shelf").ok();
    let films = shelf["films"].as_array().expect("films").clone();
    assert!(films.iter().any(|f| f["film"] == FILM));
    for head in films {
        assert_eq!(head["problem"], Value::Null, "{head}");
        let name = in_address(head["film"].as_str().expect("a name"));
        let film = window.get(&format!("/api/films/{name}")).ok();
        for roll in film["rolls"].as_array().expect("rolls") {
            let roll = in_address(roll["roll"].as_str().expect("a name"));
            window.get(&format!("/api/films/{name}/rolls/{roll}")).ok();
        }
        for cut in film["cuts"].as_array().expect("cuts") {
            let cut = in_address(cut["cut"].as_str().expect("a name"));
            window.get(&format!("/api/films/{name}/cuts/{cut}")).ok();
        }
        window.get(&format!("/api/films/{name}/journal")).ok();
    }
}
