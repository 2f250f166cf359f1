use egui::Ui;

use super::super::super::here::to_cm;
use super::super::super::words::card as words;
use super::super::super::words::placing as names;
use super::super::super::{Editor, moving};
use super::super::fields::{self, Number};
use super::Units;
use crate::geometry::Vec2;
use crate::layout::{Chocks, Cylinder, Id, Placing, RackKind};
use crate::units::Quantity;

/// Where a cylinder is and how, as one of a few ways.
#[derive(Copy, Clone, Debug, PartialEq, Eq)]
enum How {
    Standing,
    InSlot,
    Lying,
    InCrate,
    UpsideDown,
    Hanging,
    HeldByHand,
    OnDiver,
    Filling,
    InWater,
    Ashore,
}

const ALL: [(How, &str); 11] = [
    (How::Standing, names::STANDING),
    (How::InSlot, names::IN_SLOT),
    (How::Lying, names::LYING),
    (How::InCrate, names::IN_CRATE),
    (How::UpsideDown, names::UPSIDE_DOWN),
    (How::Hanging, names::HANGING),
    (How::HeldByHand, names::HELD_BY_HAND),
    (How::OnDiver, names::ON_DIVER),
    (How::Filling, names::FILLING),
    (How::InWater, names::IN_WATER),
    (How::Ashore, names::ASHORE),
];

fn how(placing: &Placing) -> How {
    match placing {
        Placing::Standing { .. } => How::Standing,
        Placing::InSlot { .. } => How::InSlot,
        Placing::Lying { .. } => How::Lying,
        Placing::InCrate { .. } => How::InCrate,
        Placing::UpsideDown { .. } => How::UpsideDown,
        Placing::Hanging { .. } => How::Hanging,
        Placing::HeldByHand { .. } => How::HeldByHand,
        Placing::OnDiver { .. } => How::OnDiver,
        Placing::Filling { .. } => How::Filling,
        Placing::InWater => How::InWater,
        Placing::Ashore => How::Ashore,
    }
}

/// The placing with its own fields; returns the new one and which field changed it.
pub(super) fn placing_ui(
    ui: &mut Ui,
    editor: &Editor,
    cylinder: &Cylinder,
) -> Option<(&'static str, Placing)> {
    let mut placing = cylinder.placing.clone();
    let current = how(&placing);
    let mut wanted = current;
    let choices = || {
        let all = ALL.iter();
        all.filter(|(how, _)| *how == current || converted(editor, cylinder, *how).is_some())
            .map(|(how, name)| (*how, (*name).to_owned()))
            .collect()
    };
    let shown = ALL.iter().find(|(how, _)| *how == current);
    let shown = shown.map_or("", |(_, name)| *name);
    if fields::choice_of(ui, (words::PLACING, shown), &mut wanted, choices) {
        return Some(("placing", converted(editor, cylinder, wanted)?));
    }
    let units = editor.settings.units;
    let mut changed = false;
    if let Some(at) = placing.at_mut() {
        changed |= fields::point(ui, units, at);
    }
    changed |= match &mut placing {
        Placing::InSlot { rack, slot } => slot_ui(ui, editor, rack, slot),
        Placing::Lying {
            valve_towards_deg,
            on_kit,
            chocks,
            ..
        } => {
            let valve = Number::new(words::VALVE_TOWARDS, "valve_towards_deg", Quantity::Angle);
            let mut changed = fields::number(ui, valve, units, valve_towards_deg);
            changed |= fields::flag(ui, words::ON_KIT, on_kit);
            changed | chocks_ui(ui, units, chocks)
        }
        Placing::InCrate {
            valve_towards_deg, ..
        } => {
            let valve = Number::new(words::VALVE_TOWARDS, "valve_towards_deg", Quantity::Angle);
            fields::number(ui, valve, units, valve_towards_deg)
        }
        Placing::UpsideDown {
            cage_radius_m,
            cage_height_m,
            ..
        } => {
            let radius = Number::new(words::CAGE_RADIUS, "cage_radius_m", Quantity::SmallLength);
            let height = Number::new(words::CAGE_HEIGHT, "cage_height_m", Quantity::SmallLength);
            fields::number(ui, radius, units, cage_radius_m)
                | fields::number(ui, height, units, cage_height_m)
        }
        Placing::Hanging {
            from,
            clear_of_deck_m,
            ..
        } => {
            let points = ids(editor, &|editor| {
                let points = editor.plan().boat.lashing_points.iter();
                points.map(|point| point.id.clone()).collect()
            });
            let clear = Number::new(words::CLEAR_OF_DECK, "clear_of_deck_m", Quantity::Length);
            fields::choice(ui, words::HANGS_FROM, from, &points)
                | fields::number(ui, clear, units, clear_of_deck_m)
        }
        Placing::HeldByHand { by, .. } => {
            fields::choice(ui, words::HELD_BY, by, &ids(editor, &people))
        }
        Placing::OnDiver { by } => fields::choice(ui, words::WORN_BY, by, &ids(editor, &people)),
        Placing::Standing { .. } | Placing::Filling { .. } | Placing::InWater | Placing::Ashore => {
            false
        }
    };
    changed.then_some(("placing", placing))
}

fn people(editor: &Editor) -> Vec<Id> {
    editor.trip().map_or_else(Vec::new, |trip| {
        trip.people.iter().map(|person| person.id.clone()).collect()
    })
}

fn ids(editor: &Editor, of: &dyn Fn(&Editor) -> Vec<Id>) -> Vec<(Id, String)> {
    of(editor).into_iter().map(|id| (id.clone(), id)).collect()
}

/// The free slots of its rack, and its own.
fn slot_ui(ui: &mut Ui, editor: &Editor, rack: &str, slot: &mut String) -> bool {
    fields::told(ui, names::RACK, rack);
    let (Some(here), Some(found)) = (editor.here(), editor.plan().boat.rack(rack)) else {
        return false;
    };
    let taken = here
        .day
        .cylinders
        .iter()
        .filter_map(|state| match &state.cylinder.placing {
            Placing::InSlot { rack: of, slot } if of == rack => Some(slot.as_str()),
            _ => None,
        });
    let taken: Vec<&str> = taken.collect();
    let free = found.slots().into_iter().map(|slot| slot.name);
    let choices: Vec<(String, String)> = free
        .filter(|name| name == slot || !taken.contains(&name.as_str()))
        .map(|name| (name.clone(), name))
        .collect();
    fields::choice(ui, names::SLOT, slot, &choices)
}

fn chocks_ui(ui: &mut Ui, units: Units, chocks: &mut Option<Chocks>) -> bool {
    let kind = |chocks: &Option<Chocks>| match chocks {
        None => 0,
        Some(Chocks::Blocks { .. }) => 1,
        Some(Chocks::Wedges { .. }) => 2,
        Some(Chocks::Saddle { .. }) => 3,
    };
    let mut wanted = kind(chocks);
    let choices = [
        words::NO_CHOCKS,
        words::BLOCKS,
        words::WEDGES,
        words::SADDLE,
    ];
    let choices: Vec<(i32, String)> = (0..).zip(choices.map(str::to_owned)).collect();
    if fields::choice(ui, words::CHOCKS, &mut wanted, &choices) {
        *chocks = match wanted {
            1 => Some(Chocks::Blocks {
                height_m: 0.05,
                gap_m: 0.0,
                fixed: true,
            }),
            2 => Some(Chocks::Wedges {
                height_m: 0.05,
                slope_deg: 45.0,
                fixed: true,
            }),
            3 => Some(Chocks::Saddle {
                half_angle_deg: 50.0,
            }),
            _ => None,
        };
        return true;
    }
    let height = Number::new(words::CHOCK_HEIGHT, "height_m", Quantity::SmallLength);
    match chocks {
        None => false,
        Some(Chocks::Blocks {
            height_m,
            gap_m,
            fixed,
        }) => {
            let gap = Number::new(words::CHOCK_GAP, "gap_m", Quantity::SmallLength);
            fields::number(ui, height, units, height_m)
                | fields::number(ui, gap, units, gap_m)
                | fields::flag(ui, words::CHOCK_FIXED, fixed)
        }
        Some(Chocks::Wedges {
            height_m,
            slope_deg,
            fixed,
        }) => {
            let slope = Number::new(words::SLOPE, "slope_deg", Quantity::Angle);
            fields::number(ui, height, units, height_m)
                | fields::number(ui, slope, units, slope_deg)
                | fields::flag(ui, words::CHOCK_FIXED, fixed)
        }
        Some(Chocks::Saddle { half_angle_deg }) => {
            let half = Number::new(words::HALF_ANGLE, "half_angle_deg", Quantity::Angle);
            fields::number(ui, half, units, half_angle_deg)
        }
    }
}

/// The cylinder placed another way, near where it was; `None` if there is nothing to place it in.
fn converted(editor: &Editor, cylinder: &Cylinder, wanted: How) -> Option<Placing> {
    let here = editor.here()?;
    let boat = &editor.plan().boat;
    let was = moving::placing_point(here.plan, &cylinder.placing);
    let middle = || {
        let floor = here.deck_scene()?.floor.as_ref()?;
        Some(floor.bounds().center())
    };
    let point: Vec2 = was.or_else(middle)?;
    let at = to_cm(point);
    let deck = cylinder.placing.deck().unwrap_or(here.deck).to_owned();
    let person = || people(editor).first().cloned();
    Some(match wanted {
        How::Standing => Placing::Standing { deck, at, on: None },
        How::Lying => Placing::Lying {
            deck,
            at,
            valve_towards_deg: 0.0,
            on: None,
            on_kit: false,
            chocks: None,
            upon: Vec::new(),
        },
        How::InSlot => nearest_slot(editor, &cylinder.id, point)?,
        How::InCrate => {
            let mut racks = boat.racks.iter();
            let rack = racks.find(|rack| {
                rack.deck == here.deck && matches!(rack.kind, RackKind::Crate | RackKind::Net)
            })?;
            Placing::InCrate {
                rack: rack.id.clone(),
                at: rack.at,
                valve_towards_deg: rack.turn_deg,
            }
        }
        How::UpsideDown => Placing::UpsideDown {
            deck,
            at,
            cage_radius_m: 0.09,
            cage_height_m: 0.12,
        },
        How::Hanging => {
            let mut points = boat.lashing_points.iter();
            let from = points.find(|point| point.deck == here.deck)?;
            Placing::Hanging {
                from: from.id.clone(),
                at: from.at,
                clear_of_deck_m: 0.1,
            }
        }
        How::HeldByHand => Placing::HeldByHand {
            deck,
            at,
            by: person()?,
        },
        How::OnDiver => Placing::OnDiver { by: person()? },
        How::Filling => Placing::Filling { deck, at },
        How::InWater => Placing::InWater,
        How::Ashore => Placing::Ashore,
    })
}

/// The free slot on this deck that is nearest.
fn nearest_slot(editor: &Editor, id: &str, point: Vec2) -> Option<Placing> {
    use super::super::super::here::at;
    let here = editor.here()?;
    let racks = editor.plan().boat.racks.iter();
    let free = racks
        .filter(|rack| rack.deck == here.deck)
        .filter_map(|rack| {
            // The nearest slot of the rack to the point, asked for from the rack's own middle.
            let (rack_id, slot) = super::super::super::tools::free_slot(&here, id, at(rack.at))?;
            (rack_id == rack.id).then(|| (at(rack.at).distance(point), rack_id, slot))
        });
    let (_, rack, slot) = free.min_by(|a, b| a.0.total_cmp(&b.0))?;
    Some(Placing::InSlot { rack, slot })
}
