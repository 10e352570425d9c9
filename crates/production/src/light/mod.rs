//! The light of the shots, and what makes a finish look calm.

mod card;
mod change;
mod decision_list;
mod frames;
mod lit;
mod measure;
mod measuring;
mod patch_table;
mod sheet;
mod solve;
mod treatment;

pub use card::{grading_card, light_of_frame};
pub use change::{LightChange, LightChangeKind};
pub use decision_list::{decision_list, points_of_decision_list};
pub use frames::shot_holding;
pub use lit::lit_picture;
pub use measure::measure_light;
pub use patch_table::{patch_typed, read_patches};
pub use sheet::{GRADING_CARD, GradingToPrint, gather_grading, print_grading};
pub use solve::solve_light;
pub use treatment::{TreatedPlaces, Treatment, TreatmentChoice, treatment_of};

pub(crate) use card::CARD;
