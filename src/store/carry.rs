//! What was changed on one thing, carried over to another of the same sort.

use serde::Serialize;
use serde::de::DeserializeOwned;
use serde_json::{Map, Value};

/// Fields that belong to one thing alone: its names and its place.
const OF_ONE: &[&str] = &[
    "id",
    "name",
    "number",
    "slot_names",
    "fronts",
    "at",
    "placing",
    "outline",
    "opens_over",
    "line",
    "points",
    "from",
    "to",
    "round",
];

/// Fields that say which others there are: where they differ, the whole of it is carried over.
const TAGS: &[&str] = &["kind", "how", "shape"];

/// The other thing with the fields that differ between `old` and `new` as they are in `new`; what belongs
/// to one thing alone (names, places) stays. `None` if that makes no thing, or changes nothing.
pub fn carried_over<T>(old: &T, new: &T, other: &T) -> Option<T>
where
    T: Serialize + DeserializeOwned,
{
    let (Value::Object(old), Value::Object(new)) = (
        serde_json::to_value(old).ok()?,
        serde_json::to_value(new).ok()?,
    ) else {
        return None;
    };
    let before = serde_json::to_value(other).ok()?;
    let Value::Object(mut fields) = before.clone() else {
        return None;
    };
    carry(&old, &new, &mut fields);
    let after = Value::Object(fields);
    if after == before {
        return None;
    }
    serde_json::from_value(after).ok()
}

fn carry(old: &Map<String, Value>, new: &Map<String, Value>, other: &mut Map<String, Value>) {
    let gone = old.keys().filter(|key| !new.contains_key(*key));
    for key in new.keys().chain(gone) {
        if OF_ONE.contains(&key.as_str()) || old.get(key) == new.get(key) {
            continue;
        }
        match (old.get(key), new.get(key), other.get_mut(key)) {
            (Some(Value::Object(old)), Some(Value::Object(new)), Some(Value::Object(other)))
                if TAGS.iter().all(|tag| {
                    old.get(*tag) == new.get(*tag) && new.get(*tag) == other.get(*tag)
                }) =>
            {
                carry(old, new, other);
            }
            (_, Some(value), _) => {
                other.insert(key.clone(), value.clone());
            }
            (_, None, _) => {
                other.remove(key);
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::layout::{Cylinder, Placing};

    fn cylinder(id: &str, x: f64) -> Cylinder {
        let at = [x, 0.0];
        let deck = "main".into();
        Cylinder::new(id, "al-80cf", Placing::Standing { deck, at, on: None })
    }

    #[test]
    fn what_was_changed_is_carried_over_and_nothing_else() {
        let (old, mut other) = (cylinder("A", 1.0), cylinder("B", 2.0));
        other.gas = "nitrox 32".into();
        other.pressure_bar = Some(50.0);
        let mut new = old.clone();
        new.id = "A1".into();
        new.placing = Placing::Ashore;
        new.boot = !old.boot;
        new.pressure_bar = Some(180.0);
        let mut expected = other.clone();
        expected.boot = new.boot;
        expected.pressure_bar = Some(180.0);
        assert_eq!(carried_over(&old, &new, &other), Some(expected));
    }

    #[test]
    fn what_was_left_out_is_left_out() {
        let mut old = cylinder("A", 1.0);
        old.pressure_bar = Some(180.0);
        let (new, mut other) = (cylinder("A", 1.0), cylinder("B", 2.0));
        other.pressure_bar = Some(50.0);
        let carried = carried_over(&old, &new, &other).unwrap();
        assert_eq!(carried, cylinder("B", 2.0));
        assert_eq!(carried_over(&old, &new, &carried), None, "nothing more");
    }
}
