//! The photo beneath the plan: read and straightened once beside the window, then only painted.

use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::mpsc::{Receiver, TryRecvError, channel};

use egui::{Color32, ColorImage, Context, TextureHandle, TextureOptions};

use super::here::at;
use super::words::underlay as words;
use crate::geometry::survey::{Fit, Raster};
use crate::geometry::{Bounds, Vec2, vec2};
use crate::layout::{Deck, Underlay, UnderlayPoint};
use crate::store::picture::{self, Picture};
use crate::units::{self, Quantity, System};

/// Round the deck so much of the photo is kept, in metres.
const MARGIN_M: f64 = 0.5;

/// Pixels along the longer side of the straightened photo: about those of a window.
const FINENESS: f64 = 1600.0;

/// Pixels along the longer side of the photo in which the corners are clicked.
const CLICKED_SIDE: usize = 1200;

/// The photo of the deck shown.
#[derive(Debug, Default)]
pub(crate) struct Underlays {
    /// What was asked for last: where the layout file is, and the photo of the deck.
    wanted: Option<(PathBuf, Underlay, Bounds)>,
    job: Option<Receiver<Result<(Raster, Bounds), String>>>,
    lying: Option<Lying>,
    /// A photo that is being read, to be clicked.
    opening: Option<Receiver<Opened>>,
}

/// A photo that was read, or why not.
pub(crate) type Opened = Result<PhotoChoice, String>;

/// A photo that lies beneath the plan.
pub(crate) struct Lying {
    /// The straightened photo.
    pub(crate) texture: TextureHandle,
    /// What it covers.
    pub(crate) bounds: Bounds,
    /// The map by which it was straightened.
    fit: Option<Fit>,
}

impl std::fmt::Debug for Lying {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "Lying({:?})", self.bounds)
    }
}

impl Lying {
    /// Two standard errors of a distance on the plan that is taken from the photo, in metres.
    pub(crate) fn distance_error_m(&self, from: Vec2, to: Vec2) -> Option<f64> {
        let fit = self.fit.as_ref()?;
        let pixel = |at| fit.map().pixel(at);
        let (_, error_m) = fit.distance(pixel(from)?, pixel(to)?)?;
        Some(2.0 * error_m)
    }
}

impl Underlays {
    /// The photo that lies beneath the deck shown, once it is there.
    pub(crate) fn lying(&self) -> Option<&Lying> {
        self.lying.as_ref()
    }

    /// Is a photo being read or straightened?
    pub(crate) fn is_busy(&self) -> bool {
        self.job.is_some() || self.opening.is_some()
    }

    /// Reads a photo beside the window, to be clicked when it is there.
    pub(crate) fn open(&mut self, ctx: &Context, path: PathBuf, folder: PathBuf) {
        let (send, receive) = channel();
        let ctx = ctx.clone();
        let thread = std::thread::Builder::new().name("photo".to_owned());
        let started = thread.spawn(move || {
            send.send(PhotoChoice::open(&path, &folder)).ok();
            ctx.request_repaint();
        });
        match started {
            Ok(_) => self.opening = Some(receive),
            Err(err) => log::error!("the photo is not read: {err}"),
        }
    }

    /// Nobody waits for the photo that is being read any more.
    pub(crate) fn give_up(&mut self) {
        self.opening = None;
    }

    /// The photo that was being read, once it is there.
    pub(crate) fn opened(&mut self) -> Option<Opened> {
        let result = match self.opening.as_ref()?.try_recv() {
            Ok(result) => result,
            Err(TryRecvError::Empty) => return None,
            Err(TryRecvError::Disconnected) => Err(words::NOT_STRAIGHTENED.to_owned()),
        };
        self.opening = None;
        Some(result)
    }

    /// Looks after the photo of this deck; tells if it cannot be shown.
    pub(crate) fn look_after(
        &mut self,
        ctx: &Context,
        file: Option<&Path>,
        deck: Option<&Deck>,
    ) -> Option<String> {
        let folder = file.and_then(Path::parent);
        let wanted = deck.and_then(|deck| {
            let bounds = Bounds::of(deck.outline.iter().map(|p| at(*p)));
            Some((folder?.to_owned(), deck.underlay.clone()?, bounds))
        });
        if wanted != self.wanted {
            self.wanted.clone_from(&wanted);
            (self.job, self.lying) = (None, None);
            if let Some((folder, underlay, bounds)) = wanted {
                self.start(ctx, folder, underlay, bounds);
            }
        }
        let result = match self.job.as_ref()?.try_recv() {
            Ok(result) => result,
            Err(TryRecvError::Empty) => return None,
            Err(TryRecvError::Disconnected) => Err(words::NOT_STRAIGHTENED.to_owned()),
        };
        self.job = None;
        match result {
            Ok((raster, bounds)) => {
                let options = TextureOptions::LINEAR;
                let texture = ctx.load_texture("underlay", color_image(&raster), options);
                let underlay = self.wanted.as_ref().map(|(_, underlay, _)| underlay);
                self.lying = Some(Lying {
                    texture,
                    bounds,
                    fit: underlay.and_then(|underlay| underlay.fit().ok()),
                });
                None
            }
            Err(why) => Some(why),
        }
    }

    fn start(&mut self, ctx: &Context, folder: PathBuf, underlay: Underlay, deck: Bounds) {
        let (send, receive) = channel();
        let ctx = ctx.clone();
        let thread = std::thread::Builder::new().name("photo".to_owned());
        let started = thread.spawn(move || {
            send.send(straightened(&folder, &underlay, &deck)).ok();
            ctx.request_repaint();
        });
        match started {
            Ok(_) => self.job = Some(receive),
            Err(err) => log::error!("the photo is not straightened: {err}"),
        }
    }
}

/// Reads a photo and straightens it over the deck and a margin round it.
fn straightened(
    folder: &Path,
    underlay: &Underlay,
    deck: &Bounds,
) -> Result<(Raster, Bounds), String> {
    let path = folder.join(&underlay.file);
    let read = picture::read(&path);
    let picture = read.map_err(|error| words::photo_trouble(&underlay.file, &error.to_string()))?;
    if picture.sha256 != underlay.sha256 {
        return Err(words::another_photo(&underlay.file));
    }
    let fit = underlay.fit().map_err(|error| error.to_string())?;
    let margin = vec2(MARGIN_M, MARGIN_M);
    let bounds = Bounds::of([deck.min - margin, deck.max + margin]);
    let size = bounds.size();
    let fineness = size.x.max(size.y) / FINENESS;
    let made = picture.raster.straightened(fit.map(), &bounds, fineness);
    let made = made.ok_or_else(|| words::NOT_STRAIGHTENED.to_owned())?;
    Ok((made, bounds))
}

fn color_image(raster: &Raster) -> ColorImage {
    ColorImage::from_rgba_unmultiplied([raster.width(), raster.height()], raster.rgba())
}

/// A photo of which the points are being clicked.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct PhotoChoice {
    /// Its path from the folder of the layout file.
    pub(crate) file: String,
    sha256: String,
    /// A smaller one to be clicked in.
    pub(crate) small: Arc<ColorImage>,
    /// So many pixels of the photo make one of the smaller one.
    shrunk: f64,
    /// Straightened by four corners, or scaled by two points?
    pub(crate) four: bool,
    /// What was clicked, in pixels of the photo.
    pub(crate) clicks: Vec<[f64; 2]>,
    /// The places of the two points, or length and width of the rectangle and the place of the middle of its
    /// aft side, as typed.
    pub(crate) typed: [String; 2],
}

impl PhotoChoice {
    /// Reads a photo that lies in the folder of the layout file or below it.
    fn open(path: &Path, folder: &Path) -> Opened {
        let below = path.strip_prefix(folder).ok().ok_or(words::ELSEWHERE)?;
        let parts: Vec<_> = below.iter().map(|part| part.to_string_lossy()).collect();
        let read = picture::read(path);
        let Picture { raster, sha256 } =
            read.map_err(|error| words::not_read(&path.display().to_string(), &error.to_string()))?;
        let longer = raster.width().max(raster.height());
        let shrunk = (longer as f64 / CLICKED_SIDE as f64).max(1.0);
        Ok(Self {
            file: parts.join("/"),
            sha256,
            small: Arc::new(smaller(&raster, shrunk)),
            shrunk,
            four: true,
            clicks: Vec::new(),
            typed: Default::default(),
        })
    }

    /// How many clicks are wanted.
    pub(crate) fn wanted(&self) -> usize {
        if self.four { 4 } else { 2 }
    }

    /// A click in the smaller photo, as shares of its width and height.
    pub(crate) fn click(&mut self, across: f64, down: f64) {
        if self.clicks.len() >= self.wanted() {
            self.clicks.clear();
        }
        let [w, h] = self.small.size.map(|side| side as f64 * self.shrunk);
        let tenth = |value: f64| (value * 10.0).round() / 10.0;
        self.clicks.push([tenth(across * w), tenth(down * h)]);
    }

    /// Where a click is in the smaller photo, as shares of its width and height.
    pub(crate) fn shares(&self, click: [f64; 2]) -> [f64; 2] {
        let [w, h] = self.small.size.map(|side| side as f64 * self.shrunk);
        [click[0] / w, click[1] / h]
    }

    /// The photo with its points, or what is missing.
    pub(crate) fn underlay(&self, system: System) -> Result<Underlay, String> {
        if self.clicks.len() < self.wanted() {
            return Err(words::click_next(self.four, self.clicks.len()));
        }
        let pair = |text: &str| {
            let (first, second) = text.split_once(';').ok_or(words::TWO_NUMBERS)?;
            let read = |text: &str| {
                units::parse(text, Quantity::Length, system).map_err(|error| error.to_string())
            };
            Ok::<_, String>([read(first)?, read(second)?])
        };
        let [first, second] = [pair(&self.typed[0])?, pair(&self.typed[1])?];
        let places = if self.four {
            let ([length, width], [aft, middle]) = (first, second);
            let (port, starboard) = (middle + 0.5 * width, middle - 0.5 * width);
            let fore = aft + length;
            vec![
                [aft, port],
                [aft, starboard],
                [fore, starboard],
                [fore, port],
            ]
        } else {
            vec![first, second]
        };
        let points = self.clicks.iter().zip(places);
        let points = points.map(|(pixel, at)| UnderlayPoint { pixel: *pixel, at });
        let underlay = Underlay::new(&self.file, &self.sha256, points.collect());
        underlay.fit().map_err(|error| error.to_string())?;
        Ok(underlay)
    }

    /// Two standard errors of a place in the middle of the points, in metres, and how long a pixel is there.
    pub(crate) fn accuracy_m(underlay: &Underlay) -> Option<(f64, f64)> {
        let fit = underlay.fit().ok()?;
        let count = underlay.points.len() as f64;
        let places = underlay.points.iter().map(|point| at(point.at));
        let middle = places.fold(Vec2::ZERO, |sum, p| sum + p) / count;
        let pixel = fit.map().pixel(middle)?;
        let error = fit.error_at(pixel)?.major_m;
        Some((2.0 * error, fit.map().pixel_size_m(pixel)?))
    }
}

/// Every so manyeth pixel.
fn smaller(raster: &Raster, shrunk: f64) -> ColorImage {
    let side = |pixels: usize| index(pixels as f64 / shrunk).max(1);
    let (width, height) = (side(raster.width()), side(raster.height()));
    let mut pixels = Vec::with_capacity(width * height);
    for row in 0..height {
        let from_row = index((row as f64 + 0.5) * shrunk).min(raster.height() - 1);
        for column in 0..width {
            let from_column = index((column as f64 + 0.5) * shrunk).min(raster.width() - 1);
            let first = 4 * (from_row * raster.width() + from_column);
            let [r, g, b, a] = [0, 1, 2, 3].map(|k| raster.rgba()[first + k]);
            pixels.push(Color32::from_rgba_unmultiplied(r, g, b, a));
        }
    }
    ColorImage::new([width, height], pixels)
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a place in a picture, not below zero"
)]
fn index(value: f64) -> usize {
    value.max(0.0) as usize
}
