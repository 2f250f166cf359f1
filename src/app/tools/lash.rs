use super::super::canvas::hit;
use super::super::command::Command;
use super::super::here::{Here, at};
use super::super::moving::{placing_point, put};
use super::super::naming;
use super::super::selection::Selection;
use super::super::words;
use super::{Phase, Pointer, Preview};
use crate::geometry::Vec2;
use crate::layout::{Edit, Id, LashCondition, Lashing, Thing, ThingKind, ThingRef};

/// Where on the straight shell a new lashing goes round, in metres above the foot, where no number of
/// the cylinder is at hand.
const USUAL_HEIGHT_M: f64 = 0.40;

/// Draws a lashing: from a point round cylinders to a point.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct LashTool {
    /// Of what.
    pub(crate) material: String,

    /// The point it starts from, once clicked.
    pub(crate) from: Option<Id>,

    /// The cylinders it goes round so far.
    pub(crate) round: Vec<Id>,
}

impl LashTool {
    /// With nothing drawn yet.
    pub(crate) fn new(material: String) -> Self {
        Self {
            material,
            from: None,
            round: Vec::new(),
        }
    }

    /// The lashing from the first selected point round the selected cylinders to the last selected point, and
    /// what it is called; `None` if no point or no cylinder is selected.
    pub(crate) fn of_selected(
        material: &str,
        here: &Here<'_>,
        selection: &Selection,
    ) -> Option<(String, Edit, ThingRef)> {
        let of = |kind: ThingKind| {
            let things = selection.things().iter();
            things
                .filter(|what| what.kind == kind)
                .map(|what| what.id.clone())
                .collect::<Vec<Id>>()
        };
        let (points, round) = (of(ThingKind::LashingPoint), of(ThingKind::Cylinder));
        let (from, to) = (points.first()?, points.last()?);
        if round.is_empty() {
            return None;
        }
        let tool = Self {
            material: material.to_owned(),
            from: Some(from.clone()),
            round,
        };
        let edit = tool.edit(here, to)?;
        let id = naming::free(here.plan, here.trip, ThingKind::Lashing);
        let what = ThingRef {
            kind: ThingKind::Lashing,
            id,
        };
        Some((words::step_lash(&tool.round), edit, what))
    }

    pub(super) fn cancel(&mut self) -> bool {
        let under_way = self.from.is_some();
        self.from = None;
        self.round.clear();
        under_way
    }

    /// What is to be clicked next, in words.
    pub(crate) fn prompt(&self) -> &'static str {
        match (&self.from, self.round.is_empty()) {
            (None, _) => words::LASH_FROM,
            (Some(_), true) => words::LASH_ROUND,
            (Some(_), false) => words::LASH_TO,
        }
    }

    /// Its run so far, in metres.
    pub(super) fn run(&self, here: &Here<'_>) -> Vec<Vec2> {
        let from = self.from.as_ref();
        let from = from.and_then(|id| here.plan.boat.lashing_point(id));
        let round = self.round.iter().filter_map(|id| here.day.cylinder(id));
        let round = round.filter_map(|item| placing_point(here.plan, &item.placing));
        from.map(|point| at(point.at))
            .into_iter()
            .chain(round)
            .collect()
    }

    pub(super) fn update(
        &mut self,
        pointer: &Pointer,
        here: &Here<'_>,
        commands: &mut Vec<Command>,
    ) -> bool {
        if !matches!(pointer.phase, Phase::Clicked | Phase::DoubleClicked) {
            return false;
        }
        let met = self.meets(here, pointer.at, pointer.reach_m);
        match met {
            Some(ThingRef {
                kind: ThingKind::LashingPoint,
                id,
            }) => match &self.from {
                Some(_) if !self.round.is_empty() => {
                    if let Some(edit) = self.edit(here, &id) {
                        let label = words::step_lash(&self.round);
                        let name = naming::free(here.plan, here.trip, ThingKind::Lashing);
                        commands.push(Command::Run {
                            label,
                            edits: vec![edit],
                            select: Some(Selection::one(ThingRef {
                                kind: ThingKind::Lashing,
                                id: name,
                            })),
                        });
                    }
                    self.cancel();
                }
                _ => self.from = Some(id),
            },
            Some(ThingRef {
                kind: ThingKind::Cylinder,
                id,
            }) if self.from.is_some() => match self.round.iter().position(|item| *item == id) {
                Some(index) => {
                    self.round.remove(index);
                }
                None => self.round.push(id),
            },
            _ => commands.push(Command::Tell(self.prompt().to_owned())),
        }
        true
    }

    /// The lashing point or cylinder under the pointer, whichever is wanted next first.
    fn meets(&self, here: &Here<'_>, at: Vec2, reach_m: f64) -> Option<ThingRef> {
        let met = hit::all(here, at, reach_m);
        let first = |kind: ThingKind| met.iter().find(|what| what.kind == kind).cloned();
        let (point, cylinder) = (first(ThingKind::LashingPoint), first(ThingKind::Cylinder));
        if self.from.is_some() && self.round.is_empty() {
            cylinder.or(point)
        } else {
            point.or(cylinder)
        }
    }

    fn edit(&self, here: &Here<'_>, to: &str) -> Option<Edit> {
        let id = naming::free(here.plan, here.trip, ThingKind::Lashing);
        let lashing = Lashing {
            id,
            name: None,
            material: self.material.clone(),
            strength_kn: None,
            stiffness_kn_per_m: None,
            condition: LashCondition::Good,
            from: self.from.clone()?,
            round: self.round.clone(),
            to: to.to_owned(),
            height_m: self.height_m(here),
            slack_m: None,
            pretension_kn: None,
            shut: true,
        };
        Some(put(here.trip, Thing::Lashing(lashing)))
    }

    /// At the centre of gravity of the cylinders, which is on the straight shell.
    fn height_m(&self, here: &Here<'_>) -> f64 {
        let heights = self.round.iter().filter_map(|id| {
            let numbers = here.cylinder_numbers(id)?;
            numbers.stance.is_upright().then_some(numbers.cg_height_m)
        });
        let highest = heights.fold(0.0_f64, f64::max);
        if highest > 0.0 {
            super::super::here::cm(highest)
        } else {
            USUAL_HEIGHT_M
        }
    }

    pub(super) fn preview(&self, at: Vec2, here: &Here<'_>) -> Preview {
        let started = self.from.is_some() && !self.round.is_empty();
        let met = started
            .then(|| self.meets(here, at, PREVIEW_REACH_M))
            .flatten();
        let to = met.filter(|what| what.kind == ThingKind::LashingPoint);
        match to.and_then(|to| self.edit(here, &to.id)) {
            Some(edit) => Preview {
                edits: vec![edit],
                cylinder: self.round.first().cloned(),
                text: None,
            },
            None => Preview {
                edits: Vec::new(),
                cylinder: None,
                text: Some(self.prompt().to_owned()),
            },
        }
    }
}

/// How near the pointer must be to a point for the outcome to be told, in metres.
const PREVIEW_REACH_M: f64 = 0.08;
