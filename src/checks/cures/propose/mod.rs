//! What each rule may try: the ways of putting things right, by name.

mod clear;
mod hold;
mod lash;
mod lie;

pub(in crate::checks) use self::clear::{clear_way, move_out, shift_off, stow_gear, uncover};
pub(in crate::checks) use self::hold::{
    another_slot, boot, hold_better, secure, shut_front, tie_front,
};
pub(in crate::checks) use self::lash::{another_point, strap_height, stronger_lashing, tighten};
pub(in crate::checks) use self::lie::{cap, keep_from_rolling, lash_down, lay_down, turn_round};

use crate::checks::{CheckContext, Finding, Proposal};
use crate::engine::numbers::CylinderNumbers;
use crate::layout::{Edit, Lashing, ThingKind};
use crate::units::Said;

/// The cylinder that a finding is about.
fn cylinder<'a>(ctx: &CheckContext<'a>, finding: &Finding) -> Option<&'a CylinderNumbers> {
    let mut about = finding.about.iter();
    let subject = about.find(|subject| subject.kind == ThingKind::Cylinder)?;
    ctx.cylinder(&subject.id)
}

/// The lashings that a finding is about, as they are in this part.
fn lashings<'a>(ctx: &CheckContext<'a>, finding: &Finding) -> Vec<&'a Lashing> {
    let about = finding
        .about
        .iter()
        .filter(|subject| subject.kind == ThingKind::Lashing);
    let states = &ctx.day.lashings;
    about
        .filter_map(|subject| {
            let mut all = states.iter().map(|state| &state.lashing);
            all.find(|lashing| lashing.id == subject.id)
        })
        .collect()
}

fn one(label: impl Into<Said>, edits: Vec<Edit>) -> Proposal {
    Proposal {
        label: label.into(),
        edits,
        gear: None,
    }
}
