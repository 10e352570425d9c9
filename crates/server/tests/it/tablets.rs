//! A tablet beside the splicer: let in by a code, ticks in its own name, sent away.

use std::io::Read;
use std::net::{IpAddr, TcpStream};

use onestrand_server::{ServeError, Server};
use serde_json::{Value, json};

use crate::listener::Listener;
use crate::served::{AtTheTablet, Bench, FILM, Served, Window, film, settings};

const WRITES: &str = "/api/bench/tablet/writes";
const BENCH: &str = "/api/bench/tablet/bench";

/// A film with a version of two pieces on the bench.
pub(crate) fn at_work() -> Bench {
    let bench = Bench::new();
    let piece =
        |first: u32| json!({ "kind": "shot", "roll": "R1", "in": first, "out": first + 40 });
    for (at, first) in [(0, 200), (1, 100)] {
        let change = json!({ "change": "insert", "at": at, "piece": piece(first) });
        let change = json!({ "film_change": "change_cut", "cut": "v1", "cut_change": change });
        bench
            .change(&format!("piece {at}"), revision(&bench), &change)
            .ok();
    }
    let begin = json!({ "film_change": "at_the_bench", "bench": "begin", "cut": "v1", "pins": 3 });
    bench.change("begin", revision(&bench), &begin).ok();
    bench
}

fn revision(bench: &Bench) -> u64 {
    let film = bench.window.get(&film("")).ok();
    film["revision"].as_u64().expect("a revision")
}

fn on_the_bench(window: &Window) -> Value {
    window.get(&film("bench")).ok()
}

/// What a tick of the bench as it was shown would send.
fn tick(shown: &Value, key: &str) -> Value {
    let write = json!({ "bench": "tick", "lines": shown["lines"] });
    json!({ "key": key, "revision": shown["revision"], "write": write })
}

#[test]
fn a_tablet_comes_in_ticks_in_its_name_and_is_sent_away() {
    let bench = at_work();
    let tablet = AtTheTablet::inside(&bench.window, "blue tablet");
    let known = tablet.get("/api/bench/tablet").ok();
    assert_eq!(known["film"], FILM);
    assert_eq!(known["title"], "A Boat");
    assert_eq!(known["tablet"], "blue tablet");
    // Neither folders nor notes nor other versions.
    let told: Vec<&String> = known.as_object().expect("fields").keys().collect();
    assert_eq!(told, ["film", "title", "tablet", "gauge", "rolls"]);

    let mut main = Listener::of(&bench.window);
    let shown = tablet.get(BENCH).ok();
    let kept = tablet.post(WRITES, &tick(&shown, "t1")).ok();
    assert_eq!(kept["already"], false);
    let heard = main.next_of("changed");
    assert_eq!(heard["parts"], json!([{ "part": "bench" }]));
    let line = on_the_bench(&bench.window)["on_the_bench"]["done_lines"][0].clone();
    assert_eq!(line["by"], "blue tablet", "{line}");

    let door = bench.window.get("/api/tablets").ok();
    let id = door["tablets"][0]["id"].as_u64().expect("a number");
    let gone = bench
        .window
        .request("DELETE", &format!("/api/tablets/{id}"))
        .send();
    assert_eq!(gone.ok()["tablets"], json!([]));
    assert_eq!(tablet.get(BENCH).refused(401), "tablet.not_let_in");
    let again = tablet.get("/api/bench/tablet").refused(401);
    assert_eq!(again, "tablet.not_let_in");
    let late = tablet.post(WRITES, &tick(&shown, "t2")).refused(401);
    assert_eq!(late, "tablet.not_let_in");
}

/// A tablet that fell asleep before the answer came sends its tick again.
#[test]
fn a_tick_sent_again_is_written_once() {
    let bench = at_work();
    let tablet = AtTheTablet::inside(&bench.window, "");
    let shown = tablet.get(BENCH).ok();
    let once = tablet.post(WRITES, &tick(&shown, "same")).ok();
    let twice = tablet.post(WRITES, &tick(&shown, "same")).ok();
    assert_eq!(twice["already"], true);
    assert_eq!(twice["revision"], once["revision"]);
    let lines = |shown: &Value| shown["lines"].as_u64().expect("lines");
    assert_eq!(lines(&on_the_bench(&bench.window)), lines(&shown) + 1);
    // It goes on where it was after the code was asked for anew.
    let again = AtTheTablet::inside(&bench.window, "the same one");
    assert_eq!(
        again.post(WRITES, &tick(&shown, "same")).ok()["already"],
        true
    );
    assert_eq!(lines(&on_the_bench(&bench.window)), lines(&shown) + 1);
}

#[test]
fn two_who_tick_the_same_act_tick_it_once() {
    let bench = at_work();
    let tablet = AtTheTablet::inside(&bench.window, "");
    let shown = tablet.get(BENCH).ok();
    let change = json!({ "film_change": "at_the_bench", "bench": "tick", "lines": shown["lines"] });
    bench.change("main", revision(&bench), &change).ok();
    assert_eq!(
        tablet.post(WRITES, &tick(&shown, "t")).refused(409),
        "store.stale"
    );
}

/// It ticks off and tells what happened, nothing else; the main machine corrects.
#[test]
fn a_tablet_ticks_and_tells_nothing_else() {
    let bench = at_work();
    let tablet = AtTheTablet::inside(&bench.window, "blue tablet");
    let shown = tablet.get(BENCH).ok();
    let others = [
        json!({ "bench": "begin", "cut": "v1", "pins": 3 }),
        json!({ "bench": "strike", "line": 1, "reason": "" }),
        json!({ "bench": "go_ahead", "roll": "R1", "words": "I dare" }),
        json!({ "bench": "plan_anew", "pins": 2 }),
        json!({ "bench": "mend" }),
        json!({ "bench": "take_off" }),
    ];
    for (nth, write) in others.into_iter().enumerate() {
        let asked =
            json!({ "key": format!("k{nth}"), "revision": shown["revision"], "write": write });
        assert_eq!(
            tablet.post(WRITES, &asked).refused(403),
            "tablet.may_not",
            "{asked}"
        );
    }
    assert_eq!(on_the_bench(&bench.window), shown);

    let mounted = json!([{ "happened": "mounted", "roll": "R1" }]);
    let meaning = json!({ "lines": shown["lines"], "happened": mounted });
    tablet.post("/api/bench/tablet/meaning", &meaning).ok();
    assert_eq!(on_the_bench(&bench.window), shown);
    let write = json!({ "bench": "happened", "lines": shown["lines"], "happened": mounted });
    let asked = json!({ "key": "told", "revision": shown["revision"], "write": write });
    tablet.post(WRITES, &asked).ok();

    let line = on_the_bench(&bench.window)["on_the_bench"]["done_lines"][0].clone();
    assert_eq!(line["by"], "blue tablet");
    let strike = json!({ "film_change": "at_the_bench", "bench": "strike", "line": line["number"], "reason": "a glove" });
    bench.change("strike", revision(&bench), &strike).ok();
    assert_eq!(
        on_the_bench(&bench.window)["on_the_bench"]["done_lines"][1]["by"],
        "blue tablet"
    );
}

#[test]
fn a_tablet_hears_of_its_film_until_it_is_sent_away() {
    let bench = at_work();
    let tablet = AtTheTablet::inside(&bench.window, "");
    let mut stream = tablet.request("GET", "/api/bench/tablet/events").begin();
    stream
        .set_read_timeout(Some(crate::served::TOO_LONG))
        .expect("a limit");
    until(&mut stream, "\r\n\r\n");
    let other = json!({ "title": "A Ferry", "gauge": "super8", "speed": "18" });
    bench.window.post("/api/films", &other).ok();
    let note = json!({ "film_change": "write_note", "roll": "R1", "frame": 5, "words": "not for all", "writer": "" });
    bench.change("note", revision(&bench), &note).ok();
    let heard = until(&mut stream, "\n\n");
    assert!(
        heard.contains(r#"{"event":"changed","revision":"#),
        "{heard}"
    );
    assert!(
        !heard.contains("not for all") && !heard.contains("shelf"),
        "{heard}"
    );
    let id = &bench.window.get("/api/tablets").ok()["tablets"][0]["id"];
    bench
        .window
        .request("DELETE", &format!("/api/tablets/{id}"))
        .send()
        .ok();
    let mut rest = String::new();
    stream.read_to_string(&mut rest).expect("the stream ends");
}

/// Reads up to some words, an event's data before them where it is one.
fn until(stream: &mut TcpStream, end: &str) -> String {
    let mut said = String::new();
    let mut byte = [0];
    loop {
        stream.read_exact(&mut byte).expect("more comes");
        said.push(char::from(byte[0]));
        if said.ends_with(end) && (end == "\r\n\r\n" || said.contains("data:")) {
            return said;
        }
    }
}

#[test]
fn nothing_listens_until_it_is_opened_nor_after_it_is_shut() {
    let bench = at_work();
    let shut = bench.window.get("/api/tablets").ok();
    assert_eq!(
        shut,
        json!({ "open": false, "addresses": [], "code": null, "wrong": 0, "tablets": [] })
    );
    let tablet = AtTheTablet::inside(&bench.window, "");
    let open = bench.window.get("/api/tablets").ok();
    assert_eq!(open["open"], true);
    assert_eq!(open["code"], Value::Null);
    let kept_open = tablet.request("GET", "/api/bench/tablet/events").begin();
    let port = tablet.window.port;
    let closed = bench.window.request("DELETE", "/api/tablets").send().ok();
    assert_eq!(closed["open"], false);
    assert_eq!(closed["tablets"], json!([]));
    // What stood open is cut off.
    let mut rest = Vec::new();
    let mut kept_open = kept_open;
    let _cut_off = kept_open.read_to_end(&mut rest);
    assert!(refuses(port), "it listens still");
    // Opened anew, who was in before is in no more.
    let (anew, _code) = AtTheTablet::let_in(&bench.window);
    let mut before = tablet.window.clone();
    before.port = anew.window.port;
    assert_eq!(before.get(BENCH).refused(401), "tablet.not_let_in");
}

/// Whether nobody takes a connection. A moment may pass until the system has closed it.
fn refuses(port: u16) -> bool {
    (0..500).any(|_| {
        let open = TcpStream::connect(("127.0.0.1", port)).is_ok();
        if open {
            std::thread::sleep(std::time::Duration::from_millis(10));
        }
        !open
    })
}

#[test]
fn wrong_codes_are_counted_and_shown_on_the_main_machine() {
    let bench = at_work();
    let (tablet, code) = AtTheTablet::let_in(&bench.window);
    let wrong = if code == "00000000" {
        "00000001"
    } else {
        "00000000"
    };
    assert_eq!(tablet.enter(wrong, "").refused(403), "tablet.wrong_code");
    let door = bench.window.get("/api/tablets").ok();
    assert_eq!(door["wrong"], 1);
    assert_eq!(door["code"]["tries_left"], 4);
    // The next one at once is not looked at, be it right.
    assert_eq!(tablet.enter(&code, "").refused(429), "tablet.too_soon");
    let rows = door["code"]["square"].as_array().expect("a square");
    assert!(rows.len() >= 21, "{rows:?}");
}

#[test]
fn the_cookie_of_one_door_opens_no_other() {
    let bench = at_work();
    let tablet = AtTheTablet::inside(&bench.window, "");
    let (cookie, main) = (
        tablet.window.cookie.clone().expect("one"),
        bench.window.clone(),
    );
    let (name, value) = cookie.split_once('=').expect("a value");
    assert_eq!(value.len(), 64, "256 bits in hexadecimal");
    assert_eq!(name, format!("onestrand-tablet-{}", tablet.window.port));
    for stolen in [cookie.clone(), format!("onestrand-{}={value}", main.port)] {
        let asked = main
            .request("GET", "/api/shelf")
            .with("Cookie", &stolen)
            .send();
        assert_eq!(asked.refused(401), "server.no_code");
    }
    let own = main.cookie.clone().expect("one");
    let (_, value) = own.split_once('=').expect("a value");
    for stolen in [own.clone(), format!("{name}={value}")] {
        let asked = tablet.request("GET", BENCH).with("Cookie", &stolen).send();
        assert_eq!(asked.refused(401), "tablet.not_let_in");
    }
    // The code of the program lets nobody in at the tablet's door, nor does its own twice.
    let stranger = Window {
        cookie: None,
        ..tablet.window.clone()
    };
    let page = stranger.get(&format!(
        "/?code={}",
        bench.served.as_ref().expect("it runs").code
    ));
    assert!(page.header("set-cookie").is_none(), "{page:?}");
}

#[test]
fn the_cookie_is_kept_from_scripts_and_from_other_sites() {
    let bench = at_work();
    let (tablet, code) = AtTheTablet::let_in(&bench.window);
    let answer = tablet.enter(&code, "");
    let set = answer.header("set-cookie").expect("a cookie");
    for word in ["; HttpOnly", "; SameSite=Strict", "; Path=/"] {
        assert!(set.contains(word), "{set}");
    }
    assert!(!set.contains("Domain"), "{set}");
}

#[test]
fn foreign_names_and_foreign_pages_are_turned_away() {
    let bench = at_work();
    let tablet = AtTheTablet::inside(&bench.window, "");
    let port = tablet.window.port;
    for host in [
        "evil.example".to_owned(),
        format!("evil.example:{port}"),
        "127.0.0.1".to_owned(),
        format!("localhost:{port}"),
        format!("127.0.0.1:{}", bench.window.port),
        format!("127.0.0.2:{port}"),
        format!("[::1]:{port}"),
        String::new(),
    ] {
        for target in [BENCH, "/", "/api/bench/tablet"] {
            let asked = tablet.request("GET", target).with("Host", &host).send();
            assert_eq!(asked.refused(403), "server.foreign_host", "{host} {target}");
        }
    }
    let shown = tablet.get(BENCH).ok();
    let ask = tablet.request("POST", WRITES).json(&tick(&shown, "k"));
    for origin in [
        "null".to_owned(),
        "http://evil.example".to_owned(),
        format!("https://127.0.0.1:{port}"),
        format!("http://127.0.0.1:{}", bench.window.port),
        format!("http://localhost:{port}"),
    ] {
        let asked = ask.clone().with("Origin", &origin).send();
        assert_eq!(asked.refused(403), "server.foreign_origin", "{origin}");
    }
    assert_eq!(
        ask.clone().without("Origin").send().refused(403),
        "server.foreign_origin"
    );
    let twice = ask.clone().and("Origin", "http://evil.example").send();
    assert_eq!(twice.refused(403), "server.foreign_origin");
    for site in ["cross-site", "same-site"] {
        let asked = ask.clone().with("Sec-Fetch-Site", site).send();
        assert_eq!(asked.refused(403), "server.foreign_origin", "{site}");
    }
    assert_eq!(on_the_bench(&bench.window), shown);
    ask.send().ok();
}

#[test]
fn a_long_letter_is_not_read() {
    let bench = at_work();
    let (tablet, _) = AtTheTablet::let_in(&bench.window);
    let long = json!({ "code": "1", "name": "x".repeat(70_000) });
    let answer = tablet.post("/api/bench/tablet", &long);
    assert_eq!(answer.refused(413), "server.too_large");
    for word in ["{", "[]", "{\"code\":5}", "null"] {
        let answer = tablet
            .request("POST", "/api/bench/tablet")
            .body("application/json", word.as_bytes())
            .send();
        assert!((400..500).contains(&answer.status), "{answer:?}");
        answer.refused(answer.status);
    }
}

#[test]
fn two_addresses_one_door() {
    let bench = Bench::with(|settings| {
        settings.tablets_at = ["127.0.0.1", "127.0.0.2"]
            .map(|a| a.parse::<IpAddr>().expect("an address"))
            .to_vec();
    });
    let door = bench
        .window
        .post("/api/tablets", &json!({ "film": FILM }))
        .ok();
    let addresses = door["addresses"].as_array().expect("addresses");
    assert_eq!(addresses.len(), 2, "{door}");
    let port = |at: &Value| {
        let text = at.as_str().expect("an address");
        text.trim_end_matches('/')
            .rsplit(':')
            .next()
            .map(str::to_owned)
    };
    assert_eq!(port(&addresses[0]), port(&addresses[1]));
}

#[test]
fn the_world_at_large_is_never_listened_to() {
    let dir = tempfile::tempdir().expect("a folder");
    for address in [
        "0.0.0.0",
        "::",
        "8.8.8.8",
        "192.0.2.2",
        "2001:db8::1",
        "fe80::1",
    ] {
        let mut settings = settings(dir.path());
        settings.tablets_at = vec![address.parse().expect("an address")];
        let refused = Server::ready(&settings).err().map(|e| e.code());
        assert_eq!(refused, Some("tablet.address"), "{address}");
    }
}

#[test]
fn by_command_the_door_is_open_at_once_for_one_film() {
    let mut bench = at_work();
    drop(bench.served.take());
    let mut shelf = settings(&bench.dir.path().join("shelf"));
    shelf.tablet = true;
    assert!(matches!(Server::ready(&shelf), Err(ServeError::TabletFilm)));
    let mut one = settings(&bench.film_dir());
    one.tablet = true;
    let server = Server::ready(&one).expect("ready");
    let invitation = server.invitation().expect("a tablet may come").clone();
    assert_eq!(invitation.code.len(), 8);
    assert!(invitation.addresses[0].starts_with("http://127.0.0.1:"));
    drop(server);
    let closed = Served::with(&settings(&bench.film_dir()));
    assert_eq!(closed.enter().get("/api/tablets").ok()["open"], false);
}
