//! Percentages on their way out: a JSON number with the digits that were entered, since "94.0" claims more than "94".

use crate::web::error::Error;
use serde_json::Number;

/// The stored percentage as a number.
///
/// # Errors
/// When it is not what this program writes.
pub fn stored_if(entered: Option<&str>) -> Result<Option<Number>, Error> {
    entered.map(|text| text.parse().map_err(|_| Error::inconsistent("a percentage", text))).transpose()
}
