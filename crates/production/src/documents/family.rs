//! Family reels: whose camera, which order, which copy.

use serde::Serialize;
use utoipa::ToSchema;

/// Shots of one or more reels by camera and by stock, and in which order they were taken.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct FamilyDocument {
    /// Every shot that was looked at, reel by reel.
    pub shots: Vec<FamilyShot>,
    /// The cameras.
    pub cameras: Vec<FamilyCamera>,
    /// The stocks.
    pub stocks: Vec<FamilyStock>,
    /// How far two outlines of one gate differ on these scans. Unit: thousandths of the
    /// picture's width.
    pub noise: f64,
    /// Shots on which the scan does not show the gate.
    pub unseen: u32,
    /// Shots too short to be looked at.
    pub too_short: u32,
    /// What was found, in a sentence.
    pub words: String,
    /// What to do next where little could be told; empty otherwise.
    pub hint: String,
}

/// A shot and what it shows of its camera.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct FamilyShot {
    /// The film on the shelf; empty where only one was asked.
    pub film: String,
    /// The roll.
    pub roll: String,
    /// First frame.
    #[serde(rename = "in")]
    pub first: u32,
    /// First frame after.
    #[serde(rename = "out")]
    pub thrown: u32,
    /// Number of its camera among those found; none where the gate is not seen.
    pub camera: Option<u32>,
    /// How probable that is. Range: 0 to 1.
    pub probability: f64,
    /// Whether it is known; otherwise it is a guess.
    pub sure: bool,
    /// The camera it is of otherwise.
    pub otherwise: Option<FamilyOtherwise>,
    /// Number of its stock; none where the border is not seen or too black.
    pub stock: Option<u32>,
    /// How probable that is. Range: 0 to 1.
    pub stock_probability: f64,
    /// Why nothing is known of the camera; empty where something is.
    pub unseen: String,
    /// Hairs and dirt that stand in the gate through the shot.
    pub things: Vec<FamilyThing>,
    /// It begins in fog, as a roll does.
    pub fog_head: bool,
    /// It ends in fog.
    pub fog_tail: bool,
}

/// The camera a shot is of otherwise.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, ToSchema)]
pub struct FamilyOtherwise {
    /// Its number.
    pub camera: u32,
    /// How probable that is. Range: 0 to 1.
    pub probability: f64,
}

/// A hair or dirt at the edge of the gate.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, ToSchema)]
pub struct FamilyThing {
    /// `left`, `right`, `top` or `bottom`.
    pub side: &'static str,
    /// Where along the side, from its middle. Unit: thousandths of the picture's width.
    pub along: f64,
    /// Its length. Unit: thousandths of the picture's width.
    pub length: f64,
}

/// One camera, as its shots show it.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct FamilyCamera {
    /// Its shots, by their place among all.
    pub shots: Vec<u32>,
    /// The outline of its gate, a line for each side: points from the middle of the picture.
    /// Unit: thousandths of the picture's width.
    #[schema(value_type = Vec<Vec<Vec<f64>>>)]
    pub outline: Vec<Vec<[f64; 2]>>,
    /// Height of the picture. Unit: thousandths of its width.
    pub height: f64,
    /// How far its shots' outlines lie from it on the mean. Unit: thousandths.
    pub spread: f64,
    /// How far the nearest other outline lies. Unit: thousandths.
    pub nearest: Option<f64>,
    /// What it rests on, in a sentence.
    pub words: String,
    /// In which order its shots were taken.
    pub order: FamilyOrder,
}

/// One stock, as its border shows it.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct FamilyStock {
    /// Its shots, by their place among all.
    pub shots: Vec<u32>,
    /// Red, green and blue of its unexposed border on the scan. Range: 0 to 255.
    #[schema(value_type = Vec<f64>)]
    pub border: [f64; 3],
}

/// The order of a camera's shots.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct FamilyOrder {
    /// Whether anything speaks about it.
    pub told: bool,
    /// Strips in the likeliest order; the shots of one follow each other on the film, by
    /// their place among all.
    pub strips: Vec<Vec<u32>>,
    /// For each neighbouring pair of strips.
    pub pairs: Vec<FamilyPair>,
    /// What stands in the gate of more than one shot.
    pub things: Vec<FamilyGrowth>,
    /// What was found, in a sentence.
    pub words: String,
}

/// Two neighbours in an order.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct FamilyPair {
    /// How probable it is that the first was taken before the second. Range: 0 to 1.
    pub before: f64,
    /// How probable it is that none of the others was taken between them. Range: 0 to 1.
    pub beside: f64,
    /// Whether the order of the two is told at all.
    pub told: bool,
    /// The same in words.
    pub words: String,
}

/// One hair or speck in the gate, from shot to shot.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct FamilyGrowth {
    /// `left`, `right`, `top` or `bottom`.
    pub side: &'static str,
    /// Where along the side, from its middle. Unit: thousandths of the picture's width.
    pub along: f64,
    /// Its length in each shot of the order found, strip by strip; none where it is not
    /// there or cannot be seen. Unit: thousandths of the picture's width.
    pub lengths: Vec<Option<f64>>,
}

/// Which of two copies is nearer the original.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct CopiesDocument {
    /// The first reel.
    pub first: String,
    /// The second.
    pub second: String,
    /// How they may be akin, the likeliest first.
    pub kinships: Vec<CopyKinship>,
    /// Whether the likeliest is known; otherwise it is a guess.
    pub sure: bool,
    /// What was found, in a sentence.
    pub words: String,
    /// What it rests on.
    pub evidence: Vec<CopyFinding>,
    /// What could not be looked at.
    pub unseen: Vec<String>,
    /// Frames at which they were laid over each other.
    pub places: Vec<CopyPlace>,
    /// How much larger the second scan shows the picture.
    pub size: f64,
    /// The second is seen from the other side of the film.
    pub mirrored: bool,
}

/// One way in which two copies may be akin.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct CopyKinship {
    /// `first_is_nearer`, `second_is_nearer`, `of_a_third` or `one_strip`.
    pub kinship: &'static str,
    /// How probable it is. Range: 0 to 1.
    pub probability: f64,
    /// The same in words.
    pub words: String,
}

/// One finding.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct CopyFinding {
    /// `dirt`, `dirt_shared`, `window`, `sharpness` or `contrast`.
    pub kind: &'static str,
    /// What was found.
    pub words: String,
    /// For which of the kinships it speaks: how probable it makes the finding.
    pub speaks: Vec<CopySpeaks>,
}

/// How much a finding speaks for a kinship.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, ToSchema)]
pub struct CopySpeaks {
    /// As in [`CopyKinship`].
    pub kinship: &'static str,
    /// How probable the finding is beside the kinship it speaks most for. Range: 0 to 1.
    pub share: f64,
}

/// The same frame of both copies.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, ToSchema)]
pub struct CopyPlace {
    /// Frame of the first reel.
    pub first: u32,
    /// Frame of the second.
    pub second: u32,
}
