//! Lengths of film from one unit into all others.

use onestrand_film::{
    Fps, Frames, Gauge, Length, Quantity, RunningTime, SampleRate, Shrinkage, SoundLead,
    SoundTrack, Sureness, UnitError, Winding, capacity, diameter, turns,
};
use serde::Serialize;

use crate::documents::{FootageDocument, FractionDocument};

/// What is to be reckoned.
#[derive(Debug, Clone)]
pub struct ReckonRequest {
    /// The length.
    pub quantity: Quantity,
    /// The gauge.
    pub gauge: Gauge,
    /// The running speed.
    pub speed: Fps,
    /// The shrinkage, if measured.
    pub shrinkage: Option<Shrinkage>,
    /// The kind of sound track asked for.
    pub track: Option<SoundTrack>,
    /// Hub of the reel. Unit: millimetres.
    pub hub_mm: Option<f64>,
    /// Thickness of the film. Unit: millimetres.
    pub thickness_mm: Option<f64>,
    /// Width of a reel that is to be filled. Unit: millimetres.
    pub flange_mm: Option<f64>,
}

/// The answer of `reckon`.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ReckonDocument {
    /// Frames.
    pub frames: u32,
    /// Feet and frames.
    pub footage: FootageDocument,
    /// Time, exact.
    pub seconds: FractionDocument,
    /// Time as `m:ss.s`.
    pub clock: String,
    /// Metres by the trade's foot.
    pub metres: String,
    /// Metres by the pitch of the perforations.
    pub metres_by_pitch: String,
    /// Lead of the sound.
    pub sound: Option<SoundDocument>,
    /// Other leads in use for the same kind of track.
    pub sound_also: Vec<SoundDocument>,
    /// How far across the film is on a reel. Unit: millimetres.
    pub reel_mm: Option<String>,
    /// The reel in full.
    pub reel: Option<ReelDocument>,
    /// What was taken for granted.
    pub assumptions: Vec<String>,
}

/// Lead of the sound over its picture.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SoundDocument {
    /// Unit: frames.
    pub frames: i32,
    /// Unit: millimetres, by the trade's foot; none where the sound is later.
    pub mm: Option<String>,
    /// Unit: samples at 48 kHz, exact.
    pub samples_48k: String,
    /// Unit: seconds.
    pub seconds: String,
    /// How sure the figure is.
    pub sureness: &'static str,
    /// Where it comes from.
    pub source: &'static str,
}

/// Film on a reel.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ReelDocument {
    /// Unit: millimetres.
    pub hub_mm: String,
    /// Unit: millimetres.
    pub thickness_mm: String,
    /// Unit: millimetres.
    pub diameter_mm: String,
    /// Turns on the hub.
    pub turns: String,
    /// What a reel of the width asked for holds. Unit: feet.
    pub holds_feet: Option<String>,
}

/// Reckons a length into every unit.
///
/// # Errors
/// [`UnitError`] when a value lies outside its range.
pub fn reckon(request: &ReckonRequest) -> Result<ReckonDocument, UnitError> {
    let gauge = request.gauge;
    let shrinkage = request.shrinkage.unwrap_or(Shrinkage::NONE);
    let frames = request.quantity.frames(gauge, request.speed, shrinkage)?;
    let time = RunningTime::of(frames, request.speed);
    let length = Length::by_feet(frames, gauge, shrinkage);
    let mut assumptions = assumptions(request);
    let (sound, sound_also) = sound(request, &mut assumptions);
    let reel = reel(request, length, &mut assumptions)?;
    Ok(ReckonDocument {
        frames: frames.count(),
        footage: gauge.footage(frames).into(),
        seconds: FractionDocument {
            num: time.num(),
            den: time.den(),
        },
        clock: time.to_string(),
        metres: length.metres_text(2),
        metres_by_pitch: Length::by_pitch(frames, gauge, shrinkage).metres_text(2),
        sound,
        sound_also,
        reel_mm: reel.as_ref().map(|r| r.0.clone()),
        reel: reel.map(|r| r.1),
        assumptions,
    })
}

fn assumptions(request: &ReckonRequest) -> Vec<String> {
    let spec = request.gauge.spec();
    let mut all = vec![format!(
        "{} frames a foot; a frame every {} mm on new film",
        spec.frames_per_foot,
        f64::from(spec.pitch_um) / 1000.0
    )];
    all.push(match request.shrinkage {
        Some(s) => format!("shrunk {s} %, as given"),
        None => "shrinkage not measured, taken as none".to_owned(),
    });
    if !matches!(
        request.quantity,
        Quantity::Counted(_) | Quantity::Footage(_)
    ) {
        all.push("rounded to the nearest whole frame".to_owned());
    }
    all
}

fn sound(
    request: &ReckonRequest,
    assumptions: &mut Vec<String>,
) -> (Option<SoundDocument>, Vec<SoundDocument>) {
    let track = request.track.unwrap_or(SoundTrack::Magnetic);
    let asked = request.track.is_some();
    let usable = |lead: &&SoundLead| asked || lead.sureness != Sureness::Suggestion;
    let mut all: Vec<SoundDocument> = request
        .gauge
        .sound_leads(track)
        .filter(usable)
        .map(|lead| sound_document(request, lead))
        .collect();
    if all.is_empty() {
        assumptions.push(format!(
            "lead of a {track} track not known: ask the machine"
        ));
        return (None, all);
    }
    let first = all.remove(0);
    assumptions.push(format!(
        "{track} track, lead {} frames, {}",
        first.frames, first.sureness
    ));
    (Some(first), all)
}

fn sound_document(request: &ReckonRequest, lead: &SoundLead) -> SoundDocument {
    let ahead = u32::try_from(lead.frames)
        .ok()
        .and_then(|f| Frames::new(f).ok());
    let mm = ahead.map(|f| {
        let text = Length::by_feet(f, request.gauge, Shrinkage::NONE).mm_text(2);
        let text = text.trim_end_matches('0').trim_end_matches('.');
        text.to_owned()
    });
    SoundDocument {
        frames: lead.frames,
        mm,
        samples_48k: lead
            .samples(request.speed, SampleRate::HZ_48000)
            .to_string(),
        seconds: format!("{:.4}", f64::from(lead.frames) / request.speed.as_f64()),
        sureness: lead.sureness.word(),
        source: lead.source,
    }
}

fn reel(
    request: &ReckonRequest,
    length: Length,
    assumptions: &mut Vec<String>,
) -> Result<Option<(String, ReelDocument)>, UnitError> {
    let spec = request.gauge.spec();
    let mm = |um: u32| f64::from(um) / 1000.0;
    let hub = request.hub_mm.or(spec.hub_um.map(mm));
    let thickness = request.thickness_mm.or(spec.thickness_um.map(mm));
    let (Some(hub), Some(thickness)) = (hub, thickness) else {
        assumptions.push("hub and thickness not known: no reel reckoned".to_owned());
        return Ok(None);
    };
    let on = Winding::new(hub, thickness)?;
    if request.hub_mm.is_none() || request.thickness_mm.is_none() {
        assumptions.push(format!(
            "wound on a hub of {hub} mm, film {thickness} mm thick (triacetate, from memory: measure yours)"
        ));
    }
    let across = diameter(length, on);
    // What a reel holds is rounded down: the last foot must fit.
    let holds = request
        .flange_mm
        .map(|flange| format!("{:.0}", (capacity(flange, on) / 304.8).floor()));
    let document = ReelDocument {
        hub_mm: hub.to_string(),
        thickness_mm: thickness.to_string(),
        diameter_mm: format!("{across:.2}"),
        turns: format!("{:.1}", turns(length, on)),
        holds_feet: holds,
    };
    Ok(Some((format!("{across:.1}"), document)))
}
