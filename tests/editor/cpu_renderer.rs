//! Paints egui's triangles on the CPU, so that pictures of the window need no graphics card and are the
//! same on every machine.

use std::collections::BTreeMap;

use egui::epaint::{ImageData, Primitive, Vertex};
use egui::{Color32, TextureId};
use egui_kittest::TestRenderer;
use image::RgbaImage;

/// A texture: width, height, pixels.
type Texture = (usize, usize, Vec<Color32>);

/// See the module.
#[derive(Default)]
pub(crate) struct CpuRenderer {
    textures: BTreeMap<TextureId, Texture>,
}

impl TestRenderer for CpuRenderer {
    fn handle_delta(&mut self, delta: &mut egui::TexturesDelta) {
        // Drained, as egui panics on deltas that were never applied.
        for (id, images) in delta.set.drain() {
            for change in images {
                let ImageData::Color(image) = &change.image;
                let [width, height] = image.size;
                match change.pos {
                    None => {
                        let texture = (width, height, image.pixels.clone());
                        self.textures.insert(id, texture);
                    }
                    Some([x0, y0]) => {
                        let (all, _, pixels) = self.textures.get_mut(&id).unwrap();
                        for y in 0..height {
                            pixels[(y0 + y) * *all + x0..][..width]
                                .copy_from_slice(&image.pixels[y * width..][..width]);
                        }
                    }
                }
            }
        }
        for id in delta.free.drain() {
            self.textures.remove(&id);
        }
    }

    fn render(
        &mut self,
        ctx: &egui::Context,
        output: &egui::FullOutput,
    ) -> Result<RgbaImage, String> {
        let scale = output.pixels_per_point;
        let size = ctx.content_rect().size() * scale;
        let (width, height) = (size.x.round() as usize, size.y.round() as usize);
        let mut pixels = vec![[0_u8; 4]; width * height];
        for part in ctx.tessellate(output.shapes.clone(), scale) {
            let Primitive::Mesh(mesh) = part.primitive else {
                return Err("a paint callback".into());
            };
            let clip = part.clip_rect * scale;
            let edge = |value: f32, most: usize| (value.round().max(0.0) as i64).min(most as i64);
            let clip = [
                edge(clip.min.x, width),
                edge(clip.min.y, height),
                edge(clip.max.x, width),
                edge(clip.max.y, height),
            ];
            let texture = self
                .textures
                .get(&mesh.texture_id)
                .ok_or("unknown texture")?;
            for corners in mesh.indices.chunks_exact(3) {
                let corners = [0, 1, 2].map(|k| mesh.vertices[corners[k] as usize]);
                triangle(&mut pixels, width, clip, texture, scale, corners);
            }
        }
        let image = RgbaImage::from_raw(width as u32, height as u32, pixels.into_flattened());
        image.ok_or_else(|| "size".into())
    }
}

/// One triangle: 1/256 of a pixel in fixed point, top-left fill rule, bilinear texture, premultiplied
/// colours laid over in gamma space, as egui's own painters do.
fn triangle(
    out: &mut [[u8; 4]],
    width: usize,
    clip: [i64; 4],
    (texture_width, texture_height, texels): &Texture,
    scale: f32,
    mut corners: [Vertex; 3],
) {
    let fixed = |p: egui::Pos2| {
        (
            (p.x * scale * 256.0).round() as i64,
            (p.y * scale * 256.0).round() as i64,
        )
    };
    let mut p = corners.map(|corner| fixed(corner.pos));
    let cross = |a: (i64, i64), b: (i64, i64), c: (i64, i64)| {
        (b.0 - a.0) * (c.1 - a.1) - (b.1 - a.1) * (c.0 - a.0)
    };
    let mut area = cross(p[0], p[1], p[2]);
    if area == 0 {
        return;
    }
    if area < 0 {
        corners.swap(1, 2);
        p.swap(1, 2);
        area = -area;
    }
    let least = |f: fn(&(i64, i64)) -> i64| p.iter().map(f).min().unwrap() >> 8;
    let most = |f: fn(&(i64, i64)) -> i64| (p.iter().map(f).max().unwrap() >> 8) + 1;
    let (x0, x1) = (least(|q| q.0).max(clip[0]), most(|q| q.0).min(clip[2]));
    let (y0, y1) = (least(|q| q.1).max(clip[1]), most(|q| q.1).min(clip[3]));
    // An edge owns its pixels if it is a left or a top one.
    let bias = |a: (i64, i64), b: (i64, i64)| {
        if b.1 < a.1 || (b.1 == a.1 && b.0 > a.0) {
            0
        } else {
            -1
        }
    };
    let owned = [bias(p[1], p[2]), bias(p[2], p[0]), bias(p[0], p[1])];
    let texel = |x: f32, y: f32, channel: usize| {
        let x = x.clamp(0.0, *texture_width as f32 - 1.0) as usize;
        let y = y.clamp(0.0, *texture_height as f32 - 1.0) as usize;
        f32::from(texels[y * texture_width + x].to_array()[channel])
    };
    let sample = |u: f32, v: f32| -> [f32; 4] {
        let x = u * *texture_width as f32 - 0.5;
        let y = v * *texture_height as f32 - 0.5;
        let (left, top) = (x.floor(), y.floor());
        let (right_share, bottom_share) = (x - left, y - top);
        std::array::from_fn(|c| {
            let row = |y: f32| {
                texel(left, y, c) * (1.0 - right_share) + texel(left + 1.0, y, c) * right_share
            };
            (row(top) * (1.0 - bottom_share) + row(top + 1.0) * bottom_share) / 255.0
        })
    };
    let uv = corners.map(|corner| corner.uv);
    let flat = (uv[0] == uv[1] && uv[1] == uv[2]).then(|| sample(uv[0].x, uv[0].y));
    let color = corners.map(|corner| corner.color.to_array().map(f32::from));
    for y in y0..y1 {
        for x in x0..x1 {
            let q = (x * 256 + 128, y * 256 + 128);
            let e = [
                cross(p[1], p[2], q),
                cross(p[2], p[0], q),
                cross(p[0], p[1], q),
            ];
            if (0..3).any(|k| e[k] + owned[k] < 0) {
                continue;
            }
            let share = e.map(|e| e as f32 / area as f32);
            let mix = |f: &dyn Fn(usize) -> f32| (0..3).map(|k| share[k] * f(k)).sum::<f32>();
            let texel = flat.unwrap_or_else(|| sample(mix(&|k| uv[k].x), mix(&|k| uv[k].y)));
            let source: [f32; 4] = std::array::from_fn(|c| mix(&|k| color[k][c]) * texel[c]);
            let pixel = &mut out[y as usize * width + x as usize];
            for c in 0..4 {
                let under = f32::from(pixel[c]) * (1.0 - source[3] / 255.0);
                pixel[c] = (source[c] + under).round().clamp(0.0, 255.0) as u8;
            }
        }
    }
}
