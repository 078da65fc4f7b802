//! Long work: how it is stopped, and how it tells how far it is.
use std::fmt;
use std::ops::ControlFlow;
use std::sync::atomic::{AtomicBool, AtomicU64, Ordering};
use std::thread::{self, ThreadId};

/// The work was stopped before its end, so that it has no result.
#[derive(Clone, Copy, PartialEq, Eq, Debug, thiserror::Error)]
#[error("the work was stopped before its end")]
pub struct Stopped;

type Tell<'a> = dyn Fn(f64) -> ControlFlow<()> + Sync + 'a;

/// By what long work is watched: a flag that stops it, and a function that is told how far it is.
///
/// The work looks at the flag every few thousand rows, which takes milliseconds. The function is called as often, on the
/// thread that called for the work alone, with the fraction that is done: it rises, and ends with 1. `Break` stops the
/// work as the flag does. Stopped work gives [`Stopped`]; what it had done is lost.
///
/// ```
/// use std::ops::ControlFlow;
/// use tenths::stack::{Contributor, Sampling, Stack, StackError};
/// use tenths::{Limits, Units, Watch};
/// let mut stack = Stack::new(Units::Metric);
/// stack.add(Contributor::new("length", Limits::parse("20 ±0.1 mm")?))?;
/// // Stops after a tenth of the work.
/// let watch = Watch::telling(|done| if done < 0.1 { ControlFlow::Continue(()) } else { ControlFlow::Break(()) });
/// let stopped = stack.sample_watched(&Sampling::new(1_000_000, 1), &watch);
/// assert!(matches!(stopped, Err(StackError::Stopped(_))));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Default)]
pub struct Watch<'a> {
    is_stopped: AtomicBool,
    tell: Option<Box<Tell<'a>>>,
}

impl<'a> Watch<'a> {
    /// One that tells nobody; [`Watch::stop`] stops the work from another thread.
    pub fn new() -> Watch<'a> {
        Watch::default()
    }

    /// One that tells a function what fraction of the work is done, 0 to 1.
    pub fn telling(tell: impl Fn(f64) -> ControlFlow<()> + Sync + 'a) -> Watch<'a> {
        Watch { is_stopped: AtomicBool::new(false), tell: Some(Box::new(tell)) }
    }

    /// A watch for the first part of some work, whose end is told as this share of the whole.
    pub(crate) fn first_part(&self, share: f64) -> Watch<'_> {
        Watch::telling(move |fraction| {
            let told = self.tell.as_ref().map_or(ControlFlow::Continue(()), |tell| tell(share * fraction));
            if self.is_stopped() { ControlFlow::Break(()) } else { told }
        })
    }

    /// Stops the work, and any that is given this watch later.
    pub fn stop(&self) {
        self.is_stopped.store(true, Ordering::Relaxed);
    }

    /// Whether it was stopped.
    pub fn is_stopped(&self) -> bool {
        self.is_stopped.load(Ordering::Relaxed)
    }
}

impl fmt::Debug for Watch<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Watch { is_stopped, tell } = self;
        f.debug_struct("Watch").field("is_stopped", is_stopped).field("tells", &tell.is_some()).finish()
    }
}

/// Work of so many steps that is watched. Threads share it.
pub(crate) struct Steps<'w> {
    watch: &'w Watch<'w>,
    total: u64,
    done: AtomicU64,
    caller: ThreadId,
}

impl<'w> Steps<'w> {
    /// For work that this thread calls for.
    pub(crate) fn new(watch: &'w Watch<'w>, total: u64) -> Steps<'w> {
        Steps { watch, total, done: AtomicU64::new(0), caller: thread::current().id() }
    }

    /// Counts steps that were done, of no more than there are, and says whether the work goes on.
    pub(crate) fn count(&self, steps: u64) -> Result<(), Stopped> {
        let done = self.done.fetch_add(steps, Ordering::Relaxed) + steps;
        // The end is told once, by `end`, when nothing of the work is left.
        if done < self.total { self.tell(done as f64 / self.total as f64) } else { self.go_on() }
    }

    /// Tells that all is done.
    pub(crate) fn end(&self) -> Result<(), Stopped> {
        self.go_on()?;
        self.tell(1.0)
    }

    fn tell(&self, fraction: f64) -> Result<(), Stopped> {
        if let Some(tell) = self.watch.tell.as_ref().filter(|_| thread::current().id() == self.caller)
            && tell(fraction).is_break()
        {
            self.watch.stop();
        }
        self.go_on()
    }

    fn go_on(&self) -> Result<(), Stopped> {
        if self.watch.is_stopped() { Err(Stopped) } else { Ok(()) }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::sync::Mutex;

    #[test]
    fn only_the_caller_is_told_and_one_comes_last() {
        let told = Mutex::new(vec![]);
        let watch = Watch::telling(|fraction| {
            told.lock().unwrap().push(fraction);
            ControlFlow::Continue(())
        });
        let steps = Steps::new(&watch, 8);
        assert_eq!(steps.count(2), Ok(()));
        thread::scope(|scope| scope.spawn(|| steps.count(2)).join().unwrap()).unwrap();
        assert_eq!((steps.count(2), steps.count(2), steps.end()), (Ok(()), Ok(()), Ok(())));
        assert_eq!(*told.lock().unwrap(), [0.25, 0.75, 1.0]);
    }

    #[test]
    fn a_part_tells_its_share_and_is_stopped_with_the_whole() {
        let told = Mutex::new(vec![]);
        let watch = Watch::telling(|fraction| {
            told.lock().unwrap().push(fraction);
            if fraction < 0.3 { ControlFlow::Continue(()) } else { ControlFlow::Break(()) }
        });
        let part = watch.first_part(0.5);
        let steps = Steps::new(&part, 4);
        assert_eq!((steps.count(2), steps.count(1)), (Ok(()), Err(Stopped)));
        assert_eq!(*told.lock().unwrap(), [0.25, 0.375]);
        let flagged = Watch::new();
        flagged.stop();
        assert_eq!(Steps::new(&flagged.first_part(0.5), 4).count(1), Err(Stopped));
    }

    #[test]
    fn a_break_and_the_flag_stop_the_work_on_every_thread() {
        let broken = Watch::telling(|_| ControlFlow::Break(()));
        let steps = Steps::new(&broken, 8);
        assert_eq!(steps.count(1), Err(Stopped));
        assert_eq!(thread::scope(|scope| scope.spawn(|| steps.count(1)).join().unwrap()), Err(Stopped));
        let flagged = Watch::new();
        flagged.stop();
        assert_eq!(
            (Steps::new(&flagged, 8).count(1), Steps::new(&flagged, 0).end()),
            (Err(Stopped), Err(Stopped))
        );
    }
}
