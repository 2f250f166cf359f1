//! The hand-written documents speak of what is there.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

fn read(path: impl AsRef<Path>) -> String {
    let path = root().join(path);
    fs::read_to_string(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}

/// Every Rust file below a directory, in the order of their names.
fn rust_files(directory: &str) -> Vec<PathBuf> {
    let mut found = Vec::new();
    let mut open = vec![root().join(directory)];
    while let Some(directory) = open.pop() {
        for entry in fs::read_dir(&directory).expect("a directory of sources") {
            let path = entry.expect("an entry that can be read").path();
            if path.is_dir() {
                open.push(path);
            } else if path.extension().is_some_and(|extension| extension == "rs") {
                found.push(path);
            }
        }
    }
    found.sort();
    found
}

/// The comments of a file, each line's marker taken off, in one line.
fn comments(source: &str) -> String {
    let lines = source.lines().filter_map(|line| {
        let line = line.trim_start();
        let markers = ["//!", "///", "//"];
        markers.iter().find_map(|marker| line.strip_prefix(marker))
    });
    lines.map(str::trim).collect::<Vec<_>>().join(" ")
}

/// The headings of a Markdown text, in small letters.
fn headings(markdown: &str) -> BTreeSet<String> {
    let mut in_code = false;
    let mut found = BTreeSet::new();
    for line in markdown.lines() {
        in_code ^= line.starts_with("```");
        if let Some(heading) = line.strip_prefix("## ").filter(|_| !in_code) {
            found.insert(heading.trim().to_lowercase());
        }
    }
    found
}

/// The section of the method that a comment names after the file: `"Lying"`, or `lying)` in brackets.
fn section_named(after: &str) -> Option<String> {
    let rest = after
        .trim_start_matches('`')
        .strip_prefix(',')?
        .trim_start();
    let name = match rest.strip_prefix('"') {
        Some(quoted) => quoted.split('"').next()?,
        None => rest.split([')', ':', ';']).next()?,
    };
    Some(name.trim().to_lowercase())
}

#[test]
fn every_section_of_the_method_that_the_code_names_exists() {
    let sections = headings(&read("docs/method.md"));
    let mut named = 0;
    let mut missing = Vec::new();
    for path in rust_files("src").iter().chain(&rust_files("tests/outside")) {
        let text = comments(&read(path));
        for (at, file) in text.match_indices("docs/method.md") {
            let Some(section) = section_named(&text[at + file.len()..]) else {
                continue;
            };
            named += 1;
            if !sections.contains(&section) {
                missing.push(format!("{}: {section:?}", path.display()));
            }
        }
    }
    assert!(missing.is_empty(), "{}", missing.join("\n"));
    assert!(named > 20, "found only {named} references to the method");
}

/// The target of each link of a Markdown text: `[text](target)`.
fn links(markdown: &str) -> impl Iterator<Item = &str> {
    markdown
        .split("](")
        .skip(1)
        .filter_map(|rest| rest.split([')', ' ']).next())
}

/// As the hosts of Markdown make an anchor of a heading.
fn anchor(heading: &str) -> String {
    let kept = heading
        .chars()
        .filter(|c| c.is_alphanumeric() || matches!(c, ' ' | '-' | '_'));
    kept.collect::<String>().replace(' ', "-")
}

#[test]
fn links_lead_somewhere() {
    let mut broken = Vec::new();
    for entry in fs::read_dir(root().join("docs")).unwrap() {
        let path = entry.unwrap().path();
        if path.extension().is_none_or(|extension| extension != "md") {
            continue;
        }
        let text = read(&path);
        for link in links(&text).filter(|link| !link.contains("://")) {
            let (file, section) = link.split_once('#').unwrap_or((link, ""));
            let target = if file.is_empty() {
                path.clone()
            } else {
                root().join("docs").join(file)
            };
            let leads = target.exists()
                && (section.is_empty()
                    || headings(&read(&target))
                        .iter()
                        .any(|heading| anchor(heading) == section));
            if !leads {
                broken.push(format!("{}: {link}", path.display()));
            }
        }
    }
    assert!(broken.is_empty(), "{}", broken.join("\n"));
}

/// What stands between back quotes in a Markdown text.
fn quoted(markdown: &str) -> impl Iterator<Item = &str> {
    markdown
        .lines()
        .flat_map(|line| line.split('`').skip(1).step_by(2))
}

#[test]
fn every_check_that_the_table_of_numbers_names_exists() {
    let numbers = read("docs/numbers.md");
    let mut named = 0;
    let mut missing = Vec::new();
    for (file, function) in quoted(&numbers).filter_map(|name| name.split_once("::")) {
        if !file.contains('/') {
            continue;
        }
        named += 1;
        let source = fs::read_to_string(root().join(file)).unwrap_or_default();
        let is_test = source.contains("#[test]") && source.contains(&format!("fn {function}("));
        if !is_test {
            missing.push(format!("{file}::{function}"));
        }
    }
    assert!(missing.is_empty(), "{}", missing.join("\n"));
    assert!(named > 60, "found only {named} names of tests");
}

/// The fields of all structures of a file that are open to readers.
fn fields(source: &str) -> impl Iterator<Item = &str> {
    source.lines().filter_map(|line| {
        let (name, _) = line.strip_prefix("    pub ")?.split_once(": ")?;
        name.chars()
            .all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '_')
            .then_some(name)
    })
}

#[test]
fn every_number_stands_in_the_table() {
    let table = read("docs/numbers.md");
    let told: BTreeSet<&str> = quoted(&table).collect();
    let files = rust_files("src/engine/numbers");
    let source: String = files.iter().map(read).collect();
    let missing: Vec<&str> = fields(&source)
        .filter(|name| !told.contains(name))
        .collect();
    assert!(missing.is_empty(), "not in docs/numbers.md: {missing:?}");
    assert!(fields(&source).count() > 100, "the fields were not found");
}

/// What findings measure: the first text after each `.measured(`.
fn measures(source: &str) -> Vec<&str> {
    let calls = source.split(".measured(").skip(1);
    calls
        .filter_map(|rest| rest.trim_start().strip_prefix('"')?.split('"').next())
        .collect()
}

#[test]
fn every_measure_of_a_finding_stands_in_the_table() {
    let table = read("docs/numbers.md");
    let told: BTreeSet<&str> = table
        .lines()
        .filter_map(|line| line.strip_prefix("| ")?.split(" | ").next())
        .flat_map(|cell| cell.split("; "))
        .collect();
    for path in rust_files("src/checks/rules") {
        for measure in measures(&read(&path)) {
            assert!(
                told.contains(measure),
                "{measure:?} of {} is not in docs/numbers.md",
                path.display()
            );
        }
    }
}

/// The first block of a Markdown text that is fenced as this language and begins so.
fn block<'a>(markdown: &'a str, language: &str, begins: &str) -> &'a str {
    let fence = format!("```{language}\n");
    let mut blocks = markdown.split(&fence).skip(1);
    blocks
        .find(|text| text.starts_with(begins))
        .and_then(|text| text.split_once("```"))
        .map_or("", |(text, _)| text)
}

#[test]
fn the_example_of_a_layout_file_is_one() {
    let page = read("docs/layout-format.md");
    let example = block(&page, "json", "{");
    let plan = snugdown::store::parse(example, "curlew.json").unwrap();
    assert_eq!(snugdown::store::to_text(&plan), example);
}

#[test]
fn the_faults_of_a_layout_file_are_told_like_that() {
    let page = read("docs/layout-format.md");
    let faulty = block(&page, "json", "{")
        .replace("\"beam_m\": 2.7,", "\"beam_m\": 270,")
        .replace(
            "\"roll_period_s\": 2.4,",
            "\"roll_period_s\": 2.4,\n    \"colour\": \"grey\",",
        )
        .replace("\"slot\": \"2\"", "\"slot\": \"1\"")
        .replace("\"condition\": \"running\"", "\"condition\": \"runing\"");
    let faults = snugdown::store::parse(&faulty, "curlew.json").unwrap_err();
    let told = faults.to_string();
    let shown = block(&page, "text", "curlew.json:");
    assert_eq!(shown.matches("curlew.json:").count(), faults.list.len());
    for line in shown.lines() {
        assert!(told.contains(line.trim_end_matches(" …")), "{line}\n{told}");
    }
}
