//! How film frames are carried into a file of another rate: whole frames, some of them
//! several times.

use onestrand_film::Fps;

use crate::FinishError;

/// Which film frame each frame of a file shows: frame k shows ⌊k · film / file⌋, so that
/// n film frames take ⌈n · file / film⌉ frames of the file.
///
/// ```
/// # use onestrand_film::Fps;
/// # use onestrand_finish::Pattern;
/// let pattern = Pattern::new(Fps::EIGHTEEN, "25".parse().unwrap()).unwrap();
/// assert_eq!(pattern.file_frames(2_724), 3_784);
/// assert_eq!(pattern.cadence(), [2, 1, 2, 1, 1, 2, 1, 2, 1, 1, 2, 1, 2, 1, 1, 2, 1, 1]);
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Pattern {
    film: Fps,
    file: Fps,
    /// Frames of the file to one of the film, as a fraction in lowest terms.
    num: u64,
    den: u64,
}

/// The longest cadence that is spelt out; 16 into 30000/1001 has 2,002 frames of film.
const LONGEST: u64 = 60;

impl Pattern {
    /// The film at this speed in a file of that rate.
    ///
    /// # Errors
    /// [`FinishError::RateTooLow`] where the file has fewer frames a second than the
    /// film, so that some would have to be left out.
    pub fn new(film: Fps, file: Fps) -> Result<Self, FinishError> {
        let (film_num, film_den) = (u64::from(film.num()), u64::from(film.den()));
        let (file_num, file_den) = (u64::from(file.num()), u64::from(file.den()));
        let (num, den) = (file_num * film_den, file_den * film_num);
        if num < den {
            return Err(FinishError::RateTooLow {
                file: file.to_string(),
                film: film.to_string(),
            });
        }
        let common = gcd(num, den);
        Ok(Self {
            film,
            file,
            num: num / common,
            den: den / common,
        })
    }

    /// Frames a second of the file.
    #[must_use]
    pub const fn file_rate(&self) -> Fps {
        self.file
    }

    /// Frames of the file that so many film frames take.
    #[must_use]
    pub const fn file_frames(&self, film_frames: u64) -> u64 {
        (film_frames * self.num).div_ceil(self.den)
    }

    /// How often the film frame at this place stands in the file.
    #[must_use]
    pub const fn times(&self, place: u64) -> u64 {
        self.file_frames(place + 1) - self.file_frames(place)
    }

    /// The film frame that a frame of the file shows.
    #[must_use]
    pub const fn shown_at(&self, file_frame: u64) -> u64 {
        file_frame * self.den / self.num
    }

    /// How often each film frame stands in the file, until it begins anew; empty where
    /// that is longer than anybody would read.
    #[must_use]
    pub fn cadence(&self) -> Vec<u64> {
        let long = if self.den <= LONGEST { self.den } else { 0 };
        (0..long).map(|place| self.times(place)).collect()
    }

    /// The pattern in words.
    #[must_use]
    pub fn words(&self) -> String {
        if self.num == self.den {
            return format!(
                "played at its own speed, {} f/s, every frame once",
                self.film
            );
        }
        let cadence = self.cadence();
        let said = match cadence.is_empty() {
            true => format!(
                "{} frames of the file to {} of the film",
                self.num, self.den
            ),
            false => {
                let counts: Vec<String> = cadence.iter().map(ToString::to_string).collect();
                format!("frames stand {} times in turn", counts.join(" "))
            }
        };
        format!(
            "{} f/s in a file of {}: whole frames, {said}",
            self.film, self.file
        )
    }
}

const fn gcd(a: u64, b: u64) -> u64 {
    if b == 0 { a } else { gcd(b, a % b) }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn pattern(film: &str, file: &str) -> Pattern {
        Pattern::new(film.parse().unwrap(), file.parse().unwrap()).unwrap()
    }

    /// Frame k of the file shows film frame ⌊k · film / file⌋, counted one by one.
    #[test]
    fn every_frame_of_the_file_shows_the_frame_of_its_moment() {
        for film in ["16", "18", "24", "18000/1001"] {
            for file in ["24", "25", "30000/1001", "30", "18"] {
                let Ok(pattern) = Pattern::new(film.parse().unwrap(), file.parse().unwrap()) else {
                    continue;
                };
                let shown: Vec<u64> = (0..500)
                    .flat_map(|place| std::iter::repeat_n(place, pattern.times(place) as usize))
                    .collect();
                for (k, place) in shown.iter().enumerate() {
                    assert_eq!(
                        pattern.shown_at(k as u64),
                        *place,
                        "{film} in {file} at {k}"
                    );
                }
                assert_eq!(shown.len() as u64, pattern.file_frames(500));
            }
        }
    }

    #[test]
    fn figures_of_the_trade() {
        // Story 12 of our own book of the trade: 128 frames at 16 become 144 at 18, every
        // eighth twice.
        let old = pattern("16", "18");
        assert_eq!(old.file_frames(128), 144);
        assert_eq!(old.cadence(), [2, 1, 1, 1, 1, 1, 1, 1]);
        // 18 in 24 is three frames in four.
        assert_eq!(pattern("18", "24").cadence(), [2, 1, 1]);
        // 24 in 30000/1001 does not come out in a length anybody reads.
        assert_eq!(pattern("24", "30000/1001").cadence(), Vec::<u64>::new());
        assert!(Pattern::new("24".parse().unwrap(), "18".parse().unwrap()).is_err());
    }
}
