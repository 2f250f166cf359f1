//! A deck's outline from a drawing: what was chosen, and what that gives.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use crate::layout::Point;
use crate::store::Watch;
use crate::store::drawing::{
    self, BowTowards, DrawingError, DrawingUnit, FoundOutlines, OutlineDrawing, OutlineOptions,
};

/// See the module.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct DrawingChoice {
    /// The file.
    pub(crate) path: PathBuf,
    /// What is in it.
    pub(crate) drawing: Arc<OutlineDrawing>,
    /// The layer chosen.
    pub(crate) layer: String,
    /// The unit that the drawing says or that was chosen.
    pub(crate) unit: Option<DrawingUnit>,
    /// Which way the bow points in it.
    pub(crate) bow: BowTowards,
    /// What is on that layer; nothing without a unit.
    pub(crate) found: FoundOutlines,
}

impl DrawingChoice {
    /// Opens a drawing and chooses the first layer with an outline on it.
    pub(crate) fn open(path: &Path, watch: &Watch) -> Result<Self, DrawingError> {
        let drawing = Arc::new(drawing::open_file_watched(path, watch)?);
        let unit = drawing.unit;
        let options = OutlineOptions::new(unit.unwrap_or(DrawingUnit::Metre));
        let names = || drawing.layers.iter().map(|layer| layer.name.as_str());
        let has_outline = |name: &&str| {
            !watch.is_given_up() && !drawing.outlines(name, options).outlines.is_empty()
        };
        let layer = names().find(has_outline).or_else(|| names().next());
        let layer = layer.unwrap_or_default().to_owned();
        let choice = Self {
            path: path.to_owned(),
            drawing,
            layer,
            unit,
            bow: BowTowards::default(),
            found: FoundOutlines::default(),
        };
        Ok(choice.looked_up())
    }

    /// The same choice with what is on its layer.
    pub(crate) fn looked_up(mut self) -> Self {
        self.found = match self.unit {
            Some(unit) => self
                .drawing
                .outlines(&self.layer, OutlineOptions::new(unit)),
            None => FoundOutlines::default(),
        };
        self
    }

    /// The largest outline, in the boat frame.
    pub(crate) fn points(&self) -> Option<Vec<Point>> {
        let found = self.found.outlines.first()?;
        Some(drawing::in_boat_frame(&found.outline, self.bow))
    }
}
