//! Tests of onestrand-cadence as its users see it.

mod blended_transfers;
mod clean_repeats;
mod coded;
mod coded_files;
mod interlaced;
mod machine_faults;
mod real_clips;
mod score;
mod tables;
mod unmixing;
