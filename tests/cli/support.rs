//! A folder with files, and the program run in it.

use std::fmt::Write as _;
use std::path::Path;
use std::process::{Command, Output};

use serde_json::{Value, json};
use tempfile::TempDir;

/// What a run of the program gave.
#[derive(Debug)]
pub(crate) struct Ran {
    pub(crate) code: i32,
    pub(crate) out: String,
    pub(crate) err: String,
}

/// A folder of its own for one test.
pub(crate) struct Folder(TempDir);

impl Folder {
    pub(crate) fn new() -> Self {
        Self(tempfile::tempdir().unwrap())
    }

    pub(crate) fn path(&self) -> &Path {
        self.0.path()
    }

    #[expect(clippy::disallowed_methods, reason = "a scratch file")]
    pub(crate) fn with(self, name: &str, text: &str) -> Self {
        std::fs::write(self.path().join(name), text).unwrap();
        self
    }

    pub(crate) fn with_json(self, name: &str, value: &Value) -> Self {
        let text = serde_json::to_string_pretty(value).unwrap();
        self.with(name, &text)
    }

    pub(crate) fn read(&self, name: &str) -> String {
        std::fs::read_to_string(self.path().join(name)).unwrap()
    }

    /// The program in this folder, without a terminal and without a display.
    pub(crate) fn command(&self, args: &[&str]) -> Command {
        let mut command = Command::new(env!("CARGO_BIN_EXE_snugdown"));
        command.current_dir(self.path()).args(args);
        for name in [
            "DISPLAY",
            "WAYLAND_DISPLAY",
            "WAYLAND_SOCKET",
            "CLICOLOR_FORCE",
            "NO_COLOR",
        ] {
            command.env_remove(name);
        }
        command
    }

    pub(crate) fn run(&self, args: &[&str]) -> Ran {
        Ran::from(self.command(args).output().unwrap())
    }
}

impl From<Output> for Ran {
    fn from(output: Output) -> Self {
        Self {
            code: output.status.code().unwrap(),
            out: String::from_utf8(output.stdout).unwrap(),
            err: String::from_utf8(output.stderr).unwrap(),
        }
    }
}

/// A boat with nothing aboard.
pub(crate) fn empty_boat() -> Value {
    json!({
        "version": 1,
        "boat": {
            "name": "Otter",
            "length_overall_m": 8.0,
            "beam_m": 3.0,
            "roll_period_s": 3.0,
            "decks": [{
                "id": "main",
                "name": "Main deck",
                "height_above_waterline_m": 0.6,
                "outline": [[0.0, -1.5], [8.0, -1.5], [8.0, 1.5], [0.0, 1.5]],
                "surface": { "kind": "painted", "wet": true, "friction": 0.3 },
                "load_limit_kg_per_m2": 400.0
            }]
        },
        "trips": [{
            "id": "saturday",
            "name": "Saturday",
            "parts": [{
                "id": "alongside",
                "condition": "made_fast",
                "motion": { "source": "stopwatch", "roll_amplitude_deg": 2.0 }
            }, {
                "id": "running",
                "condition": "running",
                "motion": { "source": "stopwatch", "roll_amplitude_deg": 20.0, "roll_period_s": 3.0 }
            }]
        }]
    })
}

/// The same boat with one cylinder that stands free.
pub(crate) fn boat_with_loose_cylinder() -> Value {
    let mut plan = empty_boat();
    plan["trips"][0]["cylinders"] = json!([{
        "id": "P6",
        "kind": "al-80cf",
        "pressure_bar": 200.0,
        "placing": { "how": "standing", "deck": "main", "at": [3.0, 1.0] }
    }]);
    plan
}

/// The words without the breaks of lines.
pub(crate) fn flat(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// What a command tells as JSON.
pub(crate) fn json_of(folder: &Folder, args: &[&str]) -> Value {
    let mut all = args.to_vec();
    all.extend(["--format", "json"]);
    let ran = folder.run(&all);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""), "{ran:?}");
    serde_json::from_str(&ran.out).unwrap()
}

/// Rolls that grow to a size within two minutes, twenty samples a second.
pub(crate) fn log(largest_deg: f64) -> String {
    let mut text = String::from("time_s,roll_deg,pitch_deg\n");
    for number in 0..2400 {
        let time_s = f64::from(number) / 20.0;
        let roll = largest_deg * time_s / 120.0 * (std::f64::consts::TAU * time_s / 4.0).sin();
        writeln!(text, "{time_s:.2},{roll:.4},0").unwrap();
    }
    text
}

/// A copy of the demonstration incident.
pub(crate) fn incident() -> Folder {
    let folder = Folder::new();
    let from = Path::new(env!("CARGO_MANIFEST_DIR")).join("layouts/incident");
    for name in ["plan.json", "record.json", "motion.csv", "strap-front.svg"] {
        std::fs::copy(from.join(name), folder.path().join(name)).unwrap();
    }
    folder
}
