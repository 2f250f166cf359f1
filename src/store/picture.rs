//! Photos and scans on disk: PNG and JPEG, turned upright as their rotation tag says.

use std::fmt::Write as _;
use std::fs::File;
use std::io::{Cursor, Read as _};
use std::path::Path;

use image::{DynamicImage, ImageDecoder as _, ImageFormat, ImageReader};
use sha2::{Digest as _, Sha256};

use crate::geometry::survey::Raster;

/// Bytes of a picture's file, at most.
const MOST_BYTES: usize = 64 * 1024 * 1024;

/// Pixels to a side, at most: phones make up to 16,000.
const MOST_PIXELS: u32 = 20_000;

/// A picture that was read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Picture {
    /// Upright.
    pub raster: Raster,
    /// The SHA-256 of the file's bytes, in small hexadecimal letters.
    pub sha256: String,
}

/// Why a picture was not read.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum PictureError {
    /// The operating system said no.
    #[error("cannot be read: {0}")]
    Unopened(String),

    /// The file is too large.
    #[error("the picture's file is larger than {} MB: save it smaller", MOST_BYTES / 1024 / 1024)]
    TooLarge,

    /// Another format, or broken.
    #[error("this is no PNG or JPEG that can be read: {0}")]
    Unreadable(String),
}

/// Reads a picture from a file.
pub fn read(path: &Path) -> Result<Picture, PictureError> {
    let mut bytes = Vec::new();
    // One byte more than the limit is enough for the limit to be noticed.
    File::open(path)
        .and_then(|file| file.take(MOST_BYTES as u64 + 1).read_to_end(&mut bytes))
        .map_err(|error| PictureError::Unopened(error.to_string()))?;
    decode(&bytes)
}

/// Reads a picture from the bytes of its file.
pub fn decode(bytes: &[u8]) -> Result<Picture, PictureError> {
    if bytes.len() > MOST_BYTES {
        return Err(PictureError::TooLarge);
    }
    let unreadable = |error: &dyn std::fmt::Display| PictureError::Unreadable(error.to_string());
    let mut reader = ImageReader::new(Cursor::new(bytes))
        .with_guessed_format()
        .map_err(|error| unreadable(&error))?;
    if !matches!(reader.format(), Some(ImageFormat::Png | ImageFormat::Jpeg)) {
        return Err(unreadable(&"it is of another kind"));
    }
    let mut limits = image::Limits::default();
    limits.max_image_width = Some(MOST_PIXELS);
    limits.max_image_height = Some(MOST_PIXELS);
    reader.limits(limits);
    let mut decoder = reader.into_decoder().map_err(|error| unreadable(&error))?;
    let orientation = decoder.orientation().map_err(|error| unreadable(&error))?;
    let mut image = DynamicImage::from_decoder(decoder).map_err(|error| unreadable(&error))?;
    image.apply_orientation(orientation);
    let image = image.into_rgba8();
    let (width, height) = (image.width() as usize, image.height() as usize);
    let raster = Raster::new(width, height, image.into_raw())
        .ok_or_else(|| unreadable(&"it has no pixels"))?;
    let mut sha256 = String::with_capacity(64);
    for byte in Sha256::digest(bytes) {
        write!(sha256, "{byte:02x}").ok();
    }
    Ok(Picture { raster, sha256 })
}

#[cfg(test)]
mod tests {
    use super::*;
    use image::codecs::jpeg::JpegEncoder;
    use image::{ExtendedColorType, ImageEncoder as _};
    use proptest::prelude::*;

    /// 32 by 16 pixels: the left half white, the right half black.
    fn jpeg() -> Vec<u8> {
        let pixels: Vec<u8> = (0..32 * 16)
            .flat_map(|i| if i % 32 < 16 { [255; 3] } else { [0; 3] })
            .collect();
        let mut bytes = Vec::new();
        JpegEncoder::new_with_quality(&mut bytes, 95)
            .write_image(&pixels, 32, 16, ExtendedColorType::Rgb8)
            .unwrap();
        bytes
    }

    /// The same with an Exif block whose only tag is the orientation (CIPA DC-008, tag 0x0112).
    fn tagged(orientation: u8) -> Vec<u8> {
        let plain = jpeg();
        let mut exif = b"Exif\0\0MM\0\x2a\0\0\0\x08\0\x01\x01\x12\0\x03\0\0\0\x01\0".to_vec();
        exif.push(orientation);
        exif.extend([0, 0, 0, 0, 0, 0]);
        let length = u16::try_from(exif.len() + 2).unwrap().to_be_bytes();
        let mut bytes = plain[..2].to_vec();
        bytes.extend([0xff, 0xe1]);
        bytes.extend(length);
        bytes.extend(exif);
        bytes.extend(&plain[2..]);
        bytes
    }

    fn brightness(raster: &Raster, column: usize, row: usize) -> u8 {
        raster.rgba()[4 * (row * raster.width() + column)]
    }

    #[test]
    fn the_rotation_tag_is_obeyed() {
        let plain = decode(&jpeg()).unwrap().raster;
        assert_eq!((plain.width(), plain.height()), (32, 16));
        assert!(brightness(&plain, 4, 8) > 200 && brightness(&plain, 28, 8) < 60);
        // 6: turned by a quarter with the clock to be upright, so that the left half comes to lie on top.
        let turned = decode(&tagged(6)).unwrap().raster;
        assert_eq!((turned.width(), turned.height()), (16, 32));
        assert!(brightness(&turned, 8, 4) > 200 && brightness(&turned, 8, 28) < 60);
        let upside_down = decode(&tagged(3)).unwrap().raster;
        assert!(brightness(&upside_down, 4, 8) < 60 && brightness(&upside_down, 28, 8) > 200);
    }

    /// The digest of `abc` is that of FIPS 180-4's example; of a file, that of its bytes.
    #[test]
    fn the_digest_is_that_of_the_bytes() {
        let digest = Sha256::digest(b"abc");
        assert_eq!(digest[..4], [0xba, 0x78, 0x16, 0xbf]);
        let picture = decode(&jpeg()).unwrap();
        assert_eq!(picture.sha256.len(), 64);
        assert_ne!(picture.sha256, decode(&tagged(1)).unwrap().sha256);
    }

    #[test]
    fn what_is_no_picture_is_told() {
        for bytes in [&b""[..], b"GIF89a", b"\x89PNG\r\n\x1a\n", b"\xff\xd8\xff"] {
            assert!(
                matches!(decode(bytes), Err(PictureError::Unreadable(_))),
                "{bytes:?}"
            );
        }
    }

    proptest! {
        #![proptest_config(ProptestConfig { cases: 60, ..ProptestConfig::default() })]

        /// Broken pictures are read or told.
        #[test]
        fn broken_pictures_never_panic(at in any::<usize>(), byte in any::<u8>(), cut in any::<usize>()) {
            let mut bytes = tagged(8);
            let n = bytes.len();
            bytes[at % n] = byte;
            bytes.truncate(n - cut % 40);
            decode(&bytes).ok();
        }
    }
}
