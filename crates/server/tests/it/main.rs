//! The server, asked over real connections.

mod copies;
mod description;
mod folders;
mod limits;
mod refusals;
mod served;
