//! The command for a length in every unit.

use clap::Args;

#[derive(Debug, Args)]
pub(crate) struct Reckon {
    /// 50ft, 37ft60, 2724fr, 2:31.3 or 15.24m.
    pub(crate) quantity: String,
    /// regular8, super8, 9.5, 16 or 35.
    #[arg(long)]
    pub(crate) gauge: String,
    /// Frames a second.
    #[arg(long, default_value = "18")]
    pub(crate) speed: String,
    /// Shrinkage in per cent, if measured.
    #[arg(long)]
    pub(crate) shrinkage: Option<String>,
    /// magnetic or optical.
    #[arg(long)]
    pub(crate) sound: Option<String>,
    /// Diameter of the hub in mm.
    #[arg(long)]
    pub(crate) hub: Option<f64>,
    /// Thickness of the film in mm.
    #[arg(long)]
    pub(crate) thickness: Option<f64>,
    /// Diameter of the reel in mm: says what it holds.
    #[arg(long)]
    pub(crate) flange: Option<f64>,
}
