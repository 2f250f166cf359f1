use super::{Moment, MomentError};
use crate::layout::{Id, Plan};
use crate::record::{Account, AppliedNote, Opened, StowageError, stowage_of};

/// One account with the stowage that it makes.
#[derive(Clone, Debug, PartialEq)]
pub struct Told {
    /// The account.
    pub account: Account,

    /// The stowage by it.
    pub moment: Moment,

    /// What was made of lashings on the way.
    pub notes: Vec<AppliedNote>,
}

/// A record made ready: the plan and each account as a stowage of the moment in question.
#[derive(Clone, Debug, PartialEq)]
pub struct Case {
    /// The record and its files.
    pub opened: Opened,

    /// The stowage as planned.
    pub planned: Moment,

    /// The stowage by each account, in the order of the record.
    pub accounts: Vec<Told>,
}

/// Why a record makes no case.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum CaseError {
    /// The plan as issued has no such moment.
    #[error("plan as issued: {0}")]
    Planned(MomentError),

    /// The layout of an account has no such moment.
    #[error("account {account}: {error}")]
    Account {
        /// The account.
        account: Id,
        /// What is missing.
        error: MomentError,
    },

    /// What an account found does not fit its layout.
    #[error(transparent)]
    Stowage(#[from] StowageError),

    /// The marked spot is on no deck.
    #[error("the marked spot is on deck {deck:?}; the plan as issued has {known}")]
    NoSuchDeck {
        /// What the record says.
        deck: Id,
        /// What there is.
        known: String,
    },
}

impl Case {
    /// Makes the case of a record.
    pub fn of(opened: Opened) -> Result<Self, CaseError> {
        let file = &opened.record.planned;
        let planned = Moment::of(&opened.planned, file.trip.as_deref(), file.part.as_deref())
            .map_err(CaseError::Planned)?;
        if let Some(spot) = &opened.record.marked_spot
            && planned.plan.boat.deck(&spot.deck).is_none()
        {
            return Err(CaseError::NoSuchDeck {
                deck: spot.deck.clone(),
                known: decks(&planned.plan),
            });
        }
        let mut accounts = Vec::new();
        for account in &opened.record.accounts {
            let of = account.layout.as_ref().unwrap_or(file);
            let start = Moment::of(
                opened.layout_of(&account.id),
                of.trip.as_deref(),
                of.part.as_deref(),
            )
            .map_err(|error| CaseError::Account {
                account: account.id.clone(),
                error,
            })?;
            let (plan, notes) = stowage_of(&start.plan, account)?;
            accounts.push(Told {
                account: account.clone(),
                moment: Moment { plan },
                notes,
            });
        }
        Ok(Self {
            opened,
            planned,
            accounts,
        })
    }
}

fn decks(plan: &Plan) -> String {
    let names: Vec<&Id> = plan.boat.decks.iter().map(|deck| &deck.id).collect();
    crate::checks::words::list(&names)
}

#[cfg(test)]
mod tests;
