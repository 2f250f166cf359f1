//! Pages of paper as pictures of the window, each drawn once.

use std::collections::BTreeMap;

use egui::{ColorImage, Context, TextureHandle, TextureOptions};

use crate::sheet::{Page, Picture};

/// Pages that were drawn, by what they are and how many pixels wide.
#[derive(Default)]
pub(crate) struct PagePictures(BTreeMap<(String, u32), TextureHandle>);

impl std::fmt::Debug for PagePictures {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_set().entries(self.0.keys()).finish()
    }
}

impl PagePictures {
    /// A page as a picture of a width in pixels; the name stands for what is on it.
    pub(crate) fn of(
        &mut self,
        ctx: &Context,
        name: &str,
        wide: u32,
        page: impl FnOnce() -> Page,
    ) -> TextureHandle {
        let key = (name.to_owned(), wide);
        if let Some(drawn) = self.0.get(&key) {
            return drawn.clone();
        }
        let page = page();
        let picture = Picture::of(&page, f64::from(wide) / page.paper.width_mm());
        let image = ColorImage::from_gray([picture.width, picture.height], &picture.grey);
        let drawn = ctx.load_texture(name, image, TextureOptions::LINEAR);
        self.0.insert(key, drawn.clone());
        drawn
    }
}
