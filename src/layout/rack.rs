use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::fixture::{is_false, is_zero};
use super::{Id, Known, Point, Surface};
use crate::geometry::Elementary as _;

/// What a rack is.
#[derive(
    Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum RackKind {
    /// Round or square holes in a grid; each holds one cylinder all round.
    Sockets,
    /// Cylinders side by side against a back rail, closed by a strap, chain, cord or bar in front.
    BenchRow,
    /// Saddles in which cylinders lie across the rack.
    Cradles,
    /// An open box in which cylinders lie or stand loose.
    Crate,
    /// A net over cylinders that lie on the deck.
    Net,
}

/// What closes the front of a bench row.
#[derive(
    Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum FrontKind {
    /// Webbing.
    Strap,
    /// Chain.
    Chain,
    /// Shock cord.
    Cord,
    /// A rigid bar or gate.
    Bar,
}

/// A strap, chain, cord or bar across the front of some slots. One thing: opened for one slot, it is
/// open for all of them.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Front {
    /// How others refer to it.
    pub id: Id,

    /// What it is.
    pub kind: FrontKind,

    /// The slots it serves, by their painted names.
    pub slots: Vec<String>,

    /// Its height above what the cylinders stand on, in metres.
    pub height_m: f64,

    /// The pull or push that it can take, in kilonewtons (maximum securing load).
    #[serde(default)]
    pub strength_kn: Known,

    /// Is it tied or hooked between every two slots, so that each slot is held on its own?
    #[serde(default, skip_serializing_if = "is_false")]
    pub tied_between_slots: bool,

    /// How far it can be pulled out at the middle before it bites, in metres.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub slack_m: Option<Known>,

    /// Is it shut (hooked, tightened)?
    #[serde(default = "yes", skip_serializing_if = "is_true")]
    pub shut: bool,
}

impl FrontKind {
    /// In a word.
    pub fn word(self) -> &'static str {
        match self {
            Self::Strap => "strap",
            Self::Chain => "chain",
            Self::Cord => "cord",
            Self::Bar => "bar",
        }
    }
}

impl Front {
    /// What the crew call it: what it is before its name, unless that says it already. A cord P1-P4 could be taken for
    /// the cylinders P1 to P4.
    pub fn called(&self) -> String {
        /// What a name may say that it is.
        const SAYS_IT: [&str; 10] = [
            "strap", "chain", "cord", "bar", "rope", "bungee", "gate", "net", "rail", "webbing",
        ];
        let mut words = self.id.split(|c: char| !c.is_alphabetic());
        let says_it = words.any(|word| {
            let word = word.to_lowercase();
            let word = word.strip_suffix('s').unwrap_or(&word);
            SAYS_IT.contains(&word)
        });
        if says_it {
            self.id.clone()
        } else {
            format!("{} {}", self.kind.word(), self.id)
        }
    }
}

/// How a rack is fixed to the boat.
#[derive(Copy, Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(tag = "kind", rename_all = "snake_case", deny_unknown_fields)]
pub enum Fixings {
    /// Bolted or welded down.
    Fixed {
        /// The sideways force that all fixings together can take, in kilonewtons.
        strength_kn: Known,
    },
    /// Standing loose on the deck.
    Unfixed,
}

/// What holds cylinders. Its row runs along `turn_deg`; its back is to the left of that direction and
/// its front to the right.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Rack {
    /// How others refer to it.
    pub id: Id,

    /// What the crew call it, where that is longer than the id.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub name: Option<String>,

    /// The deck it stands on.
    pub deck: Id,

    /// What it is.
    pub kind: RackKind,

    /// Its middle, in metres.
    pub at: Point,

    /// The direction of its rows, in degrees from the bow towards port.
    #[serde(default, skip_serializing_if = "is_zero")]
    pub turn_deg: f64,

    /// Slots in a row.
    #[schemars(range(min = 1, max = 200))]
    pub columns: u32,

    /// Rows, counted from the front.
    #[serde(default = "one", skip_serializing_if = "is_one")]
    #[schemars(range(min = 1, max = 50))]
    pub rows: u32,

    /// Distance from slot to slot along a row, in metres.
    pub pitch_m: f64,

    /// Distance from row to row, in metres; the pitch along the row unless given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub row_pitch_m: Option<f64>,

    /// The names painted on the slots, row by row from the front; numbered after the rack unless given.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub slot_names: Vec<String>,

    /// Inside width of a slot, in metres: the bore of a socket, the gap between dividers.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bore_m: Option<f64>,

    /// Height of the retaining edge or back rail above what the cylinder stands on, in metres.
    pub edge_height_m: f64,

    /// Height above the deck of what the cylinders stand or lie on, in metres.
    #[serde(default, skip_serializing_if = "is_zero")]
    pub shelf_height_m: f64,

    /// What the cylinders stand on in the rack; the deck's surface unless given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub surface: Option<Surface>,

    /// Is the foot held (a lip, cup or saddle), so that it cannot slide out?
    #[serde(default, skip_serializing_if = "is_false")]
    pub foot_held: bool,

    /// The sideways force that each slot's edge, back rail and foot stop can take, each saddle of cradles, or
    /// each side of a crate, in kilonewtons.
    #[serde(default)]
    pub slot_strength_kn: Known,

    /// The force with which each cylinder is held down, in kilonewtons; nothing holds it down unless
    /// given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub hold_down_kn: Option<Known>,

    /// What closes the front, for a bench row.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub fronts: Vec<Front>,

    /// Half the angle over which a saddle grips a lying cylinder, in degrees, for cradles.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub saddle_half_angle_deg: Option<f64>,

    /// Inside length and width of a crate, or of the ground a net covers, in metres.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub size_m: Option<[f64; 2]>,

    /// Has the rack a floor of its own, so that the cylinders' whole weight comes on its fixings?
    #[serde(default, skip_serializing_if = "is_false")]
    pub own_floor: bool,

    /// Its own mass in kilograms.
    pub mass_kg: f64,

    /// How it is fixed to the boat.
    pub fixings: Fixings,

    /// What its shelf may carry in all, in kilograms.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub load_limit_kg: Option<Known>,
}

/// One slot of a rack, where it is on the deck plan.
#[derive(Clone, Debug, PartialEq)]
pub struct Slot {
    /// The name painted on it.
    pub name: String,

    /// Its middle, in metres.
    pub at: Point,
}

pub(super) fn yes() -> bool {
    true
}

pub(super) fn is_true(flag: &bool) -> bool {
    *flag
}

fn one() -> u32 {
    1
}

fn is_one(count: &u32) -> bool {
    *count == 1
}

impl Rack {
    /// Distance from row to row in metres.
    pub fn row_pitch(&self) -> f64 {
        self.row_pitch_m.unwrap_or(self.pitch_m)
    }

    /// How many slots there are.
    pub fn slot_count(&self) -> usize {
        self.columns as usize * self.rows as usize
    }

    /// The slot's painted name, counted from 0 row by row.
    pub fn slot_name(&self, index: usize) -> String {
        self.slot_names
            .get(index)
            .cloned()
            .unwrap_or_else(|| format!("{}-{}", self.id, index + 1))
    }

    /// All slots, row by row from the front.
    pub fn slots(&self) -> Vec<Slot> {
        (0..self.slot_count())
            .map(|index| self.numbered_slot(index))
            .collect()
    }

    fn numbered_slot(&self, index: usize) -> Slot {
        let columns = self.columns as usize;
        let along = (index % columns) as f64 - 0.5 * (columns as f64 - 1.0);
        let back = (index / columns) as f64 - 0.5 * (f64::from(self.rows) - 1.0);
        Slot {
            name: self.slot_name(index),
            at: self.on_deck([along * self.pitch_m, back * self.row_pitch()]),
        }
    }

    /// The slot with this painted name.
    pub fn slot(&self, name: &str) -> Option<Slot> {
        let is_it = |index: &usize| match self.slot_names.get(*index) {
            Some(painted) => painted == name,
            None => self.slot_name(*index) == name,
        };
        let index = (0..self.slot_count()).find(is_it)?;
        Some(self.numbered_slot(index))
    }

    /// A point given along the row and towards the back, on the deck plan; metres.
    pub fn on_deck(&self, [along, back]: [f64; 2]) -> Point {
        let (sin, cos) = self.turn_deg.to_radians().sine_cosine();
        [
            self.at[0] + along * cos - back * sin,
            self.at[1] + along * sin + back * cos,
        ]
    }

    /// Its outer length along the row and width across it, in metres, walls not counted.
    pub fn outer_size(&self) -> [f64; 2] {
        self.size_m.unwrap_or([
            f64::from(self.columns) * self.pitch_m,
            f64::from(self.rows) * self.row_pitch(),
        ])
    }

    /// The front that serves this slot, if there is one.
    pub fn front_of(&self, slot: &str) -> Option<&Front> {
        self.fronts
            .iter()
            .find(|front| front.slots.iter().any(|name| name == slot))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_front_is_called_what_it_is() {
        let called = |id: &str, kind: FrontKind| {
            let front = Front {
                id: id.to_owned(),
                kind,
                slots: Vec::new(),
                height_m: 0.4,
                strength_kn: Known::NotKnown,
                tied_between_slots: false,
                slack_m: None,
                shut: true,
            };
            front.called()
        };
        assert_eq!(called("P1-P4", FrontKind::Cord), "cord P1-P4");
        assert_eq!(called("Bar P1-P4", FrontKind::Bar), "Bar P1-P4");
        assert_eq!(called("aft gate", FrontKind::Bar), "aft gate");
        assert_eq!(called("Barbara", FrontKind::Strap), "strap Barbara");
    }

    fn rack(turn_deg: f64) -> Rack {
        Rack {
            id: "R".into(),
            name: None,
            deck: "main".into(),
            kind: RackKind::Sockets,
            at: [4.0, 1.0],
            turn_deg,
            columns: 3,
            rows: 2,
            pitch_m: 0.25,
            row_pitch_m: Some(0.3),
            slot_names: vec!["A".into()],
            bore_m: None,
            edge_height_m: 0.4,
            shelf_height_m: 0.0,
            surface: None,
            foot_held: false,
            slot_strength_kn: Known::NotKnown,
            hold_down_kn: None,
            fronts: Vec::new(),
            saddle_half_angle_deg: None,
            size_m: None,
            own_floor: false,
            mass_kg: 10.0,
            fixings: Fixings::Unfixed,
            load_limit_kg: None,
        }
    }

    #[expect(
        clippy::float_cmp,
        reason = "sums of exact binary fractions and their rounding are fixed"
    )]
    #[test]
    fn slots_are_counted_from_the_front_row_along_the_row() {
        let slots = rack(0.0).slots();
        assert_eq!(slots.len(), 6);
        assert_eq!(slots[0].name, "A", "as painted");
        assert_eq!(slots[1].name, "R-2", "numbered after the rack");
        assert_eq!(
            slots[0].at,
            [3.75, 0.85],
            "front is to the right of the row"
        );
        assert_eq!(slots[5].at, [4.25, 1.15]);
    }

    #[test]
    fn a_quarter_turn_runs_the_row_to_port() {
        let at = rack(90.0).slots()[0].at;
        assert!(
            (at[0] - 4.15).abs() < 1e-12 && (at[1] - 0.75).abs() < 1e-12,
            "{at:?}"
        );
    }
}
