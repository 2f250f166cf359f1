//! Is there a portal on the session bus that shows file dialogs?

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::Duration;

use zbus::blocking::connection;
use zbus::blocking::fdo::{DBusProxy, PropertiesProxy};

/// The portal's name on the bus.
const NAME: &str = "org.freedesktop.portal.Desktop";

/// Where it is there, and what of it shows file dialogs.
const PATH: &str = "/org/freedesktop/portal/desktop";
const FILES: &str = "org.freedesktop.portal.FileChooser";

/// An answer of the bus is waited for no longer than this.
const PATIENCE: Duration = Duration::from_secs(3);

/// What is known of the portal.
#[derive(Clone, Debug)]
pub(super) struct Portal {
    there: Arc<AtomicBool>,
}

impl Portal {
    /// Begins to look for it beside the window; until it is found it counts as not there.
    pub(super) fn looked_for() -> Self {
        let there = Arc::new(AtomicBool::new(false));
        let told = Arc::clone(&there);
        let thread = std::thread::Builder::new().name("portal".to_owned());
        let started = thread.spawn(move || match answers() {
            Ok(answer) => told.store(answer, Ordering::Relaxed),
            Err(err) => log::info!("no portal for file dialogs: {err}"),
        });
        if let Err(err) = started {
            log::error!("the portal is not looked for: {err}");
        }
        Self { there }
    }

    /// Was it found?
    pub(super) fn is_there(&self) -> bool {
        self.there.load(Ordering::Relaxed)
    }
}

/// Does a portal show file dialogs? Waits for the bus, but not for long.
fn answers() -> zbus::Result<bool> {
    let bus = connection::Builder::session()?
        .method_timeout(PATIENCE)
        .build()?;
    let names = DBusProxy::new(&bus)?;
    let is_owned = names.name_has_owner(NAME.try_into()?)?;
    let is_it = |name: &zbus::names::OwnedBusName| name.as_str() == NAME;
    if !is_owned && !names.list_activatable_names()?.iter().any(is_it) {
        return Ok(false);
    }
    // A portal may run without anything that shows dialogs: it says which version of them it has.
    let portal = PropertiesProxy::builder(&bus)
        .destination(NAME)?
        .path(PATH)?
        .build()?;
    Ok(portal.get(FILES.try_into()?, "version").is_ok())
}
