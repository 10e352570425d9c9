//! Reads the scans named on the command line and prints what was found.
#![allow(clippy::print_stdout, clippy::print_stderr)]

use std::ops::ControlFlow;
use std::path::PathBuf;

use onestrand_intake::{Cancel, Ffmpeg, ReadOptions, Source, read};

fn main() {
    let ffmpeg = Ffmpeg::locate().unwrap_or_else(|error| panic!("{error}; {}", error.hint()));
    for path in std::env::args_os().skip(1).map(PathBuf::from) {
        let opened = Source::open(&ffmpeg, std::slice::from_ref(&path));
        let (source, warnings) = match opened {
            Ok(opened) => opened,
            Err(error) => {
                println!(
                    "{}: {} [{}] {}",
                    path.display(),
                    error,
                    error.code(),
                    error.hint()
                );
                continue;
            }
        };
        println!("{}: {}", path.display(), source.describe());
        let (mut keys, mut bytes) = (0, 0);
        let end = read(
            &ffmpeg,
            &source,
            &ReadOptions::default(),
            &Cancel::new(),
            &mut |frame| {
                keys += u64::from(frame.key);
                bytes += frame.jpeg.len();
                ControlFlow::Continue(())
            },
        );
        match end {
            Ok(end) => {
                println!(
                    "  frames={} keys={keys} jpeg bytes={bytes} time base {:?}",
                    end.frames, end.time_base
                );
                for warning in warnings.iter().chain(&end.warnings) {
                    println!("  {warning} [{}]", warning.code());
                }
            }
            Err(error) => println!("  {error} [{}] {}", error.code(), error.hint()),
        }
    }
}
