//! Orders against brute force and against what must come first.

use super::search::Search;
use super::{SHUFFLES, tour};
use cintre_geometry::Point;
use proptest::prelude::*;

const HOME: Point = Point::ZERO;

fn length(stops: &[Vec<Point>], way: &[(usize, usize)], back: bool) -> f64 {
    let mut here = HOME;
    let mut sum = 0.0;
    for &(s, k) in way {
        sum += here.distance(stops[s][k]);
        here = stops[s][k];
    }
    sum + if back { here.distance(HOME) } else { 0.0 }
}

/// The shortest way of all, by trying every order that keeps what must come first, and every place.
fn shortest(stops: &[Vec<Point>], before: &[(usize, usize)], here: Point, done: &mut Vec<usize>) -> f64 {
    if done.len() == stops.len() {
        return 0.0;
    }
    let mut best = f64::INFINITY;
    for s in 0..stops.len() {
        let ready = before.iter().all(|&(a, b)| b != s || done.contains(&a));
        if done.contains(&s) || !ready {
            continue;
        }
        done.push(s);
        for &p in &stops[s] {
            best = best.min(here.distance(p) + shortest(stops, before, p, done));
        }
        done.pop();
    }
    best
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(40))]

    #[test]
    fn a_few_stops_go_the_shortest_way_that_keeps_what_comes_first(
        places in prop::collection::vec(prop::collection::vec((0.0..1000.0f64, 0.0..1000.0f64), 1..4), 2..7),
        pairs in prop::collection::vec((0usize..7, 0usize..7), 0..4),
    ) {
        let stops: Vec<Vec<Point>> = places.iter().map(|s| s.iter().map(|&p| p.into()).collect()).collect();
        let before: Vec<(usize, usize)> = pairs.into_iter().filter(|&(a, b)| a < b && b < stops.len()).collect();
        let way = tour(&stops, &before, (HOME, false), 0);
        let mut seen: Vec<usize> = way.iter().map(|w| w.0).collect();
        for (a, b) in &before {
            let at = |s| way.iter().position(|w| w.0 == s);
            prop_assert!(at(*a) < at(*b));
        }
        seen.sort_unstable();
        prop_assert_eq!(seen, (0..stops.len()).collect::<Vec<_>>(), "every stop once");
        let best = shortest(&stops, &before, HOME, &mut Vec::new());
        prop_assert!(length(&stops, &way, false) <= best + 1e-6, "{} of {best}", length(&stops, &way, false));
        prop_assert_eq!(way, tour(&stops, &before, (HOME, false), 0), "the same again");
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(40))]

    #[test]
    fn the_search_is_never_far_from_the_shortest_way(
        places in prop::collection::vec(prop::collection::vec((0.0..1000.0f64, 0.0..1000.0f64), 1..4), 2..7),
        pairs in prop::collection::vec((0usize..7, 0usize..7), 0..4),
    ) {
        let stops: Vec<Vec<Point>> = places.iter().map(|s| s.iter().map(|&p| p.into()).collect()).collect();
        let before: Vec<(usize, usize)> = pairs.into_iter().filter(|&(a, b)| a < b && b < stops.len()).collect();
        let mut search = Search::new(&stops, &before, HOME, false);
        search.improve(SHUFFLES * stops.len());
        let way = search.found();
        let mut seen: Vec<usize> = way.iter().map(|w| w.0).collect();
        for (a, b) in &before {
            let at = |s| way.iter().position(|w| w.0 == s);
            prop_assert!(at(*a) < at(*b));
        }
        seen.sort_unstable();
        prop_assert_eq!(seen, (0..stops.len()).collect::<Vec<_>>(), "every stop once");
        // What must come first can shut a search of exchanges in: half as long again is the worst that is borne.
        let best = shortest(&stops, &before, HOME, &mut Vec::new());
        prop_assert!(length(&stops, &way, false) <= best * 1.5 + 1e-6, "{} of {best}", length(&stops, &way, false));
    }
}

#[test]
fn a_circle_of_stops_is_gone_round() {
    let stops: Vec<Vec<Point>> = (0..60)
        .map(|k| {
            let a = f64::from((k * 37) % 60) / 60.0 * std::f64::consts::TAU;
            vec![Point::new(500.0 - 500.0 * a.cos(), 500.0 * a.sin())]
        })
        .collect();
    let way = tour(&stops, &[], (HOME, true), 2000);
    let chord = 2.0 * 500.0 * (std::f64::consts::PI / 60.0).sin();
    assert!((length(&stops, &way, true) - 60.0 * chord).abs() < 1e-6);
}
