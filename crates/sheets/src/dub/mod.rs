//! Paper for the dub: chart, effects, hands, tapes, passes, music and rights.

mod chart;
mod effects;
mod hands;
mod music;
mod passes;
mod tapes;

pub use chart::{
    CueAnchor, CueShape, CueStanding, DubColumn, DubCue, DubEcho, DubShot, DubbingChart, LevelPoint,
};
pub use effects::{EffectPlace, EffectRow, EffectsList};
pub use hands::{HandMove, HandScore};
pub use music::{MusicList, MusicRow, RightsStanding};
pub use passes::{MixLog, MixPass, PassKept};
pub use tapes::{TapeCount, TapeTable};
