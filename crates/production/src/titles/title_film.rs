//! A title as film, frame after frame, before it is photographed.

use onestrand_film::FrameName;
use onestrand_lettering::{
    Also, Ground, Layer, LightOn, SetCard, exposed as exposed_frame, ground_of,
};
use onestrand_store::{Production, Workprints};
use onestrand_title::{CrawlMeasures, Exposed, ExposureAsked, exposure_sheet, replay};

use super::field::Field;
use super::kept::KeptTitle;
use super::lettered::set_title;
use super::reckoned::{Reckoned, Shop};
use super::stand_kept::stand_of;
use crate::ProductionError;
use crate::documents::{StandWords, TitleGroundWord, TitleGroundWords, TitleWords};
use crate::error::unfit;

/// The widest picture of a card that is drawn. Unit: pixels.
const WIDEST: u32 = 4096;

/// The tallest crawl that is drawn: 400 words in large letters are some 40 pictures tall.
/// Unit: pixels.
const MOST_CRAWL: u32 = 60_000;

/// Titles that dissolve into each other are followed no further than this.
const DEEPEST: u32 = 2;

/// A title as film: every frame as the exposure sheet exposes it.
#[derive(Debug, Clone)]
pub struct TitleFilm {
    size: (u32, u32),
    px_per_mm: f64,
    ground: Vec<u8>,
    layer: Option<Layer>,
    /// Where the top left of the layer lies when the lettering is in its place.
    layer_at: (f64, f64),
    frames: Vec<Exposed>,
    next: Option<Vec<u8>>,
}

impl TitleFilm {
    /// Draws what a title needs, so wide; its height follows from the projected aperture.
    ///
    /// Where the words cannot be set, the ground stands alone.
    ///
    /// # Errors
    /// [`ProductionError::Unfit`] for a width that no card has and a ground that is not
    /// there, [`ProductionError::Lettering`] for a picture that cannot be read,
    /// [`ProductionError::Title`] for a sheet that cannot be, [`ProductionError::Store`].
    pub fn draw(
        production: &Production,
        title: &TitleWords,
        width: u32,
    ) -> Result<Self, ProductionError> {
        let stand = stand_of(production)?;
        Self::drawn(production, title, &stand, width, DEEPEST)
    }

    fn drawn(
        production: &Production,
        title: &TitleWords,
        stand: &StandWords,
        width: u32,
        deep: u32,
    ) -> Result<Self, ProductionError> {
        if !(16..=WIDEST).contains(&width) {
            return Err(unfit(
                format!("a card {width} pixels wide"),
                "ask for 16 to 4096 pixels",
            ));
        }
        let shop = Shop::of(production, stand)?;
        let field = Field::of(&shop)?;
        let high = f64::from(width) * field.aperture_mm.1 / field.aperture_mm.0;
        // Even, as moving pictures want it.
        let size = (width, ((high / 2.0).round() as u32).max(1) * 2);
        let card = set_title(production, title, &shop).ok();
        let crawled = card.as_ref().map(SetCard::full_height);
        let reckoned = Reckoned::of(title, &shop, crawled)?;
        let sheet = exposure_sheet(&reckoned.asked)?;
        let (layer, layer_at) = layer(card.as_ref(), size, &reckoned.asked);
        Ok(Self {
            size,
            px_per_mm: f64::from(width) / field.shown_mm.0,
            ground: ground(production, &title.ground, size)?,
            layer,
            layer_at,
            frames: replay(&sheet),
            next: next(production, &reckoned.asked, stand, width, deep)?,
        })
    }

    /// Pixels across and down.
    #[must_use]
    pub const fn size(&self) -> (u32, u32) {
        self.size
    }

    /// Frames in all.
    #[must_use]
    pub fn count(&self) -> u32 {
        u32::try_from(self.frames.len()).unwrap_or(u32::MAX)
    }

    /// The picture of a frame, 8-bit sRGB; the last one for every frame after it.
    #[must_use]
    pub fn frame(&self, n: u32) -> Vec<u8> {
        let last = self.frames.len().saturating_sub(1);
        match self.frames.get((n as usize).min(last)) {
            Some(frame) => self.exposed(frame),
            None => self.ground.clone(),
        }
    }

    /// The card with all its lettering in its place, as it lies under the camera; the
    /// middle of a crawl.
    #[must_use]
    pub fn card(&self) -> Vec<u8> {
        let whole = Exposed {
            ground_light: 1.0,
            letter_light: 1.0,
            next_light: 0.0,
            letters_mm: (0.0, 0.0),
            art_mm: (0.0, 0.0),
            lettered: true,
            letters_cover: true,
            cels: 1,
        };
        self.exposed(&whole)
    }

    /// The picture of a frame as JPEG; without a number the card as it lies under the
    /// camera.
    ///
    /// # Errors
    /// [`ProductionError::SmallPicture`] when it cannot be written.
    pub fn jpeg(&self, n: Option<u32>) -> Result<Vec<u8>, ProductionError> {
        let rgb = n.map_or_else(|| self.card(), |n| self.frame(n));
        crate::small_pictures::encode(&rgb, self.size.0, self.size.1)
    }

    /// The pictures of some frames as JPEGs, in order. Frames that look alike are coded
    /// once.
    ///
    /// # Errors
    /// [`ProductionError::SmallPicture`] when one cannot be written.
    pub fn jpegs(&self, first: u32, count: u32) -> Result<Vec<Vec<u8>>, ProductionError> {
        let last = self.frames.len().saturating_sub(1);
        let mut all: Vec<Vec<u8>> = Vec::new();
        let mut before: Option<&Exposed> = None;
        for n in first..first.saturating_add(count) {
            let frame = self.frames.get((n as usize).min(last));
            let jpeg = match all.last().filter(|_| frame == before) {
                Some(alike) => alike.clone(),
                None => self.jpeg(Some(n))?,
            };
            all.push(jpeg);
            before = frame;
        }
        Ok(all)
    }

    /// The ground alone, and the lettering that is laid over it.
    pub(super) fn parts(&self) -> (&[u8], Option<&Layer>) {
        (&self.ground, self.layer.as_ref())
    }

    /// What a crawl is judged by: none where nothing crawls.
    pub(super) fn crawl_measures(
        &self,
        field: &Field,
        safe_percent: u32,
        lines: usize,
        reading: u32,
    ) -> Option<CrawlMeasures> {
        let layer = self.layer.as_ref()?;
        self.frames
            .iter()
            .find(|frame| frame.letters_mm != (0.0, 0.0))?;
        Some(CrawlMeasures {
            shown_mm: [field.shown_mm.0, field.shown_mm.1],
            stroke_mm: layer.thin_stroke().map(|px| px / self.px_per_mm),
            safe_high_mm: field.shown_mm.1 * f64::from(safe_percent) / 100.0,
            // Each line is in view as long as reading it takes, at the least.
            line_hold: reading / u32::try_from(lines.max(1)).unwrap_or(1),
        })
    }

    /// For each frame the first one that looks like it.
    #[must_use]
    pub fn first_alike(&self) -> Vec<u32> {
        let mut first: Vec<u32> = Vec::new();
        let mut seen: Vec<(u32, &Exposed)> = Vec::new();
        for (n, frame) in (0_u32..).zip(&self.frames) {
            // Most frames look like the one before them; a crawl has none alike, and
            // looking far back for one would cost more than it saves.
            let alike = seen.iter().rev().take(64).find(|(_, one)| *one == frame);
            match alike {
                Some((known, _)) => first.push(*known),
                None => {
                    seen.push((n, frame));
                    first.push(n);
                }
            }
        }
        first
    }

    fn exposed(&self, frame: &Exposed) -> Vec<u8> {
        let px = |mm: f64| mm * self.px_per_mm;
        let ground = Ground {
            rgb: &self.ground,
            size: self.size,
            at: (
                px(frame.art_mm.0).round() as i32,
                px(frame.art_mm.1).round() as i32,
            ),
        };
        let none = Layer::clear(1, 1);
        let layer = self.layer.as_ref().unwrap_or(&none);
        let letters_at = (
            self.layer_at.0 + px(frame.letters_mm.0),
            self.layer_at.1 + px(frame.letters_mm.1),
        );
        let light_on = LightOn {
            ground: frame.ground_light,
            letters: frame.letter_light,
            cover: frame.letters_cover,
        };
        let light = frame.next_light;
        let also = self.next.as_ref().filter(|_| light > 0.0);
        let also = also.map(|rgb| Also { rgb, light });
        exposed_frame(ground, layer, letters_at, light_on, also)
    }
}

/// The lettering, and where its top left lies when its middle is in the middle of the
/// frame (a crawl) or it lies as it was set.
fn layer(
    card: Option<&SetCard>,
    size: (u32, u32),
    asked: &ExposureAsked,
) -> (Option<Layer>, (f64, f64)) {
    let Some(card) = card else {
        return (None, (0.0, 0.0));
    };
    if asked.crawl.is_none() {
        return (Some(card.draw(size.0, size.1, 0.0)), (0.0, 0.0));
    }
    // Drawn once, as tall as it is: a crawl moves it over the frame.
    let layer = card.draw_whole(size.0, MOST_CRAWL);
    let at = (f64::from(size.1) - f64::from(layer.height())) / 2.0;
    (Some(layer), (0.0, at))
}

/// The first frame of the title that it dissolves into.
fn next(
    production: &Production,
    asked: &ExposureAsked,
    stand: &StandWords,
    width: u32,
    deep: u32,
) -> Result<Option<Vec<u8>>, ProductionError> {
    let Some(to) = asked.dissolve.as_ref().filter(|_| deep > 0) else {
        return Ok(None);
    };
    let kept = KeptTitle::named(production, &to.name)?.ok_or_else(|| {
        unfit(
            format!("there is no title {} to dissolve into", to.name),
            "write that title first, or dissolve into another",
        )
    })?;
    let film = TitleFilm::drawn(production, &kept.title, stand, width, deep - 1)?;
    Ok(Some(film.frame(0)))
}

/// What lies under the lettering, with the light it has.
fn ground(
    production: &Production,
    words: &TitleGroundWords,
    size: (u32, u32),
) -> Result<Vec<u8>, ProductionError> {
    let light = 0.5_f64.powf(f64::from(words.darker) / 10.0);
    let rgb = match words.kind {
        TitleGroundWord::Plain => plain(f64::from(words.light) / 100.0, size),
        TitleGroundWord::Picture if words.picture.is_empty() => plain(0.0, size),
        TitleGroundWord::Picture => {
            let bytes = super::pictures::kept_file(production, &words.picture)?;
            ground_of(&bytes, size)?.0
        }
        TitleGroundWord::Frame if words.frame.is_empty() => plain(0.0, size),
        TitleGroundWord::Frame => middle_of_scan(&of_film(production, &words.frame)?, size)?,
    };
    if words.darker == 0 {
        return Ok(rgb);
    }
    let ground = Ground {
        rgb: &rgb,
        size,
        at: (0, 0),
    };
    let darker = LightOn {
        ground: light,
        letters: 0.0,
        cover: false,
    };
    Ok(exposed_frame(
        ground,
        &Layer::clear(1, 1),
        (0.0, 0.0),
        darker,
        None,
    ))
}

/// A scan sees more than the gate of a projector shows: edges of the film, its holes, the
/// frames before and after. The middle of it is taken. Common practice, from memory; how
/// much a transfer sees beyond the picture is not measured.
const SHOWN_OF_SCAN: f64 = 0.93;

fn middle_of_scan(jpeg: &[u8], size: (u32, u32)) -> Result<Vec<u8>, ProductionError> {
    let larger = |side: u32| (f64::from(side) / SHOWN_OF_SCAN).ceil() as u32;
    let (wide, high) = (larger(size.0), larger(size.1));
    let whole = ground_of(jpeg, (wide, high))?.0;
    let (left, top) = ((wide - size.0) / 2, (high - size.1) / 2);
    let mut middle = Vec::with_capacity(size.0 as usize * size.1 as usize * 3);
    for row in top..top + size.1 {
        let from = (row as usize * wide as usize + left as usize) * 3;
        middle.extend_from_slice(&whole[from..from + size.0 as usize * 3]);
    }
    Ok(middle)
}

/// A plain card that throws back so much of the light.
fn plain(light: f64, size: (u32, u32)) -> Vec<u8> {
    let white = vec![255; 3];
    let ground = Ground {
        rgb: &white,
        size: (1, 1),
        at: (0, 0),
    };
    let light_on = LightOn {
        ground: light,
        letters: 0.0,
        cover: false,
    };
    let one = exposed_frame(ground, &Layer::clear(1, 1), (0.0, 0.0), light_on, None);
    one.repeat(size.0 as usize * size.1 as usize)
}

/// The picture of a frame of the film.
fn of_film(production: &Production, name: &str) -> Result<Vec<u8>, ProductionError> {
    let frame: FrameName = name.parse()?;
    let mut prints = Workprints::open(production.dir())?;
    let picture = prints.picture(frame.roll.as_str(), frame.frame.index())?;
    picture.ok_or_else(|| {
        unfit(
            format!("there is no picture of {name}"),
            "read a scan of that roll first, or take another frame",
        )
    })
}
