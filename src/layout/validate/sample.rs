//! A small plan with one of nearly everything and without mistakes, for tests.

use serde_json::{Value, json};

pub(crate) fn sound() -> Value {
    json!({
        "version": 1,
        "boat": {
            "name": "Ida", "length_overall_m": 11.0, "beam_m": 4.6, "waterline_length_m": 10.2,
            "decks": [
                { "id": "main", "height_above_waterline_m": 0.8,
                  "outline": [[0.0, -2.2], [9.0, -2.2], [11.0, 0.0], [9.0, 2.2], [0.0, 2.2]],
                  "holes": [[[1.0, -0.5], [2.0, -0.5], [2.0, 0.5], [1.0, 0.5]],
                            [[3.0, -0.5], [4.0, -0.5], [4.0, 0.5], [3.0, 0.5]]] },
                { "id": "upper", "height_above_waterline_m": 3.0, "surface": { "kind": "timber" },
                  "outline": [[5.0, -1.5], [8.0, -1.5], [8.0, 1.5], [5.0, 1.5]] },
            ],
            "fixtures": [
                { "id": "bench", "deck": "main", "kind": "bench", "height_m": 0.45,
                  "outline": [[0.5, 1.6], [4.5, 1.6], [4.5, 2.1], [0.5, 2.1]],
                  "must_stay_open": ["running"],
                  "opens_over": [[0.5, 1.0], [4.5, 1.0], [4.5, 1.6]] },
            ],
            "places": [
                { "id": "gate", "deck": "main", "at": [0.0, 0.0], "kind": "gate" },
                { "id": "helm", "deck": "main", "at": [7.0, -1.0], "kind": "helm" },
            ],
            "walkways": [
                { "id": "middle", "deck": "main", "from": "gate", "to": "helm",
                  "line": [[0.0, 0.0], [5.0, 0.0], [7.0, -1.0]] },
            ],
            "racks": [
                { "id": "P", "deck": "main", "kind": "bench_row", "at": [2.5, 1.8], "columns": 4,
                  "pitch_m": 0.25, "slot_names": ["P1", "P2"], "edge_height_m": 0.5, "mass_kg": 12.0,
                  "fixings": { "kind": "unfixed" },
                  "fronts": [{ "id": "strap", "kind": "strap", "slots": ["P1", "P2"], "height_m": 0.4 }] },
                { "id": "crate", "deck": "main", "kind": "crate", "at": [6.0, 1.0], "columns": 1,
                  "pitch_m": 0.8, "size_m": [1.2, 0.8], "edge_height_m": 0.3, "mass_kg": 8.0,
                  "fixings": { "kind": "unfixed" } },
            ],
            "lashing_points": [
                { "id": "eye", "deck": "main", "at": [1.0, 2.1], "height_m": 0.0, "kind": "pad_eye" },
                { "id": "ring", "deck": "main", "at": [2.0, 2.1], "height_m": 0.0, "kind": "ring" },
            ],
        },
        "trips": [{
            "id": "wreck",
            "cylinders": [
                { "id": "1", "kind": "st-12l-long-232",
                  "placing": { "how": "in_slot", "rack": "P", "slot": "P1" } },
                { "id": "2", "kind": "st-12l-long-232",
                  "placing": { "how": "in_slot", "rack": "P", "slot": "P-4" } },
                { "id": "3", "kind": "st-12l-long-232",
                  "placing": { "how": "standing", "deck": "main", "at": [3.0, 1.8], "on": "bench" },
                  "gas": "air" },
                { "id": "4", "kind": "st-12l-long-232",
                  "placing": { "how": "in_crate", "rack": "crate", "at": [6.2, 1.0],
                               "valve_towards_deg": 0.0 } },
                { "id": "5", "kind": "st-12l-long-232",
                  "placing": { "how": "held_by_hand", "deck": "main", "at": [4.0, 0.0], "by": "Anna" } },
                { "id": "6", "kind": "st-12l-long-232",
                  "placing": { "how": "lying", "deck": "main", "at": [5.0, 0.0],
                               "valve_towards_deg": 0.0, "upon": ["3", "5"] } },
                { "id": "7", "kind": "st-12l-long-232",
                  "placing": { "how": "hanging", "from": "eye", "at": [1.0, 2.0],
                               "clear_of_deck_m": 0.2 } },
            ],
            "lashings": [
                { "id": "a", "material": "ratchet_strap_25", "from": "eye", "to": "ring", "round": ["3"],
                  "height_m": 0.4, "slack_m": 0.02 },
            ],
            "gear": [
                { "id": "fins", "kind": "fins", "deck": "main", "height_m": 0.1,
                  "floor": { "shape": "round", "at": [4.0, 1.0], "radius_m": 0.3 } },
            ],
            "people": [
                { "id": "Anna", "role": "crew", "deck": "main", "at": [4.3, 0.0], "posture": "standing" },
                { "id": "Bo", "role": "diver", "deck": "main", "at": [-9.0, 0.0], "posture": "in_water" },
            ],
            "parts": [
                { "id": "alongside", "condition": "made_fast" },
                { "id": "out", "condition": "running", "changes": {
                    "cylinders": [
                        { "cylinder": "1", "placing": { "how": "in_slot", "rack": "P", "slot": "P2" } },
                        { "cylinder": "2", "placing": { "how": "in_slot", "rack": "P", "slot": "P1" } },
                    ],
                    "lashings": [{ "lashing": "a", "round": ["3", "5"] }],
                    "fronts": [{ "rack": "P", "front": "strap", "shut": false }],
                    "gear": [{ "gear": "fins", "stowed": true }],
                    "people": [{ "person": "Bo", "posture": "seated", "at": [2.0, 1.8] }],
                } },
            ],
            "briefing": {
                "part": "alongside", "hand_over": "gate", "set_down": "helm", "loading_heel_deg": 1.5, "gap_to_quay_m": 0.3,
                "order": ["4", "1", "2"],
                "ticks": [
                    { "cylinder": "4", "by": "Anna", "when": "2026-06-01 06:40 +02:00" },
                    { "cylinder": "1", "by": "Bo", "when": "2026-06-01 06:42 +02:00",
                      "skipped": "gauge at zero" },
                ],
            },
        }],
    })
}
