//! Names as people count and list them.

/// For sorting: P2 before P10.
pub fn natural(name: &str) -> (String, u64, String) {
    let digits = name.find(|c: char| c.is_ascii_digit());
    let (head, tail) = name.split_at(digits.unwrap_or(name.len()));
    let end = tail
        .find(|c: char| !c.is_ascii_digit())
        .unwrap_or(tail.len());
    let number = tail[..end].parse().unwrap_or(0);
    (head.to_owned(), number, name.to_owned())
}

/// Three or more names one after the other that count up are told by the first and the last: `P1-P4`.
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
    let number = |name: &str| {
        let head = name.trim_end_matches(|c: char| c.is_ascii_digit());
        let number = name.get(head.len()..)?.parse::<u32>().ok()?;
        Some((head.to_owned(), number))
    };
    match (number(a), number(b)) {
        (Some((head, one)), Some((other, two))) => head == other && one.checked_add(1) == Some(two),
        _ => false,
    }
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
    }

    #[test]
    fn names_are_sorted_as_people_count() {
        let mut names = ["P10", "S1", "P2", "P", "P1"];
        names.sort_by_key(|name| natural(name));
        assert_eq!(names, ["P", "P1", "P2", "P10", "S1"]);
    }
}
