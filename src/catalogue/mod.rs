//! Cylinder kinds, materials, surfaces and published limits, each value with its provenance.
//!
//! The data stand in JSON files beside the code and are compiled in; they are read once, when first
//! asked for. [`published`] is a table in code, so that a limit and its figure cannot part.
//!
//! What it is not: it holds nothing of a particular boat. A kind of one's own comes from the deck
//! plan as [`kinds::KindData`] and gets the same computed values as one from here.

pub mod provenance;

pub mod accessories;
pub mod cylinder;
pub mod gases;
pub mod kinds;
pub mod materials;
pub mod pages;
pub mod published;
pub mod surfaces;

mod fingerprint;

use std::sync::OnceLock;

use serde::de::DeserializeOwned;

use accessories::Accessories;
use gases::GasTextError;
use kinds::{Kind, TwinSet};
use materials::{Material, PointKind, WearCondition};
use provenance::Source;
use surfaces::Surface;

use crate::mechanics::gas::Gas;

/// Raised whenever a value of the catalogue changes; a test compares the data with it.
const VERSION: &str = "1";

/// The data files, in the order in which they enter the fingerprint of the whole.
const KINDS: &str = include_str!("data/kinds.json");
const TWINS: &str = include_str!("data/twins.json");
const ACCESSORIES: &str = include_str!("data/accessories.json");
const MATERIALS: &str = include_str!("data/materials.json");
const CONDITIONS: &str = include_str!("data/conditions.json");
const POINTS: &str = include_str!("data/points.json");
const SURFACES: &str = include_str!("data/surfaces.json");
const SOURCES: &str = include_str!("data/sources.json");

/// A name that is less like a known one than this is not proposed.
const LEAST_SIMILARITY: f64 = 0.6;

/// Everything the program knows about things that are not of one boat.
#[derive(Debug, Clone, PartialEq)]
pub struct Catalogue {
    version: &'static str,
    kinds: Vec<Kind>,
    twins: Vec<TwinSet>,
    accessories: Accessories,
    materials: Vec<Material>,
    conditions: Vec<WearCondition>,
    points: Vec<PointKind>,
    surfaces: Vec<Surface>,
    sources: Vec<Source>,
}

impl Catalogue {
    /// The catalogue that is compiled in.
    pub fn built_in() -> &'static Self {
        static CATALOGUE: OnceLock<Catalogue> = OnceLock::new();
        CATALOGUE.get_or_init(|| Self {
            version: VERSION,
            kinds: read(KINDS),
            twins: read(TWINS),
            accessories: read(ACCESSORIES),
            materials: read(MATERIALS),
            conditions: read(CONDITIONS),
            points: read(POINTS),
            surfaces: read(SURFACES),
            sources: read(SOURCES),
        })
    }

    /// Version of the data.
    pub fn version(&self) -> &'static str {
        self.version
    }

    /// All cylinder kinds, in the order of the catalogue.
    pub fn kinds(&self) -> &[Kind] {
        &self.kinds
    }

    /// A cylinder kind by its id.
    pub fn kind(&self, id: &str) -> Option<&Kind> {
        self.kinds.iter().find(|kind| kind.id == id)
    }

    /// All twin sets.
    pub fn twins(&self) -> &[TwinSet] {
        &self.twins
    }

    /// A twin set by its id.
    pub fn twin(&self, id: &str) -> Option<&TwinSet> {
        self.twins.iter().find(|twin| twin.id == id)
    }

    /// The id of the kind or twin set whose id or name is most like the text.
    pub fn nearest_kind_name(&self, text: &str) -> Option<&str> {
        let names = (self.kinds.iter().map(|kind| (&kind.id, &kind.name)))
            .chain(self.twins.iter().map(|twin| (&twin.id, &twin.name)));
        nearest(text, names.flat_map(|(id, name)| [(id, id), (id, name)]))
    }

    /// Valves, boots, nets and kit.
    pub fn accessories(&self) -> &Accessories {
        &self.accessories
    }

    /// All lashing materials.
    pub fn materials(&self) -> &[Material] {
        &self.materials
    }

    /// A lashing material by its id.
    pub fn material(&self, id: &str) -> Option<&Material> {
        self.materials.iter().find(|material| material.id == id)
    }

    /// The id of the material whose id or name is most like the text.
    pub fn nearest_material_name(&self, text: &str) -> Option<&str> {
        let names = self.materials.iter();
        nearest(text, names.flat_map(|m| [(&m.id, &m.id), (&m.id, &m.name)]))
    }

    /// How worn lashings can be.
    pub fn conditions(&self) -> &[WearCondition] {
        &self.conditions
    }

    /// A condition of a lashing by its id.
    pub fn condition(&self, id: &str) -> Option<&WearCondition> {
        self.conditions.iter().find(|condition| condition.id == id)
    }

    /// All kinds of lashing point.
    pub fn point_kinds(&self) -> &[PointKind] {
        &self.points
    }

    /// A kind of lashing point by its id.
    pub fn point_kind(&self, id: &str) -> Option<&PointKind> {
        self.points.iter().find(|point| point.id == id)
    }

    /// All deck surfaces.
    pub fn surfaces(&self) -> &[Surface] {
        &self.surfaces
    }

    /// A deck surface by its id.
    pub fn surface(&self, id: &str) -> Option<&Surface> {
        self.surfaces.iter().find(|surface| surface.id == id)
    }

    /// The id of the surface whose id or name is most like the text.
    pub fn nearest_surface_name(&self, text: &str) -> Option<&str> {
        let names = self.surfaces.iter();
        nearest(text, names.flat_map(|s| [(&s.id, &s.id), (&s.id, &s.name)]))
    }

    /// All sources that values refer to.
    pub fn sources(&self) -> &[Source] {
        &self.sources
    }

    /// A gas by its name as crews write it.
    #[expect(clippy::unused_self, reason = "asked like every other name")]
    pub fn gas(&self, text: &str) -> Result<Gas, GasTextError> {
        gases::parse(text)
    }
}

/// Reads one data file; they are part of the program and each is read by a test.
fn read<T: DeserializeOwned>(json: &str) -> T {
    #[expect(
        clippy::expect_used,
        reason = "a data file is code: the tests read every one"
    )]
    serde_json::from_str(json).expect("a built-in data file is well formed")
}

/// The id whose label is most like the text, ties by order.
fn nearest<'a>(
    text: &str,
    labels: impl Iterator<Item = (&'a String, &'a String)>,
) -> Option<&'a str> {
    let text = text.to_lowercase();
    let mut best = (None, LEAST_SIMILARITY);
    for (id, label) in labels {
        let similarity = strsim::jaro_winkler(&text, &label.to_lowercase());
        if similarity > best.1 {
            best = (Some(id.as_str()), similarity);
        }
    }
    best.0
}

#[cfg(test)]
mod tests;
