#![doc = include_str!("../README.md")]
#![deny(missing_docs)]

mod browse;
mod cancel;
mod chain;
mod container;
mod decode;
mod error;
mod facts;
mod fetch;
mod ffmpeg;
mod fingerprint;
mod guard;
mod index;
mod lines;
mod mpjpeg;
mod picture_header;
mod pixel;
mod plane;
pub mod process;
mod read;
mod sequence;
mod showinfo;
mod sound;
mod source;
mod stamp;
mod warning;

pub use browse::BrowseSize;
pub use cancel::Cancel;
pub use container::Container;
pub use error::IntakeError;
pub use facts::{FirstField, Ratio, StreamFacts};
pub use fetch::{FetchEnd, FetchOptions, Form, FullFrame, fetch};
pub use ffmpeg::{Ffmpeg, Version};
pub use fingerprint::Fingerprint;
pub use index::{FrameIndex, IndexRow};
pub use picture_header::PictureKind;
pub use pixel::PixelLayout;
pub use plane::{Plane, PlaneHash};
pub use read::{FileFrame, Making, ReadEnd, ReadOptions, read};
pub use sequence::{Sequence, SequencePicture};
pub use sound::{SoundFacts, SoundRead, SoundSink, read_sound};
pub use source::{Source, SourceKind};
pub use warning::Warning;
