#![doc = include_str!("../README.md")]
#![expect(
    clippy::print_stdout,
    clippy::print_stderr,
    reason = "a command speaks to the person who called it"
)]

mod tidy;

use std::process::ExitCode;

fn main() -> ExitCode {
    let asked: Vec<String> = std::env::args().skip(1).collect();
    let [task] = asked.as_slice() else {
        return wrong_use();
    };
    if task != "tidy" {
        return wrong_use();
    }
    match tidy::check() {
        Ok(problems) if problems.is_empty() => {
            println!("tidy: nothing to mend");
            ExitCode::SUCCESS
        }
        Ok(problems) => {
            for problem in &problems {
                println!("{problem}");
            }
            println!("tidy: {} to mend", problems.len());
            ExitCode::FAILURE
        }
        Err(why) => {
            eprintln!("tidy could not look: {why}");
            ExitCode::FAILURE
        }
    }
}

fn wrong_use() -> ExitCode {
    eprintln!("usage: cargo xtask tidy");
    ExitCode::from(2)
}
