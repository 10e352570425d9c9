#![doc = include_str!("../README.md")]

mod answer;
mod archive;
mod arguments;
mod bar;
mod camera;
mod commands;
mod cuts;
mod dub;
mod edge_numbers;
mod family;
mod finishing;
mod hearing;
mod in_the_hand;
mod lighting;
mod matching;
mod mixing;
mod new_production;
mod open_page;
mod print_sheets;
mod programme;
mod reading_back;
mod recut;
mod reel_plan;
mod roster;
mod runs;
mod scripts;
mod title_card;
mod titles;
mod words;
mod work;

use std::process::ExitCode;

use clap::Parser;

use crate::answer::Answer;
use crate::arguments::Arguments;

fn main() -> ExitCode {
    let arguments = Arguments::parse();
    let json = arguments.json;
    let answer = commands::run(arguments);
    match answer {
        Ok(answer) => print(&answer, json),
        Err(problem) => {
            answer::print_error(&problem, json);
            ExitCode::from(1)
        }
    }
}

fn print(answer: &Answer, json: bool) -> ExitCode {
    answer::print(answer, json);
    ExitCode::from(u8::from(!answer.is_yes))
}
