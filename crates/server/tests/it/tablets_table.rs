//! Every request of the whole program, asked at the tablet's door: all but the few that
//! are the tablet's own are refused, and change nothing.

use std::collections::BTreeSet;

use crate::at_the_tablet::AtTheTablet;
use crate::sample::{Described, body_samples, parameter, requests};
use crate::served::{Answer, film};
use crate::tablets::at_work;

/// What a tablet may ask, as settled in decision 0030. Whoever adds to it writes it
/// there.
const ALLOWED: [(&str, &str); 8] = [
    ("GET", "/api/bench/tablet"),
    ("POST", "/api/bench/tablet"),
    ("GET", "/api/bench/tablet/bench"),
    ("GET", "/api/bench/tablet/events"),
    ("POST", "/api/bench/tablet/meaning"),
    ("GET", "/api/bench/tablet/rolls/{roll}/pictures/{frame}"),
    ("GET", "/api/bench/tablet/rolls/{roll}/small/{frame}"),
    ("POST", "/api/bench/tablet/writes"),
];

fn is_allowed(request: &Described) -> bool {
    ALLOWED.contains(&(request.method.as_str(), request.path.as_str()))
}

fn ask(tablet: &AtTheTablet, request: &Described) -> Answer {
    let target = request.target(|_, name| parameter(name));
    let asked = tablet.request(&request.method, &target);
    match body_samples(request).first() {
        Some(body) => asked.json(body).send(),
        None => asked.send(),
    }
}

#[test]
fn all_that_is_not_the_tablets_own_is_refused_at_its_door() {
    let bench = at_work();
    let tablet = AtTheTablet::inside(&bench.window, "");
    let before = bench.window.get(&film("")).ok();
    let (mut refused, mut own) = (0, BTreeSet::new());
    for request in requests() {
        if is_allowed(&request) {
            own.insert((request.method, request.path));
            continue;
        }
        let answer = ask(&tablet, &request);
        let code = answer.refused(404);
        assert_eq!(
            code, "server.no_such_request",
            "{} {}",
            request.method, request.path
        );
        refused += 1;
    }
    assert_eq!(own.len(), ALLOWED.len(), "{own:?}");
    assert_eq!(refused + ALLOWED.len(), requests().count());
    assert!(refused > 40, "{refused}");
    assert_eq!(bench.window.get(&film("")).ok(), before);
}

#[test]
fn who_is_not_in_may_ask_for_the_page_and_come_in() {
    let bench = at_work();
    let (tablet, _code) = AtTheTablet::let_in(&bench.window);
    for request in requests() {
        if (request.method.as_str(), request.path.as_str()) == ("POST", "/api/bench/tablet") {
            continue;
        }
        let answer = ask(&tablet, &request);
        let code = answer.refused(401);
        assert_eq!(
            code, "tablet.not_let_in",
            "{} {}",
            request.method, request.path
        );
    }
}

/// Nor is the tablet's part to be had from the main machine's own address.
#[test]
fn the_tablets_requests_are_answered_at_its_door_alone() {
    let bench = at_work();
    for (method, path) in ALLOWED {
        let path = path.replace("{roll}", "R1").replace("{frame}", "1");
        let answer = bench
            .window
            .request(method, &path)
            .json(&serde_json::json!({}))
            .send();
        assert_eq!(
            answer.refused(404),
            "server.no_such_request",
            "{method} {path}"
        );
    }
}

/// Other methods, and other spellings of what is refused.
#[test]
fn no_other_way_leads_there() {
    let bench = at_work();
    let tablet = AtTheTablet::inside(&bench.window, "");
    for target in [
        "/api/films/a-boat",
        "//api/films/a-boat",
        "/api//films/a-boat",
        "/api/bench/tablet/../../films/a-boat",
        "/api/bench/tablet/%2e%2e/%2e%2e/films/a-boat",
        "/API/films/a-boat",
        "/assets/../api/shelf",
        "/assets/%2e%2e/index.html",
        "/assets/",
        "/assets",
        "/index.html",
        "/film/a-boat/bench",
        "/tablet.html.map",
        "/etc/passwd",
        "/../../etc/passwd",
        "/api/bench/tablet/rolls/..%2f..%2fR1/pictures/1/x",
        "/api/events",
        "/api/jobs",
        "/api/shelf",
    ] {
        let answer = tablet.get(target);
        assert_eq!(answer.refused(404), "server.no_such_request", "{target}");
    }
    for method in ["PUT", "DELETE", "PATCH", "OPTIONS", "TRACE", "HEAD"] {
        for (_, path) in ALLOWED {
            let path = path.replace("{roll}", "R1").replace("{frame}", "1");
            let answer = tablet.request(method, &path).send();
            let reads = method == "HEAD" && answer.status < 400;
            assert!(
                reads || (400..500).contains(&answer.status),
                "{method} {path} {answer:?}"
            );
        }
    }
}
