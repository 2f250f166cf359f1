//! `U102`: a round-bottomed cylinder stands without a boot.

use crate::checks::check::declare_check;
use crate::checks::cures::propose;
use crate::checks::security::{self, Security};
use crate::checks::{CheckContext, Finding, Signal};
use crate::engine::numbers::Stance;
use crate::layout::ThingKind;

declare_check! {
    /// ## What it checks
    /// That no cylinder with a round bottom is stood upright without a boot, outside a rack.
    ///
    /// ## Why it matters
    /// A round bottom has no base: it does not stand at all, at rest or under way. A lashing then has to
    /// hold everything.
    ///
    /// ## Source
    /// Mechanics: the base has no width (docs/method.md, standing free). That steel cylinders have round
    /// bottoms and need a boot: diving magazine and diving site, catalogue source S11.
    pub static ROUND_BASE_WITHOUT_BOOT = {
        code: "U102",
        name: "round-base-without-boot",
        summary: "a round-bottomed cylinder stands without a boot",
        signal: Signal::Danger,
        pictures: [
            "deck 3x2; fast roll=0.1/8; stand S1 1.5,0 kind=st-12l-long-232",
            "deck 3x2; fast roll=0.1/8; stand S1 1.5,0 kind=st-12l-long-232 boot",
        ],
        run: round_base_without_boot,
        cures: propose::boot,
    }
}

fn round_base_without_boot(ctx: &CheckContext<'_>, findings: &mut Vec<Finding>) {
    for cylinder in &ctx.numbers.cylinders {
        let stands = cylinder.stance.is_upright()
            && !matches!(cylinder.stance, Stance::InRack | Stance::UpsideDown);
        let Some(state) = ctx.state(&cylinder.cylinder) else {
            continue;
        };
        if !stands || state.boot || cylinder.base_radius_m > 0.0 || !has_no_base(ctx, &state.kind) {
            continue;
        }
        let id = &cylinder.cylinder;
        let lashed = *security::of(ctx, cylinder) == Security::Lashed;
        let (signal, rest) = if lashed {
            (Signal::Warning, "the lashing has to hold everything")
        } else {
            (Signal::Danger, "it cannot stand at all")
        };
        let about = vec![ctx.subject(ThingKind::Cylinder, id)];
        let sentence = format!("{id} has a round bottom and no boot: {rest}");
        findings.push(
            Finding::new(&ROUND_BASE_WITHOUT_BOOT, ctx, signal, about, sentence)
                .at_cylinder(cylinder)
                .measured("width of what it stands on", 0.0, 0.0, "m")
                .fold_as("U102/boot".to_owned()),
        );
    }
}

/// Has this kind a round bottom? A twin has the bottoms of its singles.
fn has_no_base(ctx: &CheckContext<'_>, kind: &str) -> bool {
    use crate::catalogue::Catalogue;
    use crate::layout::BaseForm;
    use crate::mechanics::shell;

    if let Some(own) = ctx.trip.kinds.iter().find(|own| own.id == kind) {
        return own.base_form == BaseForm::Round && own.stand_radius_mm.is_none();
    }
    let catalogue = Catalogue::built_in();
    let single = catalogue.twin(kind).map_or(kind, |twin| &twin.single);
    catalogue
        .kind(single)
        .is_some_and(|kind| kind.base_form.value == shell::BaseForm::Round)
}

#[cfg(test)]
mod tests {
    use crate::checks::rules::test_support::{fires, silent};

    #[test]
    fn a_round_bottom_cannot_stand_even_at_rest() {
        fires(
            "deck 6x3; fast roll=0.1/8; stand S1 3,0 kind=st-10l-232",
            "DANGER U102 S1",
        );
    }

    #[test]
    fn a_boot_or_a_flat_bottom_can() {
        silent(
            "deck 6x3; fast roll=0.1/8; stand S1 3,0 kind=st-10l-232 boot",
            "U102",
        );
        silent(
            "deck 6x3; fast roll=0.1/8; stand A1 3,0 kind=al-80cf",
            "U102",
        );
    }

    #[test]
    fn a_twin_has_the_bottoms_of_its_singles() {
        fires(
            "deck 6x3; fast roll=0.1/8; stand T1 3,0 kind=twin-st-12l-long-232 faces=0",
            "DANGER U102 T1",
        );
    }

    #[test]
    fn in_a_socket_it_needs_none() {
        silent(
            "deck 6x3; fast roll=0.1/8; rack R1 sockets 3,0; slot S1 R1/1 kind=st-10l-232",
            "U102",
        );
    }
}
