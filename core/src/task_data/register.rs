//! What tasks refer to besides machines: customers, farms, workers, fields, products.

use serde::{Deserialize, Serialize};

use super::{elements::Node, finding::Refused};

/// First and last name, as far as they are there.
fn full_name(first: Option<&String>, last: &str) -> String {
    first.map_or_else(|| last.to_owned(), |first| format!("{first} {last}"))
}

/// Whose fields they are (`CTR`).
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Customer {
    /// Its id within the file.
    pub id: String,
    /// Last name, or the name of a business.
    pub last: String,
    /// First name.
    pub first: Option<String>,
}

impl Customer {
    pub(super) fn of(node: &Node) -> Result<Self, Refused> {
        Ok(Self { id: node.needed("A")?.to_owned(), last: node.needed("B")?.to_owned(), first: node.text("C") })
    }

    /// The whole name.
    pub fn name(&self) -> String {
        full_name(self.first.as_ref(), &self.last)
    }
}

/// A farm (`FRM`).
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Farm {
    /// Its id within the file.
    pub id: String,
    /// Its name.
    pub name: String,
    /// The id of the customer whose it is.
    pub customer: Option<String>,
}

impl Farm {
    pub(super) fn of(node: &Node) -> Result<Self, Refused> {
        Ok(Self { id: node.needed("A")?.to_owned(), name: node.needed("B")?.to_owned(), customer: node.text("I") })
    }
}

/// Somebody who worked (`WKR`).
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Worker {
    /// Their id within the file.
    pub id: String,
    /// Last name.
    pub last: String,
    /// First name.
    pub first: Option<String>,
}

impl Worker {
    pub(super) fn of(node: &Node) -> Result<Self, Refused> {
        Ok(Self { id: node.needed("A")?.to_owned(), last: node.needed("B")?.to_owned(), first: node.text("C") })
    }

    /// The whole name.
    pub fn name(&self) -> String {
        full_name(self.first.as_ref(), &self.last)
    }
}

/// A field (`PFD`).
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Field {
    /// Its id within the file.
    pub id: String,
    /// A short code that people gave it.
    pub code: Option<String>,
    /// Its name.
    pub name: String,
    /// Its area, m²; none where the file says 0.
    pub area_m2: Option<i64>,
    /// The id of the customer whose it is.
    pub customer: Option<String>,
    /// The id of its farm.
    pub farm: Option<String>,
}

impl Field {
    pub(super) fn of(node: &Node) -> Result<Self, Refused> {
        Ok(Self {
            id: node.needed("A")?.to_owned(),
            code: node.text("B"),
            name: node.needed("C")?.to_owned(),
            area_m2: node.whole("D", 0, u32::MAX.into())?.filter(|area| *area > 0),
            customer: node.text("E"),
            farm: node.text("F"),
        })
    }
}

/// What was sown (`PDT`).
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Product {
    /// Its id within the file.
    pub id: String,
    /// Its name.
    pub name: String,
    /// In what it is counted: an entry of the data dictionary.
    pub quantity_ddi: Option<u16>,
    /// Bulk density, mg/L; version 4 alone.
    pub bulk_density_mg_per_l: Option<i64>,
    /// Thousand-seed mass, mg; version 4 alone.
    pub thousand_seed_mass_mg: Option<i64>,
}

impl Product {
    pub(super) fn of(node: &Node) -> Result<Self, Refused> {
        let most = i64::from(i32::MAX);
        Ok(Self {
            id: node.needed("A")?.to_owned(),
            name: node.needed("B")?.to_owned(),
            quantity_ddi: node.ddi_if("E")?,
            bulk_density_mg_per_l: node.whole("H", 0, most)?.filter(|density| *density > 0),
            thousand_seed_mass_mg: node.whole("I", 0, most)?.filter(|mass| *mass > 0),
        })
    }
}
