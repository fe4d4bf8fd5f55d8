//! The units that are taken, with their exact factors to SI.
//!
//! Factors are fractions of whole numbers, because programs in use disagree on the acre and round the pound
//! (US survey acre against international acre: four parts in a million). Sources: foot and inch, Federal Register
//! 85 FR 62698; acre 4046.8564224 m²; US bushel 2150.42 in³; avoirdupois pound 0.45359237 kg.

use std::{fmt, marker::PhantomData};

use super::{QuantityError, fraction::Fraction};

/// A unit of the dimension `D`, such as [`LB`] or [`KG_PER_HA`].
pub struct Unit<D> {
    name: &'static str,
    factor: Fraction,
    dimension: PhantomData<fn() -> D>,
}

impl<D> Unit<D> {
    const fn new(name: &'static str, numerator: u128, denominator: u128) -> Self {
        Self { name, factor: Fraction::new(numerator, denominator), dimension: PhantomData }
    }

    /// As it is written in the API and on screen: `lb/ac`.
    pub const fn name(&self) -> &'static str {
        self.name
    }

    /// What one of it is in SI, rounded once: 0.45359237 for a pound.
    pub fn in_si(&self) -> f64 {
        self.factor.to_f64()
    }

    pub(super) const fn factor(&self) -> Fraction {
        self.factor
    }
}

// By hand, because a derive would ask the same of the marker `D`.
impl<D> Clone for Unit<D> {
    fn clone(&self) -> Self {
        *self
    }
}
impl<D> Copy for Unit<D> {}
impl<D> PartialEq for Unit<D> {
    fn eq(&self, other: &Self) -> bool {
        self.name == other.name
    }
}
impl<D> Eq for Unit<D> {}
impl<D> fmt::Debug for Unit<D> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "Unit({})", self.name)
    }
}
impl<D> fmt::Display for Unit<D> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(self.name)
    }
}

/// What kind of quantity a number is. Implemented by the markers in [`dimension`] only.
pub trait Dimension: sealed::Sealed + Copy + fmt::Debug + 'static {
    /// In the person's words: "mass", "bulk density".
    const NAME: &'static str;

    /// The units taken, in the order in which a form offers them.
    fn units() -> &'static [Unit<Self>];

    /// The unit of that name; a square may be written as people write it, "m²".
    ///
    /// # Errors
    /// An unknown name, with the names that are known.
    fn unit_named(name: &str) -> Result<Unit<Self>, QuantityError> {
        Self::units()
            .iter()
            .find(|unit| unit.name == name || (unit.name == "m2" && name == "m\u{b2}"))
            .copied()
            .ok_or_else(|| QuantityError::unit(name, Self::NAME, Self::units().iter().map(Unit::name)))
    }

    /// Pounds and ounces may stand together ("5 lb 8 oz").
    #[doc(hidden)]
    fn pound() -> Option<Unit<Self>> {
        None
    }
}

mod sealed {
    pub trait Sealed {}
}

macro_rules! dimensions {
    ($($(#[$doc:meta])* $marker:ident $words:literal { $($name:ident $text:literal = $numerator:literal / $denominator:literal;)+ } $(=> $pound:ident)?)+) => {
        /// Markers that keep a mass from standing where a length is meant. They have no values.
        pub mod dimension {
            $($(#[$doc])* #[derive(Clone, Copy, Debug, PartialEq, Eq)] pub enum $marker {})+
        }
        $(
            $(#[doc = concat!("`", $text, "`")] pub const $name: Unit<dimension::$marker> = Unit::new($text, $numerator, $denominator);)+
            impl sealed::Sealed for dimension::$marker {}
            impl Dimension for dimension::$marker {
                const NAME: &'static str = $words;
                fn units() -> &'static [Unit<Self>] {
                    const UNITS: &[Unit<dimension::$marker>] = &[$($name),+];
                    UNITS
                }
                $(fn pound() -> Option<Unit<Self>> { Some($pound) })?
            }
        )+
    };
}

dimensions! {
    /// Mass; SI kg.
    Mass "mass" {
        G "g" = 1 / 1_000;
        KG "kg" = 1 / 1;
        T "t" = 1_000 / 1;
        OZ "oz" = 45_359_237 / 1_600_000_000;
        LB "lb" = 45_359_237 / 100_000_000;
    } => LB
    /// Length; SI m.
    Length "length" {
        MM "mm" = 1 / 1_000;
        CM "cm" = 1 / 100;
        M "m" = 1 / 1;
        IN "in" = 254 / 10_000;
        FT "ft" = 3_048 / 10_000;
    }
    /// Area; SI m². The acre is the international one.
    Area "area" {
        M2 "m2" = 1 / 1;
        HA "ha" = 10_000 / 1;
        AC "ac" = 40_468_564_224 / 10_000_000;
    }
    /// Speed; SI m/s.
    Speed "speed" {
        KM_PER_H "km/h" = 10 / 36;
        MPH "mph" = 44_704 / 100_000;
        M_PER_S "m/s" = 1 / 1;
    }
    /// Mass of a thousand seeds; in g per thousand, here and everywhere.
    SeedWeight "seed weight (per thousand seeds)" {
        G_PER_THOUSAND "g" = 1 / 1;
    }
    /// Bulk density; SI kg/m³. The bushel is the US one, a volume of 2150.42 cubic inches.
    BulkDensity "bulk density" {
        KG_PER_HL "kg/hL" = 10 / 1;
        G_PER_L "g/L" = 1 / 1;
        LB_PER_BU "lb/bu" = 2_834_952_312_500 / 220_244_188_543;
    }
    /// Seed per area; SI kg/m².
    Rate "rate" {
        KG_PER_HA "kg/ha" = 1 / 10_000;
        LB_PER_AC "lb/ac" = 45_359_237 / 404_685_642_240;
    }
    /// Mass per roller revolution, per run or for the whole unit; SI kg per revolution.
    MeterFactor "meter factor" {
        KG_PER_REV "kg/rev" = 1 / 1;
        G_PER_REV "g/rev" = 1 / 1_000;
        KG_PER_100REV "kg/100rev" = 1 / 100;
        LB_PER_100REV "lb/100rev" = 45_359_237 / 10_000_000_000;
    }
    /// Volume; SI m³.
    Volume "volume" {
        CM3 "cm3" = 1 / 1_000_000;
    }
}
