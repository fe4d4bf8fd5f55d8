//! What surrounds a catch: the air, how full the tank was, the place, who checked it, and by which known mass its scale is traced to a standard.
//! None of it enters the computation; it is what somebody needs who does the work again or doubts it.

use super::stored::Row;
use crate::access::{Scope, Units};
use crate::db::Cx;
use crate::fleet::scale::act as scale;
use crate::web::error::Error;
use crate::web::form::{FormField, Kind};
use crate::web::reader::Reader;
use sowmark_core::ids::ScaleId;
use sowmark_core::say;

/// The fields of the sheet, folded away: most catches are made without them.
pub(super) fn fields(reader: Reader) -> Vec<FormField> {
    let words = reader.words;
    let degrees = if reader.units == Units::Us { ["°F", "°C"] } else { ["°C", "°F"] };
    let fields = [
        FormField::new("air_temperature", say!(words, "around-air-temperature")).measured(&degrees, degrees[0]),
        FormField::new("relative_humidity_percent", say!(words, "around-humidity-percent")).kind(Kind::Number),
        FormField::new("tank_fill_percent", say!(words, "around-tank-fill-percent"))
            .hint(say!(words, "around-tank-fill-hint"))
            .kind(Kind::Number),
        FormField::new("place", say!(words, "around-place")).hint(say!(words, "around-place-hint")),
        FormField::new("checked_by", say!(words, "around-checked-by")).hint(say!(words, "around-checked-by-hint")),
    ];
    fields.into_iter().map(|field| field.optional().folded()).collect()
}

/// What is known of it, each with its name, for the record.
pub(super) async fn facts(
    cx: &mut Cx<'_>,
    scope: &Scope,
    row: &Row,
    reader: Reader,
) -> Result<Vec<(String, String)>, Error> {
    let words = reader.words;
    let air = row.air_temperature.as_deref().map(|air| reader.measured(air));
    let percent = |share: &Option<String>| share.as_deref().map(|share| format!("{} %", words.decimal(share)));
    let (identity, certificate) = match row.scale_id {
        Some(scale) => known_mass(cx, scope, scale.into(), row.head.occurred_at).await?,
        None => (None, None),
    };
    let facts = [
        ("around-air-temperature", air),
        ("around-humidity", percent(&row.relative_humidity_percent)),
        ("around-tank-fill", percent(&row.tank_fill_percent)),
        ("around-place", row.place.clone()),
        ("around-checked-by", row.checked_by.clone()),
        ("around-known-mass", identity),
        ("around-certificate", certificate),
    ];
    Ok(facts.into_iter().filter_map(|(key, says)| Some((say!(words, key), says?))).collect())
}

/// The known mass of the scale's last check before a moment, and its certificate.
async fn known_mass(
    cx: &mut Cx<'_>,
    scope: &Scope,
    id: ScaleId,
    at: i64,
) -> Result<(Option<String>, Option<String>), Error> {
    let last = scale::last_check(cx, scope, id, at).await?;
    Ok(last.map_or((None, None), |check| (check.reference_identity, check.certificate)))
}
