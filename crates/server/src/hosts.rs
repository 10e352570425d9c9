//! By which names a listener may be asked, and from whose pages.

use axum::extract::Request;
use axum::http::header::{self, HeaderMap, HeaderValue};
use axum::http::{Method, Uri};

/// The names of one listener, each with its port: `127.0.0.1:7418`, `[fd00::2]:7419`.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Hosts(Vec<String>);

impl Hosts {
    pub(crate) const fn new(names: Vec<String>) -> Self {
        Self(names)
    }

    fn has(&self, name: &str) -> bool {
        self.0.iter().any(|host| host == name)
    }

    /// Whether the request names this listener as its host, wherever it names one.
    pub(crate) fn are_asked(&self, headers: &HeaderMap, uri: &Uri) -> bool {
        let in_line = uri.authority().map(axum::http::uri::Authority::as_str);
        let named = headers.get_all(header::HOST);
        headers.contains_key(header::HOST)
            && named
                .iter()
                .all(|h| h.to_str().is_ok_and(|host| self.has(host)))
            && in_line.is_none_or(|host| self.has(host))
    }

    /// Whether whatever page the request says to come from is this listener's own.
    pub(crate) fn are_the_origin(&self, headers: &HeaderMap) -> bool {
        let ours = |origin: &HeaderValue| {
            let host = origin.to_str().ok().and_then(|o| o.strip_prefix("http://"));
            host.is_some_and(|host| self.has(host))
        };
        headers.get_all(header::ORIGIN).iter().all(ours)
    }
}

/// Whether the browser says that another site's page fetches this. To a browser
/// all ports of a host are one site, to which our cookie is sent. A link to the
/// page may stand anywhere.
pub(crate) fn is_fetched_by_another_site(request: &Request) -> bool {
    let said = |name: &str, words: &[&str]| {
        let value = request.headers().get(name);
        value.is_some_and(|v| words.iter().any(|w| v.as_bytes() == w.as_bytes()))
    };
    let is_link = request.method() == Method::GET
        && !request.uri().path().starts_with("/api/")
        && said("sec-fetch-mode", &["navigate"]);
    said("sec-fetch-site", &["cross-site", "same-site"]) && !is_link
}

/// The value of a cookie.
pub(crate) fn cookie<'a>(headers: &'a HeaderMap, wanted: &str) -> Option<&'a str> {
    headers
        .get_all(header::COOKIE)
        .iter()
        .filter_map(|value| value.to_str().ok())
        .flat_map(|value| value.split(';'))
        .filter_map(|pair| pair.trim().split_once('='))
        .find_map(|(name, value)| (name == wanted).then_some(value))
}
