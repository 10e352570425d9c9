//! Printing answers and errors. The only place that speaks on standard output.

use std::error::Error;
use std::io::Write;

use onestrand_production::ProductionError;
use onestrand_production::documents::ConflictDocument;
use serde_json::{Value, json};

use crate::words::conflict_words;

/// What a command has to say.
#[derive(Debug)]
pub(crate) struct Answer {
    /// The document of `--json`.
    pub(crate) document: Value,
    /// The same for a person.
    pub(crate) words: String,
    /// Whether the answer is yes; no is exit 1.
    pub(crate) is_yes: bool,
}

impl Answer {
    pub(crate) fn yes(document: &impl serde::Serialize, words: String) -> Self {
        Self {
            document: serde_json::to_value(document).unwrap_or(Value::Null),
            words,
            is_yes: true,
        }
    }
}

/// Writes to standard output. A reader that went away (`| head`) is no error.
fn put(text: &str) {
    let mut out = std::io::stdout().lock();
    let _gone = writeln!(out, "{text}").and_then(|()| out.flush());
}

pub(crate) fn print(answer: &Answer, json: bool) {
    if json {
        put(&answer.document.to_string());
    } else if !answer.words.is_empty() {
        put(answer.words.trim_end());
    }
}

pub(crate) fn print_error(problem: &ProductionError, json: bool) {
    if json {
        let document = json!({
            "error": {
                "code": problem.code(),
                "message": problem.to_string(),
                "hint": problem.hint(),
                "details": problem.details(),
            }
        });
        put(&document.to_string());
    }
    let mut err = std::io::stderr().lock();
    let _gone = err.write_all(error_words(problem).as_bytes());
}

fn error_words(problem: &ProductionError) -> String {
    let mut text = format!("error: {problem}\n");
    let mut cause = problem.source();
    let mut said = problem.to_string();
    while let Some(inner) = cause {
        let inner_text = inner.to_string();
        if !said.contains(&inner_text) {
            text.push_str(&format!("  because: {inner_text}\n"));
        }
        said = inner_text;
        cause = inner.source();
    }
    if let ProductionError::Import { problems, .. } = problem {
        for p in problems {
            let column = match p.column.as_str() {
                "" => String::new(),
                name => format!(", {name}"),
            };
            text.push_str(&format!("  line {}{column}: {}\n", p.line, p.message));
        }
    }
    if let ProductionError::Plan { source } | ProductionError::Roster { source } = problem {
        for found in source.problems() {
            text.push_str(&format!("  {found}\n"));
        }
    }
    if let ProductionError::CutRefused { conflicts, .. } = problem {
        for conflict in conflicts.iter().map(ConflictDocument::plain) {
            text.push_str(&format!("{}\n", conflict_words(&conflict)));
        }
    }
    text.push_str(&format!("hint: {}\n", problem.hint()));
    text
}
