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
    each(problems, threads, watch, best_cut)
}

/// The work on each item, on so many threads, in the order of the items.
pub(super) fn each<T: Sync, R: Send>(
    items: &[T],
    threads: usize,
    watch: &Watch<'_>,
    work: impl Fn(&T) -> R + Sync,
) -> Result<Vec<R>, Stopped> {
    let steps = Steps::new(watch, items.len() as u64);
    let threads = threads.clamp(1, MAX_THREADS).min(items.len().max(1));
    let one = |item: &T| -> Result<R, Stopped> {
        steps.count(1)?;
        Ok(work(item))
    };
    let mut shares = items.chunks(items.len().div_ceil(threads).max(1));
    let own = shares.next().unwrap_or_default();
    let solve = |share: &[T]| share.iter().map(one).collect::<Result<Vec<_>, _>>();
    let solved = std::thread::scope(|scope| {
        let others: Vec<_> = shares.map(|share| scope.spawn(|| solve(share))).collect();
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
