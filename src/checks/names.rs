//! Names as people count and list them.

use std::cmp::Ordering;

/// Up to so many names are told one by one; of more, those that count up are told by the first and the last.
const ONE_BY_ONE: usize = 4;

/// Its letters before the first digit, and the number there.
fn head_and_number(name: &str) -> (&str, u64) {
    let digits = name.find(|c: char| c.is_ascii_digit());
    let (head, tail) = name.split_at(digits.unwrap_or(name.len()));
    let end = tail
        .find(|c: char| !c.is_ascii_digit())
        .unwrap_or(tail.len());
    (head, tail[..end].parse().unwrap_or(0))
}

/// For sorting by a key: P2 before P10.
pub fn natural(name: &str) -> (String, u64, String) {
    let (head, number) = head_and_number(name);
    (head.to_owned(), number, name.to_owned())
}

/// The same order without a key to keep, for whoever sorts anew in every frame of a drag.
pub fn natural_order(a: &str, b: &str) -> Ordering {
    head_and_number(a)
        .cmp(&head_and_number(b))
        .then_with(|| a.cmp(b))
}

/// Three or more names one after the other that count up are told by the first and the last: `P1-P4`. Names of more
/// than one word are told one by one, as "strap P1-P4" is one strap.
pub fn runs<S: AsRef<str>>(names: &[S]) -> Vec<String> {
    let name = |index: usize| names.get(index).map_or("", AsRef::as_ref);
    let mut told = Vec::new();
    let mut at = 0;
    while at < names.len() {
        let mut last = at;
        while last + 1 < names.len() && follows(name(last), name(last + 1)) {
            last += 1;
        }
        if last > at + 1 {
            told.push(format!("{}-{}", name(at), name(last)));
            at = last + 1;
        } else {
            told.push(name(at).to_owned());
            at += 1;
        }
    }
    told
}

/// Does one name count on from the other?
fn follows(a: &str, b: &str) -> bool {
    match (counted(a), counted(b)) {
        (Some((head, one)), Some((other, two))) => head == other && one.checked_add(1) == Some(two),
        _ => false,
    }
}

/// A name of one word that ends in a number.
fn counted(name: &str) -> Option<(&str, u32)> {
    let head = name.trim_end_matches(|c: char| c.is_ascii_digit());
    let number = name.get(head.len()..)?.parse().ok()?;
    (!name.contains(char::is_whitespace)).then_some((head, number))
}

/// `P1, P2 and P3`, in the order in which they are given, every one of them: `P1-P6 and T1`.
pub fn list<S: AsRef<str>>(names: &[S]) -> String {
    if names.len() > ONE_BY_ONE {
        return joined(&runs(names));
    }
    joined(names)
}

/// The same in the order in which people count.
pub fn list_in_order<S: AsRef<str>>(names: &[S]) -> String {
    let mut sorted: Vec<&str> = names.iter().map(AsRef::as_ref).collect();
    sorted.sort_by(|a, b| natural_order(a, b));
    list(&sorted)
}

/// Commas between them, and an "and" before the last.
fn joined<S: AsRef<str>>(names: &[S]) -> String {
    let mut text = String::new();
    for (index, name) in names.iter().enumerate() {
        text.push_str(match index {
            0 => "",
            _ if index + 1 == names.len() => " and ",
            _ => ", ",
        });
        text.push_str(name.as_ref());
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_that_count_up_are_told_by_the_first_and_the_last() {
        let names = [
            "B1", "P1", "P2", "P3", "P5", "P6", "S9", "S10", "S11", "T", "07", "08",
        ];
        assert_eq!(
            runs(&names),
            ["B1", "P1-P3", "P5", "P6", "S9-S11", "T", "07", "08"]
        );
        assert!(runs::<&str>(&[]).is_empty());
        let straps = ["strap P1", "strap P2", "strap P3"];
        assert_eq!(runs(&straps), straps, "a strap P1-P3 would be another one");
    }

    #[test]
    fn names_are_sorted_as_people_count() {
        let mut names = ["P10", "S1", "P2", "P", "P1"];
        names.sort_by_key(|name| natural(name));
        assert_eq!(names, ["P", "P1", "P2", "P10", "S1"]);
        names.sort_unstable();
        names.sort_by(|a, b| natural_order(a, b));
        assert_eq!(names, ["P", "P1", "P2", "P10", "S1"]);
    }

    #[test]
    fn lists_name_every_one() {
        assert_eq!(list::<&str>(&[]), "");
        assert_eq!(list(&["P1"]), "P1");
        assert_eq!(list(&["P1", "P2", "P3"]), "P1, P2 and P3");
        let many: Vec<String> = (1..=100).rev().map(|n| format!("C{n}")).collect();
        assert_eq!(list_in_order(&many), "C1-C100");
        let odd: Vec<String> = (1..=19).step_by(2).map(|n| format!("C{n}")).collect();
        assert_eq!(
            list_in_order(&odd),
            "C1, C3, C5, C7, C9, C11, C13, C15, C17 and C19"
        );
        assert_eq!(
            list(&["T", "P1", "P2", "P3", "P5"]),
            "T, P1-P3 and P5",
            "in the order given"
        );
    }
}
