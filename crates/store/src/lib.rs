#![doc = include_str!("../README.md")]
#![deny(missing_docs)]
