#![doc = include_str!("../README.md")]
#![expect(
    clippy::print_stdout,
    clippy::print_stderr,
    reason = "a command speaks to the person who called it"
)]

mod asked;
mod check;
mod clips;
mod cost;
mod figures;
mod finish;
mod invented;
mod memory;
mod mix;
mod reading;
mod recut;
mod set;
mod store;
mod table;
mod titles;
mod trouble;

use std::process::ExitCode;

use crate::asked::{Asked, Part};
use crate::trouble::Trouble;

fn main() -> ExitCode {
    let asked = match Asked::read(std::env::args_os().skip(1)) {
        Ok(asked) => asked,
        Err(word) => {
            eprintln!("bench: what is {word:?}?\n{}", asked::USAGE);
            return ExitCode::from(2);
        }
    };
    match run(&asked) {
        Ok(()) => ExitCode::SUCCESS,
        Err(trouble) => {
            eprintln!("bench: {trouble}\n  {}", trouble.hint());
            ExitCode::FAILURE
        }
    }
}

fn run(asked: &Asked) -> Result<(), Trouble> {
    for part in &asked.parts {
        match part {
            Part::Reading => reading::measure(asked.frames)?,
            Part::Store => store::measure()?,
            Part::Check => check::measure()?,
            Part::Recut => recut::measure()?,
            Part::Titles => titles::measure()?,
            Part::Mix => mix::measure()?,
            Part::Finish => finish::measure()?,
        }
    }
    match &asked.set {
        Some(folder) => set::measure(folder),
        None => Ok(()),
    }
}

/// Says on standard error what is being done: a run takes minutes.
pub(crate) fn say(doing: &str) {
    eprintln!("bench: {doing}");
}
