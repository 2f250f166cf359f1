use super::{
    Boat, Briefing, Cylinder, Deck, Fixture, Gear, GearAboard, Id, Lashing, LashingPoint, Mistake,
    Part, Person, Place, Placing, Rack, TakenOn, Trip, Walkway,
};

/// A thing with a name of its own, of the boat or of a trip.
#[derive(Clone, Debug, PartialEq)]
pub enum Thing {
    /// Of the boat.
    Deck(Deck),
    /// Of the boat.
    Fixture(Fixture),
    /// Of the boat.
    Place(Place),
    /// Of the boat.
    Walkway(Walkway),
    /// Of the boat.
    Rack(Rack),
    /// Of the boat.
    LashingPoint(LashingPoint),
    /// Of a trip.
    Cylinder(Cylinder),
    /// Of a trip.
    Lashing(Lashing),
    /// Of a trip.
    Gear(Gear),
    /// Of a trip.
    Person(Person),
    /// Of a trip.
    GearAboard(GearAboard),
    /// Of a trip.
    Part(Part),
}

/// What sort of thing a name stands for.
#[derive(Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum ThingKind {
    /// See [`Thing::Deck`].
    Deck,
    /// See [`Thing::Fixture`].
    Fixture,
    /// See [`Thing::Place`].
    Place,
    /// See [`Thing::Walkway`].
    Walkway,
    /// See [`Thing::Rack`].
    Rack,
    /// See [`Thing::LashingPoint`].
    LashingPoint,
    /// See [`Thing::Cylinder`].
    Cylinder,
    /// See [`Thing::Lashing`].
    Lashing,
    /// See [`Thing::Gear`].
    Gear,
    /// See [`Thing::Person`].
    Person,
    /// See [`Thing::GearAboard`].
    GearAboard,
    /// See [`Thing::Part`].
    Part,
}

/// A thing by its kind and name.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct ThingRef {
    /// What it is.
    pub kind: ThingKind,

    /// Its name.
    pub id: Id,
}

/// One change to a `Plan`: plain data, so that the window, the command line, cures and tests all
/// use the same one.
#[derive(Clone, Debug, PartialEq)]
pub enum Edit {
    /// Adds a thing, or replaces the one of the same kind and name where it stands in the list.
    Put {
        /// The trip, for things of a trip.
        trip: Option<Id>,
        /// The thing.
        thing: Box<Thing>,
    },

    /// Takes a thing away, with what cannot be without it (the lashings of a lashing point lose their
    /// point and go too; cylinders of a rack stand free in their slots' places).
    Remove {
        /// The trip, for things of a trip.
        trip: Option<Id>,
        /// The thing.
        what: ThingRef,
    },

    /// Places a cylinder from a part of the day on. In the first part it is the placing at the start of
    /// the day; in a later one, a change of that part.
    Place {
        /// The trip.
        trip: Id,
        /// The part, by its place in the day.
        part: usize,
        /// The cylinder.
        cylinder: Id,
        /// Where it is and how.
        placing: Placing,
    },

    /// Opens or shuts a lashing from a part of the day on.
    SetLashingShut {
        /// The trip.
        trip: Id,
        /// The part, by its place in the day.
        part: usize,
        /// The lashing.
        lashing: Id,
        /// Made fast?
        shut: bool,
    },

    /// Opens or shuts the front of a rack from a part of the day on.
    SetFrontShut {
        /// The trip.
        trip: Id,
        /// The part, by its place in the day.
        part: usize,
        /// The rack.
        rack: Id,
        /// The front.
        front: Id,
        /// Shut?
        shut: bool,
    },

    /// Replaces what the boat is apart from its lists: name, hull, dimensions.
    SetBoat(Box<Boat>),

    /// Adds a trip, or replaces the one of the same name.
    PutTrip(Box<Trip>),

    /// Takes a trip away.
    RemoveTrip(Id),

    /// Takes a finding on, with name and reason.
    TakeOn {
        /// The trip.
        trip: Id,
        /// What, who and why.
        taken_on: TakenOn,
    },

    /// Replaces what was settled for loading and what was ticked off; one with nothing in it goes.
    SetBriefing {
        /// The trip.
        trip: Id,
        /// All of it.
        briefing: Box<Briefing>,
    },
}

/// Why an [`Edit`] was refused; the plan is then unchanged.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum EditError {
    /// The thing is not there.
    #[error("there is no {kind_of} called {id:?}")]
    NoSuchThing {
        /// What was looked for.
        kind_of: ThingKind,
        /// Its name.
        id: Id,
    },

    /// The trip is not there.
    #[error("there is no trip called {0:?}")]
    NoSuchTrip(Id),

    /// The part is not there.
    #[error("the trip has no part of the day number {}", .0 + 1)]
    NoSuchPart(usize),

    /// A thing of a trip needs the trip's name.
    #[error("a {0} belongs to a trip, and none was named")]
    TripNotNamed(ThingKind),

    /// It would leave a plan that cannot be saved.
    #[error("{message} ({field}); {help}", message = .0.message, field = .0.field, help = .0.help)]
    Unsound(Box<Mistake>),

    /// The last one cannot go.
    #[error("the last {0} cannot be taken away")]
    LastOne(ThingKind),
}

impl std::fmt::Display for ThingKind {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.pad(match self {
            Self::Deck => "deck",
            Self::Fixture => "fixture",
            Self::Place => "place",
            Self::Walkway => "walkway",
            Self::Rack => "rack",
            Self::LashingPoint => "lashing point",
            Self::Cylinder => "cylinder",
            Self::Lashing => "lashing",
            Self::Gear => "piece of gear",
            Self::Person => "person",
            Self::GearAboard => "gear aboard",
            Self::Part => "part of the day",
        })
    }
}
