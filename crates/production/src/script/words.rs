//! From what is kept to what is handed out, and back.

use onestrand_store::{
    ActionRecord, FloorPlanRecord, PlanCameraRecord, PlanLineRecord, PlanMarkRecord, RecceRecord,
    SceneRecord, SetupRecord, ShownRecord, WildSoundRecord,
};

use crate::documents::{
    ActionWords, FloorPlanWords, PlanCameraWords, PlanLineWords, PlanMarkWords, RecceWords,
    SceneWords, SetupWords, ShownWords, WildSoundWords,
};

/// Says once which fields two shapes share, and turns each into the other.
macro_rules! same_shape {
    ($record:ident, $words:ident { $($plain:ident),* } $({ $($list:ident),* })?) => {
        impl From<$record> for $words {
            fn from(it: $record) -> Self {
                Self {
                    $($plain: it.$plain,)*
                    $($($list: it.$list.into_iter().map(Into::into).collect(),)*)?
                }
            }
        }
        impl From<$words> for $record {
            fn from(it: $words) -> Self {
                Self {
                    $($plain: it.$plain,)*
                    $($($list: it.$list.into_iter().map(Into::into).collect(),)*)?
                }
            }
        }
    };
}

same_shape!(
    ActionRecord,
    ActionWords {
        name,
        text,
        speaker
    }
);
same_shape!(SceneRecord, SceneWords { number, heading, note } { actions });
same_shape!(ShownRecord, ShownWords { action, off_camera });
same_shape!(SetupRecord, SetupWords {
    name, scene, size, movement, action, sound, mover, direction, cast, props, seconds, takes, dissolve, note
} { shown });
same_shape!(
    WildSoundRecord,
    WildSoundWords {
        sound,
        place,
        seconds,
        distance,
        got,
        note
    }
);
same_shape!(
    RecceRecord,
    RecceWords {
        place,
        scenes,
        words,
        photograph
    }
);
same_shape!(PlanLineRecord, PlanLineWords { points, words });
same_shape!(
    PlanCameraRecord,
    PlanCameraWords {
        setup,
        at,
        looks,
        lens
    }
);
same_shape!(PlanMarkRecord, PlanMarkWords { words, at, goes_to });
same_shape!(FloorPlanRecord, FloorPlanWords {
    name, scenes, width, height, north, latitude, longitude, day, utc_offset, line_of_action
} { lines, cameras, marks });
