//! Whose a sound is. Two rights lie in a recorded piece, and they are asked for apart.

use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

/// How one of the rights in a sound stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, ToSchema)]
#[serde(rename_all = "snake_case")]
pub enum RightStateWord {
    /// Nobody has found out.
    #[default]
    NotKnown,
    /// Asked for; there is no answer yet.
    Asked,
    /// Granted.
    Granted,
    /// Nobody need be asked: our own, given away by its maker, or its term is over.
    NotNeeded,
    /// Refused.
    Refused,
}

impl RightStateWord {
    /// Whether the sound may be used as far as this right goes.
    #[must_use]
    pub const fn is_clear(self) -> bool {
        matches!(self, Self::Granted | Self::NotNeeded)
    }
}

/// Whose a sound is: the right in the work, and the right in the recording of it.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize, ToSchema)]
#[serde(from = "RightsFound")]
pub struct RightsWords {
    /// Who wrote it: composer, words.
    #[schema(required = true)]
    pub author: String,
    /// Who must be asked for the work: the writer, a publisher, a society of authors.
    #[schema(required = true)]
    pub holder: String,
    /// How the right in the work stands.
    #[schema(required = true)]
    pub work: RightStateWord,
    /// Who plays, speaks or recorded it.
    #[schema(required = true)]
    pub performer: String,
    /// Who must be asked for the recording: the player, a label, a sound library.
    #[schema(required = true)]
    pub label: String,
    /// How the right in the recording stands.
    #[schema(required = true)]
    pub recorded: RightStateWord,
    /// Under what it may be used, in the user's words.
    #[schema(required = true)]
    pub licence: String,
    /// It may be used: both rights are granted or not needed. Films kept before the two were
    /// told apart have only this; it then stands for both. It is worked out when it is read.
    #[schema(required = true)]
    pub cleared: bool,
}

/// The same as it may be found in a film: older ones say less.
#[derive(Default, Deserialize)]
#[serde(default)]
struct RightsFound {
    author: String,
    holder: String,
    work: Option<RightStateWord>,
    performer: String,
    label: String,
    recorded: Option<RightStateWord>,
    licence: String,
    cleared: bool,
}

impl From<RightsFound> for RightsWords {
    fn from(found: RightsFound) -> Self {
        // One word stood for both rights: what it said is true of each.
        let told_apart = found.work.is_some() || found.recorded.is_some();
        let before = match found.cleared && !told_apart {
            true => RightStateWord::Granted,
            false => RightStateWord::NotKnown,
        };
        let (work, recorded) = (
            found.work.unwrap_or(before),
            found.recorded.unwrap_or(before),
        );
        Self {
            author: found.author,
            holder: found.holder,
            work,
            performer: found.performer,
            label: found.label,
            recorded,
            licence: found.licence,
            cleared: work.is_clear() && recorded.is_clear(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str) -> RightsWords {
        serde_json::from_str(text).expect("rights")
    }

    #[test]
    fn a_film_kept_before_the_two_were_told_apart_still_says_what_it_said() {
        let was = r#"{"author":"A. Reed","holder":"nobody","licence":"ours","cleared":true}"#;
        let found = read(was);
        assert_eq!(
            (found.work, found.recorded),
            (RightStateWord::Granted, RightStateWord::Granted)
        );
        assert_eq!(
            (found.author.as_str(), found.cleared, found.label.as_str()),
            ("A. Reed", true, "")
        );
        let open = read(r#"{"author":"A. Reed","cleared":false}"#);
        assert_eq!(open.work, RightStateWord::NotKnown);
        assert_eq!(read("{}"), RightsWords::default());
    }

    #[test]
    fn one_right_alone_clears_nothing() {
        let half = read(r#"{"work":"not_needed","recorded":"asked","cleared":true}"#);
        assert!(!half.cleared);
        let both = read(r#"{"work":"not_needed","recorded":"granted","cleared":false}"#);
        assert!(both.cleared);
        let again = serde_json::to_string(&both).expect("text");
        assert_eq!(read(&again), both);
        // What is said of one right is not taken for the other.
        let one = read(r#"{"work":"granted","cleared":true}"#);
        assert_eq!(one.recorded, RightStateWord::NotKnown);
    }
}
