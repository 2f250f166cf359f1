//! The first round through the window.

pub(crate) const NEXT: &str = "Next";
pub(crate) const SKIP: &str = "Skip this";
pub(crate) const BEGIN: &str = "Begin";

/// Title and text of each step.
pub(crate) const STEPS: [(&str, &str); 5] = [
    (
        "The deck plan",
        "To scale, bow to the right, port up. Drag things to move them; drag the water to shift the plan; the wheel shows it larger.",
    ),
    (
        "Stores",
        "Press a thing here, then click on the deck, or drag it out. Before you let go, the plan tells what would come of it.",
    ),
    (
        "To put right",
        "What goes at which roll, the gravest first. Click a line for the why, the sum, and a button that puts it right.",
    ),
    (
        "The card",
        "Click a thing on the plan: how it holds, its numbers, and everything that can be said of it. Not known is an answer too.",
    ),
    (
        "Leaning and rolling",
        "Lean the boat slowly and see what goes first. Rolling, things go sooner: both limits stand side by side under two names.",
    ),
];

/// "2 of 5".
pub(crate) fn step_of(step: usize, all: usize) -> String {
    format!("{step} of {all}")
}
