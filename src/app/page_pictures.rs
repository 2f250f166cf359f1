//! Pages of paper as pictures of the window, each drawn once, beside the window.

use std::collections::BTreeMap;
use std::sync::Arc;

use egui::{ColorImage, Context, Image, ScrollArea, TextureHandle, TextureOptions, Ui, Vec2, vec2};

use super::renewed::Renewed;
use super::words::page_pictures as words;
use crate::sheet::{Page, Picture};
use crate::store::Watch;

/// The widest a page is drawn, in pixels.
const WIDEST: f32 = 1400.0;

/// The widest a page of paper is shown, in points.
const WIDEST_PAGE: f32 = 1000.0;

/// Of what a picture is: how often what is on it changed, and how many pixels wide it is.
type Of = (u64, u32);

/// Pages that were drawn, by what they are.
#[derive(Default)]
pub(crate) struct PagePictures(BTreeMap<String, Renewed<Of, TextureHandle>>);

impl std::fmt::Debug for PagePictures {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_set().entries(self.0.keys()).finish()
    }
}

impl PagePictures {
    /// A page as a picture of a width in pixels; the name stands for what it is, the edition for what is on it.
    /// Nothing while it is drawn for the first time.
    pub(crate) fn of<P: FnOnce() -> Page + Send + 'static>(
        &mut self,
        ctx: &Context,
        (name, edition): (&str, u64),
        wide: u32,
        page: impl FnOnce() -> P,
    ) -> Option<TextureHandle> {
        let picture = self.0.entry(name.to_owned()).or_default();
        picture.want(ctx, "page picture", &(edition, wide), || {
            let (ctx, name, page) = (ctx.clone(), name.to_owned(), page());
            move |_: &Watch| {
                let page = page();
                let picture = Picture::of(&page, f64::from(wide) / page.paper.width_mm());
                let image = ColorImage::from_gray([picture.width, picture.height], &picture.grey);
                ctx.load_texture(name, image, TextureOptions::LINEAR)
            }
        });
        picture.shown().map(|(_, drawn)| drawn.clone())
    }

    /// Shows a page as wide as there is room, up to a width in points, under a name for who cannot see it.
    pub(crate) fn show<P: FnOnce() -> Page + Send + 'static>(
        &mut self,
        ui: &mut Ui,
        of: (&str, u64),
        (told, widest): (&str, f32),
        page: impl FnOnce() -> P,
    ) {
        let (wide, pixels) = width_of(ui, widest);
        let picture = self.of(&ui.ctx().clone(), of, pixels, page);
        let size = picture.as_ref().map_or(vec2(wide, wide), |picture| {
            let size = picture.size_vec2();
            vec2(wide, wide * size.y / size.x.max(1.0))
        });
        picture_ui(ui, picture.as_ref(), size, told);
    }

    /// Shows one of the pages of something, under its own name and edition. The one behind it is drawn ahead; those
    /// further off are let go, as a full boat has dozens.
    pub(crate) fn show_page(
        &mut self,
        ui: &mut Ui,
        (pages, index): (&Arc<Vec<Page>>, usize),
        (what, edition): (&str, u64),
        told: &str,
    ) {
        let page = |index: usize| {
            let pages = Arc::clone(pages);
            move || move || pages[index].clone()
        };
        let name = |index: usize| format!("{what} {index} {:?}", pages[index].paper);
        let near = index.saturating_sub(1)..(index + 2).min(pages.len());
        let near: Vec<String> = near.map(name).collect();
        self.0.retain(|name, _| near.contains(name));
        ScrollArea::vertical().show(ui, |ui| {
            if index < pages.len() {
                let told = (told, WIDEST_PAGE);
                self.show(ui, (&name(index), edition), told, page(index));
            }
            let next = index + 1;
            if next < pages.len() && !self.is_busy() {
                let (_, pixels) = width_of(ui, WIDEST_PAGE);
                let ctx = ui.ctx().clone();
                self.of(&ctx, (&name(next), edition), pixels, page(next));
            }
        });
    }

    /// Takes in what was drawn since.
    pub(crate) fn collect(&mut self) {
        for picture in self.0.values_mut() {
            picture.collect();
        }
    }

    /// Is one being drawn?
    pub(crate) fn is_busy(&self) -> bool {
        self.0.values().any(Renewed::is_busy)
    }
}

/// How wide a page is shown where there is this much room, in points, and drawn, in pixels.
fn width_of(ui: &Ui, widest: f32) -> (f32, u32) {
    let wide = (ui.available_width() - 16.0).clamp(200.0, widest);
    let pixels = (wide * ui.ctx().pixels_per_point()).clamp(200.0, WIDEST);
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a width in pixels, clamped"
    )]
    let pixels = pixels as u32;
    (wide, pixels)
}

/// A picture of this size in points, or a frame of it while there is none.
pub(crate) fn picture_ui(ui: &mut Ui, picture: Option<&TextureHandle>, size: Vec2, told: &str) {
    let Some(picture) = picture else {
        let (place, response) = ui.allocate_exact_size(size, egui::Sense::hover());
        let visuals = ui.visuals();
        let line = visuals.widgets.noninteractive.bg_stroke;
        let (colour, font) = (visuals.weak_text_color(), egui::FontId::proportional(17.0));
        ui.painter()
            .rect_stroke(place, 0.0, line, egui::StrokeKind::Inside);
        let at = place.left_top() + vec2(16.0, 16.0);
        let align = egui::Align2::LEFT_TOP;
        if size.x > 200.0 {
            ui.painter().text(at, align, words::COMING, font, colour);
        }
        response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Image, true, told));
        return;
    };
    ui.add(Image::new(picture).fit_to_exact_size(size))
        .accessible_name(told);
}
