//! Carrying on after a kill.

use onestrand_intake::Cancel;
use onestrand_store::{JobKind, JobState, Production, StoreError};

use crate::{ProductionError, Progress, finish, roll};

/// Begins again whatever a killed process left undone, oldest first, and says
/// so. Gives how many jobs were carried on.
///
/// A job that fails now is written down as failed and told as a note; it does
/// not keep the user from the film.
///
/// # Errors
/// [`ProductionError::Store`]; [`ProductionError::Stopped`] when the user
/// stops it.
pub fn carry_on(
    production: &mut Production,
    cancel: &Cancel,
    progress: &mut dyn Progress,
) -> Result<usize, ProductionError> {
    onestrand_store::Workprints::sweep(production.dir())?;
    let waiting = production.interrupted_jobs()?;
    let count = waiting.len();
    for job in waiting {
        progress.note(&format!("carrying on what was interrupted: {}", job.words));
        production.resume_job(job.id)?;
        let params = job.params.as_str();
        let ended = match job.kind {
            JobKind::Read => {
                let request = roll::request_of(params)?;
                // The roll may have been kept just before the kill.
                if production.roll(&request.roll).is_ok() {
                    production.end_job(job.id, JobState::Done, None)?;
                    Ok(())
                } else {
                    roll::run_job(production, job.id, &request, cancel, progress).map(|_| ())
                }
            }
            JobKind::Finish => {
                let request = serde_json::from_str(params).map_err(StoreError::from)?;
                finish::run_job(production, job.id, &request, cancel, progress).map(|_| ())
            }
        };
        match ended {
            Err(problem) if problem.is_stopped() => return Err(problem),
            Err(problem) => progress.note(&format!("{problem}; {}", problem.hint())),
            Ok(()) => {}
        }
    }
    Ok(count)
}
