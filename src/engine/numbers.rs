//! Every computed number of a trip, part by part: what the checks read, what `snugdown check --format
//! json` prints, and what anybody can hold against numbers of their own.

use schemars::JsonSchema;
use serde::Serialize;

use crate::layout::{Condition, Id, MotionSource, Point};

/// All computed numbers of one trip.
#[derive(Clone, Debug, Default, PartialEq, Serialize, JsonSchema)]
pub struct Assessment {
    /// The trip.
    pub trip: Id,

    /// Its parts, in the order of the day.
    pub parts: Vec<PartNumbers>,
}

/// All computed numbers of one part of the day.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct PartNumbers {
    /// The part.
    pub part: Id,

    /// What the boat is doing.
    pub condition: Condition,

    /// The motion that the numbers are for.
    pub motion: MotionNumbers,

    /// The cylinders that are on deck, in the order of their names.
    pub cylinders: Vec<CylinderNumbers>,

    /// The racks, in the order of their names.
    pub racks: Vec<RackNumbers>,

    /// The lashings, in the order of their names.
    pub lashings: Vec<LashingNumbers>,

    /// The lashing points in use, in the order of their names.
    pub points: Vec<PointNumbers>,

    /// The walkways, in the order of their names.
    pub walkways: Vec<WalkwayNumbers>,

    /// What the upright cylinders would reach if they went, in the order of their names.
    pub falls: Vec<FallNumbers>,

    /// Mass, area and load of each deck, in the order of their names.
    pub decks: Vec<DeckNumbers>,

    /// What does not fit where it is, deck by deck, in the order of the ways in which it does not,
    /// then of the names.
    pub fit: Vec<FitNumbers>,

    /// How far the stowage (not the boat) is good, and what goes first.
    pub limit: StowageLimit,
}

/// The motion that was used, after everything assumed was filled in.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct MotionNumbers {
    /// Where it comes from.
    pub source: MotionSource,

    /// What was assumed because nobody gave it, in words.
    pub assumed: Vec<String>,

    /// Roll to each side, in degrees.
    pub roll_amplitude_deg: f64,

    /// Seconds for a full roll.
    pub roll_period_s: f64,

    /// Pitch up and down, in degrees.
    pub pitch_amplitude_deg: f64,

    /// Seconds for a full pitch.
    pub pitch_period_s: f64,

    /// Vertical acceleration up and down, in m/s².
    pub vertical_m_s2: f64,

    /// Steady heel in degrees, starboard down positive.
    pub heel_deg: f64,

    /// Steady trim in degrees, bow down positive.
    pub trim_deg: f64,

    /// From which utilisation on a finding is a WARNING, for this source of motion (method, grading).
    pub warning_from: f64,
}

/// How a cylinder is held.
#[derive(Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Stance {
    /// Upright, with nothing but its foot.
    StandsFree,
    /// Upright against something that backs it, with nothing else.
    Backed,
    /// Upright in a rack.
    InRack,
    /// Upright with a lashing.
    Lashed,
    /// Upright and held by somebody.
    HeldByHand,
    /// Upright on the filling whip.
    OnWhip,
    /// Upside down in its cage.
    UpsideDown,
    /// Hanging.
    Hanging,
    /// Lying.
    Lying,
    /// Lying in a cradle.
    InCradle,
    /// Loose in an open crate or under a net.
    InCrate,
    /// On a diver's back.
    OnDiver,
}

impl Stance {
    /// Does it stand upright on its foot?
    pub fn is_upright(self) -> bool {
        matches!(
            self,
            Self::StandsFree
                | Self::Backed
                | Self::InRack
                | Self::Lashed
                | Self::HeldByHand
                | Self::OnWhip
                | Self::UpsideDown
        )
    }
}

/// The way in which a body goes.
#[derive(Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Way {
    /// Over its edge.
    Tips,
    /// Along the deck.
    Slides,
    /// Off the deck or out of its slot.
    Lifts,
    /// Its foot slides out from under it.
    FootKicksOut,
    /// The edge, rail or front of its rack gives.
    RackGives,
    /// A lashing or its point gives.
    LashingGives,
    /// Across its axis, when lying.
    RollsAway,
    /// Along its axis, when lying.
    SlidesAlong,
    /// Out of the groove between the two below.
    LeavesGroove,
}

/// The load case that governs a number.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Governing {
    /// The load case in words: "rolling to starboard, light".
    pub case: String,

    /// Where the force along the deck points, in degrees from the bow towards port.
    pub towards_deg: f64,

    /// Apparent force along the deck per unit mass, in m/s².
    pub a_h_m_s2: f64,

    /// Apparent force onto the deck per unit mass, in m/s².
    pub a_n_m_s2: f64,
}

/// How much of what holds is used up: 1 means it goes. `None` where it cannot be said, because
/// something is not known, or where the question does not arise.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Utilisation {
    /// The way in which it would go.
    pub way: Way,

    /// The number, the worst over all load cases. Infinite is written as `null` with `goes` true.
    pub value: Option<f64>,

    /// Does it go (1 or more)?
    pub goes: bool,

    /// The load case at which it is worst.
    pub governing: Option<Governing>,

    /// The formula with its figures put in, line by line, for "show the sum".
    pub sum: Vec<String>,
}

/// Something nobody knows that would have to be at least this good.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Need {
    /// What it is of: a lashing point, a rack's slot, a front, a lashing, fixings, friction.
    pub what: NeedKind,

    /// The thing's name.
    pub of: Id,

    /// What would be needed: kilonewtons for strengths, a number for friction, metres for slack (at
    /// most).
    pub at_least: f64,
}

/// What is not known.
#[derive(Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum NeedKind {
    /// Strength of a lashing point.
    PointStrength,
    /// Strength of a lashing.
    LashingStrength,
    /// How loose a lashing is.
    LashingSlack,
    /// Strength of a rack's slot.
    SlotStrength,
    /// Strength of a rack's front.
    FrontStrength,
    /// Strength of a rack's fixings.
    FixingStrength,
    /// Hold-down of a rack.
    HoldDown,
    /// Strength of what backs it.
    BackingStrength,
    /// Friction underfoot.
    Friction,
    /// Load limit of a shelf or deck.
    LoadLimit,
}

/// The motion at which something goes first.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct LimitNumbers {
    /// The share of the part's whole motion, all terms scaled together, at which it goes; `None` where it
    /// holds up to [`LimitNumbers::SEARCHED_SHARE`].
    pub share: Option<f64>,

    /// The roll to each side at which it goes, the rest of the motion held; `None` where it holds up to
    /// [`LimitNumbers::SEARCHED_ROLL_DEG`] or where roll does not decide.
    pub roll_deg: Option<f64>,

    /// The same at nine tenths of the roll period.
    pub roll_at_short_period_deg: Option<f64>,

    /// Does it go without any roll, from pitch, heave, pushes or steady heel alone?
    pub goes_without_roll: bool,

    /// Does it go at rest, without any motion?
    pub goes_at_rest: bool,

    /// The way in which it goes.
    pub way: Option<Way>,

    /// Does the number hold only if things hold that nobody knows ([`CylinderNumbers::needs`])?
    pub if_unknowns_hold: bool,
}

impl LimitNumbers {
    /// The largest share of the motion that is searched.
    pub const SEARCHED_SHARE: f64 = 4.0;

    /// The largest roll that is searched, in degrees.
    pub const SEARCHED_ROLL_DEG: f64 = 60.0;
}

/// How a rack holds one cylinder.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct RackHold {
    /// The rack.
    pub rack: Id,

    /// The slot.
    pub slot: String,

    /// Sideways force on the slot's edge or back rail, in newtons, at the worst.
    pub edge_force_n: f64,

    /// What that edge can take, in newtons; `None` if not known.
    pub edge_strength_n: Option<f64>,

    /// Height of the edge above what the cylinder stands on, in metres.
    pub edge_height_m: f64,

    /// Force on the front strap, chain, cord or bar from this cylinder, in newtons, at the worst.
    pub front_force_n: Option<f64>,

    /// The front that serves the slot, whether shut or not.
    pub front: Option<Id>,

    /// Is the slot closed all round (a socket, or a shut front)?
    pub closed: bool,

    /// Play of the cylinder in its slot across, in metres; `None` if the bore is not given.
    pub play_m: Option<f64>,

    /// How far it can lean before the edge holds it, in degrees.
    pub lean_deg: f64,

    /// Sideways force on the foot's stop, in newtons; 0 where the foot is free.
    pub foot_force_n: f64,

    /// The roll at which the foot kicks out, in degrees, where only friction holds it.
    pub kick_out_roll_deg: Option<f64>,

    /// Upward force in newtons that the hold-down must take; 0 where the deck is never left.
    pub lift_force_n: f64,
}

/// How a lashing holds one cylinder.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct LashingHold {
    /// The lashing.
    pub lashing: Id,

    /// Its greatest pull over the load cases, in newtons; infinite (`null` in JSON) where no pull of it could
    /// hold the cylinder.
    #[schemars(with = "Option<f64>")]
    pub pull_n: f64,

    /// What counts of its strength (CS: the weaker of strap and points, divided by 1.5), in newtons; `None` if
    /// not known.
    pub capacity_n: Option<f64>,

    /// Is it on the straight shell?
    pub on_straight_shell: bool,

    /// How far the slack lets the cylinder lean before it bites, in degrees; `None` if the slack is not
    /// known.
    pub lean_deg: Option<f64>,

    /// The peak pull when it bites after the slack, in newtons.
    pub snatch_n: Option<f64>,

    /// How far a hand at the valve (150 N) can move the top before the lashing is tight, in metres.
    pub push_test_m: Option<f64>,
}

/// All computed numbers of one cylinder in one part of the day.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct CylinderNumbers {
    /// The cylinder.
    pub cylinder: Id,

    /// The deck it is on.
    pub deck: Id,

    /// Where it is, in metres.
    pub at: Point,

    /// How it is held.
    pub stance: Stance,

    /// Mass with gas, valve, boot and kit, in kilograms.
    pub mass_kg: f64,

    /// Height of the centre of gravity above what it stands or lies on, in metres.
    pub cg_height_m: f64,

    /// Height of that centre above the waterline, in metres.
    pub cg_above_waterline_m: f64,

    /// The least distance from the centre of gravity to the edge it stands on, in metres; 0 where it
    /// cannot stand.
    pub base_radius_m: f64,

    /// Height over all, in metres.
    pub height_m: f64,

    /// Radius of the body, in metres.
    pub body_radius_m: f64,

    /// From where to where its straight shell reaches above its foot, in metres: there a lashing holds.
    pub straight_shell_m: [f64; 2],

    /// Height divided by the width of what it stands on; `None` where it does not stand.
    pub height_to_base_ratio: Option<f64>,

    /// The steady lean at which it would tip, held by nothing, in degrees.
    pub static_tip_angle_deg: Option<f64>,

    /// Friction underfoot; `None` if not known.
    pub friction: Option<f64>,

    /// Where the friction comes from, in words.
    pub friction_source: String,

    /// Every way in which it could go, with how much of what holds is used up; worst first.
    pub utilisations: Vec<Utilisation>,

    /// What nobody knows and would have to be at least this good.
    pub needs: Vec<Need>,

    /// How its rack holds it.
    pub rack: Option<RackHold>,

    /// How its lashings hold it.
    pub lashings: Vec<LashingHold>,

    /// What backs it, by name.
    pub backed_by: Vec<Id>,

    /// The pull in newtons that a person at its valve needs to hold it, for held by hand.
    pub hand_force_n: Option<f64>,

    /// The motion at which it goes.
    pub limit: LimitNumbers,
}

impl CylinderNumbers {
    /// The utilisation for one way of going.
    pub fn utilisation(&self, way: Way) -> Option<&Utilisation> {
        self.utilisations.iter().find(|item| item.way == way)
    }
}

/// All computed numbers of one rack.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct RackNumbers {
    /// The rack.
    pub rack: Id,

    /// Its own mass and that of what is in it, in kilograms.
    pub mass_kg: f64,

    /// Sideways force on its fixings, in newtons, at the worst.
    pub fixing_force_n: f64,

    /// What its fixings can take, in newtons; `None` if not known; 0 if unfixed.
    pub fixing_strength_n: Option<f64>,

    /// How much of what keeps an unfixed rack from tipping or sliding is used up.
    pub utilisations: Vec<Utilisation>,

    /// The pull on each front, in newtons, at the worst: the front, the pull, what it can take.
    pub fronts: Vec<FrontNumbers>,

    /// Weight on its shelf when the boat lands, in newtons.
    pub landing_load_n: f64,

    /// What the shelf may carry, in newtons at rest; `None` if not given or not known.
    pub load_limit_n: Option<f64>,
}

/// The pull on the front of a rack.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct FrontNumbers {
    /// The front.
    pub front: Id,

    /// The cylinders behind it.
    pub behind: Vec<Id>,

    /// The pull in newtons at the worst.
    pub pull_n: f64,

    /// What it can take, in newtons; `None` if not known.
    pub strength_n: Option<f64>,

    /// Is it shut?
    pub shut: bool,
}

/// All computed numbers of one lashing.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct LashingNumbers {
    /// The lashing.
    pub lashing: Id,

    /// Is it made fast?
    pub shut: bool,

    /// The cylinders it goes round.
    pub round: Vec<Id>,

    /// Its greatest pull, in newtons; infinite (`null` in JSON) where no pull of it could hold what it is
    /// round.
    #[schemars(with = "Option<f64>")]
    pub pull_n: f64,

    /// What it alone can take (CS), in newtons; `None` if not known.
    pub capacity_n: Option<f64>,

    /// The steepest of its two legs below the horizontal, in degrees.
    pub steepest_leg_deg: f64,

    /// Its legs, from cylinder to point, in metres above the deck plan: `[x, y, z above waterline]`.
    pub legs: Vec<[[f64; 3]; 2]>,
}

/// The pull on one lashing point.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct PointNumbers {
    /// The point.
    pub point: Id,

    /// The lashings made fast to it.
    pub lashings: Vec<Id>,

    /// The sum of their pulls, in newtons, at the worst; infinite (`null` in JSON) where one of them is.
    #[schemars(with = "Option<f64>")]
    pub pull_n: f64,

    /// What it can take in that direction (CS), in newtons; `None` if not known.
    pub capacity_n: Option<f64>,
}

/// The narrowest place of a walkway.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct TightSpot {
    /// The two things that make it, by their names in the plan; the deck's edge is `edge of DECK`.
    /// Where the room at an end is the tightest, the second is that place.
    pub between: [String; 2],

    /// What sort of thing each of the two is.
    pub kinds: [ThingSort; 2],

    /// Where, on each of the two, in metres.
    pub at: [Point; 2],

    /// Does the stowage take nothing away, so that the width is the empty boat's? Two fixtures can
    /// be the tight spot of a full boat and not of the empty one: the stowage then blocks a wider way.
    pub of_boat: bool,

    /// The smallest shift of one of the two that opens this spot to the wanted width; `None` where
    /// nothing is wanting or neither can be moved. It does not look at what is beyond.
    pub shift: Option<SpotShift>,
}

/// How something would have to be moved.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct SpotShift {
    /// What, by name; the rack of a cylinder that is in one.
    pub thing: Id,

    /// What sort of thing.
    pub kind: ThingSort,

    /// By how much, `[x, y]` in metres.
    pub by_m: Point,
}

/// Something that lies in a walkway's strip.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Intruder {
    /// What it is, by name.
    pub thing: Id,

    /// What sort of thing: fixture, cylinder, rack, gear, person, lashing.
    pub kind: ThingSort,

    /// How far it intrudes, in metres.
    pub into_m: f64,

    /// Where, in metres.
    pub at: Point,

    /// Its lowest and highest part above the deck, in metres.
    pub from_to_m: [f64; 2],

    /// The smallest shift that clears it, `[x, y]` in metres.
    pub shift_m: Point,

    /// Does it belong to the boat?
    pub of_boat: bool,
}

/// What sort of thing something on deck is.
#[derive(Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum ThingSort {
    /// The deck's own edge or an opening in it.
    Edge,
    /// A fixture.
    Fixture,
    /// A rack.
    Rack,
    /// A cylinder.
    Cylinder,
    /// Loose gear.
    Gear,
    /// Somebody.
    Person,
    /// A lashing.
    Lashing,
    /// A place, as the end of a walkway.
    Place,
}

/// All computed numbers of one walkway.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct WalkwayNumbers {
    /// The walkway.
    pub walkway: Id,

    /// The clear width wanted, in metres.
    pub wanted_m: f64,

    /// Where that comes from.
    pub wanted_source: String,

    /// Its length in metres.
    pub length_m: f64,

    /// Clear width over any route with only what one cannot step over as walls, in metres; 2 m and no
    /// tight spot where it is wider.
    pub clear_m: f64,

    /// The place that makes it.
    pub clear_spot: Option<TightSpot>,

    /// Clear width with low things as walls too, in metres.
    pub clear_of_low_m: f64,

    /// The place that makes it.
    pub clear_of_low_spot: Option<TightSpot>,

    /// Clear width of the empty boat (outline and fixtures alone), in metres.
    pub boat_clear_m: f64,

    /// The place that makes it.
    pub boat_spot: Option<TightSpot>,

    /// Clear width of the empty boat with low fixtures as walls too, in metres.
    pub boat_clear_of_low_m: f64,

    /// The place that makes it.
    pub boat_of_low_spot: Option<TightSpot>,

    /// What lies in the strip.
    pub intruders: Vec<Intruder>,

    /// The least headroom along the strip, in metres, and what makes it.
    pub headroom: Option<(f64, String)>,
}

/// One thing reached by a falling cylinder.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Struck {
    /// What, by name.
    pub thing: Id,

    /// What sort.
    pub kind: StruckKind,

    /// Does it go too, for another cylinder?
    pub goes_too: bool,

    /// Which cylinder reaches it: the one that goes first, or one of its chain.
    pub by: Id,

    /// Is it reached only afterwards, when the fallen cylinder rolls to the low side?
    pub afterwards: bool,
}

/// What sort of thing is reached by a falling cylinder.
#[derive(Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum StruckKind {
    /// Somebody.
    Person,
    /// A place where people are.
    Place,
    /// A walkway.
    Walkway,
    /// Loose gear.
    Gear,
    /// Glass.
    Glass,
    /// A fixture that breaks or burns: compressor, oxygen kit, fuel.
    Fixture,
    /// Another cylinder.
    Cylinder,
}

/// What an upright cylinder that nothing holds (or that goes all the same) would reach if it went. One
/// for each clearly different direction in which it goes within the motion, the readiest first; for
/// one that holds, the direction in which it would go first.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct FallNumbers {
    /// The cylinder.
    pub cylinder: Id,

    /// The direction in which it goes, in degrees from the bow towards port.
    pub towards_deg: f64,

    /// How much of what keeps it upright the worst load case in that direction uses up, held by nothing;
    /// infinite is written as `null`.
    pub utilisation: Option<f64>,

    /// Where it stands, in metres.
    pub at: Point,

    /// How far it reaches, in metres.
    pub reach_m: f64,

    /// The floor that it sweeps, corner by corner, in metres.
    pub sweep: Vec<Point>,

    /// Its energy when it is down, in joules.
    pub energy_j: f64,

    /// What lies in the sweep, in the sweeps of the cylinders that it takes along, and where it rolls
    /// to afterwards.
    pub struck: Vec<Struck>,

    /// The cylinders that it takes along, one after the other; no more than 20 are followed.
    pub chain: Vec<Id>,
}

/// In which way something does not fit where it is.
#[derive(Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum FitKind {
    /// Two things in the same place.
    Overlap,
    /// It sticks out over the edge of its deck or an opening in it.
    OffDeck,
    /// It sticks out over the edge of the fixture or crate that it is on or in.
    OffSupport,
    /// It covers something that must stay open.
    Covers,
    /// It is where a lid or door opens that must stay open.
    UnderLid,
    /// It is on the floor that must be clear in front of something.
    ClearFloor,
    /// It is on the floor that a place needs.
    PlaceFloor,
    /// A cylinder or the oxygen kit is near something hot.
    NearHeat,
    /// Oxygen is near fuel.
    OxygenNearFuel,
    /// Oxygen is near a compressor and its oil.
    OxygenNearCompressor,
}

/// One of the things that do not fit.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, JsonSchema)]
pub struct FitThing {
    /// What sort of thing.
    pub kind: ThingSort,

    /// Its name in the plan.
    pub id: Id,
}

/// Something that does not fit where it is, or is too near something.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct FitNumbers {
    /// In which way.
    pub kind: FitKind,

    /// First what would be moved, then what it is in the way of, off, or near to; a deck is an edge.
    pub things: [FitThing; 2],

    /// The deck.
    pub deck: Id,

    /// Where, in metres.
    pub at: Point,

    /// How deep the two are in each other, how far it sticks out, or how much clear floor or distance
    /// is left, in metres.
    pub found_m: f64,

    /// How much clear floor or distance is wanted, in metres; 0 for what may not be at all.
    pub wanted_m: f64,

    /// The smallest shift of the first thing (of its rack, where it is in one) that clears it, `[x, y]`
    /// in metres; it does not look at what is beyond. `None` where no shift does.
    pub shift_m: Option<Point>,

    /// Do both things belong to the boat?
    pub of_boat: bool,
}

/// Mass, area and load of one deck.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct DeckNumbers {
    /// The deck.
    pub deck: Id,

    /// Its area without openings, in square metres.
    pub area_m2: f64,

    /// The floor that racks and cylinders take, in square metres.
    pub stowed_area_m2: f64,

    /// The mass of racks and cylinders, in kilograms.
    pub stowed_mass_kg: f64,

    /// The greatest load of one rack or group, in kilograms per square metre.
    pub greatest_load_kg_per_m2: f64,

    /// What makes it.
    pub greatest_load_of: Option<Id>,

    /// What the deck may carry; `None` if not known.
    pub load_limit_kg_per_m2: Option<f64>,
}

/// How far the stowage (not the boat) is good, and what goes first.
#[derive(Clone, Debug, Default, PartialEq, Serialize, JsonSchema)]
pub struct StowageLimit {
    /// The cylinders in the order in which they go; those that go without roll first, ties by name.
    pub order: Vec<Id>,

    /// The limit of the first to go; `None` if nothing is on deck.
    pub first: Option<LimitNumbers>,
}
