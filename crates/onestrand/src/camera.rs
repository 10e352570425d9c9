//! What the camera can do, on the command line.

use onestrand_production::documents::CameraOpenedDocument;
use onestrand_production::{self as acts, Cancel, ProductionError};
use serde::Serialize;

use crate::answer::Answer;
use crate::arguments::{
    Camera, CameraCloseup, CameraDepth, CameraEv, CameraExposure, CameraField, CameraFraming,
    CameraPan, CameraSpeed, CameraSun, CameraWedge,
};
use crate::bar::Bar;
use crate::commands::{Outcome, open};
use crate::words;

pub(crate) fn camera(command: Camera, cancel: &Cancel, bar: &mut Bar) -> Outcome {
    match command {
        Camera::Field(given) => told(field(given), |found| &found.opened),
        Camera::Framing(given) => told(framing(given), |found| &found.opened),
        Camera::Depth(given) => told(depth(given), |found| &found.opened),
        Camera::Closeup(given) => told(closeup(given), |found| &found.opened),
        Camera::Exposure(given) => told(exposure(given), |found| &found.opened),
        Camera::Ev(given) => told(ev(given), |found| &found.opened),
        Camera::Filter(given) => {
            let request = acts::CameraFilterRequest {
                from_kelvin: given.from,
                to_kelvin: given.to,
            };
            told(acts::camera_filter(&request), |found| &found.opened)
        }
        Camera::Pan(given) => told(pan(given), |found| &found.opened),
        Camera::Flash(given) => {
            let request = acts::CameraFlashRequest {
                stops: given.stops,
                speed: given.speed,
            };
            told(acts::camera_flash(&request), |found| &found.opened)
        }
        Camera::Sun(given) => told(sun(given), |found| &found.opened),
        Camera::Speed(given) => told(speed(*given), |found| &found.opened),
        Camera::Wedge(given) => told(wedge(given, cancel, bar), |found| &found.opened),
    }
}

fn told<T: Serialize>(
    found: Result<T, ProductionError>,
    opened: impl FnOnce(&T) -> &CameraOpenedDocument,
) -> Outcome {
    let found = found?;
    let words = words::camera(opened(&found));
    Ok(Answer::yes(&found, words))
}

fn field(given: CameraField) -> Result<acts::documents::CameraFieldDocument, ProductionError> {
    acts::camera_field(&acts::CameraFieldRequest {
        gauge: given.gauge,
        lens_mm: given.lens,
        distance: given.distance,
    })
}

fn framing(
    given: CameraFraming,
) -> Result<acts::documents::CameraFramingDocument, ProductionError> {
    acts::camera_framing(&acts::CameraFramingRequest {
        gauge: given.gauge,
        size: given.size,
        height: given.height,
        lens_mm: given.lens,
        distance: given.distance,
        person: Some(given.person),
    })
}

fn depth(given: CameraDepth) -> Result<acts::documents::CameraDepthDocument, ProductionError> {
    acts::camera_depth(&acts::CameraDepthRequest {
        gauge: given.gauge,
        lens_mm: given.lens,
        stop: given.stop,
        distance: given.distance,
        circle_mm: given.circle,
        nearest: given.nearest,
    })
}

fn closeup(
    given: CameraCloseup,
) -> Result<acts::documents::CameraCloseUpDocument, ProductionError> {
    acts::camera_closeup(&acts::CameraCloseUpRequest {
        gauge: given.gauge,
        lens_mm: given.lens,
        dioptres: given.dioptres,
        focus: given.focus,
    })
}

fn exposure(
    given: CameraExposure,
) -> Result<acts::documents::CameraExposureDocument, ProductionError> {
    acts::camera_exposure(&acts::CameraExposureRequest {
        shutter: given.shutter,
        speed: given.speed,
        stop: given.stop,
        was_speed: given.was_speed,
    })
}

fn ev(given: CameraEv) -> Result<acts::documents::CameraEvDocument, ProductionError> {
    acts::camera_ev(&acts::CameraEvRequest {
        time: given.time,
        shutter: given.shutter,
        speed: given.speed,
        iso: given.iso,
        filter_stops: given.filter_stops,
        stop: given.stop,
        ev100: given.ev100,
        lux: given.lux,
        candelas: given.candelas,
    })
}

fn pan(given: CameraPan) -> Result<acts::documents::CameraPanDocument, ProductionError> {
    acts::camera_pan(&acts::CameraPanRequest {
        gauge: given.gauge,
        lens_mm: given.lens,
        speed: given.speed,
        turn: given.turn,
        frames_across: given.frames_across,
    })
}

fn sun(given: CameraSun) -> Result<acts::documents::CameraSunDocument, ProductionError> {
    acts::camera_sun(&acts::CameraSunRequest {
        latitude: given.latitude,
        longitude: given.longitude,
        date: given.date,
        hour: Some(given.hour),
        clock: given.clock,
        golden_from: given.golden_from,
        golden_to: given.golden_to,
    })
}

fn speed(given: CameraSpeed) -> Result<acts::documents::CameraSpeedDocument, ProductionError> {
    acts::camera_speed(&acts::CameraSpeedRequest {
        set: given.set,
        mains: given.mains,
        mains_error: given.mains_error,
        bands: given.bands,
        bands_error: given.bands_error,
        bands_frames: given.bands_frames,
        turntable: given.turntable,
        turntable_error: given.turntable_error,
        turns: given.turns,
        turns_frames: given.turns_frames,
        pendulum: given.pendulum,
        pendulum_error: given.pendulum_error,
        swing: given.swing,
        swings: given.swings,
        swings_frames: given.swings_frames,
        frames_error: given.frames_error,
        gravity: given.gravity,
    })
}

fn wedge(
    given: CameraWedge,
    cancel: &Cancel,
    bar: &mut Bar,
) -> Result<acts::documents::CameraWedgeDocument, ProductionError> {
    match (given.dir, given.roll) {
        (Some(dir), Some(roll)) => {
            let production = open(&dir, cancel, bar)?;
            let request = acts::CameraRollWedgeRequest {
                roll,
                set: given.set,
                first_take: given.first_take,
                right: given.right,
            };
            acts::camera_wedge_of_roll(&production, &request)
        }
        _ => acts::camera_wedge(&acts::CameraWedgeRequest {
            set: given.set,
            light: given.light.unwrap_or_default(),
            right: given.right,
        }),
    }
}
