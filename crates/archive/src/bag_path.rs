//! A path in a bag: never one that leads out of it.

use std::fmt;
use std::path::{Path, PathBuf};

use crate::ArchiveError;

/// A path from the top folder of a bag, with `/` between its parts, as manifests have it.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct BagPath(String);

/// The folder of the payload.
const DATA: &str = "data/";

impl BagPath {
    /// A path such as `data/scans/R1.mkv`.
    ///
    /// # Errors
    /// [`ArchiveError::Path`] for one that is absolute, has an empty part or `.` or `..`,
    /// or a sign that no file name has.
    pub fn new(path: &str) -> Result<Self, ArchiveError> {
        let wrong = |why| ArchiveError::Path {
            path: path.to_owned(),
            why,
        };
        if path.is_empty() || path.contains('\0') {
            return Err(wrong("it is empty, or has a sign that no file name has"));
        }
        for part in path.split('/') {
            match part {
                "" => return Err(wrong("it is absolute, or has an empty part")),
                "." | ".." => return Err(wrong("it leads elsewhere")),
                _ => {}
            }
        }
        Ok(Self(path.to_owned()))
    }

    /// A path of the payload: `data/` stands before it.
    ///
    /// # Errors
    /// As [`BagPath::new`].
    pub fn payload(path: &str) -> Result<Self, ArchiveError> {
        Self::new(path)?;
        Ok(Self(format!("{DATA}{path}")))
    }

    /// Whether it is of the payload.
    #[must_use]
    pub fn is_payload(&self) -> bool {
        self.0.starts_with(DATA)
    }

    /// The path itself.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.0
    }

    /// Where it is in a bag of this folder.
    #[must_use]
    pub fn within(&self, bag: &Path) -> PathBuf {
        bag.join(&self.0)
    }

    /// As it stands in a manifest: a line feed, a carriage return and the per cent sign are
    /// encoded (RFC 8493, 2.1.3), and nothing else.
    pub(crate) fn encoded(&self) -> String {
        self.0
            .replace('%', "%25")
            .replace('\n', "%0A")
            .replace('\r', "%0D")
    }

    /// Out of a manifest. Only those three are decoded: other programs leave a per cent
    /// sign as it is. `./` before it is passed over, as some older programs write it.
    pub(crate) fn decoded(text: &str) -> Result<Self, ArchiveError> {
        let mut plain = String::with_capacity(text.len());
        let mut rest = text.strip_prefix("./").unwrap_or(text);
        while let Some(at) = rest.find('%') {
            let (before, from) = rest.split_at(at);
            plain.push_str(before);
            let code = from.get(..3).unwrap_or_default().to_ascii_uppercase();
            let (sign, taken) = match code.as_str() {
                "%25" => ('%', 3),
                "%0A" => ('\n', 3),
                "%0D" => ('\r', 3),
                _ => ('%', 1),
            };
            plain.push(sign);
            rest = &from[taken..];
        }
        plain.push_str(rest);
        Self::new(&plain)
    }
}

impl fmt::Display for BagPath {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    proptest! {
        #[test]
        fn every_name_comes_back_out_of_a_manifest(name in "[^/\0]{1,20}") {
            prop_assume!(name != "." && name != "..");
            let path = BagPath::payload(&name).expect("a name");
            let line = path.encoded();
            prop_assert!(!line.contains(['\n', '\r']));
            prop_assert_eq!(BagPath::decoded(&line).expect("the same"), path);
        }
    }

    #[test]
    fn no_path_leads_out_of_the_bag() {
        for out in [
            "",
            "/etc/passwd",
            "data/../../x",
            "..",
            "data//x",
            "a\0b",
            "data/.",
        ] {
            assert!(BagPath::new(out).is_err(), "{out:?}");
            assert!(BagPath::decoded(out).is_err(), "{out:?}");
        }
        assert!(
            BagPath::decoded("data/%2e%2e/x").is_ok(),
            "a name like any other"
        );
    }
}
