//! Forms for the dub.

mod chart;
mod drawing;
mod effects;
mod furniture;
mod hand_score;
mod lists;
mod music;
mod passes;
mod tapes;

pub use chart::print_dubbing_chart;
pub use effects::print_effects_list;
pub use hand_score::print_hand_score;
pub use music::print_music_list;
pub use passes::print_mix_log;
pub use tapes::print_tape_table;
