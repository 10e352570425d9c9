//! Listening at the tablet's door, for as long as it is open.

use std::net::{IpAddr, SocketAddr};
use std::sync::Arc;

use axum::Router;
use tokio::net::TcpListener;
use tokio::sync::Semaphore;
use tokio::task::JoinSet;

use super::addresses::{may_be_listened_on, of_this_machine};
use super::guard::tablet_router;
use super::problem::TabletProblem;
use crate::hosts::Hosts;
use crate::house::House;
use crate::serving::{LOOK_UP, Limits, answer};

/// The port that is tried first, so that a tablet finds the bench again when the door
/// was shut and is opened anew.
const USUAL_PORT: u16 = 7419;
/// Connections at a time.
const CONNECTIONS: usize = 64;
/// The longest body that a tablet sends. Unit: bytes.
const BODY_BYTES: usize = 64 * 1024;

/// The door while it is open. Dropped, it is shut: nothing listens any more, and every
/// connection is cut off.
#[derive(Debug)]
pub(super) struct OpenDoor {
    /// Where it listens, likeliest first.
    pub(super) at: Vec<SocketAddr>,
    _listening: JoinSet<()>,
}

/// The name of the cookie: a browser keeps one set of cookies for all ports of a host.
fn cookie_name(port: u16) -> String {
    format!("onestrand-tablet-{port}")
}

impl OpenDoor {
    /// Listens on these addresses, or where none are named on those of the local network.
    /// To be called where tokio runs.
    pub(super) fn open(
        house: &Arc<House>,
        named: &[IpAddr],
        limits: Limits,
    ) -> Result<Self, TabletProblem> {
        let addresses = match named {
            [] => of_this_machine(),
            named => named.to_vec(),
        };
        let listeners = listen(&addresses)?;
        let at: Vec<SocketAddr> = listeners.iter().map(|(at, _)| *at).collect();
        let port = at.first().ok_or(TabletProblem::NoNetwork)?.port();
        let hosts = Hosts::new(at.iter().map(ToString::to_string).collect());
        let limits = Limits {
            connections: CONNECTIONS,
            body_bytes: BODY_BYTES.min(limits.body_bytes),
            ..limits
        };
        let router = tablet_router(house, hosts, cookie_name(port), limits);
        let room = Arc::new(Semaphore::new(limits.connections));
        let mut listening = JoinSet::new();
        for (_, listener) in listeners {
            listening.spawn(take(listener, router.clone(), limits, Arc::clone(&room)));
        }
        Ok(Self {
            at,
            _listening: listening,
        })
    }
}

/// All on one port, so that one cookie and one name serve them all; an address that
/// cannot be had is left out while there is another.
fn listen(addresses: &[IpAddr]) -> Result<Vec<(SocketAddr, TcpListener)>, TabletProblem> {
    let mut found: Vec<(SocketAddr, TcpListener)> = Vec::new();
    let mut refused = None;
    let local = addresses.iter().filter(|one| may_be_listened_on(one));
    for address in local {
        let port = found.first().map(|(at, _)| at.port());
        let bound = match port {
            Some(port) => bind(*address, port),
            None => bind(*address, USUAL_PORT).or_else(|_| bind(*address, 0)),
        };
        match bound {
            Ok(one) => found.push(one),
            Err(why) => refused = Some(why),
        }
    }
    match (found.is_empty(), refused) {
        (false, _) => Ok(found),
        (true, Some(why)) => Err(TabletProblem::Port(why)),
        (true, None) => Err(TabletProblem::NoNetwork),
    }
}

fn bind(address: IpAddr, port: u16) -> std::io::Result<(SocketAddr, TcpListener)> {
    let listener = std::net::TcpListener::bind((address, port))?;
    listener.set_nonblocking(true)?;
    Ok((listener.local_addr()?, TcpListener::from_std(listener)?))
}

/// Takes whoever comes, as long as there is room.
async fn take(listener: TcpListener, router: Router, limits: Limits, room: Arc<Semaphore>) {
    let mut answered = JoinSet::new();
    loop {
        match listener.accept().await {
            // Who finds no room is turned away at once.
            Ok((stream, _)) => {
                if let Ok(place) = Arc::clone(&room).try_acquire_owned() {
                    let answering = answer(stream, router.clone(), limits);
                    answered.spawn(async move {
                        answering.await;
                        drop(place);
                    });
                }
            }
            // No more files may be open, say: that passes.
            Err(_) => tokio::time::sleep(LOOK_UP).await,
        }
        while answered.try_join_next().is_some() {}
    }
}
