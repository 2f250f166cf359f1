use std::sync::Arc;

use super::{Edit, EditError, Plan};

/// A plan with its undo history.
///
/// Each step holds the whole plan before it. Plans are small, so this is cheap, and unlike inverse
/// edits it cannot restore the wrong thing.
///
/// A drag is one step: [`History::begin`], any number of [`History::apply`], then
/// [`History::commit`] on letting go or [`History::abort`] on Escape.
#[derive(Debug)]
pub struct History {
    plan: Arc<Plan>,
    undo: Vec<Step>,
    redo: Vec<Step>,

    /// Set while a drag is under way.
    open: Option<Step>,
}

#[derive(Debug)]
struct Step {
    label: String,
    plan: Arc<Plan>,
}

impl History {
    /// Starts with nothing to undo.
    pub fn new(plan: Plan) -> Self {
        Self {
            plan: Arc::new(plan),
            undo: Vec::new(),
            redo: Vec::new(),
            open: None,
        }
    }

    /// The current plan. Clone the `Arc` to work on it elsewhere.
    pub fn plan(&self) -> &Arc<Plan> {
        &self.plan
    }

    /// What the next undo would take back.
    pub fn undo_label(&self) -> Option<&str> {
        self.undo.last().map(|step| step.label.as_str())
    }

    /// What the next redo would do again.
    pub fn redo_label(&self) -> Option<&str> {
        self.redo.last().map(|step| step.label.as_str())
    }

    /// How many steps can be undone.
    pub fn undo_count(&self) -> usize {
        self.undo.len()
    }

    /// Is a step open, as while dragging?
    pub fn is_open(&self) -> bool {
        self.open.is_some()
    }

    /// Opens a step; a step that is still open is committed first.
    pub fn begin(&mut self, label: impl Into<String>) {
        self.commit();
        self.open = Some(Step {
            label: label.into(),
            plan: Arc::clone(&self.plan),
        });
    }

    /// Changes the plan inside the open step; opens one if none is.
    pub fn apply(&mut self, edit: &Edit) -> Result<(), EditError> {
        self.apply_all(std::slice::from_ref(edit))
    }

    /// Makes several changes inside the open step, all or none; opens one if none is.
    pub fn apply_all(&mut self, edits: &[Edit]) -> Result<(), EditError> {
        if self.open.is_none() {
            self.begin("Change");
        }
        self.plan = Arc::new(self.plan.with(edits)?);
        Ok(())
    }

    /// Puts the plan back to the start of the open step, so that a drag is computed from where it
    /// began and not added up.
    pub fn rewind(&mut self) {
        if let Some(step) = &self.open {
            self.plan = Arc::clone(&step.plan);
        }
    }

    /// Closes the open step; a step that changed nothing leaves no trace.
    pub fn commit(&mut self) {
        let Some(step) = self.open.take() else {
            return;
        };
        if *step.plan == *self.plan {
            return;
        }
        self.redo.clear();
        self.undo.push(step);
    }

    /// Closes the open step and takes its changes back.
    pub fn abort(&mut self) {
        if let Some(step) = self.open.take() {
            self.plan = step.plan;
        }
    }

    /// A whole step at once; on an error nothing is changed.
    pub fn run(&mut self, label: impl Into<String>, edits: &[Edit]) -> Result<(), EditError> {
        self.begin(label);
        let done = self.apply_all(edits);
        if done.is_err() {
            self.abort();
        }
        self.commit();
        done
    }

    /// Another plan in place of this one, as one step.
    pub fn replace(&mut self, label: impl Into<String>, plan: Plan) {
        self.begin(label);
        self.plan = Arc::new(plan);
        self.commit();
    }

    /// What the steps that can be undone are called, the first one first.
    pub fn done(&self) -> impl Iterator<Item = &str> {
        self.undo.iter().map(|step| step.label.as_str())
    }

    /// What the steps that can be done again are called, the next one first.
    pub fn undone(&self) -> impl Iterator<Item = &str> {
        self.redo.iter().rev().map(|step| step.label.as_str())
    }

    /// Goes back or forward to where so many steps can be undone, or as near as there are steps.
    pub fn go_to(&mut self, done: usize) {
        self.commit();
        while self.undo.len() > done && self.undo() {}
        while self.undo.len() < done && self.redo() {}
    }

    /// Goes one step back; returns whether there was one.
    pub fn undo(&mut self) -> bool {
        self.commit();
        swap_step(&mut self.plan, &mut self.undo, &mut self.redo)
    }

    /// Goes one step forward again; returns whether there was one.
    pub fn redo(&mut self) -> bool {
        self.commit();
        swap_step(&mut self.plan, &mut self.redo, &mut self.undo)
    }
}

fn swap_step(plan: &mut Arc<Plan>, from: &mut Vec<Step>, to: &mut Vec<Step>) -> bool {
    let Some(Step { label, plan: other }) = from.pop() else {
        return false;
    };
    to.push(Step {
        label,
        plan: std::mem::replace(plan, other),
    });
    true
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::layout::{Cylinder, Placing, Thing, ThingKind, ThingRef};

    fn standing(id: u8, x: f64) -> Thing {
        Thing::Cylinder(Cylinder::new(
            &format!("C{id}"),
            "al-80cf",
            Placing::Standing {
                deck: "main".into(),
                at: [x, 0.0],
                on: None,
            },
        ))
    }

    fn any_edit() -> impl Strategy<Value = Edit> {
        prop_oneof![
            (0_u8..4, 0.0..5.0).prop_map(|(id, x)| Edit::Put {
                trip: Some("trip-1".into()),
                thing: Box::new(standing(id, x)),
            }),
            (0_u8..4).prop_map(|id| Edit::Remove {
                trip: Some("trip-1".into()),
                what: ThingRef {
                    kind: ThingKind::Cylinder,
                    id: format!("C{id}"),
                },
            }),
        ]
    }

    #[derive(Clone, Debug)]
    enum Action {
        Begin,
        Apply(Edit),
        Rewind,
        Commit,
        Abort,
        Undo,
        Redo,
        GoTo(usize),
        Replace(u8),
    }

    fn any_action() -> impl Strategy<Value = Action> {
        prop_oneof![
            2 => Just(Action::Begin),
            4 => any_edit().prop_map(Action::Apply),
            1 => Just(Action::Rewind),
            2 => Just(Action::Commit),
            1 => Just(Action::Abort),
            1 => Just(Action::Undo),
            1 => Just(Action::Redo),
            1 => (0_usize..6).prop_map(Action::GoTo),
            1 => (0_u8..3).prop_map(Action::Replace),
        ]
    }

    /// What a [`History`] should behave like: a list of plans and a position in it.
    struct Reference {
        list: Vec<Plan>,
        position: usize,
        open: Option<Plan>,
    }

    impl Reference {
        fn plan(&self) -> &Plan {
            self.open.as_ref().unwrap_or(&self.list[self.position])
        }

        fn commit(&mut self) {
            if let Some(plan) = self.open.take()
                && plan != self.list[self.position]
            {
                self.list.truncate(self.position + 1);
                self.list.push(plan);
                self.position += 1;
            }
        }

        fn run(&mut self, action: &Action) {
            match action {
                Action::Begin => {
                    self.commit();
                    self.open = Some(self.list[self.position].clone());
                }
                Action::Apply(edit) => {
                    if self.open.is_none() {
                        self.open = Some(self.list[self.position].clone());
                    }
                    if let Some(plan) = &mut self.open {
                        plan.apply(edit).ok();
                    }
                }
                Action::Rewind => {
                    if let Some(plan) = &mut self.open {
                        *plan = self.list[self.position].clone();
                    }
                }
                Action::Commit => self.commit(),
                Action::Abort => self.open = None,
                Action::Undo => {
                    self.commit();
                    self.position = self.position.saturating_sub(1);
                }
                Action::Redo => {
                    self.commit();
                    self.position = (self.position + 1).min(self.list.len() - 1);
                }
                Action::GoTo(done) => {
                    self.commit();
                    self.position = (*done).min(self.list.len() - 1);
                }
                Action::Replace(length) => {
                    self.commit();
                    self.open = Some(Plan::new("Other", 5.0 + f64::from(*length), 3.0));
                    self.commit();
                }
            }
        }
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(64))]
        #[test]
        fn behaves_like_a_list(actions in prop::collection::vec(any_action(), 0..60)) {
            let start = Plan::new("Test", 10.0, 4.0);
            let mut history = History::new(start.clone());
            let mut reference = Reference { list: vec![start], position: 0, open: None };
            for action in &actions {
                match action {
                    Action::Begin => history.begin("edit"),
                    Action::Apply(edit) => {
                        history.apply(edit).ok();
                    }
                    Action::Rewind => history.rewind(),
                    Action::Commit => history.commit(),
                    Action::Abort => history.abort(),
                    Action::Undo => {
                        history.undo();
                    }
                    Action::Redo => {
                        history.redo();
                    }
                    Action::GoTo(done) => history.go_to(*done),
                    Action::Replace(length) => {
                        history.replace("other", Plan::new("Other", 5.0 + f64::from(*length), 3.0));
                    }
                }
                reference.run(action);
                prop_assert_eq!(&**history.plan(), reference.plan());
                prop_assert_eq!(history.undo_count(), reference.position);
                prop_assert_eq!(history.done().count(), reference.position);
                let undone = reference.list.len() - 1 - reference.position;
                if !history.is_open() {
                    prop_assert_eq!(history.undone().count(), undone);
                }
            }
        }
    }
}
