//! Why a tablet, or the machine for it, was refused.

use axum::http::StatusCode;

/// Why the tablet's door did not open, or not for this one.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub(crate) enum TabletProblem {
    /// No address of a local network was found.
    #[error("this machine is on no local network")]
    NoNetwork,
    /// No port can be had.
    #[error("cannot listen on the local network: {0}")]
    Port(#[source] std::io::Error),
    /// The system gives no random numbers.
    #[error("the system refuses: {0}")]
    System(#[from] std::io::Error),
    /// Never, or no longer.
    #[error("this tablet is not let in")]
    NotLetIn,
    /// The code is another, was used, or is too old.
    #[error("this code does not open")]
    WrongCode,
    /// A wrong code was tried a moment ago.
    #[error("a wrong code was tried just now")]
    TooSoon,
    /// The name cannot stand in the log.
    #[error("this name cannot be used: {0}")]
    Name(&'static str),
    /// As many are in as there may be.
    #[error("as many tablets are let in as there may be")]
    Full,
    /// A tablet ticks off and tells what happened, nothing else.
    #[error("this is not done from a tablet")]
    MayNot,
    /// There is no tablet of that number.
    #[error("there is no such tablet")]
    NoTablet,
}

impl TabletProblem {
    /// A stable name for programs.
    pub(crate) const fn code(&self) -> &'static str {
        match self {
            Self::NoNetwork => "tablet.no_network",
            Self::Port(_) => "tablet.port",
            Self::System(_) => "tablet.system",
            Self::NotLetIn => "tablet.not_let_in",
            Self::WrongCode => "tablet.wrong_code",
            Self::TooSoon => "tablet.too_soon",
            Self::Name(_) => "tablet.name",
            Self::Full => "tablet.full",
            Self::MayNot => "tablet.may_not",
            Self::NoTablet => "tablet.not_there",
        }
    }

    /// The next step, in the user's words.
    pub(crate) const fn hint(&self) -> &'static str {
        match self {
            Self::NoNetwork => {
                "join machine and tablet to the same network of your own, by cable or radio, and \
                 try once more"
            }
            Self::Port(_) => "close what uses it and try once more",
            Self::System(_) => "restart the machine and try again",
            Self::NotLetIn => "ask for a code on the main machine, in the Bench room, All work",
            Self::WrongCode => {
                "look at the main machine: the code may have been mistyped, used, or be too old; \
                 another can be asked for there"
            }
            Self::TooSoon => "wait a moment and press once more",
            Self::Name(_) => "choose a plain name of up to 40 letters, such as blue tablet",
            Self::Full => "send one away on the main machine",
            Self::MayNot => "do it on the main machine",
            Self::NoTablet => "look at the list of those that are in",
        }
    }

    /// The status of the answer.
    pub(crate) const fn status(&self) -> StatusCode {
        match self {
            Self::NoNetwork | Self::Port(_) | Self::Full => StatusCode::CONFLICT,
            Self::System(_) => StatusCode::INTERNAL_SERVER_ERROR,
            Self::NotLetIn => StatusCode::UNAUTHORIZED,
            Self::WrongCode | Self::MayNot => StatusCode::FORBIDDEN,
            Self::TooSoon => StatusCode::TOO_MANY_REQUESTS,
            Self::Name(_) => StatusCode::UNPROCESSABLE_ENTITY,
            Self::NoTablet => StatusCode::NOT_FOUND,
        }
    }
}
