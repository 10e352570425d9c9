//! Serving the page.

use std::ffi::OsString;
use std::path::PathBuf;

use onestrand_production::{Cancel, ProductionError};
use onestrand_server::{Limits, ServeError, Server, Settings, TabletInvitation};
use serde_json::json;

use crate::answer::{self, Answer};
use crate::arguments::Open;

/// Serves until the user stops it with Ctrl-C.
pub(crate) fn serve(given: &Open, json: bool, cancel: &Cancel) -> Result<Answer, ProductionError> {
    let settings = Settings {
        dir: given.dir.clone(),
        port: given.port,
        media: given.media.clone(),
        home: folder("HOME"),
        state: state_folder(),
        tablets_at: given.tablet_at.clone(),
        tablet: given.tablet,
        limits: Limits::default(),
    };
    let server = Server::ready(&settings).map_err(as_unfit)?;
    let address = server.address().to_owned();
    let said = opened(&address, server.invitation());
    answer::print(&said, json);
    if !given.no_browser {
        open_browser(&address);
    }
    server.run(|| cancel.is_cancelled());
    Ok(Answer {
        words: String::new(),
        document: serde_json::Value::Null,
        is_yes: true,
    })
}

/// What is printed once it is ready: where the page is, and where a tablet is let in.
fn opened(address: &str, invitation: Option<&TabletInvitation>) -> Answer {
    let mut document = json!({ "open": address });
    let mut words = format!("open {address}");
    if let Some(TabletInvitation { addresses, code }) = invitation {
        document["tablet"] = json!({ "addresses": addresses, "code": code });
        let at = addresses.join(" or ");
        words.push_str(&format!("\ntablet {at} code {code}"));
    }
    Answer::yes(&document, words)
}

fn as_unfit(problem: ServeError) -> ProductionError {
    ProductionError::Unfit {
        message: problem.to_string(),
        hint: problem.hint().to_owned(),
    }
}

fn folder(name: &str) -> Option<PathBuf> {
    let path = PathBuf::from(std::env::var_os(name).filter(|v: &OsString| !v.is_empty())?);
    path.is_absolute().then_some(path)
}

/// Where it is remembered who was let in: the usual place for what a program
/// keeps between runs (XDG Base Directory Specification 0.8, `XDG_STATE_HOME`).
fn state_folder() -> Option<PathBuf> {
    let base = folder("XDG_STATE_HOME").or_else(|| Some(folder("HOME")?.join(".local/state")))?;
    Some(base.join("onestrand"))
}

/// Asks the desktop to show the page. Where there is none the printed address
/// is enough.
fn open_browser(address: &str) {
    let _asked = open::that_detached(address);
}
