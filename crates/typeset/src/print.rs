//! The one act of this crate: setting a job, to be kept or to be looked at too.

use typst::diag::{Severity, SourceDiagnostic};
use typst::foundations::Smart;
use typst::{World, WorldExt, comemo};
use typst_layout::PagedDocument;
use typst_pdf::PdfOptions;
use typst_svg::SvgOptions;

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

/// A finished PDF, and its pages as pictures for a screen.
#[derive(Clone, Debug)]
pub struct Printed {
    /// The bytes of the PDF file, the same as [`Typeset`] gives.
    pub pdf: Vec<u8>,
    /// Each page as an SVG document of its own, drawn from the very layout that
    /// the PDF holds. Letters are outlines and pictures lie inside, so nothing
    /// has to be fetched to show it.
    pub pages: Vec<String>,
    /// As [`Typeset::warnings`].
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
    set(job, |document, pdf, warnings| Typeset {
        pdf,
        pages: document.pages().len(),
        warnings,
    })
}

/// Sets a job once, and gives the PDF and its pages to look at.
///
/// # Errors
/// As [`typeset`].
pub fn print(job: Job) -> Result<Printed, TypesetError> {
    let options = SvgOptions::default();
    set(job, |document, pdf, warnings| Printed {
        pdf,
        pages: document
            .pages()
            .iter()
            .map(|page| typst_svg::svg(page, &options))
            .collect(),
        warnings,
    })
}

/// Lays a job out, writes the PDF, and gives what is made of both.
fn set<Made>(
    job: Job,
    make: impl FnOnce(&PagedDocument, Vec<u8>, Vec<Remark>) -> Made,
) -> Result<Made, TypesetError> {
    let world = JobWorld::new(job);
    let made = lay_out(&world).map(|(document, pdf, warnings)| make(&document, pdf, warnings));
    // The engine remembers every step in case the next job is nearly the same.
    // Ours carry other pictures each time; without this the memory only grows.
    comemo::evict(0);
    made
}

/// Lays the pages out and writes them.
fn lay_out(world: &JobWorld) -> Result<(PagedDocument, Vec<u8>, Vec<Remark>), TypesetError> {
    let compiled = typst::compile::<PagedDocument>(world);
    let document = compiled.output.map_err(|said| refused(world, &said))?;
    let options = PdfOptions {
        // The creator's version number would change the bytes for nothing.
        creator: Smart::Custom(Some("Onestrand".to_owned())),
        timestamp: None,
        ..PdfOptions::default()
    };
    let pdf = typst_pdf::pdf(&document, &options).map_err(|said| refused(world, &said))?;
    let warnings = remarks(world, &compiled.warnings);
    Ok((document, pdf, warnings))
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
