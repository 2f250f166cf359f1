//! Every platform prints the same digits: the program is run beside a mathematics library that is off in the last place,
//! as that of another system or processor may be, and must not notice.

use std::path::Path;
use std::process::Command;

use crate::support::{Folder, Ran};

/// What the standard library asks of the machine's mathematics library, each result moved to the next number above. The
/// results come from the functions of long numbers, which are others and stay as they are.
const OFF_BY_ONE: &str = r#"
#include <math.h>
#include <stdio.h>
#define ONE(name) double name(double x) { return nextafter((double)name##l(x), INFINITY); }
#define TWO(name) double name(double x, double y) { return nextafter((double)name##l(x, y), INFINITY); }
ONE(sin) ONE(cos) ONE(tan) ONE(asin) ONE(acos) ONE(atan) ONE(exp) ONE(exp2) ONE(log) ONE(log2) ONE(log10)
ONE(sinh) ONE(cosh) ONE(tanh) ONE(cbrt) ONE(expm1) ONE(log1p)
TWO(atan2) TWO(pow) TWO(hypot)
void sincos(double x, double *s, double *c) { *s = sin(x); *c = cos(x); }
__attribute__((constructor)) static void tell(void) { fputs("off by one\n", stderr); }
"#;

/// The library, made with the compiler that also links the program.
fn library(folder: &Folder) -> std::path::PathBuf {
    let made = folder.path().join("off_by_one.so");
    let source = folder.path().join("off_by_one.c");
    let compiled = Command::new("cc")
        .args(["-shared", "-fPIC", "-fno-builtin", "-O0", "-o"])
        .arg(&made)
        .arg(&source)
        .arg("-lm")
        .output()
        .unwrap();
    assert!(compiled.status.success(), "{compiled:?}");
    made
}

/// Is the program's mathematics library really the other one? Its numbers are then no longer those of this process.
fn is_loaded(ran: &Ran) -> bool {
    ran.err.contains("off by one")
}

#[test]
fn a_library_of_the_machine_that_is_off_in_the_last_place_changes_nothing() {
    let layouts = Path::new(env!("CARGO_MANIFEST_DIR")).join("layouts");
    let folder = Folder::new().with("off_by_one.c", OFF_BY_ONE);
    let library = library(&folder);
    let of = |name: &str| layouts.join(name).display().to_string();
    let (record, plan, log) = (
        of("incident/record.json"),
        of("incident/plan.json"),
        of("incident/motion.csv"),
    );
    let (day, badly) = (of("day-boat.json"), of("day-boat-badly-stowed.json"));
    for args in [
        vec!["audit", &record, "--format", "json"],
        vec!["audit", &record],
        vec!["replay", &plan, "--log", &log, "--format", "json"],
        vec!["check", &badly, "--cures", "none", "--format", "json"],
        vec!["check", &day, "--format", "json"],
        vec!["day", &badly, "--format", "json"],
        vec!["motion", &day, "--format", "json"],
    ] {
        let usual = folder.run(&args);
        let mut other = folder.command(&args);
        let other = Ran::from(other.env("LD_PRELOAD", &library).output().unwrap());
        assert!(
            is_loaded(&other) && !is_loaded(&usual),
            "{args:?}: {other:?}"
        );
        assert_eq!(other.code, usual.code, "{args:?}: {}", other.err);
        assert!(
            usual.out.len() > 1000,
            "{args:?} told little: {}",
            usual.out
        );
        let mut parted = usual.out.lines().zip(other.out.lines());
        let parted = parted.find(|(one, two)| one != two);
        assert_eq!(parted, None, "{args:?}");
        assert!(usual.out == other.out, "{args:?}: other bytes");
    }
}
