//! Progress on standard error: a bar on a terminal, lines elsewhere.

use std::io::Write;
use std::time::{Duration, Instant};

use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};
use onestrand_production::Progress;

/// The bar.
#[derive(Debug)]
pub(crate) struct Bar {
    bar: ProgressBar,
    words: String,
    /// What is counted.
    unit: &'static str,
    total: Option<u64>,
    begun: Instant,
    spoke: Instant,
}

/// How often a line is written where there is no terminal to draw a bar on.
const LINE_EVERY: Duration = Duration::from_secs(10);

impl Bar {
    pub(crate) fn new() -> Self {
        let bar = ProgressBar::hidden();
        bar.set_draw_target(ProgressDrawTarget::stderr());
        Self {
            bar,
            words: String::new(),
            unit: FRAMES,
            total: None,
            begun: Instant::now(),
            spoke: Instant::now(),
        }
    }
}

const FRAMES: &str = "frames";

impl Drop for Bar {
    fn drop(&mut self) {
        self.bar.finish_and_clear();
    }
}

impl Progress for Bar {
    fn begin(&mut self, words: &str, total: Option<u64>) {
        self.begin_in(FRAMES, words, total);
    }

    fn begin_in(&mut self, unit: &'static str, words: &str, total: Option<u64>) {
        self.unit = unit;
        let form = match total {
            Some(_) => {
                format!(
                    "{{msg}}: {{human_pos}} of {{human_len}} {unit}, about {{eta}} left {{wide_bar}}"
                )
            }
            None => format!("{{msg}}: {{human_pos}} {unit} {{wide_bar}}"),
        };
        if let Ok(style) = ProgressStyle::with_template(&form) {
            self.bar.set_style(style);
        }
        self.bar.set_length(total.unwrap_or(0));
        self.bar.set_position(0);
        self.bar.reset_eta();
        self.bar.set_message(words.to_owned());
        words.clone_into(&mut self.words);
        self.total = total.filter(|n| *n > 0);
        self.begun = Instant::now();
        self.spoke = self.begun;
    }

    fn at(&mut self, frames: u64) {
        self.bar.set_position(frames);
        if self.bar.is_hidden() && self.spoke.elapsed() >= LINE_EVERY {
            self.spoke = Instant::now();
            let line = line(
                (&self.words, self.unit),
                frames,
                self.total,
                self.begun.elapsed(),
            );
            self.note(&line);
        }
    }

    fn note(&mut self, words: &str) {
        if self.bar.is_hidden() {
            let _gone = writeln!(std::io::stderr().lock(), "{words}");
        } else {
            self.bar.println(words);
        }
    }
}

/// The bar in words: done, in all, and the time left at the speed so far.
fn line((words, unit): (&str, &str), done: u64, total: Option<u64>, taken: Duration) -> String {
    let Some(total) = total.filter(|total| *total >= done && done > 0) else {
        return format!("{words}: {} {unit}", crate::words::counted(done));
    };
    let left = taken.mul_f64((total - done) as f64 / done as f64);
    format!(
        "{words}: {} of {} {unit}, about {} s left",
        crate::words::counted(done),
        crate::words::counted(total),
        left.as_secs()
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_time_left_follows_from_the_time_taken() {
        let taken = Duration::from_secs(20);
        let said = line(("reading", FRAMES), 1_200, Some(3_600), taken);
        assert_eq!(said, "reading: 1,200 of 3,600 frames, about 40 s left");
        assert_eq!(
            line(("reading", "samples"), 7, None, taken),
            "reading: 7 samples"
        );
        assert_eq!(
            line(("reading", FRAMES), 9, Some(8), taken),
            "reading: 9 frames"
        );
    }
}
