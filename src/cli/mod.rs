//! The command line: arguments to library calls to text and an exit code.
