#![doc = include_str!("../README.md")]
#![deny(missing_docs)]

pub mod documents;

mod after_the_cut;
mod answers;
mod archive;
mod backup;
mod bench_habits;
mod bench_order;
mod bench_room;
mod camera;
mod change_acts;
mod change_list;
mod changes;
mod changes_seen;
mod check_cut;
mod compare_cuts;
mod contact_strip;
mod cut_change_words;
mod cut_sheet;
mod cut_tables;
mod demo;
mod demo_titles;
mod demo_transfers;
mod dub;
mod dub_sheets;
mod edge_numbers;
mod error;
mod exchange;
mod film_frames;
mod film_view;
mod films_to_wind;
mod finish;
mod flash_anew;
mod followed_run;
mod gather_sheets;
mod halves;
mod inspect_roll;
mod jobs;
mod joins_on_sheet;
mod kept_files;
mod kept_list;
mod known_words;
mod label_sheets;
mod landmarks;
mod last_touched;
mod ledger;
mod ledger_sheet;
mod light;
mod light_of_rolls;
mod lined_sheet;
mod list_places;
mod log_columns;
mod log_headings;
mod log_import;
mod log_lines;
mod log_places;
mod log_sheet;
mod moved;
mod on_action;
mod on_the_bench;
mod overlap;
mod paper_roll;
mod print_sheets;
mod programme;
mod progress;
mod provenance;
mod read_again;
mod read_scan;
mod reading;
mod reading_back;
mod ready;
mod reason_of_refusal;
mod reckon;
mod recut;
mod recut_words;
mod recut_work;
mod reel_choice;
mod reel_labels;
mod reel_made_up;
mod reel_plan;
mod reels;
mod roll;
mod roll_measures;
mod roll_sheet_words;
mod roll_sheets;
mod roll_work;
mod rolls_in_one_go;
mod roster;
mod runs_of_roll;
mod script;
mod script_sheets;
mod sheet_csv;
mod shelf;
mod shelf_summary;
mod shown_twice;
mod sign_limits;
mod signs_seen;
mod small_pictures;
mod strand;
mod table;
mod takes_of_roll;
mod templates;
mod throw;
mod title_sheets;
mod titles;
mod trim_bin;
mod true_frames;
mod unslit;
mod versions;
mod ways_of_cut;
mod work_order_csv;
mod work_order_sheet;
mod workprint;

pub use answers::{AnswerQuestion, AskAgain};
pub use archive::{
    BoxAsked, BoxPlan, SayAccession, accession_document, box_checked_words, box_words, check_box,
    make_box, open_box, unboxed_words,
};
pub use backup::{
    BackedUpParts, BackupDocument, PartNamed, RestoredDocument, backup, restore, take_parts_back,
};
pub use bench_habits::{BenchSetUp, SetUpBench, bench_set_up};
pub use bench_order::{BenchOptions, USUAL_PINS, bench_order};
pub use bench_room::{
    MeaningRequest, SeenRequest, bench_meaning, bench_room, seen_on_the_reel, strip_history,
};
pub use camera::{
    CameraCloseUpRequest, CameraDepthRequest, CameraEvRequest, CameraExposureRequest,
    CameraFieldRequest, CameraFilterRequest, CameraFlashRequest, CameraFramingRequest,
    CameraPanRequest, CameraRollWedgeRequest, CameraSpeedRequest, CameraSunRequest,
    CameraWedgeRequest, camera_closeup, camera_depth, camera_ev, camera_exposure, camera_field,
    camera_filter, camera_flash, camera_framing, camera_pan, camera_speed, camera_sun,
    camera_wedge, camera_wedge_of_roll,
};
pub use change_list::{CHANGE_LIST, ChangesToPrint, change_list, gather_changes};
pub use changes::{FilmChange, RollFacts};
pub use check_cut::check_cut;
pub use compare_cuts::compare_cuts;
pub use contact_strip::{CONTACT_STRIP_MAX, ContactStrip, contact_strip};
pub use cut_sheet::{CutImported, export_cut, import_cut, list_cuts};
pub use cut_tables::{cut_table, write_cut_table};
pub use demo::{
    DemoMade, EXAMPLE_ROLLS, demo, draw_example, example_roll, lay_example_cut, log_example_roll,
    open_example, write_example_script,
};
pub use demo_titles::write_example_titles;
pub use dub::{
    CaptionsDocument, CountDocument, CueChanged, CueComing, CueListed, CuesImported, DubChange,
    DubChangeKind, PredictedDocument, ProjectorDocument, TapeDocument, captions, cue_list,
    cues_csv, dub_document, import_cues, import_cues_text, projector_of_timings, read_cues,
    tape_of_timings, version_for_sound, write_captions,
};
pub use dub::{Listening, column_named, music_beside, round_heard, sound_named};
pub use dub::{
    LoudnessDocument, MixAsked, MixSaid, MixSet, MixWritten, SoundAdded, SoundFile, add_sound,
    keep_sound, lay_example_sound, loudness_of_file, sound_added, sound_file, sound_list,
    sounds_folder, write_mix,
};
pub use dub::{
    RecordedDocument, RecordingDocument, RecordingWords, begin_recording, close_recording,
    finish_recording, keep_recorded, recordings, sweep_recordings, throw_recording_away,
};
pub use dub_sheets::{
    DubSheetName, DubSheetsAsked, DubSheetsDocument, DubSheetsToPrint, dub_sheets,
    gather_dub_sheets, timings_form,
};
pub use edge_numbers::{EdgeNumberGone, EdgeNumberRead};
pub use error::{ImportProblem, ProductionError};
pub use exchange::{ExchangeWritten, import_version, write_exchange};
pub use film_view::{cut_document, gauge_document, production_document, roll_log, try_cut};
pub use finish::{
    FinishDocument, FinishRequest, FinishShows, FinishSoundDocument, FinishWork, counted, finish,
    finish_parts, finish_words,
};
pub use followed_run::{Ear, FollowedRun};
pub use gather_sheets::{PrintedSheet, SheetsToPrint, gather_sheets};
pub use halves::{PairHalves, PartHalves, SlitStrip};
pub use inspect_roll::{InspectRoll, JoinFound, JoinGone, inspection};
pub use jobs::carry_on;
pub use label_sheets::{ReelLabelsToPrint, gather_reel_labels};
pub use last_touched::{FilmPart, LastTouched, parts_touched};
pub use ledger::{HandleRoll, Handling};
pub use light::{
    GRADING_CARD, GradingToPrint, LightChange, LightChangeKind, TreatedPlaces, Treatment,
    TreatmentChoice, decision_list, gather_grading, grading_card, light_of_frame, lit_picture,
    measure_light, patch_typed, points_of_decision_list, print_grading, read_patches, shot_holding,
    solve_light, treatment_of,
};
pub use log_headings::CountedIn;
pub use log_import::{LogImported, LogReading, import_log, import_log_text, read_log};
pub use log_sheet::export_log;
pub use moved::scans_moved;
pub use on_action::{
    MarkMoments, MarkedFrames, MatchMemory, MatchPlan, MatchRequest, OnSheet, PictureSource,
    SheetCut, TakePlace, TwinSearch, UnmarkMoments, match_takes, twins_document,
};
pub use on_the_bench::BenchPaper;
pub use paper_roll::{PaperRoll, add_paper_roll};
pub use print_sheets::{PrintRolls, SheetForm, SheetName, SheetOptions, roll_sheets, sheets};
pub use programme::{
    KeptProgramme, ShownFilm, ShownHandling, handling_of_showing, keep_programme, kept_programme,
    plan_programme, print_programme, print_programme_labels, programme_of_table, programme_table,
    shown_film,
};
pub use progress::{Progress, Quiet};
pub use provenance::{CopiesAsked, FamilyMemory, FamilyReels, compare_copies_of, look_at_family};
pub use read_again::{ReadAgain, read_again};
pub use read_scan::{ReadRequest, read_scan};
pub use reading_back::{ReelToProve, SketchMemory, StripRolls, name_strip_in, prove_reel};
pub use ready::ready;
pub use reckon::{ReckonRequest, reckon};
pub use recut::{RecutOptions, keep_near, recut};
pub use reel_plan::{ReelPlanRequest, reel_plan};
pub use reels::{PutReel, RemoveReel, list_reels};
pub use roll::{AddRoll, add_roll, list_rolls};
pub use roll_measures::{MeasureHundred, MeasureWound};
pub use roll_sheets::{RollSheet, RollSheetToPrint, gather_roll_sheet};
pub use roll_work::{RollRead, RollWork};
pub use rolls_in_one_go::{
    ScanOnShelf, ShelfJob, ShelfScan, add_rolls, begin_shelf, scans_on_shelf,
};
pub use roster::{
    KeptRoster, RosterAsked, RosterFilm, keep_roster, kept_roster, plan_roster_table, plan_shelf,
    print_roster, roster_table, roster_words, usual_roster,
};
pub use runs_of_roll::{RUN_WEARS, RunRoll, StrikeRun};
pub use script::{
    PlanAsked, PlanWork, ScriptChange, ScriptChangeKind, export_script, export_wild_sounds,
    import_script, import_script_text, keep_photograph, photograph, plan_film, script_document,
    stock_for_load,
};
pub use script_sheets::{
    CAMERA_PAGE, ScriptSheet, ScriptSheetsAsked, ScriptSheetsDocument, ScriptSheetsToPrint,
    gather_script_sheets, script_sheets,
};
pub use sheet_csv::SheetCsv;
pub use shelf::new_production;
pub use shelf_summary::{ShelfProblem, ShelfRead, ShelfRow, put_shelf_away, shelf_read};
pub use sign_limits::{MoveSignLimit, SignLimitDocument};
pub use small_pictures::small_picture;
pub use templates::{Habits, habits, lay_template, take_over, templates};
pub use throw::{ThrowRequest, throw};
pub use title_sheets::{
    TitleSheetName, TitleSheetsAsked, TitleSheetsDocument, TitleSheetsToPrint, gather_title_sheets,
    title_sheets,
};
pub use titles::{
    SheetFor, TitleFieldRequest, TitleHoldRequest, TitleLightRequest, TitleSheetRequest,
    title_field, title_hold, title_light, title_sheet, title_sheet_said,
};
pub use titles::{TitleCelMade, TitleCelRequest, title_cel};
pub use titles::{
    TitleChange, TitleChangeKind, TitleFilm, keep_for_title, kept_title, title_card,
    title_pictures_name, title_stand, titles_document,
};
pub use titles::{TitleLetteredRequest, letter_title};
pub use trim_bin::MoveToPin;
pub use unslit::Unslit;
pub use versions::{DescribeCut, NewCut, RemoveCut};
pub use ways_of_cut::{WaysAsked, WaysRequest};

pub use workprint::LostWorkprint;

pub use onestrand_bench::Winding;
pub use onestrand_intake::Cancel;
pub use onestrand_sheets::ReelLies;
pub use onestrand_store::{JobState, Meta, Production, Workprints};
