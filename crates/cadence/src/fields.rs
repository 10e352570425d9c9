//! Film frames from interlaced files: fields first, film frames woven of them.

use std::collections::VecDeque;

use crate::{CadenceError, CadenceFinder, CadenceSettings, FilmFrame, Found, Standing};

/// Which field of a frame is older.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum FieldOrder {
    /// The lines 0, 2, 4, … are older.
    TopFirst,
    /// The lines 1, 3, 5, … are older.
    BottomFirst,
}

/// A film frame of an interlaced file: the file frames whose top and bottom
/// fields show it best, and which woven together are free of comb.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct WovenFrame {
    /// Its number on the roll, from 0.
    pub number: u32,
    /// How it is known: the worse of its two fields.
    pub standing: Standing,
    /// The file frame that gives the lines 0, 2, 4, …
    pub top: Option<u64>,
    /// The file frame that gives the lines 1, 3, 5, …
    pub bottom: Option<u64>,
    /// Fields of the file that show it.
    pub fields: u32,
}

/// Finds film frames among the fields of an interlaced file.
///
/// Top and bottom fields lie half a line apart, so that two of one film frame
/// differ nearly as much as two of neighbours. Fields of one kind are compared
/// among themselves: each kind is a transfer of its own at the rate of the file's
/// frames, and both show the same film frames.
#[derive(Debug)]
pub struct FieldFinder {
    order: FieldOrder,
    kinds: [CadenceFinder; 2],
    /// Film frames told of each kind and not yet woven.
    told: [VecDeque<FilmFrame>; 2],
    /// By how many film frames the bottom fields begin later; known once enough
    /// film frames are told.
    lead: Option<i64>,
    woven: u32,
}

/// Film frames of both kinds that must be told before they are put together.
const COMPARED: usize = 8;

impl FieldFinder {
    /// A finder for one roll. The settings' rate is that of the file's frames.
    #[must_use]
    pub fn new(settings: CadenceSettings, order: FieldOrder) -> Self {
        Self {
            order,
            kinds: [CadenceFinder::new(settings), CadenceFinder::new(settings)],
            told: [VecDeque::new(), VecDeque::new()],
            lead: None,
            woven: 0,
        }
    }

    /// Takes the planes of a file frame's top and bottom field, each scaled from
    /// its own lines to the size of a plane, and tells what is certain now.
    ///
    /// # Errors
    /// [`CadenceError::PlaneSize`].
    pub fn push(&mut self, top: &[u8], bottom: &[u8]) -> Result<Vec<WovenFrame>, CadenceError> {
        for (kind, plane) in [top, bottom].into_iter().enumerate() {
            let told = self.kinds[kind].push(plane)?;
            self.told[kind].extend(told);
        }
        Ok(self.weave(false))
    }

    /// Tells the rest, and what was found of the top fields; its cadence counts
    /// frames, [`WovenFrame::fields`] the fields.
    #[must_use]
    pub fn finish(mut self) -> (Vec<WovenFrame>, Found) {
        let [top, bottom] = std::mem::replace(
            &mut self.kinds,
            [0, 1].map(|_| CadenceFinder::new(CadenceSettings::default())),
        );
        let (rest, found) = top.finish();
        self.told[0].extend(rest);
        self.told[1].extend(bottom.finish().0);
        (self.weave(true), found)
    }

    fn weave(&mut self, is_end: bool) -> Vec<WovenFrame> {
        let least = self.told.iter().map(VecDeque::len).min().unwrap_or(0);
        if self.lead.is_none() && (least >= COMPARED || is_end) {
            self.lead = Some(self.lead());
            self.drop_lead();
        }
        if self.lead.is_none() {
            return Vec::new();
        }
        let mut woven = Vec::new();
        loop {
            let [top, bottom] = [self.told[0].pop_front(), self.told[1].pop_front()];
            match (top, bottom) {
                (None, None) => break,
                (Some(top), Some(bottom)) => woven.push(self.pair(Some(&top), Some(&bottom))),
                (one, other) if is_end => woven.push(self.pair(one.as_ref(), other.as_ref())),
                (one, other) => {
                    self.told[0].extend(one);
                    self.told[1].extend(other);
                    break;
                }
            }
        }
        woven
    }

    /// At the head one kind may show a film frame of which the other has none:
    /// it goes out with the field it has.
    fn drop_lead(&mut self) {
        let lead = self.lead.unwrap_or(0);
        let (late, count) = if lead > 0 { (1, lead) } else { (0, -lead) };
        for _ in 0..count {
            let wanting = FilmFrame {
                number: 0,
                standing: Standing::Missing,
                shown_by: None,
                share: 0.0,
                file_frames: (0, 0),
                unmix: Vec::new(),
                recipe: None,
            };
            self.told[late].push_front(wanting);
        }
    }

    /// By how many film frames the bottom fields begin later than the top ones,
    /// so that both show each film frame at the same time.
    fn lead(&self) -> i64 {
        let newer = match self.order {
            FieldOrder::TopFirst => [0.0, 0.5],
            FieldOrder::BottomFirst => [0.5, 0.0],
        };
        let middle = |kind: usize, frame: &FilmFrame| {
            let (from, until) = frame.file_frames;
            (from + until - 1) as f64 / 2.0 + newer[kind]
        };
        let apart = |lead: i64| {
            let (skip_top, skip_bottom) = (lead.max(0) as usize, (-lead).max(0) as usize);
            let tops = self.told[0].iter().skip(skip_top + 1);
            let pairs = tops.zip(self.told[1].iter().skip(skip_bottom + 1));
            let shown =
                pairs.filter(|(top, bottom)| top.shown_by.is_some() && bottom.shown_by.is_some());
            let offs: Vec<f64> = shown
                .map(|(top, bottom)| (middle(0, top) - middle(1, bottom)).abs())
                .collect();
            offs.iter().sum::<f64>() / offs.len().max(1) as f64
        };
        let leads = [0_i64, 1, -1].into_iter();
        leads
            .min_by(|a, b| apart(*a).total_cmp(&apart(*b)))
            .unwrap_or(0)
    }

    fn pair(&mut self, top: Option<&FilmFrame>, bottom: Option<&FilmFrame>) -> WovenFrame {
        let number = self.woven;
        self.woven += 1;
        let both = [top, bottom].into_iter().flatten();
        let fields = both
            .clone()
            .map(|frame| (frame.file_frames.1 - frame.file_frames.0) as u32);
        let seen = both.clone().filter(|frame| frame.shown_by.is_some());
        let rank = |standing: &Standing| match standing {
            Standing::Clean => 0,
            Standing::Counted => 1,
            Standing::Blended => 2,
            Standing::Missing => 3,
        };
        let worst = seen.map(|frame| frame.standing).max_by_key(rank);
        WovenFrame {
            number,
            standing: worst.unwrap_or(Standing::Missing),
            top: top.and_then(|frame| frame.shown_by),
            bottom: bottom.and_then(|frame| frame.shown_by),
            fields: fields.sum(),
        }
    }
}

/// A picture from the even lines of one frame and the odd lines of another, each
/// given whole; `line` samples a line.
///
/// # Errors
/// [`CadenceError::PictureSize`] when they differ in size.
pub fn weave<S: Copy>(top: &[S], bottom: &[S], line: usize) -> Result<Vec<S>, CadenceError> {
    if top.len() != bottom.len() {
        return Err(CadenceError::PictureSize {
            first: top.len(),
            other: bottom.len(),
        });
    }
    let lines = top.chunks(line.max(1)).zip(bottom.chunks(line.max(1)));
    let woven = lines.enumerate().flat_map(
        |(at, (top, bottom))| {
            if at.is_multiple_of(2) { top } else { bottom }
        },
    );
    Ok(woven.copied().collect())
}
