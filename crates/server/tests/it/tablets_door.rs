//! Who comes in at the tablet's door: codes, cookies, names of the door, addresses.

use std::io::Read;
use std::net::{IpAddr, TcpStream};

use onestrand_server::{ServeError, Server};
use serde_json::{Value, json};

use crate::at_the_tablet::AtTheTablet;
use crate::served::{Bench, FILM, Served, Window, settings};
use crate::tablets::{BENCH, WRITES, at_work, on_the_bench, tick};

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
    for word in [
        "; HttpOnly",
        "; SameSite=Strict",
        "; Path=/",
        "; Max-Age=604800",
    ] {
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
