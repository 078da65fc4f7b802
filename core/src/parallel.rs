//! Work that threads share. Its result never depends on how many there are.

/// The most threads that share any work, whatever is asked for: each costs a stack, and a machine that has no room for
/// another stops the program.
pub const MAX_THREADS: usize = 256;

/// How many threads share work of so many parts; zero stands for as many as the machine runs at once.
pub(crate) fn threads_for(wanted: usize, parts: u64) -> usize {
    let wanted = match wanted {
        0 => std::thread::available_parallelism().map_or(1, usize::from),
        wanted => wanted,
    };
    wanted.min(MAX_THREADS).min(usize::try_from(parts).unwrap_or(usize::MAX)).max(1)
}

/// What every thread made of the same work; the first error stands for all.
pub(crate) fn on_threads<T: Send, E: Send>(
    threads: usize,
    work: &(impl Fn() -> Result<T, E> + Sync),
) -> Result<Vec<T>, E> {
    if threads == 1 {
        return Ok(vec![work()?]);
    }
    std::thread::scope(|scope| {
        let others: Vec<_> = (1..threads).map(|_| scope.spawn(work)).collect();
        let mut all = vec![work()];
        for other in others {
            match other.join() {
                Ok(done) => all.push(done),
                Err(panic) => std::panic::resume_unwind(panic),
            }
        }
        all.into_iter().collect()
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_more_threads_than_parts_nor_than_the_most() {
        assert_eq!(threads_for(100_000, 1_000_000), MAX_THREADS);
        assert_eq!([threads_for(8, 3), threads_for(2, 3), threads_for(5, 0)], [3, 2, 1]);
        assert!((1..=MAX_THREADS).contains(&threads_for(0, u64::MAX)));
    }
}
