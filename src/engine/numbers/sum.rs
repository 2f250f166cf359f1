//! The formula of a utilisation with its figures put in, written out only when somebody asks.

use std::borrow::Cow;

use schemars::{JsonSchema, Schema, SchemaGenerator};
use serde::{Serialize, Serializer};

use crate::layout::Id;
use crate::mechanics::motion::GRAVITY;

/// The formula of a utilisation with its figures put in, for "show the sum". [`Sum::lines`] writes it out.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Sum(pub(crate) Option<Figures>);

/// The figures of a sum.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Figures {
    /// Along the deck and onto it, in m/s².
    pub(crate) a_h: f64,
    pub(crate) a_n: f64,
    /// The utilisation.
    pub(crate) value: f64,
    pub(crate) of: Of,
}

/// What the sum is of, SI units.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Of {
    /// The force alone.
    Nothing,
    Tipping(Tipping),
    Sliding {
        along: f64,
        friction: Option<f64>,
        source: String,
    },
    Lifting,
    KickOut {
        centre_height_m: f64,
        edge_height_m: f64,
    },
    InSlot(Box<InSlot>),
    Rolling(Rolling),
}

#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Tipping {
    pub(crate) centre_height_m: f64,
    pub(crate) moment: f64,
    pub(crate) turning: f64,
    pub(crate) ray_m: f64,
    pub(crate) restrained: bool,
}

#[derive(Clone, Debug, PartialEq)]
pub(crate) struct InSlot {
    pub(crate) edge_height_m: f64,
    pub(crate) lean_rad: f64,
    pub(crate) edge_n: f64,
    pub(crate) front_n: f64,
    pub(crate) stop_n: f64,
    pub(crate) edge_strength_n: Option<f64>,
    pub(crate) front: Option<InFront>,
    /// Lashings round it that do not count.
    pub(crate) not_counted: Vec<Id>,
}

#[derive(Clone, Debug, PartialEq)]
pub(crate) struct InFront {
    pub(crate) pull_n: f64,
    pub(crate) strength_n: f64,
    pub(crate) pull_per_push: f64,
    /// How many push on it together, where they do.
    pub(crate) behind: Option<usize>,
}

#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Rolling {
    pub(crate) across: f64,
    pub(crate) a_n: f64,
    /// Those that touch, and their mass.
    pub(crate) row: Option<(Vec<Id>, f64, u32)>,
    pub(crate) carries: bool,
    pub(crate) athwartships: bool,
}

impl Sum {
    /// Is there none?
    pub fn is_empty(&self) -> bool {
        self.0.is_none()
    }

    /// The formula with its figures put in, line by line.
    pub fn lines(&self) -> Vec<String> {
        let Some(figures) = &self.0 else {
            return Vec::new();
        };
        let mut lines = vec![format!(
            "apparent force: a_h = {:.2} m/s² along the deck, a_n = {:.2} m/s² onto it",
            figures.a_h, figures.a_n
        )];
        match &figures.of {
            Of::Nothing => {}
            Of::Tipping(of) => figures.tipping(of, &mut lines),
            Of::Sliding {
                along,
                friction,
                source,
            } => figures.sliding(*along, *friction, source, &mut lines),
            Of::Lifting => lines.push(format!(
                "weight taken off: (g - a_n) / g = ({GRAVITY:.2} - {:.2}) / {GRAVITY:.2}, with what holds it down: {}",
                figures.a_n,
                shown(figures.value)
            )),
            Of::KickOut {
                centre_height_m,
                edge_height_m,
            } => lines.push(format!(
                "kick-out: a_h |h - r| / (a_n (b + μ r)) with h = {centre_height_m:.3} m, r = {edge_height_m:.3} m: used up {}",
                shown(figures.value)
            )),
            Of::InSlot(of) => figures.in_slot(of, &mut lines),
            Of::Rolling(of) => figures.rolling(of, &mut lines),
        }
        lines
    }
}

fn shown(value: f64) -> String {
    if value.is_finite() {
        format!("{value:.2}")
    } else {
        "no limit: it goes".to_owned()
    }
}

impl Figures {
    fn tipping(&self, of: &Tipping, lines: &mut Vec<String>) {
        let Tipping {
            centre_height_m,
            moment,
            turning,
            ray_m,
            restrained,
        } = of;
        lines.push(format!(
            "overturning: a_h h + κ² ω² φ = {:.2} × {centre_height_m:.3} + {turning:.3} = {moment:.3} m²/s²",
            self.a_h
        ));
        let righting = self.a_n * ray_m;
        lines.push(format!(
            "righting: a_n b = {:.2} × {ray_m:.4} = {righting:.3} m²/s²",
            self.a_n
        ));
        let value = shown(self.value);
        lines.push(if *restrained {
            format!("with what holds it, over all directions (limit analysis): used up {value}")
        } else {
            format!("used up: {moment:.3} / {righting:.3} = {value}")
        });
    }

    fn sliding(&self, along: f64, friction: Option<f64>, source: &str, lines: &mut Vec<String>) {
        let a_n = self.a_n;
        lines.push(match friction {
            Some(friction) => format!(
                "used up: a / (μ a_n) = {along:.2} / ({friction:.2} × {a_n:.2}) = {}",
                shown(self.value)
            ),
            None => format!(
                "friction not known; needed: a / a_n = {along:.2} / {a_n:.2} = {:.2}",
                along / a_n
            ),
        });
        lines.push(format!("friction: {source}"));
    }

    fn in_slot(&self, of: &InSlot, lines: &mut Vec<String>) {
        lines.push(format!(
            "held at {:.2} m, leans {:.1}°: {:.0} N on the edge, {:.0} N on the front",
            of.edge_height_m,
            of.lean_rad.to_degrees(),
            of.edge_n,
            of.front_n
        ));
        if let Some(strength) = of.edge_strength_n {
            lines.push(format!(
                "strength of the edge and of what stops the foot ({:.0} N): {strength:.0} N",
                of.stop_n
            ));
        }
        if let Some(InFront {
            pull_n,
            strength_n,
            pull_per_push,
            behind,
        }) = &of.front
        {
            lines.push(match behind {
                None => format!("pull in the front: {pull_n:.0} N of {strength_n:.0} N"),
                Some(behind) => format!(
                    "pull in the front: {behind} behind it push {:.0} N together, × {pull_per_push:.2} = {pull_n:.0} N of {strength_n:.0} N",
                    pull_n / pull_per_push
                ),
            });
        }
        for lashing in &of.not_counted {
            lines.push(format!("{lashing} round it is not counted: the slot is"));
        }
        lines.push(format!("used up: {}", shown(self.value)));
    }

    fn rolling(&self, of: &Rolling, lines: &mut Vec<String>) {
        let (across, a_n) = (of.across, of.a_n);
        lines.push(format!(
            "across its axis: {across:.2} / {a_n:.2} = {:.3} of what presses it down; used up {}",
            across / a_n,
            shown(self.value)
        ));
        if let Some((members, mass_kg, count)) = &of.row {
            lines.push(format!(
                "{} touch: the stop at the end carries {mass_kg:.0} kg, n = {count}",
                members.join(", ")
            ));
        }
        if of.carries {
            lines.push("another rests on it and presses it outwards".to_owned());
        }
        lines.push(if of.athwartships {
            "it lies athwartships: pitch rolls it, roll slides it".to_owned()
        } else {
            "it lies fore and aft: roll rolls it, pitch slides it".to_owned()
        });
    }
}

impl Serialize for Sum {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        self.lines().serialize(serializer)
    }
}

impl JsonSchema for Sum {
    fn inline_schema() -> bool {
        true
    }

    fn schema_name() -> Cow<'static, str> {
        "Sum".into()
    }

    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        Vec::<String>::json_schema(generator)
    }
}
