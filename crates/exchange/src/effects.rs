//! Effects: what a bench cannot make, kept so that the strand check can say so.

use onestrand_cut::Effect;
use serde_json::{Value, json};

use crate::place_in_file::{Node, Object};
use crate::schema;

/// What the effects of one clip come to.
#[derive(Debug, Default)]
pub(crate) struct EffectsRead {
    /// The first that has a word of ours.
    pub(crate) effect: Option<Effect>,
    /// Those that have none, by their names: left out.
    pub(crate) left_out: Vec<String>,
    /// Words about those that came from elsewhere.
    pub(crate) told: Vec<String>,
}

/// An effect as the standard has it. A speed without a figure is only named:
/// our cut says that one was asked for, not which.
pub(crate) fn written(effect: Effect) -> Value {
    let (schema, scalar) = match effect {
        Effect::Freeze => (schema::FREEZE, Some(0.0)),
        Effect::Reverse => (schema::TIME_WARP, Some(-1.0)),
        Effect::Speed => (schema::TIME_EFFECT, None),
        Effect::Fade => (schema::EFFECT, None),
    };
    let mut object = json!({
        schema::SCHEMA: schema,
        "metadata": { schema::OURS: { "effect": effect.word() } },
        "name": effect.word(),
        "effect_name": effect.word(),
    });
    if let Some(scalar) = scalar {
        object["time_scalar"] = json!(scalar);
    }
    object
}

/// The effects of a clip or a gap.
pub(crate) fn read(object: &Object<'_>) -> EffectsRead {
    let mut read = EffectsRead::default();
    for effect in object.items("effects").iter().filter_map(|n| n.object()) {
        let ours = effect.ours().and_then(|ours| ours.text("effect"));
        if let Some(known) = ours.as_deref().and_then(by_word) {
            read.effect = read.effect.or(Some(known));
            continue;
        }
        match of_others(&effect) {
            OfOthers::Nothing => {}
            OfOthers::Known(known, words) => {
                read.effect = read.effect.or(Some(known));
                read.told.push(words);
            }
            OfOthers::Unknown(name) => read.left_out.push(name),
        }
    }
    read
}

enum OfOthers {
    Nothing,
    Known(Effect, String),
    Unknown(String),
}

fn of_others(effect: &Object<'_>) -> OfOthers {
    let scalar = effect.field("time_scalar").and_then(Node::number);
    let known = |effect, words: &str| OfOthers::Known(effect, words.to_owned());
    match (effect.kind().as_str(), scalar) {
        ("FreezeFrame", _) => known(Effect::Freeze, "a frame is held"),
        ("LinearTimeWarp", Some(s)) if (s - 1.0).abs() < 1e-9 => OfOthers::Nothing,
        ("LinearTimeWarp", Some(s)) if s.abs() < 1e-9 => known(Effect::Freeze, "a frame is held"),
        ("LinearTimeWarp", Some(s)) if s < 0.0 => known(Effect::Reverse, "shown backwards"),
        ("LinearTimeWarp", Some(s)) => {
            let words = format!("shown at {} times its speed", crate::counting::decimal(s));
            OfOthers::Known(Effect::Speed, words)
        }
        ("LinearTimeWarp" | "TimeEffect", _) => known(Effect::Speed, "shown at another speed"),
        (kind, _) => {
            let name = effect.text("effect_name").filter(|n| !n.is_empty());
            let name = name.or_else(|| effect.text("name").filter(|n| !n.is_empty()));
            let name = name.unwrap_or_else(|| kind.to_owned());
            match name.to_ascii_lowercase() {
                name if name.contains("fade") => known(Effect::Fade, "a fade"),
                _ => OfOthers::Unknown(name),
            }
        }
    }
}

fn by_word(word: &str) -> Option<Effect> {
    Effect::ALL.into_iter().find(|e| e.word() == word)
}
