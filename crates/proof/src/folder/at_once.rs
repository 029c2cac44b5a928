//! Independent pieces of work done by as many threads as the machine has cores.

use std::num::NonZero;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::thread;

/// What `work` makes of each item, in the items' order, however many threads there are.
pub(super) fn at_once<T: Sync, R: Send>(items: &[T], work: impl Fn(&T) -> R + Sync) -> Vec<R> {
    let next = AtomicUsize::new(0);
    let worker = || {
        let mut done = Vec::new();
        loop {
            let number = next.fetch_add(1, Ordering::Relaxed);
            let Some(item) = items.get(number) else {
                return done;
            };
            done.push((number, work(item)));
        }
    };
    let cores = thread::available_parallelism().map_or(1, NonZero::get);
    let mut done = thread::scope(|scope| {
        let others: Vec<_> = (1..cores.min(items.len())).map(|_| scope.spawn(worker)).collect();
        let mut done = worker();
        for other in others {
            done.extend(
                other
                    .join()
                    .unwrap_or_else(|panic| std::panic::resume_unwind(panic)),
            );
        }
        done
    });
    done.sort_by_key(|(number, _)| *number);
    done.into_iter().map(|(_, made)| made).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_made_comes_in_the_order_of_the_items() {
        let items: Vec<u64> = (0..100).collect();
        // The first take longest, so that others overtake them.
        let squares = at_once(&items, |n| {
            thread::sleep(std::time::Duration::from_micros(200 - 2 * n));
            n * n
        });
        assert!(squares.iter().zip(&items).all(|(square, n)| *square == n * n));
        assert_eq!(squares.len(), items.len());
        assert!(at_once(&[], |n: &u64| *n).is_empty());
    }
}
