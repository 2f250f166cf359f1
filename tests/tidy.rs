//! Rules about the source itself, run by `cargo test` like any other.

#![expect(clippy::unwrap_used, reason = "helpers of a test may panic")]

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

/// Each layer may use itself and those before it; the last two stand side by side.
const LAYERS: &[&str] = &[
    "units",
    "geometry",
    "mechanics",
    "catalogue",
    "layout",
    "record",
    "store",
    "engine",
    "checks",
    "day",
    "brief",
    "audit",
    "sheet",
    "cli",
    "app",
];

/// What must not be used although the order above would allow it.
const FORBIDDEN: &[(&str, &str)] = &[
    ("app", "cli"),
    ("geometry", "units"),
    ("mechanics", "units"),
    ("engine", "store"),
    ("checks", "store"),
    ("day", "store"),
    ("brief", "store"),
    ("audit", "brief"),
    ("audit", "store"),
    ("sheet", "store"),
];

/// Words of libraries and of the surroundings, and the only places that may use them.
const ONLY_IN: &[(&str, &[&str])] = &[
    ("egui", &["src/app"]),
    ("eframe", &["src/app"]),
    (
        "serde_json",
        &[
            "src/layout/validate/numbers.rs",
            "src/store",
            "src/cli",
            "src/catalogue",
            "src/checks/fixture",
        ],
    ),
    ("jsonc_parser", &["src/store"]),
    ("csv", &["src/store", "src/brief"]),
    ("krilla", &["src/sheet"]),
    ("usvg", &["src/sheet"]),
    ("ttf_parser", &["src/sheet"]),
    ("dxf", &["src/store"]),
    ("clap", &["src/cli"]),
    ("clap_complete", &["src/cli"]),
    ("anstyle", &["src/cli"]),
    ("anstream", &["src/main.rs"]),
    ("std::fs", &["src/store", "src/app"]),
    ("std::env", &["src/main.rs", "src/app"]),
    ("std::net", &[]),
    ("std::time", &["src/app"]),
    ("std::thread", &["src/app"]),
];

#[test]
fn layers_only_look_up() {
    let mut problems = Vec::new();
    for (rank, layer) in LAYERS.iter().enumerate() {
        for path in files(&Path::new("src").join(layer), "rs") {
            for used in modules_used(&code_of(&path)) {
                let Some(other) = LAYERS.iter().position(|it| *it == used) else {
                    continue;
                };
                if other > rank || FORBIDDEN.contains(&(*layer, used.as_str())) {
                    problems.push(format!("{}: {layer} must not use {used}", path.display()));
                }
            }
        }
    }
    assert!(problems.is_empty(), "\n{}\n", problems.join("\n"));
}

#[test]
fn every_layer_is_in_the_list() {
    let lib = code_of(Path::new("src/lib.rs"));
    let declared: Vec<_> = lib
        .lines()
        .filter_map(|line| line.strip_prefix("pub mod "))
        .collect();
    let declared: BTreeSet<_> = declared
        .iter()
        .map(|name| name.trim_end_matches(';'))
        .collect();
    assert_eq!(declared, LAYERS.iter().copied().collect());
}

/// The engine does no I/O, reads no clock and no environment; only the window knows egui; only those
/// who read and write JSON know JSON.
#[test]
fn libraries_stay_where_they_belong() {
    let mut problems = Vec::new();
    for path in files(Path::new("src"), "rs") {
        let text = code_without_tests(&path);
        for (word, places) in ONLY_IN {
            let is_used = names(&text, word);
            if is_used && !places.iter().any(|place| path.starts_with(place)) {
                problems.push(format!("{} uses {word}", path.display()));
            }
        }
    }
    assert!(problems.is_empty(), "\n{}\n", problems.join("\n"));
}

/// Functions of the machine's mathematics library, which differs in the last digit from platform to platform.
const OF_THE_MACHINE: [&str; 22] = [
    "sin", "cos", "tan", "sin_cos", "asin", "acos", "atan", "atan2", "sinh", "cosh", "tanh", "exp",
    "exp2", "exp_m1", "ln", "ln_1p", "log2", "log10", "powf", "powi", "hypot", "cbrt",
];

/// Every platform prints the same digits, so only the window, which draws, uses the machine's mathematics library.
#[test]
fn numbers_come_from_functions_that_are_the_same_everywhere() {
    let mut problems = Vec::new();
    for path in files(Path::new("src"), "rs") {
        if path.starts_with("src/app") {
            continue;
        }
        let text = code_of(&path);
        for name in OF_THE_MACHINE {
            let ways = [
                format!(".{name}("),
                format!("f64::{name}"),
                format!("f32::{name}"),
            ];
            let is_used = |way: &String| {
                let mut after = text.match_indices(way.as_str());
                // `f64::sin` is not `f64::sinus`.
                after.any(|(at, _)| {
                    let next = text[at + way.len()..].chars().next();
                    way.ends_with('(')
                        || !next.is_some_and(|next| next.is_alphanumeric() || next == '_')
                })
            };
            if let Some(way) = ways.iter().find(|way| is_used(way)) {
                problems.push(format!(
                    "{} uses {way}: see geometry::Elementary",
                    path.display()
                ));
            }
        }
    }
    assert!(problems.is_empty(), "\n{}\n", problems.join("\n"));
}

/// What is generated is committed; `UPDATE_DOCS=1 cargo test` renews it.
#[test]
fn generated_docs_are_current() {
    let schemas = snugdown::cli::schemas().into_iter();
    let schemas = schemas.map(|(name, text)| (format!("docs/{name}.schema.json"), text));
    let pages = [
        ("docs/command-line.md", snugdown::cli::help_markdown()),
        ("docs/layout-fields.md", snugdown::store::field_reference()),
        (
            "docs/audit-record.md",
            snugdown::store::record_field_reference(),
        ),
    ];
    let pages = pages.map(|(path, text)| (path.to_owned(), text));
    for (path, expected) in schemas.chain(pages) {
        if std::env::var_os("UPDATE_DOCS").is_some() {
            #[expect(clippy::disallowed_methods, reason = "a generated file")]
            fs::write(&path, &expected).unwrap();
        }
        let actual = fs::read_to_string(&path).unwrap_or_default();
        assert!(!expected.is_empty(), "{path} would be empty");
        assert!(
            actual == expected,
            "{path} is old: run `UPDATE_DOCS=1 cargo test`, then commit"
        );
    }
}

#[test]
fn the_top_level_is_as_agreed() {
    let agreed = [
        "Cargo.lock",
        "Cargo.toml",
        "DEVELOPERS.md",
        "README.md",
        "docs",
        "layouts",
        "src",
        "target",
        "tests",
    ];
    for entry in fs::read_dir(".").unwrap() {
        let name = entry.unwrap().file_name().into_string().unwrap();
        assert!(
            name.starts_with('.') || agreed.contains(&name.as_str()),
            "{name} is not agreed"
        );
    }
    for name in agreed.iter().filter(|name| **name != "target") {
        assert!(Path::new(name).exists(), "{name} is missing");
    }
}

/// Nothing in the tree names a place on somebody's machine.
#[test]
fn no_file_names_a_place_on_a_machine() {
    let places = [
        ["/ro", "ot/"],
        ["/ho", "me/"],
        ["/wo", "rk/"],
        ["/tm", "p/"],
        ["/Us", "ers/"],
    ];
    let mut problems = Vec::new();
    for path in ["rs", "md", "toml", "json", "py", "csv", "svg"]
        .iter()
        .flat_map(|ext| tree(ext))
    {
        let text = fs::read_to_string(&path).unwrap();
        for place in places.map(|parts| parts.concat()) {
            for (number, line) in text.lines().enumerate() {
                // In an address or a relative path it is no place on a machine.
                let stands_alone = line.match_indices(&place).any(|(at, _)| {
                    let before = line[..at].chars().next_back();
                    before.is_none_or(|c| !c.is_alphanumeric() && !".-_/".contains(c))
                });
                if stands_alone {
                    problems.push(format!("{}:{}: {place}", path.display(), number + 1));
                }
            }
        }
    }
    assert!(problems.is_empty(), "\n{}\n", problems.join("\n"));
}

/// The modules of this package that some code names, also in groups: `crate::{layout, store::read}`.
fn modules_used(code: &str) -> BTreeSet<String> {
    let mut used = BTreeSet::new();
    for rest in code.split("crate::").skip(1) {
        if let Some(group) = rest.strip_prefix('{') {
            let mut depth = 0_u32;
            let mut name = String::new();
            for c in group.chars() {
                match c {
                    '{' => depth += 1,
                    '}' if depth == 0 => break,
                    '}' => depth -= 1,
                    ',' if depth == 0 => {
                        used.insert(first_word(&name));
                        name.clear();
                    }
                    _ if depth == 0 => name.push(c),
                    _ => {}
                }
            }
            used.insert(first_word(&name));
        } else {
            used.insert(first_word(rest));
        }
    }
    used
}

fn first_word(text: &str) -> String {
    let text = text.trim_start();
    text.chars()
        .take_while(|c| c.is_alphanumeric() || *c == '_')
        .collect()
}

#[test]
fn modules_are_found_in_groups_too() {
    let found =
        modules_used("use crate::{layout, store::{self, read}, checks};\ncrate::units::parse()");
    assert_eq!(
        found,
        ["checks", "layout", "store", "units"]
            .map(str::to_owned)
            .into()
    );
}

/// Does the text name this path, as `egui::Ui` or `use egui;`, and not as part of another word?
fn names(text: &str, path: &str) -> bool {
    let is_word = |c: char| c.is_alphanumeric() || c == '_';
    text.match_indices(path).any(|(at, _)| {
        let before = text[..at].chars().next_back();
        let after = &text[at + path.len()..];
        let is_whole = !after.starts_with(is_word);
        let is_path = path.contains("::") || after.starts_with("::") || after.starts_with(';');
        is_whole && is_path && !before.is_some_and(|c| is_word(c) || c == '.' || c == '"')
    })
}

/// A file without its comments.
fn code_of(path: &Path) -> String {
    let text = fs::read_to_string(path).unwrap();
    let code = text
        .lines()
        .filter(|line| !line.trim_start().starts_with("//"));
    code.collect::<Vec<_>>().join("\n")
}

/// A file without its comments and its tests; empty for a file of tests.
fn code_without_tests(path: &Path) -> String {
    if is_for_tests_only(path) {
        return String::new();
    }
    let code = code_of(path);
    let end = code.find("#[cfg(test)]\nmod tests {").unwrap_or(code.len());
    code[..end].to_owned()
}

/// Is the module, or one around it, declared for tests only?
fn is_for_tests_only(path: &Path) -> bool {
    path.ancestors().any(|module| {
        let (Some(folder), Some(name)) = (module.parent(), module.file_stem()) else {
            return false;
        };
        let parents = [
            folder.join("mod.rs"),
            folder.join("lib.rs"),
            folder.with_extension("rs"),
        ];
        let declared = format!("mod {};", name.to_string_lossy());
        parents
            .iter()
            .filter(|parent| parent.is_file())
            .any(|parent| {
                let code = code_of(parent);
                let mut lines = code.lines().zip(code.lines().skip(1));
                lines.any(|(above, line)| {
                    above.trim() == "#[cfg(test)]" && line.ends_with(&declared)
                })
            })
    })
}

/// The files of the package with this ending.
fn tree(ext: &str) -> Vec<PathBuf> {
    let mut found: Vec<_> = ["src", "tests", "docs", "layouts"]
        .iter()
        .flat_map(|dir| files(Path::new(dir), ext))
        .collect();
    for entry in fs::read_dir(".").unwrap() {
        let path = PathBuf::from(entry.unwrap().file_name());
        if path.extension().is_some_and(|it| it == ext) {
            found.push(path);
        }
    }
    found
}

fn files(dir: &Path, ext: &str) -> Vec<PathBuf> {
    let mut found = Vec::new();
    let mut dirs = vec![dir.to_path_buf()];
    while let Some(dir) = dirs.pop() {
        for entry in fs::read_dir(&dir).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                dirs.push(path);
            } else if path.extension().is_some_and(|it| it == ext) {
                found.push(path);
            }
        }
    }
    found.sort();
    found
}
