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
        for entry in fs::read_dir(&directory).unwrap() {
            let path = entry.unwrap().path();
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
