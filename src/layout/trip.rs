use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{
    Briefing, Changes, Condition, Cylinder, CylinderKind, Gear, GearAboard, Id, Known, Lashing,
    Part, Person,
};

/// A strap material's values as they were when the trip used them.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct MaterialUsed {
    /// Its name in the catalogue.
    pub id: Id,

    /// Maximum securing load in kilonewtons.
    pub strength_kn: Known,

    /// The force for one metre of stretch of one metre, in kilonewtons.
    pub stiffness_kn: Known,
}

/// Something to put right that somebody took on, with name and reason; it stays visible.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct TakenOn {
    /// The check's code.
    pub code: String,

    /// The things it is about; all of them must agree.
    pub about: Vec<Id>,

    /// The part of the day; every part unless given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub part: Option<Id>,

    /// Who took it on.
    pub by: String,

    /// Why.
    pub reason: String,

    /// When, as text.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub when: Option<String>,
}

/// What is stowed for one trip, and the parts of its day.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Trip {
    /// How others refer to it.
    pub id: Id,

    /// What the crew call it, where that is longer than the id.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub name: Option<String>,

    /// The day, as text.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub date: Option<String>,

    /// Cylinder kinds that this trip uses, by their measures: the boat's own, and the catalogue's as they
    /// were when the trip was made. They come before the catalogue's present values.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub kinds: Vec<CylinderKind>,

    /// Strap materials' values as they were when the trip was made.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub materials: Vec<MaterialUsed>,

    /// Straps, cords, chocks and mats that can be used for a cure.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub gear_aboard: Vec<GearAboard>,

    /// The cylinders.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub cylinders: Vec<Cylinder>,

    /// The lashings.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub lashings: Vec<Lashing>,

    /// Loose gear.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub gear: Vec<Gear>,

    /// The people.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub people: Vec<Person>,

    /// The parts of the day, in order; one is enough for a simple trip.
    #[schemars(length(min = 1))]
    pub parts: Vec<Part>,

    /// What was taken on, by whom and why.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub taken_on: Vec<TakenOn>,

    /// What the crew settled for loading, and what they ticked off.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub briefing: Option<Briefing>,

    /// Names of cylinders, gear and people that stay where they are while the deck is arranged in the window.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub locked: Vec<Id>,
}

impl Trip {
    /// A trip with nothing stowed and one part of the day, running.
    pub fn new(id: &str) -> Self {
        Self {
            id: id.to_owned(),
            name: None,
            date: None,
            kinds: Vec::new(),
            materials: Vec::new(),
            gear_aboard: Vec::new(),
            cylinders: Vec::new(),
            lashings: Vec::new(),
            gear: Vec::new(),
            people: Vec::new(),
            parts: vec![Part {
                id: "running".to_owned(),
                name: None,
                condition: Condition::Running,
                duration_h: None,
                nobody_on_deck: false,
                sea: None,
                wake: None,
                motion: None,
                changes: Changes::default(),
            }],
            taken_on: Vec::new(),
            briefing: None,
            locked: Vec::new(),
        }
    }

    /// The cylinder with this id.
    pub fn cylinder(&self, id: &str) -> Option<&Cylinder> {
        self.cylinders.iter().find(|cylinder| cylinder.id == id)
    }

    /// The lashing with this id.
    pub fn lashing(&self, id: &str) -> Option<&Lashing> {
        self.lashings.iter().find(|lashing| lashing.id == id)
    }

    /// Is a cylinder, piece of gear or person with this id locked in its place?
    pub fn is_locked(&self, id: &str) -> bool {
        self.locked.iter().any(|locked| locked == id)
    }

    /// Has the trip a cylinder, piece of gear or person with this id?
    pub fn has_thing(&self, id: &str) -> bool {
        self.cylinder(id).is_some()
            || self.gear.iter().any(|gear| gear.id == id)
            || self.people.iter().any(|person| person.id == id)
    }

    /// The part of the day with this id, and its place in the day.
    pub fn part(&self, id: &str) -> Option<(usize, &Part)> {
        self.parts
            .iter()
            .enumerate()
            .find(|(_, part)| part.id == id)
    }
}
