//! The server, asked over real connections.

mod copies;
mod description;
mod folders;
mod interleaved;
mod limits;
mod listener;
mod refusals;
mod served;
mod windows;
