use std::panic::{self, AssertUnwindSafe};
use std::path::Path;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

use super::file_dialogs::DesktopChooser;
use super::{Editor, keeping, theme, words};

/// Fonts and the like, before the first frame.
pub fn prepare(ctx: &egui::Context) {
    ctx.set_fonts(theme::fonts());
    // Ctrl with plus and minus sets the text size, see the table of actions.
    ctx.options_mut(|options| options.zoom_with_keyboard = false);
}

/// The editor as a window of the desktop.
struct Window(Editor);

impl eframe::App for Window {
    fn ui(&mut self, ui: &mut egui::Ui, _frame: &mut eframe::Frame) {
        self.0.ui(ui);
    }
}

/// Opens the window and stays until it is closed: on a file, or on the badly stowed demonstration boat.
///
/// # Errors
///
/// One line that says why there is no window, and how to do without one.
pub fn run(plan_path: Option<&Path>) -> Result<(), String> {
    let mut editor = match plan_path {
        Some(path) => Editor::open(path).map_err(|err| err.to_string())?,
        None => Editor::demonstration(),
    };
    editor.try_cures_ahead();
    editor.choose_files_with(Box::new(DesktopChooser::new()));
    if let Some(folder) = keeping::usual_folder() {
        editor.keep_in(folder);
    }
    show(editor).map_err(|reason| {
        format!("cannot open a window: {reason}; without one, use: snugdown check FILE")
    })
}

fn show(editor: Editor) -> Result<(), String> {
    let viewport = egui::ViewportBuilder::default()
        .with_title(words::PROGRAM)
        .with_app_id("snugdown")
        // With its title it fits a screen of 1280 by 800: the cautions stand in its last line.
        .with_inner_size([1280.0, 748.0])
        .with_min_inner_size([900.0, 560.0])
        .with_drag_and_drop(true);
    let options = eframe::NativeOptions {
        viewport,
        dithering: false,
        ..Default::default()
    };
    // A library that is missing makes winit panic rather than say so: until the window is up, a panic
    // is taken as the reason why there is none.
    let started = Arc::new(AtomicBool::new(false));
    let (flag, old_hook) = (Arc::clone(&started), panic::take_hook());
    panic::set_hook(Box::new(move |info| {
        if flag.load(Ordering::Relaxed) {
            old_hook(info);
        }
    }));
    let flag = Arc::clone(&started);
    let result = panic::catch_unwind(AssertUnwindSafe(|| {
        eframe::run_native(
            "snugdown",
            options,
            Box::new(move |creation| {
                flag.store(true, Ordering::Relaxed);
                prepare(&creation.egui_ctx);
                Ok(Box::new(Window(editor)))
            }),
        )
    }));
    match result {
        Ok(Ok(())) => Ok(()),
        Ok(Err(err)) => Err(one_line(&err)),
        Err(payload) if !started.load(Ordering::Relaxed) => Err(text_of(payload.as_ref())),
        Err(payload) => panic::resume_unwind(payload),
    }
}

fn one_line(err: &eframe::Error) -> String {
    match err {
        eframe::Error::WinitEventLoop(err) => {
            // The text begins with a place in the library's source.
            let text = err.to_string();
            let reason = text.rsplit(": ").next().unwrap_or_default();
            format!("no usable display ({})", reason.trim_end_matches('.'))
        }
        eframe::Error::NoGlutinConfigs(..)
        | eframe::Error::Glutin(_)
        | eframe::Error::OpenGL(_) => {
            "this display offers no OpenGL 2.1; install Mesa (libgl1, libegl1)".to_owned()
        }
        err => err
            .to_string()
            .lines()
            .next()
            .unwrap_or_default()
            .to_owned(),
    }
}

fn text_of(payload: &(dyn std::any::Any + Send)) -> String {
    let owned = payload.downcast_ref::<String>().cloned();
    let text = owned.or_else(|| {
        payload
            .downcast_ref::<&str>()
            .map(|text| (*text).to_owned())
    });
    text.and_then(|text| text.lines().next().map(str::to_owned))
        .unwrap_or_else(|| "the display library gave up".to_owned())
}
