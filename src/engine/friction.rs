//! Friction underfoot: measured, from the catalogue, or not known.

use crate::catalogue::Catalogue;
use crate::catalogue::surfaces::Foot;
use crate::layout::{Known, Surface};

/// What a loose mat is made of, by its name in the catalogue.
const MATTING: &str = "rubber_mat";

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
    /// The friction of a cylinder on a loose mat on a surface: what it has on the mat, or the mat on the
    /// surface, whichever is less.
    ///
    /// Unless somebody measured it the mat is rubber matting, above and below; on a surface whose friction
    /// was measured it grips no worse than the cylinder did (assumption, no source).
    pub(super) fn on_mat(
        mat: &str,
        measured: Option<f64>,
        surface: &Surface,
        bottom: Bottom,
    ) -> Self {
        if let Some(value) = measured {
            return Self {
                value: Some(value),
                source: format!("on {mat}: measured"),
                measured: true,
            };
        }
        let matting = Surface {
            kind: MATTING.to_owned(),
            wet: surface.wet,
            friction: None,
        };
        let above = Self::of(&matting, bottom);
        let by_kind = Surface {
            friction: None,
            ..surface.clone()
        };
        let below = match surface.friction {
            Some(Known::NotKnown) => Self::of(surface, bottom),
            Some(Known::Value(value)) => {
                let rubber = Self::of(&by_kind, Bottom::Boot);
                if rubber.value.is_some_and(|rubber| rubber >= value) {
                    rubber
                } else {
                    Self::of(surface, bottom)
                }
            }
            None => Self::of(surface, Bottom::Boot),
        };
        let less = above.less(below);
        Self {
            source: format!("on {mat}: {}", less.source),
            measured: false,
            ..less
        }
    }

    /// The less of two; what nobody knows comes before any number.
    pub(super) fn less(self, other: Self) -> Self {
        match (self.value, other.value) {
            (None, _) => self,
            (_, None) => other,
            (Some(mine), Some(others)) if others < mine => other,
            _ => self,
        }
    }

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
                            // The kinds are words of the file: `rubber_mat`.
                            let kind = surface.kind.replace('_', " ");
                            format!("{kind}, {state}: {}", value.provenance.words())
                        },
                    ),
                    measured: false,
                }
            }
        }
    }
}
