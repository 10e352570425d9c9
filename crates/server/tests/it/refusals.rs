//! Who is not let in, and what every answer says of itself.

use std::os::unix::fs::PermissionsExt;

use serde_json::json;

use crate::served::{Answer, Bench, Request, Served, settings};

/// What every answer must say: nothing from elsewhere, in no foreign frame,
/// nothing kept.
fn strict(answer: &Answer) {
    let policy = answer.header("content-security-policy").unwrap_or("");
    for word in [
        "default-src 'self'",
        "object-src 'none'",
        "base-uri 'none'",
        "frame-ancestors 'self'",
    ] {
        assert!(policy.contains(word), "no {word}: {answer:?}");
    }
    for (name, value) in [
        ("referrer-policy", "no-referrer"),
        ("x-content-type-options", "nosniff"),
        ("cross-origin-opener-policy", "same-origin"),
        ("cross-origin-resource-policy", "same-origin"),
        ("x-frame-options", "SAMEORIGIN"),
    ] {
        assert_eq!(answer.header(name), Some(value), "{answer:?}");
    }
    assert!(answer.header("cache-control").is_some(), "{answer:?}");
    assert_eq!(answer.header("access-control-allow-origin"), None);
}

fn shelf(window: &crate::served::Window) -> Request {
    window.request("GET", "/api/shelf")
}

#[test]
fn a_foreign_host_is_refused() {
    let bench = Bench::new();
    let port = bench.window.port;
    let ask = shelf(&bench.window);
    for host in [
        "evil.example".to_owned(),
        format!("evil.example:{port}"),
        "localhost.evil".to_owned(),
        format!("localhost.evil:{port}"),
        format!("127.0.0.1.evil.example:{port}"),
        format!("user@127.0.0.1:{port}"),
        // The right name at another port, or at none: another program's.
        "127.0.0.1".to_owned(),
        format!("127.0.0.1:{}", port - 1),
        format!("127.0.0.1:{port}0"),
        format!("127.0.0.1:0{port}"),
        format!("0.0.0.0:{port}"),
        format!("127.1:{port}"),
        String::new(),
    ] {
        let answer = ask.clone().with("Host", &host).send();
        assert_eq!(answer.refused(403), "server.foreign_host", "{host}");
        strict(&answer);
    }
    for host in [format!("127.0.0.1:{port}"), format!("localhost:{port}")] {
        ask.clone().with("Host", &host).send().ok();
    }
}

#[test]
fn a_host_that_is_not_said_or_said_twice_is_refused() {
    let bench = Bench::new();
    let ask = shelf(&bench.window);
    let none = ask.clone().without("Host").send();
    assert_eq!(none.refused(403), "server.foreign_host");
    let twice = ask.clone().and("Host", "evil.example").send();
    assert_eq!(twice.refused(403), "server.foreign_host");
    strict(&twice);
}

/// A request line may name a host of its own; then both must be ours.
#[test]
fn a_whole_address_in_the_request_line_is_held_to_the_same() {
    let bench = Bench::new();
    let ours = format!("127.0.0.1:{}", bench.window.port);
    let mut ask = shelf(&bench.window);
    ask.line = "GET http://evil.example/api/shelf HTTP/1.1".to_owned();
    assert_eq!(ask.send().refused(403), "server.foreign_host");
    ask.line = format!("GET http://evil@{ours}/api/shelf HTTP/1.1");
    assert_eq!(ask.send().refused(403), "server.foreign_host");
    ask.line = format!("GET http://{ours}/api/shelf HTTP/1.1");
    ask.send().ok();
    let foreign = ask.with("Host", "evil.example").send();
    assert_eq!(foreign.refused(403), "server.foreign_host");
}

#[test]
fn a_foreign_origin_is_refused() {
    let bench = Bench::new();
    let port = bench.window.port;
    let key = json!({ "key": "k" });
    let ask = bench.window.request("POST", "/api/films/a-boat/undo");
    for origin in [
        "null".to_owned(),
        "http://evil.example".to_owned(),
        format!("http://evil.example:{port}"),
        format!("https://127.0.0.1:{port}"),
        format!("http://127.0.0.1:{}", port - 1),
        "http://127.0.0.1".to_owned(),
        format!("http://127.0.0.1:{port}/"),
        format!("http://127.0.0.1:{port}.evil.example"),
        String::new(),
        "file://".to_owned(),
    ] {
        let answer = ask.clone().with("Origin", &origin).json(&key).send();
        assert_eq!(answer.refused(403), "server.foreign_origin", "{origin}");
        strict(&answer);
    }
    let twice = ask
        .clone()
        .with("Origin", &format!("http://127.0.0.1:{port}"))
        .and("Origin", "http://evil.example")
        .json(&key)
        .send();
    assert_eq!(twice.refused(403), "server.foreign_origin");
    // None of them has undone anything.
    let film = bench.window.get("/api/films/a-boat").ok();
    assert_eq!(film["redo"], serde_json::Value::Null);
    let own = ask.with("Origin", &format!("http://127.0.0.1:{port}"));
    own.json(&key).send().ok();
}

/// A page at another port of this machine is the same site to the browser, so
/// our cookie comes along with what it fetches; the browser says whose it was.
#[test]
fn what_another_site_of_this_machine_fetches_is_refused() {
    let bench = Bench::new();
    let ask = shelf(&bench.window);
    for site in ["cross-site", "same-site"] {
        let fetched = ask.clone().with("Sec-Fetch-Site", site);
        for mode in ["no-cors", "cors", "navigate"] {
            let answer = fetched.clone().with("Sec-Fetch-Mode", mode).send();
            assert_eq!(
                answer.refused(403),
                "server.foreign_origin",
                "{site} {mode}"
            );
        }
        // A link to the page itself may stand anywhere.
        let mut linked = fetched.with("Sec-Fetch-Mode", "navigate");
        linked.line = "GET /rolls HTTP/1.1".to_owned();
        assert_ne!(linked.send().status, 403, "{site}");
    }
    for site in ["same-origin", "none"] {
        ask.clone().with("Sec-Fetch-Site", site).send().ok();
    }
}

#[test]
fn who_holds_no_cookie_or_a_wrong_one_is_not_let_in() {
    let bench = Bench::new();
    let cookie = bench.window.cookie.clone().expect("a cookie");
    let (name, value) = cookie.split_once('=').expect("name and value");
    let stranger = bench.served.as_ref().expect("served").stranger();
    for wrong in [
        "other=1".to_owned(),
        format!("{name}="),
        format!("{name}=0123456789abcdef0123456789abcdef"),
        format!("{name}={}", &value[1..]),
        format!("{name}={value}0"),
        format!("x{cookie}"),
        value.to_owned(),
        // What is kept on the disk opens nothing.
        format!("{name}={}", blake3::hash(value.as_bytes()).to_hex()),
    ] {
        for target in ["/api/shelf", "/api/events", "/", "/assets/none.js"] {
            let ask = stranger.request("GET", target).with("Cookie", &wrong);
            let answer = ask.send();
            assert_eq!(answer.refused(401), "server.no_code", "{wrong}");
            strict(&answer);
        }
    }
    assert_eq!(stranger.get("/api/shelf").refused(401), "server.no_code");
    let among = format!("a=b; {cookie};c=d");
    let ask = stranger.request("GET", "/api/shelf").with("Cookie", &among);
    ask.send().ok();
}

#[test]
fn a_code_lets_one_browser_in_once() {
    let dir = tempfile::tempdir().expect("a folder");
    let served = Served::on(dir.path());
    let stranger = served.stranger();
    for wrong in ["", "0", &served.code[1..], &served.code.to_uppercase()] {
        let answer = stranger.get(&format!("/?code={wrong}"));
        assert_eq!(answer.refused(403), "server.used_code", "{wrong:?}");
        assert_eq!(answer.header("set-cookie"), None);
    }
    // Nowhere but at the door, and by no other way than opening the address.
    let elsewhere = stranger.get(&format!("/rolls?code={}", served.code));
    assert_eq!(elsewhere.refused(401), "server.no_code");
    let posted = stranger.request("POST", &format!("/?code={}", served.code));
    assert_eq!(posted.send().refused(401), "server.no_code");

    let entered = stranger.get(&format!("/?code={}", served.code));
    assert_eq!(entered.status, 303);
    strict(&entered);
    let place = entered.header("location").expect("where to go");
    assert_eq!(place, "/", "the code stands in no address that is kept");
    let set = entered.header("set-cookie").expect("a cookie");
    assert!(!set.contains(&served.code), "the cookie is another secret");
    for word in ["HttpOnly", "SameSite=Strict", "Path=/"] {
        assert!(set.split("; ").any(|w| w == word), "{word}: {set}");
    }
    assert!(!set.contains("Domain"), "{set}");

    let again = stranger.get(&format!("/?code={}", served.code));
    assert_eq!(again.refused(403), "server.used_code");
    assert_eq!(again.header("set-cookie"), None);
    // Who is in stays in, and is given nothing new.
    let mut inside = stranger.clone();
    inside.cookie = set.split(';').next().map(str::to_owned);
    let back = inside.get(&format!("/?code={}", served.code));
    assert_eq!((back.status, back.header("location")), (303, Some("/")));
    assert_eq!(back.header("set-cookie"), None);
    inside.get("/api/shelf").ok();
}

/// A browser asks with a page in mind: then the refusal is one.
#[test]
fn a_person_who_is_turned_away_reads_why() {
    let dir = tempfile::tempdir().expect("a folder");
    let served = Served::on(dir.path());
    let ask = served.stranger().request("GET", "/");
    let answer = ask.with("Accept", "text/html,*/*").send();
    assert_eq!(answer.status, 401);
    let text = String::from_utf8(answer.body.clone()).expect("text");
    assert!(text.contains("start the program again"), "{text}");
    strict(&answer);
}

#[test]
fn every_answer_carries_the_strict_headers() {
    let bench = Bench::new();
    let page = bench.window.get("/");
    let text = String::from_utf8_lossy(&page.body).into_owned();
    // The page, and each file it names, where this program was built with one.
    let files = text
        .split(['"', '\''])
        .filter(|w| w.starts_with("/assets/"));
    let mut targets: Vec<String> = files.map(str::to_owned).collect();
    assert!(page.status == 503 || targets.len() >= 2, "{page:?}");
    targets.extend(
        [
            "/",
            "/rolls/R1",
            "/assets/none.js",
            "/api/shelf",
            "/api/none",
            "/api/films/none",
            "/api/films/%ff",
            "/api/reckon?quantity=x",
            "/api/films/a-boat/rolls/R1/run?first=x",
        ]
        .map(str::to_owned),
    );
    for target in &targets {
        strict(&bench.window.get(target));
        strict(&bench.window.request("HEAD", target).send());
        strict(&bench.window.request("PATCH", target).send());
    }
    let bad = bench.window.request("POST", "/api/films");
    strict(&bad.clone().body("application/json", b"{").send());
    strict(&bad.clone().body("text/plain", b"{}").send());
    strict(&bad.body("application/json", &vec![b' '; 3 << 20]).send());
}

#[test]
fn who_was_let_in_stays_in_when_the_program_is_started_again() {
    let mut bench = Bench::new();
    bench.start_again();
    bench.window.get("/api/shelf").ok();
    // A second browser does not put the first one out.
    let second = bench.served.as_ref().expect("served").enter();
    bench.start_again();
    bench.window.get("/api/shelf").ok();
    second.get("/api/shelf").ok();
    // Another memory knows neither.
    drop(bench.served.take());
    let mut other = settings(&bench.dir.path().join("shelf"));
    other.port = Some(bench.window.port);
    other.state = Some(bench.dir.path().join("another"));
    let served = Served::with(&other);
    assert_eq!(
        bench.window.get("/api/shelf").refused(401),
        "server.no_code"
    );
    drop(served);
}

#[test]
fn what_is_remembered_lets_nobody_in_who_reads_it() {
    let bench = Bench::new();
    let file = bench.dir.path().join("state/sessions");
    let text = std::fs::read_to_string(&file).expect("remembered");
    let cookie = bench.window.cookie.clone().expect("a cookie");
    let (_, value) = cookie.split_once('=').expect("a value");
    assert!(!text.contains(value) && !text.contains(&bench.served.as_ref().expect("served").code));
    assert_eq!(text.lines().count(), 1);
    let mode = std::fs::metadata(&file)
        .expect("there")
        .permissions()
        .mode();
    assert_eq!(mode & 0o777, 0o600);
}

/// Two programs on one machine, each with a page open in the same browser: a
/// browser sends its cookies to every port of a host.
#[test]
fn two_programs_do_not_put_each_others_page_out() {
    let dir = tempfile::tempdir().expect("a folder");
    let with = |shelf: &str| {
        let mut settings = settings(&dir.path().join(shelf));
        settings.state = Some(dir.path().join("state"));
        Served::with(&settings)
    };
    let (first, second) = (with("one"), with("two"));
    let (mut one, mut two) = (first.enter(), second.enter());
    let name = |cookie: &Option<String>| {
        let cookie = cookie.clone().expect("a cookie");
        cookie.split_once('=').expect("a name").0.to_owned()
    };
    assert_ne!(name(&one.cookie), name(&two.cookie));
    let both = [one.cookie.take(), two.cookie.take()].map(|c| c.expect("a cookie"));
    one.cookie = Some(both.join("; "));
    two.cookie.clone_from(&one.cookie);
    one.get("/api/shelf").ok();
    two.get("/api/shelf").ok();
    // And neither forgets for the other who was let in.
    let kept = std::fs::read_to_string(dir.path().join("state/sessions")).expect("remembered");
    assert_eq!(kept.lines().count(), 2);
}
