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

/// A file of the page; any other address is the page too, since its rooms have
/// addresses of their own.
pub(crate) async fn page(uri: Uri) -> Response {
    let path = uri.path().trim_start_matches('/');
    let named = Page::get(path).map(|found| (path, found));
    let Some((name, found)) = named.or_else(|| Some(("index.html", Page::get("index.html")?)))
    else {
        return (
            StatusCode::SERVICE_UNAVAILABLE,
            "This program was built without its page. Build it with ./run, which builds the page first.\n",
        )
            .into_response();
    };
    // Files of the build carry a hash in their name; the page itself does not.
    let keep = if name.starts_with("assets/") {
        "public, max-age=31536000, immutable"
    } else {
        "no-cache"
    };
    (
        [
            (header::CONTENT_TYPE, found.metadata.mimetype().to_owned()),
            (header::CACHE_CONTROL, keep.to_owned()),
        ],
        Body::from(found.data.into_owned()),
    )
        .into_response()
}
