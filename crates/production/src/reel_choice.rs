//! Which reels there are to choose from, and how thick the film is.

use onestrand_cut::Base;
use onestrand_film::{
    Frames, Gauge, Length, POLYESTER_MM, ReelRoom, Shrinkage, Sureness, TRIACETATE_MM,
    standard_reels,
};
use onestrand_store::{Production, ReelRecord};

use crate::ProductionError;
use crate::documents::ReelChoiceDocument;
use crate::error::unfit;
use crate::reel_plan::ReelPlanRequest;
use crate::throw::round;

/// Left free at the rim of one's own reel whose length is not known. Unit:
/// millimetres. Common practice, so that no turn slips over the flange.
const RIM_MM: f64 = 3.0;

/// How thick the film is, and how that is known.
pub(crate) struct Thickness {
    pub(crate) mm: f64,
    pub(crate) known: bool,
    pub(crate) words: String,
}

/// As it was said, else by the bases: the thickest that may be there.
pub(crate) fn thickness(said: Option<f64>, bases: &[Base]) -> Result<Thickness, ProductionError> {
    if let Some(mm) = said {
        if !(0.05..=0.3).contains(&mm) {
            return Err(unfit(
                format!("film {mm} mm thick"),
                "say 0.05 to 0.3 mm; triacetate has about 0.145, thin polyester 0.10",
            ));
        }
        return Ok(Thickness {
            mm,
            known: true,
            words: format!("film {mm} mm thick, as said"),
        });
    }
    let thin = !bases.is_empty() && bases.iter().all(|base| *base == Base::Polyester);
    let (mm, words) = match thin {
        true => (
            POLYESTER_MM,
            "taken as 0.10 mm thick, thin polyester; print stock has 0.13 to 0.14: measure yours",
        ),
        false => (
            TRIACETATE_MM,
            "taken as 0.145 mm thick, triacetate camera film, from memory: measure yours",
        ),
    };
    Ok(Thickness {
        mm,
        known: false,
        words: format!("film {words}"),
    })
}

/// A reel that could be used.
pub(crate) struct Choice {
    pub(crate) document: ReelChoiceDocument,
}

impl Choice {
    fn new(
        reel: String,
        own: bool,
        flange_mm: Option<f64>,
        room: ReelRoom,
        source: String,
        film: (Gauge, &Thickness),
    ) -> Result<Self, ProductionError> {
        let (gauge, thickness) = film;
        let frame = Length::by_feet(Frames::new(1)?, gauge, Shrinkage::NONE).as_mm_f64();
        // Rounded down, the last frame must fit; but what is nominal stays so.
        let takes = (room.takes_mm(thickness.mm) / frame + 1e-6).floor();
        let takes = Frames::new(takes.clamp(0.0, f64::from(Frames::MAX.count())) as u32)?;
        Ok(Self {
            document: ReelChoiceDocument {
                reel,
                own,
                flange_mm,
                hub_mm: room.hub_mm,
                full_mm: round(room.full_mm, 1),
                takes_frames: takes.count(),
                takes: gauge.footage(takes).into(),
                source,
            },
        })
    }

    /// `a 50 ft reel`, or one's own by its name.
    pub(crate) fn words(&self) -> String {
        match self.document.reel.strip_suffix("ft") {
            Some(feet) if !self.document.own => format!("a {feet} ft reel"),
            _ => self.document.reel.clone(),
        }
    }
}

/// The reels asked for, else all of the list; the smallest first.
pub(crate) fn choices(
    production: &Production,
    request: &ReelPlanRequest,
    gauge: Gauge,
    thickness: &Thickness,
    assumptions: &mut Vec<String>,
) -> Result<Vec<Choice>, ProductionError> {
    let mut all = Vec::new();
    let wanted = |code: &str| {
        let asked = |name: &String| name.trim().eq_ignore_ascii_case(code);
        request.reels.is_empty() || request.reels.iter().any(asked)
    };
    let foot = gauge.spec().frames_per_foot;
    for spec in standard_reels(gauge)
        .iter()
        .filter(|spec| wanted(spec.code))
    {
        let nominal = Length::by_feet(Frames::new(spec.feet * foot)?, gauge, Shrinkage::NONE);
        let room = ReelRoom::by_length(spec.hub_mm, nominal);
        let Some(room) = room.map(|room| on_hub(room, request.hub_mm)) else {
            continue;
        };
        let sure = match spec.sureness {
            Sureness::Found => String::new(),
            other => format!(" ({})", other.word()),
        };
        let source = format!(
            "{}{sure}; its hub of {} mm is a suggestion",
            spec.source, spec.hub_mm
        );
        let flange = Some(spec.flange_mm);
        let film = (gauge, thickness);
        all.push(Choice::new(
            spec.code.to_owned(),
            false,
            flange,
            room,
            source,
            film,
        )?);
    }
    for name in &request.reels {
        let name = name.trim();
        if standard_reels(gauge)
            .iter()
            .any(|spec| name.eq_ignore_ascii_case(spec.code))
        {
            continue;
        }
        let reel = production
            .reel(name)
            .map_err(|_| no_such_reel(name, gauge))?;
        let room = own_room(name, &reel, request, gauge, assumptions)?;
        let flange = number(reel.across_mm.as_deref());
        let source = "measured by the user".to_owned();
        all.push(Choice::new(
            name.to_owned(),
            true,
            flange,
            room,
            source,
            (gauge, thickness),
        )?);
    }
    match request.hub_mm {
        Some(hub) => assumptions.push(format!("wound on a hub of {hub} mm, as said")),
        None => assumptions.push("hubs as the list has them: measure yours".to_owned()),
    }
    all.sort_by_key(|one| one.document.takes_frames);
    Ok(all)
}

/// The same room on another hub.
fn on_hub(room: ReelRoom, hub_mm: Option<f64>) -> ReelRoom {
    ReelRoom {
        hub_mm: hub_mm.unwrap_or(room.hub_mm),
        ..room
    }
}

fn number(text: Option<&str>) -> Option<f64> {
    text.and_then(|text| text.parse().ok())
}

fn no_such_reel(name: &str, gauge: Gauge) -> ProductionError {
    let codes: Vec<&str> = standard_reels(gauge).iter().map(|spec| spec.code).collect();
    let hint = match codes.is_empty() {
        true => {
            "write your reel down first: onestrand reel put DIR NAME --feet 200 --hub 40".to_owned()
        }
        false => format!(
            "say {}, or a reel of yours that is written down",
            codes.join(", ")
        ),
    };
    unfit(format!("no reel {name:?} is known"), &hint)
}

fn own_room(
    name: &str,
    reel: &ReelRecord,
    request: &ReelPlanRequest,
    gauge: Gauge,
    assumptions: &mut Vec<String>,
) -> Result<ReelRoom, ProductionError> {
    let hub = request.hub_mm.or(number(reel.hub_mm.as_deref()));
    let hub = hub.unwrap_or_else(|| {
        let usual = f64::from(gauge.spec().hub_um.unwrap_or(32_000)) / 1000.0;
        assumptions.push(format!("{name}: hub not measured, taken as {usual} mm"));
        usual
    });
    let full = number(reel.across_mm.as_deref()).map(|across| across - 2.0 * RIM_MM);
    let by_flange = full.filter(|full| *full > hub).map(|full_mm| ReelRoom {
        hub_mm: hub,
        full_mm,
    });
    let room = match reel.feet {
        Some(feet) => {
            let frames = Frames::new(feet.saturating_mul(gauge.spec().frames_per_foot))?;
            ReelRoom::by_length(hub, Length::by_feet(frames, gauge, Shrinkage::NONE))
        }
        None => by_flange,
    };
    if reel.feet.is_none() && by_flange.is_some() {
        assumptions.push(format!("{name}: filled to {RIM_MM} mm from its rim"));
    }
    if !reel.wound.is_empty() {
        assumptions.push(format!("{name}: what is wound on it now comes off first"));
    }
    room.ok_or_else(|| {
        unfit(
            format!("nobody knows what {name} takes"),
            "write down how many feet it takes, or how far it is across",
        )
    })
}
