//! What a scan of the reel shows, brought into the log.

use onestrand_bench::{Deed, Laid, SeenFilm, deeds_to_show, film_on_the_reel, takings_seen};
use onestrand_film::RollId;
use onestrand_store::Production;
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use super::happened::written;
use super::line::BenchLine;
use super::room::{Room, Work};
use super::words::deed_words;
use super::write::{Said, still};
use crate::ProductionError;
use crate::change_acts::text_fits;
use crate::documents::{SeenDocument, SeenStrip};
use crate::error::unfit;

/// What a scan of a reel shows, which is not written down yet.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct SeenRequest {
    /// The version that the reel was proved by.
    pub cut: String,
    /// The film on the reel, from head to tail; leader and cards left out.
    pub film: Vec<SeenStrip>,
}

/// What a scan of the reel would bring into the log. Nothing is written down.
///
/// # Errors
/// [`ProductionError::Store`] where the log cannot be read.
pub fn seen_on_the_reel(
    production: &Production,
    request: &SeenRequest,
) -> Result<SeenDocument, ProductionError> {
    let room = Room::of(production)?;
    let mut document = SeenDocument {
        on_the_bench: false,
        lines: room.len(),
        strips: [count(request.film.len()), 0],
        acts: [0; 3],
        words: Vec::new(),
        refused: String::new(),
    };
    let Some(work) = room.work.as_ref().filter(|work| work.name == request.cut) else {
        return Ok(document);
    };
    document.on_the_bench = true;
    document.strips[1] = count(film_on_the_reel(room.log.state().reel()).len());
    match deeds(&room, work, &request.film) {
        Ok(deeds) => {
            let many = |code: &str| deeds.iter().filter(|d| d.code() == code).count();
            let (cuts, joins) = (many("cut"), many("join"));
            document.acts = [count(cuts), count(joins), count(deeds.len() - cuts - joins)];
            document.words = deeds.iter().map(|deed| deed_words(deed, work)).collect();
        }
        Err(ProductionError::Unfit { message, .. }) => document.refused = message,
        Err(other) => return Err(other),
    }
    Ok(document)
}

/// Writes down what a scan of the reel shows: a remark that says so, and the acts.
pub(super) fn seen(
    production: &Production,
    lines: u32,
    scan: &str,
    film: &[SeenStrip],
) -> Result<Said, ProductionError> {
    text_fits("name of the scan", scan)?;
    let room = Room::of(production)?;
    still(&room, lines)?;
    let work = room.working()?;
    let deeds = deeds(&room, work, film)?;
    if deeds.is_empty() {
        return Err(unfit(
            "the log already has on the reel what the scan shows".to_owned(),
            "go on with the next act",
        ));
    }
    let joins = deeds.iter().filter(|d| d.code() == "join").count();
    let acts = if deeds.len() == 1 {
        "1 act"
    } else {
        &format!("{} acts", deeds.len())
    };
    let words = format!(
        "{acts} that nobody ticked, {joins} of them joins, written down as a scan of the reel shows \
         them: {}. Which join was made, what hangs where and who did it the scan does not show; it \
         is written as it was planned",
        scan.trim()
    );
    let mut all = vec![BenchLine::Remark {
        words: words.clone(),
    }];
    all.extend(deeds.iter().map(|deed| BenchLine::Deed {
        deed: written(deed),
    }));
    Ok((
        format!("the bench brought up to a scan of the reel: {acts}"),
        all,
    ))
}

fn deeds(room: &Room, work: &Work, film: &[SeenStrip]) -> Result<Vec<Deed>, ProductionError> {
    let film: Vec<SeenFilm> = film.iter().map(film_seen).collect::<Result<_, _>>()?;
    let (state, table) = (room.log.state(), room.log.table());
    let only = Work {
        order: takings_seen(&work.order, &work.strips, &film),
        ..work.clone()
    };
    let mut left = |state: &_| only.left_from(state, table);
    deeds_to_show(state, (&work.strips, table), &mut left, &film).map_err(|problem| {
        unfit(
            problem.to_string(),
            "say what really happened in the Bench room, act by act; or strike out what was \
             written by mistake",
        )
    })
}

fn film_seen(strip: &SeenStrip) -> Result<SeenFilm, ProductionError> {
    if strip.first >= strip.thrown {
        return Err(unfit(
            format!(
                "{}·{} to {} is no film",
                strip.roll, strip.first, strip.thrown
            ),
            "take the runs of film as the proof gives them",
        ));
    }
    Ok(SeenFilm {
        roll: RollId::new(&strip.roll).map_err(|e| unfit(e.to_string(), "name the roll"))?,
        begin: strip.first,
        end: strip.thrown,
        // Seen from the other side it was turned over; on its head it was laid end for
        // end.
        laid: match (strip.mirrored, strip.upside_down) {
            (false, false) => Laid::Right,
            (true, false) => Laid::TurnedOver,
            (false, true) => Laid::EndForEnd,
            (true, true) => Laid::EndOverEnd,
        },
    })
}

fn count(number: usize) -> u32 {
    u32::try_from(number).unwrap_or(u32::MAX)
}
