//! The deck plan: a boat and its trips, the edits that change it, and its history.
