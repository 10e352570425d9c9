//! Bags written here, read here and by the reference validator.

mod checked;
mod reference_validator;
