//! Deck plans on disk: strict reading with located mistakes, atomic writing.
