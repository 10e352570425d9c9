//! The grading card, kept with the production.

use onestrand_light::Points;
use onestrand_store::{Act, Production};

use crate::ProductionError;
use crate::documents::{GradedShot, GradingCard};

/// The name under which it is kept.
pub(crate) const CARD: &str = "grading_card";

/// The grading card as it stands. What a later version of the program wrote in a way that
/// cannot be read here counts as nothing.
///
/// # Errors
/// [`ProductionError::Store`].
pub fn grading_card(production: &Production) -> Result<GradingCard, ProductionError> {
    let text = production.setting(CARD)?;
    let kept = text.and_then(|text| serde_json::from_str(&text).ok());
    Ok(kept.unwrap_or_default())
}

/// The act that keeps it; an empty one is struck off.
pub(super) fn put(mut card: GradingCard) -> Act {
    card.shots
        .sort_by(|a, b| (&a.roll, a.first, a.thrown).cmp(&(&b.roll, b.first, b.thrown)));
    let is_empty = card.shots.is_empty() && card.patches.is_empty();
    Act::PutSetting {
        name: CARD.to_owned(),
        value: if is_empty {
            None
        } else {
            serde_json::to_string(&card).ok()
        },
    }
}

/// The light a frame is given: by the shortest stretch that holds it.
#[must_use]
pub fn light_of_frame<'a>(card: &'a GradingCard, roll: &str, frame: u32) -> Option<&'a GradedShot> {
    card.shots
        .iter()
        .filter(|shot| shot.roll == roll && (shot.first..shot.thrown).contains(&frame))
        .min_by_key(|shot| shot.thrown - shot.first)
}

/// Its points.
pub(super) fn points_of(shot: &GradedShot) -> Result<Points, ProductionError> {
    Ok(Points::new(shot.red, shot.green, shot.blue)?)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn shot(first: u32, thrown: u32, red: i16) -> GradedShot {
        GradedShot {
            roll: "R1".to_owned(),
            first,
            thrown,
            red,
            green: 0,
            blue: 0,
            reason: String::new(),
        }
    }

    #[test]
    fn the_shorter_stretch_counts() {
        let card = GradingCard {
            shots: vec![shot(0, 100, 1), shot(40, 60, 2)],
            patches: Vec::new(),
        };
        let red = |frame| light_of_frame(&card, "R1", frame).map(|s| s.red);
        assert_eq!(
            [red(39), red(40), red(59), red(60)],
            [Some(1), Some(2), Some(2), Some(1)]
        );
        assert_eq!(red(100), None);
        assert!(light_of_frame(&card, "R2", 50).is_none());
    }
}
