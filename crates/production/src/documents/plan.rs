//! Stock, packing and coverage as documents.

use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

/// The film that is planned with. Money is in the smallest coin of the user's own.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
#[serde(default)]
pub struct StockWords {
    /// Frames of a roll that can be used: its length without what is lost at both ends.
    #[schema(required = true)]
    pub load: u32,
    /// Frames of run-up and run-out of each take.
    #[schema(required = true)]
    pub run_up: u32,
    /// Frames of the last roll that no take may use.
    #[schema(required = true)]
    pub kept_back: u32,
    /// What it is kept back for.
    #[schema(required = true)]
    pub kept_for: String,
    /// The longest run on one wind of a clockwork motor: seconds, empty without a limit.
    #[schema(required = true)]
    pub one_wind: String,
    /// What the stock is called, and its batch.
    #[schema(required = true)]
    pub stock: String,
    /// A roll of it.
    #[schema(required = true)]
    pub price_stock: u64,
    /// The laboratory, for a roll.
    #[schema(required = true)]
    pub price_process: u64,
    /// The scan, for a roll.
    #[schema(required = true)]
    pub price_scan: u64,
    /// What the coin is called: two decimals of this are told.
    #[schema(required = true)]
    pub money: String,
    /// Seconds that the film is to run on the screen; empty takes the newest version.
    #[schema(required = true)]
    pub shown: String,
    /// How far the camera can wind back for a dissolve. Unit: frames.
    #[schema(required = true)]
    pub wind_back: u32,
}

impl Default for StockWords {
    fn default() -> Self {
        Self {
            load: 0,
            run_up: 24,
            kept_back: 0,
            kept_for: String::new(),
            one_wind: String::new(),
            stock: String::new(),
            price_stock: 0,
            price_process: 0,
            price_scan: 0,
            money: String::new(),
            shown: String::new(),
            wind_back: 90,
        }
    }
}

/// A setup that shows an action.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct CoveredByDocument {
    /// The setup.
    pub setup: String,
    /// Its takes.
    pub takes: u32,
}

/// An action with all that shows it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct ActionCoverDocument {
    /// The action.
    pub action: String,
    /// Takes that show it, over all setups.
    pub takes: u32,
    /// The setups.
    pub by: Vec<CoveredByDocument>,
}

/// What covers what.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct CoverageDocument {
    /// Actions in the script.
    pub actions: usize,
    /// Actions that something shows.
    pub covered: usize,
    /// Actions that nothing shows.
    pub uncovered: Vec<String>,
    /// Actions that hang on one setup.
    pub single_setup: Vec<String>,
    /// Actions that hang on one take.
    pub single_take: Vec<String>,
    /// How few setups still show every action that is shown at all.
    pub fewest_setups: usize,
    /// Such setups.
    pub example: Vec<String>,
    /// No set that does so is smaller; as `fewest_setups` when that is proved.
    pub setups_at_least: usize,
    /// Every action in the order of the film.
    pub by_action: Vec<ActionCoverDocument>,
}

/// A setup, or a part of one, on its roll.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct PackedSetupDocument {
    /// The setup.
    pub setup: String,
    /// Its takes here.
    pub takes: u32,
    /// Their frames.
    pub frames: u32,
    /// Whether it is shot out of the order of the script.
    pub moved: bool,
    /// `1 of 2` where no roll holds it whole.
    pub part: Option<String>,
}

/// What is shot on one roll.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct PackedRollDocument {
    /// Its setups in the order of the script.
    pub setups: Vec<String>,
    /// Frames used by them.
    pub frames: u32,
    /// Frames that may still be used.
    pub spare: u32,
    /// The same setups with their takes.
    pub blocks: Vec<PackedSetupDocument>,
}

/// Takes laid one by one in the order of the script.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct ScriptOrderDocument {
    /// How many rolls that takes.
    pub rolls: usize,
    /// Frames on each.
    pub frames: Vec<u32>,
}

/// What one more take does at the far end.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct OneMoreTakeDocument {
    /// The setup.
    pub setup: String,
    /// Its frames.
    pub frames: u32,
    /// Rolls more than without it.
    pub rolls_more: usize,
    /// Setups moved with it.
    pub moved: usize,
    /// Frames to spare afterwards.
    pub spare: u32,
}

/// A take that a clockwork motor does not run through.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct OverWoundDocument {
    /// The setup.
    pub setup: String,
    /// Frames beyond one wind.
    pub over: u32,
}

/// What the plan costs.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct CostDocument {
    /// All rolls, in the smallest coin.
    pub whole: u64,
    /// A second on the screen, in the smallest coin, rounded up.
    pub shown_second: Option<u64>,
    /// What the coin is called.
    pub money: String,
}

/// What a retake of a setup does to a roll.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct RetakeDocument {
    /// The setup.
    pub setup: String,
    /// Actions that hang on its one take.
    pub actions: Vec<String>,
    /// What a retake needs, run-up included. Unit: frames.
    pub needs: u32,
    /// What is still to be shot besides. Unit: frames.
    pub still_wanted: u32,
    /// The setups that still are to be shot.
    pub still: Vec<String>,
    /// Each roll with film left.
    pub on: Vec<RetakeOnDocument>,
}

/// A retake on one roll.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct RetakeOnDocument {
    /// The roll.
    pub roll: String,
    /// Frames usable before it.
    pub left: u32,
    /// Frames usable after it; nothing when it does not fit.
    pub left_after: Option<u32>,
    /// By how much that falls short of what is still to be shot.
    pub short_by: u32,
}

/// What is done next at a camera in which the film is cut.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct CameraStepDocument {
    /// `load`, `expose` or `wind_back`.
    pub act: String,
    /// The roll, from 1.
    pub roll: usize,
    /// What is shot.
    pub shot: Option<String>,
    /// The counter before, from the head of the usable film. Unit: frames.
    pub from: u32,
    /// The counter after.
    pub to: u32,
    /// Frames over which the light comes up.
    pub fade_in: u32,
    /// Frames over which the light goes down.
    pub fade_out: u32,
}

/// A film cut in the camera.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct InCameraDocument {
    /// Frames of it on the screen.
    pub frames: u32,
    /// The same on the clock.
    pub clock: String,
    /// Frames used on each roll.
    pub rolls: Vec<u32>,
    /// What is done, in order.
    pub steps: Vec<CameraStepDocument>,
}

/// Stock, packing and coverage of a film.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct PlanDocument {
    /// Takes planned.
    pub takes: u32,
    /// Frames of all takes, run-up included.
    pub frames: u32,
    /// Rolls needed.
    pub rolls: usize,
    /// What is shot on each.
    pub by_roll: Vec<PackedRollDocument>,
    /// Setups shot out of the order of the script.
    pub moved: usize,
    /// No plan needs fewer rolls than this.
    pub rolls_at_least: usize,
    /// No plan on as many rolls moves fewer setups than this.
    pub moved_at_least: usize,
    /// Frames to spare over all rolls.
    pub spare: u32,
    /// What happens without a plan.
    pub script_order: ScriptOrderDocument,
    /// Coverage by what is planned.
    pub coverage: CoverageDocument,
    /// Coverage by what was shot.
    pub shot: Option<CoverageDocument>,
    /// What a retake of each single take would do.
    pub retakes: Vec<RetakeDocument>,
    /// What one more take of each setup does; only when it was asked for.
    pub one_more: Vec<OneMoreTakeDocument>,
    /// Takes longer than one wind.
    pub over_wound: Vec<OverWoundDocument>,
    /// Frames shown, by which ratio and cost are counted.
    pub shown_frames: Option<u32>,
    /// `3.9 : 1`.
    pub ratio: Option<String>,
    /// In the user's money.
    pub cost: CostDocument,
    /// All rolls on the clock at the film's speed: `10:00`.
    pub lasts: String,
    /// The film cut in the camera, each setup once and in the order of the script; only
    /// when it was asked for.
    pub in_camera: Option<InCameraDocument>,
    /// With what it was reckoned.
    pub stock: StockWords,
}
