//! The short address of a seeder: `/s/` and the end of its id, short enough to be typed with gloves off.

use uuid::Uuid;

/// How many digits of the id it has. They are random: in a fleet of a thousand two seeders share them once in ten
/// thousand fleets, and then the list of seeders is shown.
const DIGITS: usize = 8;

/// The path of a seeder's short address.
///
/// ```
/// use sowmark::fleet::label::short;
///
/// let id = "0196d2a0-0000-7000-8000-0000b0a7ba01".parse().unwrap();
/// assert_eq!(short::path(id), "/s/b0a7ba01");
/// ```
#[must_use]
pub fn path(id: Uuid) -> String {
    let id = id.simple().to_string();
    format!("/s/{}", id.get(id.len() - DIGITS..).unwrap_or_default())
}

/// Whether what was typed after `/s/` is the end of this id.
#[must_use]
pub fn is_of(typed: &str, id: Uuid) -> bool {
    typed.len() >= DIGITS && id.simple().to_string().ends_with(&typed.to_ascii_lowercase())
}
