//! Many choices at once: metals, tools, diameters.
use super::best::best_cut;
use super::problem::{BestCutError, CutProblem};
use super::result::BestCut;
use crate::Stopped;
use crate::parallel::MAX_THREADS;
use crate::watch::{Steps, Watch};

/// The best cut of each problem, on so many threads, to the same bits with any number of them.
///
/// # Errors
/// [`Stopped`] where the watch stops the work. Each problem has its own result or error.
pub fn best_cuts(
    problems: &[CutProblem],
    threads: usize,
    watch: &Watch<'_>,
) -> Result<Vec<Result<BestCut, BestCutError>>, Stopped> {
    let steps = Steps::new(watch, problems.len() as u64);
    let threads = threads.clamp(1, MAX_THREADS).min(problems.len().max(1));
    let each = |problem: &CutProblem| -> Result<Result<BestCut, BestCutError>, Stopped> {
        steps.count(1)?;
        Ok(best_cut(problem))
    };
    let share = problems.len().div_ceil(threads).max(1);
    let mut shares = problems.chunks(share);
    let own = shares.next().unwrap_or_default();
    let solve = |share: &[CutProblem]| share.iter().map(each).collect::<Result<Vec<_>, _>>();
    let solved = std::thread::scope(|scope| {
        let others: Vec<_> = shares.map(|share| scope.spawn(move || solve(share))).collect();
        let mut solved = solve(own);
        for other in others {
            let part = other.join().unwrap_or(Err(Stopped));
            solved = solved.and_then(|mut solved| {
                solved.extend(part?);
                Ok(solved)
            });
        }
        solved
    })?;
    steps.end()?;
    Ok(solved)
}
