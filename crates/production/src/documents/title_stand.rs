//! What the copy stand is reckoned to do for a title.

use serde::Serialize;
use utoipa::ToSchema;

use super::CameraOpenedDocument;

/// How long a title stands.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct TitleHoldDocument {
    /// Its words.
    pub words: usize,
    /// Frames a second, as a fraction.
    pub speed: String,
    /// By the rule. Unit: seconds.
    pub seconds: f64,
    /// The same, rounded up to whole frames.
    pub frames: u32,
    /// As the counter of the gauge shows it, such as `1ft54`; none without a gauge.
    pub footage: Option<String>,
    /// The rule: the least, to settle, and for each word. Unit: seconds.
    pub rule_s: [f64; 3],
    /// Whether it stands longer than a card should.
    pub is_long: bool,
    /// Plates, sums, and the line for the script.
    #[serde(flatten)]
    pub opened: CameraOpenedDocument,
}
