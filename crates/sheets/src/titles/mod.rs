//! Paper for titles: lists, exposure sheets, the copy stand, and pages of true size.

mod exposure;
mod stand_drawing;
mod title_list;
mod true_size;

pub use exposure::{TitleExposureRow, TitleExposureSheet};
pub use stand_drawing::{StandDrawing, StandLamp};
pub use title_list::{TitleList, TitleListRow};
pub use true_size::{TitleCel, TitleFieldChart, TrueSizeHead};
