//! What is to be set: templates, data, pictures.

use std::fmt;

use crate::TypesetError;

/// The most pictures one job may carry.
///
/// Unit: pictures. The engine can tell 65,535 file names apart in the whole
/// run of a program (README, I6); this leaves it room. A form of 300 pieces
/// with two pictures each needs 600.
pub const MOST_PICTURES: usize = 20_000;

/// The name under which a template finds a picture of its job.
///
/// Made by [`Job::picture`] alone, so that names stay few (README, I6). Print
/// it into the data; the template hands it to `image`.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct PictureName(String);

impl PictureName {
    /// The name as text, such as `picture-17.jpg`.
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl fmt::Display for PictureName {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

/// Everything one PDF is made of, all in memory.
///
/// Names of templates are fixed in the program (`&'static str`) on purpose:
/// see invariant I6 of the README.
#[derive(Clone, Default)]
pub struct Job {
    pub(crate) main: &'static str,
    pub(crate) templates: Vec<(&'static str, &'static str)>,
    pub(crate) data: Vec<u8>,
    pub(crate) pictures: Vec<(PictureName, Vec<u8>)>,
}

impl Job {
    /// A job with its main template: the file name that errors shall give, and
    /// the text.
    ///
    /// The data are an empty JSON object until [`Job::data`] sets others.
    pub fn new(name: &'static str, text: &'static str) -> Self {
        Self {
            main: name,
            templates: vec![(name, text)],
            data: b"{}".to_vec(),
            pictures: Vec::new(),
        }
    }

    /// Adds a template that others may import by `name`.
    #[must_use]
    pub fn template(mut self, name: &'static str, text: &'static str) -> Self {
        self.templates.push((name, text));
        self
    }

    /// Sets the data: a JSON document that templates read as `data.json`.
    #[must_use]
    pub fn data(mut self, json: Vec<u8>) -> Self {
        self.data = json;
        self
    }

    /// Adds a picture, the bytes of a JPEG or PNG file, and says what name the
    /// template finds it under.
    ///
    /// # Errors
    /// [`TypesetError::NotAPicture`] when the bytes begin as neither kind does;
    /// [`TypesetError::TooManyPictures`] beyond [`MOST_PICTURES`].
    pub fn picture(&mut self, bytes: Vec<u8>) -> Result<PictureName, TypesetError> {
        let number = self.pictures.len();
        if number >= MOST_PICTURES {
            return Err(TypesetError::TooManyPictures {
                most: MOST_PICTURES,
            });
        }
        let ending = ending_of(&bytes).ok_or(TypesetError::NotAPicture {
            number,
            bytes: bytes.len(),
        })?;
        let name = PictureName(format!("picture-{number}.{ending}"));
        self.pictures.push((name.clone(), bytes));
        Ok(name)
    }
}

impl fmt::Debug for Job {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        // Megabytes of pictures would drown a log.
        f.debug_struct("Job")
            .field("main", &self.main)
            .field("templates", &self.templates.len())
            .field("data_bytes", &self.data.len())
            .field("pictures", &self.pictures.len())
            .finish()
    }
}

/// The file name ending the bytes call for, from their first bytes.
///
/// Source: JPEG begins with the marker SOI, FF D8 (ITU-T T.81, B.1.1.3),
/// followed by another marker; PNG with its eight-byte signature (ISO/IEC
/// 15948, 5.2).
fn ending_of(bytes: &[u8]) -> Option<&'static str> {
    if bytes.starts_with(&[0xff, 0xd8, 0xff]) {
        Some("jpg")
    } else if bytes.starts_with(b"\x89PNG\r\n\x1a\n") {
        Some("png")
    } else {
        None
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn pictures_are_named_by_place_and_kind() {
        let mut job = Job::new("a.typ", "");
        let jpeg = job.picture(vec![0xff, 0xd8, 0xff, 0xe0]).expect("a JPEG");
        let png = job
            .picture(b"\x89PNG\r\n\x1a\n and more".to_vec())
            .expect("a PNG");
        assert_eq!(jpeg.as_str(), "picture-0.jpg");
        assert_eq!(png.as_str(), "picture-1.png");
    }

    #[test]
    fn other_bytes_are_refused_with_their_number() {
        let mut job = Job::new("a.typ", "");
        let refused = job.picture(b"GIF89a".to_vec()).expect_err("no GIF");
        assert_eq!(refused.code(), "typeset.not_a_picture");
        assert!(job.picture(Vec::new()).is_err());
        assert!(job.pictures.is_empty());
    }

    #[test]
    fn the_most_pictures_is_kept() {
        let mut job = Job::new("a.typ", "");
        for _ in 0..MOST_PICTURES {
            job.picture(vec![0xff, 0xd8, 0xff]).expect("room is left");
        }
        let refused = job.picture(vec![0xff, 0xd8, 0xff]).expect_err("full");
        assert_eq!(refused.code(), "typeset.too_many_pictures");
    }
}
