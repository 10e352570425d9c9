//! A pass of the mix as it is kept: what the mix log has in a row.

use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

/// Whether a pass is kept.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, ToSchema)]
#[serde(rename_all = "snake_case")]
pub enum PassKeptWord {
    /// Not decided.
    #[default]
    Open,
    /// Kept.
    Kept,
    /// Given up.
    GivenUp,
}

/// Something that went wrong in a pass.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize, ToSchema)]
pub struct PassFaultWords {
    /// The running frame at which it was heard, counted from 0.
    pub at: u32,
    /// What it was, such as `door late`; may be empty.
    #[serde(default)]
    #[schema(required = true)]
    pub what: String,
}

/// A pass of the mix.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize, ToSchema)]
pub struct PassWords {
    /// Its number or name.
    pub pass: String,
    /// The version that ran.
    #[serde(default)]
    #[schema(required = true)]
    pub cut: String,
    /// The running frame at which recording began, counted from 0; negative in the leader.
    #[serde(default)]
    #[schema(required = true)]
    pub start: i64,
    /// The speed that was found on this pass: frames a second, such as `18.31`; empty where
    /// it was not measured.
    #[serde(default)]
    #[schema(required = true)]
    pub speed: String,
    /// What went wrong, in the order of the film.
    #[serde(default)]
    #[schema(required = true)]
    pub faults: Vec<PassFaultWords>,
    /// Whether it is kept.
    #[serde(default)]
    #[schema(required = true)]
    pub keep: PassKeptWord,
}
