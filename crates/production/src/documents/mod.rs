//! The documents both faces of the program hand out. Names and fields are
//! settled in the command reference; fields are added, never renamed.
//!
//! They describe themselves for the API description too, so that the page's
//! types are made from what is really sent.

mod archive;
mod bench;
mod bench_room;
mod bench_write;
mod camera;
mod camera_light;
mod check;
mod compared;
mod cut;
mod dub;
mod dub_words;
mod evidence;
mod film;
mod floor_plan;
mod hearing;
mod inner_joins;
mod inspection;
mod matched;
mod measure;
mod plan;
mod reading;
mod recut;
mod recut_work;
mod reel_plan;
mod remade;
mod roll;
mod roster;
mod runs;
mod script;
mod throw;
mod title_card;
mod title_card_made;
mod title_stand;
mod title_words;
mod titles;

pub use archive::*;
pub use bench::*;
pub use bench_room::*;
pub use bench_write::*;
pub use camera::*;
pub use camera_light::*;
pub use check::*;
pub use compared::*;
pub(crate) use cut::join_kind;
pub use cut::*;
pub use dub::*;
pub use dub_words::*;
pub use evidence::*;
pub use film::*;
pub use floor_plan::*;
pub use hearing::*;
pub use inner_joins::*;
pub use inspection::*;
pub(crate) use matched::decimal;
pub use matched::*;
pub use measure::*;
pub use plan::*;
pub use reading::*;
pub use recut::*;
pub use recut_work::*;
pub use reel_plan::*;
pub use remade::*;
pub use roll::*;
pub use roster::*;
pub use runs::*;
pub use script::*;
pub use throw::*;
pub use title_card::*;
pub use title_card_made::*;
pub use title_stand::*;
pub use title_words::*;
pub use titles::*;
