//! Forms for titles.

mod exposure;
mod furniture;
mod stand;
mod title_list;
mod true_size;

pub use exposure::print_exposure_sheet;
pub use stand::print_stand_drawing;
pub use title_list::print_title_list;
pub use true_size::{field_chart_svg, print_field_chart, print_title_cel, title_cel_svg};
