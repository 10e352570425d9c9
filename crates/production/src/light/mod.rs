//! The light of the shots, and what makes a finish look calm.

mod card;
mod change;
mod decision_list;
mod frames;
mod lit;
mod measure;
mod solve;
mod treatment;

pub use card::{grading_card, light_of_frame};
pub use change::{LightChange, LightChangeKind};
pub use decision_list::{decision_list, points_of_decision_list};
pub use lit::lit_picture;
pub use measure::measure_light;
pub use solve::solve_light;
pub use treatment::{TreatedPlaces, Treatment, TreatmentChoice, treatment_of};

pub(crate) use card::CARD;
