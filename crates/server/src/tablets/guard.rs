//! Who is answered at the tablet's door, and what there is to be asked at all.

use std::sync::Arc;

use axum::Router;
use axum::extract::{DefaultBodyLimit, Request, State};
use axum::http::{Method, StatusCode};
use axum::middleware::{self, Next};
use axum::response::{IntoResponse, Response};
use axum::routing::any;

use super::problem::TabletProblem;
use crate::door::{refuse, strict_headers};
use crate::hosts::{Hosts, cookie, is_fetched_by_another_site};
use crate::house::House;
use crate::page::tablet_page;
use crate::problem::{ServerError, in_one_form};
use crate::routes::{self, TABLET};
use crate::serving::Limits;
use crate::steady::must_keep_coming;

/// What the guard goes by.
#[derive(Debug)]
struct Guard {
    house: Arc<House>,
    hosts: Hosts,
    cookie: String,
}

/// The name of the cookie at this door.
#[derive(Debug, Clone)]
pub(crate) struct CookieName(pub(crate) Arc<str>);

/// All that can be asked at the tablet's door: the requests of the bench of one film,
/// which none of them names, and the files of the tablet's page.
pub(super) fn tablet_router(
    house: &Arc<House>,
    hosts: Hosts,
    cookie: String,
    limits: Limits,
) -> Router {
    let guard = Arc::new(Guard {
        house: Arc::clone(house),
        hosts,
        cookie,
    });
    let (api, _description) = routes::at_the_tablet().split_for_parts();
    let api = api
        .with_state(Arc::clone(house))
        .route(
            "/api/{*none}",
            any(|| std::future::ready(StatusCode::NOT_FOUND)),
        )
        .layer(DefaultBodyLimit::max(limits.body_bytes))
        .layer(middleware::map_request(move |request| {
            std::future::ready(must_keep_coming(request, limits.body))
        }));
    Router::new()
        .merge(api)
        .fallback(tablet_page)
        .layer(middleware::from_fn(in_one_form))
        .layer(middleware::from_fn_with_state(guard, let_pass))
}

/// Lets a request in or turns it away.
async fn let_pass(State(guard): State<Arc<Guard>>, mut request: Request, next: Next) -> Response {
    let mut response = match turned_away(&guard, &mut request) {
        Some(refused) => refused,
        None => next.run(request).await,
    };
    strict_headers(response.headers_mut());
    response
}

fn turned_away(guard: &Guard, request: &mut Request) -> Option<Response> {
    let foreign = |code: &str, message: &str, request: &Request| {
        let hint = "open the address that stands on the main machine";
        Some(refuse(StatusCode::FORBIDDEN, code, message, hint, request))
    };
    let (headers, reads) = (request.headers(), reads(request.method()));
    if !guard.hosts.are_asked(headers, request.uri()) {
        let message = "this address is not the tablet's door";
        return foreign("server.foreign_host", message, request);
    }
    // A browser names the page of whatever is sent; who names none is no page of ours.
    let named = reads || headers.contains_key(axum::http::header::ORIGIN);
    if !named || !guard.hosts.are_the_origin(headers) || is_fetched_by_another_site(request) {
        let message = "another site has sent this request";
        return foreign("server.foreign_origin", message, request);
    }
    let token = cookie(headers, &guard.cookie);
    let who = token.and_then(|token| guard.house.tablets.who(token));
    let extensions = request.extensions_mut();
    extensions.insert(CookieName(guard.cookie.as_str().into()));
    match who {
        Some(who) => {
            extensions.insert(who);
            None
        }
        None if is_for_anybody(request) => None,
        None => Some(ServerError::Tablet(TabletProblem::NotLetIn).into_response()),
    }
}

fn reads(method: &Method) -> bool {
    [Method::GET, Method::HEAD].contains(method)
}

/// The files of the page, which anybody may have from where the program comes from, and
/// the request by which a tablet comes in.
fn is_for_anybody(request: &Request) -> bool {
    let path = request.uri().path();
    match path.starts_with("/api/") {
        true => path == TABLET && request.method() == Method::POST,
        false => reads(request.method()),
    }
}
