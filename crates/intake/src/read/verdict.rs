//! What is to be said of a reading at its end.

use super::{FileFrame, ReadEnd};
use crate::decode::{Complaints, Ending};
use crate::sequence::SequencePicture;
use crate::showinfo::FrameLine;
use crate::{IntakeError, Plane, Ratio, Source, Warning};

/// The plane of a frame, and those of its fields where they came with it.
fn planes_of(mut bytes: Vec<u8>) -> Option<(Plane, Option<(Plane, Plane)>)> {
    let fields = if bytes.len() == 3 * Plane::BYTES {
        let bottom = Plane::from_bytes(bytes.split_off(2 * Plane::BYTES))?;
        let top = Plane::from_bytes(bytes.split_off(Plane::BYTES))?;
        Some((top, bottom))
    } else {
        None
    };
    Some((Plane::from_bytes(bytes)?, fields))
}

/// Gathers what the warnings need while frames pass.
#[derive(Debug)]
pub(super) struct Verdict<'a> {
    source: &'a Source,
    frames: u64,
    size: Option<(u32, u32)>,
    warnings: Vec<Warning>,
    /// For runs: what FFmpeg was given, in order.
    pictures: Vec<&'a SequencePicture>,
    /// For runs: the place of the next picture expected.
    place: usize,
}

impl<'a> Verdict<'a> {
    pub(super) fn new(source: &'a Source) -> Self {
        let pictures = source
            .sequence()
            .map(|s| s.readable().collect())
            .unwrap_or_default();
        Self {
            source,
            frames: 0,
            size: None,
            warnings: Vec::new(),
            pictures,
            place: 0,
        }
    }

    pub(super) fn frames(&self) -> u64 {
        self.frames
    }

    /// Puts the three streams together to the next frame.
    pub(super) fn see(
        &mut self,
        time: FrameLine,
        jpeg: Vec<u8>,
        plane: Vec<u8>,
    ) -> Result<FileFrame, IntakeError> {
        let index = self.frames;
        let (plane, fields) =
            planes_of(plane).ok_or_else(|| out_of_step(index, "a plane of another size"))?;
        let facts = self.source.facts();
        let size = time.size.unwrap_or((facts.width, facts.height));
        self.note_size(index, size);
        self.frames += 1;
        if self.source.sequence().is_none() {
            let FrameLine {
                pts, key, byte_pos, ..
            } = time;
            return Ok(FileFrame {
                index,
                pts,
                key,
                byte_pos,
                number: None,
                size,
                jpeg,
                plane,
                fields,
            });
        }
        let place = time
            .pts
            .and_then(|pts| usize::try_from(pts).ok())
            .filter(|n| *n < self.pictures.len());
        let place = place.ok_or_else(|| out_of_step(index, "a picture that is not of the run"))?;
        self.pass_pictures_before(place);
        self.place = place + 1;
        let number = Some(self.pictures[place].number);
        Ok(FileFrame {
            index,
            pts: None,
            key: true,
            byte_pos: None,
            number,
            size,
            jpeg,
            plane,
            fields,
        })
    }

    fn note_size(&mut self, at: u64, to: (u32, u32)) {
        let from = *self.size.get_or_insert(to);
        let told = self
            .warnings
            .iter()
            .any(|w| matches!(w, Warning::SizeChanged { .. }));
        if from != to && !told {
            self.warnings.push(Warning::SizeChanged { at, from, to });
        }
    }

    /// Warns of every picture handed to FFmpeg that did not come back.
    fn pass_pictures_before(&mut self, place: usize) {
        for picture in self.pictures.get(self.place..place).unwrap_or_default() {
            self.warnings.push(Warning::Undecodable {
                number: picture.number,
                path: picture.path.clone(),
            });
        }
    }

    pub(super) fn stopped(self, time_base: Option<Ratio>) -> ReadEnd {
        ReadEnd {
            frames: self.frames,
            is_stopped: true,
            time_base,
            warnings: self.warnings,
        }
    }

    pub(super) fn ended(
        mut self,
        ending: Ending,
        time_base: Option<Ratio>,
    ) -> Result<ReadEnd, IntakeError> {
        let Ending {
            ended,
            complaints,
            is_in_step,
        } = ending;
        let said = complaints
            .first
            .as_ref()
            .map_or_else(|| ended.complaint(), |(_, words)| words.clone());
        if self.frames == 0 {
            return Err(IntakeError::NoFrames {
                said,
                path: self.source.path().to_owned(),
            });
        }
        if !ended.is_success() {
            return Err(IntakeError::ChildFailed {
                program: "ffmpeg".to_owned(),
                status: ended.status.to_string(),
                frames: self.frames,
                said,
            });
        }
        if !is_in_step {
            return Err(IntakeError::OutOfStep {
                frame: self.frames,
                what: "times, pictures and planes differ in number",
            });
        }
        self.pass_pictures_before(self.pictures.len());
        self.judge_damage(complaints);
        Ok(ReadEnd {
            frames: self.frames,
            is_stopped: false,
            time_base,
            warnings: self.warnings,
        })
    }

    fn judge_damage(&mut self, complaints: Complaints) {
        if self.source.breaks_off() || complaints.breaks_off {
            let frames_promised = self
                .source
                .frames_promised()
                .filter(|promised| *promised > self.frames);
            self.warnings.push(Warning::Truncated {
                frames_read: self.frames,
                frames_promised,
            });
        } else if let (Some((first_near, said)), None) = (complaints.first, self.source.sequence())
        {
            self.warnings.push(Warning::Damage {
                complaints: complaints.count,
                first_near,
                said,
            });
        }
    }
}

fn out_of_step(frame: u64, what: &'static str) -> IntakeError {
    IntakeError::OutOfStep { frame, what }
}
