//! The server, asked over real connections.

mod description;
mod refusals;
mod served;
