//! Who is let in: this machine's own page, once its one-time code has been
//! exchanged for a cookie, and nobody sent by another site.

use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, PoisonError};

use axum::Json;
use axum::body::Body;
use axum::extract::{Request, State};
use axum::http::header::{self, HeaderMap, HeaderName, HeaderValue};
use axum::http::{Method, StatusCode, Uri};
use axum::middleware::Next;
use axum::response::{IntoResponse, Response};

use crate::hosts::{Hosts, cookie, is_fetched_by_another_site};
use crate::problem::ProblemDocument;

/// The name of the cookie, before the port: a browser keeps one set of cookies
/// for all ports of a host, and two programs must not overwrite each other's.
const COOKIE: &str = "onestrand-";

/// How many browsers may be let in at a time; the oldest goes first.
const MOST_SESSIONS: usize = 40;

/// The door of one server.
#[derive(Debug)]
pub(crate) struct Door {
    hosts: Hosts,
    cookie: String,
    code: Mutex<Option<blake3::Hash>>,
    sessions: Mutex<Sessions>,
}

/// Who has been let in, by the hash of the cookie, so that the file alone lets
/// nobody in. Kept between runs: a page that is open comes back by itself when
/// the program is started again.
#[derive(Debug)]
struct Sessions {
    file: Option<PathBuf>,
    known: Vec<blake3::Hash>,
}

/// A secret nobody can guess, of so many bytes, in hexadecimal.
pub(crate) fn secret<const BYTES: usize>() -> std::io::Result<String> {
    let mut bytes = [0_u8; BYTES];
    getrandom::fill(&mut bytes).map_err(std::io::Error::other)?;
    Ok(bytes.iter().map(|b| format!("{b:02x}")).collect())
}

impl Door {
    /// A door for a port, and the code that opens it once.
    pub(crate) fn new(port: u16, state: Option<&Path>) -> std::io::Result<(Self, String)> {
        let code = secret::<16>()?;
        let names = ["127.0.0.1", "localhost", "[::1]"];
        let door = Self {
            hosts: Hosts::new(names.iter().map(|name| format!("{name}:{port}")).collect()),
            cookie: format!("{COOKIE}{port}"),
            code: Mutex::new(Some(blake3::hash(code.as_bytes()))),
            sessions: Mutex::new(Sessions::read(state.map(|dir| dir.join("sessions")))),
        };
        Ok((door, code))
    }

    fn is_known(&self, headers: &HeaderMap) -> bool {
        let Some(token) = cookie(headers, &self.cookie) else {
            return false;
        };
        let hash = blake3::hash(token.as_bytes());
        let sessions = self.sessions.lock().unwrap_or_else(PoisonError::into_inner);
        sessions.known.contains(&hash)
    }

    /// Takes the code, if it is the right one and has not been used, and gives
    /// the secret of the new cookie.
    fn exchange(&self, code: &str) -> Option<String> {
        let mut waiting = self.code.lock().unwrap_or_else(PoisonError::into_inner);
        if *waiting != Some(blake3::hash(code.as_bytes())) {
            return None;
        }
        let token = secret::<16>().ok()?;
        *waiting = None;
        let mut sessions = self.sessions.lock().unwrap_or_else(PoisonError::into_inner);
        sessions.add(blake3::hash(token.as_bytes()));
        Some(token)
    }
}

impl Sessions {
    fn read(file: Option<PathBuf>) -> Self {
        let known = file.as_deref().map(remembered).unwrap_or_default();
        Self { file, known }
    }

    fn add(&mut self, hash: blake3::Hash) {
        // Another program may have let somebody in meanwhile.
        for other in self.file.as_deref().map(remembered).unwrap_or_default() {
            if !self.known.contains(&other) {
                self.known.push(other);
            }
        }
        self.known.push(hash);
        let surplus = self.known.len().saturating_sub(MOST_SESSIONS);
        self.known.drain(..surplus);
        if let Some(file) = &self.file {
            let text: String = self
                .known
                .iter()
                .map(|h| format!("{}\n", h.to_hex()))
                .collect();
            // Not written: the page has to be opened anew after a restart.
            let _kept = write_private(file, &text);
        }
    }
}

fn remembered(file: &Path) -> Vec<blake3::Hash> {
    let text = std::fs::read_to_string(file).unwrap_or_default();
    text.lines()
        .filter_map(|line| blake3::Hash::from_hex(line.trim()).ok())
        .collect()
}

fn write_private(file: &Path, text: &str) -> std::io::Result<()> {
    use std::io::Write;
    use std::os::unix::fs::OpenOptionsExt;
    if let Some(dir) = file.parent() {
        std::fs::create_dir_all(dir)?;
    }
    let part = file.with_extension("part");
    let mut options = std::fs::OpenOptions::new();
    options.write(true).create(true).truncate(true).mode(0o600);
    options.open(&part)?.write_all(text.as_bytes())?;
    std::fs::rename(&part, file)
}

/// The code of an address such as `/?code=…`.
fn code_of(uri: &Uri) -> Option<&str> {
    uri.query()?
        .split('&')
        .find_map(|pair| pair.strip_prefix("code="))
}

/// Lets a request in or turns it away.
pub(crate) async fn guard(State(door): State<Arc<Door>>, request: Request, next: Next) -> Response {
    let mut response = match turned_away(&door, &request) {
        Some(refused) => refused,
        None => next.run(request).await,
    };
    strict_headers(response.headers_mut());
    response
}

fn turned_away(door: &Door, request: &Request) -> Option<Response> {
    let (headers, uri) = (request.headers(), request.uri());
    if !door.hosts.are_asked(headers, uri) {
        return Some(refuse(
            StatusCode::FORBIDDEN,
            "server.foreign_host",
            "this address is not the program's own",
            "open the address that the program printed",
            request,
        ));
    }
    if !door.hosts.are_the_origin(headers) || is_fetched_by_another_site(request) {
        return Some(refuse(
            StatusCode::FORBIDDEN,
            "server.foreign_origin",
            "another site has sent this request",
            "open the page of the program itself",
            request,
        ));
    }
    if uri.path() == "/"
        && request.method() == Method::GET
        && let Some(code) = code_of(uri)
    {
        return Some(enter(door, code, request));
    }
    (!door.is_known(headers)).then(|| {
        refuse(
            StatusCode::UNAUTHORIZED,
            "server.no_code",
            "this browser has not been let in",
            "open the whole address that the program printed, with its code; start the program again for a new one",
            request,
        )
    })
}

/// Exchanges a code for a cookie. A browser that is in already stays in.
fn enter(door: &Door, code: &str, request: &Request) -> Response {
    let cookie = match door.exchange(code) {
        Some(token) => Some(format!(
            "{}={token}; HttpOnly; SameSite=Strict; Path=/; Max-Age=31536000",
            door.cookie
        )),
        None if door.is_known(request.headers()) => None,
        None => {
            return refuse(
                StatusCode::FORBIDDEN,
                "server.used_code",
                "this code has been used already, or was never given",
                "start the program again; it prints a new address",
                request,
            );
        }
    };
    let mut response = Response::new(Body::empty());
    *response.status_mut() = StatusCode::SEE_OTHER;
    let headers = response.headers_mut();
    headers.insert(header::LOCATION, HeaderValue::from_static("/"));
    if let Some(value) = cookie.and_then(|c| HeaderValue::from_str(&c).ok()) {
        headers.insert(header::SET_COOKIE, value);
    }
    response
}

pub(crate) fn refuse(
    status: StatusCode,
    code: &str,
    message: &str,
    hint: &str,
    request: &Request,
) -> Response {
    let wants_page = request
        .headers()
        .get(header::ACCEPT)
        .and_then(|a| a.to_str().ok())
        .is_some_and(|a| a.contains("text/html"));
    if wants_page {
        let page = format!(
            "<!doctype html><html lang=\"en\"><meta charset=\"utf-8\"><title>Onestrand</title>\
             <body style=\"font:1.25rem/1.5 serif;max-width:36rem;margin:4rem auto;padding:0 1rem\">\
             <h1>Onestrand</h1><p>{message}.</p><p><b>{hint}.</b></p></body></html>"
        );
        return (status, axum::response::Html(page)).into_response();
    }
    let document = ProblemDocument {
        code: code.to_owned(),
        message: message.to_owned(),
        hint: hint.to_owned(),
        details: serde_json::Value::Null,
    };
    (status, Json(document)).into_response()
}

/// What every answer says of itself: nothing from elsewhere is loaded, the page
/// stands in no foreign frame, and nobody learns its address.
pub(crate) fn strict_headers(headers: &mut HeaderMap) {
    const ALWAYS: [(HeaderName, &str); 6] = [
        (
            header::CONTENT_SECURITY_POLICY,
            "default-src 'self'; img-src 'self' blob: data:; media-src 'self' blob:; \
             style-src 'self' 'unsafe-inline'; object-src 'none'; base-uri 'none'; \
             form-action 'self'; frame-ancestors 'self'",
        ),
        (header::REFERRER_POLICY, "no-referrer"),
        (header::X_CONTENT_TYPE_OPTIONS, "nosniff"),
        (
            HeaderName::from_static("cross-origin-opener-policy"),
            "same-origin",
        ),
        (
            HeaderName::from_static("cross-origin-resource-policy"),
            "same-origin",
        ),
        (HeaderName::from_static("x-frame-options"), "SAMEORIGIN"),
    ];
    for (name, value) in ALWAYS {
        headers.insert(name, HeaderValue::from_static(value));
    }
    headers
        .entry(header::CACHE_CONTROL)
        .or_insert(HeaderValue::from_static("no-store"));
}
