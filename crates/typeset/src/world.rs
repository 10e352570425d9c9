//! The whole world a template can see: the files of its job and our faces.

use std::collections::HashMap;
use std::path::PathBuf;
use std::sync::LazyLock;

use typst::diag::{FileError, FileResult};
use typst::foundations::{Bytes, Datetime, Duration};
use typst::syntax::{FileId, RootedPath, Source, VirtualPath, VirtualRoot};
use typst::text::{Font, FontBook};
use typst::utils::LazyHash;
use typst::{Library, LibraryExt, World};

use crate::Job;
use crate::faces::FACES;

/// The name every template reads its data under.
const DATA: &str = "data.json";

/// The engine's functions, built once: the same for every job.
static LIBRARY: LazyLock<LazyHash<Library>> =
    LazyLock::new(|| LazyHash::new(Library::builder().build()));

/// One job as the engine wants it.
pub(crate) struct JobWorld {
    main: FileId,
    sources: HashMap<FileId, Source>,
    files: HashMap<FileId, Bytes>,
}

impl JobWorld {
    /// Parses the templates and takes the bytes over.
    pub(crate) fn new(job: Job) -> Self {
        let sources: HashMap<FileId, Source> = job
            .templates
            .iter()
            .map(|(name, text)| {
                let id = file_id(name);
                (id, Source::new(id, (*text).to_owned()))
            })
            .collect();
        let mut files: HashMap<FileId, Bytes> = job
            .pictures
            .into_iter()
            .map(|(name, bytes)| (file_id(name.as_str()), Bytes::new(bytes)))
            .collect();
        files.insert(file_id(DATA), Bytes::new(job.data));
        Self {
            main: file_id(job.main),
            sources,
            files,
        }
    }
}

/// The engine's handle for a file of the job.
fn file_id(name: &str) -> FileId {
    let path = VirtualPath::new(name).expect("names are plain file names, fixed in the program");
    RootedPath::new(VirtualRoot::Project, path).intern()
}

/// "There is no such file", naming it.
fn not_given(id: FileId) -> FileError {
    FileError::NotFound(PathBuf::from(id.get().vpath().get_without_slash()))
}

impl World for JobWorld {
    fn library(&self) -> &LazyHash<Library> {
        &LIBRARY
    }

    fn book(&self) -> &LazyHash<FontBook> {
        &FACES.book
    }

    fn main(&self) -> FileId {
        self.main
    }

    fn source(&self, id: FileId) -> FileResult<Source> {
        self.sources.get(&id).cloned().ok_or_else(|| not_given(id))
    }

    fn file(&self, id: FileId) -> FileResult<Bytes> {
        self.files.get(&id).cloned().ok_or_else(|| not_given(id))
    }

    fn font(&self, index: usize) -> Option<Font> {
        FACES.fonts.get(index).cloned()
    }

    // No clock: the same job must give the same sheet next year.
    fn today(&self, _offset: Option<Duration>) -> Option<Datetime> {
        None
    }
}
