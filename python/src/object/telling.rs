//! What an object tells: at once, or, of one of many, when somebody first asks.
use std::ops::Deref;
use std::sync::{Arc, OnceLock};
use tenths::object::{Object, Told};

/// The values of an object of the core.
pub(super) enum Telling {
    /// Those at hand.
    Now(Told),
    /// Those of one object of many, in its place.
    Later { told: OnceLock<Told>, many: Arc<dyn Many>, place: usize },
}

/// Objects of the core that are told one by one.
pub(super) trait Many: Send + Sync {
    fn tell(&self, place: usize) -> Told;
}

impl<O: Object + Send + Sync> Many for Vec<O> {
    fn tell(&self, place: usize) -> Told {
        self[place].tell()
    }
}

impl Telling {
    pub fn later(many: Arc<dyn Many>, place: usize) -> Self {
        Telling::Later { told: OnceLock::new(), many, place }
    }
}

impl Deref for Telling {
    type Target = Told;

    fn deref(&self) -> &Told {
        match self {
            Telling::Now(told) => told,
            Telling::Later { told, many, place } => told.get_or_init(|| many.tell(*place)),
        }
    }
}
