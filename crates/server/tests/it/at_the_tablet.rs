//! A tablet, as its own page asks.

use serde_json::Value;

use crate::served::{Answer, FILM, Request, Window};

/// A tablet beside the splicer, at its own door.
#[derive(Debug, Clone)]
pub(crate) struct AtTheTablet {
    pub(crate) window: Window,
}

impl AtTheTablet {
    /// The door that the main machine opens for the film of a [`Bench`], and the code.
    pub(crate) fn let_in(main: &Window) -> (Self, String) {
        let door = main
            .post("/api/tablets", &serde_json::json!({ "film": FILM }))
            .ok();
        let address = door["addresses"][0].as_str().expect("an address");
        let port = address
            .strip_prefix("http://127.0.0.1:")
            .and_then(|rest| rest.strip_suffix('/'))
            .expect("on the loopback");
        let window = Window {
            port: port.parse().expect("a port"),
            cookie: None,
        };
        let code = door["code"]["code"].as_str().expect("a code").to_owned();
        (Self { window }, code)
    }

    /// A tablet that is in.
    pub(crate) fn inside(main: &Window, name: &str) -> Self {
        let (mut tablet, code) = Self::let_in(main);
        let answer = tablet.enter(&code, name);
        answer.ok();
        let set = answer.header("set-cookie").expect("a cookie");
        tablet.window.cookie = set.split(';').next().map(str::to_owned);
        tablet
    }

    pub(crate) fn enter(&self, code: &str, name: &str) -> Answer {
        let document = serde_json::json!({ "code": code, "name": name });
        self.post("/api/bench/tablet", &document)
    }

    pub(crate) fn get(&self, target: &str) -> Answer {
        self.window.get(target)
    }

    /// As its own page sends it.
    pub(crate) fn post(&self, target: &str, document: &Value) -> Answer {
        self.request("POST", target).json(document).send()
    }

    pub(crate) fn request(&self, method: &str, target: &str) -> Request {
        let origin = format!("http://127.0.0.1:{}", self.window.port);
        self.window.request(method, target).with("Origin", &origin)
    }
}
