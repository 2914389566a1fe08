//! A face with what its cavities hold, as text cells: every cavity a label with its content under
//! it, in the outline of the housing, with the features of its sides written into the outline.

use super::canvas::{Mark, Picture, columns};
use crate::{
    catalogue::Housing,
    colour::Colour,
    face::{Face, Label, Layout, Pose, SeenSpot, Side, side_seen},
};

/// What a cavity holds, as it is to be shown.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Content {
    text: String,
    short: String,
    mark: Mark,
}

impl Content {
    /// A text, and the same shorter for faces with many columns; a `/` may break it in two lines.
    pub fn new(text: impl Into<String>, short: impl Into<String>, mark: Mark) -> Self {
        Self { text: text.into(), short: short.into(), mark }
    }

    /// A wire by its colour.
    pub fn wire(colour: &Colour) -> Self {
        let mark = Mark::Wire { base: colour.base(), stripe: colour.stripes().first().copied() };
        Self::new(colour.to_string(), colour.to_string(), mark)
    }

    /// Something to which nothing is written.
    pub fn bare() -> Self {
        Self::new("", "", Mark::Space)
    }

    /// A plug.
    pub fn plug() -> Self {
        Self::new("plug", "plg", Mark::Plug)
    }

    /// Open: should be filled and is not.
    pub fn open() -> Self {
        Self::new("open", "opn", Mark::Open)
    }

    /// Empty by design.
    pub fn empty() -> Self {
        Self::new("-", "-", Mark::Empty)
    }

    /// Moulded shut.
    pub fn blocked() -> Self {
        Self::new("shut", "xxx", Mark::Blocked)
    }

    /// A terminal without a wire.
    pub fn spare() -> Self {
        Self::new("spare", "spr", Mark::Spare)
    }

    /// A bridge or clip.
    pub fn bridge() -> Self {
        Self::new("clip", "clp", Mark::Bridge)
    }

    /// A value that is asked.
    pub fn hidden() -> Self {
        Self::new("??", "??", Mark::Hidden)
    }
}

/// How a face is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct FaceOptions<'a> {
    /// Only ASCII characters.
    pub ascii: bool,
    /// The cavities the eye is to go to.
    pub selected: &'a [Label],
    /// The width to keep to where the cavities allow it.
    pub width: usize,
}

impl Default for FaceOptions<'_> {
    fn default() -> Self {
        Self { ascii: false, selected: &[], width: 40 }
    }
}

/// Where a cavity stands in a picture.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LabelBox {
    /// The cavity.
    pub label: Label,
    /// The group it belongs to, from 0.
    pub group: usize,
    /// Leftmost column.
    pub x: usize,
    /// Top row.
    pub y: usize,
    /// Columns.
    pub width: usize,
    /// Rows.
    pub height: usize,
}

/// A drawn face.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FacePicture {
    /// The cells.
    pub picture: Picture,
    /// Where each cavity stands in them.
    pub boxes: Vec<LabelBox>,
}

/// How a housing is held, in words: `wire side, latch up`.
pub fn pose_in_words(housing: &Housing, pose: Pose) -> String {
    let face = match pose.face {
        Face::Mating => "mating side",
        Face::Wire => "wire side",
    };
    match housing.feature_on(pose.up) {
        Some(feature) => format!("{face}, {feature} up"),
        None => format!("{face}, {} of the drawing up", pose.up),
    }
}

/// Draws a face as held in `pose`, with what `content` says of every cavity.
pub fn draw_face(
    housing: &Housing,
    pose: Pose,
    content: &dyn Fn(&Label) -> Content,
    options: FaceOptions<'_>,
) -> FacePicture {
    let seen = housing.seen(pose);
    let groups = match &housing.layout {
        Layout::Groups(groups) => groups.len(),
        _ => 1,
    };
    let blocks: Vec<Block> = (0..groups)
        .map(|group| seen.iter().filter(|spot| spot.group == group).collect::<Vec<_>>())
        .filter(|spots| !spots.is_empty())
        .map(|spots| Block::new(&spots, content, options.width))
        .collect();
    Sheet::new(housing, pose, blocks).draw(options)
}

/// A cavity in its block: column and row of the top left corner.
struct Placed {
    label: Label,
    content: Content,
    x: usize,
    y: usize,
}

/// The cavities of one group, placed in character cells.
struct Block {
    group: usize,
    /// Lowest and highest y as seen, and lowest x: where the block belongs among the others.
    top: f64,
    bottom: f64,
    left: f64,
    placed: Vec<Placed>,
    cell_width: usize,
    cell_height: usize,
    short: bool,
}

impl Block {
    fn new(spots: &[&SeenSpot], content: &dyn Fn(&Label) -> Content, width: usize) -> Self {
        let contents: Vec<Content> = spots.iter().map(|spot| content(&spot.label)).collect();
        let labels = spots.iter().map(|spot| columns(spot.label.as_str())).max().unwrap_or(1);
        let whole = contents.iter().map(|c| columns(&c.text)).max().unwrap_or(0);
        let parts = contents.iter().flat_map(|c| lines_of(&c.short, true)).map(|p| columns(&p)).max();
        let lattice = Lattice::of(spots);
        let long = labels.max(whole).max(2) + 1;
        let short_width = labels.max(parts.unwrap_or(0)).max(2) + 1;
        let fits = lattice.as_ref().is_none_or(|l| l.columns(spots) * long as f64 + 3.0 <= width as f64);
        let short = !fits && short_width < long;
        let cell_width = if short { short_width } else { long };
        let lines = contents.iter().map(|c| lines_of(if short { &c.short } else { &c.text }, short).len());
        let cell_height = 1 + lines.max().unwrap_or(0);
        let lattice = lattice.unwrap_or_else(|| Lattice::apart(spots, cell_width, cell_height));
        let low = |of: &dyn Fn(&SeenSpot) -> f64| spots.iter().map(|s| of(s)).fold(f64::INFINITY, f64::min);
        let (left, top) = (low(&|s| s.x), low(&|s| s.y));
        let placed = spots.iter().zip(contents).map(|(spot, content)| Placed {
            label: spot.label.clone(),
            content,
            x: cells((spot.x - left) / lattice.x, cell_width),
            y: cells((spot.y - top) / lattice.y, cell_height),
        });
        Self {
            group: spots.first().map_or(0, |spot| spot.group),
            placed: placed.collect(),
            bottom: -low(&|s| -s.y),
            top,
            left,
            cell_width,
            cell_height,
            short,
        }
    }

    fn inner_width(&self) -> usize {
        self.placed.iter().map(|p| p.x).max().unwrap_or(0) + self.cell_width + 1
    }

    fn inner_height(&self) -> usize {
        self.placed.iter().map(|p| p.y).max().unwrap_or(0) + self.cell_height
    }

    /// Draws the cavities and their outline.
    fn draw(&self, sides: &Sides, options: FaceOptions<'_>) -> (Picture, Vec<LabelBox>) {
        let mut picture = Picture::new(self.inner_width() + 2, self.inner_height() + 2);
        sides.draw(&mut picture, options.ascii);
        let mut boxes = Vec::new();
        for placed in &self.placed {
            let (x, y) = (placed.x + 2, placed.y + 1);
            let selected = options.selected.contains(&placed.label);
            let text = placed.label.as_str();
            let start = x + (self.cell_width - 1).saturating_sub(columns(text)).div_ceil(2);
            picture.write(start, y, text, Mark::Label, selected);
            if selected {
                let (before, after) = if options.ascii { ('[', ']') } else { ('▐', '▌') };
                picture.put(start.saturating_sub(1), y, before, Mark::Label, true);
                picture.put(start + columns(text), y, after, Mark::Label, true);
            }
            let content = if self.short { &placed.content.short } else { &placed.content.text };
            for (n, line) in lines_of(content, self.short).iter().enumerate() {
                let start = x + (self.cell_width - 1).saturating_sub(columns(line)).div_ceil(2);
                picture.write(start, y + 1 + n, line, placed.content.mark, selected);
            }
            let (width, height) = (self.cell_width, self.cell_height);
            boxes.push(LabelBox { label: placed.label.clone(), group: self.group, x, y, width, height });
        }
        (picture, boxes)
    }
}

/// The lines a content takes: broken before its first `/` when there is no room.
fn lines_of(text: &str, broken: bool) -> Vec<String> {
    match text.find('/').filter(|_| broken) {
        Some(at) => {
            let (base, stripes) = text.split_at(at);
            vec![base.to_owned(), stripes.to_owned()]
        }
        None if text.is_empty() => Vec::new(),
        None => vec![text.to_owned()],
    }
}

/// Whole character cells for a distance in steps of the lattice.
fn cells(steps: f64, cell: usize) -> usize {
    // A step count is small and never negative.
    (steps * cell as f64).round().max(0.0) as usize
}

/// How far apart neighbours are as seen, across and down.
struct Lattice {
    x: f64,
    y: f64,
}

impl Lattice {
    /// The steps of rows and columns; none where there are no rows.
    fn of(spots: &[&SeenSpot]) -> Option<Self> {
        if spots.iter().any(|spot| spot.row.is_none()) {
            return None;
        }
        let x = step(spots, |s| s.x, |s| s.y);
        let y = step(spots, |s| s.y, |s| s.x);
        Some(Self { x, y })
    }

    /// How many columns wide the cavities are.
    fn columns(&self, spots: &[&SeenSpot]) -> f64 {
        let low = spots.iter().map(|s| s.x).fold(f64::INFINITY, f64::min);
        let high = spots.iter().map(|s| s.x).fold(f64::NEG_INFINITY, f64::max);
        (high - low) / self.x + 1.0
    }

    /// The smallest scale at which no two cells overlap; a character is twice as high as wide.
    fn apart(spots: &[&SeenSpot], width: usize, height: usize) -> Self {
        let (wide, high) = (width as f64, height as f64);
        let pairs =
            || spots.iter().enumerate().flat_map(|(i, one)| spots.iter().skip(i + 1).map(move |o| (one, o)));
        let gap = |(one, o): (&&SeenSpot, &&SeenSpot)| (one.x - o.x).hypot(one.y - o.y);
        let smallest = pairs().map(gap).fold(f64::INFINITY, f64::min);
        let smallest = if smallest.is_finite() { smallest } else { 1.0 };
        let rows_per_unit = (1..=40)
            .map(|step| f64::from(step) * 0.25 * high / smallest)
            .find(|scale| {
                pairs().all(|(one, o)| {
                    let across = ((one.x - o.x) * scale * 2.0).abs() >= wide + 0.5;
                    across || ((one.y - o.y) * scale).abs() >= high + 0.5
                })
            })
            .unwrap_or(10.0 * high / smallest);
        Self { x: wide / (rows_per_unit * 2.0), y: high / rows_per_unit }
    }
}

/// The smallest step in one direction between cavities in line in the other; between any two when
/// none are in line.
fn step(spots: &[&SeenSpot], along: fn(&SeenSpot) -> f64, across: fn(&SeenSpot) -> f64) -> f64 {
    let smallest = |in_line: bool| {
        let gaps = spots.iter().enumerate().flat_map(|(i, one)| {
            let others = spots.iter().skip(i + 1);
            let others = others.filter(move |o| !in_line || (across(one) - across(o)).abs() < 1e-6);
            others.map(move |o| (along(one) - along(o)).abs())
        });
        gaps.filter(|gap| *gap > 1e-6).fold(f64::INFINITY, f64::min)
    };
    [smallest(true), smallest(false), 1.0].into_iter().find(|step| step.is_finite()).unwrap_or(1.0)
}

/// What is written into the outline of a block.
#[derive(Default)]
struct Sides {
    top: Vec<String>,
    bottom: Vec<String>,
    left: Option<String>,
    right: Option<String>,
}

impl Sides {
    fn draw(&self, picture: &mut Picture, ascii: bool) {
        let [line, wall, top_left, top_right, bottom_left, bottom_right] =
            if ascii { ['-', '|', '+', '+', '+', '+'] } else { ['─', '│', '╭', '╮', '╰', '╯'] };
        let (right, bottom) = (picture.width().saturating_sub(1), picture.height().saturating_sub(1));
        for x in 1..right {
            picture.put(x, 0, line, Mark::Frame, false);
            picture.put(x, bottom, line, Mark::Frame, false);
        }
        for y in 1..bottom {
            picture.put(0, y, wall, Mark::Frame, false);
            picture.put(right, y, wall, Mark::Frame, false);
        }
        let corners = [(0, 0, top_left), (right, 0, top_right), (0, bottom, bottom_left)];
        for (x, y, corner) in corners.into_iter().chain([(right, bottom, bottom_right)]) {
            picture.put(x, y, corner, Mark::Frame, false);
        }
        for (y, words) in [(0, &self.top), (bottom, &self.bottom)] {
            let mut x = 1;
            for word in words {
                let word: String = format!(" {word} ").chars().take(right.saturating_sub(x)).collect();
                picture.write(x, y, &word, Mark::Feature, false);
                x += columns(&word) + 1;
            }
        }
        for (x, word) in [(0, &self.left), (right, &self.right)] {
            let letters = word.iter().flat_map(|word| word.chars()).take(bottom.saturating_sub(1));
            for (y, letter) in (1..).zip(letters) {
                picture.put(x, y, letter, Mark::Feature, false);
            }
        }
    }
}

/// The blocks of a face, arranged as they are seen: bands from top to bottom, in each from left to
/// right.
struct Sheet<'a> {
    housing: &'a Housing,
    pose: Pose,
    bands: Vec<Vec<Block>>,
}

impl<'a> Sheet<'a> {
    fn new(housing: &'a Housing, pose: Pose, mut blocks: Vec<Block>) -> Self {
        blocks.sort_by(|a, b| a.top.total_cmp(&b.top));
        let mut bands: Vec<Vec<Block>> = Vec::new();
        for block in blocks {
            match bands.last_mut() {
                Some(band) if band.iter().any(|other| block.top <= other.bottom) => band.push(block),
                _ => bands.push(vec![block]),
            }
        }
        bands.iter_mut().for_each(|band| band.sort_by(|a, b| a.left.total_cmp(&b.left)));
        Self { housing, pose, bands }
    }

    fn draw(&self, options: FaceOptions<'_>) -> FacePicture {
        let mut pieces = Vec::new();
        let (mut y, mut width) = (0, 0);
        for (n, band) in self.bands.iter().enumerate() {
            let (mut x, mut height) = (0, 0);
            for (at, block) in band.iter().enumerate() {
                let sides = self
                    .sides(block.group, [n == 0, at + 1 == band.len(), n + 1 == self.bands.len(), at == 0]);
                let (picture, boxes) = block.draw(&sides, options);
                let (piece_x, piece_width) = (x, picture.width());
                height = height.max(picture.height());
                pieces.push((piece_x, y, picture, boxes));
                x += piece_width + 1;
                width = width.max(piece_x + piece_width);
            }
            y += height;
        }
        let mut whole = Picture::new(width, y);
        let mut all = Vec::new();
        for (x, y, picture, boxes) in pieces {
            whole.paste(x, y, &picture);
            all.extend(boxes.into_iter().map(|b| LabelBox { x: b.x + x, y: b.y + y, ..b }));
        }
        FacePicture { picture: whole, boxes: all }
    }

    /// The features at the sides of a block that are sides of the whole (top, right, bottom, left),
    /// and its group's letter.
    fn sides(&self, group: usize, [top, right, bottom, left]: [bool; 4]) -> Sides {
        let mut sides = Sides::default();
        for feature in &self.housing.features {
            let name = feature.name.clone();
            match side_seen(feature.side, self.housing.drawn, self.pose) {
                Side::Top if top => sides.top.push(name),
                Side::Bottom if bottom => sides.bottom.push(name),
                Side::Left if left => sides.left = Some(name),
                Side::Right if right => sides.right = Some(name),
                _ => {}
            }
        }
        if let Layout::Groups(groups) = &self.housing.layout {
            let prefix = groups.get(group).map(|g| g.prefix.clone());
            sides.top.extend(prefix.filter(|prefix| !prefix.is_empty()));
        }
        sides
    }
}
