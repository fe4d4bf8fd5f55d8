//! What stands in each column of a list: its heading with the unit, and how a row's cell is found.
//!
//! A measured value has two columns: converted to the heading's unit, so that a spreadsheet can compute with it, and as it
//! was entered, because that is what was measured.

use super::out::Way;
use crate::access::{Scope, Units};
use crate::records::head::Head;
use crate::web::error::Error;
use sowmark_core::quantity::unit::{self, dimension};
use sowmark_core::quantity::{Dimension, Quantity, Temperature, Unit, from_si, print_number};

/// Digits of what was computed or converted: more than any measurement supports, so that nothing is lost on the way.
const DIGITS: usize = 12;

/// A cell.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Cell {
    Nothing,
    Text(String),
    /// Digits with a decimal point.
    Number(String),
}

impl Cell {
    fn text(text: Option<String>) -> Self {
        text.filter(|text| !text.is_empty()).map_or(Self::Nothing, Self::Text)
    }

    fn number(digits: Option<String>) -> Self {
        digits.map_or(Self::Nothing, Self::Number)
    }
}

/// The unit that a list is written in.
pub trait Columned: Dimension {
    const METRIC: Unit<Self>;
    const US: Unit<Self>;

    /// By the reader's units.
    #[must_use]
    fn shown(units: Units) -> Unit<Self> {
        if units == Units::Us { Self::US } else { Self::METRIC }
    }
}

macro_rules! columned {
    ($($dimension:ident: $metric:ident, $us:ident;)*) => { $(
        impl Columned for dimension::$dimension {
            const METRIC: Unit<Self> = unit::$metric;
            const US: Unit<Self> = unit::$us;
        }
    )* };
}

columned! {
    Mass: KG, LB;
    Area: HA, AC;
    Rate: KG_PER_HA, LB_PER_AC;
    Speed: KM_PER_H, MPH;
    SeedWeight: G_PER_THOUSAND, G_PER_THOUSAND;
    BulkDensity: KG_PER_HL, LB_PER_BU;
    Volume: CM3, CM3;
    MeterFactor: KG_PER_REV, LB_PER_100REV;
    Length: M, FT;
}

/// What was entered, as digits of another unit. In its own unit it keeps its own digits.
pub(super) fn converted<D: Columned>(entered: &str, units: Units) -> Result<String, Error> {
    let quantity = Quantity::<D>::from_entered(entered).map_err(|_| Error::inconsistent("a quantity", entered))?;
    let shown = D::shown(units);
    if quantity.unit() == shown.name() && quantity.parts().is_none() {
        return Ok(quantity.value_text().to_owned());
    }
    Ok(digits(from_si(quantity.si(), shown)))
}

/// Why a record is void. A record whose reason is withheld says so: an empty cell would make it one that stands.
fn told_void(head: &Head, scope: &Scope) -> Option<String> {
    let reason = head.void_reason.as_ref()?;
    Some(head.told(reason, scope).unwrap_or("withheld").to_owned())
}

/// A computed number without zeros at its end.
pub(super) fn digits(value: f64) -> String {
    let text = print_number(value, DIGITS);
    if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_owned() } else { text }
}

type Read<'a, R> = Box<dyn Fn(&R) -> Result<Cell, Error> + Send + Sync + 'a>;

/// The columns of a list.
pub struct Sheet<'a, R> {
    units: Units,
    columns: Vec<(String, Read<'a, R>)>,
}

impl<R> std::fmt::Debug for Sheet<'_, R> {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_list().entries(self.headings()).finish()
    }
}

impl<'a, R: 'a> Sheet<'a, R> {
    /// A list without columns yet.
    #[must_use]
    pub fn new(way: &Way) -> Self {
        Self { units: way.units, columns: Vec::new() }
    }

    fn column(mut self, heading: String, read: impl Fn(&R) -> Result<Cell, Error> + Send + Sync + 'a) -> Self {
        self.columns.push((heading, Box::new(read)));
        self
    }

    /// Words.
    #[must_use]
    pub fn text(self, heading: &str, read: impl Fn(&R) -> Option<String> + Send + Sync + 'a) -> Self {
        self.column(heading.to_owned(), move |row| Ok(Cell::text(read(row))))
    }

    /// A number that stands as it was entered, or a count.
    #[must_use]
    pub fn number(self, heading: &str, read: impl Fn(&R) -> Option<String> + Send + Sync + 'a) -> Self {
        self.column(heading.to_owned(), move |row| Ok(Cell::number(read(row))))
    }

    /// Something computed, in the heading's own unit.
    #[must_use]
    pub fn plain(self, heading: &str, read: impl Fn(&R) -> Option<f64> + Send + Sync + 'a) -> Self {
        self.column(heading.to_owned(), move |row| {
            Ok(Cell::number(read(row).filter(|value| value.is_finite()).map(digits)))
        })
    }

    /// Something computed, given in SI.
    #[must_use]
    pub fn computed<D: Columned>(self, name: &str, read: impl Fn(&R) -> Option<f64> + Send + Sync + 'a) -> Self {
        let unit = D::shown(self.units);
        self.plain(&format!("{name} [{unit}]"), move |row| read(row).map(|si| from_si(si, unit)))
    }

    /// A measured value: converted, and as entered.
    #[must_use]
    pub fn measured<D: Columned>(
        self,
        name: &str,
        read: impl for<'r> Fn(&'r R) -> Option<&'r str> + Clone + Send + Sync + 'a,
    ) -> Self {
        let (units, entered) = (self.units, read.clone());
        self.column(format!("{name} [{}]", D::shown(units)), move |row| {
            Ok(Cell::number(read(row).map(|text| converted::<D>(text, units)).transpose()?))
        })
        .text(&format!("{name}_as_entered"), move |row| entered(row).map(str::to_owned))
    }

    /// A temperature: converted, and as entered.
    #[must_use]
    pub fn temperature(
        self,
        name: &str,
        read: impl for<'r> Fn(&'r R) -> Option<&'r str> + Clone + Send + Sync + 'a,
    ) -> Self {
        let (us, entered) = (self.units == Units::Us, read.clone());
        let unit = if us { "°F" } else { "°C" };
        self.column(format!("{name} [{unit}]"), move |row| {
            let Some(text) = read(row) else { return Ok(Cell::Nothing) };
            let read = Temperature::from_entered(text).map_err(|_| Error::inconsistent("a temperature", text))?;
            let own = (read.unit() == unit).then(|| read.value_text().to_owned());
            let converted = || digits(if us { read.fahrenheit() } else { read.celsius() });
            Ok(Cell::Number(own.unwrap_or_else(converted)))
        })
        .text(&format!("{name}_as_entered"), move |row| entered(row).map(str::to_owned))
    }

    /// What every record carries, for who asks.
    #[must_use]
    pub fn head(self, scope: &'a Scope, head: impl for<'r> Fn(&'r R) -> &'r Head + Clone + Send + Sync + 'a) -> Self {
        let of = || head.clone();
        let (id, when, recorded, by, corrects, replaced, void) = (of(), of(), of(), of(), of(), of(), of());
        self.text("id", move |row| Some(id(row).id.to_string()))
            .text("occurred_at", move |row| Some(when(row).stamp().rfc3339()))
            .text("recorded_at", move |row| Some(recorded(row).recorded().to_string()))
            .text("recorded_by", move |row| by(row).recorded_by_name.clone())
            .text("corrects", move |row| corrects(row).corrects.map(|id| id.to_string()))
            .text("replaced_by", move |row| replaced(row).replaced_by.map(|id| id.to_string()))
            .text("void", move |row| told_void(void(row), scope))
    }

    /// The headings, in order.
    pub fn headings(&self) -> impl Iterator<Item = &str> {
        self.columns.iter().map(|(heading, _)| heading.as_str())
    }

    /// The cells of a row, in order.
    ///
    /// # Errors
    /// A row that this program never writes.
    pub fn cells(&self, row: &R) -> Result<Vec<Cell>, Error> {
        self.columns.iter().map(|(_, read)| read(row)).collect()
    }
}
