//! A short hash of values, stable across machines and versions.

/// FNV-1a, 64 bit (Fowler, Noll, Vo; offset and prime as published on isthe.com).
#[derive(Debug, Clone, Copy)]
pub(super) struct Fingerprint(u64);

impl Default for Fingerprint {
    fn default() -> Self {
        Self(0xcbf2_9ce4_8422_2325)
    }
}

impl Fingerprint {
    /// Adds a text and an end mark, so that "ab", "c" differs from "a", "bc".
    pub(super) fn add(&mut self, text: &str) {
        for byte in text.bytes().chain([0]) {
            self.0 = (self.0 ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3);
        }
    }

    /// Twelve hexadecimal digits.
    pub(super) fn text(self) -> String {
        format!("{:012x}", (self.0 ^ (self.0 >> 48)) & 0xffff_ffff_ffff)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_hash_is_the_published_one() {
        // FNV-1a of "foobar" without the end mark is 85944171f73967e8 (published test vector).
        let mut hash = Fingerprint::default();
        for byte in "foobar".bytes() {
            hash.0 = (hash.0 ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3);
        }
        assert_eq!(hash.0, 0x8594_4171_f739_67e8);
    }

    #[test]
    fn where_a_text_ends_matters() {
        let of = |texts: &[&str]| {
            let mut fingerprint = Fingerprint::default();
            for text in texts {
                fingerprint.add(text);
            }
            fingerprint.text()
        };
        assert_ne!(of(&["ab", "c"]), of(&["a", "bc"]));
        assert_eq!(of(&["ab", "c"]).len(), 12);
    }
}
