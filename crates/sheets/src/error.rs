//! Why a sheet could not be printed.

use onestrand_typeset::TypesetError;

/// Why a sheet could not be printed.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum SheetError {
    /// A small picture could not be read.
    #[error("the small picture of {of} could not be read: {source}")]
    Picture {
        /// The frame's name, such as `R2·547`.
        of: String,
        /// What was wrong with it.
        #[source]
        source: image::ImageError,
    },
    /// The form itself could not be set.
    #[error("the {sheet} could not be printed: {source}")]
    Form {
        /// The form's name.
        sheet: &'static str,
        /// What the typesetting said.
        #[source]
        source: TypesetError,
    },
    /// The data of the form could not be written down.
    #[error("the figures of the {sheet} could not be written down: {source}")]
    Figures {
        /// The form's name.
        sheet: &'static str,
        /// What was wrong.
        #[source]
        source: serde_json::Error,
    },
}

impl SheetError {
    /// The next step, in the user's words.
    pub fn hint(&self) -> &'static str {
        match self {
            Self::Picture { .. } => {
                "read the roll again to make its small pictures anew; the scan itself and the cut \
                 are untouched"
            }
            Self::Form { source, .. } => source.hint(),
            Self::Figures { .. } => {
                "nothing of yours is at fault and nothing was changed; please report this message \
                 with the sheet you asked for"
            }
        }
    }

    /// A stable name of the error, such as `sheets.picture`.
    pub fn code(&self) -> &'static str {
        match self {
            Self::Picture { .. } => "sheets.picture",
            Self::Form { .. } => "sheets.form",
            Self::Figures { .. } => "sheets.figures",
        }
    }
}
