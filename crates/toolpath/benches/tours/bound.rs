//! A bound that no round way through contours beats.
//!
//! Each contour is entered and left at one of its points. A spanning tree with one edge more (a 1-tree) over the contours,
//! each edge at its cheapest pair of points, is no longer than any round way; so is one with prices on the points, when what
//! they cost at the cheapest point of each contour is added back. `pi` is the price of an edge at a point, `mu` that of going
//! to a contour from a point that is not the one chosen: `L = 1-tree(d - pi_p + mu_pk - pi_q + mu_qj) + sum of the least
//! 2 pi_p - sum of mu_pk`. Prices are bettered by subgradient steps. What must come first is left out, which only lowers it.

use cintre_geometry::Point;

struct Prices<'a> {
    contours: &'a [Vec<Point>],
    /// Which contour and which of its points.
    points: Vec<(usize, Point)>,
    first: Vec<usize>,
    pi: Vec<f64>,
    /// For each point, by contour.
    mu: Vec<Vec<f64>>,
}

/// The best bound found in so many steps; `way` is the length of a way that there is.
pub(crate) fn lower_bound(contours: &[Vec<Point>], way: f64, steps: usize) -> f64 {
    let mut prices = Prices::new(contours);
    let (mut best, mut pace, mut since) = (0.0_f64, 1.0, 0);
    for _ in 0..steps {
        let (bound, edges, chosen) = prices.bound();
        since += 1;
        if bound > best {
            (best, since) = (bound, 0);
        } else if since > 15 {
            (pace, since) = (pace / 2.0, 0);
        }
        prices.step(pace * (way - bound).max(way * 1e-4), &edges, &chosen);
    }
    best
}

impl<'a> Prices<'a> {
    fn new(contours: &'a [Vec<Point>]) -> Self {
        let points: Vec<(usize, Point)> = contours
            .iter()
            .enumerate()
            .flat_map(|(k, c)| c.iter().map(move |&p| (k, p)))
            .collect();
        let first = (0..contours.len())
            .map(|k| points.iter().position(|p| p.0 == k).unwrap_or(0))
            .collect();
        Self {
            contours,
            first,
            pi: vec![0.0; points.len()],
            mu: vec![vec![0.0; contours.len()]; points.len()],
            points,
        }
    }

    fn own(&self, contour: usize) -> std::ops::Range<usize> {
        self.first[contour]..self.first[contour] + self.contours[contour].len()
    }

    /// The cheapest edge between two contours: its cost and its points.
    fn edge(&self, j: usize, k: usize) -> (f64, usize, usize) {
        let mut best = (f64::INFINITY, 0, 0);
        for p in self.own(j) {
            for q in self.own(k) {
                let d = self.points[p].1.distance(self.points[q].1);
                let cost = d - self.pi[p] + self.mu[p][k] - self.pi[q] + self.mu[q][j];
                if cost < best.0 {
                    best = (cost, p, q);
                }
            }
        }
        best
    }

    /// The bound at these prices, the edges of its 1-tree and the point chosen in each contour.
    fn bound(&self) -> (f64, Vec<(usize, usize)>, Vec<usize>) {
        let n = self.contours.len();
        let mut edges = Vec::with_capacity(n);
        let mut sum = 0.0;
        // A tree over all but the last, and the last joined by its two cheapest edges.
        let mut reach: Vec<(f64, usize, usize)> = (0..n - 1).map(|k| self.edge(0, k)).collect();
        let mut within = vec![false; n - 1];
        within[0] = true;
        for _ in 1..n - 1 {
            let Some(next) = (0..n - 1)
                .filter(|&k| !within[k])
                .min_by(|&a, &b| reach[a].0.total_cmp(&reach[b].0))
            else {
                break;
            };
            within[next] = true;
            sum += reach[next].0;
            edges.push((reach[next].1, reach[next].2));
            for k in (0..n - 1).filter(|&k| !within[k]) {
                let edge = self.edge(next, k);
                if edge.0 < reach[k].0 {
                    reach[k] = edge;
                }
            }
        }
        let mut home: Vec<(f64, usize, usize)> = (0..n - 1).map(|k| self.edge(n - 1, k)).collect();
        home.sort_by(|a, b| a.0.total_cmp(&b.0));
        for edge in &home[..2] {
            sum += edge.0;
            edges.push((edge.1, edge.2));
        }
        let mut chosen = Vec::with_capacity(n);
        for k in 0..n {
            let price = |&p: &usize| 2.0 * self.pi[p] - self.mu[p].iter().sum::<f64>();
            let cheapest = self
                .own(k)
                .min_by(|a, b| price(a).total_cmp(&price(b)))
                .unwrap_or(0);
            sum += price(&cheapest);
            chosen.push(cheapest);
        }
        (sum, edges, chosen)
    }

    /// A step uphill: `gap` is how much it would gain if the slope went on.
    fn step(&mut self, gap: f64, edges: &[(usize, usize)], chosen: &[usize]) {
        let mut of_pi = vec![0.0; self.points.len()];
        let mut of_mu = vec![vec![0.0; self.contours.len()]; self.points.len()];
        for &(p, q) in edges {
            for (a, b) in [(p, q), (q, p)] {
                of_pi[a] -= 1.0;
                of_mu[a][self.points[b].0] += 1.0;
            }
        }
        for &p in chosen {
            of_pi[p] += 2.0;
            for (k, g) in of_mu[p].iter_mut().enumerate() {
                if k != self.points[p].0 {
                    *g -= 1.0;
                }
            }
        }
        // A price that is 0 and would fall stays.
        for (row, g) in self.mu.iter().zip(&mut of_mu) {
            for (m, g) in row.iter().zip(g) {
                if *m <= 0.0 && *g < 0.0 {
                    *g = 0.0;
                }
            }
        }
        let squares = |v: &[f64]| v.iter().map(|g| g * g).sum::<f64>();
        let norm = squares(&of_pi) + of_mu.iter().map(|row| squares(row)).sum::<f64>();
        if norm <= 0.0 {
            return;
        }
        let t = gap / norm;
        for (price, g) in self.pi.iter_mut().zip(&of_pi) {
            *price += t * g;
        }
        for (row, g) in self.mu.iter_mut().zip(&of_mu) {
            for (price, g) in row.iter_mut().zip(g) {
                *price = (*price + t * g).max(0.0);
            }
        }
    }
}
