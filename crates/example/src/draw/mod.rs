//! Things cut from paper, each in its own measure, laid wherever asked.

pub(crate) mod ferry;
pub(crate) mod figure;
pub(crate) mod landing;
pub(crate) mod nature;
pub(crate) mod water;
