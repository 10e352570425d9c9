//! A day at a place, from midnight to midnight by its clock.

use solar_positioning::time::JulianDate;
use solar_positioning::{Horizon, SolarEvents, SolarPositions, delta_t};

use super::camera_error::CameraError;
use super::sun::{GoldenLight, SunAsked, SunStays};

/// A day at a place.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Day {
    pub(crate) asked: SunAsked,
    /// Midnight by the clock of the place, as a Julian date.
    midnight: f64,
    /// Terrestrial time less universal time. Unit: seconds.
    delta_t: f64,
}

const MINUTES: f64 = 1440.0;

fn days_in(year: i32, month: u32) -> u32 {
    let leap = year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
    match month {
        4 | 6 | 9 | 11 => 30,
        2 if leap => 29,
        2 => 28,
        _ => 31,
    }
}

impl Day {
    pub(crate) fn of(asked: &SunAsked) -> Result<Self, CameraError> {
        let (year, month, day) = asked.date;
        let no_such_day = CameraError::NoSuchDay { year, month, day };
        let known = (1900..2200).contains(&year) && (1..=12).contains(&month);
        if !known || day == 0 || day > days_in(year, month) {
            return Err(no_such_day);
        }
        let delta_t = delta_t::estimate_from_date(year, month).map_err(|_| no_such_day.clone())?;
        let begin =
            JulianDate::from_utc(year, month, day, 0, 0, 0.0, delta_t).map_err(|_| no_such_day)?;
        Ok(Self {
            asked: *asked,
            midnight: begin.julian_date() - asked.clock_minutes / MINUTES,
            delta_t,
        })
    }

    pub(crate) fn time(&self, minute: f64) -> JulianDate {
        let julian = self.midnight + minute / MINUTES;
        JulianDate::new(julian, self.delta_t).expect("a day of these centuries is a date")
    }

    fn minute(&self, julian: f64) -> f64 {
        (julian - self.midnight) * MINUTES
    }

    /// Declination of the sun. Unit: degrees.
    pub(crate) fn declination(&self, minute: f64) -> f64 {
        let prepared = SolarPositions::new().for_time_from_julian(self.time(minute));
        prepared
            .expect("a day of these centuries is in the model's range")
            .declination()
    }

    /// When the sun rises and sets over a height, and whether it does at all.
    pub(crate) fn crossings(&self, over: Horizon) -> (Vec<f64>, Vec<f64>, Option<SunStays>) {
        let found = SolarEvents::new()
            .for_interval_from_julian(
                self.midnight,
                self.midnight + 1.0,
                self.place(),
                self.delta_t,
                over,
            )
            .expect("place and day were checked");
        let stays = match (found.always_above(), found.always_below()) {
            (true, _) => Some(SunStays::Up),
            (_, true) => Some(SunStays::Down),
            _ => None,
        };
        let minutes = |all: &[f64]| all.iter().map(|julian| self.minute(*julian)).collect();
        (minutes(&found.rises), minutes(&found.sets), stays)
    }

    /// When the sun is due south or north, at its highest.
    pub(crate) fn noon(&self) -> Option<f64> {
        let end = self.midnight + 1.0;
        let longitude = self.asked.longitude;
        let found = SolarEvents::new()
            .next_transit_from_julian(self.midnight, end, longitude, self.delta_t)
            .expect("place and day were checked");
        found.map(|julian| self.minute(julian))
    }

    /// While the sun is over a height.
    fn above(&self, over: Horizon) -> Vec<GoldenLight> {
        let (rises, sets, stays) = self.crossings(over);
        match stays {
            Some(SunStays::Down) => return Vec::new(),
            Some(SunStays::Up) => {
                return vec![GoldenLight {
                    from: 0.0,
                    to: MINUTES,
                }];
            }
            None => {}
        }
        // What was up at midnight sets first; what is up at the next has no set.
        let mut begins = rises;
        let mut ends = sets;
        if ends
            .first()
            .is_some_and(|end| begins.first().is_none_or(|begin| end < begin))
        {
            begins.insert(0, 0.0);
        }
        if begins.len() > ends.len() {
            ends.push(MINUTES);
        }
        let pairs = begins.into_iter().zip(ends);
        pairs.map(|(from, to)| GoldenLight { from, to }).collect()
    }

    /// While the sun is up.
    pub(crate) fn lit(&self) -> Vec<GoldenLight> {
        self.above(Horizon::SunriseSunset)
    }

    /// While the sun is over the lower limit of golden light and not over the upper.
    pub(crate) fn golden(&self) -> Vec<GoldenLight> {
        let [low, high] = self.asked.golden;
        let mut left = self.above(Horizon::Custom(low));
        for over in self.above(Horizon::Custom(high)) {
            let parts = left.into_iter().flat_map(|one| {
                let before = GoldenLight {
                    from: one.from,
                    to: one.to.min(over.from),
                };
                let after = GoldenLight {
                    from: one.from.max(over.to),
                    to: one.to,
                };
                [before, after]
            });
            left = parts.filter(|one| one.to > one.from).collect();
        }
        left
    }
}
