//! Names of the fields on cards, and of what can be chosen there.

use crate::engine::numbers::NeedKind;
use crate::layout::{
    Condition, Fill, FrontKind, GearAboardKind, Hull, Kit, LashCondition, MotionSource, Posture,
};

pub(crate) const KNOWN: &str = "known";
pub(crate) const NOT_KNOWN: &str = "not known";
pub(crate) const GIVEN: &str = "given";
pub(crate) const FORWARD: &str = "Forward of the stern";
pub(crate) const TO_PORT: &str = "To port of the middle";
pub(crate) const NAME: &str = "Name";
pub(crate) const KIND: &str = "Kind";
pub(crate) const NUMBER: &str = "Number on it";
pub(crate) const GAS: &str = "Gas";
pub(crate) const FILL: &str = "How full";
pub(crate) const PRESSURE: &str = "Pressure";
pub(crate) const BY_FILL: &str = "from how full";
pub(crate) const TARE: &str = "Stamped empty mass";
pub(crate) const MEASURES: &str = "Its measures are";
pub(crate) const OF_KIND: &str = "of its kind";
pub(crate) const BOOT: &str = "Has a boot";
pub(crate) const NET: &str = "Has a net";
pub(crate) const VALVE_PROTECTED: &str = "Valve protected";
pub(crate) const KIT: &str = "Kit";
pub(crate) const KIT_FACES: &str = "Kit faces";
pub(crate) const NOT_SAID: &str = "not said";
pub(crate) const KIT_MASS: &str = "Mass of the kit";
pub(crate) const USUAL_KIT: &str = "the usual kit";
pub(crate) const DIVER: &str = "Diver";
pub(crate) const ANALYSED: &str = "Analysed";
pub(crate) const PLACING: &str = "Where it is";
pub(crate) const VALVE_TOWARDS: &str = "Valve points";
pub(crate) const ON_KIT: &str = "Lies on its kit";
pub(crate) const CHOCKS: &str = "Chocks";
pub(crate) const NO_CHOCKS: &str = "none";
pub(crate) const BLOCKS: &str = "square edges";
pub(crate) const WEDGES: &str = "wedges";
pub(crate) const SADDLE: &str = "saddle";
pub(crate) const CHOCK_HEIGHT: &str = "Chock height";
pub(crate) const CHOCK_FIXED: &str = "Chocks fixed";
pub(crate) const CHOCK_GAP: &str = "Gap to the chock";
pub(crate) const SLOPE: &str = "Slope";
pub(crate) const HALF_ANGLE: &str = "Half angle of grip";
pub(crate) const HELD_BY: &str = "Held by";
pub(crate) const WORN_BY: &str = "Worn by";
pub(crate) const HANGS_FROM: &str = "Hangs from";
pub(crate) const CLEAR_OF_DECK: &str = "Clear of the deck";
pub(crate) const CAGE_RADIUS: &str = "Radius of the cage";
pub(crate) const CAGE_HEIGHT: &str = "Height of the cage";
pub(crate) const TURN: &str = "Row runs towards";
pub(crate) const COLUMNS: &str = "Slots in a row";
pub(crate) const ROWS: &str = "Rows";
pub(crate) const PITCH: &str = "From slot to slot";
pub(crate) const ROW_PITCH: &str = "From row to row";
pub(crate) const SAME_PITCH: &str = "as in the row";
pub(crate) const BORE: &str = "Width of a slot";
pub(crate) const EDGE_HEIGHT: &str = "Height of the edge";
pub(crate) const SHELF_HEIGHT: &str = "Shelf above deck";
pub(crate) const FOOT_HELD: &str = "Foot is held";
pub(crate) const SLOT_STRENGTH: &str = "A slot's edge takes";
pub(crate) const HOLD_DOWN: &str = "Held down with";
pub(crate) const NOTHING: &str = "nothing";
pub(crate) const OWN_FLOOR: &str = "Has a floor of its own";
pub(crate) const MASS: &str = "Mass";
pub(crate) const FIXED: &str = "Fixed to the boat";
pub(crate) const FIXINGS: &str = "All fixings take";
pub(crate) const LOAD_LIMIT: &str = "May carry";
pub(crate) const FRONT: &str = "Across the front";
pub(crate) const FRONT_HEIGHT: &str = "Height of the front";
pub(crate) const FRONT_STRENGTH: &str = "The front takes";
pub(crate) const TIED_BETWEEN: &str = "Tied between every two slots";
pub(crate) const SHUT: &str = "Shut";
pub(crate) const SLACK: &str = "Slack";
pub(crate) const SLOT_NAMES: &str = "Painted names";
pub(crate) const STRENGTH: &str = "Takes a pull of";
pub(crate) const OF_MATERIAL: &str = "of its material";
pub(crate) const HEIGHT: &str = "Height";
pub(crate) const HEIGHT_ON_CYLINDER: &str = "Height on the cylinder";
pub(crate) const MATERIAL: &str = "Material";
pub(crate) const CONDITION: &str = "Condition";
pub(crate) const MADE_FAST: &str = "Made fast";
pub(crate) const PRETENSION: &str = "Tightened with";
pub(crate) const FROM: &str = "From";
pub(crate) const ROUND: &str = "Round";
pub(crate) const TO: &str = "To";
pub(crate) const LENGTH: &str = "Length";
pub(crate) const WIDTH: &str = "Width";
pub(crate) const RADIUS: &str = "Radius";
pub(crate) const THICKNESS: &str = "Thickness";
pub(crate) const FACES: &str = "Faces";
pub(crate) const STOWED: &str = "Stowed away";
pub(crate) const ROLE: &str = "Is aboard as";
pub(crate) const POSTURE: &str = "Does";
pub(crate) const FINS: &str = "Fins on";
pub(crate) const USUAL_MASS: &str = "83.9 kg assumed";
pub(crate) const UNDERSIDE: &str = "Underside above deck";
pub(crate) const WALKED_ON: &str = "People walk on it";
pub(crate) const CLEAR_FLOOR: &str = "Clear floor in front";
pub(crate) const NONE_WANTED: &str = "none wanted";
pub(crate) const BACKING: &str = "Backs a cylinder with";
pub(crate) const NO_BACKING: &str = "it cannot";
pub(crate) const SHELF: &str = "Things stand on its top";
pub(crate) const CLEAR_WIDTH: &str = "Clear width wanted";
pub(crate) const BY_RULE: &str = "by its length";
pub(crate) const HEADROOM: &str = "Headroom wanted";
pub(crate) const NOT_CHECKED: &str = "not checked";
pub(crate) const DECK_HEIGHT: &str = "Above the water";
pub(crate) const SURFACE: &str = "Underfoot";
pub(crate) const WET: &str = "Wet";
pub(crate) const FRICTION: &str = "Friction";
pub(crate) const FRICTION_ASSUMED: &str = "of its surface";
pub(crate) const DECK_LOAD: &str = "Carries";
pub(crate) const HULL: &str = "Hull";
pub(crate) const BOAT_LENGTH: &str = "Length overall";
pub(crate) const BEAM: &str = "Beam";
pub(crate) const WATERLINE: &str = "Waterline length";
pub(crate) const DRAUGHT: &str = "Draught";
pub(crate) const DISPLACEMENT: &str = "Displacement";
pub(crate) const GM: &str = "GM";
pub(crate) const ROLL_PERIOD: &str = "Roll period";
pub(crate) const BOAT: &str = "The boat";
pub(crate) const PART: &str = "This part of the day";
pub(crate) const THE_TRIP: &str = "This trip";
pub(crate) const DATE: &str = "Date";
pub(crate) const GEAR_ABOARD: &str = "Gear aboard";
pub(crate) const GEAR_ABOARD_HELP: &str = "What can be used for a cure, that in use counted.";
pub(crate) const TAKE_OFF: &str = "Take off the list";
pub(crate) const ADD_GEAR: &str = "Add gear aboard";
pub(crate) const NEW_TRIP: &str = "New trip from this one";
pub(crate) const REMOVE_TRIP: &str = "Take this trip away";
pub(crate) const EARLIER: &str = "Earlier in the day";
pub(crate) const LATER: &str = "Later in the day";
pub(crate) const ADD_PART: &str = "Add a part of the day after this one";
pub(crate) const COPY_PART: &str = "Copy this part of the day";
pub(crate) const COPY_PART_HELP: &str =
    "Another part like this one, with everything where it is now; the other parts stay as they are";

/// Where a copy goes.
pub(crate) fn after_part(name: &str) -> String {
    format!("after {name}")
}

pub(crate) const REMOVE_PART: &str = "Take this part of the day away";
pub(crate) const THE_DECK: &str = "This deck";
pub(crate) const BOAT_IS: &str = "The boat is";
pub(crate) const MOTION_GIVEN: &str = "Motion is given";
pub(crate) const MOTION_ASSUMED: &str = "A motion is assumed; give your own when you know it.";
pub(crate) const MOTION_FROM: &str = "Motion is";
pub(crate) const ROLL: &str = "Rolls to each side";
pub(crate) const PITCHES: &str = "Pitches up and down";
pub(crate) const PITCH_PERIOD: &str = "Pitch period";
pub(crate) const VERTICAL: &str = "Up and down";
pub(crate) const HEEL: &str = "Steady heel";
pub(crate) const TRIM: &str = "Steady trim, bow down";
pub(crate) const PUSH_AHEAD: &str = "Push ahead";
pub(crate) const PUSH_ASTERN: &str = "Push astern, stopping";
pub(crate) const PUSH_PORT: &str = "Push to port";
pub(crate) const PUSH_STARBOARD: &str = "Push to starboard";
pub(crate) const DURATION: &str = "Lasts";
pub(crate) const NOBODY: &str = "Nobody on deck";
pub(crate) const THE_NUMBERS: &str = "The numbers";
pub(crate) const THE_CARD: &str = "Its card";
pub(crate) const COPY: &str = "Copy";
pub(crate) const NO_SUM: &str = "No sum for this.";

pub(crate) const OF_BOAT: &str = "the boat's own";
pub(crate) const USUAL_PITCH: &str = "2.5 s";
pub(crate) const AT_FIXINGS: &str = "Pull at the fixings";
pub(crate) const PULLS: &str = "Greatest pull";
pub(crate) const COUNTS: &str = "Of its strength counts";
pub(crate) const STEEPEST: &str = "Steepest leg";
pub(crate) const CLEAR: &str = "Clear width now";
pub(crate) const CLEAR_OF_LOW: &str = "Without stepping over";
pub(crate) const BOAT_ALONE: &str = "Of the empty boat";
pub(crate) const TIGHT_SPOT: &str = "Tight spot between";

/// "6 of 8 slots taken".
pub(crate) fn slots_taken(taken: usize, all: usize) -> String {
    format!("{taken} of {all} slots taken")
}

/// The kind that a rack is filled with.
pub(crate) fn with_kind(kind: &str) -> String {
    format!("with {kind}")
}

/// "Pull at strap".
pub(crate) fn at_front(front: &str) -> String {
    format!("Pull at {front}")
}

/// "1.25 m or more".
pub(crate) fn or_more(width: &str) -> String {
    format!("{width} or more")
}

/// "0.61 m, 46 CFR ...".
pub(crate) fn wanted(width: &str, source: &str) -> String {
    format!("{width}, {source}")
}

/// "console and R1".
pub(crate) fn between(things: &[String; 2]) -> String {
    format!("{} and {}", things[0], things[1])
}

/// "70 %, tips".
pub(crate) fn used(share: &str, way: &str) -> String {
    format!("{share}, {way}")
}

/// "every 2.8 s: goes at 8°".
pub(crate) fn every(period: &str, outcome: &str) -> String {
    format!("every {period}: {outcome}")
}

/// The eight numbers of a cylinder.
pub(crate) const TOTAL_MASS: &str = "Mass with all on it";
pub(crate) const CENTRE: &str = "Centre of gravity";
pub(crate) const BASE: &str = "From centre to edge";
pub(crate) const SLENDER: &str = "Height to base";
pub(crate) const TIPS_ALONE: &str = "Tips alone at";
pub(crate) const WORST_CASE: &str = "Worst case";
pub(crate) const USED: &str = "Of what holds, used";
pub(crate) const GOES: &str = "Rolling";

/// See the text.
pub(crate) fn from_to(least: &str, most: &str) -> String {
    format!("from {least} to {most}; any unit may be typed")
}

/// See the text.
pub(crate) fn several(count: usize, same: usize) -> String {
    let card = format!("{count} things are selected. This is the last one's card");
    if same > 1 {
        format!("{card}; what is changed on it is changed on all {same} of its kind.")
    } else {
        format!("{card}.")
    }
}

/// "0.34 m/s² along, 9.1 m/s² onto the deck, rolling to starboard".
pub(crate) fn case(a_h: f64, a_n: f64, case: &str) -> String {
    format!("{case}: {a_h:.2} m/s² along the deck, {a_n:.2} onto it")
}

/// "0.31, painted deck, wet".
pub(crate) fn friction(value: Option<f64>, source: &str) -> String {
    match value {
        Some(value) => format!("{value:.2}, {source}"),
        None => format!("not known, {source}"),
    }
}

/// What must be found out.
pub(crate) fn need(kind: NeedKind, of: &str, at_least: &str) -> String {
    let what = match kind {
        NeedKind::PointStrength => "lashing point",
        NeedKind::LashingStrength | NeedKind::LashingSlack => "lashing",
        NeedKind::SlotStrength => "slot of",
        NeedKind::FrontStrength => "front of",
        NeedKind::FixingStrength => "fixings of",
        NeedKind::HoldDown => "hold-down of",
        NeedKind::BackingStrength => "backing by",
        NeedKind::Friction => "friction under",
        NeedKind::LoadLimit => "load limit of",
    };
    let sense = if kind == NeedKind::LashingSlack {
        "slack at most"
    } else {
        "needs at least"
    };
    format!("{what} {of}: {sense} {at_least}; find out")
}

/// A kind of gear aboard.
pub(crate) fn gear_aboard_kind(kind: GearAboardKind) -> &'static str {
    match kind {
        GearAboardKind::Strap => "strap",
        GearAboardKind::Cord => "shock cord",
        GearAboardKind::Rope => "rope",
        GearAboardKind::Chain => "chain",
        GearAboardKind::Net => "net",
        GearAboardKind::Chock => "chock",
        GearAboardKind::Mat => "non-slip mat",
        GearAboardKind::Boot => "boot",
    }
}

/// One kind of gear aboard by its name.
pub(crate) fn gear_aboard(kind: GearAboardKind, id: &str) -> String {
    format!("{id} ({})", gear_aboard_kind(kind))
}

/// How full.
pub(crate) fn fill(fill: Fill) -> &'static str {
    match fill {
        Fill::Full => "full",
        Fill::PartUsed => "part used",
        Fill::Empty => "empty",
    }
}

/// Kit on or off.
pub(crate) fn kit(kit: Kit) -> &'static str {
    match kit {
        Kit::On => "on",
        Kit::Off => "off",
    }
}

/// What closes a front.
pub(crate) fn front(kind: FrontKind) -> &'static str {
    match kind {
        FrontKind::Strap => "strap",
        FrontKind::Chain => "chain",
        FrontKind::Cord => "shock cord",
        FrontKind::Bar => "bar",
    }
}

/// The form of a hull.
pub(crate) fn hull(hull: Option<Hull>) -> &'static str {
    match hull {
        None => "not said",
        Some(Hull::Monohull) => "one displacement hull",
        Some(Hull::TwinHull) => "twin hull",
        Some(Hull::Planing) => "planing",
        Some(Hull::Inflatable) => "inflatable",
    }
}

/// What somebody does with their body.
pub(crate) fn posture(posture: Posture) -> &'static str {
    match posture {
        Posture::Standing => "stands",
        Posture::Seated => "sits",
        Posture::SeatedKitted => "sits kitted up",
        Posture::Kneeling => "kneels",
        Posture::Lying => "lies",
        Posture::InWater => "in the water",
        Posture::Below => "below",
        Posture::Ashore => "ashore",
    }
}

/// How worn a lashing is.
pub(crate) fn lash_condition(condition: LashCondition) -> &'static str {
    match condition {
        LashCondition::Good => "as new",
        LashCondition::Knotted => "with a knot",
        LashCondition::Bleached => "bleached or stiff",
        LashCondition::Cut => "cut or chafed",
    }
}

/// Where a motion comes from.
pub(crate) fn motion_source(source: MotionSource) -> &'static str {
    match source {
        MotionSource::Recorded => "from a recorded log",
        MotionSource::Stopwatch => "by stopwatch and eye",
        MotionSource::Estimate => "estimated from boat and sea",
        MotionSource::Wake => "estimated from a passing wake",
        MotionSource::Preset => "preset for a boat that runs",
        MotionSource::Assumed => "assumed",
    }
}

/// What the boat is doing.
pub(crate) fn condition(condition: Condition) -> &'static str {
    super::condition(condition)
}
