//! The page itself, inside the program.

use axum::body::Body;
use axum::http::{StatusCode, Uri, header};
use axum::response::{IntoResponse, Response};
use rust_embed::RustEmbed;

/// What the page's build has made.
#[derive(RustEmbed)]
#[folder = "../../web/dist"]
#[exclude = "*.map"]
struct Page;

/// The page of the main machine.
const INDEX: &str = "index.html";
/// The page of a tablet.
const TABLET: &str = "tablet.html";
/// Code, looks and lettering of both.
const PARTS: &str = "assets/";

/// A file of the page; any other address is the page too, since its rooms have
/// addresses of their own.
pub(crate) async fn page(uri: Uri) -> Response {
    let path = uri.path().trim_start_matches('/');
    match file(path).or_else(|| file(INDEX)) {
        Some(found) => found,
        None => not_built(),
    }
}

/// The tablet's page and what it is made of; no other address is anything.
pub(crate) async fn tablet_page(uri: Uri) -> Response {
    let path = uri.path().trim_start_matches('/');
    let found = match path {
        "" => file(TABLET).or_else(|| Some(not_built())),
        part if part.starts_with(PARTS) => file(part),
        _ => None,
    };
    found.unwrap_or_else(|| StatusCode::NOT_FOUND.into_response())
}

fn not_built() -> Response {
    (
        StatusCode::SERVICE_UNAVAILABLE,
        "This program was built without its page. Build it with ./run, which builds the page first.\n",
    )
        .into_response()
}

/// A file of the build.
fn file(name: &str) -> Option<Response> {
    let found = Page::get(name)?;
    // Files of the build carry a hash in their name; the page itself does not.
    let keep = if name.starts_with(PARTS) {
        "public, max-age=31536000, immutable"
    } else {
        "no-cache"
    };
    let headers = [
        (header::CONTENT_TYPE, found.metadata.mimetype().to_owned()),
        (header::CACHE_CONTROL, keep.to_owned()),
    ];
    Some((headers, Body::from(found.data.into_owned())).into_response())
}
