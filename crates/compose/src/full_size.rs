//! Film frames at full size, out of the scan.

use std::collections::{BTreeMap, BTreeSet, HashMap};
use std::ops::ControlFlow;

use image::codecs::png::PngEncoder;
use image::{ExtendedColorType, ImageEncoder};
use onestrand_cadence::{Layer, Recipe, Sample, unmix_picture, weave};
use onestrand_intake::{
    Cancel, FetchOptions, Ffmpeg, Form, FrameIndex, FullFrame, PixelLayout, Source, fetch,
};

use crate::{ComposeError, MadeOf};

/// In which form film frames are delivered.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FilmForm {
    /// Raw pixels in this layout.
    Raw(PixelLayout),
    /// A PNG file: 16 bits a sample when the scan has more than 8.
    Png,
}

/// A scan that film frames are taken from.
#[derive(Debug, Clone, Copy)]
pub struct Scan<'a> {
    /// The scan, opened.
    pub source: &'a Source,
    /// How its file frames are found.
    pub index: &'a FrameIndex,
}

/// A film frame at full size.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FilmPicture {
    /// Which of those asked for, from 0.
    pub place: usize,
    /// Raw pixels or a whole PNG file, as asked for.
    pub bytes: Vec<u8>,
}

/// Fetches film frames out of one scan, in the order of `wanted`, in which neither
/// the first nor the last file frame needed may fall.
///
/// # Errors
/// [`ComposeError::Intake`], among them that `wanted` falls;
/// [`ComposeError::Cadence`] and [`ComposeError::Picture`].
pub fn fetch_film(
    ffmpeg: &Ffmpeg,
    scan: Scan<'_>,
    wanted: &[MadeOf],
    form: FilmForm,
    cancel: &Cancel,
    sink: &mut dyn FnMut(FilmPicture) -> ControlFlow<()>,
) -> Result<(), ComposeError> {
    if let Some(singles) = rising_singles(wanted) {
        let form = match form {
            FilmForm::Raw(layout) => Form::Raw(layout),
            FilmForm::Png => Form::Png,
        };
        let mut place = 0;
        let mut hand_on = |frame: FullFrame| {
            place += 1;
            sink(FilmPicture {
                place: place - 1,
                bytes: frame.bytes,
            })
        };
        let options = FetchOptions::new(form);
        fetch(
            ffmpeg,
            scan.source,
            scan.index,
            &singles,
            &options,
            cancel,
            &mut hand_on,
        )?;
        return Ok(());
    }
    let layout = match form {
        FilmForm::Raw(layout) => layout,
        FilmForm::Png => png_layout(scan.source),
    };
    let mut bench = Bench::new(scan.source, wanted, form, layout);
    let needed: BTreeSet<u64> = wanted.iter().flat_map(MadeOf::file_frames).collect();
    let needed: Vec<u64> = needed.into_iter().collect();
    let mut problem = None;
    let mut take = |frame: FullFrame| match bench.take(frame, sink) {
        Ok(flow) => flow,
        Err(found) => {
            problem = Some(found);
            ControlFlow::Break(())
        }
    };
    let options = FetchOptions::new(Form::Raw(layout));
    fetch(
        ffmpeg,
        scan.source,
        scan.index,
        &needed,
        &options,
        cancel,
        &mut take,
    )?;
    problem.map_or(Ok(()), Err)
}

/// The file frames, when each film frame is one alone and they rise.
fn rising_singles(wanted: &[MadeOf]) -> Option<Vec<u64>> {
    let one = |made_of: &MadeOf| match made_of {
        MadeOf::One(frame) => Some(*frame),
        _ => None,
    };
    let singles: Vec<u64> = wanted.iter().map(one).collect::<Option<_>>()?;
    singles.is_sorted_by(|a, b| a < b).then_some(singles)
}

/// Colour as a PNG has it, for sums that a PNG is made of.
fn png_layout(source: &Source) -> PixelLayout {
    let native = source.native_layout();
    let name = match (native.is_gray(), native.bits() > 8) {
        (true, true) => "gray16le",
        (true, false) => "gray",
        (false, true) => "rgb48le",
        (false, false) => "rgb24",
    };
    PixelLayout::nearest(name)
}

/// File frames that are still needed, and what is to be made of them.
struct Bench<'a> {
    wanted: &'a [MadeOf],
    next: usize,
    held: BTreeMap<u64, Vec<u8>>,
    /// The last of `wanted` that needs a file frame.
    last_use: HashMap<u64, usize>,
    size: (u32, u32),
    form: FilmForm,
    layout: PixelLayout,
}

impl<'a> Bench<'a> {
    fn new(source: &Source, wanted: &'a [MadeOf], form: FilmForm, layout: PixelLayout) -> Self {
        let uses = wanted.iter().enumerate();
        let uses =
            uses.flat_map(|(at, made_of)| made_of.file_frames().into_iter().map(move |f| (f, at)));
        Self {
            wanted,
            next: 0,
            held: BTreeMap::new(),
            last_use: uses.collect(),
            size: (source.facts().width, source.facts().height),
            form,
            layout,
        }
    }

    /// Takes a file frame and hands on the film frames that are complete with it.
    fn take(
        &mut self,
        frame: FullFrame,
        sink: &mut dyn FnMut(FilmPicture) -> ControlFlow<()>,
    ) -> Result<ControlFlow<()>, ComposeError> {
        let here = frame.index;
        self.held.insert(here, frame.bytes);
        while let Some(made_of) = self.wanted.get(self.next)
            && made_of.ends().1 <= here
        {
            let bytes = self.picture(made_of)?;
            let place = self.next;
            self.next += 1;
            let last_use = &self.last_use;
            self.held
                .retain(|frame, _| last_use.get(frame).is_some_and(|last| *last > place));
            if sink(FilmPicture { place, bytes }).is_break() {
                return Ok(ControlFlow::Break(()));
            }
        }
        Ok(ControlFlow::Continue(()))
    }

    fn held(&self, frame: u64) -> Result<&[u8], ComposeError> {
        let held = self.held.get(&frame).map(Vec::as_slice);
        held.ok_or_else(|| ComposeError::picture(format!("file frame {frame} came out of turn")))
    }

    fn picture(&self, made_of: &MadeOf) -> Result<Vec<u8>, ComposeError> {
        let raw = match made_of {
            MadeOf::One(frame) => self.held(*frame)?.to_vec(),
            MadeOf::Woven { top, bottom } => self.woven(self.held(*top)?, self.held(*bottom)?)?,
            MadeOf::Mixed(recipe) => self.mixed(recipe)?,
        };
        match self.form {
            FilmForm::Raw(_) => Ok(raw),
            FilmForm::Png => self.png(&raw),
        }
    }

    fn woven(&self, top: &[u8], bottom: &[u8]) -> Result<Vec<u8>, ComposeError> {
        let mut whole = Vec::with_capacity(top.len());
        let mut begin = 0;
        for (line, lines) in self.layout.planes(self.size.0, self.size.1) {
            let plane = begin..begin + line * lines;
            begin = plane.end;
            let (top, bottom) = (top.get(plane.clone()), bottom.get(plane));
            let (Some(top), Some(bottom)) = (top, bottom) else {
                return Err(ComposeError::picture("a file frame of another size"));
            };
            whole.extend(weave(top, bottom, line)?);
        }
        Ok(whole)
    }

    fn mixed(&self, recipe: &Recipe) -> Result<Vec<u8>, ComposeError> {
        let held: Result<Vec<&[u8]>, ComposeError> = recipe
            .file_frames()
            .iter()
            .map(|frame| self.held(*frame))
            .collect();
        let held = held?;
        let film = if self.layout.bits() == 8 {
            self.layers(recipe, &held, 1)?
        } else {
            let wide = |bytes: &&[u8]| -> Vec<u16> {
                let levels = bytes.chunks_exact(2);
                levels.map(|b| u16::from_le_bytes([b[0], b[1]])).collect()
            };
            let wide: Vec<Vec<u16>> = held.iter().map(wide).collect();
            let wide: Vec<&[u16]> = wide.iter().map(Vec::as_slice).collect();
            let most = u16::try_from((1_u32 << self.layout.bits()) - 1).unwrap_or(u16::MAX);
            self.layers(recipe, &wide, 2)?.map(|levels| {
                let levels = levels.into_iter();
                levels
                    .flat_map(|level| level.min(most).to_le_bytes())
                    .collect()
            })
        };
        match film {
            Some(film) => Ok(film),
            None => Ok(self.held(recipe.best())?.to_vec()),
        }
    }

    /// All planes put together; nothing where the best file frame is as near.
    fn layers<S: Sample>(
        &self,
        recipe: &Recipe,
        pictures: &[&[S]],
        sample: usize,
    ) -> Result<Option<Vec<S>>, ComposeError> {
        let mut layers = Vec::new();
        let mut begin = 0;
        for (line, lines) in self.layout.planes(self.size.0, self.size.1) {
            let width = line / sample;
            let plane = begin..begin + width * lines;
            begin = plane.end;
            let pictures: Option<Vec<&[S]>> = pictures
                .iter()
                .map(|picture| picture.get(plane.clone()))
                .collect();
            let pictures =
                pictures.ok_or_else(|| ComposeError::picture("a file frame of another size"))?;
            layers.push(Layer { pictures, width });
        }
        Ok(unmix_picture(recipe, &layers)?.map(|layers| layers.concat()))
    }

    fn png(&self, raw: &[u8]) -> Result<Vec<u8>, ComposeError> {
        let colour = match self.layout.name() {
            "gray" => ExtendedColorType::L8,
            "gray16le" => ExtendedColorType::L16,
            "rgb48le" => ExtendedColorType::Rgb16,
            _ => ExtendedColorType::Rgb8,
        };
        let native: Vec<u8>;
        let bytes = if self.layout.bits() > 8 {
            let levels = raw
                .chunks_exact(2)
                .map(|b| u16::from_le_bytes([b[0], b[1]]));
            native = levels.flat_map(u16::to_ne_bytes).collect();
            &native
        } else {
            raw
        };
        let mut png = Vec::new();
        PngEncoder::new(&mut png)
            .write_image(bytes, self.size.0, self.size.1, colour)
            .map_err(ComposeError::picture)?;
        Ok(png)
    }
}
