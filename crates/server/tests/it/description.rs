//! The description that the page's types are made from is kept in the
//! repository, so that a change of it is seen.

use std::path::Path;

/// With `ONESTRAND_WRITE_API=1` the description is written anew; then run
/// `npm run types` in `web/`.
#[test]
fn the_kept_description_is_the_true_one() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../web/openapi.json");
    let now = onestrand_server::api_description();
    if std::env::var_os("ONESTRAND_WRITE_API").is_some() {
        std::fs::write(&path, &now).expect("the description can be written");
    }
    let kept = std::fs::read_to_string(&path).unwrap_or_default();
    assert!(
        kept == now,
        "web/openapi.json is not what the server says; write it with ONESTRAND_WRITE_API=1 and make the types anew"
    );
}
