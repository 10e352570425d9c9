//! Progress on standard error: a bar on a terminal, lines elsewhere.

use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};
use onestrand_production::Progress;

/// The bar.
#[derive(Debug)]
pub(crate) struct Bar {
    bar: ProgressBar,
}

impl Bar {
    pub(crate) fn new() -> Self {
        let bar = ProgressBar::hidden();
        bar.set_draw_target(ProgressDrawTarget::stderr());
        Self { bar }
    }
}

impl Drop for Bar {
    fn drop(&mut self) {
        self.bar.finish_and_clear();
    }
}

impl Progress for Bar {
    fn begin(&mut self, words: &str, total: Option<u64>) {
        let form = match total {
            Some(_) => "{msg}: {human_pos} of {human_len} frames, about {eta} left {wide_bar}",
            None => "{msg}: {human_pos} frames {wide_bar}",
        };
        if let Ok(style) = ProgressStyle::with_template(form) {
            self.bar.set_style(style);
        }
        self.bar.set_length(total.unwrap_or(0));
        self.bar.set_position(0);
        self.bar.reset_eta();
        self.bar.set_message(words.to_owned());
    }

    fn at(&mut self, frames: u64) {
        self.bar.set_position(frames);
    }

    fn note(&mut self, words: &str) {
        if self.bar.is_hidden() {
            use std::io::Write;
            let _gone = writeln!(std::io::stderr().lock(), "{words}");
        } else {
            self.bar.println(words);
        }
    }
}
