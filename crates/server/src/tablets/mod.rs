//! The tablet's door: a listener of its own on the local network, opened only on
//! purpose, at which one tablet for each code is let in, to tick off and to tell what
//! happened at the bench of one film.

mod addresses;
mod guard;
mod listening;
mod pairing;
mod problem;
mod qr;

use std::net::{IpAddr, SocketAddr};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use serde::Serialize;
use tokio::sync::watch;
use utoipa::ToSchema;

use crate::door::secret;
use crate::events::{EventDocument, Events};
use crate::house::House;
use crate::serving::Limits;

pub(crate) use addresses::may_be_listened_on;
pub(crate) use guard::CookieName;
pub(crate) use pairing::LetIn;
pub(crate) use problem::TabletProblem;

use listening::OpenDoor;
use pairing::{Moment, Pairing};

/// The tablet's door of one program, open or shut, and who was let in.
#[derive(Debug)]
pub(crate) struct TabletDoor {
    /// Where it listens, if that was said; else on what the machine is found to have.
    at: Vec<IpAddr>,
    limits: Limits,
    pairing: Mutex<Pairing>,
    open: Mutex<Option<OpenDoor>>,
    /// Grows whenever somebody is sent away, so that their streams end.
    gone: watch::Sender<u64>,
    events: Events,
}

/// The tablet's door as the main machine shows it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub(crate) struct TabletDoorDocument {
    /// Whether it is open.
    open: bool,
    /// Where a tablet finds it, likeliest first.
    addresses: Vec<String>,
    /// What lets the next tablet in; none when none was asked for, or it was used,
    /// is too old, or too many tried wrong ones.
    code: Option<TabletCodeDocument>,
    /// Wrong codes that were tried since the last one was asked for.
    wrong: u32,
    /// The tablets that are in.
    tablets: Vec<TabletInDocument>,
}

/// A code that lets one tablet in, once.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub(crate) struct TabletCodeDocument {
    /// Its figures.
    pub(crate) code: String,
    /// The film on whose bench the tablet will be.
    pub(crate) film: String,
    /// Until when it opens. Unit: milliseconds since 1970 in UTC.
    pub(crate) until: u64,
    /// How many wrong ones may still be tried before it opens no more.
    pub(crate) tries_left: u32,
    /// First address and code as a square of dark and light for a camera: each row a
    /// text of `1` for dark and `0` for light, without the margin.
    pub(crate) square: Vec<String>,
}

/// A tablet that is in.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub(crate) struct TabletInDocument {
    /// Its number.
    pub(crate) id: u32,
    /// What it is called.
    pub(crate) name: String,
    /// The film on whose bench it is.
    pub(crate) film: String,
    /// When it was let in. Unit: milliseconds since 1970 in UTC.
    pub(crate) let_in: u64,
    /// When it asked for something last. Unit: milliseconds since 1970 in UTC.
    pub(crate) last_seen: u64,
}

impl TabletDoorDocument {
    /// The addresses and the code.
    pub(crate) fn invitation(self) -> (Vec<String>, String) {
        (
            self.addresses,
            self.code.map(|c| c.code).unwrap_or_default(),
        )
    }
}

impl TabletDoor {
    pub(crate) fn new(at: Vec<IpAddr>, limits: Limits, events: Events) -> Self {
        Self {
            at,
            limits,
            pairing: Mutex::default(),
            open: Mutex::new(None),
            gone: watch::Sender::new(0),
            events,
        }
    }

    /// Opens the door, where it is shut, and gives a code for one tablet at the bench of
    /// a film; the code before it opens no more. To be called where tokio runs.
    ///
    /// # Errors
    /// [`TabletProblem::NoNetwork`], [`TabletProblem::Port`], [`TabletProblem::System`].
    pub(crate) fn let_in(
        &self,
        house: &Arc<House>,
        film: &str,
    ) -> Result<TabletDoorDocument, TabletProblem> {
        let mut open = self.opened();
        if open.is_none() {
            *open = Some(OpenDoor::open(house, &self.at, self.limits)?);
        }
        drop(open);
        let code = pairing::code(&mut pairing::draw)?;
        self.pairing().ask(code, film, Moment::now());
        self.told();
        Ok(self.document())
    }

    /// Shuts the door: whatever stands open there is cut off, and all are sent away.
    pub(crate) fn shut(&self) -> TabletDoorDocument {
        *self.opened() = None;
        self.pairing().forget_all();
        self.send_word_to_the_gone();
        self.document()
    }

    /// Sends one tablet away; false where there is none of that number.
    pub(crate) fn send_away(&self, id: u32) -> bool {
        let sent = self.pairing().send_away(id);
        self.send_word_to_the_gone();
        sent
    }

    /// Lets a tablet in by the code; gives the secret of its cookie.
    ///
    /// # Errors
    /// Why it is not let in.
    pub(crate) fn enter(&self, code: &str, name: &str) -> Result<String, TabletProblem> {
        let token = secret::<32>()?;
        let entered = self.pairing().enter(code, name, &token, Moment::now());
        self.told();
        entered.map(|()| token)
    }

    /// Who holds this secret, if anybody; they are seen by it.
    pub(crate) fn who(&self, token: &str) -> Option<LetIn> {
        self.pairing().who(token, Moment::now())
    }

    /// Comes true once this tablet is no longer in.
    pub(crate) fn until_gone(self: &Arc<Self>, id: u32) -> impl Future<Output = ()> + Send + use<> {
        let door = Arc::clone(self);
        let mut word = door.gone.subscribe();
        async move {
            while door.pairing().has(id) {
                if word.changed().await.is_err() {
                    break;
                }
            }
        }
    }

    /// The door as the main machine shows it.
    pub(crate) fn document(&self) -> TabletDoorDocument {
        let addresses = self.addresses();
        let mut pairing = self.pairing();
        let mut code = pairing.shown(Moment::now());
        if let (Some(code), Some(first)) = (&mut code, addresses.first()) {
            code.square = qr::square(&format!("{first}#code={}", code.code));
        }
        TabletDoorDocument {
            open: !addresses.is_empty(),
            code,
            wrong: pairing.wrong(),
            tablets: pairing.tablets(),
            addresses,
        }
    }

    fn addresses(&self) -> Vec<String> {
        let open = self.opened();
        let at = open.as_ref().map(|door| door.at.as_slice());
        let page = |at: &SocketAddr| format!("http://{at}/");
        at.unwrap_or_default().iter().map(page).collect()
    }

    fn send_word_to_the_gone(&self) {
        self.gone.send_modify(|count| *count += 1);
        self.told();
    }

    fn told(&self) {
        self.events.tell(EventDocument::Tablets);
    }

    fn pairing(&self) -> MutexGuard<'_, Pairing> {
        self.pairing.lock().unwrap_or_else(PoisonError::into_inner)
    }

    fn opened(&self) -> MutexGuard<'_, Option<OpenDoor>> {
        self.open.lock().unwrap_or_else(PoisonError::into_inner)
    }
}
