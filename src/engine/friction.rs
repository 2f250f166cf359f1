//! Friction underfoot: measured, from the catalogue, or not known.

use crate::catalogue::Catalogue;
use crate::catalogue::surfaces::Foot;
use crate::layout::{Known, Surface};

/// What a cylinder stands or lies on the surface with.
#[derive(Copy, Clone, Debug, PartialEq, Eq)]
pub(super) enum Bottom {
    /// The bare shell.
    Bare,
    /// A rubber or plastic boot.
    Boot,
}

/// Friction coefficient with where it comes from.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Friction {
    /// The number; `None` if not known.
    pub(super) value: Option<f64>,
    /// Where it comes from, in words.
    pub(super) source: String,
    /// Did somebody measure it?
    pub(super) measured: bool,
}

impl Friction {
    /// The friction of a surface under this bottom.
    pub(super) fn of(surface: &Surface, bottom: Bottom) -> Self {
        match surface.friction {
            Some(Known::Value(value)) => Self {
                value: Some(value),
                source: "measured".to_owned(),
                measured: true,
            },
            Some(Known::NotKnown) => Self {
                value: None,
                source: "not known".to_owned(),
                measured: false,
            },
            None => {
                let foot = match bottom {
                    Bottom::Bare => Foot::Hard,
                    Bottom::Boot => Foot::Rubber,
                };
                let known = Catalogue::built_in().surface(&surface.kind);
                let friction = known.map(|known| known.friction(foot, surface.wet));
                Self {
                    value: friction.as_ref().map(|value| value.value),
                    source: friction.as_ref().map_or_else(
                        || "not known".to_owned(),
                        |value| {
                            let state = if surface.wet { "wet" } else { "dry" };
                            format!("{}, {state}: {}", surface.kind, value.provenance.words())
                        },
                    ),
                    measured: false,
                }
            }
        }
    }
}
