//! How long a layout is searched for: until Ctrl-C, or as long as was asked for.

use signal_hook::consts::SIGINT;
use signal_hook::flag::{register, register_conditional_default};
use std::io;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::{Duration, Instant};

/// Somebody waiting. Ctrl-C ends the search once, with what it has found so far; after that, as anywhere else, the run.
#[derive(Debug)]
pub(crate) struct Patience {
    enough: Arc<AtomicBool>,
    until: Option<Instant>,
}

impl Patience {
    /// Begins to wait, for so long at most where that is said.
    pub(crate) fn begin(most: Option<Duration>) -> io::Result<Self> {
        let enough = Arc::new(AtomicBool::new(false));
        // In this order: a first Ctrl-C finds the flag down, passes the one by and is noted by the other.
        register_conditional_default(SIGINT, Arc::clone(&enough))?;
        register(SIGINT, Arc::clone(&enough))?;
        let until = most.and_then(|most| Instant::now().checked_add(most));
        Ok(Self { enough, until })
    }

    /// Whether it is enough.
    pub(crate) fn is_over(&self) -> bool {
        self.enough.load(Ordering::Relaxed) || self.until.is_some_and(|until| Instant::now() >= until)
    }
}

impl Drop for Patience {
    /// Nothing is searched for any more: from here on Ctrl-C ends the run.
    fn drop(&mut self) {
        self.enough.store(true, Ordering::Relaxed);
    }
}
