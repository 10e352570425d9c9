//! The one act of this crate: setting a job.

use typst::diag::{Severity, SourceDiagnostic};
use typst::foundations::Smart;
use typst::{World, WorldExt, comemo};
use typst_layout::PagedDocument;
use typst_pdf::PdfOptions;

use crate::Job;
use crate::error::{Place, Remark, TypesetError};
use crate::world::JobWorld;

/// A finished PDF.
#[derive(Clone, Debug)]
pub struct Typeset {
    /// The bytes of the PDF file (version 1.7, tagged for reading aloud).
    pub pdf: Vec<u8>,
    /// How many pages it has, 1 or more.
    pub pages: usize,
    /// What the engine found odd but could set all the same. Empty for a sound
    /// template; a form's tests should hold it to that.
    pub warnings: Vec<Remark>,
}

/// Sets a job and gives the PDF.
///
/// # Errors
/// As [`typeset`].
///
/// # Examples
/// See the crate's front page.
pub fn pdf(job: Job) -> Result<Vec<u8>, TypesetError> {
    typeset(job).map(|done| done.pdf)
}

/// Sets a job and gives the PDF with its page count and any warnings.
///
/// # Errors
/// [`TypesetError::Template`] with everything the engine said, each remark
/// with template, line and column where it has one.
pub fn typeset(job: Job) -> Result<Typeset, TypesetError> {
    let world = JobWorld::new(job);
    let done = set(&world);
    // The engine remembers every step in case the next job is nearly the same.
    // Ours carry other pictures each time; without this the memory only grows.
    comemo::evict(0);
    done
}

/// Lays the pages out and writes them.
fn set(world: &JobWorld) -> Result<Typeset, TypesetError> {
    let compiled = typst::compile::<PagedDocument>(world);
    let document = compiled.output.map_err(|said| refused(world, &said))?;
    let options = PdfOptions {
        // The creator's version number would change the bytes for nothing.
        creator: Smart::Custom(Some("Onestrand".to_owned())),
        timestamp: None,
        ..PdfOptions::default()
    };
    let pdf = typst_pdf::pdf(&document, &options).map_err(|said| refused(world, &said))?;
    Ok(Typeset {
        pdf,
        pages: document.pages().len(),
        warnings: remarks(world, &compiled.warnings),
    })
}

/// The engine's errors as ours.
fn refused(world: &JobWorld, said: &[SourceDiagnostic]) -> TypesetError {
    TypesetError::Template {
        remarks: remarks(world, said),
    }
}

/// The engine's words, each with its place.
fn remarks(world: &JobWorld, said: &[SourceDiagnostic]) -> Vec<Remark> {
    said.iter().map(|one| remark(world, one)).collect()
}

/// One of the engine's diagnostics in one line.
fn remark(world: &JobWorld, said: &SourceDiagnostic) -> Remark {
    let kind = match said.severity {
        Severity::Error => "error",
        Severity::Warning => "warning",
    };
    let mut text = format!("{kind}: {}", said.message);
    for hint in &said.hints {
        text.push_str(" (hint: ");
        text.push_str(&hint.v);
        text.push(')');
    }
    Remark {
        place: place(world, said),
        text,
    }
}

/// Where a diagnostic points: into a template, or into the data.
fn place(world: &JobWorld, said: &SourceDiagnostic) -> Option<Place> {
    let id = said.span.id()?;
    let range = world.range(said.span)?;
    let lines = match world.source(id) {
        Ok(source) => source.lines().clone(),
        Err(_) => world.file(id).ok()?.lines().ok()?,
    };
    let (line, column) = lines.byte_to_line_column(range.start)?;
    Some(Place {
        file: id.get().vpath().get_without_slash().to_owned(),
        line: line + 1,
        column: column + 1,
    })
}
