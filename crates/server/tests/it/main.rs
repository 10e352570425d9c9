//! The server, asked over real connections.

mod copies;
mod description;
mod folders;
mod hostile;
mod interleaved;
mod limits;
mod listener;
mod logs;
mod pictures;
mod reading;
mod refusals;
mod sample;
mod served;
mod windows;
