//! The server, asked over real connections.

mod description;
