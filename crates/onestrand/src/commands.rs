//! One function per command: translate, call, translate back.

use std::path::Path;

use onestrand_cut::JoinKind;
use onestrand_production::{self as acts, Cancel, Production, ProductionError};
use serde_json::json;

use crate::answer::Answer;
use crate::arguments::{
    Arguments, Command, CounterWord, Join, Log, Read, Reckon, Roll, RollAdd, RollPaper, SideWord,
    word,
};
use crate::bar::Bar;
use crate::{
    camera, cuts, edge_numbers, finishing, in_the_hand, matching, open_page, print_sheets, recut,
    reel_plan, runs, scripts, words, work,
};

pub(crate) type Outcome = Result<Answer, ProductionError>;

/// Ctrl-C asks for a stop; the work ends cleanly and leaves nothing half-made.
/// A second Ctrl-C ends the program as it always does.
fn cancel_on_interrupt() -> Cancel {
    let cancel = Cancel::new();
    let told = cancel.clone();
    if let Ok(mut signals) = signal_hook::iterator::Signals::new([
        signal_hook::consts::SIGINT,
        signal_hook::consts::SIGTERM,
    ]) {
        std::thread::spawn(move || {
            for signal in signals.forever() {
                if told.is_cancelled() {
                    let _never = signal_hook::low_level::emulate_default_handler(signal);
                }
                told.cancel();
            }
        });
    }
    cancel
}

/// Opens a production to work on it, and carries on what was interrupted.
pub(crate) fn open(
    dir: &Path,
    cancel: &Cancel,
    bar: &mut Bar,
) -> Result<Production, ProductionError> {
    use onestrand_production::Progress;
    let mut production = Production::open(dir)?;
    for notice in production.notices() {
        bar.note(notice);
    }
    acts::take_parts_back(production.dir(), cancel, bar)?;
    acts::carry_on(&mut production, cancel, bar)?;
    Ok(production)
}

pub(crate) fn run(arguments: Arguments) -> Outcome {
    let cancel = cancel_on_interrupt();
    let mut bar = Bar::new();
    let json = arguments.json;
    match arguments.command {
        Command::Demo { dir } => demo(&dir, &cancel, &mut bar),
        Command::Open(given) => open_page::serve(&given, json, &cancel),
        Command::New(given) => crate::new_production::new(given),
        Command::Ready => Ok(ready()),
        Command::Backup(given) => backup(&given.dir, &given.file, &cancel, &mut bar),
        Command::Restore(given) => restore(&given.file, &given.dir, &cancel, &mut bar),
        Command::Reckon(request) => reckon(&request),
        Command::Read(request) => read(request, &cancel, &mut bar),
        Command::Roll(command) => roll(*command, &cancel, &mut bar),
        Command::Reel(command) => in_the_hand::reel(*command, &cancel, &mut bar),
        Command::Throw(given) => reel_plan::throw(given),
        Command::Camera(command) => camera::camera(command, &cancel, &mut bar),
        Command::Title(command) => crate::titles::title(*command, &cancel, &mut bar),
        Command::Sound(command) => crate::mixing::sound(command, &cancel, &mut bar),
        Command::Mix(given) => crate::mixing::mix(given, &cancel, &mut bar),
        Command::Loudness(given) => crate::mixing::loudness(&given.file, &cancel, &mut bar),
        Command::Cue(command) => crate::dub::cue(command, &cancel, &mut bar),
        Command::Projector(command) => crate::dub::projector(command),
        Command::Tape(command) => crate::dub::tape(command),
        Command::Pin(given) => in_the_hand::pin(&given, &cancel, &mut bar),
        Command::Log(command) => log(command, &cancel, &mut bar),
        Command::Cut(command) => cuts::cut(command, &cancel, &mut bar),
        Command::Script(given) => scripts::script(given, &cancel, &mut bar),
        Command::Plan(given) => scripts::plan(given, &cancel, &mut bar),
        Command::Roster(given) => crate::roster::roster(given),
        Command::Check { dir, cut, join } => check(&dir, &cut, join, &cancel, &mut bar),
        Command::Bench(given) => cuts::bench(&given, &cancel, &mut bar),
        Command::Work(command) => work::work(*command, &cancel, &mut bar),
        Command::Recut(given) => recut::recut(&given, &cancel, &mut bar),
        Command::Sheets(given) => print_sheets::print(given, &cancel, &mut bar),
        Command::Finish(given) => finishing::finish(given, &cancel, &mut bar),
        Command::Light(command) => crate::lighting::light(*command, &cancel, &mut bar),
        Command::Programme(given) => crate::programme::programme(*given, &cancel, &mut bar),
        Command::Box(given) => crate::archive::archive_box(*given, &cancel, &mut bar),
        Command::Match(given) => matching::match_takes(&given, &cancel, &mut bar),
        Command::Prove(given) => crate::reading_back::prove(&given, &cancel, &mut bar),
        Command::Name(given) => crate::reading_back::name(&given, &cancel, &mut bar),
        Command::Family(given) => crate::family::family(&given, &cancel, &mut bar),
        Command::Twins(given) => matching::find_twins(&given, &cancel, &mut bar),
        Command::Exchange(given) => cuts::exchange(&given, &cancel, &mut bar),
        Command::Undo { dir } => undo(&dir, &cancel, &mut bar),
        Command::Redo { dir } => redo(&dir, &cancel, &mut bar),
        Command::Journal { dir, most } => journal(&dir, most, &cancel, &mut bar),
        Command::Jobs { dir } => jobs(&dir, &cancel, &mut bar),
    }
}

pub(crate) const fn join_kind(word: Join) -> JoinKind {
    match word {
        Join::Tape => JoinKind::Tape,
        Join::Cement => JoinKind::Cement,
        Join::Weld => JoinKind::Weld,
    }
}

fn demo(dir: &Path, cancel: &Cancel, bar: &mut Bar) -> Outcome {
    let made = acts::demo(dir, cancel, bar)?;
    let words = words::demo(&made);
    Ok(Answer::yes(&made, words))
}

fn ready() -> Answer {
    let found = acts::ready();
    let words = words::ready(&found);
    let is_yes = found.ready;
    Answer {
        is_yes,
        ..Answer::yes(&found, words)
    }
}

fn backup(dir: &Path, file: &Path, cancel: &Cancel, bar: &mut Bar) -> Outcome {
    let made = acts::backup(dir, file, cancel, bar)?;
    let words = words::backed_up(&made);
    Ok(Answer::yes(&made, words))
}

fn restore(file: &Path, dir: &Path, cancel: &Cancel, bar: &mut Bar) -> Outcome {
    let found = acts::restore(file, dir, cancel, bar)?;
    let words = words::restored(&found);
    let is_yes = found.ok;
    Ok(Answer {
        is_yes,
        ..Answer::yes(&found, words)
    })
}

fn reckon(given: &Reckon) -> Outcome {
    let request = acts::ReckonRequest {
        quantity: given.quantity.parse()?,
        gauge: given.gauge.parse()?,
        speed: given.speed.parse()?,
        shrinkage: given.shrinkage.as_deref().map(str::parse).transpose()?,
        track: given.sound.as_deref().map(str::parse).transpose()?,
        hub_mm: given.hub,
        thickness_mm: given.thickness,
        flange_mm: given.flange,
    };
    let found = acts::reckon(&request)?;
    let words = words::reckon(&found, &request);
    Ok(Answer::yes(&found, words))
}

fn read(given: Read, cancel: &Cancel, bar: &mut Bar) -> Outcome {
    let request = acts::ReadRequest {
        files: given.files,
        gauge: given.gauge.as_deref().map(str::parse).transpose()?,
        film_speed: given.film_speed.as_deref().map(str::parse).transpose()?,
        measured: given.measured.as_deref().map(str::parse).transpose()?,
        shrinkage: given.shrinkage.as_deref().map(str::parse).transpose()?,
        frames_dir: given.frames_dir,
        unslit: given.unslit.map(|side| acts::Unslit {
            first_is_left: side == SideWord::Left,
            down: given.down,
        }),
    };
    let found = acts::read_scan(&request, cancel, bar)?;
    let mut words = words::read(&found);
    if let Some((dir, _)) = request.frames_dir.as_ref().zip(request.unslit) {
        words.push_str(&words::parted(dir));
    }
    Ok(Answer::yes(&found, words))
}

fn roll(command: Roll, cancel: &Cancel, bar: &mut Bar) -> Outcome {
    match command {
        Roll::Add(given) => roll_add(given, cancel, bar),
        Roll::Paper(given) => roll_paper(given, cancel, bar),
        Roll::Inspect(given) => in_the_hand::inspect(&given, cancel, bar),
        Roll::Join(given) => in_the_hand::join(&given, cancel, bar),
        Roll::Edge(given) => edge_numbers::edge(&given, cancel, bar),
        Roll::Run(given) => runs::run(&given, cancel, bar),
        Roll::Handled(given) => runs::handled(&given, cancel, bar),
        Roll::Runs(given) => runs::runs(&given, cancel, bar),
        Roll::Halves(given) => in_the_hand::halves(&given, cancel, bar),
        Roll::Slit(given) => in_the_hand::slit(&given, cancel, bar),
        Roll::Again { dir, roll } => {
            let production = open(&dir, cancel, bar)?;
            let names = match roll {
                Some(name) => vec![name],
                None => roll_names(&production)?,
            };
            let again = |name: &String| acts::read_again(&production, name, cancel, bar);
            let rolls: Vec<_> = names.iter().map(again).collect::<Result<_, _>>()?;
            let words = words::read_again(&rolls);
            Ok(Answer::yes(&json!({ "rolls": rolls }), words))
        }
        Roll::Moved { dir, roll, files } => {
            let mut production = open(&dir, cancel, bar)?;
            let roll = acts::scans_moved(&mut production, &roll, &files, cancel, bar)?;
            let words = words::rolls(std::slice::from_ref(&roll));
            Ok(Answer::yes(&roll, words))
        }
        Roll::List { dir } => {
            let production = open(&dir, cancel, bar)?;
            let rolls = acts::list_rolls(&production)?;
            let words = words::rolls(&rolls);
            Ok(Answer::yes(&json!({ "rolls": rolls }), words))
        }
    }
}

fn roll_names(production: &Production) -> Result<Vec<String>, ProductionError> {
    let rolls = acts::list_rolls(production)?;
    Ok(rolls.into_iter().map(|one| one.roll).collect())
}

fn roll_add(given: RollAdd, cancel: &Cancel, bar: &mut Bar) -> Outcome {
    let mut production = open(&given.dir, cancel, bar)?;
    let request = acts::AddRoll {
        roll: given.roll.unwrap_or_default(),
        files: given.files,
        gauge: given.gauge,
        film_speed: given.film_speed,
        base: word(given.state.base),
        measured: given.measured,
        shrinkage: given.shrinkage,
        wind: given.state.wind.map(word),
        fit: word(given.state.fit),
    };
    if !given.each.is_empty() {
        let read = acts::add_rolls(&mut production, &given.each, &request, cancel, bar)?;
        let words = words::shelf(&read);
        let is_yes = read.is_whole();
        return Ok(Answer {
            is_yes,
            ..Answer::yes(&read, words)
        });
    }
    let roll = acts::add_roll(&mut production, &request, cancel, bar)?;
    let words = words::rolls(std::slice::from_ref(&roll));
    Ok(Answer::yes(&roll, words))
}

fn roll_paper(given: RollPaper, cancel: &Cancel, bar: &mut Bar) -> Outcome {
    let mut production = open(&given.dir, cancel, bar)?;
    let paper = acts::PaperRoll {
        roll: given.roll,
        frames: given.frames,
        gauge: given.gauge,
        base: word(given.state.base),
        fit: word(given.state.fit),
        wind: given.state.wind.map(word),
    };
    let roll = acts::add_paper_roll(&mut production, &paper)?;
    let words = words::rolls(std::slice::from_ref(&roll));
    Ok(Answer::yes(&roll, words))
}

fn log(command: Log, cancel: &Cancel, bar: &mut Bar) -> Outcome {
    match command {
        Log::Import {
            dir,
            file,
            roll,
            counter,
        } => {
            let mut production = open(&dir, cancel, bar)?;
            let reading = acts::LogReading {
                roll,
                counted: counter.map(counted_in),
            };
            let done = acts::import_log(&mut production, &file, &reading)?;
            let words = words::log_imported(&done);
            Ok(Answer::yes(&done, words))
        }
        Log::Export { dir } => {
            let production = open(&dir, cancel, bar)?;
            let csv = acts::export_log(&production)?;
            Ok(Answer::yes(&json!({ "csv": csv }), csv))
        }
    }
}

const fn counted_in(word: CounterWord) -> acts::CountedIn {
    match word {
        CounterWord::Feet => acts::CountedIn::Feet,
        CounterWord::Frames => acts::CountedIn::Frames,
        CounterWord::Seconds => acts::CountedIn::Seconds,
    }
}

fn check(dir: &Path, cut: &str, join: Option<Join>, cancel: &Cancel, bar: &mut Bar) -> Outcome {
    let production = open(dir, cancel, bar)?;
    let found = acts::check_cut(&production, cut, join.map(join_kind))?;
    let words = words::check(&found, production.meta());
    let is_yes = found.ok;
    Ok(Answer {
        is_yes,
        ..Answer::yes(&found, words)
    })
}

fn undo(dir: &Path, cancel: &Cancel, bar: &mut Bar) -> Outcome {
    let mut production = open(dir, cancel, bar)?;
    let words = production.undo()?;
    Ok(Answer::yes(
        &json!({ "undone": words }),
        format!("taken back: {words}"),
    ))
}

fn redo(dir: &Path, cancel: &Cancel, bar: &mut Bar) -> Outcome {
    let mut production = open(dir, cancel, bar)?;
    let words = production.redo()?;
    Ok(Answer::yes(
        &json!({ "redone": words }),
        format!("made again: {words}"),
    ))
}

fn journal(dir: &Path, most: u32, cancel: &Cancel, bar: &mut Bar) -> Outcome {
    let production = open(dir, cancel, bar)?;
    let lines: Vec<_> = production.journal(most)?;
    let document: Vec<_> = lines
        .iter()
        .map(|l| json!({ "seq": l.seq, "at": l.at, "words": l.words, "state": l.state }))
        .collect();
    let words: Vec<String> = lines
        .iter()
        .map(|l| format!("{:>5}  {}  {:8} {}", l.seq, l.at, l.state, l.words))
        .collect();
    Ok(Answer::yes(
        &json!({ "journal": document }),
        words.join("\n"),
    ))
}

fn jobs(dir: &Path, cancel: &Cancel, bar: &mut Bar) -> Outcome {
    let production = open(dir, cancel, bar)?;
    let jobs = production.jobs()?;
    let document: Vec<_> = jobs
        .iter()
        .map(|j| {
            json!({
                "job": j.id.number(), "kind": j.kind.word(), "words": j.words,
                "state": j.state.word(), "done": j.done, "total": j.total, "problem": j.problem,
            })
        })
        .collect();
    let words: Vec<String> = jobs
        .iter()
        .map(|j| format!("{:>5}  {:11} {}", j.id.number(), j.state.word(), j.words))
        .collect();
    Ok(Answer::yes(&json!({ "jobs": document }), words.join("\n")))
}
