//! Listening, and answering.

use std::net::{IpAddr, Ipv4Addr, SocketAddr};
use std::path::PathBuf;
use std::sync::Arc;
use std::time::Duration;

use axum::Router;
use axum::extract::DefaultBodyLimit;
use axum::http::StatusCode;
use axum::middleware;
use axum::routing::any;
use hyper::server::conn::http1;
use hyper_util::rt::{TokioIo, TokioTimer};
use hyper_util::service::TowerToHyperService;
use onestrand_production::Production;
use tokio::net::{TcpListener, TcpStream};
use tokio::sync::Semaphore;

use crate::door::{self, Door};
use crate::house::House;
use crate::page::page;
use crate::places::Places;
use crate::problem::{ServerError, in_one_form};
use crate::routes;
use crate::steady::must_keep_coming;
use crate::tablets::{TabletDoor, may_be_listened_on};

/// How a server is to run.
#[derive(Debug, Clone)]
pub struct Settings {
    /// A production, or a shelf: a folder of productions.
    pub dir: PathBuf,
    /// The port; a usual one, else any that is free, when not said.
    pub port: Option<u16>,
    /// Folders that scans may be brought from.
    pub media: Vec<PathBuf>,
    /// The user's home folder, under which more may be chosen.
    pub home: Option<PathBuf>,
    /// Where it is remembered who was let in and which folders were chosen.
    pub state: Option<PathBuf>,
    /// On which addresses tablets are let in; on those of the local network when none
    /// is named. Nothing listens there before the door is opened.
    pub tablets_at: Vec<IpAddr>,
    /// Whether the tablet's door is opened at once, for the film of the folder.
    pub tablet: bool,
    /// What a single request may take.
    pub limits: Limits,
}

/// What a single request may take.
#[derive(Debug, Clone, Copy)]
pub struct Limits {
    /// Until the whole head of a request is there.
    pub head: Duration,
    /// For each 64 KiB of a body; for all of a shorter one.
    pub body: Duration,
    /// The longest body of an ordinary request. Unit: bytes.
    pub body_bytes: usize,
    /// Connections at a time.
    pub connections: usize,
}

impl Default for Limits {
    /// Generous for a page on the same machine, short for a sender that means
    /// to hold the door.
    fn default() -> Self {
        Self {
            head: Duration::from_secs(10),
            body: Duration::from_secs(20),
            body_bytes: 1 << 20,
            connections: 256,
        }
    }
}

/// The port that is tried first, so that a page that stands open finds the
/// program again when it is started anew.
const USUAL_PORT: u16 = 7418;

/// Why a server could not be started.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum ServeError {
    /// The port is taken, or may not be used.
    #[error("cannot listen on port {port}: {source}")]
    Port {
        /// The port.
        port: u16,
        /// The system's reason.
        #[source]
        source: std::io::Error,
    },
    /// The folder cannot be used.
    #[error("cannot use the folder: {source}: {}", .dir.display())]
    Folder {
        /// The folder.
        dir: PathBuf,
        /// The system's reason.
        #[source]
        source: std::io::Error,
    },
    /// A tablet would be let in from the world at large.
    #[error("{address} is not an address of a network of one's own")]
    TabletAddress {
        /// The address.
        address: IpAddr,
    },
    /// A shelf was opened: a tablet is let in for one film.
    #[error("a tablet is let in for one film, and this is a shelf")]
    TabletFilm,
    /// The tablet's door cannot be opened.
    #[error("the tablet's door cannot be opened: {why}")]
    TabletDoor {
        /// Why.
        why: String,
        /// What to do.
        hint: String,
    },
    /// The system gives no random numbers, or no threads.
    #[error("the system refuses: {0}")]
    System(#[from] std::io::Error),
}

impl ServeError {
    /// A stable name for programs.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::Port { .. } => "server.port",
            Self::Folder { .. } => "server.folder",
            Self::TabletAddress { .. } => "tablet.address",
            Self::TabletFilm => "tablet.film",
            Self::TabletDoor { .. } => "tablet.door",
            Self::System(_) => "server.system",
        }
    }

    /// The next step, in the user's words.
    #[must_use]
    pub fn hint(&self) -> &str {
        match self {
            Self::Port { .. } => "close what uses it, or name another with --port",
            Self::Folder { .. } => "check the name and the rights",
            Self::TabletAddress { .. } => {
                "name a private or link-local address of this machine: 10.…, 172.16.… to \
                 172.31.…, 192.168.…, 169.254.…, or fd…"
            }
            Self::TabletFilm => {
                "open the folder of the film itself, or open the door in its Bench room"
            }
            Self::TabletDoor { hint, .. } => hint,
            Self::System(_) => "restart the machine and try again",
        }
    }
}

/// A server that listens and is ready to answer.
#[derive(Debug)]
pub struct Server {
    runtime: tokio::runtime::Runtime,
    listener: TcpListener,
    router: Router,
    limits: Limits,
    address: String,
    invitation: Option<TabletInvitation>,
}

/// Where a tablet is let in, and by what.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TabletInvitation {
    /// Addresses of the tablet's page, likeliest first.
    pub addresses: Vec<String>,
    /// The code, which opens once and for five minutes.
    pub code: String,
}

impl Server {
    /// Takes the port and makes all ready.
    ///
    /// # Errors
    /// [`ServeError`].
    pub fn ready(settings: &Settings) -> Result<Self, ServeError> {
        if let Some(address) = settings.tablets_at.iter().find(|a| !may_be_listened_on(a)) {
            let address = *address;
            return Err(ServeError::TabletAddress { address });
        }
        let (shelf, first) = shelf_of(&settings.dir)?;
        let runtime = tokio::runtime::Builder::new_multi_thread()
            .enable_all()
            .build()?;
        let listener = runtime.block_on(listen(settings.port))?;
        let port = listener.local_addr()?.port();
        let state = settings.state.as_deref();
        let (door, code) = Door::new(port, state)?;
        let kept = state.map(|dir| dir.join("folders"));
        let places = Places::new(settings.home.clone(), kept, &settings.media);
        let (at, limits) = (settings.tablets_at.clone(), settings.limits);
        let tablets = |events| TabletDoor::new(at, limits, events);
        let house = Arc::new(House::new(shelf, first, places, tablets));
        let running = runtime.enter();
        let invitation = settings.tablet.then(|| invite(&house)).transpose()?;
        drop(running);
        Ok(Self {
            router: router(house, Arc::new(door), settings.limits),
            runtime,
            listener,
            limits: settings.limits,
            address: format!("http://127.0.0.1:{port}/?code={code}"),
            invitation,
        })
    }

    /// The address to open, with the one-time code.
    #[must_use]
    pub fn address(&self) -> &str {
        &self.address
    }

    /// Where a tablet is let in, where that was asked for.
    #[must_use]
    pub const fn invitation(&self) -> Option<&TabletInvitation> {
        self.invitation.as_ref()
    }

    /// Answers until `stop` comes true, then lets what is being answered end.
    /// Long work that is under way is left as it is: it is carried on when the
    /// film is opened again.
    pub fn run(self, stop: impl Fn() -> bool) {
        let Self {
            runtime,
            listener,
            router,
            limits,
            ..
        } = self;
        let room = Arc::new(Semaphore::new(limits.connections));
        runtime.block_on(async {
            loop {
                tokio::select! {
                    taken = listener.accept() => match taken {
                        // Who finds no room is turned away at once.
                        Ok((stream, _)) => if let Ok(place) = Arc::clone(&room).try_acquire_owned() {
                            let answered = answer(stream, router.clone(), limits);
                            tokio::spawn(async move {
                                answered.await;
                                drop(place);
                            });
                        },
                        // No more files may be open, say: that passes.
                        Err(_) => tokio::time::sleep(LOOK_UP).await,
                    },
                    () = tokio::time::sleep(LOOK_UP) => {
                        if stop() {
                            break;
                        }
                    }
                }
            }
        });
        runtime.shutdown_timeout(LAST_ANSWERS);
    }
}

/// Opens the tablet's door for the film that the program was opened with.
fn invite(house: &Arc<House>) -> Result<TabletInvitation, ServeError> {
    let film = house.first.clone().ok_or(ServeError::TabletFilm)?;
    let failed = |why: ServerError| ServeError::TabletDoor {
        why: why.to_string(),
        hint: why.hint(),
    };
    let desk = house.film(&film).map_err(failed)?;
    let door = house.tablets.let_in(house, &desk.film);
    let (addresses, code) = door.map_err(|e| failed(e.into()))?.invitation();
    Ok(TabletInvitation { addresses, code })
}

/// How often the server looks up whether it is to stop.
pub(crate) const LOOK_UP: Duration = Duration::from_millis(100);

/// What answers under way may still take when the program stops.
const LAST_ANSWERS: Duration = Duration::from_millis(500);

async fn listen(port: Option<u16>) -> Result<TcpListener, ServeError> {
    let on = |port: u16| async move {
        TcpListener::bind(SocketAddr::from((Ipv4Addr::LOCALHOST, port)))
            .await
            .map_err(|source| ServeError::Port { port, source })
    };
    match port {
        Some(port) => on(port).await,
        None => match on(USUAL_PORT).await {
            Ok(listener) => Ok(listener),
            Err(_) => on(0).await,
        },
    }
}

/// The shelf a folder stands for, and the film it is, if it is one.
fn shelf_of(dir: &std::path::Path) -> Result<(PathBuf, Option<String>), ServeError> {
    let failed = |source| ServeError::Folder {
        dir: dir.to_owned(),
        source,
    };
    std::fs::create_dir_all(dir).map_err(failed)?;
    let whole = dir.canonicalize().map_err(failed)?;
    if !Production::is_here(&whole) {
        return Ok((whole, None));
    }
    let name = whole.file_name().map(|n| n.to_string_lossy().into_owned());
    match (whole.parent(), name) {
        (Some(shelf), Some(name)) => Ok((shelf.to_owned(), Some(name))),
        _ => Ok((whole, None)),
    }
}

pub(crate) async fn answer(stream: TcpStream, router: Router, limits: Limits) {
    // Small answers are wanted at once.
    let _set = stream.set_nodelay(true);
    let service = TowerToHyperService::new(router);
    // A connection that breaks concerns nobody but its sender.
    let _ended = http1::Builder::new()
        .timer(TokioTimer::new())
        .header_read_timeout(limits.head)
        .serve_connection(TokioIo::new(stream), service)
        .await;
}

fn router(house: Arc<House>, door: Arc<Door>, limits: Limits) -> Router {
    let (api, _description) = routes::all().split_for_parts();
    let api = api
        .with_state(house)
        .route("/api/{*none}", any(no_such_request))
        .layer(DefaultBodyLimit::max(limits.body_bytes))
        .layer(middleware::map_request(move |request| {
            std::future::ready(must_keep_coming(request, limits.body))
        }))
        .layer(middleware::from_fn(in_one_form));
    Router::new()
        .merge(api)
        .fallback(page)
        .layer(middleware::from_fn_with_state(door, door::guard))
}

async fn no_such_request() -> StatusCode {
    StatusCode::NOT_FOUND
}

/// The description of the requests, from which the page's types are made, as
/// JSON.
#[must_use]
pub fn api_description() -> String {
    let both = routes::all().merge(routes::at_the_tablet());
    let (_router, description) = both.split_for_parts();
    let mut text = description.to_pretty_json().unwrap_or_default();
    text.push('\n');
    text
}
