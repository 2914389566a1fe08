//! Packing round wires into the smallest circle: descent on overlaps from many starts, with a fixed
//! seed and counted work, so that the same wires give the same answer on every machine. What comes
//! out is always a real packing: it is spread until nothing overlaps, and then measured.

/// A wire in the packing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Disc {
    pub x: f64,
    pub y: f64,
    pub r: f64,
}

/// Work in pair distances: under 20 ms in a release build, under 50 ms for many wires.
const WORK_FEW: usize = 13_000_000;
const WORK_MANY: usize = 34_000_000;
/// Few discs have few answers.
const ROUNDS_PER_DISC: usize = 20;
/// What a step costs beside its pair distances, for each disc.
const STEP_OVER: usize = 30;
const MANY: usize = 40;

/// The smallest circle found around discs of these radii: the discs about its centre, and its
/// radius.
pub(super) fn pack(radii: &[f64]) -> (Vec<Disc>, f64) {
    match radii {
        [] => (Vec::new(), 0.0),
        [r] => (vec![Disc { x: 0.0, y: 0.0, r: *r }], *r),
        radii => Search::new(radii).run(),
    }
}

/// A generator of numbers that only look like chance (SplitMix64).
struct Dice(u64);

impl Dice {
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    /// From 0 up to 1.
    fn share(&mut self) -> f64 {
        (self.next() >> 11) as f64 / (1_u64 << 53) as f64
    }

    fn below(&mut self, n: usize) -> usize {
        ((self.share() * n as f64) as usize).min(n.saturating_sub(1))
    }
}

struct Search {
    /// Scaled so that the largest is 1, largest first.
    radii: Vec<f64>,
    scale: f64,
    /// Where each stood in the list given.
    order: Vec<usize>,
    dice: Dice,
    work: usize,
}

type Places = Vec<(f64, f64)>;

impl Search {
    fn new(given: &[f64]) -> Self {
        let mut order: Vec<usize> = (0..given.len()).collect();
        let radius = |i: &usize| given.get(*i).copied().unwrap_or(0.0);
        order.sort_by(|a, b| radius(b).total_cmp(&radius(a)));
        let scale = order.first().map_or(1.0, radius).max(f64::MIN_POSITIVE);
        let radii = order.iter().map(|i| radius(i) / scale).collect();
        let work = if given.len() > MANY { WORK_MANY } else { WORK_FEW };
        Self { radii, scale, order, dice: Dice(given.len() as u64), work }
    }

    fn run(mut self) -> (Vec<Disc>, f64) {
        let mut best: Option<(Places, f64)> = None;
        let mut round = 0;
        while self.work > 0 && round < ROUNDS_PER_DISC * self.radii.len() {
            let start = self.start(round, best.as_ref());
            let found = self.settle(start);
            let (places, radius) = self.spread(found);
            if best.as_ref().is_none_or(|(_, least)| radius < *least) {
                best = Some((places, radius));
            }
            round += 1;
            // One disc, or two, have one answer.
            if self.radii.len() <= 2 {
                break;
            }
        }
        let (places, radius) = best.unwrap_or_default();
        let mut discs = vec![Disc { x: 0.0, y: 0.0, r: 0.0 }; self.radii.len()];
        for ((at, (x, y)), r) in self.order.iter().zip(&places).zip(&self.radii) {
            if let Some(disc) = discs.get_mut(*at) {
                *disc = Disc { x: x * self.scale, y: y * self.scale, r: r * self.scale };
            }
        }
        (discs, radius * self.scale)
    }

    /// Regular patterns first, then the best one shaken, and chance between.
    fn start(&mut self, round: usize, best: Option<&(Places, f64)>) -> Places {
        let n = self.radii.len();
        match (round, best) {
            (0, _) => self.hexagonal(0.0, 0.0),
            (1, _) => self.hexagonal(0.5, 0.288_675),
            (2, _) => self.hexagonal(0.5, 0.0),
            (3, _) => self.rings(1),
            (4, _) => self.rings(2),
            (5, _) => self.rings(3),
            (6, _) => self.rings(4),
            (7, _) => self.rings(5),
            (8, _) => self.curved(),
            (round, Some((places, radius))) if round % 4 != 0 => self.shaken(places.clone(), *radius),
            _ => {
                let reach = self.reach();
                (0..n)
                    .map(|_| {
                        let (turn, far) =
                            (self.dice.share() * std::f64::consts::TAU, self.dice.share().sqrt());
                        (reach * far * turn.cos(), reach * far * turn.sin())
                    })
                    .collect()
            }
        }
    }

    /// The radius of a circle the discs fill to nine tenths.
    fn reach(&self) -> f64 {
        (self.radii.iter().map(|r| r * r).sum::<f64>() / 0.9).sqrt()
    }

    /// The points of a triangular grid nearest a centre, largest discs innermost.
    fn hexagonal(&self, cx: f64, cy: f64) -> Places {
        let mean = self.radii.iter().sum::<f64>() / self.radii.len() as f64;
        let half = (self.radii.len() as f64).sqrt() as i32 + 2;
        let mut points: Places = Vec::new();
        for row in -half..=half {
            for column in -half..=half {
                let (row, column) = (f64::from(row), f64::from(column));
                points.push((column + row * 0.5 - cx, row * 0.866_025_403_784 - cy));
            }
        }
        points.sort_by(|a, b| a.0.hypot(a.1).total_cmp(&b.0.hypot(b.1)));
        points.into_iter().take(self.radii.len()).map(|(x, y)| (x * 2.0 * mean, y * 2.0 * mean)).collect()
    }

    /// Rings around this many discs in the middle, each as full as it gets.
    fn rings(&self, inner: usize) -> Places {
        let mut left = self.radii.len();
        let mut counts = Vec::new();
        let mut size = inner;
        while left > 0 {
            let here = size.min(left);
            counts.push(here);
            left -= here;
            size += 6;
        }
        let mut places = Vec::new();
        for (ring, count) in counts.into_iter().enumerate() {
            let radius = match (ring, inner) {
                (0, 1) => 0.0,
                (0, inner) => 1.0 / (std::f64::consts::PI / inner as f64).sin(),
                (ring, inner) => 2.0 * ring as f64 + if inner == 1 { 0.0 } else { 1.0 },
            };
            places.extend((0..count).map(|i| {
                let turn = std::f64::consts::TAU * (i as f64 + 0.25 * ring as f64) / count as f64;
                (radius * turn.cos(), radius * turn.sin())
            }));
        }
        places
    }

    /// The hexagon of 3k(k+1)+1 discs with its sides curved into rings: the best known packing of
    /// some of these numbers.
    fn curved(&self) -> Places {
        let mut places = vec![(0.0, 0.0)];
        let mut ring = 1_usize;
        while places.len() < self.radii.len() {
            let radius = 2.0 * ring as f64;
            for i in 0..6 * ring {
                let (arm, step) = (i / ring, i % ring);
                let within = step as f64 / ring as f64;
                let twist = (ring as f64 - 1.0) * 0.0833 * std::f64::consts::FRAC_PI_3;
                let turn = std::f64::consts::FRAC_PI_3 * (arm as f64 + within) + twist;
                places.push((radius * turn.cos(), radius * turn.sin()));
            }
            ring += 1;
        }
        places.truncate(self.radii.len());
        places
    }

    /// A packing with a few discs moved: into the widest hole, changed with one of another size, or
    /// all a little.
    fn shaken(&mut self, mut places: Places, radius: f64) -> Places {
        let n = places.len();
        match self.dice.below(4) {
            0 => {
                for _ in 0..1 + self.dice.below(3) {
                    let (a, b) = (self.dice.below(n), self.dice.below(n));
                    places.swap(a, b);
                }
            }
            1 | 2 => {
                for _ in 0..1 + self.dice.below(2) {
                    let moved = self.dice.below(n);
                    let hole = self.widest_hole(&places, moved, radius);
                    if let Some(place) = places.get_mut(moved) {
                        *place = hole;
                    }
                }
            }
            _ => {
                let far = 0.2 + 0.6 * self.dice.share();
                for place in &mut places {
                    place.0 += far * (self.dice.share() - 0.5) * 2.0;
                    place.1 += far * (self.dice.share() - 0.5) * 2.0;
                }
            }
        }
        places
    }

    /// Of some places drawn in the circle, the one with most room.
    fn widest_hole(&mut self, places: &Places, moved: usize, radius: f64) -> (f64, f64) {
        let mut widest = ((0.0, 0.0), f64::NEG_INFINITY);
        self.work = self.work.saturating_sub(40 * places.len());
        for _ in 0..40 {
            let (turn, far) = (self.dice.share() * std::f64::consts::TAU, self.dice.share().sqrt() * radius);
            let (x, y) = (far * turn.cos(), far * turn.sin());
            let others = places.iter().zip(&self.radii).enumerate().filter(|(i, _)| *i != moved);
            let free = others.map(|(_, ((px, py), r))| (px - x).hypot(py - y) - r);
            let free = free.fold(radius - far, f64::min);
            if free > widest.1 {
                widest = ((x, y), free);
            }
        }
        widest.0
    }

    /// Presses the discs together: the circle shrinks step by step while overlaps are driven out.
    fn settle(&mut self, mut places: Places) -> Places {
        let mut size = self.reach();
        for (pressure, steps) in [(0.1, 60), (0.02, 60), (0.004, 80), (0.000_8, 100)] {
            (places, size) = self.descend(places, size, pressure, steps);
        }
        places
    }

    /// Descends on overlaps squared plus pressure times the circle's radius: L-BFGS with a short
    /// memory and a backtracking step.
    fn descend(&mut self, places: Places, size: f64, pressure: f64, steps: usize) -> (Places, f64) {
        let n = places.len();
        let mut x: Vec<f64> = places.iter().flat_map(|(a, b)| [*a, *b]).chain([size]).collect();
        let mut gradient = vec![0.0; x.len()];
        let mut value = self.energy(&x, pressure, &mut gradient);
        let mut memory = Memory::default();
        let (mut tried, mut tried_gradient) = (x.clone(), gradient.clone());
        for _ in 0..steps {
            if self.work == 0 {
                break;
            }
            let mut direction = memory.direction(&gradient);
            let mut slope = dot(&direction, &gradient);
            if slope >= 0.0 {
                memory = Memory::default();
                direction = gradient.iter().map(|g| -g * 0.25).collect();
                slope = dot(&direction, &gradient);
            }
            if slope > -1e-14 {
                break;
            }
            let mut step = 1.0;
            let mut better = None;
            for _ in 0..12 {
                for ((t, x), d) in tried.iter_mut().zip(&x).zip(&direction) {
                    *t = x + step * d;
                }
                let there = self.energy(&tried, pressure, &mut tried_gradient);
                if there <= value + 1e-4 * step * slope {
                    better = Some(there);
                    break;
                }
                step *= 0.5;
            }
            let Some(there) = better else { break };
            memory.learn(&x, &tried, &gradient, &tried_gradient);
            std::mem::swap(&mut x, &mut tried);
            std::mem::swap(&mut gradient, &mut tried_gradient);
            let gain = value - there;
            value = there;
            if gain < 1e-12 {
                break;
            }
        }
        let size = x.get(2 * n).copied().unwrap_or(size);
        (x.chunks_exact(2).take(n).filter_map(pair).collect(), size)
    }

    fn energy(&mut self, x: &[f64], pressure: f64, gradient: &mut [f64]) -> f64 {
        let n = self.radii.len();
        self.work = self.work.saturating_sub(n * n / 2 + STEP_OVER * n);
        gradient.fill(0.0);
        let Some((size, xy)) = x.split_last() else { return 0.0 };
        let mut energy = pressure * size;
        let mut size_gradient = pressure;
        let (points, _) = xy.as_chunks::<2>();
        let Some((_, flat)) = gradient.split_last_mut() else { return energy };
        let (slopes, _) = flat.as_chunks_mut::<2>();
        for (i, (&[xi, yi], ri)) in points.iter().zip(&self.radii).enumerate() {
            let mut own = [0.0, 0.0];
            let far = xi.hypot(yi);
            let out = far + ri - size;
            if out > 0.0 {
                energy += out * out;
                size_gradient -= 2.0 * out;
                let pull = 2.0 * out / far.max(1e-12);
                own = [pull * xi, pull * yi];
            }
            let later = points.iter().zip(&self.radii).zip(slopes.iter_mut()).skip(i + 1);
            for ((&[xj, yj], rj), slope) in later {
                let (dx, dy, touch) = (xi - xj, yi - yj, ri + rj);
                let square = dx * dx + dy * dy;
                if square < touch * touch {
                    let apart = square.sqrt().max(1e-12);
                    let over = touch - apart;
                    energy += over * over;
                    let push = -2.0 * over / apart;
                    own[0] += push * dx;
                    own[1] += push * dy;
                    slope[0] -= push * dx;
                    slope[1] -= push * dy;
                }
            }
            if let Some(slope) = slopes.get_mut(i) {
                slope[0] += own[0];
                slope[1] += own[1];
            }
        }
        if let Some(last) = gradient.last_mut() {
            *last = size_gradient;
        }
        energy
    }

    /// A real packing: spread until nothing overlaps, and measured about its best centre.
    fn spread(&mut self, mut places: Places) -> (Places, f64) {
        let n = places.len();
        self.work = self.work.saturating_sub(n * n / 2 + 10 * STEP_OVER * n);
        let mut wide = 1.0_f64;
        for (i, ((xi, yi), ri)) in places.iter().zip(&self.radii).enumerate() {
            for ((xj, yj), rj) in places.iter().zip(&self.radii).skip(i + 1) {
                let apart = (xi - xj).hypot(yi - yj).max(1e-9);
                wide = wide.max((ri + rj) / apart);
            }
        }
        places.iter_mut().for_each(|(x, y)| {
            *x *= wide;
            *y *= wide;
        });
        let (cx, cy, radius) = enclosing(&places, &self.radii);
        places.iter_mut().for_each(|(x, y)| {
            *x -= cx;
            *y -= cy;
        });
        (places, radius)
    }
}

/// The circle around discs: its centre creeps towards the disc that sticks out furthest.
fn enclosing(places: &Places, radii: &[f64]) -> (f64, f64, f64) {
    let (mut cx, mut cy) = (0.0, 0.0);
    let reach = |cx: f64, cy: f64| {
        let far = places.iter().zip(radii).map(|((x, y), r)| ((x - cx).hypot(y - cy) + r, *x, *y));
        far.fold((0.0, 0.0, 0.0), |most, next| if next.0 > most.0 { next } else { most })
    };
    let mut least = (cx, cy, reach(cx, cy).0);
    for step in 1..400 {
        let (far, x, y) = reach(cx, cy);
        if far < least.2 {
            least = (cx, cy, far);
        }
        let share = 0.02 / f64::from(step).sqrt();
        cx += (x - cx) * share / f64::from(step).sqrt();
        cy += (y - cy) * share / f64::from(step).sqrt();
    }
    least
}

fn pair(xy: &[f64]) -> Option<(f64, f64)> {
    match xy {
        [x, y] => Some((*x, *y)),
        _ => None,
    }
}

fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}

/// The last steps of a descent and what they did to the gradient.
#[derive(Default)]
struct Memory(std::collections::VecDeque<(Vec<f64>, Vec<f64>, f64)>);

impl Memory {
    const LONG: usize = 6;

    fn learn(&mut self, x: &[f64], next: &[f64], gradient: &[f64], next_gradient: &[f64]) {
        let step: Vec<f64> = next.iter().zip(x).map(|(a, b)| a - b).collect();
        let turn: Vec<f64> = next_gradient.iter().zip(gradient).map(|(a, b)| a - b).collect();
        let curve = dot(&step, &turn);
        if curve > 1e-14 {
            if self.0.len() == Self::LONG {
                self.0.pop_front();
            }
            self.0.push_back((step, turn, 1.0 / curve));
        }
    }

    fn direction(&self, gradient: &[f64]) -> Vec<f64> {
        let mut q: Vec<f64> = gradient.to_vec();
        let mut shares = Vec::with_capacity(self.0.len());
        for (step, turn, rho) in self.0.iter().rev() {
            let share = rho * dot(step, &q);
            q.iter_mut().zip(turn).for_each(|(q, t)| *q -= share * t);
            shares.push(share);
        }
        let scale = match self.0.back() {
            Some((step, turn, _)) => dot(step, turn) / dot(turn, turn).max(1e-30),
            None => 0.25,
        };
        q.iter_mut().for_each(|q| *q *= scale);
        for ((step, turn, rho), share) in self.0.iter().zip(shares.into_iter().rev()) {
            let back = rho * dot(turn, &q);
            q.iter_mut().zip(step).for_each(|(q, s)| *q += (share - back) * s);
        }
        q.iter_mut().for_each(|q| *q = -*q);
        q
    }
}
