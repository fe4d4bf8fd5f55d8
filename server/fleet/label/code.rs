//! A QR code as the path of an SVG. The content security policy lets no inline style through and needs none here: the
//! drawing carries its colours and its quiet zone itself, so no dark theme and no frame can spoil it.

use crate::web::error::Error;
use qrcodegen::{QrCode, QrCodeEcc};
use std::fmt::Write;

/// Light modules around the code, without which readers do not find it (ISO/IEC 18004: four).
pub const QUIET_ZONE: i32 = 4;

/// A code to draw: one unit per module.
#[derive(Clone, Debug)]
pub struct Code {
    /// Modules on a side, the quiet zone on both sides with them.
    pub side: i32,
    /// The dark modules, row by row.
    pub path: String,
    /// What it opens, for those who do not see it.
    pub says: String,
}

impl Code {
    /// The code of an address. A quarter of it may be lost to dust and scratches before it cannot be read.
    ///
    /// # Errors
    /// For an address that is longer than a code can hold.
    pub fn of(address: &str, says: impl Into<String>) -> Result<Self, Error> {
        let code = QrCode::encode_text(address, QrCodeEcc::Quartile).map_err(Error::broken)?;
        Ok(Self { side: code.size() + 2 * QUIET_ZONE, path: path(&code), says: says.into() })
    }
}

/// Neighbours in a row are one rectangle: drawn module by module, hairs of paper would show between them.
fn path(code: &QrCode) -> String {
    let mut path = String::new();
    for y in 0..code.size() {
        let mut x = 0;
        while x < code.size() {
            let length = (x..code.size()).take_while(|x| code.get_module(*x, y)).count();
            let length = i32::try_from(length).unwrap_or(0);
            if length > 0 {
                // Writing to a String cannot fail.
                let _ = write!(path, "M{} {}h{length}v1h-{length}z", x + QUIET_ZONE, y + QUIET_ZONE);
            }
            x += length.max(1);
        }
    }
    path
}
