//! Entry point; everything else lives in the library. The only place that sees both the command line
//! and the window.

use std::io::{self, Write as _};
use std::process::ExitCode;

use anstream::{AutoStream, ColorChoice};
use snugdown::cli::{self, Outcome, Terminal};

/// A check makes and drops many small texts and lists: with this allocator it takes a tenth less time.
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

fn main() -> ExitCode {
    let terminal = Terminal {
        colour: AutoStream::choice(&io::stdout()) != ColorChoice::Never,
        columns: terminal_size::terminal_size().map(|(width, _)| width.0.into()),
    };
    // The command line decides about colour; the stream only makes it work on every console.
    let mut out = io::BufWriter::new(AutoStream::always(io::stdout()));
    let mut err = AutoStream::always(io::stderr());
    match cli::run(std::env::args_os(), terminal, &mut out, &mut err) {
        Outcome::Ended(status) => status.into(),
        Outcome::Window(file) => match snugdown::app::run(file.as_deref()) {
            Ok(()) => ExitCode::SUCCESS,
            Err(reason) => {
                writeln!(err, "snugdown: {reason}").ok();
                ExitCode::from(2)
            }
        },
    }
}
