#![doc = include_str!("../README.md")]
#![deny(missing_docs)]

mod camera_page;
mod cautions;
mod changes;
mod cutting;
mod dub;
mod error;
mod forms;
mod frame_cards;
mod grading;
mod handling;
mod head;
mod joins_inspection;
mod lined;
mod outs;
mod part_sheet;
mod picture;
mod pin_labels;
mod plan;
mod pull;
mod reel_labels;
mod rolls;
mod roster;
mod titles;
mod way;
mod words;
mod work_order;

pub use camera_page::{CameraPage, PlannedSetup, camera_page};
pub use cautions::stand_caution_words;
pub use changes::{ChangeList, ChangeRow, ChangedFilm};
pub use cutting::{After, CuttingRow, CuttingSheet, Piece, Standing};
pub use dub::{
    CueAnchor, CueShape, CueStanding, DubColumn, DubCue, DubEcho, DubShot, DubbingChart,
    EffectPlace, EffectRow, EffectsList, HandMove, HandScore, LevelPoint, MixLog, MixPass,
    MusicList, MusicRow, PassKept, RightsStanding, TapeCount, TapeTable,
};
pub use error::SheetError;
pub use forms::{
    cutting_sheet, field_chart_svg, print_camera_report, print_change_list, print_cutting_sheet,
    print_dubbing_chart, print_effects_list, print_exposure_sheet, print_field_chart,
    print_floor_plans, print_frame_cards, print_grading_card, print_hand_score,
    print_handling_ledger, print_inspection_sheet, print_joins_inspection, print_lined_script,
    print_lined_sheet, print_location_folder, print_log_sheet, print_mix_log, print_music_list,
    print_outs_list, print_part_sheet, print_pin_labels, print_plan, print_pull_list,
    print_reel_labels, print_roster_sheet, print_scan_sheet, print_shooting_script,
    print_shot_list, print_sound_report, print_stand_drawing, print_stock_sheet, print_tape_table,
    print_title_cel, print_title_list, print_trim_labels, print_wild_sounds, print_work_order,
    pull_list, set_plan, title_cel_svg,
};
pub use frame_cards::{CardEnd, CardFrame, Fate, FrameCards, OnBench, StripCard};
pub use grading::{GradingRow, GradingSheet};
pub use handling::{HandledEntry, HandledRoll, HandlingLedger};
pub use head::{Head, JoinBite, JoinKind, Paper, Proof, RollState};
pub use joins_inspection::{JoinSide, JoinToSee, JoinsInspection};
pub use lined::{LinedRow, LinedSheet, ScreeningNote};
pub use onestrand_typeset::{Printed, Typeset};
pub use outs::{Out, OutsList, OutsReel};
pub use part_sheet::{PartForm, PartSheet, SheetPart};
pub use pin_labels::{PinLabel, PinLabels};
pub use plan::{
    CameraReportSheet, CameraReportTake, FloorCamera, FloorLine, FloorMark, FloorPlan,
    InCameraSheet, InCameraStep, LineShown, LinedAction, LinedScene, LinedScript, LocationFolder,
    PackedOn, PlanHead, PlanPaper, PlanSheet, PlannedSound, RollPacked, ScriptLine, ScriptedScene,
    ScriptedSetup, ShootingScript, ShotGroup, ShotList, ShotToTake, SoundReportSheet, StockHeld,
    StockSheet, SunAt, Visit, VisitsSheet, WildSoundLine, WildSoundList,
};
pub use pull::{Landmark, Lies, Mount, Pin, PullList, PullOrder, Strip};
pub use reel_labels::{ReelLabel, ReelLabels, ReelLies};
pub use rolls::{
    Chosen, FoundByHand, FoundJoin, InspectedRoll, InspectionSheet, LogSheet, LoggedRoll,
    LoggedTake, ScanRow, ScanSheet, TrimLabel, TrimLabels,
};
pub use roster::{RosterReason, RosterSession, RosterSheet, RosterTurn, RosterWaiting};
pub use titles::{
    StandDrawing, StandLamp, TitleCel, TitleExposureRow, TitleExposureSheet, TitleFieldChart,
    TitleList, TitleListRow, TrueSizeHead,
};
pub use way::{Edge, MayBeOff, StripEnd, WayCount};
pub use work_order::{JoinMade, TakenUp, WorkMount, WorkOrderSheet, WorkStrip};
