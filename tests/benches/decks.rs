//! Decks of any size that a crew could have stowed, the same ones in every run.
//!
//! A deck is cut into square cells with a way between them. A cell holds one of what a deck holds: a
//! bench row of five cylinders with a strap across the front, a grid of six sockets, three cylinders
//! lashed to two pad eyes each, two lying in chocks, one standing free, a console, or a box with a
//! crate and a seated diver beside it. Seven of ten cylinders are racked.

use snugdown::layout::CylinderChange;
use snugdown::layout::{
    Changes, Chocks, Condition, Cylinder, Deck, Fill, Fixings, Fixture, FixtureKind, Front,
    FrontKind, Gear, GearKind, GearShape, Known, LashCondition, Lashing, LashingPoint, MotionInput,
    Part, Person, Place, PlaceKind, Placing, Plan, PointKind, Posture, Rack, RackKind, Role, Trip,
    Walkway,
};

/// Side of a cell in metres: a unit of at most 1.3 m and a way of 0.7 m.
const CELL_M: f64 = 2.0;

/// Margin to the edge of the deck in metres.
const MARGIN_M: f64 = 1.0;

/// A small generator of numbers that look random (Park and Miller 1988, Communications of the ACM
/// 31, 1192-1201).
struct Dice(u64);

impl Dice {
    fn roll(&mut self, sides: u64) -> u64 {
        self.0 = self.0 * 48_271 % 2_147_483_647;
        self.0 % sides
    }
}

/// What is put where.
struct Stowing {
    plan: Plan,
    cylinders: usize,
    wanted: usize,
}

/// A deck with so many cylinders and six walkways, and a day of so many parts.
pub(crate) fn plan(cylinders: usize, parts: usize) -> Plan {
    let mut stowing = Stowing {
        plan: Plan::new("Bench", 12.0, 5.0),
        cylinders: 0,
        wanted: cylinders,
    };
    // Four times as long as wide; 2.4 cylinders to a cell, on the average.
    let cells = (cylinders as f64 / 2.4).ceil();
    let across = (0.25 * cells).sqrt().ceil();
    let along = (cells / across).ceil() + 1.0;
    let (length, width) = (
        2.0 * MARGIN_M + CELL_M * along,
        2.0 * MARGIN_M + CELL_M * across,
    );
    stowing.deck(length, width);
    let mut dice = Dice(20_250_211);
    let mut column = 0.0;
    while stowing.cylinders < cylinders {
        let mut row = 0.0;
        while row < across && stowing.cylinders < cylinders {
            let x = MARGIN_M + CELL_M * (column + 0.5);
            let y = MARGIN_M + CELL_M * (row + 0.5) - 0.5 * width;
            stowing.cell([x, y], dice.roll(20));
            row += 1.0;
        }
        column += 1.0;
    }
    stowing.walkways(length, width, across);
    stowing.day(parts);
    stowing.plan
}

impl Stowing {
    fn deck(&mut self, length: f64, width: f64) {
        let half = 0.5 * width;
        // Longer than the estimate: cells are filled until all cylinders are aboard.
        let length = 1.4 * length;
        self.plan.boat.length_overall_m = length;
        self.plan.boat.beam_m = width;
        self.plan.boat.decks = vec![Deck {
            outline: vec![[0.0, -half], [length, -half], [length, half], [0.0, half]],
            ..Deck::from_length_and_beam(length, width)
        }];
    }

    fn trip(&mut self) -> &mut Trip {
        &mut self.plan.trips[0]
    }

    fn place_cylinder(&mut self, placing: Placing) -> Option<String> {
        const KINDS: [&str; 3] = ["al-80cf", "st-12l-long-232", "al-80cf"];
        if self.cylinders >= self.wanted {
            return None;
        }
        let id = format!("C{:04}", self.cylinders);
        let kind = KINDS[self.cylinders % KINDS.len()];
        self.cylinders += 1;
        let mut cylinder = Cylinder::new(&id, kind, placing);
        cylinder.boot = true;
        self.trip().cylinders.push(cylinder);
        Some(id)
    }

    fn cell(&mut self, at: [f64; 2], kind: u64) {
        match kind {
            0..=5 => self.bench_row(at),
            6..=9 => self.sockets(at),
            10..=11 => self.lashed(at),
            12..=13 => self.lying(at),
            14..=15 => self.free(at),
            16..=17 => self.console(at),
            _ => self.box_and_diver(at),
        }
    }

    fn rack(&mut self, at: [f64; 2], kind: RackKind, columns: u32, rows: u32) -> String {
        let id = format!("R{:04}", self.plan.boat.racks.len());
        self.plan.boat.racks.push(Rack {
            id: id.clone(),
            name: None,
            deck: "main".into(),
            kind,
            at,
            turn_deg: 0.0,
            columns,
            rows,
            pitch_m: 0.25,
            row_pitch_m: None,
            slot_names: (0..columns * rows)
                .map(|slot| format!("{id}-{slot}"))
                .collect(),
            bore_m: Some(0.22),
            edge_height_m: 0.42,
            shelf_height_m: 0.0,
            surface: None,
            foot_held: true,
            slot_strength_kn: Known::Value(1.5),
            hold_down_kn: None,
            fronts: Vec::new(),
            saddle_half_angle_deg: None,
            size_m: None,
            own_floor: false,
            mass_kg: 15.0,
            fixings: Fixings::Fixed {
                strength_kn: Known::Value(8.0),
            },
            load_limit_kg: None,
        });
        id
    }

    fn fill(&mut self, rack: &str, slots: u32) {
        for slot in 0..slots {
            self.place_cylinder(Placing::InSlot {
                rack: rack.to_owned(),
                slot: format!("{rack}-{slot}"),
            });
        }
    }

    fn bench_row(&mut self, at: [f64; 2]) {
        let id = self.rack(at, RackKind::BenchRow, 5, 1);
        if let Some(rack) = self.plan.boat.racks.last_mut() {
            rack.fronts = vec![Front {
                id: format!("{id}-front"),
                kind: FrontKind::Strap,
                slots: rack.slot_names.clone(),
                height_m: 0.42,
                strength_kn: Known::Value(5.0),
                tied_between_slots: true,
                slack_m: None,
                shut: true,
            }];
        }
        self.fill(&id, 5);
    }

    fn sockets(&mut self, at: [f64; 2]) {
        let id = self.rack(at, RackKind::Sockets, 3, 2);
        self.fill(&id, 6);
    }

    fn standing(&mut self, at: [f64; 2]) -> Option<String> {
        self.place_cylinder(Placing::Standing {
            deck: "main".into(),
            at,
            on: None,
        })
    }

    fn lashed(&mut self, [x, y]: [f64; 2]) {
        for dx in [-0.5, 0.0, 0.5] {
            let Some(cylinder) = self.standing([x + dx, y]) else {
                return;
            };
            let points = [-0.2, 0.2].map(|side| {
                let id = format!("E{:04}", self.plan.boat.lashing_points.len());
                self.plan.boat.lashing_points.push(LashingPoint {
                    id: id.clone(),
                    name: None,
                    deck: "main".into(),
                    at: [x + dx + side, y + 0.4],
                    height_m: 0.4,
                    kind: PointKind::PadEye,
                    strength_kn: Known::Value(5.0),
                    straight_pull: None,
                });
                id
            });
            let [from, to] = points;
            self.trip().lashings.push(Lashing {
                id: format!("L-{cylinder}"),
                name: None,
                material: "ratchet_strap_25".into(),
                strength_kn: Some(Known::Value(5.0)),
                stiffness_kn_per_m: Some(Known::Value(60.0)),
                condition: LashCondition::Good,
                from,
                round: vec![cylinder],
                to,
                height_m: 0.42,
                slack_m: Some(Known::Value(0.0)),
                pretension_kn: None,
                shut: true,
            });
        }
    }

    fn lying(&mut self, [x, y]: [f64; 2]) {
        for dy in [-0.3, 0.3] {
            self.place_cylinder(Placing::Lying {
                deck: "main".into(),
                at: [x, y + dy],
                valve_towards_deg: 0.0,
                on: None,
                on_kit: false,
                chocks: Some(Chocks::Blocks {
                    height_m: 0.04,
                    gap_m: 0.0,
                    fixed: true,
                }),
                upon: Vec::new(),
            });
        }
    }

    fn free(&mut self, [x, y]: [f64; 2]) {
        self.standing([x - 0.3, y]);
        self.standing([x + 0.3, y + 0.2]);
    }

    fn fixture(&mut self, kind: FixtureKind, [x, y]: [f64; 2], height_m: f64) {
        let (l, w) = (0.6, 0.4);
        self.plan.boat.fixtures.push(Fixture {
            id: format!("F{:04}", self.plan.boat.fixtures.len()),
            name: None,
            deck: "main".into(),
            kind,
            outline: vec![
                [x - l, y - w],
                [x + l, y - w],
                [x + l, y + w],
                [x - l, y + w],
            ],
            height_m,
            underside_m: 0.0,
            walked_on: false,
            clear_floor_m: None,
            front_deg: None,
            must_stay_open: Vec::new(),
            opens_over: Vec::new(),
            backing_kn: None,
            shelf: None,
        });
    }

    fn console(&mut self, at: [f64; 2]) {
        self.fixture(FixtureKind::Console, at, 1.1);
    }

    fn box_and_diver(&mut self, [x, y]: [f64; 2]) {
        self.fixture(FixtureKind::Locker, [x, y - 0.2], 0.45);
        let trip = self.trip();
        let count = trip.people.len();
        trip.people.push(Person {
            id: format!("D{count:04}"),
            role: Role::Diver,
            mass_kg: None,
            deck: "main".into(),
            at: [x - 0.3, y + 0.5],
            posture: Posture::Standing,
            faces_deg: 90.0,
            fins: false,
        });
        trip.gear.push(Gear {
            id: format!("G{count:04}"),
            name: None,
            kind: GearKind::Crate,
            deck: "main".into(),
            floor: GearShape::Box {
                at: [x + 0.4, y + 0.5],
                length_m: 0.5,
                width_m: 0.35,
                turn_deg: 0.0,
            },
            height_m: 0.3,
            mass_kg: 12.0,
            friction: None,
            stowed: false,
        });
    }

    /// Along the two sides, across both ends, and along two ways between cells.
    fn walkways(&mut self, length: f64, width: f64, across: f64) {
        let (half, end) = (0.5 * width - 0.5, length - 0.5);
        let lane = |row: f64| MARGIN_M + CELL_M * row - 0.5 * width;
        let lines = [
            [[0.5, half], [end, half]],
            [[0.5, -half], [end, -half]],
            [[0.5, -half], [0.5, half]],
            [[end, -half], [end, half]],
            [[0.5, lane(1.0)], [end, lane(1.0)]],
            [
                [0.5, lane((0.5 * across).ceil())],
                [end, lane((0.5 * across).ceil())],
            ],
        ];
        for (number, line) in lines.into_iter().enumerate() {
            let ends = ["a", "b"].map(|side| format!("P{number}{side}"));
            for (id, at) in ends.iter().zip(line) {
                self.plan.boat.places.push(Place {
                    id: id.clone(),
                    name: None,
                    deck: "main".into(),
                    at,
                    kind: PlaceKind::Gate,
                    floor_m: None,
                });
            }
            let [from, to] = ends;
            self.plan.boat.walkways.push(Walkway {
                id: format!("W{number}"),
                name: None,
                deck: "main".into(),
                from,
                to,
                line: line.to_vec(),
                clear_width_m: None,
                headroom_m: None,
            });
        }
    }

    /// Parts that differ in motion, and in that some cylinders were used.
    fn day(&mut self, parts: usize) {
        let used = self.cylinders.div_ceil(6);
        self.trip().parts = (0..parts)
            .map(|part| Part {
                id: format!("part-{part}"),
                name: None,
                condition: if part % 2 == 0 {
                    Condition::Running
                } else {
                    Condition::AtAnchor
                },
                duration_h: None,
                nobody_on_deck: false,
                sea: None,
                wake: None,
                motion: Some(MotionInput {
                    roll_amplitude_deg: 8.0 + part as f64,
                    roll_period_s: Some(6.0),
                    pitch_amplitude_deg: 0.5,
                    pitch_period_s: Some(6.0),
                    vertical_g: 0.1,
                    ..MotionInput::default()
                }),
                changes: Changes {
                    cylinders: (0..used)
                        .filter(|_| part > 0)
                        .map(|number| CylinderChange {
                            cylinder: format!("C{:04}", used * (part - 1) + number),
                            placing: None,
                            kit: None,
                            kit_faces_deg: None,
                            fill: Some(Fill::Empty),
                            pressure_bar: None,
                        })
                        .collect(),
                    ..Changes::default()
                },
            })
            .collect();
    }
}

/// The first cylinder that stands free, moved by so much: what a drag does.
pub(crate) fn drag(plan: &mut Plan, by_m: f64) {
    let free = (plan.trips[0].cylinders.iter_mut())
        .filter(|cylinder| !cylinder.id.is_empty())
        .find_map(|cylinder| match &mut cylinder.placing {
            Placing::Standing { at, .. } => Some(at),
            _ => None,
        });
    if let Some(at) = free {
        at[0] += by_m;
    }
}
